package document

import (
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/screen"
)

// A Replaced is what lay on the bench, and was made together, before a screen opened another
// pattern in its place.
type Replaced struct {
	Doc   Document
	Batch screen.Batch
	By    int // serial of the document that took its place
	From  int // the screen that opened it
}

// Of returns what a document on the bench took the place of; nil: no screen has opened it.
func (r *Replaced) Of(d Document) *Replaced {
	if r == nil || r.By != d.Serial {
		return nil
	}
	return r
}

// Filed returns an opened document, and what is made together with it, with patterns that were
// saved by another than the bench.
func (r *Replaced) Filed(d Document, b screen.Batch, all []store.Saved) (Document, screen.Batch) {
	for _, s := range all {
		if s.Stem == d.Stem && d.Base == store.Absent && r.Of(d) != nil {
			d.Base, d.History = s.Version, d.History.MarkSaved(edit.New(s.Pattern))
		}
		for _, w := range b.With {
			if w.Saved.Stem == s.Stem && w.Saved.Version == store.Absent {
				b = b.Saved(s.Stem, s.Pattern, s.Version)
			}
		}
	}
	return d, b
}
