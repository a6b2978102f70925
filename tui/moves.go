package tui

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/help"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/bench"
	"example.com/oddments/tui/screens/rackview"
)

// A step is how far one press of a key goes, in the maker's unit.
type step struct{ mm, inches length.Length }

func (s step) in(u length.Unit) length.Length {
	if u == length.InInches {
		return s.inches
	}
	return s.mm
}

// The steps of the keys that widen, narrow and slide.
func widthStep() step {
	return step{length.Millimetre, length.Inch / 16}
}

func fineWidthStep() step {
	return step{100 * length.Micrometre, length.Inch / 64}
}

func slideStep() step {
	return step{5 * length.Millimetre, length.Inch / 4}
}

func fineSlideStep() step {
	return step{length.Millimetre, length.Inch / 16}
}

// handlers gives what makes each action of the table. A new action is one entry in
// the table and one here.
func handlers() map[keymap.ID]handler {
	all := map[keymap.ID]handler{
		"select-left":   goTo(edit.SelectLeft),
		"select-right":  goTo(edit.SelectRight),
		"select-first":  goTo(edit.SelectFirst),
		"select-last":   goTo(edit.SelectLast),
		"select":        App.askNumber,
		"carry-left":    plain(edit.CarryLeft),
		"carry-right":   plain(edit.CarryRight),
		"carry-to":      App.askCarry,
		"swap":          App.askSwap,
		"put-in":        App.choosePutIn,
		"change-timber": App.chooseTimber,
		"lay-aside":     plain(edit.LayAside),
		"bring-back":    App.chooseTray,
		"twin":          plain(edit.Twin),
		"mirror":        plain(edit.Mirror),
		"pin":           plain(edit.Pin),
		"fill":          plain(edit.Fill),

		"turn":      allowed(edit.Turn),
		"turn-over": plain(edit.TurnOver),
		"roll":      allowed(edit.Roll),
		"split":     allowed(edit.Split),
		"join":      plain(edit.Join),

		"widen":              stepped(edit.Widen, widthStep()),
		"narrow":             stepped(edit.Narrow, widthStep()),
		keymap.WidenFine:     stepped(edit.Widen, fineWidthStep()),
		keymap.NarrowFine:    stepped(edit.Narrow, fineWidthStep()),
		"slide-far":          stepped(edit.SlideFar, slideStep()),
		"slide-near":         stepped(edit.SlideNear, slideStep()),
		keymap.SlideFarFine:  stepped(edit.SlideFar, fineSlideStep()),
		keymap.SlideNearFine: stepped(edit.SlideNear, fineSlideStep()),
		"set-width":          App.askWidth,
		"set-length":         App.askLength,
		"set-start":          App.askStart,
		"next-rings":         plain(edit.NextRings),
		"set-rings":          App.askRings,
		"set-moisture":       App.askMoisture,

		keymap.Advice:       App.takeAdvice,
		keymap.NextCare:     func(a App) (App, tea.Cmd) { return a.toCare(1) },
		keymap.PreviousCare: func(a App) (App, tea.Cmd) { return a.toCare(-1) },
		keymap.Season:       App.nextSeason,
		keymap.Unit:         App.otherUnit,
		keymap.Screen:       toScreen(1),
		keymap.LastScreen:   toScreen(-1),
		keymap.Undo:         App.undo,
		keymap.Redo:         App.redo,

		keymap.Save:    App.save,
		keymap.SaveAs:  App.saveAs,
		keymap.Open:    App.listPatterns,
		keymap.New:     App.newPattern,
		keymap.Picture: App.exportPicture,
		keymap.Sheet:   App.exportSheet,
		keymap.Help:    func(a App) (App, tea.Cmd) { return a.show(help.Page{Place: a.here().place}, nil), nil },
		keymap.Search:  App.searchActions,
		keymap.Suspend: func(a App) (App, tea.Cmd) { return a, tea.Suspend },
		keymap.Quit:    App.quit,
	}
	maps.Copy(all, panelHandlers())
	maps.Copy(all, rackHandlers())
	maps.Copy(all, planHandlers())
	maps.Copy(all, layHandlers())
	maps.Copy(all, findingsHandlers())
	maps.Copy(all, cutHandlers())
	maps.Copy(all, workHandlers())
	maps.Copy(all, madeHandlers())
	return all
}

// panelHandlers makes the actions on the panel as a whole.
func panelHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		"another-width":      App.askAnotherWidth,
		"set-panel-length":   App.askPanelLength,
		"set-thickness":      App.askThickness,
		"set-panel-width":    App.askPanelWidth,
		"set-make":           plain(otherMake),
		"set-panel-moisture": App.askPanelMoisture,
		"set-flattened":      App.askFlattened,
		"set-name":           App.askName,
		"set-notes":          App.askNotes,
	}
}

// plain makes a hand move that needs nothing but the bench.
func plain(f func(edit.State) (edit.State, error)) handler {
	return func(a App) (App, tea.Cmd) { return a.move(f) }
}

// goTo goes to another strip, or stays where there is none.
func goTo(f func(edit.State) (edit.State, error)) handler {
	return func(a App) (App, tea.Cmd) {
		if next, err := f(a.state()); err == nil {
			return a.do(next)
		}
		return a, nil
	}
}

// allowed makes a hand move that needs the workshop's allowances.
func allowed(f func(edit.State, edit.Allow) (edit.State, error)) handler {
	return func(a App) (App, tea.Cmd) {
		return a.move(func(s edit.State) (edit.State, error) { return f(s, check.Allow(a.reckoner.Shop())) })
	}
}

// stepped makes a hand move by a step in the maker's unit.
func stepped(f func(edit.State, length.Length) (edit.State, error), by step) handler {
	return func(a App) (App, tea.Cmd) {
		return a.move(func(s edit.State) (edit.State, error) { return f(s, by.in(a.unit)) })
	}
}

func otherMake(s edit.State) (edit.State, error) {
	if s.Pattern.Panel.Make == pattern.MakeFlat {
		return edit.SetMake(s, pattern.MakeEdge)
	}
	return edit.SetMake(s, pattern.MakeFlat)
}

// takeAdvice makes the change that the bench offers for the chosen strip.
func (a App) takeAdvice() (App, tea.Cmd) {
	if remedy, ok := bench.Advise(a.context()); ok {
		return a.apply(remedy)
	}
	return a.say("there is no advice on this strip"), nil
}

// apply makes a remedy's change as one undo step.
func (a App) apply(m check.Remedy) (App, tea.Cmd) {
	next, err := m.Apply(a.state(), check.Allow(a.reckoner.Shop()))
	if err != nil {
		return a.refuse(a.words(err)), nil
	}
	a, cmd := a.do(next)
	if m.Kind == check.Settle { // what was written is not yet so
		return a.say(fmt.Sprintf("counted on at %.1f %% now: glue strip %d when it reads that", m.Reading.Percent, m.Strip)), cmd
	}
	return a.say("done: " + m.Between()), cmd
}

// toCare goes to the next glue line, in a direction, that asks for care or waits for
// somebody to look at its rings, and chooses the strip left of it.
func (a App) toCare(by int) (App, tea.Cmd) {
	lines := a.doc.report.Figures.Lines
	n := len(lines)
	if n == 0 {
		return a.say("there is no glue line yet"), nil
	}
	for i := 1; i <= n; i++ {
		at := ((a.state().Selected+by*i)%n + n) % n
		if l := lines[at]; l.Level > pattern.Fine || !l.Settled || !l.Known {
			next, err := edit.Select(a.state(), at)
			if err != nil {
				return a.refuse(a.words(err)), nil
			}
			a, cmd := a.do(next)
			return a.say(lineWords(a.context(), l)), cmd
		}
	}
	return a.say("every glue line is fine"), nil
}

// lineWords says what a glue line asks for.
func lineWords(ctx screen.Context, l movement.Line) string {
	if all := ctx.Report.At(l.Line); len(all) > 0 {
		f := slices.MaxFunc(all, func(a, b check.Finding) int { return cmp.Compare(a.Level, b.Level) })
		return fmt.Sprintf("%d|%d %s: %s", l.Line, l.Line+1, f.Level, f.Message)
	}
	return fmt.Sprintf("%d|%d waits for somebody to look at the rings", l.Line, l.Line+1)
}

func (a App) nextSeason() (App, tea.Cmd) {
	a.season = a.season.Next()
	return a.say("figures of the " + a.season.String()), nil
}

func (a App) otherUnit() (App, tea.Cmd) {
	a.unit = length.InInches - a.unit
	return a.checked(), nil
}

// toScreen goes so many screens on.
func toScreen(by int) handler {
	return func(a App) (App, tea.Cmd) {
		n := len(screens())
		return a.goScreen(((a.screen+by)%n + n) % n)
	}
}

// goScreen goes to a screen.
func (a App) goScreen(i int) (App, tea.Cmd) {
	a.screen, a.gallery.open = i, false
	if enter := screens()[i].enter; enter != nil {
		return enter(a)
	}
	return a, nil
}

func (a App) undo() (App, tea.Cmd) {
	if a.bookingIsLast() {
		return a.unbook()
	}
	if screens()[a.screen].place == rackview.Place {
		return a.undoRack()
	}
	history, label, ok := a.doc.history.Undo()
	if !ok {
		return a.say("there is nothing to undo"), nil
	}
	a.doc.history = history
	a, cmd := a.changed()
	return a.say("taken back: " + label), cmd
}

func (a App) redo() (App, tea.Cmd) {
	if screens()[a.screen].place == rackview.Place {
		return a.redoRack()
	}
	history, label, ok := a.doc.history.Redo()
	if !ok {
		return a.say("there is nothing to redo"), nil
	}
	a.doc.history = history
	a, cmd := a.changed()
	return a.say("made again: " + label), cmd
}
