package search

import (
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// randomMixed is randomRough from timber whose moisture differs from piece to piece,
// now and then with ready strips named on the spot.
func randomMixed(rng *rand.Rand) suggest.Request {
	a := randomRough(rng)
	for i := range a.Rack.Pieces {
		if rng.IntN(3) > 0 {
			a.Rack.Pieces[i].Moisture = pattern.Read(8 + float64(rng.IntN(3))/2)
		}
	}
	if rng.IntN(4) == 0 {
		a.Have = []suggest.ReadyStrips{{Species: "hard_maple", Width: 30 * mm, Count: 1 + rng.IntN(2), Source: "have/1", UseFirst: rng.IntN(2) == 0}}
	}
	return a
}

func TestPlansClaimNoMoreThanIsSo(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 21))
	r := physics()
	best, ofTimber, without := 0, 0, 0
	for range 250 {
		ask := randomMixed(rng)
		answer, err := Solve(t.Context(), r, ask, suggest.Options{Progress: func(p suggest.Progress) {
			for _, l := range p.Found {
				if l.Plan.Status == cutting.Optimal || l.Plan.LowerBoundCM3 > 0 {
					t.Fatal("proved before the whole rack was looked at")
				}
			}
		}})
		if err != nil {
			t.Fatal(err)
		}
		for _, l := range answer.Layouts {
			least := leastDrawn(t, ask.Job(r, l))
			checkClaim(t, ask.Job(r, l), *l.Plan, least)
			if own := ask; len(ask.Have) > 0 { // whoever saves the layout plans it from the rack's own strips
				own.Have = nil
				if plan, err := solve.Plan(t.Context(), own.Job(r, l), solve.Options{}); err != nil || plan.Short == 0 {
					checkClaim(t, ask.Job(r, l), *l.Plan, plan.DrawnCM3)
				}
			}
			switch {
			case l.Plan.Status == cutting.Optimal:
				best++
			case l.LeastOfTimber && l.Plan.DrawnCM3 > least+near:
				ofTimber++
			default:
				without++
			}
			if !l.LeastOfTimber && len(ask.Have) == 0 && answer.Status == suggest.Optimal && l.Plan.Status != cutting.Optimal {
				t.Fatalf("a small job's plan is not proved the best plan of its timber: %+v", l.Plan)
			}
		}
	}
	t.Logf("%d plans the least of all, %d of their timber, %d else", best, ofTimber, without)
	if best < 50 || ofTimber < 20 {
		t.Error("too few of one sort")
	}
}

// Maple at 8 and at 12 percent: the layout takes the long piece at 8, and a plan of its
// pattern may open the short one, of which less is drawn; neither leaves a tail.
func TestPlanThatMoreTimberBetters(t *testing.T) {
	r := physics()
	a := suggest.New(60*mm, 22*mm, 450*mm)
	a.Widths, a.Strips, a.Layouts, a.Tolerance, a.Aim = []length.Length{30 * mm}, [2]int{2, 2}, 1, 0, suggest.Contrast
	piece := func(id, species string, long length.Length, percent float64) rack.Piece {
		return rack.Piece{ID: id, Species: species, Length: long, Width: 60 * mm, Thickness: 34 * mm, Quantity: 1, Moisture: pattern.Read(percent)}
	}
	a.Rack.Pieces = []rack.Piece{piece("W", "black_walnut", 520*mm, 8), piece("M", "hard_maple", 700*mm, 8), piece("N", "hard_maple", 520*mm, 12)}
	answer := solved(t, r, a)
	l := answer.Layouts[0]
	least := leastDrawn(t, a.Job(r, l))
	if l.Plan.Status != cutting.Feasible || !l.LeastOfTimber || l.Plan.LowerBoundCM3 > least+near || l.Plan.DrawnCM3 <= least+near {
		t.Errorf("%v, drawn %v, bound %v; the least is %v: must be feasible", l.Plan.Status, l.Plan.DrawnCM3, l.Plan.LowerBoundCM3, least)
	}
	a.Rack.Pieces = a.Rack.Pieces[:2]
	if l := solved(t, r, a).Layouts[0]; l.Plan.Status != cutting.Optimal || l.Plan.LowerBoundCM3 != l.Plan.DrawnCM3 {
		t.Errorf("%v, drawn %v, bound %v: must be optimal where there is no other maple", l.Plan.Status, l.Plan.DrawnCM3, l.Plan.LowerBoundCM3)
	}
}

func solved(t *testing.T, r movement.Physics, a suggest.Request) suggest.Result {
	t.Helper()
	answer, err := Solve(t.Context(), r, a, suggest.Options{})
	if err != nil || len(answer.Layouts) == 0 {
		t.Fatalf("%v, %d layouts", err, len(answer.Layouts))
	}
	return answer
}
