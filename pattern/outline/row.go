package outline

import (
	"cmp"
	"slices"
	"sort"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A span is where one strip lies, and the joints of its pieces.
type span struct {
	low, high, near, far length.Length
	joints               []pattern.Joint
}

// around returns the ends of the piece of s that what lies between two places lies on.
func (s span) around(from, to length.Length) (near, far length.Length) {
	near, far = s.near, s.far
	for _, j := range s.joints {
		if j.To <= from {
			near = j.To
		}
		if j.From >= to {
			far = min(far, j.From)
		}
	}
	return near, far
}

// A frame is a panel with what must be kept clear of.
type frame struct {
	spans  []span // from edge A
	width  length.Length
	avoids []pattern.Avoid
	cut    Cut
}

func newFrame(p pattern.Pattern, allowance length.Length, avoids []pattern.Avoid, cut Cut) frame {
	f := frame{avoids: avoids, cut: cut, spans: make([]span, len(p.Strips))}
	for i, s := range p.Strips {
		f.spans[i] = span{low: f.width, high: f.width + s.Width, near: s.Start, far: s.Start + p.StripLength(s, allowance), joints: s.Joints.All()}
		f.width += s.Width
	}
	return f
}

// shared returns the length that all strips have side by side; far is below near where
// there is none.
func (f frame) shared() (near, far length.Length) {
	if len(f.spans) == 0 {
		return 0, 0
	}
	near, far = f.spans[0].near, f.spans[0].far
	for _, s := range f.spans {
		near, far = max(near, s.near), min(far, s.far)
	}
	return near, far
}

// ragged reports whether two strips end at different places.
func (f frame) ragged() bool {
	return slices.ContainsFunc(f.spans, func(s span) bool {
		return s.near != f.spans[0].near || s.far != f.spans[0].far
	})
}

// A body is what of a product counts for laying it.
type body struct {
	shape         Shape
	along, across length.Length
}

func bodyOf(p pattern.Product) body {
	s := ShapeOf(p)
	along, across := s.Size()
	return body{s, along, across}
}

// touched returns the first strip that a body with its low edge at side touches, and
// the one after the last. A strip met in a mere line is not touched.
func (f frame) touched(b body, side length.Length) (first, after int) {
	first = sort.Search(len(f.spans), func(i int) bool { return f.spans[i].high > side })
	after = sort.Search(len(f.spans), func(i int) bool { return f.spans[i].low >= side+b.across })
	return first, after
}

// inset returns how far within the body's own length the end of strip s may lie at
// least: half of what its longest chord within the strip is shorter than the body, in
// whole nanometres rounded down. It is 0 for a rectangle.
func (b body) inset(side length.Length, s span) length.Length {
	// In half nanometres, so that the centre is whole.
	centre := 2*side + b.across
	off := max(0, 2*s.low-centre, centre-2*s.high)
	return floorHalf(b.along - b.shape.Chord(off))
}

// An interval is open: a body's left edge may lie at from and at to.
type interval struct{ from, to length.Length }

// A row is where bodies of one kind may stand side by side along the grain, by their
// left edges.
type row struct {
	side         length.Length   // the low edge of its bodies
	outside      length.Length   // how far a body would overstep the side margins
	least, most  length.Length   // left edges that the strips allow
	binding      int             // the strip, from 1, that sets least
	blocked      []interval      // apart, ascending
	touches, end int             // strips, from 0, and the one after the last
	insets       []length.Length // body.inset of each of these
	behind       []behindJoint   // left edges that a joint of these strips sets, strip by strip
}

// A behindJoint is the first left edge behind a joint of a strip, from 1.
type behindJoint struct {
	left  length.Length
	strip int
}

// binds returns the lowest strip, from 1, whose end keeps a body with such a left edge from
// lying nearer the datum end; 0: none does.
func (r row) binds(left length.Length) int {
	if left == r.least {
		return r.binding
	}
	for _, b := range r.behind {
		if b.left == left {
			return b.strip
		}
	}
	return 0
}

func (f frame) row(b body, side length.Length) row {
	r := row{side: side}
	r.outside = max(0, f.cut.SideMargin-side, side+b.across-(f.width-f.cut.SideMargin))
	r.touches, r.end = f.touched(b, side)
	for i := r.touches; i < r.end; i++ {
		s, inset := f.spans[i], b.inset(side, f.spans[i])
		r.insets = append(r.insets, inset)
		least := s.near + f.cut.EndMargin - inset
		most := s.far - f.cut.EndMargin - b.along + inset
		if r.binding == 0 || least > r.least {
			r.least, r.binding = least, i+1
		}
		if i == r.touches || most < r.most {
			r.most = most
		}
		for _, j := range s.joints { // an end of both pieces
			block := interval{j.From - f.cut.EndMargin - b.along + inset, j.To + f.cut.EndMargin - inset}
			if block.from < block.to {
				r.blocked = append(r.blocked, block)
				r.behind = append(r.behind, behindJoint{block.to, i + 1})
			}
		}
	}
	for _, a := range f.avoids {
		if block, ok := b.blockedBy(a, side); ok {
			r.blocked = append(r.blocked, block)
		}
	}
	r.blocked = joined(r.blocked)
	return r
}

// open reports whether the row keeps the side margins and lies on strips.
func (r row) open() bool { return r.outside == 0 && r.binding > 0 }

// blockedBy returns the left edges at which the body would meet a.
func (b body) blockedBy(a pattern.Avoid, side length.Length) (interval, bool) {
	// In half nanometres: how far apart the centres lie across, and how far along from
	// the circle's the body's must keep.
	off := 2*a.Across - (2*side + b.across)
	if off < 0 {
		off = -off
	}
	keep, meets := b.shape.Keep(2*a.Radius, off)
	if !meets {
		return interval{}, false
	}
	middle := 2*a.Along - b.along
	return interval{floorHalf(middle - keep), ceilHalf(middle + keep)}, true
}

// joined sorts intervals and joins those that overlap.
func joined(list []interval) []interval {
	slices.SortFunc(list, func(a, b interval) int { return cmp.Compare(a.from, b.from) })
	out := list[:0]
	for _, i := range list {
		if last := len(out) - 1; last >= 0 && i.from < out[last].to {
			out[last].to = max(out[last].to, i.to)
			continue
		}
		out = append(out, i)
	}
	return out
}

// earliest returns the first left edge at or after from that nothing blocks, whether
// or not the strips reach so far.
func (r row) earliest(from length.Length) length.Length {
	from = max(from, r.least)
	for _, b := range r.blocked {
		if b.from < from && from < b.to {
			from = b.to
		}
	}
	return from
}

// latest returns the last left edge at or before from that nothing blocks.
func (r row) latest(from length.Length) length.Length {
	from = min(from, r.most)
	for _, b := range slices.Backward(r.blocked) {
		if b.from < from && from < b.to {
			from = b.from
		}
	}
	return from
}
