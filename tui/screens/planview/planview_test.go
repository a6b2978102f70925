package planview

import (
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/tui/screen"
)

// What a piece's name says in signs is said in words too.
func TestNamesAreExplained(t *testing.T) {
	for _, c := range []struct {
		part, whole    string
		copy, quantity int
		called, want   string
	}{
		{"HB1", "HB1", 1, 1, "HB1", ""},
		{"HB3", "HB3", 1, 2, "HB3 (1)", "first of 2 alike"},
		{"SC1/2", "SC1", 1, 1, "SC1/2", "clear part 2 of SC1"},
		{"A/1/3", "A/1", 11, 12, "A/1/3 (11)", "clear part 3 of A/1, number 11 of 12 alike"},
	} {
		d := worksteps.Detail{Cut: cutting.Cut{Piece: c.part, Copy: c.copy}}
		d.Piece.ID, d.Whole.ID, d.Whole.Quantity = c.part, c.whole, c.quantity
		if got := d.Name(); got != c.called {
			t.Errorf("%+v is called %q", c, got)
		}
		if got := explained(d); got != c.want {
			t.Errorf("%+v is explained as %q", c, got)
		}
	}
}

// Where room is short what is read last still has its own: words go first, then what
// comes out of a piece.
func TestColumnsLeaveRoomForWhatGoesBack(t *testing.T) {
	d := worksteps.Detail{Cut: cutting.Cut{Piece: "HB3", Copy: 1}}
	d.Whole.Quantity = 2
	for _, k := range []worksteps.LeftKind{worksteps.LeftTail, worksteps.LeftSlab, worksteps.LeftRip} {
		size := 23400 * length.Micrometre
		d.Back = append(d.Back, worksteps.Left{Kind: k, Piece: rack.Piece{Length: size, Width: size, Thickness: size}})
	}
	for i := range 4 {
		var strip worksteps.StripDetail
		strip.Length = length.Length(275+i) * length.Millimetre
		d.Sections = append(d.Sections, worksteps.SectionDetail{Slices: []worksteps.SliceDetail{{Strips: []worksteps.StripDetail{strip}}}})
	}
	var ctx screen.Context
	const goes = len("23.4 long, 23.4 thick, 23.4 wide")
	for w, want := range map[int]columns{
		98: {id: 7, out: widestOut, gap: "  ", goes: "back: "},
		77: {id: 7, out: 25, gap: " ", goes: "back: "},
		70: {id: 7, out: 18, gap: " ", goes: "back: "},
		50: {id: 7, out: leastOut, gap: " ", goes: "back: "},
	} {
		got := columnsOf([]worksteps.Detail{d}, w, ctx)
		if got != want {
			t.Errorf("in %d cells: %+v, want %+v", w, got, want)
		}
		if all := len("> HB") + got.id + got.out + 3*len(got.gap) + len(got.goes) + goes; all > w && got.out > leastOut {
			t.Errorf("in %d cells the row takes %d", w, all)
		}
	}
}
