package tui

import (
	"errors"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/opening"
	"example.com/oddments/tui/screen"
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
	files, known := a.files, a.physics.Table()
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

// newPattern asks for the sizes of a new board, and begins it on the bench. Where none are
// said its length and thickness are those of the last, and its width is free.
func (a App) newPattern() (App, tea.Cmd) {
	panel := a.state().Pattern.Panel
	last := pattern.Panel{Length: panel.Length, Thickness: panel.Thickness}
	return a.show(opening.Board(last, a.unit), func(a App, value any) (App, tea.Cmd) {
		return a.replaceBench(func(a App) (App, tea.Cmd) { return a.begin(value.(edit.Board), last) })
	}), nil
}

// openIn opens what a screen has made in the place of what lies on the bench, or takes the last
// of these back. On the demo it is one of the demo's patterns, until it is saved.
func (a App) openIn(from int, r screen.Open) (App, tea.Cmd) {
	if r.Back && a.replaced.Of(a.doc.Document) == nil {
		return a, nil
	}
	return a.replaceBench(func(a App) (App, tea.Cmd) {
		at, was := a.at, document.Replaced{Doc: a.doc.Document, Batch: a.batch}
		if before := a.replaced.Of(a.doc.Document); before != nil {
			was = *before
		}
		if r.Back {
			a = a.open(store.Saved{Stem: was.Doc.Stem})
			was.Doc.Serial = a.doc.Serial
			a.doc.Document, a.batch, a.replaced, a.at = was.Doc, was.Batch, nil, at
			return a.checked(), nil
		}
		if a.rack.Demo && a.onDemo() {
			a.demo = opening.With(a.demo, r.Saved)
		}
		a = a.open(r.Saved)
		was.By, was.From = a.doc.Serial, from
		a.replaced, a.batch, a.at = &was, screen.Batch{With: r.With}, at
		if r.To != "" {
			return goTo(r.To)(a)
		}
		return a.checked(), nil
	})
}

// begin puts a new board on the bench, and asks for its strips where its sizes were said.
func (a App) begin(b edit.Board, last pattern.Panel) (App, tea.Cmd) {
	a.at = 0 // it shows itself on the bench
	if b == (edit.Board{}) {
		a = a.open(store.Saved{Pattern: pattern.Pattern{Panel: last}})
		return a.say("a new pattern, as long and thick as the last one"), nil
	}
	state, err := edit.NewBoard(b)
	if err != nil {
		return a.refuse(a.words(err)), nil
	}
	a = a.open(store.Saved{Pattern: state.Pattern}).say("a new pattern")
	return a.tell(0, screen.PutRow{Text: b.Row("")})
}

// offer shows the work that was not saved last time.
func (a App) offer(f opening.Found) App {
	if len(f.Kept) == 0 {
		return a
	}
	return a.show(f.Offer(a.keys.KeyOf(keymap.Open)), chooseOpen)
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
	return a.checked().inView().say("unsaved work is back")
}
