package stock

import (
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// Worked by hand. A strip of 20 takes 24.2 of a slice (1 for jointing, 3.2 of kerf) and
// one of 25 takes 29.2; a slice 90 wide has room for 93.2, since the last needs no kerf:
// three of 25 (87.6), or two of 25 and one of 20 (82.6), or three of 20 (72.6); never
// four. By width that is 75 at most.
func TestFillByHand(t *testing.T) {
	sizes := []length.Length{21 * mm, 26 * mm}
	kerf := 3200 * length.Micrometre
	for _, c := range []struct {
		whole  length.Length
		worths []int64
		want   int64
	}{
		{90 * mm, []int64{20, 25}, 75}, {90 * mm, []int64{1, 1}, 3},
		{69400 * length.Micrometre, []int64{20, 25}, 60}, // three of 20 are 72.6 with a kerf too many
		{69399 * length.Micrometre, []int64{20, 25}, 50},
		{20 * mm, []int64{20, 25}, 0},
	} {
		if got := fill(c.whole, kerf, sizes, c.worths); got != c.want {
			t.Errorf("%v: %d, want %d", c.whole, got, c.want)
		}
	}
}

// What can be cut, the capacity does not rule out: strips of two widths are taken as
// long as a whole plan of them is found.
func TestCapacityAgainstPlans(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 9))
	r := physics()
	sh := r.Shop()
	tight := 0
	for n := range 60 {
		p := rack.Piece{ID: "P", Species: "hard_maple", Length: length.Length(360+rng.IntN(700)) * mm,
			Width: length.Length(40+rng.IntN(80)) * mm, Thickness: length.Length(28+rng.IntN(50)) * mm, Quantity: 1, Planed: rng.IntN(6) == 0}
		panel := pattern.Panel{Length: 300 * mm, Thickness: 20 * mm, Make: pattern.Make(rng.IntN(2))}
		widths := []length.Length{length.Length(14+rng.IntN(10)) * mm, length.Length(24+rng.IntN(12)) * mm}
		job := cutting.Job{Rack: rack.Rack{Pieces: []rack.Piece{p}}, Shop: sh}
		var items []item
		ask := suggest.Request{Thickness: panel.Thickness, Length: panel.Length, Milling: suggest.Milling{Make: panel.Make}}
		s := Stock{request: ask, physics: r, stop: func() bool { return false }, needs: map[length.Length]cutting.Strip{}, Unseen: map[string]bool{}}
		for _, w := range widths {
			items = append(items, item{s.need(w), int64(w / mm)})
		}
		s.part()
		most, reached := s.capacity(s.sections(p), items), int64(0)
		var strips []pattern.Strip
		for tries := 0; tries < 2; {
			w := widths[rng.IntN(2)]
			next := append(strips[:len(strips):len(strips)], pattern.Strip{Species: "hard_maple", Width: w})
			job.Patterns = []cutting.Demand{{Stem: "x", Pattern: pattern.Pattern{Panel: panel, Strips: next}, Copies: 1}}
			plan, err := solve.Plan(t.Context(), job, solve.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if plan.Short > 0 {
				tries++
				continue
			}
			strips, reached = next, reached+int64(w/mm)
		}
		if reached > most {
			t.Fatalf("case %d: %d mm of strips can be cut, capacity %d\n%+v", n, reached, most, p)
		}
		if reached > 0 && reached == most {
			tight++
		}
	}
	if tight < 5 {
		t.Errorf("only %d capacities are reached", tight)
	}
}
