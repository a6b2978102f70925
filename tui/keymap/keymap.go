// Package keymap holds the one table of everything that can be done at the screen.
//
// Keys, footer, help, search and the printed key table all come from it. A key is
// named as bubbletea names it; the first key of an action is the one that is shown.
package keymap

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern/edit"
)

// An ID names an action. That of a hand move is the move's own in package edit.
type ID string

// The actions that are no hand moves.
const (
	SlideFarFine  ID = "slide-far-fine"
	SlideNearFine ID = "slide-near-fine"
	WidenFine     ID = "widen-fine"
	NarrowFine    ID = "narrow-fine"
	Advice        ID = "advice"
	TurnPanel     ID = "turn-panel"
	ShowBoard     ID = "show-board"
	NextCare      ID = "next-care"
	PreviousCare  ID = "previous-care"
	Season        ID = "season"
	Unit          ID = "unit"
	Screen        ID = "screen"
	LastScreen    ID = "last-screen"
	Undo          ID = "undo"
	Redo          ID = "redo"
	Save          ID = "save"
	SaveAs        ID = "save-as"
	Open          ID = "open"
	New           ID = "new"
	Picture       ID = "picture"
	Sheet         ID = "sheet"
	Help          ID = "help"
	Search        ID = "search"
	Settings      ID = "settings"
	Suspend       ID = "suspend"
	Quit          ID = "quit"

	// Actions of one screen that others make or name.
	LayOut    ID = "lay-out"
	LayAgain  ID = "lay-again"
	Relief    ID = "relief"
	ShortEnds ID = "cut-short"
	RackAdd   ID = "rack-add"

	Up     ID = "up"
	Down   ID = "down"
	PageUp ID = "page-up"
	PageDn ID = "page-down"
	Accept ID = "accept"
	Close  ID = "close"
)

// Steps returns how far an action of lists goes down them, a page being so many entries; 0:
// it does something else.
func (id ID) Steps(page int) int {
	return map[ID]int{Up: -1, Down: 1, PageUp: -page, PageDn: page}[id]
}

// A Place is where keys mean something of their own: a screen, by its name, or one of
// these.
type Place string

// The places that are more than one screen, or that others go to. Everywhere holds in all of
// them but lists and fields.
const (
	Bench       Place = "bench"
	ReliefPlace Place = "relief"
	PilePlace   Place = "pile"
	InLists     Place = "lists and fields"
	Everywhere  Place = "everywhere"
)

// A Group is what actions are listed under, and where their keys hold.
type Group struct {
	Heading string
	At      Place
}

// An Action is one thing that can be done.
type Action struct {
	ID    ID
	Keys  []string
	Name  string // one to three words, as a verb of the hand
	Does  string // what it does, one plain sentence without a full stop
	Group Group
	Foot  int        // its place in the footer of its screen, from 1; 0: not there
	Move  *edit.Move // the hand move that it makes; nil: it makes none
	Words string     // that it is searched by too; NewMap reads them
	Shows bool       // it changes nothing by itself; NewMap says so
}

// Bind returns an action of the group: what it is called and does, its place in the footer,
// from 1 or 0 for none, and its keys, the shown one first.
func (g Group) Bind(id ID, name, does string, foot int, keys ...string) Action {
	return Action{ID: id, Keys: keys, Name: name, Does: does, Group: g, Foot: foot}
}

// Hand returns the action of the group that makes a hand move, by the move's own name and
// words.
func (g Group) Hand(m edit.Move, name string, foot int, keys ...string) Action {
	a := g.Bind(ID(m.ID), name, m.Does, foot, keys...)
	a.Move = &m
	return a
}

// As returns the action as another that makes the same move, by another step.
func (a Action) As(id ID, does string) Action {
	a.ID, a.Does = id, does
	return a
}

// Place returns where an action's keys hold.
func (a Action) Place() Place { return a.Group.At }

// Key returns the shown key as it is printed.
func (a Action) Key() string { return Shown(a.Keys[0]) }

// everyActions lists looking, saving and the rest of the program.
func everyActions() []Action {
	looks, pattern, program := Group{"look", Everywhere}, Group{"pattern", Everywhere}, Group{"program", Everywhere}
	return []Action{
		looks.Bind(Season, "season", "show the worse season, the dry one or the humid one", 1, "y"),
		looks.Bind(Unit, "mm/inch", "show millimetres or inches", 4, "i"),
		looks.Bind(Screen, "next screen", "go to the next screen", 0, "tab"),
		looks.Bind(LastScreen, "previous screen", "go to the previous screen", 0, "shift+tab"),

		pattern.Bind(Undo, "undo", "undo the last change", 2, "u"),
		pattern.Bind(Redo, "redo", "redo the change that was undone", 0, "U", "ctrl+r"),
		pattern.Bind(Save, "save", "save the pattern", 3, "S", "ctrl+s"),
		pattern.Bind(SaveAs, "save as", "save the pattern under another name", 0, "A"),
		pattern.Bind(Open, "open", "open a saved pattern", 0, "ctrl+o"),
		pattern.Bind(New, "new", "start a new pattern", 0, "ctrl+n"),
		pattern.Bind(Picture, "picture", "draw the panel and its products for the customer, as SVG or PNG", 0, "P"),
		pattern.Bind(Sheet, "bench sheet", "write the bench sheet, to print or to read", 0, "B"),

		program.Bind(Search, "search", "search every action by a word", 5, "/", "ctrl+p"),
		program.Bind(Help, "all keys", "show all keys and the short manual", 0, "?", "f1"),
		program.Bind(Settings, "settings", "see and set your saw kerf, machines, allowances, prices", 0, ":", "f2"),
		program.Bind(Suspend, "suspend", "go back to the shell; fg returns", 0, "ctrl+z"),
		program.Bind(Quit, "quit", "leave oddments", 6, "q", "ctrl+c"),
	}
}

// To returns the action that goes to the nth screen of the line at the bottom, from 1.
func To(screen Place, n int) Action {
	name := string(screen)
	id := ID("to-" + strings.ReplaceAll(name, " ", "-"))
	return Group{"look", Everywhere}.Bind(id, name, "go to the screen "+name, 0, strconv.Itoa(n))
}

// mostDigits is how many screens have a digit of their own.
const mostDigits = 9

// ToEach lists the actions that go to a screen of the line at the bottom by its digit, in their
// order.
func ToEach(screens []Place) []Action {
	to := make([]Action, min(len(screens), mostDigits))
	for i := range to {
		to[i] = To(screens[i], i+1)
	}
	return to
}

// listActions lists what is done in lists and fields.
func listActions() []Action {
	lists := Group{"in lists and fields", InLists}
	return []Action{
		lists.Bind(Up, "up", "go to the entry above", 0, "up"),
		lists.Bind(Down, "down", "go to the entry below", 0, "down"),
		lists.Bind(PageUp, "page up", "go a page up", 0, "pgup"),
		lists.Bind(PageDn, "page down", "go a page down", 0, "pgdown"),
		lists.Bind(Accept, "take", "choose the entry, or what was typed", 0, "enter"),
		lists.Bind(Close, "close", "close without a change", 0, "esc"),
	}
}

// A Map is the table of all that can be done, and finds actions by key. Build one with
// NewMap and share it.
type Map struct {
	all    []Action
	places map[Place]map[string]Action
	byID   map[ID]Action
	ways   *[2]Map // as the panel stands on the bench, and as it lies
}

// NewMap puts the table together: the first screen's actions, those that hold everywhere,
// the other screens', and those of lists and fields.
func NewMap(screens ...[]Action) Map {
	first, others := screens[:min(1, len(screens))], screens[min(1, len(screens)):]
	all := slices.Concat(slices.Concat(first...), everyActions(), slices.Concat(others...), listActions())
	words := searchWords()
	for i, a := range all {
		known := words[a.ID]
		all[i].Words, all[i].Shows = known.text, known.shows || a.Move != nil && askedFirst(*a.Move)
	}
	ways := &[2]Map{tableOf(all), tableOf(turned(all))}
	ways[0].ways, ways[1].ways = ways, ways
	return ways[0]
}

// tableOf returns the table of all that can be done.
func tableOf(all []Action) Map {
	m := Map{all: all, places: map[Place]map[string]Action{}, byID: map[ID]Action{}}
	for _, a := range all {
		if m.places[a.Place()] == nil {
			m.places[a.Place()] = map[string]Action{}
		}
		for _, k := range a.Keys {
			m.places[a.Place()][k] = a
		}
		m.byID[a.ID] = a
	}
	return m
}

// Lying returns the table for a bench on which the panel lies along the screen, or stands. Where
// it lies the arrows are a quarter turn from where they are else, so that they follow the
// drawing.
func (m Map) Lying(lies bool) Map {
	if lies {
		return m.ways[1]
	}
	return m.ways[0]
}

// turned returns the actions as they are where the panel lies.
func turned(all []Action) []Action {
	arrows := map[string]string{"left": "up", "right": "down", "up": "right", "down": "left"}
	words := strings.NewReplacer("carry left", "carry up", "carry right", "carry down", "strip right", "strip below",
		" to the left", " above", " to the right", " below", " left", " upper", " right", " lower")
	all = slices.Clone(all)
	for i, a := range all {
		if a.Place() != Bench {
			continue
		}
		a.Name, a.Does, a.Keys = words.Replace(a.Name), words.Replace(a.Does), slices.Clone(a.Keys)
		for n, key := range a.Keys {
			arrow, shifted := strings.CutPrefix(key, "shift+")
			to, ok := arrows[arrow]
			switch {
			case ok && shifted:
				a.Keys[n] = "shift+" + to
			case ok:
				a.Keys[n] = to
			}
		}
		all[i] = a
	}
	return all
}

// Actions lists everything that can be done, in the order of the help.
func (m Map) Actions() []Action { return m.all }

// Groups lists the groups in the order of the help, each heading once: a group of which
// some actions hold everywhere stands where its first one does.
func (m Map) Groups() []Group {
	var out []Group
	for _, a := range m.all {
		if !slices.ContainsFunc(out, func(g Group) bool { return g.Heading == a.Group.Heading }) {
			out = append(out, a.Group)
		}
	}
	return out
}

// On returns the action of a key in a place.
func (m Map) On(p Place, key string) (Action, bool) {
	a, ok := m.places[p][key]
	if !ok && p != InLists {
		a, ok = m.places[Everywhere][key]
	}
	return a, ok
}

// Bench returns the action of a key on the bench.
func (m Map) Bench(key string) (Action, bool) { return m.On(Bench, key) }

// List returns the action of a key in a list or field.
func (m Map) List(key string) (Action, bool) { return m.On(InLists, key) }

// ByID returns an action of the table.
func (m Map) ByID(id ID) (Action, bool) {
	a, ok := m.byID[id]
	return a, ok
}

// KeyOf returns the shown key of an action, or nothing.
func (m Map) KeyOf(id ID) string {
	if a, ok := m.byID[id]; ok {
		return a.Key()
	}
	return ""
}

// Footer lists the actions of a place's footer in their order, with those that hold
// everywhere behind them.
func (m Map) Footer(p Place) []Action {
	var foot []Action
	for _, a := range m.all {
		if a.Foot > 0 && (a.Place() == p || a.Place() == Everywhere) {
			foot = append(foot, a)
		}
	}
	slices.SortStableFunc(foot, func(a, b Action) int {
		if a.Place() != b.Place() {
			if b.Place() == Everywhere {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.Foot, b.Foot)
	})
	return foot
}

// Shown returns a key as it is printed: bubbletea's names with shift+ as Shift-, ctrl+
// as Ctrl- and the arrows as words.
func Shown(key string) string {
	for _, p := range [...]struct{ prefix, shown string }{{"shift+", "Shift-"}, {"ctrl+", "Ctrl-"}} {
		if rest, ok := strings.CutPrefix(key, p.prefix); ok {
			return p.shown + Shown(rest)
		}
	}
	switch key {
	case "left", "right", "up", "down", "home", "end", "enter", "tab", "esc", "insert", "delete":
		return strings.ToUpper(key[:1]) + key[1:]
	case "pgup":
		return "PgUp"
	case "pgdown":
		return "PgDn"
	case "f1", "f2":
		return strings.ToUpper(key)
	case " ":
		return "the space bar"
	default:
		return key
	}
}
