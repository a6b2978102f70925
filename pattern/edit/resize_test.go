package edit_test

import (
	"cmp"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
)

// laid returns a pattern of strips by letters, each letter with its width in mm; a
// capital letter is pinned.
func laid(letters string, widths map[rune]int) pattern.Pattern {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 400 * mm, Thickness: 22 * mm}}
	for _, r := range letters {
		low := []rune(strings.ToLower(string(r)))[0]
		p.Strips = append(p.Strips, pattern.Strip{Species: string(low), Width: length.Length(widths[low]) * mm, Pinned: low != r})
	}
	return p
}

// spelled returns the strips back as letters, with their widths in mm.
func spelled(p pattern.Pattern) (letters string, widths []int) {
	for _, s := range p.Strips {
		l := s.Species
		if s.Pinned {
			l = strings.ToUpper(l)
		}
		letters, widths = letters+l, append(widths, int(s.Width/mm))
	}
	return letters, widths
}

func TestResizeByHand(t *testing.T) {
	widths := map[rune]int{'m': 25, 'w': 10, 'c': 40}
	for _, c := range []struct {
		name, letters string
		to            edit.Size
		want          string
		wide          []int
		changes       int
	}{
		// m w m w m = 95; the repeat m w is 35: two more come to 165.
		{"repeats", "mwmwm", edit.Size{Width: 165 * mm, Step: mm}, "mwmwmwmwm", []int{25, 10, 25, 10, 25, 10, 25, 10, 25}, 4},
		{"fewer repeats", "mwmwm", edit.Size{Width: 60 * mm, Step: mm}, "mwm", []int{25, 10, 25}, 2},
		// By 190/95 every strip is twice as wide.
		{"widths", "mwmwm", edit.Size{Width: 190 * mm, Step: mm, Way: edit.Widths}, "mwmwm", []int{50, 20, 50, 20, 50}, 5},
		// Scaled by 100/95 the strips are 26.32 and 10.53: 3 of 26 and 2 of 11 are 100.
		{"rounded", "mwmwm", edit.Size{Width: 100 * mm, Step: mm, Way: edit.Widths}, "mwmwm", []int{26, 11, 26, 11, 26}, 5},
		// Neither repeats nor is anything but the maple free: 130 - 40 - 20 = 70 for two.
		{"pinned", "mWCWm", edit.Size{Width: 130 * mm, Step: mm}, "mWCWm", []int{35, 10, 40, 10, 35}, 2},
		// The left walnut is pinned; its mirror image keeps its width as well. 110 for what
		// is 90 wide: 30.56 and 48.89; 31 and 48 are 1.78 away in all, 30 and 50 2.22.
		{"pinned, and its mirror image", "mWcwm", edit.Size{Width: 130 * mm, Step: mm, Way: edit.Widths}, "mWcwm", []int{31, 10, 48, 10, 31}, 3},
		// Both halves of the mirror image lose a repeat: 2 x 35 off 2 x 70 + 40.
		{"mirror", "mwmwcwmwm", edit.Size{Width: 110 * mm, Step: mm}, "mwcwm", []int{25, 10, 40, 10, 25}, 4},
		// Strips of 50 in place of 25, walnut in proportion; then 190 is two repeats of 70 too much.
		{"strip width", "mwmwmwm", edit.Size{Strip: 50 * mm, Step: mm}, "mwmwmwm", []int{50, 20, 50, 20, 50, 20, 50}, 7},
		{"strip width and width", "mwmwmwm", edit.Size{Width: 120 * mm, Strip: 50 * mm, Step: mm}, "mwm", []int{50, 20, 50}, 7},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := edit.Resize(laid(c.letters, widths), c.to)
			if err != nil {
				t.Fatal(err)
			}
			got, wide := spelled(r.Pattern)
			if got != c.want || !slices.Equal(wide, c.wide) || len(r.Changes) != c.changes {
				t.Errorf("%s %v, want %s %v; %d changes, want %d: %+v", got, wide, c.want, c.wide, len(r.Changes), c.changes, r.Changes)
			}
			if c.to.Width > 0 && r.Pattern.Panel.Width != c.to.Width {
				t.Errorf("wanted width %v", r.Pattern.Panel.Width)
			}
		})
	}
}

func TestResizeRefuses(t *testing.T) {
	widths := map[rune]int{'m': 25, 'w': 10, 'c': 40}
	for _, c := range []struct {
		name, letters, want string
		to                  edit.Size
	}{
		{"draft", "", "put one in first", edit.Size{Width: 100 * mm, Step: mm}},
		{"nothing asked", "mwm", "no width set", edit.Size{Step: mm}},
		{"as it is", "mwm", "60 mm wide already", edit.Size{Width: 60 * mm, Step: mm}},
		{"all pinned", "MWM", "every strip is pinned", edit.Size{Width: 70 * mm, Step: mm, Way: edit.Widths}},
		{"no repeat", "mwc", "nothing in the pattern repeats", edit.Size{Width: 70 * mm, Step: mm, Way: edit.Repeats}},
		// Four strips of one width come to multiples of 4 mm.
		{"no whole steps", "mmmm", "no strip widths of whole steps of 1 mm add up to 102 mm within 0 mm: 100 mm is the nearest",
			edit.Size{Width: 102 * mm, Step: mm, Way: edit.Widths}},
		// 95 and steps of 35.
		{"no repeats", "mwmwm", "no number of repeats adds up to 110 mm within 4 mm: 130 mm is the nearest",
			edit.Size{Width: 110 * mm, Tolerance: 4 * mm, Step: mm, Way: edit.Repeats}},
		{"too narrow", "mwmwm", "5 mm is the nearest", edit.Size{Width: 4 * mm, Step: mm, Way: edit.Widths}},
		{"pins", "MWMWM", "pins", edit.Size{Width: 60 * mm, Step: mm, Way: edit.Repeats}},
		{"no step", "mwm", "step 0 mm: must be", edit.Size{Width: 70 * mm}},
		{"too wide", "mwm", "must be 0 mm to 2000 mm", edit.Size{Width: 3000 * mm, Step: mm}},
		{"too fine", "mwm", "too fine", edit.Size{Width: 300 * mm, Step: 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if _, err := edit.Resize(laid(c.letters, widths), c.to); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
}

// Every choice of widths is tried, and the best by the rule must be what Resize gives.
func TestResizeWidthsAgainstAllChoices(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 30))
	fit, none := 0, 0
	for n := range 250 {
		widths := map[rune]int{'a': 2 + rng.IntN(8), 'b': 2 + rng.IntN(8), 'c': 2 + rng.IntN(8)}
		letters := ""
		for range 1 + rng.IntN(6) {
			letters += string("abcabcABC"[rng.IntN(9)])
		}
		if rng.IntN(2) == 0 {
			letters += mirrored(letters[:len(letters)-rng.IntN(2)])
		}
		p := laid(letters, widths)
		to := edit.Size{Width: length.Length(10+rng.IntN(40)) * mm, Tolerance: length.Length(rng.IntN(3)) * mm,
			Step: []length.Length{mm, 2 * mm}[rng.IntN(2)], Way: edit.Widths}
		if to.Width == p.Width() {
			continue
		}
		want, any := bestWidths(p, to)
		got, err := edit.Resize(p, to)
		if any && strings.Contains(errorText(err), "nothing is to be changed") {
			if want.away != 0 && slices.ContainsFunc(p.Strips, func(s pattern.Strip) bool { return !s.Pinned }) && want.now != p.Width() {
				t.Fatalf("case %d: %v, and %+v would be better", n, err, want)
			}
			continue
		}
		if any != (err == nil) {
			t.Fatalf("case %d: %s %v to %+v: %v, a choice there is: %v", n, letters, widths, to, err, any)
		}
		if !any {
			none++
			continue
		}
		fit++
		if now := judged(p, got.Pattern, to); now != want {
			t.Fatalf("case %d: %s %v to %+v: %+v, the best is %+v", n, letters, widths, to, now, want)
		}
		checkResized(t, p, got)
	}
	t.Logf("%d fit, %d do not", fit, none)
	if fit < 100 || none < 40 {
		t.Error("too few cases of one sort")
	}
}

func errorText(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func mirrored(s string) string {
	out := []rune(strings.ToLower(s))
	slices.Reverse(out)
	return string(out)
}

// A judgement is what widths are weighed by, the first first.
type judgement struct{ away, off, now length.Length }

// stays reports whether strip i keeps its width.
func stays(p pattern.Pattern, i int) bool {
	n := len(p.Strips)
	mirror := true
	for j := range n {
		mirror = mirror && p.Strips[j].Species == p.Strips[n-1-j].Species
	}
	return p.Strips[i].Pinned || mirror && p.Strips[n-1-i].Pinned
}

// judged weighs the strips of now against those of p scaled.
func judged(p, now pattern.Pattern, to edit.Size) judgement {
	var fixed, open length.Length
	for i, s := range p.Strips {
		if stays(p, i) {
			fixed += s.Width
		} else {
			open += s.Width
		}
	}
	j := judgement{off: max(now.Width()-to.Width, to.Width-now.Width()), now: now.Width()}
	for i, s := range p.Strips {
		if !stays(p, i) {
			want := (s.Width*max(0, to.Width-fixed) + open/2) / open
			j.away += max(now.Strips[i].Width-want, want-now.Strips[i].Width)
		}
	}
	return j
}

// bestWidths tries every width of every sort of strips.
func bestWidths(p pattern.Pattern, to edit.Size) (best judgement, any bool) {
	var sorts []length.Length
	for i, s := range p.Strips {
		if !stays(p, i) && !slices.Contains(sorts, s.Width) {
			sorts = append(sorts, s.Width)
		}
	}
	now := p
	now.Strips = slices.Clone(p.Strips)
	var try func(sort int)
	try = func(sort int) {
		if sort == len(sorts) {
			j := judged(p, now, to)
			if j.off <= to.Tolerance && (!any || cmp.Or(cmp.Compare(j.away, best.away), cmp.Compare(j.off, best.off), cmp.Compare(j.now, best.now)) < 0) {
				best, any = j, true
			}
			return
		}
		for w := to.Step; w <= to.Width+to.Tolerance; w += to.Step {
			for i, s := range p.Strips {
				if !stays(p, i) && s.Width == sorts[sort] {
					now.Strips[i].Width = w
				}
			}
			try(sort + 1)
		}
	}
	if len(sorts) > 0 {
		try(0)
	}
	return best, any
}

// checkResized holds what must be so whatever the way.
func checkResized(t *testing.T, was pattern.Pattern, got edit.Resized) {
	t.Helper()
	pins := func(p pattern.Pattern) (out []pattern.Strip) {
		for _, s := range p.Strips {
			if s.Pinned {
				out = append(out, s)
			}
		}
		return out
	}
	if !slices.Equal(pins(was), pins(got.Pattern)) {
		t.Fatalf("pinned strips %v became %v", pins(was), pins(got.Pattern))
	}
	if isMirror(was) && !isMirror(got.Pattern) {
		t.Fatalf("the mirror image is lost: %+v", got.Pattern.Strips)
	}
	// The changes tell how to come from one to the other.
	count := len(was.Strips)
	sum := was.Width()
	for _, c := range got.Changes {
		sum += c.WidthNow - c.WidthWas
		switch {
		case c.Was == 0:
			count++
		case c.Now == 0:
			count--
		}
		if c.Was > 0 && was.Strips[c.Was-1].Width != c.WidthWas || c.Now > 0 && got.Pattern.Strips[c.Now-1] != c.Strip {
			t.Fatalf("%+v does not tell of its strip", c)
		}
	}
	if count != len(got.Pattern.Strips) || sum != got.Pattern.Width() {
		t.Fatalf("the changes come to %d strips and %v, there are %d and %v", count, sum, len(got.Pattern.Strips), got.Pattern.Width())
	}
}

func isMirror(p pattern.Pattern) bool {
	n := len(p.Strips)
	for i := range n / 2 {
		if a, b := p.Strips[i], p.Strips[n-1-i]; a.Species != b.Species || a.Width != b.Width {
			return false
		}
	}
	return true
}

// Every unit, wherever it begins and however long it is, is repeated up to ten times.
func TestResizeRepeatsAgainstAllRepeats(t *testing.T) {
	rng := rand.New(rand.NewPCG(12, 5))
	fit, none, mirror, pins := 0, 0, 0, 0
	for n := range 300 {
		widths := map[rune]int{'a': 5 + rng.IntN(9), 'b': 5 + rng.IntN(9), 'c': 5 + rng.IntN(9)}
		unit, letters := "", ""
		for range 1 + rng.IntN(3) {
			unit += string("abc"[rng.IntN(3)])
		}
		letters = "abc"[:rng.IntN(3)] + strings.Repeat(unit, 1+rng.IntN(4)) + "cab"[:rng.IntN(3)]
		if rng.IntN(2) == 0 {
			letters += mirrored(letters[:len(letters)-rng.IntN(2)])
		}
		if at := rng.IntN(len(letters)); rng.IntN(3) == 0 {
			letters = letters[:at] + strings.ToUpper(letters[at:at+1]) + letters[at+1:]
		}
		p := laid(letters, widths)
		to := edit.Size{Width: length.Length(10+rng.IntN(95)) * mm, Tolerance: length.Length(rng.IntN(5)) * mm, Step: mm, Way: edit.Repeats}
		if to.Width == p.Width() {
			continue
		}
		off, strips, any := bestRepeats(letters, widths, to)
		got, err := edit.Resize(p, to)
		if any && err != nil || !any && err == nil && strings.ToLower(letters) == letters {
			t.Fatalf("case %d: %s %v to %v ± %v: %v, repeats there are: %v", n, letters, widths, to.Width, to.Tolerance, err, any)
		}
		if err != nil {
			none++
			continue
		}
		fit++
		now := got.Pattern
		gotOff, gotStrips := max(now.Width()-to.Width, to.Width-now.Width()), max(len(now.Strips)-len(letters), len(letters)-len(now.Strips))
		// With pins, repeats of several beginnings may go, which is more than is tried here.
		exact := strings.ToLower(letters) == letters
		if c := cmp.Or(cmp.Compare(gotOff, off), cmp.Compare(gotStrips, strips)); any && (c > 0 || exact && c != 0) || gotOff > to.Tolerance {
			t.Fatalf("case %d: %s %v to %v: off by %v with %d strips, the best is off by %v with %d", n, letters, widths, to.Width, gotOff, gotStrips, off, strips)
		}
		checkResized(t, p, got)
		if isMirror(p) {
			mirror++
		}
		if !exact {
			pins++
		}
	}
	t.Logf("%d fit, %d do not; %d mirror images, %d with a pin", fit, none, mirror, pins)
	if fit < 60 || none < 60 || mirror < 25 || pins < 10 {
		t.Error("too few cases of one sort")
	}
}

// bestRepeats returns how far the best is off, and how many strips it adds or takes out.
func bestRepeats(letters string, widths map[rune]int, to edit.Size) (off length.Length, strips int, any bool) {
	n := len(letters)
	low := strings.ToLower(letters)
	mirror := low == mirrored(low)
	judge := func(now string, gone string) {
		if mirror && now != mirrored(now) || strings.ToLower(gone) != gone || now == low {
			return
		}
		p := laid(now, widths)
		d, s := max(p.Width()-to.Width, to.Width-p.Width()), max(len(now)-n, n-len(now))
		if d <= to.Tolerance && (!any || cmp.Or(cmp.Compare(d, off), cmp.Compare(s, strips)) < 0) {
			off, strips, any = d, s, true
		}
	}
	for from := range n {
		for period := 1; from+2*period <= n; period++ {
			unit := low[from : from+period]
			for r := 2; from+r*period <= n && low[from+(r-1)*period:from+r*period] == unit; r++ {
				until := from + r*period
				for now := 1; now <= 22; now++ {
					cut := ""
					if now < r { // those at the right end go
						cut = letters[from+now*period : until]
					}
					judge(low[:from]+strings.Repeat(unit, now)+low[until:], cut)
					if mirror && until <= n/2 {
						half := low[:from] + strings.Repeat(unit, now) + low[until:n/2]
						far := ""
						if now < r {
							far = letters[n-until : n-from-now*period]
						}
						judge(half+low[n/2:n-n/2]+mirrored(half), cut+far)
					}
				}
			}
		}
	}
	return off, strips, any
}

// Budget: 2 ms, as for a key; 60 strips.
func BenchmarkResize(b *testing.B) {
	p := laid(strings.Repeat("mwc", 20), map[rune]int{'m': 25, 'w': 10, 'c': 7})
	for _, way := range []edit.Way{edit.Widths, edit.Repeats} {
		b.Run(way.String(), func(b *testing.B) {
			for b.Loop() {
				if _, err := edit.Resize(p, edit.Size{Width: 1050 * mm, Tolerance: 10 * mm, Step: mm, Way: way}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
