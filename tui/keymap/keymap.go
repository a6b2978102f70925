// Package keymap holds the one table of everything that can be done at the screen.
//
// Keys, footer, help, search and the printed key table all come from it. A key is
// named as bubbletea names it; the first key of an action is the one that is shown.
package keymap

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
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
	Suspend       ID = "suspend"
	Quit          ID = "quit"

	RackAdd    ID = "rack-add"
	RackEdit   ID = "rack-edit"
	RackAgain  ID = "rack-again"
	RackUsedUp ID = "rack-used-up"
	RackOne    ID = "rack-one"
	RackFirst  ID = "rack-first"
	RackRings  ID = "rack-rings"
	RackOrder  ID = "rack-order"
	RackFilter ID = "rack-filter"
	RackUp     ID = "rack-up"
	RackDown   ID = "rack-down"

	PlanUp    ID = "plan-up"
	PlanDown  ID = "plan-down"
	PlanMore  ID = "plan-more"
	PlanFewer ID = "plan-fewer"
	PlanWith  ID = "plan-with"
	PlanAlone ID = "plan-alone"
	PlanRun   ID = "plan-run"
	PlanSteps ID = "plan-steps"
	PlanWays  ID = "plan-ways"
	PlanReal  ID = "plan-real"
	PlanBook  ID = "plan-book"

	Up     ID = "up"
	Down   ID = "down"
	PageUp ID = "page-up"
	PageDn ID = "page-down"
	Accept ID = "accept"
	Close  ID = "close"
)

// A Group is what actions are listed under.
type Group int

// The groups, in the order of the help.
const (
	Choose Group = iota
	Arrange
	Mill
	Size
	Panel
	Look
	Pattern
	Program
	OnRack
	OnPlan
	OnLayouts
	OnFindings
	OnCutOut
	OnWork
	OnMade
	Lists
)

// Groups lists every group.
func Groups() []Group {
	return []Group{Choose, Arrange, Mill, Size, Panel, Look, Pattern, Program, OnRack, OnPlan, OnLayouts, OnFindings, OnCutOut, OnWork, OnMade, Lists}
}

// String gives the heading of the group.
func (g Group) String() string {
	switch g {
	case Choose:
		return "choose a strip"
	case Arrange:
		return "arrange"
	case Mill:
		return "turn and mill"
	case Size:
		return "strip by figures"
	case Panel:
		return "panel by figures"
	case Look:
		return "look"
	case Pattern:
		return "pattern"
	case Program:
		return "program"
	case OnRack:
		return "on the rack"
	case OnPlan:
		return "on the plan"
	case OnLayouts:
		return "laid out for you"
	case OnFindings:
		return "on the findings"
	case OnCutOut:
		return "where products are cut out"
	case OnWork:
		return "on the working figures"
	case OnMade:
		return "on what was made"
	case Lists:
		return "in lists and fields"
	default:
		return fmt.Sprintf("group(%d)", int(g))
	}
}

// An Action is one thing that can be done.
type Action struct {
	ID    ID
	Keys  []string
	Name  string // one to three words, as a verb of the hand
	Does  string // what it does, one plain sentence without a full stop
	Group Group
	Foot  int // its place in the footer of its screen, from 1; 0: not there
}

// A Place is where keys mean something of their own.
type Place int

// The places. Everywhere holds in all of them but lists and fields.
const (
	Bench Place = iota
	Rack
	Plan
	Layouts
	Findings
	CutOut
	Work
	Made
	InLists
	Everywhere
	placeCount
)

// String gives the name of the place, as the line of screens has it.
func (p Place) String() string {
	switch p {
	case Bench:
		return "bench"
	case Rack:
		return "rack"
	case Plan:
		return "plan"
	case Layouts:
		return "laid out for you"
	case Findings:
		return "findings"
	case CutOut:
		return "cut out"
	case Work:
		return "work"
	case Made:
		return "made"
	case InLists:
		return "lists and fields"
	case Everywhere:
		return "everywhere"
	default:
		return fmt.Sprintf("place(%d)", int(p))
	}
}

// Place gives where an action's keys hold.
func (a Action) Place() Place {
	if a.ID == Screen || a.ID == LastScreen || a.ID == Unit || a.ID == Season {
		return Everywhere
	}
	return a.Group.Place()
}

// Place gives where the keys of a group hold, but for the few of them that hold
// everywhere.
func (g Group) Place() Place {
	switch g {
	case OnRack:
		return Rack
	case OnPlan:
		return Plan
	case OnLayouts:
		return Layouts
	case OnFindings:
		return Findings
	case OnCutOut:
		return CutOut
	case OnWork:
		return Work
	case OnMade:
		return Made
	case Lists:
		return InLists
	case Pattern, Program:
		return Everywhere
	default:
		return Bench
	}
}

// Key gives the shown key as it is printed.
func (a Action) Key() string { return Shown(a.Keys[0]) }

// Actions lists everything that can be done, in the order of the help.
func Actions() []Action {
	return slices.Concat(stripActions(), everyActions(), rackActions(), planActions(), layoutActions(), listActions(),
		findingsActions(), productActions())
}

// stripActions lists the hand moves of the bench.
func stripActions() []Action {
	return []Action{
		{"select-left", []string{"left"}, "strip", "choose the strip to the left", Choose, 1},
		{"select-right", []string{"right"}, "strip right", "choose the strip to the right", Choose, 0},
		{"select-first", []string{"home"}, "first strip", "choose the strip at the left edge", Choose, 0},
		{"select-last", []string{"end"}, "last strip", "choose the strip at the right edge", Choose, 0},
		{"select", []string{"n"}, "number", "choose a strip by its number", Choose, 0},
		{NextCare, []string{"."}, "next care", "go to the next glue line that asks for care", Choose, 12},
		{PreviousCare, []string{","}, "care before", "go back to the glue line before that asks for care", Choose, 0},

		{"carry-left", []string{"shift+left", "<"}, "carry left", "carry the strip past its left neighbour", Arrange, 2},
		{"carry-right", []string{"shift+right", ">"}, "carry right", "carry the strip past its right neighbour", Arrange, 0},
		{"carry-to", []string{"Z"}, "carry to", "carry the strip to a place, by its number", Arrange, 0},
		{"swap", []string{"z"}, "swap", "swap the strip with another, by its number", Arrange, 0},
		{"put-in", []string{"a", "insert"}, "put in", "put a strip of a timber in after this one", Arrange, 3},
		{"change-timber", []string{"c"}, "change timber", "put another timber in this strip's place", Arrange, 4},
		{"lay-aside", []string{"x", "delete"}, "lay aside", "lay the strip aside on the tray", Arrange, 5},
		{"bring-back", []string{"b"}, "bring back", "bring a strip back from the tray", Arrange, 0},
		{"twin", []string{"t"}, "twin", "put a twin of the strip in after it", Arrange, 15},
		{"mirror", []string{"m"}, "mirror", "mirror the half you stand in onto the other", Arrange, 11},
		{"pin", []string{"p"}, "pin", "pin the strip, or take its pin out: mirror and fill leave it alone", Arrange, 0},
		{"fill", []string{"f"}, "fill", "share out what is wanting of the width over the strips", Arrange, 13},
		{LayOut, []string{"v"}, "lay out", "see the best layouts of what the rack holds", Arrange, 6},
		{LayAgain, []string{"V"}, "again", "make this pattern again from what the rack holds now, timber for timber", Arrange, 16},

		{"roll", []string{"r"}, "roll", "roll the strip a quarter turn: width and thickness change places, the rings too", Mill, 7},
		{"turn", []string{"e"}, "end for end", "turn the strip end for end", Mill, 0},
		{"turn-over", []string{"o"}, "turn over", "turn the strip over to its other face", Mill, 0},
		{"split", []string{"s"}, "split", "rip the strip in two", Mill, 0},
		{"join", []string{"j"}, "join", "join the strip with its right neighbour", Mill, 0},
		{"short-ends", []string{"h"}, "short ends", "crosscut every strip to what its products need, short ends outside", Mill, 0},

		{"widen", []string{"+", "="}, "wider", "make the strip wider by 1 mm, or 1/16 in", Size, 8},
		{"narrow", []string{"-"}, "narrower", "make the strip narrower by 1 mm, or 1/16 in", Size, 0},
		{WidenFine, []string{"]"}, "hair wider", "make the strip wider by 0.1 mm, or 1/64 in", Size, 0},
		{NarrowFine, []string{"["}, "hair narrower", "make the strip narrower by 0.1 mm, or 1/64 in", Size, 0},
		{"set-width", []string{"w"}, "width", "make the strip as wide as you say", Size, 9},
		{"set-length", []string{"l"}, "own length", "give the strip a length of its own", Size, 0},
		{"slide-far", []string{"up"}, "slide far", "slide the strip 5 mm, or 1/4 in, towards the far end", Size, 14},
		{"slide-near", []string{"down"}, "slide near", "slide the strip 5 mm, or 1/4 in, towards the datum end", Size, 0},
		{SlideFarFine, []string{"shift+up"}, "slide far, fine", "slide the strip 1 mm, or 1/16 in, towards the far end", Size, 0},
		{SlideNearFine, []string{"shift+down"}, "slide near, fine", "slide the strip 1 mm, or 1/16 in, towards the datum end", Size, 0},
		{"set-start", []string{"d"}, "start", "say how far from the datum end the strip starts", Size, 0},
		{"next-rings", []string{"g"}, "rings", "go on to the next kind of rings: flat, rift, quarter, unknown", Size, 10},
		{"set-rings", []string{"k"}, "ring angle", "say at what angle the rings of the strip stand", Size, 0},
		{"set-moisture", []string{"%"}, "moisture", "say what the strip's moisture reads", Size, 0},

		{"another-width", []string{"R"}, "another width", "make the pattern for an order of another width: more or fewer repeats, or other strip widths", Panel, 0},
		{"set-panel-length", []string{"L"}, "panel length", "say how long the finished panel is", Panel, 0},
		{"set-thickness", []string{"T"}, "panel thickness", "say how thick the finished panel is", Panel, 0},
		{"set-panel-width", []string{"W"}, "wanted width", "say how wide the panel should be", Panel, 0},
		{"set-make", []string{"E"}, "flat or edge", "change between strips cut flat and on edge", Panel, 0},
		{"set-panel-moisture", []string{"M"}, "glue-up moisture", "say what moisture the panel is glued at", Panel, 0},
		{"set-flattened", []string{"F"}, "flush moisture", "say what moisture the panel is made flush at", Panel, 0},
		{"set-name", []string{"N"}, "name", "name the pattern", Panel, 0},
		{"set-notes", []string{"O"}, "notes", "write notes on the pattern", Panel, 0},
	}
}

// everyActions lists looking, saving and the rest of the program.
func everyActions() []Action {
	return []Action{
		{Advice, []string{"enter"}, "take advice", "make the change that the advice on this strip offers", Look, 0},
		{Season, []string{"y"}, "season", "show the worse season, the dry one or the humid one", Look, 3},
		{Unit, []string{"i"}, "mm or inches", "show millimetres or inches", Look, 4},
		{Screen, []string{"tab"}, "next screen", "go to the next screen", Look, 0},
		{LastScreen, []string{"shift+tab"}, "screen before", "go back to the screen before", Look, 0},

		{Undo, []string{"u"}, "undo", "take the last change back", Pattern, 1},
		{Redo, []string{"U", "ctrl+r"}, "redo", "make the change again that was taken back", Pattern, 0},
		{Save, []string{"S", "ctrl+s"}, "save", "save the pattern", Pattern, 2},
		{SaveAs, []string{"A"}, "save as", "save the pattern under another name", Pattern, 0},
		{Open, []string{"ctrl+o"}, "open", "open a saved pattern", Pattern, 0},
		{New, []string{"ctrl+n"}, "new", "start a new pattern", Pattern, 0},
		{Picture, []string{"P"}, "picture", "draw the panel and its products for the customer, as SVG or PNG", Pattern, 0},
		{Sheet, []string{"B"}, "bench sheet", "write the page for the bench, to print or to read", Pattern, 0},

		{Search, []string{"/", "ctrl+p"}, "search", "search everything that can be done", Program, 0},
		{Help, []string{"?", "f1"}, "all keys", "show all keys and the short manual", Program, 0},
		{Suspend, []string{"ctrl+z"}, "suspend", "go back to the shell; fg returns", Program, 0},
		{Quit, []string{"q", "ctrl+c"}, "quit", "leave oddments", Program, 5},
	}
}

// rackActions lists what is done on the rack.
func rackActions() []Action {
	return []Action{
		{RackUp, []string{"up"}, "piece", "go to the piece above", OnRack, 0},
		{RackDown, []string{"down"}, "piece below", "go to the piece below", OnRack, 0},
		{RackAdd, []string{"a", "insert"}, "add", "type a piece as it is spoken: timber, length, width, thickness, then what else there is to say", OnRack, 1},
		{RackEdit, []string{"enter", "e"}, "edit", "change the piece's line", OnRack, 2},
		{RackAgain, []string{"t"}, "another", "add another piece just like this one", OnRack, 3},
		{RackOne, []string{"-"}, "one used", "take one of several alike off the rack", OnRack, 4},
		{RackUsedUp, []string{"x", "delete"}, "used up", "take the piece off the rack", OnRack, 5},
		{RackFirst, []string{"f"}, "use first", "mark the piece to be used first, or take the mark off", OnRack, 6},
		{RackRings, []string{"g"}, "rings", "say how the rings stand: flat, rift, quarter, unknown", OnRack, 7},
		{RackOrder, []string{"o"}, "order", "go on to the next order: timber, length, volume, id, use first", OnRack, 8},
		{RackFilter, []string{"w"}, "which", "show only some of the pieces, by words like cherry, planed, over 300", OnRack, 9},
	}
}

// planActions lists what is done on the plan.
func planActions() []Action {
	return []Action{
		{PlanUp, []string{"up"}, "cut piece", "go to the piece above", OnPlan, 0},
		{PlanDown, []string{"down"}, "cut piece below", "go to the piece below", OnPlan, 0},
		{PlanMore, []string{"+", "="}, "more", "make one copy more", OnPlan, 1},
		{PlanFewer, []string{"-"}, "fewer", "make one copy fewer", OnPlan, 2},
		{PlanWith, []string{"a"}, "together with", "plan another saved pattern together with this one", OnPlan, 3},
		{PlanAlone, []string{"x"}, "alone", "plan the bench's pattern alone again", OnPlan, 4},
		{PlanRun, []string{"enter", "p"}, "plan", "plan anew, or stop a plan that is being worked on", OnPlan, 5},
		{PlanSteps, []string{"s"}, "steps", "show the order of work", OnPlan, 6},
		{PlanWays, []string{"w"}, "ways out", "find ways out where the rack runs short", OnPlan, 7},
		{PlanReal, []string{"r"}, "real pieces", "give the strips the moisture and rings of the pieces they come from", OnPlan, 8},
		{PlanBook, []string{"d"}, "done", "book the plan: it was done at the bench", OnPlan, 9},
	}
}

// listActions lists what is done in lists and fields.
func listActions() []Action {
	return []Action{
		{Up, []string{"up"}, "up", "go to the entry above", Lists, 0},
		{Down, []string{"down"}, "down", "go to the entry below", Lists, 0},
		{PageUp, []string{"pgup"}, "page up", "go a page up", Lists, 0},
		{PageDn, []string{"pgdown"}, "page down", "go a page down", Lists, 0},
		{Accept, []string{"enter"}, "take", "take the entry, or what was typed", Lists, 0},
		{Close, []string{"esc"}, "close", "close without a change", Lists, 0},
	}
}

// A Map finds actions by key. Build one with NewMap and share it.
type Map struct {
	places [placeCount]map[string]Action
	byID   map[ID]Action
}

// NewMap indexes the table.
func NewMap() Map {
	m := Map{byID: map[ID]Action{}}
	for p := range m.places {
		m.places[p] = map[string]Action{}
	}
	for _, a := range Actions() {
		for _, k := range a.Keys {
			m.places[a.Place()][k] = a
		}
		m.byID[a.ID] = a
	}
	return m
}

// On gives the action of a key in a place.
func (m Map) On(p Place, key string) (Action, bool) {
	a, ok := m.places[p][key]
	if !ok && p != InLists {
		a, ok = m.places[Everywhere][key]
	}
	return a, ok
}

// Bench gives the action of a key on the bench.
func (m Map) Bench(key string) (Action, bool) { return m.On(Bench, key) }

// List gives the action of a key in a list or field.
func (m Map) List(key string) (Action, bool) { return m.On(InLists, key) }

// ByID gives an action of the table.
func (m Map) ByID(id ID) (Action, bool) {
	a, ok := m.byID[id]
	return a, ok
}

// KeyOf gives the shown key of an action, or nothing.
func (m Map) KeyOf(id ID) string {
	if a, ok := m.byID[id]; ok {
		return a.Key()
	}
	return ""
}

// Footer lists the actions of a place's footer in their order, with those that hold
// everywhere behind them.
func Footer(p Place) []Action {
	var foot []Action
	for _, a := range Actions() {
		if a.Foot > 0 && (a.Place() == p || a.Place() == Everywhere) {
			foot = append(foot, a)
		}
	}
	slices.SortStableFunc(foot, func(a, b Action) int {
		return cmp.Or(cmp.Compare(a.Place(), b.Place()), cmp.Compare(a.Foot, b.Foot))
	})
	return foot
}

// Shown gives a key as it is printed: bubbletea's names with shift+ as Shift-, ctrl+
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
	case "f1":
		return "F1"
	default:
		return key
	}
}
