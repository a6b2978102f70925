package search

import (
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// Every plan of the search is lost, as where the time runs out: it gives up with nothing
// found, and since three strips of 20 mm can be had it can prove nothing either. It must
// still say something that would do, looser than what was asked for, and claim no more
// than that.
func TestLoosenWhereNothingIsProved(t *testing.T) {
	ask := suggest.New(60*mm, 20*mm, 400*mm)
	ask.Tolerance, ask.Widths, ask.Strips = 1*mm, []length.Length{20 * mm, 30 * mm}, [2]int{3, 3}
	for i, species := range []string{"hard_maple", "black_walnut"} {
		ask.Rack.Pieces = append(ask.Rack.Pieces, rack.Piece{ID: []string{"M1", "W1"}[i], Species: species,
			Length: 500 * mm, Width: 64 * mm, Thickness: 64 * mm, Quantity: 1})
	}
	if answer, err := Solve(t.Context(), physics(), ask, suggest.Options{}); err != nil || len(answer.Layouts) == 0 {
		t.Fatalf("%v, %v: with its plans it has a layout", answer.Status, err)
	}
	lost := 0
	answer, err := hooked(t, ask, hooks{lose: func() bool { lost++; return true }})
	if err != nil || answer.Status != suggest.Open || lost == 0 {
		t.Fatalf("%v, %d plans lost, %v", answer.Status, lost, err)
	}
	l := answer.Loosen
	if l == nil {
		t.Fatal("nothing to loosen")
	}
	wide, ok := loosened(l, suggest.OfTolerance)
	if l.Proved || !ok || wide.Tolerance <= ask.Tolerance {
		t.Fatalf("loosen %+v: want a tolerance above %v, and nothing proved", l, ask.Tolerance)
	}
	ask.Width, ask.Tolerance = ask.Width+wide.Tolerance, 0 // narrower three strips cannot be
	if more, err := Solve(t.Context(), physics(), ask, suggest.Options{}); err != nil || len(more.Layouts) == 0 {
		t.Errorf("a tolerance of %v was to do: %v, %v", wide.Tolerance, more.Status, err)
	}
}
