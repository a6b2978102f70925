// Package choose is a list to choose one entry of, narrowed by typing how its words begin.
package choose

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// An Item is one entry.
type Item struct {
	Name   string
	Says   string // stands behind the name, with a colon between them; or nothing
	Words  string // not shown; it is found by them as by its name
	Also   string // not shown; it is found by them behind those found by their names
	Spare  bool   // it is found only where nothing else is
	Shows  bool   // choosing it changes nothing yet
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
	at      int   // the chosen one of found; -1: none yet
	wide    int   // of the details
	answers bool  // to one question, each of which can be seen: no letters narrow them
	careful bool  // nothing is chosen but by hand
	digits  bool  // a digit chooses its entry at once
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

// Careful returns the list as one of which nothing is chosen but by hand, since an entry
// may change something at once. An entry that only shows is taken all the same where it is
// the only one that is found.
func (l List) Careful() List {
	l.careful = true
	l.find()
	return l
}

// MostDigits is how many entries have a digit of their own.
const MostDigits = 9

// Digits returns the list with its first nine entries numbered, each of which its digit chooses
// at once.
func (l List) Digits() List {
	l.digits = true
	return l
}

// words parts a text into its words, in small letters.
func words(text string) []string {
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// begins reports whether one of the words of text begins with typed.
func begins(text, typed string) bool {
	return slices.ContainsFunc(words(text), func(w string) bool { return strings.HasPrefix(w, typed) })
}

// How an entry is found, the best first; spare is behind all of them.
const (
	byName = iota
	bySentence
	byOther
	notFound
)

// rank says how the entry is found by what was typed, of which every word must begin one of
// its own: the worst of them counts, but several that follow one another so in the sentence
// are as good as a name.
func (it Item) rank(typed []string) int {
	if len(typed) > 1 && strings.Contains(" "+strings.Join(words(it.Says), " "), " "+strings.Join(typed, " ")) {
		return byName
	}
	worst := byName
	for _, word := range typed {
		switch {
		case begins(it.Name, word) || begins(it.Words, word):
		case begins(it.Says, word):
			worst = max(worst, bySentence)
		case begins(it.Also, word):
			worst = max(worst, byOther)
		default:
			return notFound
		}
	}
	return worst
}

// find finds what was typed, and chooses the first of it unless the list is careful.
func (l *List) find() {
	l.at, l.found = 0, nil
	if l.careful {
		l.at = -1
	}
	typed := words(l.filter.Value())
	var ranked [notFound + 1][]int
	var spare []int
	for i, it := range l.items {
		switch rank := it.rank(typed); {
		case rank == notFound || len(typed) == 0 && strings.TrimSpace(l.filter.Value()) != "":
		case it.Spare:
			spare = append(spare, i)
		default:
			ranked[rank] = append(ranked[rank], i)
		}
	}
	if l.found = slices.Concat(ranked[:]...); len(l.found) == 0 || len(typed) == 0 {
		l.found = append(l.found, spare...)
	}
}

// nothing says that nothing was found, and what might have been meant.
func (l List) nothing() string {
	var known []string
	for _, it := range l.items {
		known = slices.Concat(known, words(it.Name), words(it.Words))
	}
	text := cmp.Or(l.empty, "nothing of that name")
	if near := tomlread.Nearest(strings.TrimSpace(l.filter.Value()), known); near != "" {
		return text + ": try " + near
	}
	return text + ": try how another word for it begins"
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
	if n := digit(k); l.digits && n < len(l.found) {
		l.at = n
		return l, l.chosen()
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

// digit returns the entry, from 0, that a key numbers; any other key is of one beyond all.
func digit(k tea.KeyMsg) int {
	if n, err := strconv.Atoi(k.String()); err == nil && n > 0 {
		return n - 1
	}
	return math.MaxInt
}

// chosen returns the outcome of Enter: the chosen entry, or where none is chosen the only one,
// if that only shows.
func (l List) chosen() screen.Outcome {
	at := l.at
	if l.alone() {
		at = 0
	}
	if at < 0 || at >= len(l.found) {
		return screen.Outcome{}
	}
	value := l.items[l.found[at]].Value
	return screen.Outcome{Closed: value != nil, Value: value}
}

// alone reports whether what was found is one entry that only shows.
func (l List) alone() bool { return len(l.found) == 1 && l.items[l.found[0]].Shows }

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
	whole  = 2 // rows for all that the chosen entry of a careful list says
)

// below is how many rows stand beneath the entries.
func (l List) below() int {
	if l.careful {
		return frame - 3 + whole
	}
	return frame - 3
}

func (l List) box(r paint.Rect) paint.Rect {
	return r.Centred(min(r.W, widest), min(r.H, max(frame+1, len(l.items)+3+l.below())))
}

// list returns what was found, in the rows of the list's box.
func (l List) list(box paint.Rect) screen.List {
	_, rest := box.Inset(1, 0).SplitTop(3)
	_, rows := rest.SplitBottom(l.below())
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
	if !l.answers {
		at := c.Text(inner.Row(1), "find: "+l.filter.Value(), paint.Style{})
		c.Set(inner.X+at, inner.Y+1, ' ', c.Role(paint.RoleSelected))
	}
	list := l.list(box)
	list.Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		if l.at < 0 {
			mark, style = "  ", paint.Style{}
		}
		it := l.items[l.found[i]]
		if l.digits && i < MostDigits {
			mark += strconv.Itoa(i+1) + " "
		}
		l.entry(c, row, it, mark, style, ctx)
	})
	if list.N == 0 {
		c.Text(list.Rows.Row(0), l.nothing(), faint)
	}
	if l.careful && l.at >= 0 && l.at < len(l.found) {
		_, under := inner.SplitTop(box.H - l.below())
		under, _ = under.SplitTop(whole)
		c.Lines(under, screen.Wrap(l.items[l.found[l.at]].text(), inner.W), faint)
	}
	c.Text(inner.Row(box.H-2), l.hint(), faint)
	if first, last := list.Seen(); last-first < list.N {
		c.TextRight(box.Inset(2, 0).Row(box.H-1), fmt.Sprintf(" %d-%d of %d ", first+1, last, list.N), faint)
	}
}

// hint says what keys do now.
func (l List) hint() string {
	switch {
	case l.digits:
		return "its digit or Enter takes it   Esc closes   Up Down"
	case l.answers:
		return "Enter takes it   Esc closes   Up Down"
	case l.careful && l.at < 0 && !l.alone():
		return "Down Up choose one, then Enter does it   Esc closes   type to find"
	default:
		return "Enter takes it   Esc closes   type to find   Up Down PgUp PgDn"
	}
}

// text is the entry's name with what it says.
func (it Item) text() string {
	if it.Says == "" {
		return it.Name
	}
	return it.Name + ": " + it.Says
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
	right, left := rest.SplitRight(min(paint.Width(detail), max(0, rest.W-min(nameLeast, paint.Width(it.text())+gap))))
	c.Text(left, paint.Fit(it.text(), max(0, left.W-gap)), style)
	c.TextFit(right, detail, style)
}
