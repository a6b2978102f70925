package outline

import (
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Two rounds of 320 on 800 may slide by 134 (TestTwoRounds). Slid by 50 the first
// pushes the second, which stands 16 behind it; slid too far it stops at its slide.
func TestHeldByHand(t *testing.T) {
	p, rounds := panel(800*mm, 325*mm, 13), []pattern.Product{{Shape: Round, Diameter: 320 * mm, Count: 2}}
	for _, c := range []struct {
		name          string
		held          []Fixed
		first, second length.Length // left edges
	}{
		{"none", nil, 5 * mm, 341 * mm},
		{"the first by 50", []Fixed{{1, 1, 55 * mm}}, 55 * mm, 391 * mm},
		{"the second by 50", []Fixed{{1, 2, 391 * mm}}, 5 * mm, 391 * mm},
		{"both", []Fixed{{1, 1, 25 * mm}, {1, 2, 441 * mm}}, 25 * mm, 441 * mm},
		{"too far", []Fixed{{1, 1, 700 * mm}}, 139 * mm, 475 * mm},
		{"nearer than it lies", []Fixed{{1, 1, 1 * mm}}, 5 * mm, 341 * mm},
		{"none such", []Fixed{{1, 3, 90 * mm}, {2, 1, 90 * mm}, {1, 0, 90 * mm}}, 5 * mm, 341 * mm},
	} {
		got, err := LayWithFixed(p, 0, rounds, nil, habits(), c.held)
		if err != nil {
			t.Fatal(err)
		}
		if one, two := got.Placed[0], got.Placed[1]; one.From != c.first || two.From != c.second {
			t.Errorf("%s: left edges at %v and %v, want %v and %v", c.name, one.From, two.From, c.first, c.second)
		}
		if at := got.Placed[0]; at.Along != at.From+160*mm || (at.BindingStrip > 0) != (c.first == 5*mm) {
			t.Errorf("%s: centre %v, bound by %d", c.name, at.Along, at.BindingStrip)
		}
	}
}

// Whatever is held, the layout keeps the rules of the scan, every copy stands between
// its earliest place and its latest, and what is still free of its slide adds up.
func TestHeldKeepsTheRules(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 7))
	slid := 0
	for range 400 {
		s, products := randomCase(rng)
		allowance := length.FromMM(s.allowance)
		plain, err := Lay(s.p, allowance, products, s.avoids, s.cut)
		if err != nil {
			t.Fatal(err)
		}
		var held []Fixed
		for _, at := range plain.Placed {
			if at.Slide > 0 && rng.IntN(3) == 0 {
				held = append(held, Fixed{at.Product, at.Copy, at.From + length.Length(rng.Int64N(int64(at.Slide)+1))})
			}
		}
		got, err := LayWithFixed(s.p, allowance, products, s.avoids, s.cut, held)
		if err != nil || len(got.Placed) != len(plain.Placed) {
			t.Fatalf("%v, %d placed of %d", err, len(got.Placed), len(plain.Placed))
		}
		for i, at := range got.Placed {
			was := plain.Placed[i]
			if at.From < was.From || at.From > was.From+was.Slide || at.Row != was.Row || at.Copy != was.Copy {
				t.Fatalf("copy %+v is held at %+v", was, at)
			}
			if slack := s.slack(products[at.Product-1], at.Along.MM(), at.Across.MM()); slack < -tolerance {
				t.Fatalf("%+v breaks a rule by %g mm", at, -slack)
			}
			for _, other := range got.Placed[:i] {
				scanApart(t, s, products, other, at)
			}
			if at.From > was.From {
				slid++
			}
		}
		for _, h := range held {
			for i, at := range got.Placed {
				if at.Product == h.Product && at.Copy == h.Copy && at.From < h.From && at.From != plain.Placed[i].From+plain.Placed[i].Slide {
					t.Fatalf("wanted at %v, held at %v", h.From, at.From)
				}
			}
		}
	}
	if slid < 100 {
		t.Errorf("only %d copies were slid", slid)
	}
}

// A round of 320 at 165 in a panel of 800 by 325 has 2.5 at the sides, 5 before it and
// 475 behind it, where strip 7 of 13 lies under its middle.
func TestClearance(t *testing.T) {
	p, round := panel(800*mm, 325*mm, 13), pattern.Product{Shape: Round, Diameter: 320 * mm, Count: 1}
	at := lay(t, p, habits(), round).Placed[0]
	got := ClearanceOf(p, 0, round, at)
	if want := (Clearance{Side: 2500 * length.Micrometre, Near: 5 * mm, Far: 475 * mm, NearStrip: 7, FarStrip: 7}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if min(got.Near, got.Far) != 5*mm {
		t.Errorf("the nearer end is %v off", min(got.Near, got.Far))
	}
	// The strip that binds a copy is the one that its near clearance is at.
	rng := rand.New(rand.NewPCG(3, 9))
	for range 200 {
		s, products := randomCase(rng)
		allowance := length.FromMM(s.allowance)
		layout, err := Lay(s.p, allowance, products, s.avoids, s.cut)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range layout.Placed {
			c := ClearanceOf(s.p, allowance, products[at.Product-1], at)
			if min(c.Near, c.Far) < s.cut.EndMargin || c.Side < s.cut.SideMargin {
				t.Fatalf("%+v of %+v is within the margins of %+v", c, at, s.cut)
			}
			if at.BindingStrip > 0 && (c.NearStrip != at.BindingStrip || c.Near != s.cut.EndMargin) {
				t.Fatalf("%+v, bound by strip %d with %v", c, at.BindingStrip, s.cut.EndMargin)
			}
		}
	}
}

// The first of two rounds is stopped by strip 7's end, the second by the first, and one
// behind a knot by that; of staggered rows the second is half a pitch off the first.
func TestStopOf(t *testing.T) {
	p, rounds := panel(1200*mm, 325*mm, 13), []pattern.Product{{Shape: Round, Diameter: 320 * mm, Count: 2}, {Shape: Round, Diameter: 60 * mm, Count: 1}}
	layout, err := Lay(p, 0, rounds, nil, habits())
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []Stop{ByStrip, ByNeighbour, ByNeighbour} {
		if got := StopOf(layout, i, rounds, habits().Gap); got != want {
			t.Errorf("copy %d of %+v is stopped by a %v, want a %v", i+1, layout.Placed[i], got, want)
		}
	}
	if layout, err = Lay(p, 0, rounds[:1], []pattern.Avoid{knot(40*mm, 160*mm, 10*mm)}, habits()); err != nil {
		t.Fatal(err)
	}
	if got := StopOf(layout, 0, rounds, habits().Gap); got != ByKnot {
		t.Errorf("behind a knot it is stopped by a %v", got)
	}
	many := []pattern.Product{{Shape: Round, Diameter: 100 * mm, Count: 105}}
	staggered := lay(t, panel(1000*mm, 1000*mm, 10), Cut{}, many...)
	seen := map[Stop]int{}
	for i := range staggered.Placed {
		seen[StopOf(staggered, i, many, 0)]++
	}
	if seen[ByKnot] != 0 || seen[ByStrip] == 0 || seen[ByNeighbour] == 0 {
		t.Errorf("in staggered rows: %v", seen)
	}
	if text := Stop(9).String(); text != "stop(9)" || ByKnot.String() != "knot" {
		t.Errorf("%q", text)
	}
}
