package gallery

import (
	"math"
	"slices"
	"testing"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// dark, near and pale are colours of boards of one timber: dark and near are less than 2
// apart, pale is far from both.
var dark, near, pale = species.RGB{R: 0x44, G: 0x2E, B: 0x22}, species.RGB{R: 0x46, G: 0x2F, B: 0x22}, species.RGB{R: 0x6B, G: 0x4C, B: 0x38}

// shadesAsk asks for a panel of walnut boards of these colours and of maple without one.
func shadesAsk() suggest.Request {
	a := suggest.New(225*mm, 20*mm, 300*mm)
	a.Widths, a.Strips = a.Widths[:0:0], [2]int{9, 9}
	a.Widths = append(a.Widths, 25*mm)
	add := func(id, timber string, own colour.Own) {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: id, Species: timber, Length: 340 * mm, Width: 60 * mm, Thickness: 52 * mm, Quantity: 1, Colour: own})
	}
	add("W1", "black_walnut", colour.OwnOf(dark))
	add("W2", "black_walnut", colour.OwnOf(pale))
	add("W3", "black_walnut", colour.OwnOf(near))
	add("W4", "black_walnut", colour.Own{})
	add("M1", "hard_maple", colour.Own{})
	add("M2", "hard_maple", colour.Own{})
	return a
}

// Boards of one timber part by colour: each strip comes from a board of its class and has the
// founder's colour, contrasts are those of the colours, and a timber that a wish is about is
// not parted.
func TestShades(t *testing.T) {
	r := physics()
	classes := map[string]colour.Own{"W1": colour.OwnOf(dark), "W3": colour.OwnOf(dark), "W2": colour.OwnOf(pale)}
	for name, change := range map[string]func(*suggest.Request){
		"the best":  func(*suggest.Request) {},
		"by looks":  func(a *suggest.Request) { a.Looks = []look.Look{look.Mirror, look.Any} },
		"a wish":    func(a *suggest.Request) { a.With = []string{"black_walnut"} },
		"symmetric": func(a *suggest.Request) { a.Symmetric = true },
	} {
		ask := shadesAsk()
		change(&ask)
		got, err := Solve(t.Context(), r, ask, suggest.Options{})
		if err != nil || got.Broken != nil || len(got.Layouts) == 0 {
			t.Errorf("%s: %v, %v, %d layouts", name, err, got.Broken, len(got.Layouts))
			continue
		}
		kinds := map[colour.Own]bool{}
		for _, l := range got.Layouts {
			least := math.Inf(1)
			var before species.RGB
			for i, p := range l.Strips {
				timber, ok := r.Table().Get(p.Species)
				if !ok {
					t.Fatalf("%s: a strip of %q", name, p.Species)
				}
				if want := classes[p.Source]; len(ask.With) == 0 && p.Colour != want {
					t.Errorf("%s: a strip from %s is %v, want %v", name, p.Source, p.Colour, want)
				}
				kinds[p.Colour] = true
				base := p.Colour.Or(timber.ColourOiled)
				if i > 0 {
					least = min(least, species.Contrast(before, base))
				}
				before = base
			}
			if math.Abs(least-l.SmallestContrast) > 1e-6 {
				t.Errorf("%s: contrast %.6f, said %.6f", name, least, l.SmallestContrast)
			}
			if l.Plan == nil || l.Plan.Short > 0 {
				t.Errorf("%s: no whole plan", name)
			}
			p := ask.Pattern(l)
			for i, s := range l.Strips {
				if p.Strips[i].Colour != s.Colour || p.Strips[i].Species != s.Species {
					t.Errorf("%s: strip %d goes to the bench as %+v", name, i+1, p.Strips[i])
				}
			}
			if level := suggest.LevelOf(r, p); level != l.Level {
				t.Errorf("%s: level %v, said %v", name, level, l.Level)
			}
		}
		if parted := len(ask.With) == 0; parted != (len(kinds) > 1) {
			t.Errorf("%s: colours %v", name, kinds)
		}
	}
}

// Shades are founded in the order of the rack, and move as one timber does.
func TestShadesOfARack(t *testing.T) {
	r, ask := physics(), shadesAsk()
	s, any := shaded(r, ask)
	if !any || !slices.Equal(s.of["black_walnut"], []species.RGB{dark, pale}) || len(s.of) != 1 {
		t.Fatalf("%v", s.of)
	}
	parted := s.request()
	var names []string
	for _, p := range parted.Rack.Pieces {
		names = append(names, p.Species)
	}
	if want := []string{"black_walnut/1", "black_walnut/2", "black_walnut/1", "black_walnut", "hard_maple", "hard_maple"}; !slices.Equal(names, want) {
		t.Errorf("%v, want %v", names, want)
	}
	if ask.Rack.Pieces[0].Species != "black_walnut" {
		t.Error("the request was written to")
	}
	p := ask.Pattern(suggest.Layout{Strips: []suggest.Placed{{Species: "black_walnut", Width: 25 * mm}, {Species: "black_walnut", Width: 12 * mm},
		{Species: "hard_maple", Width: 25 * mm}}})
	want := r.Panel(p).Lines()
	p.Strips[1].Species = "black_walnut/2"
	for i, line := range s.physics(r).Panel(p).Lines() {
		for season := range movement.Seasons() {
			if line.In[season].StepUM != want[i].In[season].StepUM || line.In[season].StrainPct != want[i].In[season].StrainPct {
				t.Errorf("line %d: %+v, want %+v", i+1, line.In, want[i].In)
			}
		}
	}
	ask.Rack.Pieces = ask.Rack.Pieces[3:]
	if _, any := shaded(r, ask); any {
		t.Error("a rack without colours is parted")
	}
}

// Layouts that differ in the boards of one timber alone are told apart by them.
func TestAgainstByColour(t *testing.T) {
	was := suggest.Layout{Strips: []suggest.Placed{{Species: "black_walnut", Width: 25 * mm, Colour: colour.OwnOf(dark)}, {Species: "hard_maple", Width: 25 * mm}}}
	now := suggest.Layout{Strips: slices.Clone(was.Strips)}
	if got := suggest.Against(was, now); got != "the same strips in another order" {
		t.Errorf("%q", got)
	}
	now.Strips[0].Colour = colour.OwnOf(pale)
	if got := suggest.Against(was, now); got != "the same timbers; 1 strip from boards of another colour" {
		t.Errorf("%q", got)
	}
}

// A layout that is taken has the colours of the boards that it counts on, also where a strip
// stays as it was.
func TestTakenWithItsColours(t *testing.T) {
	ask := shadesAsk()
	l := suggest.Layout{Strips: []suggest.Placed{{Species: "black_walnut", Width: 25 * mm, Colour: colour.OwnOf(pale)}, {Species: "hard_maple", Width: 25 * mm}}}
	p := ask.Pattern(l)
	p.Strips[0].Colour, p.Strips[0].Turned = colour.OwnOf(dark), true
	p.Strips[1].Colour = colour.OwnOf(near)
	got := ask.Take(p, l).Strips
	if got[0].Colour != colour.OwnOf(pale) || !got[0].Turned || got[1].Colour != colour.OwnOf(near) {
		t.Errorf("%+v", got)
	}
}
