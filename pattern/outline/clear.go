package outline

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// A Clearance is what lies between a placed copy and what ends beside it.
type Clearance struct {
	Side      length.Length // to the nearer of edge A and the edge opposite
	Near, Far length.Length // to the nearest end of the strips that it touches, along each
	NearStrip int           // the lowest strip, from 1, whose near end that is
	FarStrip  int           // likewise at the far end
}

// ClearanceOf returns the clearance of a copy of product that is placed on p. allowance
// is what strips without a length of their own are longer than the panel.
func ClearanceOf(p pattern.Pattern, allowance length.Length, product pattern.Product, at Placed) Clearance {
	f := newFrame(p, allowance, nil, Cut{})
	b := bodyOf(product)
	c := Clearance{Side: min(at.Side, f.width-at.Side-b.across)}
	first, after := f.touched(b, at.Side)
	for i := first; i < after; i++ {
		s, inset := f.spans[i], b.inset(at.Side, f.spans[i])
		from, to := at.From+inset, at.From+b.along-inset
		near, end := s.around(from, to)
		near, end = from-near, end-to
		if c.NearStrip == 0 || near < c.Near {
			c.Near, c.NearStrip = near, i+1
		}
		if c.FarStrip == 0 || end < c.Far {
			c.Far, c.FarStrip = end, i+1
		}
	}
	return c
}

// A Stop says what keeps a copy from lying nearer the datum end.
type Stop int

// What a copy may be stopped by.
const (
	ByStrip     Stop = iota // the end of its binding strip
	ByNeighbour             // a copy before it, or the band before
	ByKnot                  // a circle to avoid, or a hand that holds it
)

// String returns strip, neighbour or knot.
func (s Stop) String() string { return tell.Word(s, "stop", "strip", "neighbour", "knot") }

// StopOf says what keeps copy i of l.Placed from lying nearer the datum end, products
// laid with gap between them.
func StopOf(l Layout, i int, products []pattern.Product, gap length.Length) Stop {
	at := l.Placed[i]
	if at.BindingStrip > 0 {
		return ByStrip
	}
	staggered := slices.ContainsFunc(l.Bands, func(b Band) bool { return b.Product == at.Product && b.Staggered })
	for _, other := range l.Placed {
		along, _ := ShapeOf(products[other.Product-1]).Size()
		pitch := along + gap
		apart := at.From - other.From
		if apart == pitch || staggered && other.Product == at.Product && apart == ceilHalf(pitch) {
			return ByNeighbour
		}
	}
	return ByKnot
}
