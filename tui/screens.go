package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/bench"
	"example.com/oddments/tui/screens/colour"
	"example.com/oddments/tui/screens/cutout"
	"example.com/oddments/tui/screens/findings"
	"example.com/oddments/tui/screens/layouts"
	"example.com/oddments/tui/screens/made"
	"example.com/oddments/tui/screens/pileview"
	"example.com/oddments/tui/screens/planview"
	"example.com/oddments/tui/screens/rackview"
	"example.com/oddments/tui/screens/relief"
	"example.com/oddments/tui/screens/settings"
	"example.com/oddments/tui/screens/workview"
)

// A shown is a screen of the program.
type shown struct {
	screen.Screen
	over  keymap.Place // the screen that it lies over, and the line at the bottom leaves it out; empty: none
	aside bool         // it lies over any screen, likewise
	title keymap.Place // the screen's, set by New: it is asked for at every key
}

// screens lists the screens in the order of the line at the bottom, the bench first. A new
// screen is one entry here.
func screens() []shown {
	return []shown{
		{Screen: bench.Screen{}},
		{Screen: rackview.Screen{}},
		{Screen: pileview.Screen{}},
		{Screen: planview.Screen{}},
		{Screen: layouts.Screen{}, over: keymap.Bench},
		{Screen: relief.Screen{}, over: keymap.Bench},
		{Screen: findings.List{}},
		{Screen: cutout.Screen{}},
		{Screen: workview.Screen{}},
		{Screen: made.Screen{}},
		{Screen: settings.Screen{}, aside: true},
		{Screen: colour.Screen{}, aside: true},
	}
}

// Keys puts the table of everything that can be done together, each screen's part by the
// screen.
func Keys() keymap.Map { return keysOf(screens()) }

func keysOf(all []shown) keymap.Map {
	keys := make([][]keymap.Action, len(all))
	for i, s := range all {
		keys[i] = s.Keys()
	}
	return keymap.NewMap(append(keys, toEach(all))...)
}

// toEach lists the actions that go to the screens of the line at the bottom.
func toEach(all []shown) []keymap.Action {
	var names []keymap.Place
	for _, s := range all {
		if s.listed() {
			names = append(names, s.Title())
		}
	}
	return keymap.ToEach(names)
}

// digits says which keys go to the screens.
func digits(all []shown) string { return fmt.Sprintf("1-%d", len(toEach(all))) }

// here returns the screen whose keys hold.
func (a App) here() keymap.Place { return a.screens[a.at].title }

// tab returns the screen that the line at the bottom says is shown.
func (a App) tab() int {
	at := a.at
	if a.screens[at].aside {
		at = a.before
	}
	if over := a.screens[at].over; over != "" {
		at, _ = a.find(over)
	}
	return at
}

// listed reports whether the line at the bottom has the screen.
func (s shown) listed() bool { return s.over == "" && !s.aside }

// find returns the screen of a title.
func (a App) find(p keymap.Place) (int, bool) {
	i := slices.IndexFunc(a.screens, func(s shown) bool { return s.title == p })
	return i, i >= 0
}

// toScreen goes so many screens on along the line at the bottom.
func toScreen(by int) handler {
	return func(a App) (App, tea.Cmd) {
		n := len(a.screens)
		i := a.tab()
		for {
			if i = ((i+by)%n + n) % n; a.screens[i].listed() {
				return a.goScreen(i)
			}
		}
	}
}

// goTo goes to the screen of a title.
func goTo(p keymap.Place) handler {
	return func(a App) (App, tea.Cmd) {
		i, _ := a.find(p)
		return a.goScreen(i)
	}
}

// goScreen goes to a screen.
func (a App) goScreen(i int) (App, tea.Cmd) {
	if a.screens[i].aside && !a.screens[a.at].aside {
		a.before = a.at
	}
	a.at = i
	return a.tell(i, screen.Enter{})
}

// tell tells a screen something, and does what it asks for.
func (a App) tell(i int, msg tea.Msg) (App, tea.Cmd) {
	next, asked := a.screens[i].Update(a.context(), msg)
	a.screens = slices.Clone(a.screens)
	a.screens[i].Screen = next
	if b, ok := next.(bench.Screen); ok {
		a.keys = a.keys.Lying(b.Lies())
	}
	return a.obey(i, asked)
}

// tellAll tells every screen.
func (a App) tellAll(msg tea.Msg) (App, tea.Cmd) {
	var cmds []tea.Cmd
	for i := range a.screens {
		var cmd tea.Cmd
		a, cmd = a.tell(i, msg)
		cmds = append(cmds, cmd)
	}
	return a, tea.Batch(cmds...)
}

// seen tells the bench, which keeps the chosen strip in view, and the screen that is shown
// how the pattern is now; the others look at it when they are gone to.
func (a App) seen(msg tea.Msg) App {
	a, cmd := a.tell(0, msg)
	a = a.asks(cmd)
	if a.at != 0 {
		a, cmd = a.tell(a.at, msg)
		a = a.asks(cmd)
	}
	return a
}

// asks has cmd run once the present message is taken.
func (a App) asks(cmd tea.Cmd) App {
	if cmd != nil {
		a.soon = append(a.soon[:len(a.soon):len(a.soon)], cmd)
	}
	return a
}
