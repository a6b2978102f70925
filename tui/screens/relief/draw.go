package relief

import (
	"fmt"
	"math"
	"strconv"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/relief"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A plot is one face in one season, with its rectangle.
type plot struct {
	season int
	face   relief.Face
	r      paint.Rect
}

// In a plot stand a line that says which it is, the heights, the wood and the numbers.
func (p plot) parts(heights int) (label, plotted, wood, numbers paint.Rect) {
	label, rest := p.r.SplitTop(1)
	plotted, rest = rest.SplitTop(heights)
	numbers, wood = rest.SplitBottom(1)
	return label, plotted, wood, numbers
}

// The rows of a plot beside its heights, and the least and most of these.
const (
	aboutPlot   = 3
	leastPlot   = 3
	usefulPlot  = 5 // from so many on both faces are drawn
	mostPlot    = 20
	betweenPlot = 2
)

// A scene is what the drawing goes by.
type scene struct {
	screen.Context
	s     Screen
	plots []plot
	rows  int // of heights in a plot
	scale scale
	words []string
	rest  paint.Rect // where the words stand
}

// lay parts r, the screen without its footer: plots side by side and one above the other as
// far as there is room, and words beneath. Rows that no height needs are left to these.
func (s Screen) lay(r paint.Rect, ctx screen.Context) scene {
	l := scene{Context: ctx, s: s}
	columns, faces := 1, 1
	if r.W >= screen.SideFrom-2 {
		columns = len(s.shown.Seasons)
	}
	each := (r.W - betweenPlot*(columns-1)) / columns
	l.words = whole(s.words(ctx, columns), r.W, r.H-aboutPlot-min(usefulPlot, max(leastPlot, r.H/2)))
	if r.H-len(l.words) >= 2*(aboutPlot+usefulPlot) {
		faces = 2
	}
	most := min(mostPlot, max(1, (r.H-len(l.words))/faces-aboutPlot))
	l.scale = s.shown.scale(each, most)
	l.rows = min(most, int(math.Ceil(l.scale.at(relief.RangeUM(s.shown.Seasons)))))
	high := l.rows + aboutPlot
	if faces*(high+1)+len(l.words) <= r.H {
		high++ // a row of wood more
	}
	for f := range faces {
		for c := range columns {
			p := plot{c, relief.Face(f), paint.Rect{X: r.X + c*(each+betweenPlot), Y: r.Y + f*high, W: each, H: high}}
			if columns == 1 {
				p.season = s.season(ctx)
			}
			if faces == 1 {
				p.face = s.face
			}
			l.plots = append(l.plots, p)
		}
	}
	_, l.rest = r.SplitTop(faces * high)
	return l
}

// whole puts texts into lines of w cells, as many of the first as so many rows hold whole.
func whole(texts []string, w, rows int) (lines []string) {
	for _, one := range texts {
		more := screen.Wrap(one, w)
		if len(lines)+len(more) > rows {
			break
		}
		lines = append(lines, more...)
	}
	return lines
}

// Draw draws the relief into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	screen.DrawFooter(c, table().Footer(s, r, ctx))
	_, body := r.SplitBottom(screen.FooterRows)
	head, body := body.Inset(1, 0).SplitTop(1)
	title := "Relief"
	if wet := s.wetter.String(); wet != "" {
		title += ", " + wet
	}
	if !s.current() {
		title += ", working it out"
	}
	at := c.Text(head, title, c.Role(paint.RoleHeading))
	_, head = head.SplitLeft(at + 2)
	switch {
	case !s.shown.have:
		return
	case s.shown.Seasons == nil:
		c.Lines(body, screen.Wrap("No relief: "+s.shown.Panel.Why()+".", body.W), paint.Style{})
		return
	case s.numbers:
		s.list(c, body, ctx)
		return
	}
	l := s.lay(body, ctx)
	c.TextRight(head, l.scale.words(head.W, ctx.Unit), c.Role(paint.RoleFaint))
	for _, p := range l.plots {
		l.plot(c, p)
	}
	c.Lines(l.rest, l.words, paint.Style{})
}

// A scale says how heights are drawn.
type scale struct {
	factor int
	rowUM  float64
}

// Eighth blocks, from nothing to a full cell.
const eighths = 8

var blocks = [eighths + 1]rune{' ', '▁', '▂', '▃', '▄', '▅', '▆', '▇', '█'}

// scale returns the one scale of all plots of so many cells and so many rows of heights.
func (w Worked) scale(cells, rows int) scale {
	const high = 2 // cells are so many times as high as wide
	rowMM := high * w.Panel.WidthMM() / float64(max(1, cells))
	f := relief.Magnification(relief.RangeUM(w.Seasons), (float64(rows)-1./eighths)*rowMM)
	return scale{f, 1000 * rowMM / float64(f)}
}

// at returns how many rows above the base line a height is drawn that lies so far above the
// lowest, which is an eighth of one.
func (s scale) at(um float64) float64 { return 1./eighths + um/s.rowUM }

// words says the scale as fully as w cells let it.
func (s scale) words(w int, u length.Unit) string {
	row := length.Step(s.rowUM, 0, u)
	text := fmt.Sprintf("heights magnified %d times, one row is %s", s.factor, row)
	if paint.Width(text) > w {
		text = fmt.Sprintf("heights x %d, one row is %s", s.factor, row)
	}
	return text
}

// label says which plot it is and how far it is from flat, as fully as there is room.
func (l scene) label(p plot) string {
	season := l.s.shown.Seasons[p.season]
	gap := length.Step(season.GapUM(p.face), 0, l.Unit)
	text := fmt.Sprintf("%v season, %s: gap under a straightedge about %s", season.Season, faceName(p.face), gap)
	if paint.Width(text) > p.r.W {
		text = fmt.Sprintf("%v season, %s: gap about %s", season.Season, faceName(p.face), gap)
	}
	return text
}

// plot draws one face in one season.
func (l scene) plot(c *paint.Canvas, p plot) {
	label, plotted, wood, numbers := p.parts(l.rows)
	c.TextFit(label, l.label(p), c.Role(paint.RoleTitle))
	season, edges := l.s.shown.Seasons[p.season], l.edges(plotted)
	heights, band := season.Columns(p.face, plotted.W)
	least, _ := season.Range(p.face)
	floor := plotted.Bottom() - 1
	strip, style := 0, l.fill(c, 0)
	for i := range heights {
		x := plotted.X + i
		for strip+2 < len(edges) && x >= edges[strip+1] {
			strip++
			style = l.fill(c, strip)
		}
		filled := min(l.rows*eighths, max(1, int(math.Round(eighths*l.scale.at(heights[i]-least)))))
		for row := range (filled + eighths - 1) / eighths {
			c.Set(x, floor-row, blocks[min(eighths, filled-row*eighths)], style)
		}
		if band[i] > l.scale.rowUM/4 { // else it lies on the blocks
			l.band(c, x, floor, filled, l.scale.at(heights[i]-band[i]-least), l.scale.at(heights[i]+band[i]-least), style)
		}
	}
	l.base(c, wood, edges)
	l.numbers(c, numbers, edges)
}

// band draws between which heights a column may stand: a thin line above its blocks, and one
// in them.
func (l scene) band(c *paint.Canvas, x, floor, filled int, low, high float64, style paint.Style) {
	thin := func(at float64) rune { return [...]rune{'▁', '─', '▔'}[min(2, int(3*(at-math.Floor(at))))] }
	if row := int(high); row < l.rows && row*eighths >= filled {
		c.Set(x, floor-row, thin(high), c.Role(paint.RoleFaint))
	}
	if row := int(math.Floor(low)); row >= 0 && (row+1)*eighths <= filled {
		style.Reversed = true
		c.Set(x, floor-row, thin(low), style)
	}
}

// fill returns the look of a strip's blocks: its wood, neither too dark nor too light for any
// background, where the terminal shows wood.
func (l scene) fill(c *paint.Canvas, strip int) paint.Style {
	const darkest, lightest = 50, 66
	if !c.Profile().ShowsWood() {
		return paint.Style{}
	}
	colour := l.timber(strip).ColourOiled
	at := colour.Lightness()
	return paint.Style{FG: paint.Of(colour.Lighter(min(lightest, max(darkest, at)) - at))}
}

// edges returns the columns at which the strips begin, and where the last one ends.
func (l scene) edges(r paint.Rect) []int {
	strips := l.s.shown.Panel.Strips
	edges, at, wide := []int{r.X}, 0.0, l.s.shown.Panel.WidthMM()
	for _, s := range strips {
		at += s.WidthMM
		edges = append(edges, r.X+int(math.Round(at/wide*float64(r.W))))
	}
	return edges
}

// base draws the strips' own colours, or their textures, with a bar at each glue line.
func (l scene) base(c *paint.Canvas, r paint.Rect, edges []int) {
	textures := map[string]rune(nil)
	if !c.Profile().ShowsWood() {
		textures = panel.TexturesIn(l.s.shown.Pattern, l.Physics.Table().Get)
	}
	for i, s := range l.s.shown.Pattern.Strips {
		of := paint.Rect{X: edges[i], Y: r.Y, W: edges[i+1] - edges[i], H: r.H}
		if textures == nil {
			panel.Swatch(c, of, l.timber(i), l.Wood)
			if of.W = 1; i > 0 {
				seam := c.Palette().OnWood(l.timber(i).ColourOiled)
				c.Fill(of, '▏', seam)
			}
			continue
		}
		c.Fill(of, textures[s.Species], paint.Style{})
		if of.W = 1; i > 0 {
			c.Fill(of, '|', paint.Style{})
		}
	}
}

// numbers writes the strips' numbers under their middles, as many as find room beside the
// chosen one's.
func (l scene) numbers(c *paint.Canvas, row paint.Rect, edges []int) {
	place := func(i int, text string) paint.Rect {
		w := len(text)
		return paint.Rect{X: max(row.X, min(row.Right()-w, (edges[i]+edges[i+1]-w)/2)), Y: row.Y, W: w, H: 1}
	}
	chosen, taken := l.State.Selected, paint.Rect{}
	if chosen < len(edges)-1 {
		text := ">" + strconv.Itoa(chosen+1) + "<"
		taken = place(chosen, text)
		c.Text(taken, text, c.Role(paint.RoleSelected))
	}
	free := row.X
	for i := range edges[1:] {
		text := strconv.Itoa(i + 1)
		at := place(i, text)
		if i == chosen || at.X < free || !at.Intersect(taken).Empty() {
			continue
		}
		c.Text(at, text, c.Role(paint.RoleFaint))
		free = at.Right() + 1
	}
}
