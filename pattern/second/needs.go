package second

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Needs is what a board of a wanted size takes.
type Needs struct {
	Bars       int
	Bar        length.Length   // width as sawn
	Panel      Size            // squared and flattened
	Widths     []length.Length // of the strips
	OverLength length.Length   // what comes out beyond the size that is wanted
	OverWidth  length.Length
}

// ParseSize reads length x width x thickness of a board.
func ParseSize(text string) (Size, error) {
	sides, err := length.Together(strings.Split(text, "x"), length.InMM)
	if err != nil {
		return Size{}, err
	}
	if len(sides) != 3 {
		return Size{}, fmt.Errorf("%q: must be length x width x thickness, like 400 x 300 x 38", text)
	}
	var all [3]length.Length
	for i, most := range [...]length.Length{pattern.MaxLength, pattern.MaxAcross, pattern.MaxAcross} {
		if all[i], err = length.Parse(sides[i]); err != nil {
			return Size{}, err
		}
		if all[i] <= 0 || all[i] > most {
			return Size{}, fmt.Errorf("%s: must be above 0, up to %s", all[i], most)
		}
	}
	return Size{all[0], all[1], all[2]}, nil
}

// tenth is what needs are rounded up to.
const tenth = length.Millimetre / 10

// For returns what a board as large as want takes of p, whose strips keep their
// proportions, in so many bars; with 0, in as many as it takes. It is only told of a
// pattern with one second glue-up.
func For(p pattern.Pattern, want Size, bars int, t Takes) (Needs, bool) {
	if len(p.Seconds) != 1 || len(p.Strips) == 0 {
		return Needs{}, false
	}
	s := p.Seconds[0]
	end := s.Lay == pattern.LayEnd
	across := s.Bar
	if end {
		across = p.Panel.Thickness
	}
	n := Needs{Bars: bars}
	long := want.Length + 2*s.Trim
	if bars > 0 {
		across = tenths(float64(long) / float64(bars))
	} else {
		n.Bars = max(1, int((long+across-1)/across))
	}
	n.OverLength = length.Length(n.Bars)*across - long
	high := want.Thickness + t.Second
	n.Bar, n.Panel.Thickness = across, high
	if end {
		n.Bar, n.Panel.Thickness = high, across
	}
	n.across(p, want, t)
	return n, true
}

// tenths rounds nanometres up to a tenth of a millimetre, which a rounding of the last
// digit does not take one further.
func tenths(nm float64) length.Length {
	return length.Length(math.Ceil(nm/float64(tenth)-1e-9)) * tenth
}

// across sets the widths of the strips, and how long their panel is.
func (n *Needs) across(p pattern.Pattern, want Size, t Takes) {
	g := GlueUp{Second: p.Seconds[0], Bars: n.Bars, kerf: t.Crosscut, saw: mitreOf(p.Seconds[0])}
	g.Bar = n.Bar
	whole := p.Width()
	// wide returns how wide the board comes out of a panel y wide, whose first strip is so
	// wide.
	wide := func(y, first length.Length) length.Length {
		var least, most length.Length = math.MaxInt64, 0
		for i := range min(n.Bars, max(1, len(g.Shift))) {
			shift := g.shift(i, first)
			least, most = min(least, shift), max(most, shift)
		}
		return length.Length(math.Floor(float64(y)/g.saw.sin-g.lost())) - (most - least) - 2*g.Trim
	}
	first := p.Strips[0].Width
	y := tenth * length.Length(sort.Search(int(100*length.Metre/tenth), func(k int) bool {
		y := tenth * length.Length(k)
		return wide(y, scaled(first, y, whole)) >= want.Width
	}))
	for _, s := range p.Strips {
		w := scaled(s.Width, y, whole)
		n.Widths = append(n.Widths, w)
		n.Panel.Width += w
	}
	n.OverWidth = wide(n.Panel.Width, n.Widths[0]) - want.Width
	reach := float64(length.Length(n.Bars)*n.Bar + length.Length(n.Bars-1)*t.Crosscut)
	n.Panel.Length = tenths((reach + float64(n.Panel.Width)*g.saw.cos) / g.saw.sin)
}

// scaled returns a strip's width in a panel y wide, of one whole wide, in tenths rounded up.
func scaled(w, y, whole length.Length) length.Length {
	return tenths(float64(w) * float64(y) / float64(whole))
}
