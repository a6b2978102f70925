package worksteps

import (
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/rack"
)

// Dust is told of once, for all machines that the cuts need, the rest of every plan with cuts; a
// piece that was something before says so in its note.
func TestCares(t *testing.T) {
	plank := rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}
	always := []string{"metal", "grit", "eyes_ears", "guards", "dust_listed"}
	for _, c := range []struct {
		name   string
		change func(*rack.Piece)
		first  []string // beside what is always told
		dust   string   // where it is told of
	}{
		{"a plank", func(*rack.Piece) {}, nil, "truing, planing and ripping"},
		{"resawn", func(p *rack.Piece) { p.Thickness = 50 * mm }, nil, "truing, resawing, planing and ripping"},
		{"planed already", func(p *rack.Piece) { p.Thickness, p.Planed = 24*mm, true }, nil, "ripping"},
		{"fence posts", func(p *rack.Piece) { p.Note = "Fence posts, cleaned up" }, []string{"reclaimed"}, "truing, planing and ripping"},
		{"a pallet", func(p *rack.Piece) { p.Note = "off an old-ish pallet" }, []string{"reclaimed"}, "truing, planing and ripping"},
		{"bold figure, golden", func(p *rack.Piece) { p.Note = "bold figure, golden" }, nil, "truing, planing and ripping"},
	} {
		p := plank
		c.change(&p)
		job, plan := solvetest.OnePiece(p, 40*mm, 22*mm, 500*mm)
		var got []string
		for _, care := range Cares(job, plan) {
			if got = append(got, care.Rule); care.Rule == "dust" && care.At != c.dust {
				t.Errorf("%s: dust at %q, want %q", c.name, care.At, c.dust)
			}
			if strings.Contains(care.Message, "safe") || care.At == "" || strings.Contains(care.Message, ";") {
				t.Errorf("%s: %v", c.name, care)
			}
			if (care.Level == pattern.TakeCare) != (care.Rule == "reclaimed") {
				t.Errorf("%s: %s is told as %v", c.name, care.Rule, care.Level)
			}
		}
		if want := slices.Concat(c.first, always, []string{"dust", "stop_free"}); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", c.name, got, want)
		}
	}
	if got := Cares(cutting.Job{}, cutting.Plan{}); len(got) > 0 {
		t.Errorf("a plan without cuts has %v", got)
	}
}
