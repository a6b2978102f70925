// Package choose is a list to choose one entry of, narrowed by typing letters of it.
package choose

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"github.com/sahilm/fuzzy"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// An Item is one entry.
type Item struct {
	Name   string
	Also   string // further words that it is found by, not shown
	Detail string // stands at the right
	Brief  string // the same on little room; or nothing
	Timber string // key of a timber whose swatch is shown; or nothing
	Value  any    // the value of the list when it is chosen; nil: it cannot be chosen
}

// A List is a list to choose from. Build one with New.
type List struct {
	title   string
	empty   string
	items   []Item
	filter  screen.Input
	found   []int // of items, best first
	at, top int
	wide    int  // of the details
	answers bool // to one question, each of which can be seen: no letters narrow them
}

// longest is the most characters that are searched for.
const longest = 60

// New returns a list of items with a title; empty is what it says where nothing is
// found.
func New(title, empty string, items []Item) List {
	l := List{title: title, empty: empty, items: items, filter: screen.NewInput(longest)}
	for _, it := range items {
		l.wide = max(l.wide, paint.Width(it.Detail))
	}
	l.find()
	return l
}

// fewAnswers is below how many answers nobody needs to look for one.
const fewAnswers = 5

// Answers returns the list as the answers to a question: where they are few, no letters
// narrow them, so that none of them can be lost from sight.
func (l List) Answers() List {
	l.answers = len(l.items) < fewAnswers
	return l
}

// source is what fuzzy looks into.
type source []Item

func (s source) String(i int) string { return s[i].Name + " " + s[i].Also }
func (s source) Len() int            { return len(s) }

func (l *List) find() {
	l.at, l.top, l.found = 0, 0, l.found[:0:0]
	if l.filter.Value() == "" {
		for i := range l.items {
			l.found = append(l.found, i)
		}
		return
	}
	// What begins a word of a name is meant before what stands in it elsewhere, and both
	// before what only has its letters.
	typed := strings.ToLower(l.filter.Value())
	var begins, inside, others []int
	for _, m := range fuzzy.FindFrom(typed, source(l.items)) {
		name := " " + strings.ToLower(l.items[m.Index].Name)
		switch {
		case strings.Contains(name, " "+typed):
			begins = append(begins, m.Index)
		case strings.Contains(name, typed):
			inside = append(inside, m.Index)
		default:
			others = append(others, m.Index)
		}
	}
	slices.Sort(begins) // the list's own order: the rack's timbers first
	slices.Sort(inside)
	l.found = slices.Concat(begins, inside, others)
}

// page is how far page up and page down go.
const page = 10

// Key takes a key: the arrows go through the list, enter chooses, esc closes, and
// letters narrow it.
func (l List) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	if a, ok := ctx.Keys.List(k.String()); ok {
		switch a.ID {
		case keymap.Close:
			return l, screen.Outcome{Closed: true}
		case keymap.Accept:
			return l, l.chosen()
		}
		if by := a.ID.Steps(page); by != 0 {
			return l.move(by), screen.Outcome{}
		}
	}
	if l.answers {
		return l, screen.Outcome{}
	}
	before := l.filter.Value()
	l.filter, _ = l.filter.Type(k)
	if l.filter.Value() != before {
		l.find()
	}
	return l, screen.Outcome{}
}

func (l List) chosen() screen.Outcome {
	if l.at >= len(l.found) {
		return screen.Outcome{}
	}
	value := l.items[l.found[l.at]].Value
	return screen.Outcome{Closed: value != nil, Value: value}
}

func (l List) move(by int) List {
	l.at = screen.Among(l.at+by, len(l.found))
	return l
}

// Press chooses the entry that was pressed on.
func (l List) Press(x, y int, r paint.Rect, _ screen.Context) (screen.Overlay, screen.Outcome) {
	box := l.box(r)
	if !box.Contains(x, y) {
		return l, screen.Outcome{Closed: true}
	}
	if at, ok := l.list(box).On(y); ok && box.Inset(1, 0).Contains(x, y) {
		l.at = at
		return l, l.chosen()
	}
	return l, screen.Outcome{}
}

// How many cells a name keeps at least, with those that part it from what stands at
// the right.
const (
	nameLeast = 17
	gap       = 2
)

// The list's place: as wide as it reads well, as high as it needs.
const (
	widest = 100
	frame  = 5 // title, field, two rules and the keys
)

func (l List) box(r paint.Rect) paint.Rect {
	return r.Centred(min(r.W, widest), min(r.H, max(frame+1, len(l.items)+frame)))
}

// list returns what was found, in the rows of the list's box.
func (l List) list(box paint.Rect) screen.List {
	_, rest := box.Inset(1, 0).SplitTop(3)
	_, rows := rest.SplitBottom(2)
	return screen.List{Rows: rows, N: len(l.found), At: l.at}
}

// Draw draws the list over the middle of r.
func (l List) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	box := l.box(r)
	faint := c.Role(paint.RoleFaint)
	c.Fill(box, ' ', paint.Style{})
	c.Fill(box.Row(0), '─', faint)
	c.Text(box.Inset(2, 0).Row(0), " "+l.title+" ", c.Role(paint.RoleTitle))
	c.Fill(box.Row(box.H-1), '─', faint)
	inner := box.Inset(1, 0)
	hint := "Enter takes it   Esc closes   letters narrow   Up Down PgUp PgDn"
	if l.answers {
		hint = "Enter takes it   Esc closes   Up Down"
	} else {
		at := c.Text(inner.Row(1), "find: "+l.filter.Value(), paint.Style{})
		c.Set(inner.X+at, inner.Y+1, ' ', c.Role(paint.RoleSelected))
	}
	list := l.list(box)
	list.Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		l.entry(c, row, l.items[l.found[i]], mark, style, ctx)
	})
	if list.N == 0 {
		c.Text(list.Rows.Row(0), cmp.Or(l.empty, "nothing of that name"), faint)
	}
	c.Text(inner.Row(box.H-2), hint, faint)
	if first, last := list.Seen(); last-first < list.N {
		c.TextRight(box.Inset(2, 0).Row(box.H-1), fmt.Sprintf(" %d-%d of %d ", first+1, last, list.N), faint)
	}
}

func (l List) entry(c *paint.Canvas, row paint.Rect, it Item, mark string, style paint.Style, ctx screen.Context) {
	if it.Value == nil {
		style = c.Role(paint.RoleFaint)
	}
	c.Fill(row, ' ', style)
	at := c.Text(row, mark, style)
	_, rest := row.SplitLeft(at)
	if it.Timber != "" {
		const swatch = 4
		if timber, ok := ctx.Physics.Table().Get(it.Timber); ok {
			wood, _ := rest.SplitLeft(swatch)
			panel.Swatch(c, wood, timber, ctx.Wood)
		}
		_, rest = rest.SplitLeft(swatch + 1)
	}
	// An entry is chosen by its figures: where room is short the name gives way.
	detail := it.Detail
	if it.Brief != "" && l.wide+nameLeast > rest.W {
		detail = it.Brief
	}
	right, left := rest.SplitRight(min(paint.Width(detail), max(0, rest.W-min(nameLeast, paint.Width(it.Name)+gap))))
	c.Text(left, paint.Fit(it.Name, max(0, left.W-gap)), style)
	c.TextFit(right, detail, style)
}
