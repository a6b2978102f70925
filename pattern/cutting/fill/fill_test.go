package fill

import (
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern/length"
)

const mm = length.Millimetre

// tried is what counting through all numbers of all kinds comes to, by the statement alone:
// the greatest worth, then the fewest strips, then more of the wider.
func tried(kinds []kind, left, rip length.Length) (found []int) {
	worth, strips := int64(-1), 0
	counts := make([]int, len(kinds))
	var from func(at int)
	from = func(at int) {
		if at < len(kinds) {
			for n := 0; ; n++ {
				counts[at] = n
				sum, all := -rip, 0
				for i, k := range kinds[:at+1] {
					sum += length.Length(counts[i]) * (k.across + rip)
					all += counts[i]
				}
				if all > 0 && sum > left {
					break
				}
				from(at + 1)
			}
			counts[at] = 0
			return
		}
		w, n := int64(0), 0
		for i, k := range kinds {
			w += int64(k.width) * int64(2*counts[i]+min(counts[i], k.wanted))
			n += counts[i]
		}
		if w > worth || w == worth && (n < strips || n == strips && slices.Compare(counts, found) > 0) {
			worth, strips, found = w, n, slices.Clone(counts)
		}
	}
	from(0)
	return found
}

// The offer of a slice against trying all, on 300 random slices.
func TestBestAgainstAll(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 10))
	filled, several, none := 0, 0, 0
	for n := range 300 {
		var kinds []kind
		for _, w := range rng.Perm(30)[:1+rng.IntN(5)] {
			width := length.Length(15+w)*mm + length.Length(rng.IntN(3))*mm/10
			kinds = append(kinds, kind{across: width + length.Length(rng.IntN(3))*mm/2, width: width, wanted: rng.IntN(3)})
		}
		slices.SortFunc(kinds, func(a, b kind) int { return int(b.width - a.width) })
		left, rip := length.Length(rng.IntN(1400))*mm/10-5*mm, []length.Length{2400, 3200, 0}[rng.IntN(3)]*length.Micrometre
		got, want := best(kinds, left, rip), tried(kinds, left, rip)
		if !slices.Equal(got, want) {
			t.Fatalf("slice %d: %v left of %v, rip %v: %v, want %v", n, left, kinds, rip, got, want)
		}
		used := 0
		for _, c := range got {
			used += min(c, 1)
		}
		switch {
		case used == 0:
			none++
		case used > 1:
			several++
		default:
			filled++
		}
	}
	if filled < 50 || several < 20 || none < 20 {
		t.Errorf("the slices are too tame: %d of one width, %d of several, %d of none", filled, several, none)
	}
}

// By hand: 60 are left and a kerf of 3. Two of 25, which take 26 each, come to 26 + 3 + 26 =
// 55; three of 20 to 3 x 21 + 6 = 69, which is too much, and one of 40 and none beside it to 41.
// A pattern that wants a 40 makes it worth 60, more than two of 25.
func TestBestByHand(t *testing.T) {
	kinds := []kind{{41 * mm, 40 * mm, 0}, {26 * mm, 25 * mm, 0}, {21 * mm, 20 * mm, 0}}
	if got := best(kinds, 60*mm, 3*mm); !slices.Equal(got, []int{0, 2, 0}) {
		t.Errorf("%v", got)
	}
	if got := best(kinds, 55*mm, 3*mm); !slices.Equal(got, []int{0, 2, 0}) {
		t.Errorf("just room: %v", got)
	}
	kinds[0].wanted = 1
	if got := best(kinds, 60*mm, 3*mm); !slices.Equal(got, []int{1, 0, 0}) {
		t.Errorf("wanted: %v", got)
	}
	kinds[0].wanted = 0 // on a tie fewer: one of 40 and two of 20 are worth the same
	if got := best(kinds, 45*mm, 3*mm); !slices.Equal(got, []int{1, 0, 0}) {
		t.Errorf("on a tie: %v", got)
	}
}
