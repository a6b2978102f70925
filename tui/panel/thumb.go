package panel

import (
	"math"

	"example.com/oddments/tui/paint"
)

// Thumb draws the strips of v alone, without numbers, marks and rulers, as large as r lets
// it: to scale both ways, or with Whole as wide as r however long the panel is. A strip that
// stands is told to half a cell of its width. It returns where the strips are: across in half
// columns from the left of r, or of a panel that lies in half rows from its top; along in
// cells.
func Thumb(c *paint.Canvas, r paint.Rect, v View, palette *Palette) []Span {
	r = r.Intersect(c.Bounds())
	n := len(v.Pattern.Strips)
	if r.Empty() || n == 0 {
		return nil
	}
	widths, total := make([]float64, n), 0.0
	for i, s := range v.Pattern.Strips {
		widths[i] = math.Max(s.Width.MM(), 1e-3)
		total += widths[i]
	}
	across, along := thumbSize(r, v, total)
	step := 1 // halves of a cell; a texture is told by whole cells
	if !c.Profile().ShowsWood() && n <= across/2 {
		step = 2
	}
	least := 1.0
	if n > across/step {
		least = 0
	}
	at, sum := 0, 0.0
	spans := make([]Span, n)
	for i, w := range share(widths, total, float64(across/step), least) {
		sum += w
		end := min(across, step*int(math.Round(sum)))
		spans[i] = Span{Strip: i, X: at, W: end - at, To: along}
		at = end
	}
	drawThumb(c, r, v, palette, spans)
	return spans
}

// thumbSize returns how many half cells a panel so wide takes across, and cells along.
func thumbSize(r paint.Rect, v View, wide float64) (across, along int) {
	long := reach(v.Pattern, v.Allowance)
	round := func(x float64, most int) int { return max(1, min(most, int(math.Round(x)))) }
	switch {
	case v.Whole && v.Lies:
		return 2 * r.H, r.W
	case v.Whole:
		return 2 * r.W, r.H
	case v.Lies: // a cell is twice as high as wide
		scale := math.Max(long/float64(r.W), wide/float64(2*r.H))
		return round(wide/scale, 2*r.H), round(long/scale, r.W)
	default:
		scale := math.Max(wide/float64(r.W), long/float64(2*r.H))
		return round(2*wide/scale, 2*r.W), round(long/scale/2, r.H)
	}
}

// ThumbLies reports whether v is seen a good deal larger in r as a thumb that lies than as one
// that stands.
func ThumbLies(v View, r paint.Rect) bool {
	wide := 0.0
	for _, s := range v.Pattern.Strips {
		wide += s.Width.MM()
	}
	long := reach(v.Pattern, v.Allowance)
	w, h := float64(r.W), float64(2*r.H)
	return lyingGain*math.Max(long/w, wide/h) < math.Max(wide/w, long/h)
}

// lyingGain is by how much larger a panel is seen that lies, where it does.
const lyingGain = 1.2

// drawThumb draws the strips where they are.
func drawThumb(c *paint.Canvas, r paint.Rect, v View, palette *Palette, spans []Span) {
	across, along := spans[len(spans)-1].X+spans[len(spans)-1].W, spans[0].To
	half := make([]paint.Style, across+across%2) // of each half cell across: its wood, or its texture's weight
	runes := make([]rune, len(half))
	wood := c.Profile().ShowsWood()
	of := texturesIn(v.Pattern, v.Timber)
	for _, s := range spans {
		strip := v.Pattern.Strips[s.Strip]
		style := paint.Style{}
		if wood {
			style.FG = palette.of(lookUp(v.Timber, strip.Species).As(strip.Colour), c.Palette()).shades[thumbShade]
		}
		for x := s.X; x < s.X+s.W; x++ {
			half[x], runes[x] = style, textures[of[strip.Species]]
		}
	}
	sign := '▌'
	if v.Lies {
		sign = '▀'
	}
	for cell := range len(half) / 2 {
		first, second := half[2*cell], half[2*cell+1]
		shown, style := sign, paint.Style{FG: first.FG, BG: second.FG}
		if !wood {
			if shown, style = runes[2*cell], (paint.Style{}); shown == 0 {
				shown = runes[2*cell+1]
			}
		}
		if v.Lies {
			c.Fill(paint.Rect{X: r.X, Y: r.Y + cell, W: along, H: 1}, shown, style)
		} else {
			c.Fill(paint.Rect{X: r.X + cell, Y: r.Y, W: 1, H: along}, shown, style)
		}
	}
}

// thumbShade is which of a timber's shades stands for it where there is no room for grain.
const thumbShade = 5
