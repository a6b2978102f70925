package export

import (
	"fmt"
	"html/template"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
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
func benchPicture(j Job) template.HTML {
	w := panelOf(j)
	if len(w.planks) == 0 {
		return ""
	}
	across := w.x1 - w.x0
	size := 2.6 * max(1.12*across/printedWide, 1.1*w.high/printedHigh) // letters of 2.6 mm on paper
	l := &layout{job: j, size: size}
	l.ground, l.margin = paper, 1.2*size
	gutter := 7.5 * size // for the names of the strips
	l.wide = across + gutter + 2*l.margin
	l.wood = w.grained(j, 2.2*l.wide/900)
	at := point{l.margin + gutter - w.x0, 3 * size}
	l.add(textOp{at: point{at.x + w.x0, 1.9 * size}, size: size, text: "edge A", colour: ink})
	l.add(textOp{at: point{at.x + w.x1, 1.9 * size}, size: size, text: "far end", colour: ink, end: true})
	l.add(woodOp{at: at, in: w.within()})
	for _, k := range w.planks {
		l.add(strokeOp{rectangle(at.x+k.x0, at.y+k.y0, at.x+k.x1, at.y+k.y1), true, min(size/20, (k.y1-k.y0)/24), ink, false})
	}
	l.joints(at, w.within())
	lowest := l.names(at)
	l.triangle(at)
	if j.Work.Board == nil {
		l.products(at)
		l.hook(at)
	}
	l.pieceNames(at)
	l.y = max(at.y+w.high, lowest)
	bar, text := scaleBar(across/3.2, j.Unit)
	y := l.y + 1.2*size
	l.add(textOp{at: point{at.x + w.x0, y + 0.3*size}, size: size, text: "datum end", colour: ink})
	x := at.x + w.x1 - bar
	l.bar(x, y, bar, 0.4*size, size/14)
	l.add(textOp{at: point{x - 0.6*size, y + 0.5*size}, size: size, text: text, colour: ink, end: true})
	l.high = y + 1.4*size
	says := fmt.Sprintf("The panel from above, the grain from left to right, strip 1 at the top: %s with their numbers, letters and rings, "+
		"the cabinet-maker's triangle over all of them, and %s marked on it.", tell.Count(len(w.planks), "strip"), tell.Count(len(j.Work.Layout.Placed), "product"))
	return inline(l.page, j.mark+"p", "The panel on the bench", says, "")
}

// names writes the name of each strip at its left, with a line to it where the strips
// are narrower than the letters are high. It returns how low it came.
func (l *layout) names(at point) float64 {
	n := len(l.wood.planks)
	// Where not all names find room, every second strip has one, or every third.
	pitch := 1.25 * l.size
	room := max(10, int(1.15*l.wood.high/pitch))
	every := (n + room - 1) / room
	var wanted []float64
	for i := 0; i < n; i += every {
		k := l.wood.planks[i]
		wanted = append(wanted, at.y+(k.y0+k.y1)/2)
	}
	x, lowest := l.margin, at.y
	for i, y := range spread(wanted, pitch, at.y) {
		k, s := l.wood.planks[i*every], l.job.Work.Pattern.Strips[i*every]
		l.ink(point{x, y + 0.35*l.size}, fmt.Sprintf("%d %s %c", k.number, letters(l.job, s), s.Rings.Mark()))
		lowest = y + l.size
		from := x + 5.6*l.size
		l.add(strokeOp{[]point{{from, y}, {from + 0.5*l.size, y}, {at.x + l.wood.x0 - 0.3*l.size, wanted[i]}, {at.x + k.x0, wanted[i]}}, false, l.size / 22, faint, false})
	}
	return lowest
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

// products draws the products with their centres.
func (l *layout) products(at point) {
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
		centres, _ := work.HoleCentres(t.product)
		for _, c := range centres {
			x, r := a.x0+c.MM(), t.product.Hole.MM()/2
			l.outlined(area{circle{}, x - r, y - r, x + r, y + r}.points(), true, true)
		}
	}
}

// hook marks where the tape hooks on.
func (l *layout) hook(at point) {
	j, shop := l.job, l.job.Physics.Shop()
	out := work.MarkOutOf(j.Work.Ground(), shop.Allowance.Length, j.Work.Layout, shop.Cut.Gap)
	if out.Hook > 0 {
		k := l.wood.planks[out.Hook-1]
		x, y, r := at.x+k.x0, at.y+(k.y0+k.y1)/2, 0.5*l.size
		l.add(fillOp{[]point{{x, y}, {x - 2*r, y - r}, {x - 2*r, y + r}}, ink})
		l.tag(point{x + 0.3*l.size, y + 0.35*l.size}, "hook")
	}
}

// tag writes a word on a patch of paper.
func (l *layout) tag(at point, text string) { l.tagOf(at, text, l.size) }

func (l *layout) tagOf(at point, text string, size float64) {
	l.add(fillOp{rectangle(at.x-0.2*size, at.y-0.85*size, at.x+wide(text, size)+0.2*size, at.y+0.25*size), paper})
	l.add(textOp{at: at, size: size, text: text, colour: ink, bold: true})
}

// inline returns a page as a drawing within a page; wide is its width in CSS, empty for
// all the room there is.
func inline(pg page, id, title, says, wide string) template.HTML {
	p := &svgPen{id: id}
	pg.ground = paper
	style := ""
	if wide != "" {
		style = fmt.Sprintf(` style="--wide:%s"`, wide)
	}
	p.put(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 %v %v" role="img" aria-labelledby="%vt %vd"%v>`,
		pg.wide, pg.high, id, id, style)
	p.put(`<title id="%vt">%v</title><desc id="%vd">%v</desc>`+"\n", id, escaped(title), id, escaped(says))
	p.page(pg)
	p.put("</svg>")
	return template.HTML(p.b.String())
}

// letters returns the two letters of a timber.
func letters(j Job, s pattern.Strip) string {
	if t, ok := j.Physics.Table().Get(s.Species); ok && t.Letters != "" {
		return t.Letters
	}
	return "??"
}
