package colour

import (
	"slices"

	"example.com/oddments/pattern/photo/reading"
)

// Boxes are what was set in a photo. They are a value: a change gives new ones.
type boxes struct {
	papers []reading.Box
	onward bool // from the papers to the pieces
	pieces []set
}

// A set is the box of a piece.
type set struct {
	id  string
	box reading.Box
}

// of returns the box of a piece.
func (b boxes) of(id string) (reading.Box, bool) {
	i := slices.IndexFunc(b.pieces, func(s set) bool { return s.id == id })
	if i < 0 {
		return reading.Box{}, false
	}
	return b.pieces[i].box, true
}

// with returns the boxes with that of a piece, in place of an older one.
func (b boxes) with(id string, box reading.Box) boxes {
	b.pieces = append(slices.DeleteFunc(slices.Clone(b.pieces), func(s set) bool { return s.id == id }), set{id, box})
	return b
}

// without returns the boxes without that of a piece, or without the last paper.
func (b boxes) without(id string) boxes {
	if b.onward {
		b.pieces = slices.DeleteFunc(slices.Clone(b.pieces), func(s set) bool { return s.id == id })
	} else if n := len(b.papers); n > 0 {
		b.papers = b.papers[: n-1 : n-1]
	}
	return b
}

// A side is what the arrows move of the frame.
type side int

const (
	whole side = iota
	left
	right
	top
	bottom
	sides
)

// String names what is moved.
func (s side) String() string {
	return [...]string{"frame", "left side", "right side", "top side", "bottom side"}[s]
}

// leastFrame is how small a frame may be, in pixels of the photo: a box that is read has 8
// each way and 400 in all.
const leastFrame = 20

// moved returns a frame moved, or one side of it, by so many pixels, within a photo of a
// size.
func moved(f reading.Box, s side, dx, dy, wide, high int) reading.Box {
	x0, y0, x1, y1 := f.X, f.Y, f.X+f.W, f.Y+f.H
	switch s {
	case left:
		x0 = max(0, min(x0+dx, x1-leastFrame))
	case right:
		x1 = min(wide, max(x1+dx, x0+leastFrame))
	case top:
		y0 = max(0, min(y0+dy, y1-leastFrame))
	case bottom:
		y1 = min(high, max(y1+dy, y0+leastFrame))
	default:
		f.X, f.Y = max(0, min(f.X+dx, wide-f.W)), max(0, min(f.Y+dy, high-f.H))
		return f
	}
	return reading.Box{X: x0, Y: y0, W: x1 - x0, H: y1 - y0}
}

// A view is the part of a photo that is seen: its top left in pixels, and how many of these a
// point of the screen has.
type view struct{ x, y, per float64 }

// wholeView shows all of a photo of a size in so many points.
func wholeView(wide, high, w, h int) view {
	return view{per: max(float64(wide)/float64(max(1, w)), float64(high)/float64(max(1, h)))}
}

// nearer returns the view so many times as near, about the middle of a frame.
func (v view) nearer(by float64, f reading.Box, wide, high, w, h int) view {
	const nearest = 0.5
	v.per = max(nearest, v.per/by)
	v.x, v.y = float64(f.X)+float64(f.W)/2-v.per*float64(w)/2, float64(f.Y)+float64(f.H)/2-v.per*float64(h)/2
	return v.within(wide, high, w, h)
}

// within returns the view where it shows no more than the photo, as far as that goes.
func (v view) within(wide, high, w, h int) view {
	if all := wholeView(wide, high, w, h); v.per >= all.per || v.per == 0 {
		return all
	}
	v.x = max(0, min(v.x, float64(wide)-v.per*float64(w)))
	v.y = max(0, min(v.y, float64(high)-v.per*float64(h)))
	return v
}

// follow returns the view where the frame is seen, moved no further than that takes.
func (v view) follow(f reading.Box, wide, high, w, h int) view {
	long, tall := v.per*float64(w), v.per*float64(h)
	keep := func(at, room, from, to float64) float64 {
		switch {
		case to-from > room || from < at:
			return from
		case to > at+room:
			return to - room
		}
		return at
	}
	v.x = keep(v.x, long, float64(f.X), float64(f.X+f.W))
	v.y = keep(v.y, tall, float64(f.Y), float64(f.Y+f.H))
	return v.within(wide, high, w, h)
}

// point returns where a pixel lies, in points.
func (v view) point(x, y int) (px, py int) {
	return int((float64(x) - v.x) / v.per), int((float64(y) - v.y) / v.per)
}

// pixel returns the pixel in the middle of a point.
func (v view) pixel(px, py int) (x, y int) {
	return int(v.x + (float64(px)+0.5)*v.per), int(v.y + (float64(py)+0.5)*v.per)
}
