package reading

import (
	"fmt"
	"math"

	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/photo"
)

// terms is how many terms the form of the light has at most: a + b u + c v + d u2 + e v2.
// A term in u v brings nothing in ln light, and hides shadows.
const terms = 5

// A light is how bright paper is at each place, for each of three channels.
type light struct {
	form     [3][]float64 // terms of ln
	x, y     float64      // where u and v are 0
	half     float64      // half the photo's longer side
	residual float64
	ratio    float64
}

// at returns the light at a place.
func (l light) at(x, y float64) photo.Triple {
	t := l.terms(x, y)
	var out photo.Triple
	for i, form := range l.form {
		var ln float64
		for j, c := range form {
			ln += c * t[j]
		}
		out[i] = math.Exp(ln)
	}
	return out
}

func (l light) terms(x, y float64) [terms]float64 {
	u, v := (x-l.x)/l.half, (y-l.y)/l.half
	return [terms]float64{1, u, v, u * u, v * v}
}

// A cell is one place of paper that was read.
type cell struct {
	x, y float64
	ln   photo.Triple
}

// readLight reads every paper and lays the light's form through its cells; channels takes a
// pixel's XYZ to what the light is told in.
func (r *Reader) readLight(channels func(photo.Triple) photo.Triple) (light, error) {
	const careResidual, mostResidual, careRatio, mostRatio = 0.025, 0.12, 2, 4
	var cells []cell
	for i, b := range r.setup.White {
		name := fmt.Sprintf("white %d", i+1)
		if err := r.checkPaper(b, name); err != nil {
			return light{}, err
		}
		cells = append(cells, r.cells(b, channels)...)
	}
	if len(cells) == 0 {
		return light{}, refuse("white 1", "set the box larger", "no part of the paper has %d pixels that can be read", leastLeft)
	}
	l := r.fit(cells)
	r.Known, r.Ratio, r.Residual = true, l.ratio, l.residual
	note := func(rule string, level pattern.Level, message, remedy string) {
		r.Findings = append(r.Findings, Finding{Rule: rule, Level: level, Where: "light", Message: message, Remedy: remedy})
	}
	const even = "use open shade or a window, nothing between light and timber"
	switch {
	case l.residual > mostResidual:
		return light{}, refuse("white 1", even, "the papers differ by %.0f %% from any even light", 100*l.residual)
	case l.residual > careResidual:
		note("shadow", pattern.TakeCare, fmt.Sprintf("the papers differ by %.1f %% from any even light: a shadow or a near lamp", 100*l.residual), even)
	}
	switch {
	case l.ratio > mostRatio:
		return light{}, refuse("white 1", even, "one paper is %.1f times as light as another", l.ratio)
	case l.ratio > careRatio:
		note("uneven", pattern.TakeCare, fmt.Sprintf("one paper is %.1f times as light as another", l.ratio), even)
	}
	if len(r.setup.White) == 1 {
		note("evenness unknown", pattern.Fine, "one paper does not tell how even the light is", "lay paper on two sides or more of the timber")
	}
	return l, nil
}

// checkPaper refuses paper that is too bright, small, dark or coloured to go by.
func (r *Reader) checkPaper(b Box, name string) error {
	const mostClipped, leastY, careY, careCoded, mostCast, careCast = 0.02, 0.10, 0.25, 240, 4, 2
	const darker, lighter, shade = "take the photo a little darker", "take the photo lighter, or in a lighter place", "use daylight in open shade or at a window"
	s, err := r.pixels(b, name)
	if err != nil {
		return err
	}
	switch share := float64(s.clipped) / float64(max(1, s.opaque)); {
	case share > mostClipped:
		return refuse(name, darker, "too bright: %.0f %% of its pixels are full", 100*share)
	case len(s.list) < leastLeft:
		return refuse(name, "set the box larger, on paper alone", "too small: only %d pixels can be read", len(s.list))
	}
	n := float64(len(s.list))
	brightest := max(s.coded[0], s.coded[1], s.coded[2]) / n
	xyz := mean(trimmed(s.list))
	red, green, blue := colorful.XyzToLinearRgb(xyz[0], xyz[1], xyz[2])
	cast := max(red, green, blue) / min(red, green, blue)
	note := func(rule, message, remedy string) {
		r.Findings = append(r.Findings, Finding{Rule: rule, Level: pattern.TakeCare, Where: name, Message: message, Remedy: remedy})
	}
	switch {
	case xyz[1] < leastY:
		return refuse(name, lighter, "too dark to be white paper (%.0f %%)", 100*xyz[1])
	case min(red, green, blue) <= 0 || cast > mostCast:
		return refuse(name, shade, "its colour is too strong for white paper")
	}
	if xyz[1] < careY {
		note("dark", fmt.Sprintf("the paper is dark (%.0f %%)", 100*xyz[1]), lighter)
	}
	if brightest > careCoded {
		note("bright", fmt.Sprintf("the paper is nearly full (%.0f of %d)", brightest, photo.Fullscale), darker)
	}
	if cast > careCast {
		note("cast", fmt.Sprintf("the light has a strong colour (%.1f to 1)", cast), shade)
	}
	return nil
}

// cells parts a paper evenly and reads each part.
func (r *Reader) cells(b Box, channels func(photo.Triple) photo.Triple) []cell {
	const side, most = 40, 4
	columns, rows := max(1, min(most, b.W/side)), max(1, min(most, b.H/side))
	var out []cell
	for row := range rows {
		for column := range columns {
			part := b.cell(column, columns, row, rows)
			s := r.sampled(part, stride(part))
			if len(s.list) < leastLeft {
				continue
			}
			for i := range s.list {
				s.list[i].value = channels(s.list[i].value)
			}
			m := mean(trimmed(s.list))
			if min(m[0], m[1], m[2]) <= 0 {
				continue
			}
			x, y := part.middle()
			out = append(out, cell{x, y, photo.Triple{math.Log(m[0]), math.Log(m[1]), math.Log(m[2])}})
		}
	}
	return out
}

// fit lays the form through the cells by least squares, drawn a little towards even light:
// one formula from one sheet to four sides.
func (r *Reader) fit(cells []cell) light {
	n := float64(len(cells))
	l := light{half: float64(max(r.photo.Width, r.photo.Height)) / 2}
	for _, c := range cells {
		l.x, l.y = l.x+c.x/n, l.y+c.y/n
	}
	const curvedFrom, flat = 3, 3
	pull := []float64{0, 0.001, 0.001, 0.003, 0.003}
	if len(r.setup.White) < curvedFrom {
		pull = pull[:flat]
	}
	for channel := range l.form {
		s := newLeastSquares(len(pull))
		for i, p := range pull {
			s.left[i][i] = n * p
		}
		for _, c := range cells {
			t := l.terms(c.x, c.y)
			s.add(t[:len(pull)], c.ln[channel], 1)
		}
		l.form[channel] = s.solve()
	}
	var sum float64
	lightest, darkest := math.Inf(-1), math.Inf(1)
	for _, c := range cells {
		at, all := l.at(c.x, c.y), 0.0
		for i, ln := range c.ln {
			off := ln - math.Log(at[i])
			sum, all = sum+off*off, all+ln
		}
		lightest, darkest = max(lightest, all), min(darkest, all)
	}
	l.residual, l.ratio = math.Sqrt(sum/(3*n)), math.Exp((lightest-darkest)/3)
	return l
}
