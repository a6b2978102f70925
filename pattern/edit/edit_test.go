package edit_test

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
)

const (
	mm = length.Millimetre
	um = length.Micrometre
)

// allow is an ordinary workshop: 1 mm of jointing, 2 mm to flatten, a 3.2 mm kerf,
// 20 mm of length to spare.
var allow = edit.Allowances{Jointing: 1 * mm, Flattening: 2 * mm, Rip: 3200 * um, Length: 20 * mm}

func TestMain(m *testing.M) {
	// A fixed seed: a property that fails here fails everywhere.
	if err := flag.Set("rapid.seed", "20261102"); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// bench returns a State of strips in a panel 450 long and 22 thick, with strip
// selected chosen.
func bench(selected int, strips ...pattern.Strip) edit.State {
	s := edit.New(pattern.Pattern{
		Name:   "Hearth trivet",
		Panel:  pattern.Panel{Length: 450 * mm, Thickness: 22 * mm, Width: 300 * mm},
		Strips: strips,
	})
	s.Selected = selected
	return s
}

func strip(species string, width length.Length) pattern.Strip {
	return pattern.Strip{Species: species, Width: width}
}

// four is walnut 25, maple 30, cherry 20, oak 15 with strip 2 chosen.
func four() edit.State {
	return bench(1, strip("walnut", 25*mm), strip("maple", 30*mm), strip("cherry", 20*mm), strip("oak", 15*mm))
}

// deep copies what a move could write to.
func deep(s edit.State) edit.State {
	s.Pattern.Strips = slices.Clone(s.Pattern.Strips)
	s.Pattern.Made = slices.Clone(s.Pattern.Made)
	s.Pattern.Seconds = slices.Clone(s.Pattern.Seconds)
	s.Pattern.Products = slices.Clone(s.Pattern.Products)
	s.Pattern.Avoids = slices.Clone(s.Pattern.Avoids)
	s.Tray = slices.Clone(s.Tray)
	return s
}

// same reports whether a and b agree in everything, the chosen strip too.
func same(a, b edit.State) bool { return a.Selected == b.Selected && a.Alike(b) }

// row writes the strips and the chosen one for the eye.
func row(s edit.State) string {
	out := ""
	for i, st := range s.Pattern.Strips {
		mark := ""
		if i == s.Selected {
			mark = ">"
		}
		out += fmt.Sprintf("%s%s %v ", mark, st.Species, st.Width.MM())
	}
	out += "|"
	for _, st := range s.Tray {
		out += fmt.Sprintf(" %s %v", st.Species, st.Width.MM())
	}
	return out
}

type move = func(edit.State) (edit.State, error)

// with fixes the argument of a move.
func with[T any](f func(edit.State, T) (edit.State, error), arg T) move {
	return func(s edit.State) (edit.State, error) { return f(s, arg) }
}

// must makes moves that cannot fail, one after another, and sees that none writes
// to what it was given.
func must(t testing.TB, s edit.State, moves ...move) edit.State {
	t.Helper()
	for i, m := range moves {
		before := deep(s)
		next, err := m(s)
		if err != nil {
			t.Fatalf("move %d: %v", i+1, err)
		}
		if !same(s, before) {
			t.Fatalf("move %d wrote to the state it was given", i+1)
		}
		s = next
	}
	return s
}

func TestRefusalInInches(t *testing.T) {
	s := bench(0, strip("walnut", 22*mm))
	_, err := edit.Roll(s, allow)
	var refusal *edit.Refusal
	if !errors.As(err, &refusal) {
		t.Fatalf("%v is no refusal", err)
	}
	// 22 mm is 55.4/64 in, 24 mm 60.5/64, 2 mm 5.04/64: to the nearest sixty-fourth.
	want := "strip 1 is 55/64 in wide: rolled it would need 15/16 in, the panel's 55/64 in and 5/64 in to flatten it"
	if got := refusal.In(length.InInches); got != want {
		t.Errorf("in inches\n got %s\nwant %s", got, want)
	}
	if got := refusal.In(length.InMM); got != err.Error() {
		t.Errorf("in mm %q, want %q", got, err)
	}
}
