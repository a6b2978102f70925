package tui

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/workview"
)

// A working is what the working figures are asked for, besides the pattern.
type working struct {
	view      workview.View
	shown     workview.Shown
	asked     float64      // price of a piece; 0: not said
	clamps    int          // 0: not said
	due       pattern.Date // zero: not said
	dryingOil bool
}

// workHandlers gives what makes the actions on the working figures.
func workHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.WorkUp: workScroll(-1), keymap.WorkDown: workScroll(1),
		keymap.WorkPageUp: workStep(-1), keymap.WorkPageDn: workStep(1),
		keymap.WorkMore: workCopies(1), keymap.WorkFewer: workCopies(-1),
		keymap.WorkMinutes: App.askMinutes, keymap.WorkAsked: App.askPrice, keymap.WorkClamps: App.askClamps,
		keymap.WorkBefore: App.askDue, keymap.WorkOil: App.otherOil,
	}
}

// workLaid reckons the figures for their screen.
func (a App) workLaid() App {
	w := &a.working
	job, err := a.job(nil)
	if err != nil {
		job.Layout = outline.Layout{}
	}
	if a.doc.minutes > 0 {
		job.Minutes = a.doc.minutes
	}
	job.Asked, job.Clamps, job.Due = w.asked, w.clamps, w.due
	job.Label = work.Labels(a.reckoner.Table(), job, a.unit)[0]
	settings := work.SettingsOf(a.reckoner.Shop())
	settings.Finish.DryingOil = w.dryingOil
	figures := work.Of(a.reckoner, job, settings)
	w.shown = workview.Shown{Job: job, DryingOil: w.dryingOil, Err: err, Lines: work.Tell(a.reckoner, job, figures, settings, a.unit)}
	return a
}

// toWork is done when the screen is gone to.
func (a App) toWork() (App, tea.Cmd) { return a.workLaid(), nil }

func drawWork(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	a.working.view.Draw(c, r, a.working.shown, ctx)
}

func workPress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	if next, cmd, ok := a.pressFooter(a.working.view.Footer(a.body(), a.working.shown, a.context()), m); ok {
		return next, cmd
	}
	a.working.view = a.working.view.At(m.Y, a.body(), a.working.shown)
	return a, nil
}

func workScroll(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a.working.view = a.working.view.Go(by, a.working.shown)
		return a, nil
	}
}

func workStep(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a.working.view = a.working.view.Step(by, a.working.shown)
		return a, nil
	}
}

// workCopies makes more or fewer copies, here and in the plan.
func workCopies(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a, ok := a.countCopies(by)
		if !ok {
			return a, nil
		}
		return a.workLaid(), nil
	}
}

// askOfWork shows a field for one thing that the figures need to be told.
func askOfWork[T any](a App, title, text string, read func(string) (T, string, error), set func(*App, T)) (App, tea.Cmd) {
	field := ask.New(title, text, func(s string) (any, string, error) { return read(s) }).Value()
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		set(&a, value.(T))
		return a.workLaid(), nil
	}), nil
}

// readCount reads a whole number up to most, or nothing, which means what instead
// says.
func readCount(most int, instead, what string) func(string) (int, string, error) {
	return func(s string) (int, string, error) {
		text := strings.TrimSpace(s)
		if text == "" {
			return 0, instead, nil
		}
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > most {
			return 0, "", fmt.Errorf("%q: must be a whole number from 1 to %d", text, most)
		}
		return n, fmt.Sprintf("%d %s", n, what), nil
	}
}

// typedCount gives a number as a field starts with it.
func typedCount(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func (a App) askMinutes() (App, tea.Cmd) {
	return askOfWork(a, "minutes that all copies take together", typedCount(a.working.shown.Job.Minutes),
		readCount(pattern.MaxMinutes, "by the last batch that says how long it took", "minutes"),
		func(a *App, n int) { a.doc.minutes = n })
}

// mostClamps is more than any workshop has.
const mostClamps = 10_000

func (a App) askClamps() (App, tea.Cmd) {
	return askOfWork(a, "clamps that you have", typedCount(a.working.clamps), readCount(mostClamps, "not said", "clamps"),
		func(a *App, n int) { a.working.clamps = n })
}

func (a App) askPrice() (App, tea.Cmd) {
	read := func(s string) (float64, string, error) {
		if strings.TrimSpace(s) == "" {
			return 0, "not said", nil
		}
		amount, err := work.ParseAmount(s)
		return amount, fmt.Sprintf("%.2f for a piece", amount), err
	}
	text := ""
	if a.working.asked > 0 {
		text = strconv.FormatFloat(a.working.asked, 'f', -1, 64)
	}
	return askOfWork(a, "price that you ask for one product, in your own money", text, read, func(a *App, amount float64) { a.working.asked = amount })
}

func (a App) askDue() (App, tea.Cmd) {
	read := func(s string) (pattern.Date, string, error) {
		if strings.TrimSpace(s) == "" {
			return pattern.Date{}, "no day", nil
		}
		day, err := pattern.ParseDate(s)
		return day, "ready before " + day.String(), err
	}
	text := ""
	if a.working.due != (pattern.Date{}) {
		text = a.working.due.String()
	}
	return askOfWork(a, "day that the products are to be ready before, like 2026-12-05", text, read,
		func(a *App, day pattern.Date) { a.working.due = day })
}

// otherOil changes between an oil that stays oil and one that hardens.
func (a App) otherOil() (App, tea.Cmd) {
	a.working.dryingOil = !a.working.dryingOil
	a = a.workLaid()
	if a.working.dryingOil {
		return a.say("a drying oil: linseed, tung, walnut or another that hardens; mind the rags"), nil
	}
	return a.say("mineral oil, or another that does not harden"), nil
}
