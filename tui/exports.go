package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/exporting"
	"example.com/oddments/tui/screen"
)

// askExport asks for the file that a picture or sheet goes to, and hands it on.
func (a App) askExport(kind export.Kind, write func(App, string) (App, tea.Cmd)) (App, tea.Cmd) {
	stem := a.doc.Stem
	if stem == "" {
		stem = store.Stem(a.state().Pattern.Name)
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
	return a.askExport(export.Picture, func(a App, file string) (App, tea.Cmd) {
		return a.say("drawing the picture"), exporting.Write(export.Picture, file, a.state().Pattern, 1, a.exportJob())
	})
}

// exportSheet has the page for the bench written, once there is a plan of the present
// state.
func (a App) exportSheet() (App, tea.Cmd) {
	return a.askExport(export.Sheet, func(a App, file string) (App, tea.Cmd) {
		return a.tellAll(screen.WantSheet{File: file})
	})
}

// writeSheet writes the page for the bench with the plan that there is.
func (a App) writeSheet(file string) tea.Cmd {
	job := a.exportJob()
	job.Stock, job.Plan = a.plan.Job, a.plan.Plan
	return exporting.Write(export.Sheet, file, a.state().Pattern, a.batch.Made(), job)
}

func (a App) exportJob() export.Job {
	return export.Job{Stem: a.doc.RecoveryStem(), Physics: a.physics, Unit: a.unit}
}
