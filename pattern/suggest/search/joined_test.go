package search

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
)

// randomJoined asks for strips in pieces from a small rack on which little is as long as a strip.
func randomJoined(rng *rand.Rand) suggest.Request {
	a := randomRough(rng)
	a.Length = 400 * mm
	a.Join = suggest.Joining{How: []joints.How{joints.Even, joints.Anywhere}[rng.IntN(2)]}
	one := pattern.Product{Shape: outline.Rectangle, Length: 170 * mm, Width: length.Length(20+rng.IntN(30)) * mm, Count: 2}
	switch rng.IntN(4) {
	case 0:
		one = pattern.Product{Shape: outline.Round, Diameter: length.Length(50+rng.IntN(20)) * mm, Count: 1 + rng.IntN(4)}
	case 1:
		one.Length, one.Count = 110*mm, 3
	}
	a.Join.Products = []pattern.Product{one}
	for i := range a.Rack.Pieces {
		a.Rack.Pieces[i].Length = length.Length(175+rng.IntN(300)) * mm
	}
	for i := range a.Rack.Strips {
		a.Rack.Strips[i].Length = length.Length(150+rng.IntN(300)) * mm
	}
	return a
}

// joined plans a layout of the kinds in this order, each strip in one of its ways.
func joined(t *testing.T, a *lookAll, layout []int) bool {
	name := func(species string, first bool) string {
		return fmt.Sprint(species, first && a.ask.Aim == suggest.UseUp)
	}
	p := pattern.Pattern{Panel: a.ask.Panel(), Products: a.ask.Join.Products}
	for _, k := range layout {
		h := a.kinds[k]
		p.Strips = append(p.Strips, pattern.Strip{Species: name(h.Species, h.UseFirst), Width: h.Width, Rings: h.Rings})
	}
	job := cutting.Job{Shop: a.r.Shop(), Patterns: []cutting.Demand{{Stem: "x", Pattern: p, Copies: 1}}}
	for _, piece := range a.ask.Rack.Pieces {
		piece.Species = name(piece.Species, piece.UseFirst)
		job.Rack.Pieces = append(job.Rack.Pieces, piece)
	}
	for _, s := range a.ask.Rack.Strips {
		s.Species = name(s.Species, s.UseFirst)
		job.Rack.Strips = append(job.Rack.Strips, s)
	}
	job, err := job.Joined(a.ask.Join.How, a.ask.Join.How == joints.Even)
	if err != nil {
		return false
	}
	plan, err := solve.Plan(t.Context(), job, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return plan.Short == 0
}

// Of small racks all layouts are tried in every order, each strip in all of its ways. What is
// said to be proved is so, what is found can be cut and is laid as it may be, and where there is
// a layout one is nearly always found.
func TestJoinedAgainstAllLayouts(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 11))
	r := physics()
	there, found, proved, alone, pieced := 0, 0, 0, 0, 0
	cases := 120
	if os.Getenv("ODDMENTS_NIGHTLY") != "" {
		cases = 1500
	}
	for n := range cases {
		ask := randomJoined(rng)
		answer, err := Solve(t.Context(), r, ask, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if answer.Broken != nil {
			t.Fatalf("case %d: %v\n%+v", n, answer.Broken, ask)
		}
		ask.Aim = answer.Aim
		all := newLookAll(r, ask)
		everyKind(all)
		var best worth
		any := false
		all.seen = func(l []int) {
			if w := all.worth(l); (!any || w.better(best)) && joined(t, all, l) {
				best, any = w, true
			}
		}
		all.run()
		if !any && len(answer.Layouts) > 0 {
			t.Fatalf("case %d: a layout where there is none\n%+v", n, ask)
		}
		if any && answer.Status == suggest.Infeasible {
			t.Fatalf("case %d: proved that there is none, but there is\n%+v", n, ask)
		}
		if !any {
			continue
		}
		there++
		if len(answer.Layouts) == 0 {
			continue
		}
		found++
		whole, err := Solve(t.Context(), r, ask.Whole(), suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(whole.Layouts) == 0 {
			alone++
		}
		for _, l := range answer.Layouts {
			if l.Joints() > 0 {
				pieced++
			}
			checkJoined(t, r.Shop(), ask, l)
		}
		l := answer.Layouts[0]
		got := worth{least: int64(l.SmallestContrast*1e6 + 0.5), sum: int64(l.TotalContrast*1e6 + 0.5)}
		if ask.Aim == suggest.UseUp {
			got.use = l.UseFirst
		}
		same := got.use == best.use && got.least == best.least && abs(got.sum-best.sum) <= 9
		if l.Proved && answer.PlansProved && !same {
			t.Fatalf("case %d: worth %+v is proved, best %+v\n%+v", n, got, best, ask)
		}
		if !same && got.better(best) {
			t.Fatalf("case %d: worth %+v, best %+v\n%+v", n, got, best, ask)
		}
		if l.Proved && answer.PlansProved {
			proved++
		}
	}
	t.Logf("of %d cases %d have a layout, %d found, %d proved, %d with joints alone; %d layouts with joints", cases, there, found, proved, alone, pieced)
	if found < there*49/50 || proved < there*9/10 || alone < cases/5 || pieced < cases/12 {
		t.Error("too few cases of one sort")
	}
}

// checkJoined looks whether a layout can be cut as it is laid, and whether every piece holds
// what products take of it, worked out from their outlines here.
func checkJoined(t *testing.T, sh shop.Shop, ask suggest.Request, l suggest.Layout) {
	t.Helper()
	p := ask.Pattern(l)
	job := cutting.Job{Rack: ask.Rack, Shop: sh, Patterns: []cutting.Demand{{Stem: suggest.Stem, Pattern: p, Copies: 1}}}
	if err := cutting.Verify(job, *l.Plan); err != nil || l.Plan.Short > 0 {
		t.Fatalf("%v, %d short", err, l.Plan.Short)
	}
	bare := p
	bare.Strips = slices.Clone(p.Strips)
	for i := range bare.Strips {
		bare.Strips[i] = pattern.Strip{Width: p.Strips[i].Width}
	}
	whole, err := outline.Lay(bare, sh.Allowance.Length, p.Products, nil, sh.Cut)
	if err != nil {
		t.Fatal(err)
	}
	low := 0.0
	for i, s := range p.Strips {
		high := low + s.Width.MM()
		for _, c := range whole.Placed {
			along, across := c.Along.MM(), c.Across.MM()
			half := p.Products[0].Length.MM() / 2
			if off := max(0, low-across, across-high); p.Products[0].Shape == outline.Round {
				r := p.Products[0].Diameter.MM() / 2
				if half = 0; off < r {
					half = math.Sqrt(r*r - off*off)
				}
			} else if off >= p.Products[0].Width.MM()/2 {
				half = 0
			}
			if half == 0 {
				continue
			}
			from, to := along-half-sh.Cut.EndMargin.MM(), along+half+sh.Cut.EndMargin.MM()
			holds := slices.ContainsFunc(p.PiecesOf(s, sh.Allowance.Length), func(one pattern.StripPiece) bool {
				return one.Start.MM() <= from+1e-3 && one.End().MM() >= to-1e-3
			})
			if !holds {
				t.Fatalf("strip %d: no piece of %v holds %.2f to %.2f", i+1, p.PiecesOf(s, sh.Allowance.Length), from, to)
			}
		}
		low = high
	}
}

// With strips pinned, to be had or only given, mirrored or not, layouts in pieces keep every
// claim.
func TestJoinedWithPins(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 12))
	r := physics()
	found, given := 0, 0
	for n := range 60 {
		ask := randomJoined(rng)
		key := ask.Rack.Pieces[0].Species
		if rng.IntN(3) == 0 {
			key = "purpleheart"
		}
		ask.Pinned = []suggest.Pin{{Place: 1 + rng.IntN(2), Strip: pattern.Strip{Species: key, Width: ask.Widths[0], Rings: ask.Rack.Pieces[0].Rings}}}
		answer, err := Solve(t.Context(), r, ask, suggest.Options{LoosenFor: 1})
		if err != nil || answer.Broken != nil {
			t.Fatalf("case %d: %v, %v\n%+v", n, err, answer.Broken, ask)
		}
		for _, l := range answer.Layouts {
			found++
			if l.Given() {
				given++ // its plan is not of the whole pattern
				continue
			}
			checkJoined(t, r.Shop(), ask, l)
		}
	}
	if t.Logf("%d layouts, %d with a strip that is only given", found, given); found < 10 || given < 2 {
		t.Errorf("only %d layouts, %d with a strip that is only given", found, given)
	}
}
