package export

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
)

// Why there is no picture of one product, for errors.Is.
var (
	ErrNoProduct = errors.New("there is no such product")
	ErrNoPlace   = errors.New("it does not come out of the panel")
)

// A page is a picture laid out: what is drawn on it, from back to front.
type page struct {
	wide, high float64 // millimetres of wood
	title      string
	says       string // in words what is to be seen
	ops        []op
	wood       wood
	ground     species.RGB // what all lies on
	letters    float64     // how high the text is
}

// The colours of paper and ink.
var (
	paper = species.RGB{R: 255, G: 255, B: 255}
	ink   = species.RGB{R: 28, G: 25, B: 22}
	faint = species.RGB{R: 104, G: 98, B: 90}
	table = species.RGB{R: 236, G: 228, B: 214}
)

// A thing is a product as it is drawn: where it lies in the panel.
type thing struct {
	name    string
	product pattern.Product
	at      outline.Placed
	t       float64 // thickness
}

// outline returns its outline in the panel.
func (t thing) outline() area {
	return areaOf(outline.ShapeOf(t.product), t.at.From.MM(), t.at.Side.MM())
}

// size returns the rectangle that it fills, in mm.
func (t thing) size() (along, across float64) {
	a, b := outline.ShapeOf(t.product).Size()
	return a.MM(), b.MM()
}

// things returns what the job's pictures show beside the panel: the first copy of each
// product that comes out, or the finished panel where no product is listed.
func (j Job) things(w wood) ([]thing, error) {
	makes, t := j.Work.Makes(), j.Work.Ground().Panel.Thickness.MM()
	if j.Look.Product < 0 || j.Look.Product > len(makes) {
		return nil, fmt.Errorf("product %d: %w", j.Look.Product, ErrNoProduct)
	}
	if len(w.planks) == 0 {
		return nil, nil
	}
	if len(j.Work.Products) == 0 {
		whole := thing{"the finished " + j.Work.Called(1), makes[0], j.Work.Placed(1)[0], t}
		along, _ := whole.size()
		whole.at.From = length.FromMM((w.x0 + w.x1 - along) / 2)
		return []thing{whole}, nil
	}
	var out []thing
	for i, product := range makes {
		placed := j.Work.Placed(i + 1)
		if len(placed) > 0 && (j.Look.Product == 0 || j.Look.Product == i+1) {
			out = append(out, thing{string(product.Shape), product, placed[0], t})
		}
	}
	if j.Look.Product > 0 && len(out) == 0 {
		return nil, fmt.Errorf("product %d: %w", j.Look.Product, ErrNoPlace)
	}
	return out, nil
}

// A layout is a page that is being filled, from the top down.
type layout struct {
	page
	job    Job
	size   float64 // height of the text
	margin float64
	y      float64 // where the next thing goes
}

// mostHigh is how many times as high as wide a page may be; one that would be higher is
// given more paper at its sides.
const mostHigh = 2.2

// pageOf lays the picture of a job out, with text so high, or of 0 as high as suits it.
func pageOf(j Job, size float64) (page, error) {
	w := woodOf(j)
	things, err := j.things(w)
	if err != nil {
		return page{}, err
	}
	whole := j.Look.Product == 0 && len(j.Work.Products) > 0 && len(w.planks) > 0
	if j.Work.Pattern.Joints() > 0 && !j.Look.Marks { // a customer has no use for joints that are cut away
		whole = whole && len(things) == 0
	}
	across, tallest := 60.0, 0.0 // a draft has room for its words
	if whole {
		across, tallest = max(across, w.x1-w.x0), w.high
	}
	for _, t := range things {
		long, wide := t.size()
		across, tallest = max(across, long), max(tallest, wide)
	}
	across = max(across, tallest/2)
	for {
		l := layOut(j, w, things, across, size, whole)
		if l.high <= mostHigh*l.wide {
			return l.page, nil
		}
		across *= 1.3
	}
}

// layOut lays out a page with room for things so wide.
func layOut(j Job, w wood, things []thing, across, size float64, whole bool) *layout {
	l := &layout{job: j, size: across / 58}
	l.ground = paper
	if j.Look.Table {
		l.ground = table
	}
	if !whole {
		l.size = across / 44
	}
	if size > 0 {
		l.size = size
	}
	l.letters = l.size
	l.margin = 2.4 * l.size
	l.wide = across + 2*l.margin
	l.wood = w.grained(j, 2.2*l.wide/float64(j.Look.width()))
	l.head(things)
	if whole {
		l.panel()
	}
	l.flow(things)
	if j.Look.Relief {
		l.relief()
	}
	l.foot()
	return l
}

func (l *layout) room() float64 { return l.wide - 2*l.margin }

func (l *layout) add(o op) { l.ops = append(l.ops, o) }

// text writes one line that ends where the room does, and goes on beneath it.
func (l *layout) text(s string, size float64, colour species.RGB, bold bool) {
	l.y += 1.15 * size
	l.add(textOp{at: point{l.margin, l.y}, size: size, text: fit(clean(s), size, l.room()), colour: colour, bold: bold})
	l.y += 0.3 * size
}

// head writes the name, what it is, and the timbers.
func (l *layout) head(things []thing) {
	p, u := l.job.Work.Pattern, l.job.Unit
	l.title = clean(l.job.Name())
	l.y = l.margin * 0.7
	l.text(l.title, 1.9*l.size, ink, true)
	what := fmt.Sprintf("%d strips, %s wide, %s thick", len(p.Strips), p.Width().With(u), p.Panel.Thickness.With(u))
	switch {
	case len(p.Strips) == 0:
		what = "a draft without strips"
	case l.job.Work.Board != nil && l.job.Look.Product == 0:
		ground := l.job.Work.Ground()
		what = fmt.Sprintf("%d strips, cut into bars and glued again: %s", len(p.Strips),
			tell.Size(u, ground.Panel.Length, ground.Width(), ground.Panel.Thickness))
	case l.job.Look.Product > 0 && len(things) == 1:
		what = things[0].caption(u)
	}
	l.text(what, l.size, ink, false)
	l.says = what
	l.legend(things)
	l.y += 1.2 * l.size
}

// legend names the timbers that are to be seen, a patch of colour before each.
func (l *layout) legend(things []thing) {
	seen := map[string]bool{}
	x := l.margin
	var names []string
	line := 1.5 * l.size
	l.y += 0.5 * l.size
	planks := l.wood.planks
	if l.job.Work.Board != nil {
		planks = panelOf(l.job).planks
	}
	for i, s := range l.job.Work.Pattern.Strips {
		base := planks[i].shades[shadeBase]
		if seen[s.Species] || !l.shows(things, i) {
			continue
		}
		seen[s.Species] = true
		name := clean(l.job.timber(s.Species))
		names = append(names, name)
		name = fit(name, l.size, l.room()-2*l.size)
		needs := wide(name, l.size) + 3*l.size
		if x > l.margin && x+needs > l.wide-l.margin {
			x, l.y = l.margin, l.y+line
		}
		box := l.size * 0.95
		patch := rectangle(x, l.y+line-box*0.95, x+box, l.y+line+box*0.05)
		l.add(fillOp{patch, base})
		l.add(strokeOp{patch, true, l.size / 20, faint, false})
		l.ink(point{x + 1.35*l.size, l.y + 0.88*line}, name)
		x += needs
	}
	if len(names) > 0 {
		l.y += line
		l.says += "; of " + strings.Join(names, ", ")
	}
}

// shows reports whether strip i, from 0, is to be seen in the picture.
func (l *layout) shows(things []thing, i int) bool {
	if l.job.Work.Board != nil {
		return l.job.Work.Board.AreaMM2(i) > 0
	}
	if l.job.Look.Product == 0 {
		return true
	}
	k := l.wood.planks[i]
	return slices.ContainsFunc(things, func(t thing) bool {
		a := t.outline()
		return a.y0 < k.y1 && a.y1 > k.y0
	})
}

// outlines draws what comes out of the panel on it, dashed.
func (l *layout) outlines(at point) {
	for _, placed := range l.job.Work.Layout.Placed {
		t := thing{product: l.job.Work.Products[placed.Product-1], at: placed}
		points := t.outline().moved(at).points()
		l.add(strokeOp{points, true, l.size / 7, paper, false})
		l.add(strokeOp{points, true, l.size / 16, ink, true})
	}
}

// panel draws the glued panel, with the outlines of what comes out of it where they are
// asked for.
func (l *layout) panel() {
	w := l.wood
	at := point{(l.wide-(w.x1-w.x0))/2 - w.x0, l.y}
	for _, k := range w.planks {
		l.shadow(at, area{box{}, k.x0, k.y0, k.x1, k.y1})
	}
	l.add(woodOp{at: at, in: w.within()})
	l.joints(at, w.within())
	dashed := ""
	if l.job.Look.Marks {
		l.outlines(at)
		l.pieceNames(at)
		dashed = "; dashed: what is cut from it"
	}
	l.y += w.high + 0.3*l.size
	if l.job.Work.Board != nil {
		l.text("the glued board"+dashed, 0.85*l.size, faint, false)
		l.y += 1.2 * l.size
		return
	}
	l.text("the glued panel"+dashed, 0.85*l.size, faint, false)
	l.y += 1.2 * l.size
}

// shadow draws what wood on a table darkens beside it.
func (l *layout) shadow(at point, of area) {
	if l.job.Look.Table {
		const off = 0.45
		l.add(fillOp{of.moved(point{at.x + off*l.size, at.y + off*l.size}).points(), table.Lighter(-11)})
	}
}

// flow draws things side by side, in as many rows as they need.
func (l *layout) flow(things []thing) {
	gap := 2.5 * l.size
	for i := 0; i < len(things); {
		n, wide := 0, 0.0
		for i+n < len(things) {
			long, _ := things[i+n].size()
			if n > 0 && wide+long > l.room() {
				break
			}
			wide += long + gap
			n++
		}
		x, lowest := (l.wide-wide+gap)/2, l.y
		top := l.y
		for _, t := range things[i : i+n] {
			l.y = top
			l.thing(t, x)
			long, _ := t.size()
			x += long + gap
			lowest = max(lowest, l.y)
		}
		l.y = lowest + 1.2*l.size
		i += n
	}
}

// thing draws one product from above, and from the side beneath it.
func (l *layout) thing(t thing, x float64) {
	a := t.outline()
	at := point{x - a.x0, l.y - a.y0}
	l.shadow(at, a)
	l.add(woodOp{at: at, in: a})
	if len(l.job.Work.Products) == 0 { // the panel itself; of all else no joint is a part
		l.joints(at, a)
	}
	if t.product.Bevel > 0 && t.product.BevelSide != pattern.BevelUnder {
		l.add(bevelOp{of: a.moved(at), deep: t.product.Bevel.MM()})
	}
	l.holes(t, at)
	l.y += a.y1 - a.y0 + 0.8*l.size
	if room := a.x1 - a.x0; l.job.Look.Product == 0 || len(l.job.Work.Products) == 0 {
		size := 0.85 * l.size
		for _, line := range wrap(t.caption(l.job.Unit), size, max(room, 8*l.size), 3) {
			l.y += 1.15 * size
			l.add(textOp{at: point{x + room/2, l.y}, size: size, text: line, colour: faint, middle: true})
		}
		l.y += 0.9 * l.size
	}
	l.side(t, x)
}

// caption says in a few words what a thing is.
func (t thing) caption(u length.Unit) string {
	p := t.product
	text := t.name + " " + outline.SizeText(outline.ShapeOf(p).Sizes(), func(l length.Length) string { return l.With(u) })
	text += fmt.Sprintf(", %s thick", length.FromMM(t.t).With(u))
	if p.Holes > 0 {
		text += fmt.Sprintf(", %d holes of %s", p.Holes, p.Hole.With(u))
	}
	if p.Bevel > 0 {
		text += fmt.Sprintf(", bevel %s %s", p.Bevel.With(u), map[pattern.BevelSide]string{
			pattern.BevelUnder: "underneath", pattern.BevelTop: "on top", pattern.BevelBoth: "on both sides"}[p.BevelSide])
	}
	return text
}

// foot draws the scale and says what the colours are worth.
func (l *layout) foot() {
	l.y += 0.6 * l.size
	bar, text := scaleBar(l.room()/3.2, l.job.Unit)
	thick := l.size * 0.45
	x, y := l.margin, l.y
	l.bar(x, y, bar, thick, l.size/12)
	size := 0.8 * l.size
	l.add(textOp{at: point{x + bar + 0.6*l.size, y + 0.62*size}, size: size, text: text, colour: ink})
	state := "oiled"
	if l.job.Look.Raw {
		state = "planed, without oil"
	}
	// Beside the bar where there is room, else beneath it.
	note := "Colours are approximate; " + state + "."
	from := x + bar + 2*l.size + wide(text, size)
	if wide(note, size) > l.wide-l.margin-from {
		y += 1.6 * size
	}
	l.add(textOp{at: point{l.wide - l.margin, y + 0.62*size}, size: size, text: fit(note, size, l.room()), colour: faint, end: true})
	l.y = y + thick + 0.6*l.margin
	l.high = max(l.y, l.wide/6)
	l.says += ". Colours are approximate; " + state + "."
}

// bar draws a bar whose first half is full.
func (l *layout) bar(x, y, long, thick, edge float64) {
	l.add(fillOp{rectangle(x, y, x+long/2, y+thick), ink})
	l.add(strokeOp{rectangle(x, y, x+long, y+thick), true, edge, ink, false})
}

// scaleBar returns a round length of at most most millimetres, and how it is called.
func scaleBar(most float64, u length.Unit) (mm float64, text string) {
	unit, steps := 1.0, []float64{0.5, 1, 2, 5}
	if u == length.InInches {
		unit, steps = length.Inch.MM(), []float64{0.25, 0.5, 1, 2, 3, 6, 12}
	}
	best := steps[0]
	for scale := 1.0; scale < 1e5; scale *= 10 {
		for _, s := range steps {
			if s*scale*unit <= most {
				best = max(best, s*scale)
			}
		}
	}
	return best * unit, length.FromMM(best * unit).With(u)
}
