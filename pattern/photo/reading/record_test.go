package reading_test

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo/reading"
	"example.com/oddments/species"
)

func TestTyped(t *testing.T) {
	if b, err := reading.ParseBox("1, 2,30,40"); err != nil || b != (reading.Box{X: 1, Y: 2, W: 30, H: 40}) || b.String() != "1,2,30,40" {
		t.Errorf("%v, %v", b, err)
	}
	for _, text := range []string{"", "1,2,3", "1,2,3,4,5", "-1,2,3,4", "1,2,3,x", "1,2,3,9999999", "1.5,2,3,4"} {
		if b, err := reading.ParseBox(text); err == nil {
			t.Errorf("%q is read as %v", text, b)
		}
	}
	if g, err := reading.ParseGrey("1,2,30,40@12.5"); err != nil || g.Percent != 12.5 || g.Box.W != 30 {
		t.Errorf("%v, %v", g, err)
	}
	if g, err := reading.ParseGrey("1,2,30,40"); err != nil || g.Percent != reading.UsualGrey {
		t.Errorf("%v, %v", g, err)
	}
	for _, text := range []string{"1,2,3@18", "1,2,30,40@", "1,2,30,40@0", "1,2,30,40@NaN", "1,2,30,40@96"} {
		if g, err := reading.ParseGrey(text); err == nil {
			t.Errorf("%q is read as %v", text, g)
		}
	}
	for _, s := range []reading.Surface{reading.Oiled, reading.Wetted, reading.Raw} {
		if got, err := reading.ParseSurface(s.String()); err != nil || got != s {
			t.Errorf("%v is read as %v, %v", s, got, err)
		}
	}
	for _, l := range []reading.Light{reading.Daylight, reading.Lamp} {
		if got, err := reading.ParseLight(l.String()); err != nil || got != l {
			t.Errorf("%v is read as %v, %v", l, got, err)
		}
	}
	for _, e := range []reading.Edition{reading.Edition2005, reading.Edition2014} {
		if got, err := reading.ParseEdition(e.String()); err != nil || got != e {
			t.Errorf("%v is read as %v, %v", e, got, err)
		}
	}
	_, surface := reading.ParseSurface("waxed")
	_, light := reading.ParseLight("flash")
	_, edition := reading.ParseEdition("1976")
	if surface == nil || light == nil || edition == nil {
		t.Error("what there is not is read")
	}
}

// What is kept says where it comes from; a raw colour is shifted as oil shifts its timber, and
// a timber's own is corrected without losing what else its maker set.
func TestRecord(t *testing.T) {
	day := pattern.Date{Year: 2026, Month: 11, Day: 14}
	r := reading.Record{Date: day, Method: reading.ByPaper, About: 4.56}
	if got := r.Piece(); got != "photo 2026-11-14, paper, daylight, about 4.6" {
		t.Errorf("%q", got)
	}
	walnut, _ := species.Builtin().Get("black_walnut")
	read := colour.Lab{L: 40, A: 9, B: 15}
	if got := r.Kept(read, walnut); got != read || r.Usual(walnut) != walnut.ColourOiled {
		t.Errorf("oiled is kept as %v", got)
	}
	raw := r
	raw.Surface, raw.Light = reading.Raw, reading.Lamp
	if got := raw.Kept(walnut.Colour.Lab(), walnut).RGB(); got != walnut.ColourOiled || raw.Usual(walnut) != walnut.Colour {
		t.Errorf("raw is kept as %v, want %v", got, walnut.ColourOiled)
	}
	if got := raw.Piece(); got != "photo 2026-11-14, paper, lamp, about 4.6, raw, shifted to oiled by its timber" {
		t.Errorf("%q", got)
	}
	own := []species.Species{{Key: "black_walnut", CR: 0.002, Sources: map[string]species.Source{"cr": species.ParseSource("mine")}}}
	got := r.Correct(own, "black_walnut", []colour.Lab{{L: 30}, {L: 40}})
	if len(got) != 1 || got[0].ColourOiled != (colour.Lab{L: 35}).RGB() || got[0].CR != 0.002 || len(got[0].Sources) != 2 ||
		got[0].Sources["colour_oiled"].Text != "photo 2026-11-14, 2 pieces, paper, daylight, about 4.6" || len(own[0].Sources) != 1 {
		t.Errorf("%+v", got)
	}
	got = raw.Correct(own, "pear", []colour.Lab{{L: 60}})
	if len(got) != 2 || got[1].Key != "pear" || got[1].Colour != (colour.Lab{L: 60}).RGB() || got[1].Sources["colour"].Status != species.Yours {
		t.Errorf("%+v", got)
	}
	r.Surface = reading.Wetted
	if got := r.Piece() + r.Timber(1); got != "photo 2026-11-14, paper, daylight, about 4.6, wettedphoto 2026-11-14, 1 piece, paper, daylight, about 4.6, wetted" {
		t.Errorf("%q", got)
	}
}
