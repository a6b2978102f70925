package tui

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// exportedMsg tells of a picture or sheet that was to be written.
type exportedMsg struct {
	kind     export.Kind
	file     string
	replaced bool
	err      error
}

// askExport asks for the file that a picture or sheet goes to, and hands it on.
func (a App) askExport(kind export.Kind, write func(App, string) (App, tea.Cmd)) (App, tea.Cmd) {
	endings := export.Endings(kind)
	title := fmt.Sprintf("write the %v to the file, %s", kind, strings.Join(endings, " or "))
	field := ask.New(title, a.exportStem()+endings[0], func(s string) (any, string, error) {
		file := strings.TrimSpace(s)
		form, ok := export.For(kind, file)
		if !ok {
			return nil, "", fmt.Errorf("%q: must end in %s", file, strings.Join(endings, " or "))
		}
		return file, form.What, nil
	})
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		file, ok := value.(string)
		if !ok {
			return a.refuse("no file was named"), nil
		}
		return write(a, file)
	}), nil
}

// exportStem gives the name that is offered for a file.
func (a App) exportStem() string {
	if a.doc.Stem != "" {
		return a.doc.Stem
	}
	return store.Stem(a.state().Pattern.Name)
}

// exportPicture draws the panel and its products for the customer.
func (a App) exportPicture() (App, tea.Cmd) {
	return a.askExport(export.Picture, func(a App, file string) (App, tea.Cmd) {
		return a.say("drawing the picture"), a.writeExport(export.Picture, file)
	})
}

// exportSheet writes the page for the bench, once there is a plan of the present
// state.
func (a App) exportSheet() (App, tea.Cmd) {
	return a.askExport(export.Sheet, func(a App, file string) (App, tea.Cmd) {
		return a.tellAll(screen.WantSheet{File: file})
	})
}

// writeExport writes what lies on the bench, beside the screen.
func (a App) writeExport(kind export.Kind, file string) tea.Cmd {
	p, reckoner, unit := a.state().Pattern, a.reckoner, a.unit
	job := export.Job{
		Stem: a.doc.RecoveryStem(), Reckoner: reckoner, Unit: unit, Settings: work.SettingsOf(reckoner.Shop()),
	}
	copies := 1
	if kind == export.Sheet {
		job.Stock, job.Plan, copies = a.plan.Job, a.plan.Plan, a.batch.Made()
	}
	form, _ := export.For(kind, file) // the field has let no other through
	return func() tea.Msg {
		m := exportedMsg{kind: kind, file: file}
		m.file = wholePath(file)
		var data bytes.Buffer
		if job.Work, m.err = work.JobOf(p, copies, reckoner.Shop()); m.err != nil {
			return m
		}
		if m.err = form.Write(&data, job); m.err != nil {
			return m
		}
		m.replaced, m.err = store.SaveExport(m.file, data.Bytes())
		return m
	}
}

// wholePath gives the file that a maker typed, ~ for the home folder, from the root on.
func wholePath(file string) string {
	if rest, ok := strings.CutPrefix(file, "~/"); ok {
		if home, err := os.UserHomeDir(); err == nil {
			file = filepath.Join(home, rest)
		}
	}
	if whole, err := filepath.Abs(file); err == nil {
		return whole
	}
	return file
}

// exported says where a picture or sheet was written.
func (a App) exported(m exportedMsg) (App, tea.Cmd) {
	switch {
	case m.err != nil:
		return a.fail(m.err), nil
	case m.replaced:
		return a.say(fmt.Sprintf("%v written: %s, what it was before as .bak", m.kind, m.file)), nil
	default:
		return a.say(fmt.Sprintf("%v written: %s", m.kind, m.file)), nil
	}
}
