package cutting

import (
	"fmt"
	"slices"
	"testing"
)

// The walks go through every strip once and stop where the caller does; what is short is
// told of by timber, in the order in which it comes.
func TestWalks(t *testing.T) {
	ref := func(n int) Ref { return Ref{Pattern: "tray", Copy: 1, Strip: n} }
	plan := Plan{
		Ready:   []Ready{{ID: "R1", Copy: 1, For: ref(1)}, {ID: "R2", Copy: 1, For: ref(2)}, {ID: "R1", Copy: 2, For: ref(3)}},
		Cuts:    []Cut{{Piece: "P", Copy: 1, Sections: []Section{{Slices: []Slice{{Strips: []Ref{ref(4)}}, {Strips: []Ref{ref(6), ref(5)}}}}, {Slices: []Slice{{Strips: []Ref{ref(7)}}}}}}},
		Missing: []Missing{{Ref: ref(8), Species: "elm"}, {Ref: ref(9), Species: "ash"}, {Ref: ref(10), Species: "elm"}},
	}
	var got []string
	for r, id := range plan.Served() {
		if r.Strip == 7 {
			break
		}
		got = append(got, fmt.Sprint(r.Strip, id))
	}
	if want := []string{"1R1", "2R2", "3R1", "4P", "6P", "5P"}; !slices.Equal(got, want) {
		t.Errorf("served: %v, want %v", got, want)
	}
	if text := plan.ShortText(func(key string) string { return "an " + key }); text != "2 of an elm, 1 of an ash" {
		t.Errorf("short: %q", text)
	}
	taken := plan.ReadyTaken()
	if !slices.Equal(taken.Keys(), []string{"R1", "R2"}) || !slices.Equal(taken.Of("R1"), []Ref{ref(1), ref(3)}) {
		t.Errorf("taken: %v", taken)
	}
}
