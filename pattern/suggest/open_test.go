package suggest

import (
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// Four billets and three widths, where only cutting tells what they yield: the search
// gives up with nothing found and nothing proved. It must still say something that
// would do, looser than what was asked for, and claim no more than that.
func TestLoosenWhereNothingIsProved(t *testing.T) {
	if testing.Short() {
		t.Skip("a search that gives up takes some seconds")
	}
	ask := New(460*mm, 20*mm, 400*mm)
	ask.Tolerance, ask.Widths = 1*mm, []length.Length{19 * mm, 23 * mm, 31 * mm}
	for _, p := range []rack.Piece{
		{ID: "M1", Species: "hard_maple", Length: 500 * mm, Width: 64 * mm, Thickness: 64 * mm},
		{ID: "W1", Species: "black_walnut", Length: 500 * mm, Width: 64 * mm, Thickness: 64 * mm},
		{ID: "C1", Species: "black_cherry", Length: 700 * mm, Width: 74 * mm, Thickness: 60 * mm},
		{ID: "A1", Species: "white_ash", Length: 520 * mm, Width: 71 * mm, Thickness: 58 * mm},
	} {
		p.Quantity = 1
		ask.Rack.Pieces = append(ask.Rack.Pieces, p)
	}
	answer, err := Solve(t.Context(), reckoner(), ask, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if answer.Status != Open {
		t.Fatalf("%v: the search has grown better; seek another panel that it gives up on", answer.Status)
	}
	l := answer.Loosen
	if l == nil || l.Proved || l.Tolerance == nil || *l.Tolerance <= ask.Tolerance {
		t.Fatalf("loosen %+v: want a tolerance above %v, and nothing proved", l, ask.Tolerance)
	}
	ask.Tolerance = *l.Tolerance
	if more, err := Solve(t.Context(), reckoner(), ask, Options{}); err != nil || len(more.Layouts) == 0 {
		t.Errorf("a tolerance of %v was to do: %v, %v", ask.Tolerance, more.Status, err)
	}
}
