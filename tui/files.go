package tui

import (
	"errors"
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
)

// The messages with which work on files comes back.
type (
	// listedMsg brings what can be opened.
	listedMsg struct {
		list []store.Listed
		kept []store.Recovery
	}
	failedMsg struct{ err error }
)

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
		list, err := files.Patterns(known)
		if err != nil {
			return failedMsg{err}
		}
		kept, err := files.Recoveries(known)
		if err != nil {
			return failedMsg{err}
		}
		return listedMsg{list, kept}
	}
}

// listed offers what can be opened: kept work, saved patterns, the demo's.
func (a App) listed(m listedMsg) (App, tea.Cmd) {
	// What lies on the bench is not offered once more.
	items := keptItems(slices.DeleteFunc(m.kept, func(r store.Recovery) bool { return r.Copy == a.doc.Copy }))
	for _, l := range m.list {
		item := choose.Item{Name: l.Stem, Detail: screen.Size(l.Pattern, a.unit), Value: l.Saved}
		if l.Pattern.Name != "" && l.Err == nil {
			item.Name, item.Also = l.Pattern.Name, l.Stem
		}
		if l.Err != nil {
			item = choose.Item{Name: l.File, Detail: firstError(l.Err)}
		}
		items = append(items, item)
	}
	for _, s := range a.demo {
		items = append(items, choose.Item{Name: s.Pattern.Name, Detail: "demo   " + screen.Size(s.Pattern, a.unit), Value: s})
	}
	return a.show(choose.New("open", "nothing is saved under that name", items), chooseOpen), nil
}

// chooseOpen opens what was chosen. What is on the bench is kept first, so that
// nothing is lost and nothing needs to be asked.
func chooseOpen(a App, value any) (App, tea.Cmd) {
	switch v := value.(type) {
	case store.Saved:
		return a.leave(func(a App) (App, tea.Cmd) {
			a = a.open(v)
			return a.say("opened " + a.context().Title).inView(), nil
		})
	case store.Recovery:
		return a.leave(func(a App) (App, tea.Cmd) { return a.recover(v), nil })
	case giveUp:
		return a, func() tea.Msg {
			for _, r := range v.kept {
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
	return a.leave(func(a App) (App, tea.Cmd) {
		panel := a.state().Pattern.Panel
		a = a.open(store.Saved{Pattern: pattern.Pattern{Panel: pattern.Panel{Length: panel.Length, Thickness: panel.Thickness}}})
		return a.say("a new pattern; the panel's length and thickness are those of the last"), nil
	})
}

func firstError(err error) string {
	var list store.Errors
	if errors.As(err, &list) && len(list) > 0 {
		return fmt.Sprintf("cannot be read: line %d: %s", list[0].Line, list[0].Message)
	}
	return "cannot be read: " + err.Error()
}

// keptItems lists work that was not saved when oddments ended.
func keptItems(kept []store.Recovery) []choose.Item {
	var items []choose.Item
	for _, r := range kept {
		name := r.Pattern.Name
		if name == "" {
			name = r.Copy
		}
		item := choose.Item{Name: "not saved: " + name, Detail: "kept " + r.At.Format("2 Jan 15:04"), Value: r}
		if r.Err != nil {
			item.Detail, item.Value = firstError(r.Err), nil
		}
		items = append(items, item)
	}
	return items
}

// later says that kept work is left for later, giveUp that it is not wanted any more.
type (
	later  struct{}
	giveUp struct{ kept []store.Recovery }
)

// offer shows the work that was not saved last time.
func (a App) offer(kept []store.Recovery) App {
	if len(kept) == 0 {
		return a
	}
	items := append(keptItems(kept),
		choose.Item{Name: "leave it for later", Detail: a.keys.KeyOf("open") + " finds it", Value: later{}},
		choose.Item{Name: "give it up", Detail: "it stays as .bak in the folder recovery", Value: giveUp{kept}})
	return a.show(choose.New("work from last time was kept: bring it back?", "", items).Answers(), chooseOpen)
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
