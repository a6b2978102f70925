package solve

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
)

// Worked examples of the trade for resawing, common practice without a source: a blank
// of 54 gives floor((54 + 1.2) / (22 + 3 + 1.2)) = 2 pieces of 22 with 3 of planing and
// a kerf of 1.2; one of 52 sawn in two leaves (52 - 1.2) / 2 - 3 = 22.4 for each.
func TestResawOfTheTrade(t *testing.T) {
	for _, c := range []struct {
		name             string
		blank, thickness length.Length
		strips, come     int
	}{
		{"two of 22 from 54", 54 * mm, 22 * mm, 3, 2},
		{"two of 22.4 from 52", 52 * mm, 22400 * length.Micrometre, 2, 2},
		{"a micrometre more and there is one", 52 * mm, 22401 * length.Micrometre, 2, 1},
	} {
		s := shoptest.Roomy()
		s.Kerf.Resaw = 1200 * length.Micrometre
		s.Allowance = shop.Allowance{Planing: 3 * mm}
		p := pattern.Pattern{Panel: pattern.Panel{Length: 500 * mm, Thickness: c.thickness}}
		for range c.strips {
			p.Strips = append(p.Strips, pattern.Strip{Species: "oak", Width: 60 * mm})
		}
		// Without truing the blank counts as it is; one strip of a slice is
		// all that its width and length give.
		piece := rack.Piece{ID: "B", Species: "oak", Length: 520 * mm, Width: 70 * mm, Thickness: c.blank, Quantity: 1}
		plan := mustSolve(t, cutting.Job{Patterns: []cutting.Demand{{Stem: "p", Pattern: p, Copies: 1}}, Rack: rack.Rack{Pieces: []rack.Piece{piece}}, Shop: s})
		if got := c.strips - plan.Short; got != c.come {
			t.Errorf("%s: %d come out, want %d", c.name, got, c.come)
		}
	}
}
