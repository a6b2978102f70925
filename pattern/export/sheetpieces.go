package export

import (
	"fmt"
	"html/template"

	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

// onPaper returns an empty drawing of so many millimetres of wood, with letters of 2.4 mm
// on paper, and how much of a millimetre on paper one of wood is: so much that the
// drawing is no wider than most.
func onPaper(j Job, wood, most float64) (l *layout, perMM float64) {
	perMM = min(0.4, most/wood)
	l = &layout{job: j, size: 2.4 / perMM}
	l.margin = 0.4 * l.size
	return l, perMM
}

// waste hatches a rectangle with an edge.
func (l *layout) waste(box []point) {
	l.add(hatchOp{box, l.size})
	l.add(strokeOp{box, true, l.size / 12, ink, false})
}

// part draws a rectangle that is used, with a text in its middle where it finds room.
func (l *layout) part(box []point, edge float64, text string) {
	l.add(fillOp{box, paper})
	l.add(strokeOp{box, true, edge, ink, false})
	a, b := box[0], box[2]
	if text != "" && wide(text, l.size) < b.x-a.x {
		l.add(textOp{at: point{(a.x + b.x) / 2, (a.y+b.y)/2 + 0.35*l.size}, size: l.size, text: text, colour: ink, middle: true})
	}
}

// ink writes a line.
func (l *layout) ink(at point, text string) {
	l.add(textOp{at: at, size: l.size, text: text, colour: ink})
}

// endOn draws the end of a piece: each way its sections are sawn up, once.
func endOn(j Job, d worksteps.Detail, n int) []template.HTML {
	var out []template.HTML
	seen := map[int]bool{}
	for _, s := range d.Sections {
		if !seen[s.Set] {
			seen[s.Set] = true
			out = append(out, endOnSection(j, d, s, fmt.Sprintf("e%d.%d", n, s.Set)))
		}
	}
	return out
}

// endOnSection draws one section end on: its slices one below the other as they are
// sawn, the strips side by side in each.
func endOnSection(j Job, d worksteps.Detail, s worksteps.SectionDetail, id string) template.HTML {
	u, across, through := j.Unit, s.Across.MM(), s.Through.MM()
	l, perMM := onPaper(j, across, 62)
	size := l.size
	room := 5.2 * size // beside it, for thicknesses
	l.wide, l.high = across+2*l.margin+room, through+2*l.margin+1.6*size
	x, y := l.margin, l.margin+1.4*size
	beside := x + across + 0.5*size
	l.ink(point{x, y - 0.4*size}, s.Across.With(u)+" wide")
	l.waste(rectangle(x, y, x+across, y+through))
	strips := 0
	for _, sl := range s.Slices {
		top, high := y+sl.From.MM(), sl.Comes.MM()
		slice := rectangle(x, top, x+across, top+high)
		l.add(hatchOp{slice, size})
		for _, st := range sl.Strips {
			text := st.Name()
			switch {
			case size >= high:
				text = ""
			case j.boards != nil:
				text = fmt.Sprintf("%d/%s", j.boards[st.Pattern], text)
			case len(j.Stock.Patterns) > 1 && st.Pattern != j.Stem:
				text = "*"
			}
			l.part(rectangle(x+st.From.MM(), top, x+(st.From+st.Ripped).MM(), top+high), size/12, text)
		}
		strips += len(sl.Strips)
		l.add(strokeOp{slice, true, size / 12, ink, false})
		if 1.1*size < high {
			l.ink(point{beside, top + high/2 + 0.35*size}, sl.Comes.With(u))
		}
	}
	if s.Slab > 0 && 1.1*size < s.Slab.MM() {
		l.ink(point{beside, y + (s.SlabFrom + s.Slab/2).MM() + 0.35*size}, "spare "+s.Slab.Format(u))
	}
	how := ""
	if s.Side {
		how = ", resawn across its width"
	}
	says := fmt.Sprintf("%s end on%s, %s wide and %s deep: %s with %s; hatched: saw kerf, spare wood and waste.",
		d.Cut.Piece, how, s.Across.With(u), s.Through.With(u), tell.Count(len(s.Slices), "slice"), tell.Count(strips, "strip"))
	return inline(l.page, id, d.Cut.Piece+" end on", says, number(l.wide*perMM)+"mm")
}

// alongPicture draws a piece along its length: what is squared off, the sections, the
// end offcut. Of a piece with faults the part that is used lies in the whole.
func alongPicture(j Job, d worksteps.Detail, n int) template.HTML {
	u, long, high := j.Unit, d.Whole.Length.MM(), d.Whole.Width.MM()
	l, perMM := onPaper(j, long, 100)
	size := l.size
	l.wide, l.high = long+2*l.margin, high+2*l.margin+1.7*size
	x, y := l.margin, l.margin
	l.waste(rectangle(x, y, x+long, y+high))
	x0, y0 := x+d.From.MM(), y+d.Low.MM()
	y1 := y0 + d.Piece.Width.MM()
	for _, s := range d.Sections {
		l.part(rectangle(x0+s.From.MM(), y0, x0+(s.From+s.Length).MM(), y1), size/10, s.Length.Format(u))
	}
	if d.Cut.Tail > 0 {
		to := x0 + d.Piece.Length.MM()
		from := to - d.Cut.Tail.MM()
		l.add(strokeOp{rectangle(from, y0, to, y1), true, size / 12, ink, true})
		l.tag(point{from + 0.5*size, (y0+y1)/2 + 0.35*size}, fit("end offcut "+d.Cut.Tail.Format(u), size, d.Cut.Tail.MM()-size))
	}
	l.ink(point{x, l.high - 0.4*size}, "near end")
	l.add(textOp{at: point{x + long, l.high - 0.4*size}, size: size, text: d.Whole.Length.With(u), colour: ink, end: true})
	says := fmt.Sprintf("%s along, %s long: %s from the near end; hatched: trim, kerfs, faults and waste.",
		d.Cut.Piece, d.Whole.Length.With(u), tell.Count(len(d.Sections), "length"))
	return inline(l.page, fmt.Sprintf("a%d", n), d.Cut.Piece+" along", says, number(l.wide*perMM)+"mm")
}
