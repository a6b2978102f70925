package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/bench"
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
		{name: "bench", draw: func(_ App, c *paint.Canvas, r paint.Rect, ctx screen.Context) { bench.Draw(c, r, ctx) }},
		{name: "rack", place: keymap.Rack, draw: drawRack, press: rackPress, wheel: rackWheel, enter: App.lookAtRack},
		{name: "plan", place: keymap.Plan, draw: drawPlan, press: planPress, wheel: planWheel, enter: App.planAtOnce},
		{name: "findings", place: keymap.Findings, draw: drawFindings, press: findingsPress, wheel: wheelOf(findingsGo)},
		{name: "cut out", place: keymap.CutOut, draw: drawCutOut, press: cutPress, wheel: wheelOf(cutGo), enter: App.toCutOut},
		{name: "work", place: keymap.Work, draw: drawWork, press: workPress, wheel: wheelOf(workScroll), enter: App.toWork},
		{name: "made", place: keymap.Made, draw: drawMade, press: madePress, wheel: wheelOf(madeGo), enter: App.toMade},
	}
}

// here gives the place whose keys hold: the gallery where it lies over the bench, else
// the screen.
func (a App) here() place {
	if a.gallery.open {
		return place{name: "laid out for you", place: keymap.Layouts, draw: drawLayouts, press: layPress, wheel: wheelOf(layGo)}
	}
	return screens()[a.screen]
}
