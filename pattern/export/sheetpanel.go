package export

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
)

// printedWide and printedHigh are the most that the picture of the panel is on paper,
// in millimetres, about: the size of its letters goes by them.
const (
	printedWide = 180.0
	printedHigh = 100.0
)

// benchPicture draws the panel as it lies on the bench, with what is marked on it:
// every strip's number, letters and rings, the triangle over all faces, the products
// with their centres, the hook.
func benchPicture(j Job) drawing {
	w := woodOf(j)
	if len(w.planks) == 0 {
		return ""
	}
	across := w.x1 - w.x0
	size := 2.6 * max(1.12*across/printedWide, 1.1*w.high/printedHigh) // letters of 2.6 mm on paper
	l := &layout{job: j, size: size}
	l.margin = 1.2 * size
	gutter := 7.5 * size // for the names of the strips
	l.wide = across + gutter + 2*l.margin
	l.wood = w.grained(j, 2.2*l.wide/900)
	at := point{l.margin + gutter - w.x0, 3 * size}
	l.add(textOp{at: point{at.x + w.x0, 1.9 * size}, size: size, text: "edge A", colour: ink})
	l.add(textOp{at: point{at.x + w.x1, 1.9 * size}, size: size, text: "far end", colour: ink, end: true})
	l.add(woodOp{at: at, in: area{box{}, w.x0, 0, w.x1, w.high}})
	for _, k := range w.planks {
		l.add(strokeOp{rectangle(at.x+k.x0, at.y+k.y0, at.x+k.x1, at.y+k.y1), true, min(size/20, (k.y1-k.y0)/24), ink, false})
	}
	lowest := l.names(at)
	l.triangle(at)
	l.marks(at)
	l.y = max(at.y+w.high, lowest)
	bar, text := scaleBar(across/3.2, j.Unit)
	y := l.y + 1.2*size
	l.add(textOp{at: point{at.x + w.x0, y + 0.3*size}, size: size, text: "datum end", colour: ink})
	x := at.x + w.x1 - bar
	l.add(fillOp{rectangle(x, y, x+bar/2, y+0.4*size), ink})
	l.add(strokeOp{rectangle(x, y, x+bar, y+0.4*size), true, size / 14, ink, false})
	l.add(textOp{at: point{x - 0.6*size, y + 0.5*size}, size: size, text: text, colour: ink, end: true})
	l.high = y + 1.4*size
	says := fmt.Sprintf("The panel from above, the grain from left to right, strip 1 at the top: %s with their numbers, letters and rings, "+
		"the cabinet-maker's triangle over all of them, and %s marked on it.", tell.Count(len(w.planks), "strip"), tell.Count(len(j.Work.Layout.Placed), "product"))
	return inline(l.page, "p", "The panel on the bench", says, "")
}

// names writes the name of each strip at its left, with a line to it where the strips
// are narrower than the letters are high. It gives how low it came.
func (l *layout) names(at point) float64 {
	n := len(l.wood.planks)
	// Where not all names find room, every second strip has one, or every third.
	pitch := 1.25 * l.size
	room := max(10, int(1.15*l.wood.high/pitch))
	every := (n + room - 1) / room
	var places, wanted []float64
	var which []int
	for i := 0; i < n; i += every {
		k := l.wood.planks[i]
		wanted = append(wanted, at.y+(k.y0+k.y1)/2)
		which = append(which, i)
	}
	places = spread(wanted, pitch, at.y)
	x := l.margin
	for i, y := range places {
		k := l.wood.planks[which[i]]
		s := l.job.Work.Pattern.Strips[which[i]]
		text := fmt.Sprintf("%d %s %s", k.number, letters(l.job, s), ringsMark(glyphOf(s.Rings)))
		l.add(textOp{at: point{x, y + 0.35*l.size}, size: l.size, text: text, colour: ink})
		from := x + 5.6*l.size
		l.add(strokeOp{[]point{{from, y}, {from + 0.5*l.size, y}, {at.x + l.wood.x0 - 0.3*l.size, wanted[i]}, {at.x + k.x0, wanted[i]}}, false, l.size / 22, faint, false})
	}
	if len(places) == 0 {
		return at.y
	}
	return places[len(places)-1] + l.size
}

// spread returns the places nearest to those wanted, in their order, at least pitch apart
// and none above top: those that would lie too close move apart about their middle
// (least squares, by pooling neighbours).
func spread(wanted []float64, pitch, top float64) []float64 {
	type pool struct {
		sum float64
		n   int
	}
	var pools []pool
	for i, y := range wanted {
		pools = append(pools, pool{y - float64(i)*pitch, 1})
		for k := len(pools) - 1; k > 0 && pools[k-1].sum*float64(pools[k].n) > pools[k].sum*float64(pools[k-1].n); k-- {
			pools[k-1].sum += pools[k].sum
			pools[k-1].n += pools[k].n
			pools = pools[:k]
		}
	}
	out := make([]float64, 0, len(wanted))
	for _, p := range pools {
		for range p.n {
			i := float64(len(out))
			out = append(out, max(p.sum/float64(p.n), top)+i*pitch)
		}
	}
	return out
}

// ringsMark returns the sign of rings as the screens have it.
func ringsMark(glyph string) string {
	return map[string]string{"flat": "=", "rift": "/", "quarter": "|", "unknown": "?"}[glyph]
}

// outlined draws a line that is seen on light and dark wood alike.
func (l *layout) outlined(points []point, closed, dashed bool) {
	l.add(strokeOp{points, closed, l.size / 4.5, paper, false})
	l.add(strokeOp{points, closed, l.size / 12, ink, dashed})
}

// triangle draws the mark by which the strips find their places and faces again.
func (l *layout) triangle(at point) {
	w := l.wood
	from, to := -math.MaxFloat64, math.MaxFloat64 // where every strip is
	for _, k := range w.planks {
		from, to = max(from, k.x0), min(to, k.x1)
	}
	if to-from < 4*l.size {
		return
	}
	half := min((to-from)*0.2, w.high*0.45)
	middle := from + (to-from)*0.24
	l.outlined([]point{
		{at.x + middle, at.y + 0.2*l.size}, {at.x + middle + half, at.y + w.high - 0.2*l.size}, {at.x + middle - half, at.y + w.high - 0.2*l.size},
	}, true, false)
}

// marks draws the products with their centres, and the hook.
func (l *layout) marks(at point) {
	j := l.job
	for _, placed := range j.Work.Layout.Placed {
		t := thing{product: j.Work.Products[placed.Product-1], at: placed}
		a := t.outline().moved(at)
		l.outlined(a.points(), true, true)
		x, y := (a.x0+a.x1)/2, (a.y0+a.y1)/2
		arm := min(1.4*l.size, (a.x1-a.x0)/4)
		l.outlined([]point{{x - arm, y}, {x + arm, y}}, false, false)
		l.outlined([]point{{x, y - arm}, {x, y + arm}}, false, false)
		l.tag(point{x + 0.5*l.size, y - 0.5*l.size}, fmt.Sprintf("%d.%d", placed.Product, placed.Copy))
		for _, c := range holesOf(t.product) {
			r := t.product.Hole.MM() / 2
			l.outlined(area{circle{}, a.x0 + c - r, y - r, a.x0 + c + r, y + r}.points(), true, true)
		}
	}
	shop := j.Physics.Shop()
	out := work.MarkOutOf(j.Work.Pattern, shop.Allowance.Length, j.Work.Layout, shop.Cut.Gap)
	if out.Hook > 0 {
		k := l.wood.planks[out.Hook-1]
		x, y, r := at.x+k.x0, at.y+(k.y0+k.y1)/2, 0.5*l.size
		l.add(fillOp{[]point{{x, y}, {x - 2*r, y - r}, {x - 2*r, y + r}}, ink})
		l.tag(point{x + 0.3*l.size, y + 0.35*l.size}, "hook")
	}
}

func holesOf(p pattern.Product) []float64 {
	centres, _ := work.HoleCentres(p)
	out := make([]float64, len(centres))
	for i, c := range centres {
		out[i] = c.MM()
	}
	return out
}

// tag writes a word on a patch of paper.
func (l *layout) tag(at point, text string) {
	l.add(fillOp{rectangle(at.x-0.2*l.size, at.y-0.85*l.size, at.x+wide(text, l.size)+0.2*l.size, at.y+0.25*l.size), paper})
	l.add(textOp{at: at, size: l.size, text: text, colour: ink, bold: true})
}

// inline returns a page as a drawing within a page; wide is its width in CSS, empty for
// all the room there is.
func inline(pg page, id, title, says, wide string) drawing {
	p := &svgPen{id: id}
	style := ""
	if wide != "" {
		style = fmt.Sprintf(` style="--wide:%s"`, wide)
	}
	p.put(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 %s %s" role="img" aria-labelledby="%st %sd"%s>`,
		number(pg.wide), number(pg.high), id, id, style)
	p.put(`<title id="%st">%s</title><desc id="%sd">%s</desc>`+"\n", id, escaped(title), id, escaped(says))
	p.page(pg)
	p.put("</svg>")
	return drawing(p.b.String())
}

// endOn draws the end of a piece: each way its sections are sawn up, once.
func endOn(j Job, d worksteps.Detail, n int) []drawing {
	var out []drawing
	seen := map[int]bool{}
	for _, s := range d.Sections {
		if seen[s.Set] {
			continue
		}
		seen[s.Set] = true
		out = append(out, endOnSection(j, d, s, fmt.Sprintf("e%d.%d", n, s.Set)))
	}
	return out
}

// endOnSection draws one section end on: its slices one below the other as they are
// sawn, the strips side by side in each.
func endOnSection(j Job, d worksteps.Detail, s worksteps.SectionDetail, id string) drawing {
	u := j.Unit
	across, through := s.Across.MM(), s.Through.MM()
	perMM := min(0.4, 62/across) // on paper
	size := 2.4 / perMM
	l := &layout{job: j, size: size}
	l.margin = 0.4 * size
	room := 5.2 * size
	l.wide, l.high = across+2*l.margin+room, through+2*l.margin+1.6*size
	x, y := l.margin, l.margin+1.4*size
	l.add(textOp{at: point{x, y - 0.4*size}, size: size, text: s.Across.With(u) + " wide", colour: ink})
	l.add(hatchOp{rectangle(x, y, x+across, y+through), size})
	l.add(strokeOp{rectangle(x, y, x+across, y+through), true, size / 12, ink, false})
	for _, sl := range s.Slices {
		top, high := y+sl.From.MM(), sl.Comes.MM()
		l.add(hatchOp{rectangle(x, top, x+across, top+high), size})
		for _, st := range sl.Strips {
			box := rectangle(x+st.From.MM(), top, x+(st.From+st.Ripped).MM(), top+high)
			l.add(fillOp{box, paper})
			l.add(strokeOp{box, true, size / 12, ink, false})
			text := fmt.Sprint(st.Strip.Strip)
			if len(j.Stock.Patterns) > 1 && st.Pattern != j.Stem {
				text = "*"
			}
			if wide(text, size) < st.Ripped.MM() && size < high {
				l.add(textOp{at: point{(box[0].x + box[1].x) / 2, top + high/2 + 0.35*size}, size: size, text: text, colour: ink, middle: true})
			}
		}
		l.add(strokeOp{rectangle(x, top, x+across, top+high), true, size / 12, ink, false})
		if 1.1*size < high {
			l.add(textOp{at: point{x + across + 0.5*size, top + high/2 + 0.35*size}, size: size, text: sl.Comes.With(u), colour: ink})
		}
	}
	if s.Slab > 0 && 1.1*size < s.Slab.MM() {
		l.add(textOp{at: point{x + across + 0.5*size, y + (s.SlabFrom + s.Slab/2).MM() + 0.35*size}, size: size, text: "slab " + s.Slab.Format(u), colour: ink})
	}
	how := ""
	if s.Side {
		how = ", resawn across its width"
	}
	says := fmt.Sprintf("%s end on%s, %s wide and %s deep: %s; hatched: saw kerf, and what goes back or is lost.",
		d.Cut.Piece, how, s.Across.With(u), s.Through.With(u), slicesText(s))
	return inline(l.page, id, d.Cut.Piece+" end on", says, number(l.wide*perMM)+"mm")
}

func slicesText(s worksteps.SectionDetail) string {
	n := 0
	for _, sl := range s.Slices {
		n += len(sl.Strips)
	}
	return tell.Count(len(s.Slices), "slice") + " with " + tell.Count(n, "strip")
}

// alongPicture draws a piece along its length: what is squared off, the sections, the
// tail. Of a piece with faults the part that is used lies in the whole.
func alongPicture(j Job, d worksteps.Detail, n int) drawing {
	u := j.Unit
	long, high := d.Whole.Length.MM(), d.Whole.Width.MM()
	perMM := min(0.4, 100/long)
	size := 2.4 / perMM
	l := &layout{job: j, size: size}
	l.margin = 0.4 * size
	l.wide, l.high = long+2*l.margin, high+2*l.margin+1.7*size
	x, y := l.margin, l.margin
	l.add(hatchOp{rectangle(x, y, x+long, y+high), size})
	l.add(strokeOp{rectangle(x, y, x+long, y+high), true, size / 12, ink, false})
	x0, y0 := x+d.From.MM(), y+d.Low.MM()
	y1 := y0 + d.Piece.Width.MM()
	for _, s := range d.Sections {
		box := rectangle(x0+s.From.MM(), y0, x0+(s.From+s.Length).MM(), y1)
		l.add(fillOp{box, paper})
		l.add(strokeOp{box, true, size / 10, ink, false})
		if text := s.Length.Format(u); wide(text, size) < s.Length.MM() {
			l.add(textOp{at: point{(box[0].x + box[1].x) / 2, (y0+y1)/2 + 0.35*size}, size: size, text: text, colour: ink, middle: true})
		}
	}
	if d.Cut.Tail > 0 {
		to := x0 + d.Piece.Length.MM()
		from := to - d.Cut.Tail.MM()
		l.add(strokeOp{rectangle(from, y0, to, y1), true, size / 12, ink, true})
		l.tag(point{from + 0.5*size, (y0+y1)/2 + 0.35*size}, fit("tail "+d.Cut.Tail.Format(u), size, d.Cut.Tail.MM()-size))
	}
	l.add(textOp{at: point{x, l.high - 0.4*size}, size: size, text: "near end", colour: ink})
	l.add(textOp{at: point{x + long, l.high - 0.4*size}, size: size, text: d.Whole.Length.With(u), colour: ink, end: true})
	says := fmt.Sprintf("%s along, %s long: %s from the near end; hatched: what is squared off, kerfs, faults and what is not used.",
		d.Cut.Piece, d.Whole.Length.With(u), tell.Count(len(d.Sections), "section"))
	return inline(l.page, fmt.Sprintf("a%d", n), d.Cut.Piece+" along", says, number(l.wide*perMM)+"mm")
}
