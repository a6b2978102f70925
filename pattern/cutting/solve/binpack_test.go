package solve

import (
	"context"
	"math"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// u120_00 is an instance of one-dimensional bin packing: E. Falkenauer, "A hybrid
// grouping genetic algorithm for bin packing", Journal of Heuristics 2 (1996), as
// the OR-Library publishes it in binpack1.txt: 120 items, bins of 150. The optimum,
// published there and proved since, is 48 bins.
var u120_00 = []length.Length{
	42, 69, 67, 57, 93, 90, 38, 36, 45, 42, 33, 79, 27, 57, 44, 84, 86, 92, 46, 38, 85, 33, 82, 73, 49, 70, 59, 23, 57, 72,
	74, 69, 33, 42, 28, 46, 30, 64, 29, 74, 41, 49, 55, 98, 80, 32, 25, 38, 82, 30, 35, 39, 57, 84, 62, 50, 55, 27, 30, 36,
	20, 78, 47, 26, 45, 41, 58, 98, 91, 96, 73, 84, 37, 93, 91, 43, 73, 85, 81, 79, 71, 80, 76, 83, 41, 78, 70, 23, 42, 87,
	43, 84, 60, 55, 49, 78, 73, 62, 36, 44, 94, 69, 32, 96, 70, 84, 58, 78, 25, 80, 58, 66, 83, 24, 98, 60, 42, 43, 43, 39,
}

// TestPublishedBinPacking makes every item a strip's length and every bin a planed
// piece as wide and thick as a strip, without kerfs, from which nothing goes back.
func TestPublishedBinPacking(t *testing.T) {
	const capacity, optimum = 150, 48
	if len(u120_00) != 120 {
		t.Fatalf("%d items", len(u120_00))
	}
	job := cutting.Job{Shop: shop.Shop{
		Keep: shop.Keep{Length: 2 * length.Metre, Width: 2 * length.Metre, Thickness: 2 * length.Metre},
		Draw: shop.Draw{UseFirstPct: 100, TailsPct: 100, OpenedCM3: 40},
	}}
	p := pattern.Pattern{Panel: pattern.Panel{Length: 100 * mm, Thickness: 20 * mm}}
	for _, item := range u120_00 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "ash", Width: 20 * mm, Length: item * mm})
	}
	job.Patterns = []cutting.Demand{{Stem: "bins", Pattern: p, Copies: 1}}
	job.Rack.Pieces = []rack.Piece{{ID: "bin", Species: "ash", Length: capacity * mm, Width: 20 * mm, Thickness: 20 * mm, Planed: true, Quantity: 60}}
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	plan, err := Plan(ctx, job, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := cutting.Verify(job, plan); err != nil {
		t.Error(err)
	}
	// A bin draws its 60 cm3 and the 40 for opening it.
	if plan.Status != cutting.Optimal || plan.Short != 0 || len(plan.Cuts) != optimum || math.Abs(plan.DrawnCM3-100*optimum) > 1e-6 {
		t.Errorf("%v, %d short, %d bins, %v cm3, want optimal, 0, %d, %d", plan.Status, plan.Short, len(plan.Cuts), plan.DrawnCM3, optimum, 100*optimum)
	}
}
