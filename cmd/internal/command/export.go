package command

import (
	"bytes"
	"errors"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/store"
)

// ExportJob returns what is to be shown of a pattern that is made so often.
func (w Workshop) ExportJob(saved store.Saved, copies int) (export.Job, error) {
	made, err := w.Job(saved, copies)
	return export.Job{Stem: saved.Stem, Work: made, Physics: w.Physics(), Unit: w.Unit}, err
}

// WriteExport writes a job in a form to a file, or to the standard output.
func (w Workshop) WriteExport(form export.Export, job export.Job, out, file string) error {
	var data bytes.Buffer
	err := form.Write(&data, job)
	switch {
	case errors.Is(err, export.ErrNoProduct):
		return failure.Usage("oddments mark lists the products", "--product: %v", err)
	case errors.Is(err, export.ErrNoPlace):
		return &failure.Problem{Code: failure.CodeBadFile, File: file, Message: err.Error(), Hint: "oddments mark says why"}
	case err != nil:
		return err
	case out == "-":
		_, err = data.WriteTo(w.Out)
		return err
	}
	w.Writes()
	replaced, err := store.SaveExport(out, data.Bytes())
	if w.Wrote(err) != nil {
		return err
	}
	if replaced {
		w.SayReplaced("written", out)
	} else {
		w.Fact("written", "%s", out)
	}
	return nil
}

// Orders returns what the maker would sell; where that cannot be read it is told, and there is none.
func (w Workshop) Orders() []orders.Want {
	wants, _, err := w.Home.Orders(store.Against{Known: w.Table})
	if err != nil {
		w.Message("oddments: the sheet does not say what boards are worth: %s\n", failure.Visible(err.Error()))
	}
	return wants
}
