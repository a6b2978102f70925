package export

import (
	"example.com/oddments/pattern"
)

// A gap is where two pieces of a strip meet: nothing but a line where they touch.
type gap struct{ from, to float64 }

// joints draws where the pieces of strips meet in a part of the wood: what stands open true
// to scale, a thin line where pieces touch.
func (l *layout) joints(at point, in area) {
	for _, k := range l.wood.planks {
		top, low := at.y+max(k.y0, in.y0), at.y+min(k.y1, in.y1)
		for _, g := range k.gaps {
			from, to := at.x+max(g.from, in.x0), at.x+min(g.to, in.x1)
			if from > to || top >= low {
				continue
			}
			if from < to {
				l.add(fillOp{rectangle(from, top, to, low), l.ground})
			}
			thin := min(l.size/16, (low-top)/16)
			l.add(strokeOp{[]point{{from, top}, {from, low}}, false, thin, ink, false})
			l.add(strokeOp{[]point{{to, top}, {to, low}}, false, thin, ink, false})
		}
	}
}

// leastName is how small the name of a piece may be, in parts of the letters beside it.
const leastName = 0.4

// pieceNames writes 4a, 4b along the strips that are in pieces, where they are wide enough.
func (l *layout) pieceNames(at point) {
	for _, k := range l.wood.planks {
		size := min(l.size, 0.75*(k.y1-k.y0))
		if size < leastName*l.size {
			continue
		}
		from := k.x0
		for i := range len(k.gaps) + 1 {
			if len(k.gaps) == 0 {
				break
			}
			to := k.x1
			if i < len(k.gaps) {
				to = k.gaps[i].from
			}
			name := pattern.PieceName(k.number, i+1)
			if x := from + 0.3*size; x+wide(name, size) < to {
				l.tagOf(point{at.x + x, at.y + (k.y0+k.y1)/2 + 0.35*size}, name, size)
			}
			if i < len(k.gaps) {
				from = k.gaps[i].to
			}
		}
	}
}

// within returns the part of the wood between its furthest ends.
func (w wood) within() area { return area{box{}, w.x0, 0, w.x1, w.high} }
