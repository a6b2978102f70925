package tell_test

import (
	"fmt"
	"slices"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

func TestTurnsOfSpeech(t *testing.T) {
	const mm = length.Millimetre
	for got, want := range map[string]string{
		tell.Count(1, "glue line"):                   "1 glue line",
		tell.Count(0, "strip"):                       "0 strips",
		tell.Count(2, "copy"):                        "2 copies",
		tell.Count(3, "day"):                         "3 days",
		tell.Count(4, "pass"):                        "4 passes",
		tell.Count(5, "batch"):                       "5 batches",
		tell.Times(1) + " " + tell.Times(3):          "once 3 times",
		tell.Numbered("strip", []int{4}):             "strip 4",
		tell.Numbered("strip", []int{2, 5}):          "strips 2, 5",
		tell.Size(length.InMM, 620*mm, 85*mm):        "620 x 85 mm",
		tell.Size(length.InInches, 254*mm):           "10 in",
		tell.Lengths(length.InMM, 24*mm, 18*mm+mm/2): "24, 18.5 mm",
	} {
		if got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What goes by one key stands together, in the order in which the keys came.
func TestGroups(t *testing.T) {
	var g tell.Groups[string, int]
	for i, k := range []string{"b", "a", "b", "c", "a"} {
		g.Add(k, i)
	}
	var got []string
	for k, of := range g.All() {
		got = append(got, fmt.Sprint(k, of))
		if k == "a" {
			break
		}
	}
	if want := []string{"b[0 2]", "a[1 4]"}; !slices.Equal(got, want) {
		t.Errorf("%v, want %v", got, want)
	}
	if !slices.Equal(g.Keys(), []string{"b", "a", "c"}) || !slices.Equal(g.Of("c"), []int{3}) {
		t.Errorf("%v, c: %v", g.Keys(), g.Of("c"))
	}
}

func TestRuns(t *testing.T) {
	for want, numbers := range map[string][]int{
		"": nil, "3": {3}, "3, 4": {3, 4}, "1 to 3, 7, 9, 10": {1, 2, 3, 7, 9, 10}, "2, 4 to 7": {2, 4, 5, 6, 7},
	} {
		if got := tell.Runs(numbers); got != want {
			t.Errorf("%v: %q, want %q", numbers, got, want)
		}
	}
}
