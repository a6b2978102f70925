// Package opening is what can be opened: work that was kept, saved patterns, the demo's, chapters of the
// manual.
package opening

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
)

// Found is what can be opened of a home.
type Found struct {
	Patterns []store.Listed
	Kept     []store.Recovery
}

// Find reads what can be opened.
func Find(files *store.Home, known *species.Table) (f Found, err error) {
	if f.Patterns, err = files.Patterns(known); err == nil {
		f.Kept, err = files.Recoveries(known)
	}
	return f, err
}

// Others reads the saved patterns, with the demo's behind them, but for that of a stem.
func Others(files *store.Home, known *species.Table, demo []store.Saved, stem string) ([]store.Saved, error) {
	list, err := files.Patterns(known)
	var others []store.Saved
	for _, l := range list {
		if l.Err == nil {
			others = append(others, l.Saved)
		}
	}
	others = append(others, demo...)
	return slices.DeleteFunc(others, func(s store.Saved) bool { return s.Stem == stem }), err
}

// List returns the list to choose from: kept work but for the copy of what lies on the bench,
// saved patterns, the demo's. Its values are a store.Recovery or a store.Saved.
func (f Found) List(onBench string, demo []store.Saved, u length.Unit) choose.List {
	newer, older := f.aged(onBench)
	items := keptItems(newer)
	for _, l := range f.Patterns {
		item := choose.Item{Name: l.Stem, Detail: screen.Size(l.Pattern, u), Value: l.Saved}
		if l.Pattern.Name != "" && l.Err == nil {
			item.Name, item.Also = l.Pattern.Name, l.Stem
		}
		if l.Err != nil {
			item = choose.Item{Name: l.File, Detail: firstError(l.Err)}
		}
		items = append(items, item)
	}
	items = append(items, keptItems(older)...)
	for _, s := range demo {
		items = append(items, choose.Item{Name: s.Pattern.Name, Detail: "demo   " + screen.Size(s.Pattern, u), Value: s})
	}
	return choose.New("open", "no pattern of that name", items)
}

// A kept work is what lies in a copy, and the file of its pattern where that is another one
// than the work began with.
type kept struct {
	store.Recovery
	file *store.Listed
}

// older reports whether the file was saved after the copy was kept.
func (k kept) older() bool { return k.file != nil && k.file.At.After(k.At) }

// aged returns the kept work but for the copy of what lies on the bench: what is newer than
// its pattern's file, and what is older.
func (f Found) aged(onBench string) (newer, older []kept) {
	for _, r := range f.Kept {
		k := kept{Recovery: r}
		for i, l := range f.Patterns {
			if l.Stem == r.Stem && l.Version != r.Base {
				k.file = &f.Patterns[i]
			}
		}
		switch {
		case r.Copy == onBench:
		case k.older():
			older = append(older, k)
		default:
			newer = append(newer, k)
		}
	}
	return newer, older
}

// Later says that kept work is left for later, GiveUp that it is not wanted any more.
type (
	Later  struct{}
	GiveUp struct{ Kept []store.Recovery }
)

// Offer returns the list that work from last time is offered by; openKey finds it later. A
// file that is newer than the work stands before it. Its values are a store.Recovery, a
// store.Saved, Later or a GiveUp.
func (f Found) Offer(openKey string) choose.List {
	newer, older := f.aged("")
	items := keptItems(newer)
	for _, k := range older {
		file := choose.Item{Name: "open the saved " + cmp.Or(k.file.Pattern.Name, k.file.Stem), Detail: "newer, saved " + day(k.file.At), Value: k.file.Saved}
		if k.file.Err != nil {
			file.Detail, file.Value = firstError(k.file.Err), nil
		}
		items = append(append(items, file), keptItems([]kept{k})...)
	}
	items = append(items,
		choose.Item{Name: "decide later", Detail: openKey + " finds it", Value: Later{}},
		choose.Item{Name: "discard it", Detail: "it stays as .bak in the folder recovery", Value: GiveUp{f.Kept}})
	return choose.New("unsaved work from last time", "", items).Answers()
}

// keptItems lists work that was not saved when oddments ended, with when it was kept.
func keptItems(all []kept) []choose.Item {
	var items []choose.Item
	for _, k := range all {
		item := choose.Item{Name: "bring back " + cmp.Or(k.Pattern.Name, k.Copy), Detail: "kept " + day(k.At), Value: k.Recovery}
		switch {
		case k.Err != nil:
			item.Detail, item.Value = firstError(k.Err), nil
		case k.older():
			item.Detail = "older than the file, " + item.Detail
		case k.file != nil:
			item.Detail = "newer than the file, " + item.Detail
		}
		items = append(items, item)
	}
	return items
}

func day(at time.Time) string { return at.Format("2 Jan 15:04") }

func firstError(err error) string {
	var list store.Errors
	if errors.As(err, &list) && len(list) > 0 {
		return fmt.Sprintf("cannot be read: line %d: %s", list[0].Line, list[0].Message)
	}
	return "cannot be read: " + err.Error()
}
