package rackview_test

import (
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/rackview"
)

func own(t *testing.T, pieces ...rack.Piece) *screentest.Driver {
	t.Helper()
	ctx := screentest.Demo(t, rackview.Screen{}.Keys()...)
	ctx.Rack, ctx.RackDemo = rack.Rack{Pieces: pieces}, false
	return screentest.Drive(t, rackview.Screen{}, ctx)
}

func pear(id string, quantity int) rack.Piece {
	const mm = length.Millimetre
	return rack.Piece{ID: id, Species: "pear", Length: 600 * mm, Width: 80 * mm, Thickness: 40 * mm, Quantity: quantity, Rings: pattern.Rings{}}
}

// A pile is typed line after line until the field is closed; each line is a piece.
func TestTypingAPile(t *testing.T) {
	d := own(t)
	for _, key := range []string{"t", "x", "f", "g"} {
		if d.Do(key); !strings.HasPrefix(d.Said, "the rack is empty") {
			t.Errorf("%s on an empty rack: %q", key, d.Said)
		}
	}
	d.Do("a")
	d.Type("pear 600 80 40 planed x3 first")
	d.Type("hornbeam 500 60 30 split 0-40 9.1%")
	d.Press(tea.KeyMsg{Type: tea.KeyEsc})
	if d.Over() != "" || len(d.Ctx.Rack.Pieces) != 2 {
		t.Fatalf("%+v, and over it\n%s", d.Ctx.Rack.Pieces, d.Over())
	}
	a, b := d.Ctx.Rack.Pieces[0], d.Ctx.Rack.Pieces[1]
	if a.Species != "pear" || a.Quantity != 3 || !a.Planed || !a.UseFirst || b.Species != "hornbeam" || len(b.Faults) != 1 || b.Moisture.Percent != 9.1 {
		t.Errorf("%+v, %+v", a, b)
	}
	if !strings.HasPrefix(d.Said, "on the rack: ") {
		t.Errorf("said %q", d.Said)
	}
	d.Shows("PE1", "HB1")
}

// The first piece of the maker's own takes the place of the demo's rack.
func TestOwnRackBegins(t *testing.T) {
	ctx := screentest.Demo(t, rackview.Screen{}.Keys()...)
	ctx.RackDemo = true
	d := screentest.Drive(t, rackview.Screen{}, ctx)
	d.Do("a")
	d.Type("pear 600 80 40")
	if len(d.Ctx.Rack.Pieces) != 1 || d.Ctx.RackDemo {
		t.Errorf("%d pieces, the demo's: %t", len(d.Ctx.Rack.Pieces), d.Ctx.RackDemo)
	}
}

// What cannot be read stays in the field, which says what is wanting.
func TestTypingRefuses(t *testing.T) {
	for _, c := range []struct{ typed, says string }{{"pear 600", "width?"}, {"pear 600 80 40 spotted", "spotted"}, {"nosuch 600 80 40", "nosuch"}} {
		d := own(t)
		d.Do("a")
		if d.Type(c.typed); len(d.Ctx.Rack.Pieces) != 0 || !strings.Contains(d.Over(), c.says) {
			t.Errorf("%q: %+v,\n%s", c.typed, d.Ctx.Rack.Pieces, d.Over())
		}
	}
}

// Pieces are changed, marked, used one by one and taken off.
func TestPiecesByKeys(t *testing.T) {
	d := own(t, pear("PE1", 3))
	piece := func() rack.Piece { p, _ := d.Ctx.Rack.Get("PE1"); return p.Piece }
	if d.Do("f"); !piece().UseFirst {
		t.Error("it is not to be used first")
	}
	for _, want := range []pattern.Rings{pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter(), {}} {
		if d.Do("g"); piece().Rings != want {
			t.Errorf("rings %v, want %v", piece().Rings, want)
		}
	}
	if d.Do("-"); piece().Quantity != 2 {
		t.Errorf("%d are left of 3 of which one was used", piece().Quantity)
	}
	d.Do("t")
	if n := len(d.Ctx.Rack.Pieces); n != 2 || d.Ctx.Rack.Pieces[1].ID == "PE1" {
		t.Errorf("another: %+v", d.Ctx.Rack.Pieces)
	}
	d.Do("e")
	d.Type("pear 450 70 35")
	changed := 0
	for _, p := range d.Ctx.Rack.Pieces {
		if p.Length == 450*length.Millimetre {
			changed++
		}
	}
	if changed != 1 {
		t.Errorf("changed: %+v; %q", d.Ctx.Rack.Pieces, d.Refuse)
	}
	d.Do("x", "x")
	if len(d.Ctx.Rack.Pieces) != 0 {
		t.Errorf("used up: %+v", d.Ctx.Rack.Pieces)
	}
}

// A filter hides pieces and says so; an empty line shows all again.
func TestFilter(t *testing.T) {
	beech := pear("EB1", 1)
	beech.Species = "european_beech"
	d := own(t, pear("PE1", 1), beech)
	d.Do("w")
	d.Type("pear")
	if drawn := d.Draw(80, 22); !strings.Contains(drawn, "PE1") || strings.Contains(drawn, "EB1") {
		t.Errorf("pear alone:\n%s", drawn)
	}
	d.Do("w")
	d.Type("cherry")
	if d.Do("x"); len(d.Ctx.Rack.Pieces) != 2 || !strings.HasPrefix(d.Said, "no piece shown") {
		t.Errorf("nothing shown: %q, %d pieces", d.Said, len(d.Ctx.Rack.Pieces))
	}
	d.Do("w")
	d.Type("")
	d.Shows("PE1", "EB1")
}

// The order goes round, and the chosen piece stays chosen.
func TestOrders(t *testing.T) {
	d := own(t, pear("PE1", 1), pear("PE2", 5))
	d.Do("down")
	chosen, _ := d.Screen.(rackview.Screen).Chosen(d.Ctx)
	for range rack.Orders() {
		d.Do("o")
		if now, _ := d.Screen.(rackview.Screen).Chosen(d.Ctx); now.ID != chosen.ID {
			t.Errorf("in another order %s is chosen and no more %s", now.ID, chosen.ID)
		}
	}
	if d.Screen.(rackview.Screen).Order != rack.Orders()[0] {
		t.Error("the orders do not go round")
	}
}

// What the rack yields is computed beside the screen, and shown when it has come.
func TestYields(t *testing.T) {
	ctx := screentest.Demo(t, rackview.Screen{}.Keys()...)
	ctx.Beside.Solve = screen.Searching()
	d := screentest.Drive(t, rackview.Screen{}, ctx)
	before := d.Draw(80, 22)
	d.Work()
	after := d.Draw(80, 22)
	if counts := strings.Count(after, "gives ") - strings.Count(before, "gives "); counts < 5 {
		t.Errorf("%d pieces say what they give:\n%s", counts, after)
	}
	d.Ctx.Stamp.Rack++
	if older := d.Draw(80, 22); strings.Count(older, "gives ") != strings.Count(before, "gives ") {
		t.Errorf("counts of an older state are shown:\n%s", older)
	}
}

// A shop name that may mean several timbers is asked about once, by digit: from then on it is
// the one that was meant last, or that lies on the rack. A name that only ends so is none of
// them, and the demo's timbers decide nothing.
func TestShopNameIsAskedOnce(t *testing.T) {
	ctx := screentest.Demo(t, rackview.Screen{}.Keys()...)
	ctx.RackDemo = true
	ctx.Rack = rack.Rack{Pieces: []rack.Piece{pear("A", 1), {ID: "B", Species: "black_walnut", Length: 1, Width: 1, Thickness: 1, Quantity: 1}}}
	d := screentest.Drive(t, rackview.Screen{}, ctx)
	species := func(want ...string) {
		t.Helper()
		var got []string
		for _, p := range d.Ctx.Rack.Pieces {
			got = append(got, p.Species)
		}
		if !slices.Equal(got, want) {
			t.Errorf("on the rack lies %v, want %v", got, want)
		}
	}
	d.Do("a")
	if d.Type("walnut 620 85"); !strings.Contains(d.Over(), "walnut, which is asked next: 620 x 85 thickness?") {
		t.Errorf("before the line is whole:\n%s", d.Over())
	}
	d.Type("walnut 620 85 77 flat")
	over := d.Over()
	if !strings.Contains(over, "which walnut is it?") || !strings.Contains(over, "> 1 #### black walnut") || strings.Contains(over, "ipe") {
		t.Fatalf("asked is\n%s", over)
	}
	d.Press(tea.KeyMsg{Type: tea.KeyEsc})
	d.Do("a")
	d.Press(tea.KeyMsg{Type: tea.KeyUp}) // the line is not lost
	d.Press(tea.KeyMsg{Type: tea.KeyEnter})
	d.Press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("9")})
	d.Press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("2")})
	species("european_walnut")
	d.Type("walnut 500 80 40")
	species("european_walnut", "european_walnut")
	d.Type("black walnut 500 80 40")
	d.Type("walnut 400 80 40") // as typed last
	d.Type("cherry 300 60 30")
	d.Press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("1")})
	species("european_walnut", "european_walnut", "black_walnut", "black_walnut", "black_cherry")

	// Another day it is what lies on the rack; where both do, it is asked again.
	next := own(t, d.Ctx.Rack.Pieces[0])
	next.Do("a")
	next.Type("walnut 500 80 40")
	if got := next.Ctx.Rack.Pieces[1].Species; got != "european_walnut" {
		t.Errorf("beside European walnut, walnut is %s", got)
	}
	both := own(t, d.Ctx.Rack.Pieces...)
	both.Do("a")
	if both.Type("walnut 500 80 40"); !strings.Contains(both.Over(), "which walnut is it?") {
		t.Errorf("where both lie on the rack:\n%s", both.Over())
	}
}
