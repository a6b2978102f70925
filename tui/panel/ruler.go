package panel

import (
	"math"

	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
)

// steps are the distances between a ruler's figures, the smallest first.
func steps(u length.Unit) []length.Length {
	var out []length.Length
	unit := length.Millimetre
	if u == length.InInches {
		unit = length.Inch
		out = append(out, unit/4, unit/2)
	}
	for decade := unit; decade <= 100_000*unit; decade *= 10 {
		out = append(out, decade, 2*decade, 5*decade)
	}
	return out
}

// chooseStep returns the smallest step that is at least least millimetres.
func chooseStep(u length.Unit, least float64) length.Length {
	all := steps(u)
	for _, s := range all {
		if s.MM() >= least {
			return s
		}
	}
	return all[len(all)-1]
}

// minorStep parts a step as finely as leaves three cells from tick to tick.
func minorStep(step length.Length, cellsPerMM float64, u length.Unit) length.Length {
	parts := []length.Length{10, 5, 2}
	if u == length.InInches {
		parts = []length.Length{8, 4, 2}
	}
	for _, n := range parts {
		if step%n == 0 && (step/n).MM()*cellsPerMM >= 3 {
			return step / n
		}
	}
	return step
}

// ruler draws the ruler beneath the strips: figures from edge A with the glue-up width at its
// end, the chosen strip's part double; where the panel lies from the datum end, with its length.
func (d drawing) ruler() {
	l := d.l
	if l.Ruler < 0 || l.Wood.W == 0 {
		return
	}
	d.c.Fill(paint.Rect{X: l.Wood.X, Y: l.Ruler, W: l.Wood.W, H: 1}, '─', paint.Style{})
	from, to := 0.0, l.lengthMM
	if !l.Lies {
		from, to = l.edges[0], l.edges[len(l.edges)-1]
		for _, s := range l.Strips {
			if s.Strip == d.v.Selected {
				d.c.Fill(paint.Rect{X: s.X, Y: l.Ruler, W: s.W, H: 1}, '═', paint.Style{})
			}
		}
	}
	perMM := float64(l.Wood.W) / math.Max(to-from, 1e-9)
	end := length.FromMM(to)
	longest := len(end.Format(d.v.Unit))
	step := chooseStep(d.v.Unit, float64(longest+2)/perMM)
	minor := minorStep(step, perMM, d.v.Unit)
	for at := minor * length.Length(math.Ceil(from/minor.MM())); at <= end; at += minor {
		d.tick(l.column(at.MM()), '┴', '╧')
	}
	free := l.Rect.Right()
	if l.After == 0 || l.Lies {
		free = d.endFigure(end)
	}
	used := l.Rect.X
	for at := step * length.Length(math.Ceil(from/step.MM())); at <= end; at += step {
		x := l.column(at.MM())
		d.tick(x, '┼', '╪')
		text := at.Format(d.v.Unit)
		left := max(l.Wood.X, x-len(text)/2)
		if left >= used && left+len(text) < free {
			d.put(left, l.Figures, text, d.c.Role(paint.RoleFaint))
			used = left + len(text) + 1
		}
	}
	if room := l.Wood.X - l.Rect.X; room >= 4 {
		d.put(l.Wood.X-4, l.Figures, d.v.Unit.String(), d.c.Role(paint.RoleFaint))
	}
}

// tick puts a tick at column x, or at the last one where x lies beyond the room;
// under the chosen strip its other form.
func (d drawing) tick(x int, r, chosen rune) {
	x = min(x, d.l.Rect.Right()-1)
	if strip, ok := d.l.StripAt(x, d.l.Ruler); ok && strip == d.v.Selected && !d.l.Lies {
		r = chosen
	}
	d.c.Set(x, d.l.Ruler, r, paint.Style{})
}

// endFigure writes the glue-up width at the ruler's end, and returns the column that
// the other figures must stay left of.
func (d drawing) endFigure(end length.Length) (free int) {
	l := d.l
	d.tick(l.Wood.Right(), '┤', '┤')
	text := end.Format(d.v.Unit)
	at := min(l.Wood.Right()-len(text)/2, l.Rect.Right()-len(text))
	d.put(at, l.Figures, text, paint.Style{})
	return at
}

// lengthRuler draws the ruler at the left, figures from the datum end, where the
// margin has room for it.
func (d drawing) lengthRuler() {
	l := d.l
	if l.Wood.X-l.Rect.X < rulerMargin || l.Wood.H == 0 {
		return
	}
	line := l.Wood.X - 1
	faint := d.c.Role(paint.RoleFaint)
	first, last := l.Wood.Y, l.Wood.Bottom()-1
	d.c.Fill(paint.Rect{X: line, Y: first, W: 1, H: l.Wood.H}, '│', faint)
	d.c.Set(line, last, '┘', faint)
	d.figure(last, "datum")
	if l.Wood.H < 3 {
		return
	}
	rowsPerMM := l.along / 2
	end := length.FromMM(l.lengthMM)
	step := chooseStep(d.v.Unit, 2/rowsPerMM)
	for at := step; at < end; at += step {
		y := last - int(math.Round(at.MM()*rowsPerMM))
		if y > first+1 {
			d.c.Set(line, y, '┤', faint)
			d.figure(y, at.Format(d.v.Unit))
		}
	}
	d.c.Set(line, first, '┐', faint)
	text := end.Format(d.v.Unit)
	if len(text) >= rulerMargin {
		text = length.Estimate(l.lengthMM, d.v.Unit)
	}
	d.figure(first, text)
}

// figure writes text to the left of the length ruler's line, where it fits.
func (d drawing) figure(y int, text string) {
	room := paint.Rect{X: d.l.Wood.X - rulerMargin, Y: y, W: rulerMargin - 1, H: 1}
	if len(text) <= room.W {
		d.c.TextRight(room, text, d.c.Role(paint.RoleFaint))
	}
}
