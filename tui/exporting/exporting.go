// Package exporting writes what a pattern is given away in, pictures and sheets, from the
// screens: it asks for the file and writes it beside the screen.
package exporting

import (
	"bytes"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// A WrittenMsg tells of a picture or sheet that was to be written.
type WrittenMsg struct {
	Kind     export.Kind
	File     string
	Replaced bool // what lay there before is kept as .bak
	Err      error
}

// String says where it was written.
func (m WrittenMsg) String() string {
	if m.Replaced {
		return fmt.Sprintf("%v written: %s, the old one stays as .bak", m.Kind, m.File)
	}
	return fmt.Sprintf("%v written: %s", m.Kind, m.File)
}

// Field asks for the file that a picture or sheet goes to, and offers one called stem.
func Field(kind export.Kind, stem string) ask.Field {
	endings := export.Endings(kind)
	title := fmt.Sprintf("save the %v as (%s)", kind, strings.Join(endings, " or "))
	return ask.New(title, stem+endings[0], func(s string) (string, string, error) {
		file := strings.TrimSpace(s)
		form, ok := export.For(kind, file)
		if !ok {
			return "", "", fmt.Errorf("%q: must end in %s", file, strings.Join(endings, " or "))
		}
		return file, form.What, nil
	})
}

// Write returns the command that writes a pattern of which so many copies are made, as job
// says besides; its message is a WrittenMsg. The file is one that Field lets through.
func Write(kind export.Kind, file string, p pattern.Pattern, copies int, job export.Job) tea.Cmd {
	return write(kind, file, func() (out export.Job, err error) {
		out = job
		out.Work, err = work.JobOf(job.Physics, p, copies)
		return out, err
	})
}

// WriteSet returns the command that writes the sheet of a set, as job says besides. Its message is a
// WrittenMsg.
func WriteSet(file string, set screen.ExportSet, job export.Job) tea.Cmd {
	job.Stock, job.Plan = set.Job, set.Plan
	return write(export.Sheet, file, func() (export.Job, error) { return beside(set.Job.Patterns, set.Wants, job) })
}

// WriteBoards returns the command that writes the sheet of several patterns that are planned
// together, as job says besides; what they are worth stands in the orders. Its message is a
// WrittenMsg.
func WriteBoards(file string, boards []cutting.Demand, job export.Job, files *store.Home) tea.Cmd {
	return write(export.Sheet, file, func() (export.Job, error) {
		wants, _, err := files.Orders(store.Against{Known: job.Physics.Table()})
		if err != nil { // the pile tells of that; a sheet can be without
			wants = nil
		}
		return beside(boards, wants, job)
	})
}

// beside returns the job of several boards.
func beside(boards []cutting.Demand, wants []orders.Want, job export.Job) (export.Job, error) {
	var all []export.Job
	for _, d := range boards {
		one := job
		var err error
		if one.Work, err = work.JobOf(job.Physics, d.Pattern, d.Copies); err != nil {
			return job, err
		}
		one.Stem, one.Worth = d.Stem, orders.WorthOf(wants, d.Stem, d.Pattern)
		all = append(all, one)
	}
	job = all[0]
	job.Beside = all[1:]
	return job, nil
}

// write returns the command that writes a job.
func write(kind export.Kind, file string, of func() (export.Job, error)) tea.Cmd {
	form, _ := export.For(kind, file)
	return func() tea.Msg {
		m := WrittenMsg{Kind: kind, File: screen.WholePath(file)}
		var data bytes.Buffer
		var job export.Job
		if job, m.Err = of(); m.Err != nil {
			return m
		}
		if m.Err = form.Write(&data, job); m.Err != nil {
			return m
		}
		m.Replaced, m.Err = store.SaveExport(m.File, data.Bytes())
		return m
	}
}
