package search

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// Three maple and two walnut of 20 mm hang together and come to 100 mm; three beech at
// 12 percent are too moist to lie beside timber at 8. A piece 64 x 64 is 62 x 62 when
// trued: two slices of 26 with 2 between, each of two strips of 21 with 3.2 between.
func TestTooWide(t *testing.T) {
	have := func(species string, n int, percent float64) suggest.ReadyStrips {
		return suggest.ReadyStrips{Species: species, Width: 20 * mm, Count: n, Moisture: pattern.Read(percent), Source: species}
	}
	ready := []suggest.ReadyStrips{have("hard_maple", 3, 8), have("black_walnut", 2, 8), have("european_beech", 3, 12)}
	piece := func(id, species string) rack.Piece {
		return rack.Piece{ID: id, Species: species, Length: 500 * mm, Width: 64 * mm, Thickness: 64 * mm, Quantity: 1}
	}
	r := physics()
	for _, c := range []struct {
		width length.Length
		rough bool
		wide  bool
	}{
		{100 * mm, false, false}, {104 * mm, false, false}, {105 * mm, false, true}, {160 * mm, false, true},
		{164 * mm, true, false}, {165 * mm, true, true}, {400 * mm, true, true},
	} {
		a := suggest.New(c.width, 22*mm, 400*mm)
		if c.rough {
			a.Widths, a.Rack.Pieces = []length.Length{20 * mm}, []rack.Piece{piece("M", "hard_maple"), piece("W", "black_walnut")}
		} else {
			a.Have = ready
		}
		stop, release := stopAt(t.Context())
		s, err := newSearch(r, a, stop)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.tooWide(); got != c.wide {
			t.Errorf("%s wide, rough %v: too wide %v, must be %v", c.width, c.rough, got, c.wide)
		}
		answer, err := Solve(t.Context(), r, a, suggest.Options{})
		if err != nil || c.wide != (answer.Status == suggest.Infeasible) {
			t.Errorf("%s wide, rough %v: %v, %v", c.width, c.rough, answer.Status, err)
		}
		release()
	}
}

// Ten maple and two walnut of 20 mm are 240 mm of timber, but where no two maple may lie
// side by side three of them and the walnut are all that can be laid: 100 mm, and so it
// is for each number of strips that walnut may lie between.
func TestTooTight(t *testing.T) {
	r := physics()
	for walnut := 1; walnut <= 8; walnut++ {
		most := length.Length(2*walnut+1) * 20 * mm
		for _, width := range []length.Length{most, most + 4*mm, most + 5*mm, most + 20*mm} {
			a := suggest.New(width, 22*mm, 400*mm)
			a.Aim = suggest.UseUp
			a.Have = []suggest.ReadyStrips{{Species: "hard_maple", Width: 20 * mm, Count: 10, Source: "M"},
				{Species: "black_walnut", Width: 20 * mm, Count: walnut, Source: "W"}}
			stop, release := stopAt(t.Context())
			s, err := newSearch(r, a, stop)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := s.tooWide(), width > most+4*mm; got != want {
				t.Errorf("%d walnut, %s wide: too wide %v, must be %v", walnut, width, got, want)
			}
			release()
		}
	}
}
