package search

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// randomRough asks for strips from a small rack of pieces and ready strips.
func randomRough(rng *rand.Rand) suggest.Request {
	a := suggest.New(length.Length(60+rng.IntN(50))*mm, 20*mm, 300*mm)
	a.Tolerance = length.Length(2+rng.IntN(8)) * mm
	a.Strips = [2]int{2, 4}
	a.Aim = suggest.Aim(rng.IntN(3))
	a.LeastContrast = float64(rng.IntN(10))
	a.Level = pattern.Level(1 + rng.IntN(2))
	a.Layouts, a.Differ = 2, 1+rng.IntN(2)
	a.Symmetric, a.NoTwins = rng.IntN(5) == 0, rng.IntN(3) == 0
	a.Make = pattern.Make(rng.IntN(2))
	a.Widths = []length.Length{20 * mm, 30 * mm}[rng.IntN(2):]
	keys := []string{"black_walnut", "hard_maple", "sapele"}
	for i := range 2 + rng.IntN(2) {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{
			ID: fmt.Sprint("P", i), Species: keys[rng.IntN(3)], Length: length.Length(345+rng.IntN(400)) * mm,
			Width: length.Length(26+rng.IntN(60)) * mm, Thickness: length.Length(24+rng.IntN(40)) * mm, Quantity: 1,
			Planed: rng.IntN(5) == 0, Rings: []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsRift()}[rng.IntN(3)],
			UseFirst: rng.IntN(3) == 0,
		})
	}
	if rng.IntN(2) == 0 {
		a.Rack.Strips = append(a.Rack.Strips, rack.Strip{ID: "S", Species: keys[rng.IntN(3)], Width: 30 * mm,
			Thickness: 22 * mm, Length: 320 * mm, Quantity: 1 + rng.IntN(2), UseFirst: rng.IntN(2) == 0})
	}
	return a
}

// yields says whether the rack yields a layout of the kinds, each strip from timber
// with its mark where marks count.
func yields(t *testing.T, a *lookAll, layout []int, seen map[string]bool) bool {
	sorted := slices.Sorted(slices.Values(layout))
	key := fmt.Sprint(sorted)
	if ok, there := seen[key]; there {
		return ok
	}
	p := pattern.Pattern{Panel: a.ask.Panel()}
	name := func(species string, first bool) string {
		return fmt.Sprint(species, first && a.ask.Aim == suggest.UseUp)
	}
	for _, k := range layout {
		h := a.kinds[k]
		p.Strips = append(p.Strips, pattern.Strip{Species: name(h.Species, h.UseFirst), Width: h.Width, Rings: h.Rings})
	}
	var r rack.Rack
	for _, piece := range a.ask.Rack.Pieces {
		piece.Species = name(piece.Species, piece.UseFirst)
		r.Pieces = append(r.Pieces, piece)
	}
	for _, s := range a.ask.Rack.Strips {
		s.Species = name(s.Species, s.UseFirst)
		r.Strips = append(r.Strips, s)
	}
	plan, err := solve.Plan(t.Context(), cutting.Job{Rack: r, Shop: a.r.Shop(),
		Patterns: []cutting.Demand{{Stem: "x", Pattern: p, Copies: 1}}}, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	seen[key] = plan.Short == 0
	return seen[key]
}

// everyKind gives every kind that the rack could yield at all, many of each.
func everyKind(a *lookAll) {
	add := func(species string, w length.Length, rings pattern.Rings, first bool) {
		h := suggest.ReadyStrips{Species: species, Width: w, Rings: rings, UseFirst: first && a.ask.Aim == suggest.UseUp}
		if slices.ContainsFunc(a.kinds, func(k suggest.ReadyStrips) bool { return k == h }) {
			return
		}
		a.kinds, a.first = append(a.kinds, h), append(a.first, 0)
	}
	// Timber that nobody has looked at serves any strip, and a strip of unknown rings comes
	// from any timber: so rings of one entry meet the mark of another.
	for _, e := range a.ask.Rack.Entries() {
		for _, o := range a.ask.Rack.Entries() {
			if e.Species != o.Species {
				continue
			}
			for _, w := range a.ask.Widths {
				if e.Ready && e.Width != w || o.Ready && o.Width != w {
					continue
				}
				add(e.Species, w, e.Rings, o.UseFirst)
				if !e.Ready {
					add(e.Species, w, e.Rings.Rolled(), o.UseFirst)
				}
			}
		}
	}
	for i := range a.kinds {
		a.kinds[i].Count = 4
		if a.kinds[i].UseFirst {
			a.first[i] = 4
		}
	}
	for i := range a.kinds {
		for j := range a.kinds {
			a.level[[2]int{i, j}] = a.lineLevel(a.kinds[i], a.kinds[j])
		}
	}
}

func TestRoughAgainstAllLayouts(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	r := physics()
	with, fell := 0, 0
	for n := range 500 {
		ask := randomRough(rng)
		tried := 0
		answer, err := Solve(t.Context(), r, ask, suggest.Options{Progress: func(p suggest.Progress) { tried = p.Tried }})
		if err != nil {
			t.Fatal(err)
		}
		if tried > 0 {
			fell++
		}
		if !answer.PlansProved || answer.Status == suggest.Open {
			t.Fatalf("case %d: %v, plans proved %v", n, answer.Status, answer.PlansProved)
		}
		ask.Aim = answer.Aim
		all := newLookAll(r, ask)
		everyKind(all)
		var best worth
		any, seen := false, map[string]bool{}
		all.seen = func(l []int) {
			if w := all.worth(l); (!any || w.better(best)) && yields(t, all, l, seen) {
				best, any = w, true
			}
		}
		all.run()
		if any != (len(answer.Layouts) > 0) {
			t.Fatalf("case %d: a layout there is: %v, found: %d\n%+v", n, any, len(answer.Layouts), ask)
		}
		if l := answer.Loosen; l != nil && len(l.Ways) > 0 && l.Ways[0].Condition == suggest.OfTolerance {
			wide := ask
			wide.Tolerance = l.Ways[0].Request.Tolerance
			if more, err := Solve(t.Context(), r, wide, suggest.Options{}); err != nil || len(more.Layouts) == 0 || wide.Tolerance <= ask.Tolerance {
				t.Fatalf("case %d: tolerance %v would not do\n%+v", n, wide.Tolerance, ask)
			}
		}
		for i, l := range answer.Layouts {
			with++
			if l.Plan == nil || l.Plan.Short > 0 {
				t.Fatalf("case %d: a layout without a whole plan", n)
			}
			got := worth{least: int64(l.SmallestContrast*1e6 + 0.5), sum: best.sum}
			if ask.Aim == suggest.UseUp {
				got.use = l.UseFirst
			}
			if i == 0 && (got.use != best.use || got.least != best.least || abs(int64(l.TotalContrast*1e6+0.5)-best.sum) > 9) {
				t.Fatalf("case %d: worth %+v sum %v, best %+v\n%+v", n, got, l.TotalContrast, best, ask)
			}
			checkServed(t, l)
		}
	}
	t.Logf("%d layouts; plans fell short in %d cases", with, fell)
	if with < 150 || fell < 10 {
		t.Error("too few cases of one sort")
	}
}

// checkServed looks whether each strip of a layout is served once by its plan, and
// from where it says.
func checkServed(t *testing.T, l suggest.Layout) {
	t.Helper()
	from := map[int]string{}
	serve := func(ref cutting.Ref, id string) {
		if _, twice := from[ref.Strip]; twice {
			t.Fatalf("strip %d is served twice", ref.Strip)
		}
		from[ref.Strip] = id
	}
	for _, r := range l.Plan.Ready {
		serve(r.For, r.ID)
	}
	for _, c := range l.Plan.Cuts {
		for _, s := range c.Sections {
			for _, slice := range s.Slices {
				for _, ref := range slice.Strips {
					serve(ref, c.Piece)
				}
			}
		}
	}
	for i, s := range l.Strips {
		if from[i+1] != s.Source || s.Source == "" {
			t.Fatalf("strip %d is from %q, the plan says %q", i+1, s.Source, from[i+1])
		}
	}
}

func TestEndedAtOnce(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	a := pileOf(1, 24, 60, 300*mm)
	answer, err := Solve(ctx, physics(), a, suggest.Options{})
	if err != nil || answer.Status != suggest.Open && answer.Status != suggest.Feasible {
		t.Fatalf("%v %v", answer.Status, err)
	}
}

// pileOfPieces is n pieces of six timbers, two of them marked use first.
func pileOfPieces(n int) (r rack.Rack) {
	keys := []string{"black_walnut", "hard_maple", "sapele", "white_oak", "black_cherry", "padauk"}
	for i := range n {
		r.Pieces = append(r.Pieces, rack.Piece{ID: fmt.Sprint("P", i), Species: keys[i%6], Length: length.Length(500+37*i) * mm,
			Width: length.Length(60+7*i) * mm, Thickness: length.Length(27+(i*11)%40) * mm, Quantity: 1,
			Rings: pattern.RingsFlat(), UseFirst: i == 3 || i == 7})
	}
	return r
}

// Budget: 2 s with the plans, five layouts from a rack of twelve pieces.
func BenchmarkRough(b *testing.B) {
	a := suggest.New(300*mm, 22*mm, 450*mm)
	a.Widths, a.Strips = []length.Length{20 * mm, 25 * mm}, [2]int{8, 20}
	a.Rack = pileOfPieces(12)
	r := physics()
	for b.Loop() {
		tried := 0
		answer, err := Solve(b.Context(), r, a, suggest.Options{Progress: func(p suggest.Progress) { tried = p.Tried }})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(answer.Layouts)), "layouts")
		b.ReportMetric(float64(answer.Status), "status")
		b.ReportMetric(float64(tried), "fell-short")
	}
}

// A strip pinned whose kind no piece yields is taken as given; it takes of no timber.
func TestPinnedAsGivenAmongPieces(t *testing.T) {
	a := suggest.New(100*mm, 20*mm, 300*mm)
	a.Widths, a.Layouts = []length.Length{25 * mm}, 1
	for i, key := range []string{"black_walnut", "hard_maple"} {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: fmt.Sprint("P", i), Species: key, Length: 700 * mm,
			Width: 90 * mm, Thickness: 30 * mm, Quantity: 1})
	}
	a.Pinned = []suggest.Pin{{Place: 2, Strip: pattern.Strip{Species: "sapele", Width: 26 * mm}}}
	answer, err := Solve(t.Context(), physics(), a, suggest.Options{})
	if err != nil || len(answer.Layouts) != 1 {
		t.Fatalf("%+v, %v", answer, err)
	}
	l := answer.Layouts[0]
	if l.Strips[1].Species != "sapele" || l.Strips[1].Source != "" || l.Plan.Short != 0 || len(l.Strips) != 4 {
		t.Errorf("strips %+v with plan %+v", l.Strips, l.Plan)
	}
}

// Two pieces of maple, of which each gives one strip of 30 mm: one is marked use first,
// so that the two strips come from timber that plans tell apart. To the maker they are of
// one kind, and mirror each other beside walnut.
func TestMirroredFromTwoTimbers(t *testing.T) {
	a := suggest.New(90*mm, 20*mm, 300*mm)
	a.Widths, a.Symmetric, a.Layouts, a.Aim, a.LeastContrast = []length.Length{30 * mm}, true, 1, suggest.UseUp, 2
	for i, key := range []string{"hard_maple", "hard_maple", "black_walnut"} {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: fmt.Sprint("P", i), Species: key, Length: 400 * mm, Width: 36 * mm,
			Thickness: 30 * mm, Quantity: 1, UseFirst: i == 0})
	}
	l := solved(t, physics(), a).Layouts[0]
	if !l.Proved || l.UseFirst != 30*mm || len(l.Strips) != 3 || l.Strips[1].Species != "black_walnut" || !l.Mirror() {
		t.Errorf("%+v", l)
	}
}

// Worked by hand. A fault along a piece 48 thick leaves rectangles 24 and 26 wide, 22 and
// 24 by 46 when trued. A strip of 20 takes 21 of a slice 24 thick. As it lies each gives
// one slice of one strip; side-sliced, a slice 46 wide gives two strips, and the first
// rectangle is too narrow for one. Timber whose rings nobody knows may lie either way,
// each rectangle for itself: three strips, and so says a plan.
func TestYieldOfUnlikeRectangles(t *testing.T) {
	a := suggest.New(60*mm, 20*mm, 300*mm)
	a.Widths, a.Level = []length.Length{20 * mm}, pattern.TooMuch
	a.Rack.Pieces = []rack.Piece{{ID: "A", Species: "hard_maple", Length: 400 * mm, Width: 56 * mm, Thickness: 48 * mm, Quantity: 1,
		Faults: []rack.Fault{{Along: true, From: 24 * mm, To: 30 * mm}}}}
	stop, release := stopAt(t.Context())
	defer release()
	s, err := newSearch(physics(), a, stop)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Kinds) != 1 || s.Kinds[0].Count != 3 {
		t.Errorf("%+v, must be 3 strips", s.Kinds)
	}
	if l := solved(t, physics(), a).Layouts[0]; len(l.Strips) != 3 || l.Plan.Short > 0 {
		t.Errorf("%+v", l)
	}
}

// Of maple with rings at 0 and at 10 degrees either stands in for the other in a plan,
// so four flat strips can be had where flat timber alone gives two.
func TestYieldOfRingsNearEnough(t *testing.T) {
	ten, err := pattern.RingsAt(10)
	if err != nil {
		t.Fatal(err)
	}
	a := suggest.New(80*mm, 20*mm, 300*mm)
	a.Widths, a.Layouts, a.Strips = []length.Length{20 * mm}, 20, [2]int{4, 4}
	for i, rings := range []pattern.Rings{pattern.RingsFlat(), ten} {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: fmt.Sprint("P", i), Species: "hard_maple", Length: 400 * mm, Width: 48 * mm,
			Thickness: 26 * mm, Quantity: 1, Rings: rings, Planed: true})
	}
	flat := 0
	for _, l := range solved(t, physics(), a).Layouts {
		if !slices.ContainsFunc(l.Strips, func(p suggest.Placed) bool { return p.Rings != pattern.RingsFlat() }) {
			flat++
		}
	}
	if flat != 1 {
		t.Errorf("%d layouts of four flat strips, must be 1", flat)
	}
}
