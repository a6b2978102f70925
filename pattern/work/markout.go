package work

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// A MarkOut is every centre measured from one datum, so that no error adds to the
// next: the tape is hooked on the near end of one strip, the square on edge A.
type MarkOut struct {
	Hook      int           // strip, from 1; 0: nothing to mark
	HookStart length.Length // where its near end lies, from the datum end
	Marks     []Mark
	Blanks    []Blank
}

// A Mark is a centre: so far from the hook along the grain, so far from edge A across.
type Mark struct {
	Product, Copy    int
	FromHook, FromA  length.Length
	Slide            length.Length // it may lie so much further, to dodge a knot
	SlidesToFromHook length.Length
}

// A Blank is what a crosscut between two bands parts off, over the panel's width; the
// last ends with the panel where nothing is left to cut off.
type Blank struct {
	Product       int
	From          length.Length // from the datum end
	Length, Width length.Length
}

// To returns where it ends, from the datum end.
func (b Blank) To() length.Length { return b.From + b.Length }

// MarkOutOf returns the mark-out of a layout on p. The hook is the strip that binds the
// first copy that one binds, since its end is the one that matters. allowance is what
// strips without a length of their own are longer than the panel.
func MarkOutOf(p pattern.Pattern, allowance length.Length, layout outline.Layout, gap length.Length) MarkOut {
	var m MarkOut
	if len(layout.Placed) == 0 {
		return m
	}
	m.Hook = 1
	for _, at := range layout.Placed {
		if at.BindingStrip > 0 {
			m.Hook = at.BindingStrip
			break
		}
	}
	m.HookStart = p.Strips[m.Hook-1].Start
	for _, at := range layout.Placed {
		m.Marks = append(m.Marks, Mark{Product: at.Product, Copy: at.Copy, FromHook: at.Along - m.HookStart, FromA: at.Across,
			Slide: at.Slide, SlidesToFromHook: at.Along + at.Slide - m.HookStart})
	}
	from, far := p.Strips[0].Start, length.Length(0)
	for _, s := range p.Strips {
		from, far = min(from, s.Start), max(far, s.Start+p.StripLength(s, allowance))
	}
	for _, b := range layout.Bands {
		to := min(far, b.End+gap/2) // the cut runs in the middle of the gap
		m.Blanks = append(m.Blanks, Blank{Product: b.Product, From: from, Length: to - from, Width: p.Width()})
		from = to
	}
	return m
}
