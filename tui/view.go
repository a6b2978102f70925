package tui

import (
	"fmt"
	"strings"

	"example.com/oddments/tui/head"
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

// body returns the part of the screen that a screen draws into.
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
	head.Title(c, all.Row(0).Inset(1, 0), ctx)
	if second := all.Row(1).Inset(1, 0); a.notice.Text == "" {
		head.Status(c, second, ctx, a.busyWith())
	} else { // it is drawn over all
		head.Right(c, second, ctx, a.busyWith())
	}
	a.screens[a.at].Draw(c, a.body(), ctx)
	a.drawTabs(c)
	if a.notice.Text != "" {
		head.Notice(c, all, a.notice)
	}
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

// busyWith says what a screen goes on with that is not shown; nothing: none does.
func (a App) busyWith() string {
	var all []string
	for i, s := range a.screens {
		if busy, ok := s.Screen.(screen.Busy); ok && i != a.at && busy.Busy() != "" {
			all = append(all, busy.Busy())
		}
	}
	return strings.Join(all, "   ")
}

// A tab is one screen's name on the line at the bottom.
type tab struct {
	text   string
	rect   paint.Rect
	screen int
}

// tabs returns the names of the screens and where they stand.
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

// tabsApart returns the names of the screens with so many cells between each two.
func (a App) tabsApart(gap int) []tab {
	x := 1
	var out []tab
	for i, s := range a.screens {
		if !s.listed() {
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
	return head.FirstThatFits(w,
		fmt.Sprintf("%s next screen   %s search   %s all keys", next, search, help),
		fmt.Sprintf("%s next  %s search  %s keys", next, search, help),
		fmt.Sprintf("%s next  %s keys", next, help),
		a.helpKey(), "")
}
