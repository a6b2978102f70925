// Package opening is what can be opened: work that was kept, saved patterns, the demo's.
package opening

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

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
	var newer, older []store.Recovery // than the file that they were made from
	for _, r := range f.Kept {
		switch {
		case r.Copy == onBench:
		case f.overtaken(r):
			older = append(older, r)
		default:
			newer = append(newer, r)
		}
	}
	items := keptItems(newer, "kept ")
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
	items = append(items, keptItems(older, "older than the file, kept ")...)
	for _, s := range demo {
		items = append(items, choose.Item{Name: s.Pattern.Name, Detail: "demo   " + screen.Size(s.Pattern, u), Value: s})
	}
	return choose.New("open", "no pattern of that name", items)
}

// overtaken reports whether the file that work was made from was saved again since.
func (f Found) overtaken(r store.Recovery) bool {
	return slices.ContainsFunc(f.Patterns, func(l store.Listed) bool { return l.Stem == r.Stem && l.Version != r.Base })
}

// Later says that kept work is left for later, GiveUp that it is not wanted any more.
type (
	Later  struct{}
	GiveUp struct{ Kept []store.Recovery }
)

// Offer returns the list that work from last time is offered by; openKey finds it later. Its
// values are a store.Recovery, Later or a GiveUp.
func Offer(kept []store.Recovery, openKey string) choose.List {
	items := append(keptItems(kept, "kept "),
		choose.Item{Name: "decide later", Detail: openKey + " finds it", Value: Later{}},
		choose.Item{Name: "discard it", Detail: "it stays as .bak in the folder recovery", Value: GiveUp{kept}})
	return choose.New("unsaved work from last time", "", items).Answers()
}

// keptItems lists work that was not saved when oddments ended, with when it was kept.
func keptItems(kept []store.Recovery, when string) []choose.Item {
	var items []choose.Item
	for _, r := range kept {
		item := choose.Item{Name: "bring back " + cmp.Or(r.Pattern.Name, r.Copy), Detail: when + r.At.Format("2006-01-02 15:04"), Value: r}
		if r.Err != nil {
			item.Detail, item.Value = firstError(r.Err), nil
		}
		items = append(items, item)
	}
	return items
}

func firstError(err error) string {
	var list store.Errors
	if errors.As(err, &list) && len(list) > 0 {
		return fmt.Sprintf("cannot be read: line %d: %s", list[0].Line, list[0].Message)
	}
	return "cannot be read: " + err.Error()
}
