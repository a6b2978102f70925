package pileview

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// setLine says what the set is worth, and how much more a set could be, in fewer and fewer words.
func (s Screen) setLine(ctx screen.Context) []string {
	f := s.now.found
	if !f.have {
		if s.works {
			return []string{"searching for the first set"}
		}
		return []string{"No panels yet"}
	}
	if len(f.set.Panels) == 0 && !s.works {
		return []string{"No panel was found"}
	}
	text := tell.Count(len(f.set.Panels), "panel") + ", worth " + s.worth(f.set.Worth, ctx)
	const same = 1e-9
	switch {
	case s.works && s.then != nil:
		return []string{text + ", planning"}
	case s.works:
		return []string{text + " so far, still searching", text + ", searching"}
	case f.set.Bound <= f.set.Worth*(1+same):
		return []string{text + ": no set is worth more (proved)", text + ", the most (proved)"}
	default:
		most := s.worth(f.set.Bound, ctx)
		return []string{text + ": no set is worth more than " + most, text + ", at most " + most}
	}
}

// drawSet draws the panels: side by side where there is room, else one a row.
func (s Screen) drawSet(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	top, rows := r.SplitTop(1)
	f := s.now.found
	n := len(f.set.Panels)
	where := 0
	if n > rows.H-1 {
		where = len("  10 of 10")
	}
	c.TextFit(top.Inset(1, 0), "Set   "+screen.FirstThatFits(top.W-2-where-len("Set   "), s.setLine(ctx)...), c.Role(paint.RoleHeading))
	if n == 0 {
		text := "All of the rack is tried together: panels that keep to look, level and timbers of each want, and one plan that cuts them all. " +
			ctx.Keys.KeyOf(pileSearch) + " searches, up to 30 s; better sets are shown as they are found."
		switch {
		case f.have && f.late:
			text = "The search ended before a panel was found: " + ctx.Keys.KeyOf(pileSearch) + " searches again."
		case f.have && !s.works:
			text = "No board that is wanted was found in this rack. "
			if f.set.Bound == 0 {
				text = "This rack gives none of the boards that are wanted (proved). "
			}
			text += ctx.Keys.KeyOf(pileWhy) + " shows why each piece stays. Ask for another size, look or level, fewer timbers, or less contrast."
		}
		if len(s.now.wants) > 0 {
			c.Lines(rows.Inset(1, 0), screen.Wrap(text, rows.W-2), paint.Style{})
		}
		return
	}
	cells := s.cells(rows)
	if last := cells[s.panel]; last.H == 1 && rows.H > leastSet {
		c.TextFit(rows.Row(rows.H-1).Inset(1, 0), s.chosenLine(rows.W-2, ctx), c.Role(paint.RoleFaint))
	}
	if n > rows.H-1 && cells[s.panel].H == 1 {
		c.TextRight(top.Inset(1, 0), fmt.Sprintf("  %d of %d", s.panel+1, n), c.Role(paint.RoleFaint))
	}
	says := s.sayings(rows.W-2-s.names()-leastStrips(rows.W)-1, ctx)
	for i, cell := range cells {
		if cell.H > 1 {
			s.drawCell(c, cell, i, ctx)
		} else if cell.H == 1 {
			s.drawRow(c, cell, i, says, ctx)
		}
	}
}

// cells returns where each panel stands; one that is out of view has no cells.
func (s Screen) cells(r paint.Rect) []paint.Rect {
	n := len(s.now.found.set.Panels)
	out := make([]paint.Rect, n)
	across := max(1, (r.W-2)/cellWidth)
	across = min(across, max(n, 4))
	deep := (n + across - 1) / max(1, across)
	if high := r.H / max(1, deep); r.W >= screen.SideFrom && high >= cellHigh {
		wide := (r.W - 2) / across
		for i := range out {
			out[i] = paint.Rect{X: r.X + 1 + i%across*wide, Y: r.Y + i/across*high, W: wide - 1, H: high}
		}
		return out
	}
	if r.H > leastSet { // beneath them the chosen one is told in full
		r, _ = r.SplitTop(r.H - 1)
	}
	first, after := screen.List{Rows: r, N: n, At: s.panel}.Seen()
	for i := first; i < after; i++ {
		out[i] = r.Row(i - first)
	}
	return out
}

// chosenLine says what the row of the chosen panel has no room for, in w cells.
func (s Screen) chosenLine(w int, ctx screen.Context) string {
	p := s.now.found.set.Panels[s.panel]
	text := p.Stem + ": " + p.Pattern.Width().With(ctx.Unit) + " wide, "
	named := strips(p.Pattern, ctx.Name)
	return screen.FirstThatFits(w, text+tell.List(named, "and"), text+strings.Join(strips(p.Pattern, ctx.Letters), " "))
}

// holdsIt says whether a panel is held.
func (s Screen) holdsIt(i int) string {
	if slices.Contains(s.now.held, s.now.found.set.Panels[i].Stem) {
		return "held"
	}
	return ""
}

func (s Screen) view(i int, ctx screen.Context) panel.View {
	return panel.View{Pattern: s.now.found.set.Panels[i].Pattern, Timber: ctx.Physics.Table().Get, Allowance: ctx.Allow.Length,
		Selected: panel.NoStrip, Unit: ctx.Unit, Whole: true}
}

// Of a row the name of a panel and its strips take so many cells at most.
const (
	mostNames  = 21
	mostStrips = 48
)

// leastStrips is how many cells the strips take in a row of w cells at least.
func leastStrips(w int) int { return w * 3 / 10 }

// names returns how many cells the names of panels take in their rows.
func (s Screen) names() int {
	longest := 0
	for _, p := range s.now.found.set.Panels {
		longest = max(longest, paint.Width(p.Stem))
	}
	const mark, apart = 2, 2
	return min(mark+longest+apart, mostNames)
}

// sayings says how each panel stands, all as fully as w cells let all.
func (s Screen) sayings(w int, ctx screen.Context) []string {
	all := make([][]string, len(s.now.found.set.Panels))
	level := 0
	for i := range all {
		all[i] = s.says(i, ctx)
		for level < len(all[i])-1 && paint.Width(all[i][level]) > w {
			level++
		}
	}
	out := make([]string, len(all))
	for i := range all {
		out[i] = all[i][level]
	}
	return out
}

// drawRow draws a panel in one row: its name, its strips in their colours, and how it stands.
func (s Screen) drawRow(c *paint.Canvas, r paint.Rect, i int, says []string, ctx screen.Context) {
	mark, style := screen.Marked(c, i == s.panel)
	r = r.Inset(1, 0)
	c.Fill(r, ' ', style)
	names, least := s.names(), leastStrips(r.W)
	c.TextFit(cut(r, 0, names), mark+s.now.found.set.Panels[i].Stem, style)
	_, r = r.SplitLeft(names)
	widest := 0
	for _, text := range says {
		widest = max(widest, paint.Width(text))
	}
	strips, r := r.SplitLeft(min(mostStrips, max(least, r.W-widest-1)))
	panel.Thumb(c, strips, s.view(i, ctx), ctx.Wood)
	_, r = r.SplitLeft(1)
	c.TextFit(r, says[i], style)
}

// says says how a panel stands, as fully as may find room.
func (s Screen) says(i int, ctx screen.Context) []string {
	f := s.now.found
	p := f.set.Panels[i]
	worth := s.worth(float64(p.Copies())*f.wants[p.Want].Each(), ctx)
	level := f.levels[i].String()
	phrase := func(words ...string) string {
		return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ", ")
	}
	holds, held := tell.Count(p.Copies(), "product"), s.holdsIt(i)
	return []string{
		phrase(holds, "worth "+worth, level, s.timbers(i, ctx), held),
		phrase(holds, "worth "+worth, level, held),
		phrase(fmt.Sprintf("x%d", p.Copies()), worth, level, held),
		phrase(level, held),
	}
}

// timbers says how many strips of each timber a panel has, by the timbers' letters.
func (s Screen) timbers(i int, ctx screen.Context) string {
	return strings.Join(strips(s.now.found.set.Panels[i].Pattern, ctx.Letters), " ")
}

// strips says how many strips of each timber there are.
func strips(p pattern.Pattern, called func(species string) string) (out []string) {
	var of tell.Groups[string, int]
	for n, strip := range p.Strips {
		of.Add(strip.Species, n)
	}
	for key, all := range of.All() {
		out = append(out, fmt.Sprintf("%d %s", len(all), called(key)))
	}
	return out
}

// drawCell draws a panel among others side by side: to scale, and beneath it what it is.
func (s Screen) drawCell(c *paint.Canvas, r paint.Rect, i int, ctx screen.Context) {
	f := s.now.found
	p := f.set.Panels[i]
	picture, _ := r.SplitTop(r.H - captions - 1)
	v := s.view(i, ctx)
	v.Whole = false
	v.Lies = panel.ThumbLies(v, picture)
	spans := panel.Thumb(c, picture, v, ctx.Wood)
	rows := 0
	if n := len(spans); n > 0 && v.Lies {
		rows = (spans[n-1].X + spans[n-1].W + 1) / 2
	} else if n > 0 {
		rows = spans[0].To
	}
	_, r = r.SplitTop(min(rows, picture.H))
	mark, style := screen.Marked(c, i == s.panel)
	c.Fill(r.Row(0), ' ', style)
	c.TextFit(r.Row(0), strings.TrimRight(mark+p.Stem+"  "+s.holdsIt(i), " "), style)
	worth := s.worth(float64(p.Copies())*f.wants[p.Want].Each(), ctx)
	for row, text := range []string{
		tell.Count(p.Copies(), "product") + ", worth " + worth,
		p.Pattern.Width().With(ctx.Unit) + " wide, " + f.levels[i].String(),
		s.timbers(i, ctx),
	} {
		_, at := r.Row(row + 1).SplitLeft(2)
		c.TextFit(at, text, paint.Style{})
	}
}
