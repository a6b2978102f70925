package solve

import "math/bits"

// A tally holds a count of each kind, side by side in two words, so that whether a
// take is within what is left is one subtraction. What is left has a guard bit set
// above each count: one that would fall below zero clears it.
type tally [2]uint64

// A tallying says where the counts of a timber's kinds stand in a tally.
type tallying struct {
	places []tallyPlace // of each kind
	guard  tally
	whole  bool // every kind has found room; else tallies only say what surely is not within
}

// A tallyPlace is where a kind's count stands; below 0 it has none.
type tallyPlace struct {
	word  int8
	shift uint8
	mask  uint64
}

// newTallying makes room for counts up to want, for the kinds in this order.
func newTallying(want, order []int32) tallying {
	t := tallying{places: make([]tallyPlace, len(want)), whole: true}
	var used [2]int
	for _, k := range order {
		width := bits.Len32(uint32(want[k]))
		word := 0
		if used[0]+width+1 > 64 {
			word = 1
		}
		if used[word]+width+1 > 64 {
			t.places[k].word, t.whole = -1, false
			continue
		}
		t.places[k] = tallyPlace{int8(word), uint8(used[word]), 1<<width - 1}
		used[word] += width + 1
		t.guard[word] |= 1 << (used[word] - 1)
	}
	return t
}

// of returns the tally of a take.
func (t *tallying) of(k take) tally {
	var sum tally
	for _, q := range k {
		if p := t.places[q.kind]; p.word >= 0 {
			sum[p.word] += uint64(uint32(q.count)) << p.shift
		}
	}
	return sum
}

// counted returns the tally of a count of each kind.
func (t *tallying) counted(counts []int32) tally {
	var sum tally
	for k, n := range counts {
		if p := t.places[k]; p.word >= 0 {
			sum[p.word] += uint64(uint32(n)) << p.shift
		}
	}
	return sum
}

// left returns the tally of what is left, none of it below 0.
func (t *tallying) left(left []int32) tally {
	sum := t.guard
	for k, n := range left {
		if p := t.places[k]; p.word >= 0 {
			sum[p.word] += uint64(uint32(n)) << p.shift
		}
	}
	return sum
}

// count returns how many of a kind are left; the kind has a place.
func (t *tallying) count(left tally, kind int32) int32 {
	p := t.places[kind]
	return int32(left[p.word] >> p.shift & p.mask)
}

// less takes some out of what is left, guards set, and reports whether it was within.
func (t tally) less(some, guard tally) (tally, bool) {
	rest := tally{t[0] - some[0], t[1] - some[1]}
	return rest, ^rest[0]&guard[0]|^rest[1]&guard[1] == 0
}
