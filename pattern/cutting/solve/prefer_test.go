package solve

import (
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

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
		plan, err := Plan(t.Context(), job, Options{})
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
