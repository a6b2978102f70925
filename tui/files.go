package tui

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/opening"
)

// A failedMsg says that work on files failed.
type failedMsg struct{ err error }

// fail says what went wrong with a file, and the next step.
func (a App) fail(err error) App {
	var file *store.Error
	if !errors.As(err, &file) {
		return a.refuse(err.Error())
	}
	text := file.Err.Error()
	if file.Hint != "" {
		text += ": " + file.Hint
	}
	return a.refuse(text + " (" + file.File + ")")
}

// listPatterns reads what can be opened.
func (a App) listPatterns() (App, tea.Cmd) {
	files, known := a.files, store.Known(a.physics.Table())
	return a, func() tea.Msg {
		found, err := opening.Find(files, known)
		if err != nil {
			return failedMsg{err}
		}
		return found
	}
}

// listed offers what can be opened.
func (a App) listed(f opening.Found) (App, tea.Cmd) {
	return a.show(f.List(a.doc.Copy, a.demo, a.unit), chooseOpen), nil
}

// chooseOpen opens what was chosen. What is on the bench is kept first, so that
// nothing is lost and nothing needs to be asked.
func chooseOpen(a App, value any) (App, tea.Cmd) {
	switch v := value.(type) {
	case store.Saved:
		return a.replaceBench(func(a App) (App, tea.Cmd) {
			a = a.open(v)
			return a.say("opened " + a.context().Title).inView(), nil
		})
	case store.Recovery:
		return a.replaceBench(func(a App) (App, tea.Cmd) { return a.recover(v), nil })
	case opening.GiveUp:
		return a, func() tea.Msg {
			for _, r := range v.Kept {
				if err := a.files.GiveUp(r.Copy); err != nil {
					return failedMsg{err}
				}
			}
			return nil
		}
	default:
		return a, nil
	}
}

func (a App) newPattern() (App, tea.Cmd) {
	return a.replaceBench(func(a App) (App, tea.Cmd) {
		panel := a.state().Pattern.Panel
		a.at = 0 // it shows itself on the bench
		a = a.open(store.Saved{Pattern: pattern.Pattern{Panel: pattern.Panel{Length: panel.Length, Thickness: panel.Thickness}}})
		return a.say("a new pattern; the panel's length and thickness are those of the last"), nil
	})
}

// offer shows the work that was not saved last time.
func (a App) offer(kept []store.Recovery) App {
	if len(kept) == 0 {
		return a
	}
	return a.show(opening.Offer(kept, a.keys.KeyOf(keymap.Open)), chooseOpen)
}

// recover puts kept work on the bench. It stands on the version of the pattern that
// it was made from and counts as unsaved.
func (a App) recover(r store.Recovery) App {
	stem := r.Stem
	if stem == store.Untitled {
		stem = ""
	}
	a = a.open(store.Saved{Stem: stem, Version: r.Base})
	a.doc.History = edit.NewHistory(edit.State{Pattern: r.Pattern, Tray: r.Tray}).MarkSaved(edit.State{})
	a.doc.Kept, a.doc.Copy = a.doc.History.Revision(), r.Copy
	return a.checked().inView().say("brought back what was not saved")
}
