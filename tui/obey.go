package tui

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/opening"
	"example.com/oddments/tui/screen"
)

// obey does what a screen asked for, in its order; a change that is refused ends it.
func (a App) obey(from int, asked []screen.Request) (App, tea.Cmd) {
	var cmds []tea.Cmd
	for _, r := range asked {
		var cmd tea.Cmd
		if edit, ok := r.(screen.Edit); ok {
			var made bool
			a, cmd, made = a.edited(from, edit)
			cmds = append(cmds, cmd)
			if !made {
				break
			}
			continue
		}
		a, cmd = a.request(from, r)
		cmds = append(cmds, cmd)
	}
	return a, tea.Batch(cmds...)
}

// request does one thing that a screen asked for.
func (a App) request(from int, r screen.Request) (App, tea.Cmd) {
	switch r := r.(type) {
	case screen.Say:
		return a.say(string(r)), nil
	case screen.Refuse:
		return a.refuse(string(r)), nil
	case screen.EditRack:
		return a.changeRack(r)
	case screen.Gather:
		a.batch = screen.Batch(r)
	case screen.Planned:
		a.plan = screen.Plan(r)
	case screen.Book:
		return a.book()
	case screen.Show:
		return a.show(r.Overlay, func(a App, value any) (App, tea.Cmd) {
			if r.Then == nil {
				return a, nil
			}
			return a.answer(from, r.Then(value))
		}), nil
	case screen.Withdrawn:
		return a.withdrawn(r.Told), nil
	case screen.Go:
		if i, ok := a.find(r.To); ok {
			return a.goScreen(i)
		}
	case screen.Act:
		return a.act(r.ID)
	case screen.Tell:
		return a.tellAll(r.Msg)
	case screen.Run:
		return a, r.Cmd
	case screen.Saved:
		return a, a.readSaved(r.Then)
	case screen.WriteSheet:
		return a, a.writeSheet(r.File)
	default:
		return a.refuse(fmt.Sprintf("nothing is done for %T", r)), nil
	}
	return a, nil
}

// answer tells a screen what came of what it asked for, or does what was asked for by that.
func (a App) answer(from int, msg tea.Msg) (App, tea.Cmd) {
	if msg == nil {
		return a, nil
	}
	if r, ok := msg.(screen.Request); ok {
		return a.obey(from, []screen.Request{r})
	}
	return a.tell(from, msg)
}

// edited makes a change of the bench as one undo step, and reports whether it was made.
func (a App) edited(from int, r screen.Edit) (App, tea.Cmd, bool) {
	if r.Label != "" {
		a.action = r.Label
	}
	next, err := r.Make(a.state())
	if err != nil {
		return a.refuse(a.words(err)), nil, false
	}
	a, cmd := a.do(next)
	a, more := a.answer(from, r.Then)
	return a, tea.Batch(cmd, more), true
}

// readSaved reads the saved patterns and the demo's, but for the one on the bench.
func (a App) readSaved(then func([]store.Saved) tea.Msg) tea.Cmd {
	files, known := a.files, a.physics.Table()
	demo, own := a.demo, a.doc.Stem
	return func() tea.Msg {
		others, err := opening.Others(files, known, demo, own)
		if err != nil {
			return failedMsg{err}
		}
		return then(others)
	}
}
