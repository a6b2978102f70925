package solve

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
)

// smallJob draws a job of some ten strips of one timber.
func smallJob(seed uint64) cutting.Job {
	rng := rand.New(rand.NewPCG(seed, 5))
	job := cutting.Job{Shop: solvetest.RandomShop(rng)}
	for i := range 1 + rng.IntN(2) {
		p := pattern.Pattern{Panel: pattern.Panel{
			Length: []length.Length{240, 280, 320}[rng.IntN(3)] * mm, Thickness: []length.Length{18, 22}[rng.IntN(2)] * mm, Make: pattern.Make(rng.IntN(2)),
		}}
		for range 2 {
			s := pattern.Strip{Species: "oak", Width: []length.Length{20, 25, 35}[rng.IntN(3)] * mm}
			if rng.IntN(3) == 0 {
				s.Length = p.Panel.Length * 9 / 10
			}
			for range 2 + rng.IntN(3) {
				p.Strips = append(p.Strips, s)
			}
		}
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprintf("p%d", i+1), Pattern: p, Copies: 1})
	}
	for pieces := 2 + rng.IntN(6); len(job.Rack.Pieces) < pieces; {
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{
			ID: fmt.Sprintf("r%d", len(job.Rack.Pieces)+1), Species: "oak", Quantity: 1, Planed: rng.IntN(5) == 0, UseFirst: rng.IntN(4) == 0,
			Length: length.Length(280+rng.IntN(500)) * mm, Width: length.Length(36+rng.IntN(50)) * mm, Thickness: length.Length(24+rng.IntN(30)) * mm,
		})
	}
	for i := range rng.IntN(3) {
		job.Rack.Strips = append(job.Rack.Strips, rack.Strip{
			ID: fmt.Sprintf("s%d", i+1), Species: "oak", Quantity: 1 + rng.IntN(2), Thickness: 24 * mm,
			Width: []length.Length{20, 25, 35}[rng.IntN(3)] * mm, Length: []length.Length{230, 260, 330}[rng.IntN(3)] * mm,
		})
	}
	return job
}

// A board of 8 cherry strips 22 wide and 2 of maple, 22 thick, 450 long, made once.
// By the default workshop a strip takes 23 across, 26 of thickness and 470 of length.
func TestYields(t *testing.T) {
	const mm = length.Millimetre
	p := pattern.Pattern{Panel: pattern.Panel{Length: 450 * mm, Thickness: 22 * mm}}
	for i := range 10 {
		s := pattern.Strip{Species: "black_cherry", Width: 22 * mm}
		if i%5 == 2 {
			s.Species = "hard_maple"
		}
		p.Strips = append(p.Strips, s)
	}
	piece := func(id, species string, l, w, t length.Length, planed bool) rack.Piece {
		return rack.Piece{ID: id, Species: species, Length: l, Width: w, Thickness: t, Quantity: 1, Planed: planed}
	}
	job := cutting.Job{
		Patterns: []cutting.Demand{{Stem: "one", Pattern: p, Copies: 1}}, Shop: shoptest.Roomy(),
		Rack: rack.Rack{
			Pieces: []rack.Piece{
				// 88 - 2 across: 3 strips with 2 kerfs are 75.4, 4 would be 101.6;
				// 77 - 2 thick: 2 slices and a cut are 54, 3 would be 82; one section of 470.
				piece("A", "black_cherry", 620*mm, 88*mm, 77*mm, false),
				piece("B", "black_cherry", 489*mm, 88*mm, 77*mm, false), // 1 mm short of its end trims
				// Planed to 24: one slice, 100 across gives 3 (75.4), and two sections are
				// 943.2 with the kerf.
				piece("C", "black_cherry", 1000*mm, 100*mm, 24*mm, true),
				piece("D", "iroko", 620*mm, 88*mm, 77*mm, false), // nobody asks for it
			},
			Strips: []rack.Strip{{ID: "M", Species: "hard_maple", Width: 22 * mm, Thickness: 24 * mm, Length: 470 * mm, Quantity: 1}},
		},
	}
	supplies, yields, err := Yields(t.Context(), job)
	if err != nil {
		t.Fatal(err)
	}
	if want := []Yield{{ID: "A", Strips: 6}, {ID: "B"}, {ID: "C", Strips: 6}, {ID: "M", Strips: 1}}; !slices.Equal(yields, want) {
		t.Errorf("yields %v, want %v", yields, want)
	}
	if want := []Supply{{Species: "black_cherry", Need: 8, Have: 12}, {Species: "hard_maple", Need: 2, Have: 1}}; !slices.Equal(supplies, want) {
		t.Errorf("supplies %v, want %v", supplies, want)
	}
	if got := []int{supplies[0].Short(), supplies[1].Short()}; !slices.Equal(got, []int{0, 1}) {
		t.Errorf("short %v, want 0 and 1", got)
	}

	// With no time at all nothing is known, and nothing is said to be short.
	none, stop := context.WithCancel(t.Context())
	stop()
	if supplies, yields, err = Yields(none, job); err != nil {
		t.Fatal(err)
	}
	for _, y := range yields {
		if !y.AtLeast || y.Strips != 0 {
			t.Errorf("with no time %+v is known", y)
		}
	}
	for _, s := range supplies {
		if !s.AtLeast || s.Short() != 0 {
			t.Errorf("with no time %+v is %d short", s, s.Short())
		}
	}
}

// No entry gives more than is asked for, and a plan of the whole rack is never shorter
// than what the entries give together.
func TestYieldsAndPlansAgree(t *testing.T) {
	for seed := range uint64(60) {
		job := smallJob(seed)
		supplies, yields, err := Yields(t.Context(), job)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := Plan(t.Context(), job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		short := map[string]int{}
		for _, m := range plan.Missing {
			short[m.Species]++
		}
		for _, s := range supplies {
			if short[s.Species] < s.Short() {
				t.Errorf("seed %d: %s: the plan is %d short, the entries at least %d", seed, s.Species, short[s.Species], s.Short())
			}
		}
		for _, y := range yields {
			if y.Strips < 0 || y.Strips > len(cutting.Needs(job)) {
				t.Errorf("seed %d: %s gives %d of %d", seed, y.ID, y.Strips, len(cutting.Needs(job)))
			}
		}
	}
}

// The rack's screen asks for this whenever the rack changes; the budget is 0.2 s, in the
// background.
func BenchmarkYields(b *testing.B) {
	job := solvetest.RandomJob(1, 60, 40, 4)
	for b.Loop() {
		if _, _, err := Yields(b.Context(), job); err != nil {
			b.Fatal(err)
		}
	}
}
