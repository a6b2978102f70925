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

// Dust is told of at each machine that the cuts need, the rest of every plan with cuts; a
// piece that was something before says so in its note.
func TestCares(t *testing.T) {
	plank := rack.Piece{Length: 600 * mm, Width: 60 * mm, Thickness: 30 * mm}
	always := []string{"metal", "grit", "eyes_ears", "guards", "dust_listed"}
	for _, c := range []struct {
		name        string
		change      func(*rack.Piece)
		first, dust []string // beside what is always told
	}{
		{"a plank", func(*rack.Piece) {}, nil, []string{"dust_true", "dust_plane", "dust_rip"}},
		{"resawn", func(p *rack.Piece) { p.Thickness = 50 * mm }, nil, []string{"dust_true", "dust_resaw", "dust_plane", "dust_rip"}},
		{"planed already", func(p *rack.Piece) { p.Thickness, p.Planed = 24*mm, true }, nil, []string{"dust_rip"}},
		{"fence posts", func(p *rack.Piece) { p.Note = "Fence posts, cleaned up" }, []string{"reclaimed"}, []string{"dust_true", "dust_plane", "dust_rip"}},
		{"a pallet", func(p *rack.Piece) { p.Note = "off an old-ish pallet" }, []string{"reclaimed"}, []string{"dust_true", "dust_plane", "dust_rip"}},
		{"bold figure, golden", func(p *rack.Piece) { p.Note = "bold figure, golden" }, nil, []string{"dust_true", "dust_plane", "dust_rip"}},
	} {
		p := plank
		c.change(&p)
		job, plan := solvetest.OnePiece(p, 40*mm, 22*mm, 500*mm)
		var got []string
		for _, care := range Cares(job, plan) {
			got = append(got, care.Rule)
			if strings.Contains(care.Message, "safe") || care.At == "" || strings.Contains(care.Message, ";") {
				t.Errorf("%s: %v", c.name, care)
			}
			if (care.Level == pattern.TakeCare) != (care.Rule == "reclaimed") {
				t.Errorf("%s: %s is told as %v", c.name, care.Rule, care.Level)
			}
		}
		if want := slices.Concat(c.first, always, c.dust, []string{"stop_free"}); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", c.name, got, want)
		}
	}
	if got := Cares(cutting.Job{}, cutting.Plan{}); len(got) > 0 {
		t.Errorf("a plan without cuts has %v", got)
	}
}
