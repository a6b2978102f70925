package rack_test

import (
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/species"
)

// FuzzFilter: what is taken for a filter can be asked of every entry.
func FuzzFilter(f *testing.F) {
	for _, s := range []string{"", "cherry over 300", "300", "30cm #W9 planed", "rift unknown first", "ch 1/3in"} {
		f.Add(s)
	}
	look := rack.NewLookup(species.Builtin())
	entry := rack.Entry{Piece: rack.Piece{ID: "A1", Species: "pear", Length: length.Metre, Width: length.Metre, Thickness: length.Metre, Quantity: 1}}
	f.Fuzz(func(t *testing.T, text string) {
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			filter, err := rack.ParseFilter(text, look, u)
			if shown := filter.Match(entry); err != nil && err.Error() == "" || text == "" && !shown {
				t.Errorf("%q: %v, shown %v", text, err, shown)
			}
		}
	})
}

// FuzzFault: what is read as a fault prints as one that reads the same.
func FuzzFault(f *testing.F) {
	for _, s := range []string{"0-40 mm", "along 30-45 mm", "1 1/8-2 in", "0,5-1 m"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		fault, err := rack.ParseFault(text)
		if err != nil {
			return
		}
		if again, err := rack.ParseFault(fault.String()); err != nil || again != fault {
			t.Errorf("%q is read as %v, which reads as %v, %v", text, fault, again, err)
		}
	})
}
