package gallery

import (
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/suggest/search"
)

// shortEnds is a pile in which one timber alone is as long as a panel of 620 for two rounds.
func shortEnds() rack.Rack {
	var r rack.Rack
	for _, p := range []struct {
		key                      string
		long, wide, thick, count int
	}{{"pear", 420, 60, 30, 12}, {"hornbeam", 380, 70, 30, 6}, {"sweet_chestnut", 350, 62, 28, 6}, {"hard_maple", 700, 80, 30, 4}} {
		r.Pieces = append(r.Pieces, rack.Piece{ID: p.key, Species: p.key, Length: length.Length(p.long) * mm, Width: length.Length(p.wide) * mm,
			Thickness: length.Length(p.thick) * mm, Quantity: p.count})
	}
	return r
}

func joinedAsk(how joints.How) suggest.Request {
	a := suggest.New(300*mm, 20*mm, 620*mm)
	a.Widths = []length.Length{20 * mm, 30 * mm, 40 * mm}
	a.Join = suggest.Joining{How: how, Products: []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2}}}
	a.Rack = shortEnds()
	return a
}

// A pile of short ends gives no look, for its one long timber cannot lie beside itself; with
// strips in pieces it gives some. Every layout can be cut as it is laid.
func TestLooksFromShortEnds(t *testing.T) {
	for _, how := range []joints.How{joints.Even, joints.Anywhere} {
		a := joinedAsk(how)
		a.Looks, a.Layouts, a.NoTwins = []look.Look{look.Mirror, look.Calm}, 2, true
		a.Strips = suggest.UsualStrips()
		for _, joined := range []bool{false, true} {
			if !joined {
				a.Join.How = joints.AsTheyAre
			} else {
				a.Join.How = how
			}
			got, err := Solve(t.Context(), physics(), a, suggest.Options{LoosenFor: 1})
			if err != nil || got.Broken != nil {
				t.Fatalf("%v: %v, %v", how, err, got.Broken)
			}
			if !joined {
				if len(got.Layouts) > 0 || got.Status != suggest.Infeasible {
					t.Errorf("%v: whole strips give %d looks, %v", how, len(got.Layouts), got.Status)
				}
				continue
			}
			for _, l := range got.Layouts {
				job := cutting.Job{Rack: a.Rack, Shop: physics().Shop(), Patterns: []cutting.Demand{{Stem: suggest.Stem, Pattern: a.Pattern(l), Copies: 1}}}
				if err := cutting.Verify(job, *l.Plan); err != nil || l.Plan.Short > 0 || l.Joints() == 0 {
					t.Errorf("%v, %v: %v, %d short, %d joints", how, l.Look, err, l.Plan.Short, l.Joints())
				}
			}
			if t.Logf("%v: %v, %d looks", how, got.Status, len(got.Layouts)); len(got.Layouts) != 2 {
				t.Errorf("%v: only %d looks, left out %v", how, len(got.Layouts), got.LeftOut)
			}
		}
	}
}

// Of ready strips alone, none as long as the panel, a layout is laid in pieces from short ones.
func TestShortReadyStrips(t *testing.T) {
	a := joinedAsk(joints.Anywhere)
	a.Widths, a.Layouts = nil, 1
	a.Rack.Strips = []rack.Strip{
		{ID: "W", Species: "black_walnut", Width: 25 * mm, Thickness: 24 * mm, Length: 320 * mm, Quantity: 14},
		{ID: "M", Species: "hard_maple", Width: 25 * mm, Thickness: 24 * mm, Length: 310 * mm, Quantity: 14}}
	for _, whole := range []bool{true, false} {
		if whole {
			a.Join.How = joints.AsTheyAre
		} else {
			a.Join.How = joints.Anywhere
		}
		got, err := Solve(t.Context(), physics(), a, suggest.Options{LoosenFor: 1})
		if err != nil || got.Broken != nil || (len(got.Layouts) == 0) != whole {
			t.Fatalf("whole %t: %d layouts, %v, %v", whole, len(got.Layouts), err, got.Broken)
		}
		for _, l := range got.Layouts {
			if len(l.Plan.Cuts) > 0 || l.Joints() == 0 || !l.Proved {
				t.Errorf("%d pieces are cut, %d joints, proved %t", len(l.Plan.Cuts), l.Joints(), l.Proved)
			}
		}
	}
}

// smallJoined asks for any layout, or a mirrored one, of a few short ends.
func smallJoined(rng *rand.Rand) suggest.Request {
	a := suggest.New(length.Length(80+rng.IntN(50))*mm, 20*mm, 400*mm)
	a.Tolerance, a.Strips, a.Layouts, a.Differ = length.Length(2+rng.IntN(6))*mm, [2]int{3, 5}, 1, 1
	a.Aim, a.LeastContrast = []suggest.Aim{suggest.Contrast, suggest.UseUp}[rng.IntN(2)], float64(rng.IntN(10))
	a.Widths = []length.Length{20 * mm, 30 * mm}[rng.IntN(2):]
	a.Join = suggest.Joining{How: []joints.How{joints.Even, joints.Anywhere}[rng.IntN(2)],
		Products: []pattern.Product{{Shape: outline.Rectangle, Length: 170 * mm, Width: length.Length(30+rng.IntN(40)) * mm, Count: 2}}}
	if rng.IntN(3) == 0 {
		a.Join.Products[0] = pattern.Product{Shape: outline.Round, Diameter: length.Length(60+rng.IntN(15)) * mm, Count: 4}
	}
	keys := []string{"black_walnut", "hard_maple", "sapele"}
	for i := range 3 + rng.IntN(2) {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: string(rune('A' + i)), Species: keys[rng.IntN(3)], Length: length.Length(190+rng.IntN(280)) * mm,
			Width: length.Length(30+rng.IntN(60)) * mm, Thickness: length.Length(26+rng.IntN(30)) * mm, Quantity: 1 + rng.IntN(2), UseFirst: rng.IntN(3) == 0})
	}
	return a
}

// A look that is any, or a mirror, is what package search seeks by other means: where both prove
// their answer it is worth the same, and neither proves that there is none where the other has
// one.
func TestJoinedAgainstSearch(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 21))
	proved, none, differ := 0, 0, 0
	for n := range byDayOrNight(60, 600) {
		a := smallJoined(rng)
		if a.Symmetric = n%3 == 0; n%4 == 1 {
			a.Pinned = []suggest.Pin{{Place: 1 + rng.IntN(2), Strip: pattern.Strip{Species: a.Rack.Pieces[0].Species, Width: a.Widths[0]}}}
		}
		one, err := search.Solve(t.Context(), physics(), a, suggest.Options{LoosenFor: 1})
		if err != nil || one.Broken != nil {
			t.Fatalf("case %d: %v, %v", n, err, one.Broken)
		}
		b := a
		b.Symmetric, b.Looks = false, []look.Look{look.Any}
		if a.Symmetric {
			b.Looks = []look.Look{look.Mirror}
		}
		other, err := Solve(t.Context(), physics(), b, suggest.Options{LoosenFor: 1})
		if err != nil || other.Broken != nil {
			t.Fatalf("case %d: %v, %v", n, err, other.Broken)
		}
		switch {
		case len(one.Layouts) == 0 && one.Status == suggest.Infeasible && len(other.Layouts) > 0,
			len(other.Layouts) == 0 && other.Status == suggest.Infeasible && len(one.Layouts) > 0:
			t.Fatalf("case %d: %v with %d layouts, %v with %d\n%+v", n, one.Status, len(one.Layouts), other.Status, len(other.Layouts), a)
		case len(one.Layouts) == 0 || len(other.Layouts) == 0:
			none++
		case one.Layouts[0].Proved && other.Layouts[0].Proved:
			if x, y := one.Layouts[0].Merit(one.Aim), other.Layouts[0].Merit(other.Aim); x != y {
				t.Fatalf("case %d: worth %v and %v, both proved\n%+v", n, x, y, a)
			}
			proved++
		default:
			differ++
		}
	}
	if t.Logf("%d proved by both, %d not by both, %d without a layout", proved, differ, none); proved < 10 {
		t.Error("too few are proved by both")
	}
}
