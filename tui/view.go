package tui

import (
	"fmt"
	"strings"

	"example.com/oddments/tui/head"
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
		head.TooSmall(c, leastWidth, leastHeight)
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

// bottom returns the row at the bottom.
func (a App) bottom() paint.Rect {
	return paint.Rect{Y: a.height - tabRows, W: a.width, H: tabRows}.Inset(1, 0)
}

// tabs returns the names of the screens and where they stand, so that the way to the help
// stays in view behind them.
func (a App) tabs() []head.Tab {
	var tabs []head.Tab
	for i, s := range a.screens {
		if !s.listed() {
			continue
		}
		tab := head.Tab{Name: string(s.title), Shown: i == a.tab(), Screen: i}
		if counter, ok := s.Screen.(screen.Counter); ok {
			tab.Count = counter.Count(a.doc.report)
		}
		tabs = append(tabs, tab)
	}
	return head.Tabs(a.bottom(), tabs, paint.Width(head.HelpKey(a.keys)))
}

func (a App) drawTabs(c *paint.Canvas) {
	tabs := a.tabs()
	head.DrawTabs(c, tabs)
	if a.overlay != nil {
		return // its own keys stand on it
	}
	row := a.bottom()
	_, free := row.SplitLeft(tabs[len(tabs)-1].Rect.Right() - row.X + 1)
	c.TextRight(free, head.Everywhere(free.W, digits(a.screens), a.keys), c.Role(paint.RoleFaint))
}
