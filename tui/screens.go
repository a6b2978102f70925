package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/bench"
	"example.com/oddments/tui/screens/cutout"
	"example.com/oddments/tui/screens/findings"
	"example.com/oddments/tui/screens/layouts"
	"example.com/oddments/tui/screens/made"
	"example.com/oddments/tui/screens/planview"
	"example.com/oddments/tui/screens/rackview"
	"example.com/oddments/tui/screens/workview"
)

// A place is one screen that the line at the bottom offers. What it leaves out, the
// root does as on the bench.
type place struct {
	name  string
	place keymap.Place // whose keys hold
	draw  func(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context)
	press func(App, tea.MouseEvent) (App, tea.Cmd)
	wheel func(a App, up bool) (App, tea.Cmd)
	enter func(App) (App, tea.Cmd) // what is done when the screen is gone to
}

// screens lists the screens in the order of the line at the bottom. A new screen is
// one entry here.
func screens() []place {
	return []place{
		{name: "bench", place: keymap.Bench, draw: func(_ App, c *paint.Canvas, r paint.Rect, ctx screen.Context) { bench.Draw(c, r, ctx) }},
		{name: "rack", place: rackview.Place, draw: drawRack, press: rackPress, wheel: rackWheel, enter: App.lookAtRack},
		{name: "plan", place: planview.Place, draw: drawPlan, press: planPress, wheel: planWheel, enter: App.planAtOnce},
		{name: "findings", place: findings.Place, draw: drawFindings, press: findingsPress, wheel: wheelOf(findingsGo)},
		{name: "cut out", place: cutout.Place, draw: drawCutOut, press: cutPress, wheel: wheelOf(cutGo), enter: App.toCutOut},
		{name: "work", place: workview.Place, draw: drawWork, press: workPress, wheel: wheelOf(workScroll), enter: App.toWork},
		{name: "made", place: made.Place, draw: drawMade, press: madePress, wheel: wheelOf(madeGo), enter: App.toMade},
	}
}

// here gives the place whose keys hold: the gallery where it lies over the bench, else
// the screen.
func (a App) here() place {
	if a.gallery.open {
		return place{name: "laid out for you", place: layouts.Place, draw: drawLayouts, press: layPress, wheel: wheelOf(layGo)}
	}
	return screens()[a.screen]
}

// Keys puts the table of everything that can be done together, each screen's part by the
// screen.
func Keys() keymap.Map {
	return keymap.NewMap(bench.Keys(), rackview.Keys(), planview.Keys(), layouts.Keys(), findings.Keys(), cutout.Keys(), workview.Keys(), made.Keys())
}
