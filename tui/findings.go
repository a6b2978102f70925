package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/findings"
)

// findingsHandlers gives what makes the actions on the findings.
func findingsHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.FindUp: findingsGo(-1), keymap.FindDown: findingsGo(1),
		keymap.FindPageUp: findingsGo(-5), keymap.FindPageDn: findingsGo(5),
		keymap.FindTake: App.takeRemedy,
	}
}

func drawFindings(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	a.findings.Draw(c, r, ctx)
}

func findingsPress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	if next, cmd, ok := a.pressFooter(findings.Footer(a.body(), a.context()), m); ok {
		return next, cmd
	}
	if list, ok := a.findings.At(m.Y, a.body(), a.context()); ok {
		return a.goFindings(list, 0)
	}
	return a, nil
}

func findingsGo(by int) handler {
	return func(a App) (App, tea.Cmd) { return a.goFindings(a.findings, by) }
}

// goFindings goes on by so many findings from the one that l stands at, and chooses
// the strip that the one there is about.
func (a App) goFindings(l findings.List, by int) (App, tea.Cmd) {
	list, strip := l.Go(by, a.context())
	a.findings = list
	if strip == 0 {
		return a, nil
	}
	return a.move(func(s edit.State) (edit.State, error) { return edit.Select(s, strip-1) })
}

// takeRemedy makes the first change that was found to help.
func (a App) takeRemedy() (App, tea.Cmd) {
	if remedy, ok := a.findings.Remedy(a.context()); ok {
		return a.apply(remedy)
	}
	return a.say("no change of the panel was found to help here"), nil
}
