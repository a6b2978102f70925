package tui

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// The least screen that the program can be used on; 80x24 shows everything.
const (
	leastWidth  = 60
	leastHeight = 18
	headerRows  = 2
	tabRows     = 1
)

// The largest screen that is drawn, more than any window of a large display in its smallest
// letters. A frame takes memory by its cells, and a terminal may call itself 65535 x 65535.
const (
	mostWidth  = 1000
	mostHeight = 300
)

// sized takes a size of the window over, as far as it is drawn.
func (a App) sized(w, h int) App {
	a.width, a.height = min(w, mostWidth), min(h, mostHeight)
	if w > mostWidth || h > mostHeight {
		a = a.say(fmt.Sprintf("this window is %d x %d: oddments draws the first %d x %d of the window", w, h, a.width, a.height))
	}
	return a.inView()
}

// body gives the part of the screen that a screen draws into.
func (a App) body() paint.Rect {
	_, rest := paint.Rect{W: a.width, H: a.height}.SplitTop(headerRows)
	_, rest = rest.SplitBottom(tabRows)
	return rest
}

// View draws the frame.
func (a App) View() string {
	c := a.canvas
	c.Reset(a.width, a.height)
	if a.width < leastWidth || a.height < leastHeight {
		a.tooSmall(c)
		return c.String()
	}
	ctx := a.context()
	all := c.Bounds()
	a.title(c, all.Row(0).Inset(1, 0), ctx)
	a.status(c, all.Row(1).Inset(1, 0), ctx)
	a.screens[a.at].Draw(c, a.body(), ctx)
	a.drawTabs(c)
	a.drawNotice(c, all)
	if a.overlay != nil {
		a.overlay.Draw(c, a.body(), ctx)
	}
	return c.String()
}

func (a App) tooSmall(c *paint.Canvas) {
	text := fmt.Sprintf("oddments needs a window of %d x %d or more, please; this one is %d x %d. Your work is kept.",
		leastWidth, leastHeight, a.width, a.height)
	for i, line := range screen.Wrap(text, a.width) {
		c.Text(c.Bounds().Row(i), line, paint.Style{})
	}
}

// namePart is how many cells of the top line a name may ask for before the figures.
const namePart = 20

// title says what lies on the bench, how wide it is and how thick on its way.
func (a App) title(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p, u := ctx.State.Pattern, ctx.Unit
	wide := "wide " + ctx.Report.Figures.Width.With(u)
	if p.Panel.Width > 0 {
		wide = "wide " + ctx.Report.Figures.Width.Format(u) + " of " + p.Panel.Width.With(u)
	}
	s := a.reckoner.Shop()
	stages := s.Sawn(p.Panel.Thickness).Format(u) + " sawn " + s.Glued(p.Panel.Thickness).Format(u) + " planed"
	if p.Panel.Make == pattern.MakeEdge {
		stages = "on edge: " + s.Glued(p.Panel.Thickness).Format(u) + " ripped"
	}
	mark := ""
	if ctx.Dirty { // where the name is cut off too
		mark = " *"
	}
	thick := p.Panel.Thickness.Format(u)
	right := firstThatFits(r.W-min(paint.Width(ctx.Title+mark), namePart)-2,
		fmt.Sprintf("%s   thick %s %s finished", wide, stages, thick),
		fmt.Sprintf("%s   %s %s finished", wide, stages, thick),
		wide+"   thick "+thick+" finished",
		wide+"   thick "+thick)
	c.TextRight(r, right, paint.Style{})
	left, _ := r.SplitLeft(max(0, r.W-paint.Width(right)-2))
	c.Text(left, paint.Fit(ctx.Title, left.W-len(mark))+mark, c.Role(paint.RoleTitle))
}

// status says how the panel stands, or what was just done or refused.
func (a App) status(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	right := ""
	if ctx.Season != screen.Worse {
		right = ctx.Season.String()
	}
	if ctx.Demo {
		right = strings.TrimSpace("demo   " + right)
	}
	for i, s := range a.screens {
		if busy, ok := s.Screen.(screen.Busy); ok && i != a.at && busy.Busy() != "" {
			right = strings.TrimSpace(busy.Busy() + "   " + right)
		}
	}
	c.TextRight(r, right, c.Role(paint.RoleFaint))
	left, _ := r.SplitLeft(max(0, r.W-paint.Width(right)-2))
	if a.notice.Text != "" {
		return // it is drawn over all
	}
	n := len(ctx.State.Pattern.Strips)
	var parts []string
	if l, level, ok := worst(ctx); ok {
		f := ctx.Of(l)
		parts = append(parts, fmt.Sprintf("worst %d|%d %s, %s", l.Line, l.Line+1, deciding(ctx, l, f), level))
	}
	if looks := ctx.Looks(); looks != "" {
		parts = append(parts, "look at end: "+looks)
	}
	said := strings.Join(parts, "   ")
	strips := screen.Count(n, "strip")
	long := strips + ", " + ctx.State.Pattern.Panel.Length.Format(ctx.Unit) + " long"
	text := firstThatFits(left.W, strings.TrimRight(long+"   "+said, " "), strips+"   "+said, said)
	c.Text(left, paint.Fit(text, left.W), paint.Style{})
}

// deciding gives the figure of a glue line that is furthest beyond its limit.
func deciding(ctx screen.Context, l movement.Line, f screen.LineFigures) string {
	limits := ctx.Reckoner.Shop().Limits
	switch {
	case f.Gap > f.Moves:
		return fmt.Sprintf("gap %.1f", l.GapPct)
	case f.StrainPct/limits.StrainPct.Care > f.StepUM/limits.StepUM.Care:
		return fmt.Sprintf("strain %.2f %%", f.StrainPct)
	default:
		return length.Step(f.StepUM, 0, ctx.Unit) + " " + f.Season.String()
	}
}

// firstThatFits gives the first of the texts that w cells hold, else the last.
func firstThatFits(w int, texts ...string) string {
	for _, text := range texts {
		if paint.Width(text) <= w {
			return text
		}
	}
	return texts[len(texts)-1]
}

// drawNotice writes what was just done or refused on the second row, and over those
// beneath it where it is long.
func (a App) drawNotice(c *paint.Canvas, r paint.Rect) {
	const most = 4
	if a.notice.Text == "" {
		return
	}
	lines := screen.Wrap(a.notice.Text, r.W-2)
	if len(lines) == 1 {
		left := r.Row(1).Inset(1, 0)
		c.Text(left, lines[0], c.Role(a.notice.Role))
		return
	}
	for i, line := range lines[:min(most, len(lines))] {
		c.Fill(r.Row(1+i), ' ', paint.Style{})
		c.Text(r.Row(1+i).Inset(1, 0), line, c.Role(a.notice.Role))
	}
}

// worst gives the glue line that asks most of the maker, in the season chosen.
func worst(ctx screen.Context) (movement.Line, pattern.Level, bool) {
	var line movement.Line
	var level pattern.Level
	var most float64
	found := false
	limits := ctx.Reckoner.Shop().Limits
	for _, l := range ctx.Report.Figures.Lines {
		f := ctx.Of(l)
		severity := max(f.StepUM/limits.StepUM.Care, f.StrainPct/limits.StrainPct.Care, l.GapPct/limits.MoisturePct.Care)
		if !l.Known && f.Gap == pattern.Fine || found && (f.Level < level || f.Level == level && severity <= most) {
			continue
		}
		line, level, most, found = l, f.Level, severity, true
	}
	return line, level, found
}

// A tab is one screen's name on the line at the bottom.
type tab struct {
	text   string
	rect   paint.Rect
	screen int
}

// tabs gives the names of the screens and where they stand.
func (a App) tabs() []tab {
	const gap = 2
	tabs := a.tabsApart(gap)
	last := tabs[len(tabs)-1].rect
	if least := paint.Width(a.helpKey()); last.Right()+gap+least > a.width-1 {
		return a.tabsApart(1) // so that the way to the help stays in view
	}
	return tabs
}

// helpKey is the least that stands behind the tabs.
func (a App) helpKey() string { return a.keys.KeyOf(keymap.Help) + " keys" }

// tabsApart gives the names of the screens with so many cells between each two.
func (a App) tabsApart(gap int) []tab {
	x := 1
	var out []tab
	for i, s := range a.screens {
		if s.overBench {
			continue
		}
		text := string(s.title)
		if i == a.tab() {
			text = "[" + strings.ToUpper(text) + "]"
		}
		if counter, ok := s.Screen.(screen.Counter); ok && counter.Count(a.doc.report) > 0 {
			text += fmt.Sprintf(" %d", counter.Count(a.doc.report))
		}
		out = append(out, tab{text, paint.Rect{X: x, Y: a.height - 1, W: paint.Width(text), H: 1}, i})
		x += paint.Width(text) + gap
	}
	return out
}

func (a App) drawTabs(c *paint.Canvas) {
	tabs := a.tabs()
	for _, t := range tabs {
		role := paint.RoleFaint
		if t.screen == a.tab() {
			role = paint.RoleTitle
		}
		c.Text(t.rect, t.text, c.Role(role))
	}
	if a.overlay != nil {
		return // its own keys stand on it
	}
	last := tabs[len(tabs)-1].rect
	_, free := c.Bounds().Row(a.height-1).Inset(1, 0).SplitLeft(last.X + last.W)
	c.TextRight(free, a.everywhere(free.W), c.Role(paint.RoleFaint))
}

// everywhere says the keys that hold on every screen, as fully as w cells let it.
func (a App) everywhere(w int) string {
	next, search, help := a.keys.KeyOf(keymap.Screen), a.keys.KeyOf(keymap.Search), a.keys.KeyOf(keymap.Help)
	return firstThatFits(w,
		fmt.Sprintf("%s next screen   %s search   %s all keys", next, search, help),
		fmt.Sprintf("%s next  %s search  %s keys", next, search, help),
		fmt.Sprintf("%s next  %s keys", next, help),
		a.helpKey(), "")
}
