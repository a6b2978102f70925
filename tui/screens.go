package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/bench"
	"example.com/oddments/tui/screens/findings"
)

// A place is one screen that the line at the bottom offers. What it leaves out, the
// root does as on the bench.
type place struct {
	name  string
	place keymap.Place // whose keys hold
	draw  func(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context)
	key   func(App, tea.KeyMsg) (next App, cmd tea.Cmd, taken bool)
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
		{name: "findings", draw: drawFindings, key: findingsKey, press: findingsPress, wheel: findingsWheel},
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

func drawFindings(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	a.findings.Draw(c, r, ctx)
}

func findingsKey(a App, k tea.KeyMsg) (App, tea.Cmd, bool) {
	list, answer := a.findings.Key(k, a.context())
	a.findings = list
	if !answer.Taken {
		return a, nil, false
	}
	next, cmd := a.answer(answer)
	return next, cmd, true
}

func findingsPress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	if list, ok := a.findings.At(m.Y, a.body(), a.context()); ok {
		return a.goFindings(list, 0)
	}
	return a, nil
}

func findingsWheel(a App, up bool) (App, tea.Cmd) {
	if up {
		return a.goFindings(a.findings, -1)
	}
	return a.goFindings(a.findings, 1)
}

func (a App) goFindings(l findings.List, by int) (App, tea.Cmd) {
	list, answer := l.Go(by, a.context())
	a.findings = list
	return a.answer(answer)
}

// answer does what a key on the findings asked for.
func (a App) answer(answer findings.Answer) (App, tea.Cmd) {
	switch {
	case answer.Remedy != nil:
		return a.apply(*answer.Remedy)
	case answer.Strip > 0:
		return a.move(func(s edit.State) (edit.State, error) { return edit.Select(s, answer.Strip-1) })
	default:
		return a, nil
	}
}
