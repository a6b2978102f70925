package rack

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern/length"
)

// A Clear is a rectangle of a piece without a fault in it, as a piece of its own.
type Clear struct {
	Piece               // its id is that of the whole piece, with /1, /2 ... where that has faults
	From  length.Length // of the whole piece's length
	Low   length.Length // of the whole piece's width
}

// Clear returns the clear rectangles of p: near end first, then low edge first. A
// piece without faults is one rectangle and keeps its id. Parts of faults that lie
// outside the piece do not count.
func (p Piece) Clear() []Clear {
	if len(p.Faults) == 0 {
		return []Clear{{Piece: p}}
	}
	var stretches, bands []span
	for _, f := range p.Faults {
		if f.Along {
			bands = append(bands, span{f.From, f.To})
		} else {
			stretches = append(stretches, span{f.From, f.To})
		}
	}
	var clear []Clear
	for _, along := range gaps(p.Length, stretches) {
		for _, across := range gaps(p.Width, bands) {
			c := Clear{Piece: p, From: along.from, Low: across.from}
			c.ID = fmt.Sprintf("%s/%d", p.ID, len(clear)+1)
			c.Length, c.Width, c.Faults = along.to-along.from, across.to-across.from, nil
			clear = append(clear, c)
		}
	}
	return clear
}

type span struct{ from, to length.Length }

// gaps returns what of 0 to whole lies in no fault, in order.
func gaps(whole length.Length, faults []span) []span {
	slices.SortFunc(faults, func(a, b span) int { return cmp.Compare(a.from, b.from) })
	var free []span
	var at length.Length
	for _, f := range faults {
		if f.from > at {
			free = append(free, span{at, min(f.from, whole)})
		}
		at = max(at, f.to)
		if at >= whole {
			return free
		}
	}
	return append(free, span{at, whole})
}
