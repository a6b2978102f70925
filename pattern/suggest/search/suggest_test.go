package search

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

func have(species string, width length.Length, count int) suggest.ReadyStrips {
	return suggest.ReadyStrips{Species: species, Width: width, Count: count, Source: species}
}

// Walnut and maple strips of 25 mm, 100 mm wide: four strips that take turns. Their
// contrast is that of the two timbers, three lines make three times as much.
func TestTwoTimbersTakeTurns(t *testing.T) {
	a := suggest.New(100*mm, 22*mm, 400*mm)
	a.Level, a.Layouts = pattern.TooMuch, 1
	a.Have = []suggest.ReadyStrips{have("black_walnut", 25*mm, 4), have("hard_maple", 25*mm, 4)}
	answer, err := Solve(t.Context(), physics(), a, suggest.Options{})
	if err != nil || answer.Status != suggest.Optimal || answer.Aim != suggest.Contrast {
		t.Fatalf("%v, %v, %v", err, answer.Status, answer.Aim)
	}
	l := answer.Layouts[0]
	walnut, _ := species.Builtin().Get("black_walnut")
	maple, _ := species.Builtin().Get("hard_maple")
	c := walnut.Contrast(maple)
	if l.Width != 100*mm || len(l.Strips) != 4 || l.SmallestContrast != c || l.TotalContrast != c+c+c {
		t.Errorf("%v wide, %d strips, contrast %v of %v", l.Width, len(l.Strips), l.SmallestContrast, l.TotalContrast)
	}
}

// The tolerance is inclusive, to the nanometre.
func TestToleranceIsInclusive(t *testing.T) {
	for _, c := range []struct {
		tolerance length.Length
		want      suggest.Status
	}{{4 * mm, suggest.Optimal}, {4*mm - 1, suggest.Infeasible}} {
		a := suggest.New(104*mm, 22*mm, 400*mm)
		a.Level, a.Tolerance = pattern.TooMuch, c.tolerance
		a.Have = []suggest.ReadyStrips{have("black_walnut", 25*mm, 2), have("hard_maple", 25*mm, 2)}
		answer, err := Solve(t.Context(), physics(), a, suggest.Options{})
		if err != nil || answer.Status != c.want {
			t.Errorf("tolerance %v: %v, %v", c.tolerance, answer.Status, err)
		}
		if c.want == suggest.Infeasible {
			if wide, _ := loosened(answer.Loosen, suggest.OfTolerance); wide.Tolerance != 4*mm {
				t.Errorf("loosen to %v", wide.Tolerance)
			}
		}
	}
}

// Ready strips marked use first come first out of their kind, with their source.
func TestUseFirstIsHandedOutFirst(t *testing.T) {
	a := suggest.New(100*mm, 22*mm, 400*mm)
	a.Level, a.Layouts = pattern.TooMuch, 1
	old := have("black_walnut", 25*mm, 1)
	old.UseFirst, old.Source = true, "old"
	a.Have = []suggest.ReadyStrips{have("black_walnut", 25*mm, 4), old, have("hard_maple", 25*mm, 4)}
	answer, err := Solve(t.Context(), physics(), a, suggest.Options{})
	if err != nil || answer.Aim != suggest.UseUp || answer.Layouts[0].UseFirst != 25*mm {
		t.Fatalf("%v %+v", err, answer)
	}
	sources := map[string]int{}
	for _, s := range answer.Layouts[0].Strips {
		sources[s.Source]++
	}
	if sources["old"] != 1 || sources["black_walnut"] != 1 {
		t.Errorf("sources %v", sources)
	}
}

// A pinned strip that cannot be had is taken as given, in a symmetric layout with its
// mirror image, and stands nowhere else.
func TestGivenStrips(t *testing.T) {
	a := suggest.New(130*mm, 22*mm, 400*mm)
	a.Level, a.Symmetric, a.Layouts = pattern.TooMuch, true, 3
	a.Have = []suggest.ReadyStrips{have("black_walnut", 25*mm, 4), have("hard_maple", 20*mm, 4)}
	a.Pinned = []suggest.Pin{{Place: 2, Strip: pattern.Strip{Species: "padauk", Width: 10 * mm}}}
	answer, err := Solve(t.Context(), physics(), a, suggest.Options{})
	if err != nil || len(answer.Layouts) == 0 {
		t.Fatalf("%v %+v", err, answer)
	}
	for _, l := range answer.Layouts {
		for i, s := range l.Strips {
			pinned := i == 1 || i == len(l.Strips)-2
			if (s.Species == "padauk") != pinned || pinned && s.Source != "" {
				t.Errorf("strip %d of %d is %+v", i+1, len(l.Strips), s)
			}
		}
	}
}

func TestSameAskSameAnswer(t *testing.T) {
	a := pileOf(3, 10, 30, 200*mm)
	first, err := Solve(t.Context(), physics(), a, suggest.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		if again, _ := Solve(t.Context(), physics(), a, suggest.Options{}); !reflect.DeepEqual(first, again) {
			t.Fatal("another answer")
		}
	}
}

// Work that is ended early claims nothing that work to the end shows to be wrong.
func TestEndedEarlyClaimsNothingWrong(t *testing.T) {
	a := pileOf(2, 12, 30, 200*mm)
	whole, err := Solve(t.Context(), physics(), a, suggest.Options{})
	if err != nil || whole.Status != suggest.Optimal {
		t.Fatalf("%v %v", err, whole.Status)
	}
	for stopAfter := range 4 {
		ctx, cancel := context.WithCancel(t.Context())
		early, err := Solve(ctx, physics(), a, suggest.Options{Progress: func(p suggest.Progress) {
			if p.Layouts > stopAfter {
				cancel()
			}
		}})
		cancel()
		if err != nil {
			t.Fatal(err)
		}
		if early.Status == suggest.Optimal && len(early.Layouts) < len(whole.Layouts) || early.Status == suggest.Infeasible {
			t.Errorf("after %d layouts: %v", stopAfter+1, early.Status)
		}
		for i, l := range early.Layouts {
			if l.Proved && l.TotalContrast != whole.Layouts[i].TotalContrast {
				t.Errorf("layout %d is proved, and is not the best", i+1)
			}
		}
		if b := early.Bound; b != nil {
			next := whole.Layouts[slices.IndexFunc(append(early.Layouts, suggest.Layout{}), func(l suggest.Layout) bool { return !l.Proved })]
			if b.UseFirst < next.UseFirst || b.UseFirst == next.UseFirst && b.SmallestContrast < next.SmallestContrast-1e-6 {
				t.Errorf("bound %+v, the next is %v and %v", b, next.UseFirst, next.SmallestContrast)
			}
		}
	}
}

func TestWrongAsks(t *testing.T) {
	for _, c := range []struct {
		name, want string
		spoil      func(*suggest.Request)
	}{
		{"no width", "must be above 0", func(a *suggest.Request) { a.Width = 0 }},
		{"one strip", "must be a range from 2", func(a *suggest.Request) { a.Strips[0] = 1 }},
		{"no layouts", "must be 1 or more", func(a *suggest.Request) { a.Layouts = 0 }},
		{"no difference", "must be 1 or more", func(a *suggest.Request) { a.Differ = 0 }},
		{"unknown timber", "must be a key", func(a *suggest.Request) { a.Have[0].Species = "plastic" }},
		{"pinned twice", "must be one", func(a *suggest.Request) {
			s := pattern.Strip{Species: "padauk", Width: mm}
			a.Pinned = []suggest.Pin{{Place: 1, Strip: s}, {Place: 1, Strip: s}}
		}},
		{"too narrow", "a strip 0.015 mm wide in a panel of 300 mm: must be 0.0152", func(a *suggest.Request) { a.Width, a.Have[0].Width = 300*mm, 15*length.Micrometre }},
		{"pinned too far", "its place must be", func(a *suggest.Request) { a.Pinned = []suggest.Pin{{Place: 61}} }},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := suggest.New(100*mm, 22*mm, 400*mm)
			a.Have = []suggest.ReadyStrips{have("padauk", 20*mm, 3)}
			c.spoil(&a)
			if _, err := Solve(t.Context(), physics(), a, suggest.Options{}); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
}
