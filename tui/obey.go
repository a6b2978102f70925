package tui

import (
	"cmp"
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/exporting"
	"example.com/oddments/tui/opening"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/screen"
)

// obey does what a screen asked for, in its order; a change that is refused ends it.
func (a App) obey(from int, asked []screen.Request) (App, tea.Cmd) {
	var cmds []tea.Cmd
	made := true
	for _, r := range asked {
		var cmd tea.Cmd
		if edit, ok := r.(screen.Edit); ok {
			a, cmd, made = a.edited(from, edit)
		} else {
			a, cmd = a.request(from, r)
		}
		if cmds = append(cmds, cmd); !made {
			break
		}
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
	case screen.SetShop:
		return a.changeShop(a.shop.Set(r, a.unit))
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
	case screen.Open:
		return a.openIn(from, r)
	case screen.Filed:
		a.doc.Document, a.batch = a.replaced.Filed(a.doc.Document, a.batch, r)
	case screen.Stored:
		if r.Err != nil {
			a = a.fail(r.Err)
		}
		return a.resumeQuit(nil, r.Err)
	case screen.StepsDone:
		ticks, files, stem := a.ticking, a.files, a.doc.RecoveryStem()
		return a, func() tea.Msg {
			done, err := ticks.Done(files, stem, r.Plan)
			if err != nil {
				return failedMsg{err}
			}
			return r.Then(done)
		}
	case screen.Tick:
		next, write := a.ticking.Tick(a.files, a.doc.RecoveryStem(), store.Ticks(r))
		a.ticking = next
		return a, beside(write)
	case screen.WriteSheet:
		return a, a.writeSheet(r.File)
	case screen.ExportSet:
		return a.askExport(export.Sheet, "boards", func(a App, file string) (App, tea.Cmd) {
			return a.say("writing the sheet"), exporting.WriteSet(file, r, a.exportJob())
		})
	default:
		return a.refuse(fmt.Sprintf("nothing is done for %T", r)), nil
	}
	return a, nil
}

// beside runs what is to be done beside the screen; nil: nothing is.
func beside[M any](do func() M) tea.Cmd {
	if do == nil {
		return nil
	}
	return func() tea.Msg { return do() }
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

// askExport asks for the file that a picture or sheet goes to, and hands it on.
// It offers a stem, or where that is empty the pattern's.
func (a App) askExport(kind export.Kind, stem string, write func(App, string) (App, tea.Cmd)) (App, tea.Cmd) {
	if stem == "" {
		stem = cmp.Or(a.doc.Stem, store.Stem(a.state().Pattern.Name))
	}
	return a.show(exporting.Field(kind, stem), func(a App, value any) (App, tea.Cmd) {
		file, ok := value.(string)
		if !ok {
			return a.refuse("no file was named"), nil
		}
		return write(a, file)
	}), nil
}

// exportPicture draws the panel and its products for the customer.
func (a App) exportPicture() (App, tea.Cmd) {
	return a.askExport(export.Picture, "", func(a App, file string) (App, tea.Cmd) {
		return a.say("drawing the picture"), exporting.Write(export.Picture, file, a.state().Pattern, 1, a.exportJob())
	})
}

// exportSheet has the page for the bench written, once there is a plan of the present
// state.
func (a App) exportSheet() (App, tea.Cmd) {
	return a.askExport(export.Sheet, "", func(a App, file string) (App, tea.Cmd) {
		return a.tellAll(screen.WantSheet{File: file})
	})
}

// writeSheet writes the page for the bench with the plan that there is.
func (a App) writeSheet(file string) tea.Cmd {
	job := a.exportJob()
	job.Stock, job.Plan = a.plan.Job, a.plan.Plan
	if boards := a.context().Demands(); len(boards) > 1 {
		return exporting.WriteBoards(file, boards, job, a.files)
	}
	return exporting.Write(export.Sheet, file, a.state().Pattern, a.batch.Made(), job)
}

func (a App) exportJob() export.Job {
	return export.Job{Stem: a.doc.RecoveryStem(), Physics: a.physics, Unit: a.unit}
}

// withdrawn tells that a claim is not made: at once in the line of messages, and in full
// as soon as nothing else lies over the screen.
func (a App) withdrawn(w *mistake.Withdrawn) App {
	if w == nil {
		return a
	}
	told := page.New("a check failed", []string{w.Error(), w.Where()})
	return a.refuse(w.Row()).askWhenFree(w.Report, func(App) bool { return true }, told, nil)
}
