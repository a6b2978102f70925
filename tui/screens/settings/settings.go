// Package settings is the screen of the maker's own workshop: every key of shop.toml with
// its value, where that comes from and what it is for.
package settings

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Screen is the settings. The zero value stands at the first, and has none until it is
// told of the workshop.
type Screen struct {
	workshop screen.Workshop
	at       int // the chosen setting
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// page is how many settings page up and page down go.
const page = 10

// Update goes through the settings and asks for what changes them.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	switch msg := msg.(type) {
	case screen.Workshop:
		s.workshop = msg
		return s.goBy(0), nil
	case screen.Do:
		return s.do(msg.ID, ctx)
	case screen.Press:
		if id, ok := screen.Pressed(footer(ctx.Window.Body, ctx), msg.X, msg.Y); ok {
			return s, []screen.Request{screen.Act{ID: id}}
		}
		return s.pressed(msg.Y, ctx), nil
	case screen.Wheel:
		return s.goBy(msg.By()), nil
	case found:
		return s.goBy(int(msg) - s.at), nil
	}
	return s, nil
}

func (s Screen) do(id keymap.ID, ctx screen.Context) (screen.Screen, []screen.Request) {
	switch id {
	case setUp:
		return s.goBy(-1), nil
	case setDown:
		return s.goBy(1), nil
	case setPageUp:
		return s.goBy(-page), nil
	case setPageDown:
		return s.goBy(page), nil
	case setChange:
		return s, s.change(ctx)
	case setFind:
		return s, []screen.Request{s.find(ctx)}
	case setBack:
		return s, []screen.Request{screen.Act{ID: keymap.Settings}}
	}
	return s, nil
}

func (s Screen) goBy(by int) Screen {
	s.at = max(0, min(s.at+by, len(s.workshop.Settings)-1))
	return s
}

// chosen returns the setting that is chosen.
func (s Screen) chosen() (store.Setting, bool) {
	if s.at >= len(s.workshop.Settings) {
		return store.Setting{}, false
	}
	return s.workshop.Settings[s.at], true
}

// change shows a field for the chosen setting.
func (s Screen) change(ctx screen.Context) []screen.Request {
	one, ok := s.chosen()
	if !ok {
		return nil
	}
	title := fmt.Sprintf("%s: %s (%s)", one.Key, one.About, one.Range(ctx.Unit))
	field := ask.New(title, one.Typed(ctx.Unit), func(typed string) (any, string, error) {
		understood, err := one.Check(typed, ctx.Unit)
		return screen.SetShop{Setting: one, Typed: typed}, understood, err
	}).Value()
	return []screen.Request{ask.Show(field, func(set screen.SetShop) tea.Msg { return set })}
}

// found says that the setting of that place was looked for.
type found int

// find shows all settings to look for one.
func (s Screen) find(ctx screen.Context) screen.Show {
	var items []choose.Item
	for i, one := range s.workshop.Settings {
		items = append(items, choose.Item{Name: one.Key + ": " + one.About, Also: one.Group.About, Detail: one.Shown(ctx.Unit), Value: found(i)})
	}
	return screen.Show{Overlay: choose.New("settings of your workshop", "no setting of that name", items), Then: func(value any) tea.Msg { return value }}
}

// A line is one row of the list: the heading of a group, or a setting.
type line struct {
	heading string
	setting int
}

func (s Screen) lines() []line {
	var out []line
	last := ""
	for i, one := range s.workshop.Settings {
		if one.Group.Name != last {
			last = one.Group.Name
			out = append(out, line{heading: last + ": " + one.Group.About, setting: -1})
		}
		out = append(out, line{setting: i})
	}
	return out
}

// The rows above and below the list.
const (
	headRows  = 1
	aboutRows = 3 // the chosen setting in full, and a blank row
)

// rows returns where the list stands, and the first of its lines that is in view.
func (s Screen) rows(r paint.Rect) (list, about paint.Rect, first int) {
	_, r = r.SplitBottom(screen.FooterRows)
	_, r = r.SplitTop(headRows)
	about, list = r.SplitBottom(min(aboutRows, max(0, r.H-1)))
	all := s.lines()
	at := 0
	for i, l := range all {
		if l.setting == s.at {
			at = i
		}
	}
	return list, about, max(0, min(at-list.H/2, len(all)-list.H))
}

// pressed chooses the setting at row y.
func (s Screen) pressed(y int, ctx screen.Context) Screen {
	list, _, first := s.rows(ctx.Window.Body)
	if all := s.lines(); y >= list.Y && y < list.Bottom() && first+y-list.Y < len(all) {
		if i := all[first+y-list.Y].setting; i >= 0 {
			s.at = i
		}
	}
	return s
}

// footer returns the keys that matter now.
func footer(r paint.Rect, ctx screen.Context) []screen.FooterPlace {
	return screen.Footer(r, ctx.Keys, Place, func(id keymap.ID) bool {
		switch id {
		case keymap.Undo:
			return ctx.CanUndo
		case keymap.Save, keymap.Season:
			return false
		default:
			return true
		}
	})
}

// Draw draws the settings into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	head, _ := r.SplitTop(headRows)
	c.Text(head.Inset(1, 0), paint.Fit(s.title(), r.W-2), c.Role(paint.RoleHeading))
	list, about, first := s.rows(r)
	list = list.Inset(1, 0)
	all := s.lines()
	for i := range min(list.H, len(all)-first) {
		if l := all[first+i]; l.setting < 0 {
			c.Text(list.Row(i), paint.Fit(l.heading, list.W), c.Role(paint.RoleFaint))
		} else {
			s.row(c, list.Row(i), l.setting, ctx)
		}
	}
	s.about(c, about.Inset(1, 0), ctx)
	screen.DrawFooter(c, footer(r, ctx))
}

func (s Screen) title() string {
	yours := 0
	for _, one := range s.workshop.Settings {
		if one.Yours {
			yours++
		}
	}
	switch {
	case s.workshop.Demo:
		return "Settings   the demo's workshop: your own begins with the first that you change"
	case yours == 0:
		return fmt.Sprintf("Settings   of your workshop: %d, all built in", len(s.workshop.Settings))
	}
	return fmt.Sprintf("Settings   of your workshop: %d, %d of them yours", len(s.workshop.Settings), yours)
}

// The widths of the columns: the key within its group, its value, where it comes from.
const (
	wideKey, wideValue, wideSource = 20, 17, 10
)

// row draws one setting.
func (s Screen) row(c *paint.Canvas, r paint.Rect, i int, ctx screen.Context) {
	one, style, mark := s.workshop.Settings[i], paint.Style{}, "  "
	if i == s.at {
		style, mark = c.Role(paint.RoleSelected), "> "
		c.Fill(r, ' ', style)
	}
	name := strings.TrimPrefix(one.Key, one.Group.Name+".")
	x := 0
	for _, cell := range []struct {
		text string
		wide int
	}{{mark + name, wideKey + 2}, {one.Shown(ctx.Unit), wideValue}, {s.source(one), wideSource}, {one.About, r.W}} {
		_, at := r.SplitLeft(min(x, r.W))
		room, _ := at.SplitLeft(min(cell.wide, at.W))
		c.Text(room, paint.Fit(cell.text, max(0, min(cell.wide-1, room.W))), style)
		x += cell.wide
	}
}

// source says where a value comes from.
func (s Screen) source(one store.Setting) string {
	switch {
	case one.Yours && s.workshop.Demo:
		return "demo"
	case one.Yours:
		return "yours"
	}
	return "built in"
}

// about tells of the chosen setting in full.
func (s Screen) about(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	one, ok := s.chosen()
	if !ok || r.H < 2 {
		return
	}
	_, r = r.SplitTop(r.H - 2)
	c.Text(r.Row(0), paint.Fit(one.Key+": "+one.About, r.W), c.Role(paint.RoleHeading))
	c.Text(r.Row(1), paint.Fit("may be "+one.Range(ctx.Unit)+"; built in "+one.ShownUsual(ctx.Unit), r.W), c.Role(paint.RoleFaint))
}
