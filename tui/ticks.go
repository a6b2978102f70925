package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/screen"
)

// A ticking is what is done of the steps of a plan, and whether it is being kept. The zero
// value knows of nothing: what there is stands in the home.
type ticking struct {
	stem   string
	now    store.Ticks
	writes bool // it is being written
	behind bool // what is written is not the last
}

// A tickedMsg says how keeping ticks went.
type tickedMsg struct{ err error }

// stepsDone tells which steps of a plan are done.
func (a App) stepsDone(r screen.StepsDone) tea.Cmd {
	files, stem, known := a.files, a.doc.RecoveryStem(), a.ticking
	return func() tea.Msg {
		done := known.now
		if known.stem != stem {
			var err error
			if done, err = files.Ticks(stem); err != nil {
				return failedMsg{err}
			}
		}
		if done.Plan != r.Plan {
			done.Done = nil
		}
		return r.Then(done.Done)
	}
}

// tick keeps which steps are done. One is written at a time, so that the last stays.
func (a App) tick(t store.Ticks) (App, tea.Cmd) {
	a.ticking.stem, a.ticking.now = a.doc.RecoveryStem(), t
	if a.ticking.writes {
		a.ticking.behind = true
		return a, nil
	}
	a.ticking.writes, a.ticking.behind = true, false
	files, of := a.files, a.ticking
	return a, func() tea.Msg { return tickedMsg{files.KeepTicks(of.stem, of.now)} }
}

func (a App) ticked(m tickedMsg) (App, tea.Cmd) {
	a.ticking.writes = false
	if m.err != nil {
		return a.fail(m.err), nil
	}
	if a.ticking.behind {
		return a.tick(a.ticking.now)
	}
	return a, nil
}

// tickLast keeps what may not have been kept when the program ends.
func (a App) tickLast() error {
	if !a.ticking.writes {
		return nil
	}
	return a.files.KeepTicks(a.ticking.stem, a.ticking.now)
}
