package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/made"
	"example.com/oddments/tui/screens/planview"
)

// records are what was made, as its screen shows it.
type records struct {
	view  made.List
	shown made.Shown
}

// madeHandlers gives what makes the actions on what was made.
func madeHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.MadeUp: madeGo(-1), keymap.MadeDown: madeGo(1),
		"add-made": App.addBatch, "set-made": App.changeBatch, "drop-made": App.strikeBatch,
		keymap.MadeAgain: App.makeAgain, keymap.MadeLabel: App.showLabels,
	}
}

// madeLaid puts the labels of the chosen batch together for their screen.
func (a App) madeLaid() App {
	job, err := a.job(nil)
	if err != nil {
		job.Layout = outline.Layout{}
	}
	p := a.state().Pattern
	if i, ok := a.made.view.Index(p); ok {
		job.Label = work.LabelOf(a.doc.recoveryStem(), i+1, p.Made[i])
	}
	shown := made.Shown{Labels: work.Labels(a.reckoner.Table(), job, a.unit)}
	for i := range shown.Labels {
		name := "the panel"
		if len(job.Products) > 0 {
			name = fmt.Sprintf("product %d", i+1)
		}
		shown.Names = append(shown.Names, name)
	}
	a.made.shown = shown
	return a
}

// toMade is done when the screen is gone to.
func (a App) toMade() (App, tea.Cmd) { return a.madeLaid(), nil }

func drawMade(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	a.made.view.Draw(c, r, a.made.shown, ctx)
}

func madePress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	if next, cmd, ok := a.pressFooter(a.made.view.Footer(a.body(), a.context()), m); ok {
		return next, cmd
	}
	a.made.view = a.made.view.At(m.Y, a.body(), a.state().Pattern)
	return a.madeLaid(), nil
}

func madeGo(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a.made.view = a.made.view.Go(by, a.state().Pattern)
		return a.madeLaid(), nil
	}
}

// askBatch shows a field for a batch; what was understood stands beneath it while it
// is typed.
func (a App) askBatch(title, text string, set func(edit.State, pattern.Made) (edit.State, error)) (App, tea.Cmd) {
	unit, today := a.unit, pattern.DateOf(a.now())
	field := ask.New(title, text, func(s string) (any, string, error) {
		m, err := work.ParseBatch(s, unit, today)
		return m, work.BatchLine(m, unit), err
	})
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		return a.move(func(s edit.State) (edit.State, error) { return set(s, value.(pattern.Made)) })
	}), nil
}

// addBatch writes a batch down; it starts from today, and from the copies that are
// planned where they are several: a count that is typed is not to stand behind another.
func (a App) addBatch() (App, tea.Cmd) {
	start := pattern.DateOf(a.now()).String() + ", "
	if a.planner.made() > 1 {
		start = work.BatchLine(pattern.Made{Date: pattern.DateOf(a.now()), Copies: a.planner.made()}, a.unit) + ", "
	}
	a.made.view = a.made.view.Last()
	return a.askBatch("a batch: day, how many, then as 299.5 wide, 21.6 thick, 310 min, note and your words", start, edit.AddMade)
}

// changeBatch lets what is written of the chosen batch be changed.
func (a App) changeBatch() (App, tea.Cmd) {
	i, ok := a.made.view.Index(a.state().Pattern)
	if !ok {
		return a.addBatch()
	}
	return a.askBatch(fmt.Sprintf("change batch %d", i+1), work.BatchLine(a.state().Pattern.Made[i], a.unit),
		func(s edit.State, m pattern.Made) (edit.State, error) { return edit.SetMade(s, i, m) })
}

// strikeBatch strikes the chosen batch out.
func (a App) strikeBatch() (App, tea.Cmd) {
	i, ok := a.made.view.Index(a.state().Pattern)
	if !ok {
		return a.say("nothing is written down"), nil
	}
	return a.move(func(s edit.State) (edit.State, error) { return edit.DropMade(s, i) })
}

// makeAgain plans as many copies as in the chosen batch, and shows what was noted then.
func (a App) makeAgain() (App, tea.Cmd) {
	p := a.state().Pattern
	i, ok := a.made.view.Index(p)
	if !ok {
		return a.say("nothing was made yet: " + a.keys.KeyOf("add-made") + " writes a batch down"), nil
	}
	m := p.Made[i]
	a.planner.copies, a.planner.have = m.Copies, false
	words := fmt.Sprintf("made again as on %s: %d copies", m.Date, m.Copies)
	if m.Note != "" {
		words += "; noted then: " + m.Note
	}
	a.planner.again = "; " + words
	for k, s := range screens() {
		if s.place == planview.Place {
			a, cmd := a.goScreen(k)
			return a.say(words), cmd
		}
	}
	return a.say(words), nil
}

// showLabels shows the text of every label.
func (a App) showLabels() (App, tea.Cmd) {
	return a.show(page.New("the label, a blank where a field is empty", a.made.shown.Lines()), nil), nil
}
