package work

import (
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/species"
)

func tellOf(j Job) []Entry {
	r := physics()
	return Report(r, j, Of(r, j), length.InMM)
}

// Every figure stands at its step with its source, every caution at its own step
// behind the figures of it, and the steps in the order of the work.
func TestLinesStandAtTheirStep(t *testing.T) {
	j := job(t, lantern())
	j.Due = pattern.Date{Year: 2026, Month: time.December, Day: 5}
	lines := tellOf(j)
	var steps []string
	for i, l := range lines {
		if len(steps) == 0 || steps[len(steps)-1] != l.Step {
			steps = append(steps, l.Step)
		}
		if l.Text == "" || l.Caution == (l.What != "") {
			t.Errorf("%+v", l)
		}
		if i > 0 && lines[i-1].Caution && !l.Caution && lines[i-1].Step == l.Step {
			t.Errorf("a figure behind the cautions of %s: %+v", l.Step, l)
		}
	}
	if want := []string{StepGlue, StepCut, StepSand, StepFinish, StepLabel, StepSale}; !slices.Equal(steps, want) {
		t.Errorf("steps %v, want %v", steps, want)
	}
	r := physics()
	for _, c := range Cautions(r, j, Of(r, j), length.InMM) {
		if !slices.ContainsFunc(lines, func(l Entry) bool { return l.Caution && l.Text == c.String() && l.Step == c.Step && l.Level == c.Level }) {
			t.Errorf("%+v stands nowhere", c)
		}
	}
	find := func(name string) Entry {
		t.Helper()
		for _, l := range lines {
			if l.Name() == name {
				return l
			}
		}
		t.Fatalf("no %q among the lines", name)
		return Entry{}
	}
	if l := find("glue, glue for all panels"); l.Text != "173 g" || l.Setting != "[glue] spread_g_m2, waste_percent" || !strings.Contains(l.Source, "common practice") {
		t.Errorf("%+v", l)
	}
	if l := find("last day to start"); !strings.HasPrefix(l.Text, "2026-11-24, to be ready before 2026-12-05: 1 day at the bench, 4 days for glue and its wait, ") {
		t.Errorf("%+v", l)
	}
	if l := find("price, labour"); !strings.Contains(l.Text, "no figure, no batch has its minutes") || l.Setting != "[price] rate_hour" {
		t.Errorf("%+v", l)
	}
}

// The mark-out in words has the numbers of the layout; what does not fit says what
// would do.
func TestMarkLines(t *testing.T) {
	j := with(t, job(t, lantern()), 3, 290*mm)
	j.Products[0].Bevel = 8 * mm
	all := strings.Join(Texts(MarkLines(physics(), j, length.InMM)), "\n")
	for _, want := range []string{
		"glue-up width: 299 mm",
		"measure: lengths from the near end of strip 7, which is 0 mm from the datum end",
		"product 1: round 290 mm, bevel 8 mm (under), 3 asked for, 2 placed; the panel is wide enough for 1 row",
		"product 1, copy 1, row 1: centre 150 mm along, 150 mm from the datum end, 149.5 mm from edge A; it can move 154 mm, to 304 mm along; held by strip 7",
		"product 1, copy 2, out of round, across the grain: -0.",
		"does not fit, product 1: 1 does not fit: panel too short by 152 mm",
		"blank 1, for product 1: 609 mm long and 299 mm wide, from 0 mm to 609 mm",
		"offcut: 159 mm long and 299 mm wide, from 601 mm to the far end, less the cut that frees it",
		"offcut still holds: no product",
	} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
	j.Layout.Left.Length = 0
	if all = strings.Join(Texts(MarkLines(physics(), j, length.InMM)), "\n"); !strings.Contains(all, "offcut: none behind the last product") || strings.Contains(all, "still holds") {
		t.Errorf("of nothing that is left:\n%s", all)
	}
	if j.Products = nil; !strings.Contains(strings.Join(Texts(MarkLines(physics(), Job{Pattern: j.Pattern}, length.InMM)), "\n"), "none listed") {
		t.Error("without products it does not say so")
	}
}

func TestParseAmount(t *testing.T) {
	for text, want := range map[string]float64{"45": 45, " 39.50 ": 39.5, "39,50": 39.5, "0.01": 0.01} {
		if got, err := ParseAmount(text); err != nil || got != want {
			t.Errorf("%q: %v, %v; want %v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "0", "-3", "1e3", "nan", "1.2.3", "12,345.6", "a lot", strings.Repeat("9", 400)} {
		if got, err := ParseAmount(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

// A block whose holes hold tea lights has the care text of candles, a board that of boards.
func TestCareTextByProduct(t *testing.T) {
	j := job(t, lantern())
	if text := labelText(Labels(species.Builtin(), j, length.InMM)[0]); !strings.Contains(text, "care: Wash with hot soapy water") {
		t.Errorf("a round has %s", text)
	}
	j.Products = []pattern.Product{{Shape: outline.Block, Length: 300 * mm, Width: 60 * mm, Count: 1, Hole: 41 * mm, Holes: 3, HoleDepth: 14 * mm}}
	if text := labelText(Labels(species.Builtin(), j, length.InMM)[0]); !strings.Contains(text, "raw meat") {
		t.Errorf("a block with holes for anything has %s", text)
	}
	j.Products[0].For = pattern.ForCandles
	if text := labelText(Labels(species.Builtin(), j, length.InInches)[0]); !strings.Contains(text, "metal or glass cup only, 4 in apart") {
		t.Errorf("in inches a candle block has %s", text)
	}
	text := labelText(Labels(species.Builtin(), j, length.InMM)[0])
	if !strings.Contains(text, "metal or glass cup only, 10 cm apart") || !strings.Contains(text, "unattended") || strings.Contains(text, "raw meat") {
		t.Errorf("a candle block has %s", text)
	}
}
