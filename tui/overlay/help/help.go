// Package help shows every key and what the mouse does, from the one table of
// actions, and the chapters of the short manual.
package help

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/manual"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Page is the help, scrolled by rows. The zero value stands at the top of the keys,
// those of the bench first.
type Page struct {
	Place   keymap.Place // whose keys stand first
	chapter int          // of the manual, from 1; 0: the keys
	top     int
}

// At returns the page at a chapter of the manual, from 1.
func (p Page) At(chapter int) Page { return Page{Place: p.Place, chapter: chapter} }

// A line of the help: a heading, or a key and what it does.
type line struct{ heading, key, does string }

// lines lists what the page shows.
func (p Page) lines(ctx screen.Context) []line {
	if p.chapter == 0 {
		return keyLines(p.Place, ctx.Keys)
	}
	var out []line
	for _, text := range manual.Chapters(ctx.Keys)[p.chapter-1].Wrapped(readable) {
		out = append(out, line{does: text})
	}
	return out
}

// readable is how wide running text is set: as wide as the least window lets it, which
// is also what reads well.
const readable = 58

// title says what the page is.
func (p Page) title(ctx screen.Context) string {
	if p.chapter == 0 {
		return "All keys"
	}
	title := manual.Chapters(ctx.Keys)[p.chapter-1].Title
	return strings.ToUpper(title[:1]) + title[1:]
}

// turn goes to the chapter by steps further, round and round.
func (p Page) turn(by int, ctx screen.Context) Page {
	n := 1 + len(manual.Chapters(ctx.Keys))
	return Page{Place: p.Place, chapter: (p.chapter + by + n) % n}
}

// keyLines lists the keys in the order of the table, but those of the place that the
// help was asked for at before all others.
func keyLines(at keymap.Place, keys keymap.Map) []line {
	out := []line{{does: "Glue lines: , fine  ! take care  X too much  ? rings not checked  - no figure"},
		{does: "Rings: = flat   / rift   | quarter   ? not checked"},
		{does: "Bark: ▔ up   ▁ down   ▏ left   ▕ right   ╭ ╮ ╰ ╯ where the ring bulges"},
		{does: "Pieces: X a fault  ~ a fault along it  ! use first  x3 three alike"}}
	groups := keys.Groups()
	slices.SortStableFunc(groups, func(a, b keymap.Group) int { return rank(a, at) - rank(b, at) })
	for _, g := range groups {
		out = append(out, line{}, line{heading: g.Heading})
		for _, a := range keys.Actions() {
			if a.Group.Heading == g.Heading {
				out = append(out, line{key: Keys(a), does: a.Does})
			}
		}
	}
	out = append(out, line{}, line{heading: "with the mouse"})
	for _, g := range keymap.Gestures() {
		out = append(out, line{key: g.Mouse, does: g.Does})
	}
	return out
}

// rank says how early a group stands where at's keys go first.
func rank(g keymap.Group, at keymap.Place) int {
	if g.At == at && at != keymap.Bench {
		return 0
	}
	return 1
}

// Keys returns all keys of an action as they are printed.
func Keys(a keymap.Action) string {
	shown := make([]string, len(a.Keys))
	for i, k := range a.Keys {
		shown[i] = keymap.Shown(k)
	}
	return strings.Join(shown, ", ")
}

// Key scrolls and turns to the other chapters, and closes on esc, enter or the key of
// the help.
func (p Page) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	const page = 15
	if a, ok := ctx.Keys.List(k.String()); ok {
		if a.ID == keymap.Close || a.ID == keymap.Accept {
			return p, screen.Outcome{Closed: true}
		}
		if by := a.ID.Steps(page); by != 0 {
			return p.scroll(by, ctx), screen.Outcome{}
		}
	}
	if a, ok := ctx.Keys.Bench(k.String()); ok {
		switch a.ID {
		case keymap.Help, keymap.Quit:
			return p, screen.Outcome{Closed: true}
		case keymap.Screen:
			return p.turn(1, ctx), screen.Outcome{}
		case keymap.LastScreen:
			return p.turn(-1, ctx), screen.Outcome{}
		}
	}
	return p, screen.Outcome{}
}

// leastBody is the fewest rows the help has; scrolling stops where they are full.
const leastBody = 15

func (p Page) scroll(by int, ctx screen.Context) Page {
	p.top = max(0, min(p.top+by, len(p.lines(ctx))-leastBody))
	return p
}

// Press closes the help.
func (p Page) Press(int, int, paint.Rect, screen.Context) (screen.Overlay, screen.Outcome) {
	return p, screen.Outcome{Closed: true}
}

// Draw draws the help over r.
func (p Page) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	all := p.lines(ctx)
	next := fmt.Sprintf("%s: %s", ctx.Keys.KeyOf(keymap.Screen), p.turn(1, ctx).title(ctx))
	screen.DrawPage(c, r, p.title(ctx), next, len(all), p.top, func(i int, r paint.Rect) { all[i].draw(c, r) })
}

// draw draws a line into its row.
func (l line) draw(c *paint.Canvas, row paint.Rect) {
	const keys = 22
	switch {
	case l.heading != "":
		c.Text(row, l.heading, c.Role(paint.RoleHeading))
	case l.key == "":
		c.TextFit(row, l.does, paint.Style{})
	default:
		left, rest := row.SplitLeft(min(keys, row.W/3))
		c.Text(left, paint.Fit(l.key, left.W-1), c.Role(paint.RoleKey))
		c.TextFit(rest, l.does, paint.Style{})
	}
}
