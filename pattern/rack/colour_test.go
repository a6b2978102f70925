package rack

import (
	"testing"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
)

// The colour of a timber on the rack is the mean of its entries that have one, by volume.
func TestColour(t *testing.T) {
	pale, dark := species.RGB{R: 200, G: 170, B: 130}, species.RGB{R: 90, G: 60, B: 40}
	piece := func(id, timber string, quantity int, c colour.Own) Piece {
		return Piece{ID: id, Species: timber, Length: 500 * length.Millimetre, Width: 80 * length.Millimetre, Thickness: 40 * length.Millimetre, Quantity: quantity, Colour: c}
	}
	r := Rack{
		Pieces: []Piece{piece("P1", "pear", 1, colour.OwnOf(pale)), piece("P2", "pear", 5, colour.Own{}), piece("W1", "walnut", 1, colour.OwnOf(dark))},
		Strips: []Strip{{ID: "S1", Species: "pear", Length: 500 * length.Millimetre, Width: 80 * length.Millimetre, Thickness: 40 * length.Millimetre, Quantity: 3, Colour: colour.OwnOf(dark)}},
	}
	if got := r.Colour("walnut"); got != colour.OwnOf(dark) {
		t.Errorf("walnut is %v", got)
	}
	if got := r.Colour("ash"); got.Known {
		t.Errorf("ash is %v", got)
	}
	want := colour.MeanLab([]colour.Lab{pale.Lab(), dark.Lab()}, []float64{1, 3}).RGB()
	if got := r.Colour("pear"); got != colour.OwnOf(want) || got.RGB.Lightness() > 45 {
		t.Errorf("pear is %v, want %v", got, want)
	}
}

func TestSetColour(t *testing.T) {
	r := Rack{Strips: []Strip{{ID: "S1", Species: "pear", Length: 500 * length.Millimetre, Width: 80 * length.Millimetre, Thickness: 40 * length.Millimetre, Quantity: 3}}}
	c := colour.OwnOf(species.RGB{R: 200})
	got, err := r.SetColour("S1", c, "photo")
	if e, _ := got.Get("S1"); err != nil || e.Colour != c || e.From != "photo" {
		t.Errorf("%+v, %v", got, err)
	}
	if _, err := r.SetColour("S2", c, "photo"); err == nil {
		t.Error("S2 was coloured, which is not there")
	}
	if _, err := r.SetColour("S1", c, "a\x1b[2J"); err == nil {
		t.Error("a source with an escape is taken")
	}
}

// A typed line keeps the colour, unless it makes the entry another timber.
func TestKeeping(t *testing.T) {
	old := Entry{Piece: Piece{Species: "pear", Colour: colour.OwnOf(species.RGB{R: 200}), From: "photo"}}
	if got := (Entry{Piece: Piece{Species: "pear", Quantity: 2}}).Keeping(old); got.Colour != old.Colour || got.From != "photo" || got.Quantity != 2 {
		t.Errorf("%+v", got)
	}
	if got := (Entry{Piece: Piece{Species: "ash"}}).Keeping(old); got.Colour.Known || got.From != "" {
		t.Errorf("%+v", got)
	}
}
