// Package settings is the screen of the maker's own workshop: every key of shop.toml with
// its value, where that comes from and what it is for.
package settings

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/length"
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

// Update goes through the settings and asks for what changes them.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, taken := table().Take(s, ctx, msg); taken {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Workshop:
		s.workshop = msg
		return s.goBy(0, ctx), nil
	case screen.Press:
		list, _ := s.list(ctx.Window.Body)
		if i, ok := list.On(msg.Y); ok && s.lines()[i].setting >= 0 {
			s.at = s.lines()[i].setting
		}
	}
	return s, nil
}

func (s Screen) goBy(by int, _ screen.Context) Screen {
	s.at = screen.Among(s.at+by, len(s.workshop.Settings))
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
	return ask.Show(field, func(set screen.SetShop) tea.Msg { return set })
}

// yours reports whether the chosen setting is in the maker's own file.
func (s Screen) yours(screen.Context) bool {
	one, ok := s.chosen()
	return ok && one.Yours && !s.workshop.Demo
}

// builtIn puts the chosen setting back to what is built in.
func (s Screen) builtIn(ctx screen.Context) []screen.Request {
	one, ok := s.chosen()
	switch {
	case !ok:
		return nil
	case s.yours(ctx):
		return []screen.Request{screen.SetShop{Setting: one, BuiltIn: true}}
	case one.Yours:
		return []screen.Request{screen.Say(one.Key + " is the demo's: nothing of it counts once your own workshop begins")}
	}
	return []screen.Request{screen.Say(one.Key + " is built in already")}
}

// find shows all settings to look for one.
func (s Screen) find(ctx screen.Context) []screen.Request {
	var items []choose.Item
	for i, one := range s.workshop.Settings {
		items = append(items, choose.Item{Name: one.Key + ": " + one.About, Also: one.Group.About, Detail: one.Shown(ctx.Unit), Value: i})
	}
	list := choose.New("settings of your workshop", "no setting of that name", items)
	return []screen.Request{screen.Show{Overlay: list, Then: func(value any) tea.Msg {
		return screen.Then[Screen](func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			return s.goBy(value.(int)-s.at, ctx), nil
		})
	}}}
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

// list returns the lines, and where the chosen setting is told of.
func (s Screen) list(r paint.Rect) (list screen.List, about paint.Rect) {
	_, r = r.SplitBottom(screen.FooterRows)
	_, r = r.SplitTop(headRows)
	about, r = r.SplitBottom(min(aboutRows, max(0, r.H-1)))
	all := s.lines()
	at := slices.IndexFunc(all, func(l line) bool { return l.setting == s.at })
	return screen.List{Rows: r.Inset(1, 0), N: len(all), At: at}, about
}

// Draw draws the settings into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	head, _ := r.SplitTop(headRows)
	c.Text(head.Inset(1, 0), paint.Fit(s.title(), r.W-2), c.Role(paint.RoleHeading))
	list, about := s.list(r)
	all := s.lines()
	list.Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		if l := all[i]; l.setting < 0 {
			c.Text(row, paint.Fit(l.heading, row.W), c.Role(paint.RoleFaint))
		} else {
			s.row(c, row, s.workshop.Settings[l.setting], mark, style, ctx.Unit)
		}
	})
	s.about(c, about.Inset(1, 0), ctx)
	screen.DrawFooter(c, table().Footer(s, r, ctx))
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
func (s Screen) row(c *paint.Canvas, r paint.Rect, one store.Setting, mark string, style paint.Style, u length.Unit) {
	c.Fill(r, ' ', style)
	name := strings.TrimPrefix(one.Key, one.Group.Name+".")
	x := 0
	for _, cell := range []struct {
		text string
		wide int
	}{{mark + name, wideKey + 2}, {one.Shown(u), wideValue}, {s.source(one), wideSource}, {one.About, r.W}} {
		_, at := r.SplitLeft(min(x, r.W))
		room, _ := at.SplitLeft(min(cell.wide, at.W))
		c.Text(room, paint.Fit(cell.text, max(0, min(cell.wide-1, room.W))), style)
		x += cell.wide
	}
}

// source says where a value comes from.
func (s Screen) source(one store.Setting) string {
	if one.Yours && s.workshop.Demo {
		return "demo"
	}
	return one.Source()
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
