package prefer_test

import (
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

const mm = length.Millimetre

// Of two pieces alike, and of two ready strips, the one that was looked at serves a strip
// that asks for flat rings, whichever lies first; where nothing is asked for the first does.
func TestRecordedRingsArePreferred(t *testing.T) {
	for _, asked := range []pattern.Rings{{}, pattern.RingsFlat()} {
		piece := rack.Piece{ID: "A", Species: "european_beech", Length: 400 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 1}
		flat := piece
		flat.ID, flat.Rings = "B", pattern.RingsFlat()
		upright := piece
		upright.ID, upright.Rings = "C", pattern.RingsQuarter()
		lying := rack.Strip{ID: "S", Species: "hard_maple", Width: 20 * mm, Length: 400 * mm, Thickness: 30 * mm, Quantity: 1}
		looked := lying
		looked.ID, looked.Rings = "T", pattern.RingsFlat()
		p := pattern.Pattern{Panel: pattern.Panel{Length: 300 * mm, Thickness: 20 * mm}, Strips: []pattern.Strip{
			{Species: "european_beech", Width: 40 * mm, Rings: asked}, {Species: "hard_maple", Width: 20 * mm, Rings: asked}}}
		job := cutting.Job{Shop: shop.Default(), Patterns: []cutting.Demand{{Stem: "tray", Pattern: p, Copies: 1}},
			Rack: rack.Rack{Pieces: []rack.Piece{piece, upright, flat}, Strips: []rack.Strip{lying, looked}}}
		plan, err := solve.Plan(t.Context(), job, solve.Options{})
		if err != nil || plan.Short > 0 {
			t.Fatalf("%d short, %v", plan.Short, err)
		}
		var ids []string
		for _, id := range plan.Served() {
			ids = append(ids, id)
		}
		want := []string{"S", "A"}
		if asked.Known() {
			want = []string{"T", "B"}
		}
		if !slices.Equal(ids, want) {
			t.Errorf("asked for %v, %v serve, want %v", asked, ids, want)
		}
	}
}

// A tail that is credited in full costs nothing, so a long board draws what a short end
// does. Credited at 95 %, the end draws less: a twentieth of the half metre that its tail is
// shorter.
func TestShortEndsComeFirst(t *testing.T) {
	long := rack.Piece{ID: "A", Species: "european_beech", Length: 900 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 1}
	end := long
	end.ID, end.Length = "B", 400*mm
	job := cutting.Job{Shop: shop.Default(), Rack: rack.Rack{Pieces: []rack.Piece{long, end}}, Patterns: []cutting.Demand{{Stem: "tray", Copies: 1,
		Pattern: pattern.Pattern{Panel: pattern.Panel{Length: 300 * mm, Thickness: 20 * mm}, Strips: []pattern.Strip{{Species: "european_beech", Width: 40 * mm}}}}}}
	job.Shop.Keep.Length = 50 * mm
	drawn := map[string]float64{}
	for _, pct := range []float64{100, 95} {
		job.Shop.Draw.TailsPct = pct
		for _, only := range job.Rack.Pieces {
			alone := job
			alone.Rack.Pieces = []rack.Piece{only}
			plan, err := solve.Plan(t.Context(), alone, solve.Options{})
			if err != nil || plan.Short > 0 {
				t.Fatalf("%d short, %v", plan.Short, err)
			}
			drawn[only.ID] = plan.DrawnCM3
		}
		plan, err := solve.Plan(t.Context(), job, solve.Options{})
		if err != nil || len(plan.Cuts) != 1 {
			t.Fatalf("%+v, %v", plan.Cuts, err)
		}
		switch {
		case pct == 100 && drawn["A"] != drawn["B"]:
			t.Errorf("credited in full they draw %v and %v", drawn["A"], drawn["B"])
		case pct == 95 && (plan.Cuts[0].Piece != "B" || drawn["B"] >= drawn["A"]):
			t.Errorf("at 95 %% %s is opened; they draw %v and %v", plan.Cuts[0].Piece, drawn["A"], drawn["B"])
		}
	}
}
