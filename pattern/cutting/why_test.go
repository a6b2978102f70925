package cutting_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A tray of one beech strip, 25 wide, flat, in a panel 300 x 20. With allowances of 1 mm
// each for truing, planing, jointing and flattening, of 5 in length and at either end, a
// piece must have 23 of thickness, 27 of width and 315 of length.
func TestWhy(t *testing.T) {
	sh := shop.Default()
	sh.Allowance = shop.Allowance{Truing: mm, Planing: mm, Jointing: mm, Flattening: mm, Length: 5 * mm, EndTrim: 5 * mm}
	job := cutting.Job{Shop: sh, Patterns: []cutting.Demand{{Stem: "tray", Copies: 1, Pattern: pattern.Pattern{
		Panel:  pattern.Panel{Length: 300 * mm, Thickness: 20 * mm},
		Strips: []pattern.Strip{{Species: "european_beech", Width: 25 * mm, Rings: pattern.RingsFlat()}}}}}}
	good := rack.Piece{Species: "european_beech", Length: 315 * mm, Width: 27 * mm, Thickness: 23 * mm, Quantity: 1, Rings: pattern.RingsFlat()}
	for _, c := range []struct {
		name   string
		change func(*rack.Entry)
		want   cutting.Reason
		short  length.Length
		words  string
	}{
		{"just enough", func(*rack.Entry) {}, cutting.Gives, 0, "serves"},
		{"another timber", func(e *rack.Entry) { e.Species = "wenge" }, cutting.OtherTimber, 0, "no strip is of this timber"},
		{"thin", func(e *rack.Entry) { e.Thickness -= 2 * mm }, cutting.TooThin, 2 * mm, "2 mm too thin; smaller allowances for truing, planing and flattening would help"},
		{"far too thin", func(e *rack.Entry) { e.Thickness -= 9 * mm }, cutting.TooThin, 9 * mm, "9 mm too thin"},
		{"narrow", func(e *rack.Entry) { e.Width -= 3 * mm }, cutting.TooNarrow, 3 * mm, "3 mm too narrow"},
		{"short", func(e *rack.Entry) { e.Length -= 5 * mm }, cutting.TooShort, 5 * mm, "5 mm too short"},
		{"rings", func(e *rack.Entry) { e.Rings = pattern.RingsRift() }, cutting.OtherRings, 0, "other rings: recorded as rift"},
		{"nobody has looked", func(e *rack.Entry) { e.Rings = pattern.Rings{} }, cutting.Gives, 0, "serves"},
		{"a split in the middle", func(e *rack.Entry) { e.Faults = []rack.Fault{{From: 100 * mm, To: 200 * mm}} }, cutting.LiesInTheFault, 0, "what is clear of its faults is too small"},
		{"all of it a fault", func(e *rack.Entry) { e.Faults = []rack.Fault{{To: 315 * mm}} }, cutting.LiesInTheFault, 0, "what is clear of its faults is too small"},
		{"a ready strip of another width", func(e *rack.Entry) { e.Ready, e.Width = true, 27*mm }, cutting.TooNarrow, 2 * mm, "its width is 2 mm off"},
		{"a ready strip", func(e *rack.Entry) { e.Ready, e.Width = true, 25*mm }, cutting.Gives, 0, "serves"},
	} {
		e := rack.Entry{Piece: good}
		c.change(&e)
		got := cutting.Why(job, e)
		if got.Reason != c.want || got.Short != c.short || got.Words(length.InMM) != c.words {
			t.Errorf("%s: %v, %v, %q; want %v, %v, %q", c.name, got.Reason, got.Short, got.Words(length.InMM), c.want, c.short, c.words)
		}
	}
}

// What the planner says that an entry gives alone, and why it gives nothing, agree.
func TestWhyAgreesWithTheYield(t *testing.T) {
	none := 0
	for seed := range uint64(40) {
		job := solvetest.RandomJob(seed, 30, 20, 3)
		_, yields, err := solve.Yields(t.Context(), job)
		if err != nil {
			t.Fatal(err)
		}
		gives := map[string]int{}
		for _, y := range yields {
			gives[y.ID] = y.Strips
		}
		for _, e := range job.Rack.Entries() {
			miss := cutting.Why(job, e)
			n, asked := gives[e.ID]
			if (miss.Reason == cutting.Gives) != (n > 0) || asked == (miss.Reason == cutting.OtherTimber) {
				t.Fatalf("seed %d, %s: gives %d, %v\n%+v", seed, e.ID, n, miss.Reason, e)
			}
			if n == 0 {
				none++
			}
		}
	}
	if none < 20 {
		t.Errorf("only %d entries give nothing", none)
	}
}
