package check_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/relief"
	"example.com/oddments/pattern/shop/shoptest"
)

// The turn that is offered is the best of all, made as it says, and leaves the gap that it
// says.
func TestTurnMendsLeaningStrips(t *testing.T) {
	p := panel(leaning(-1), leaning(1), leaning(-1), leaning(1))
	found := by(check.Of(physics(), p, length.InMM), "lean")
	if len(found) != 3 || !strings.Contains(found[1].Message, "valley") {
		t.Fatalf("%+v", found)
	}
	for _, f := range found {
		equal(t, "remedies", len(f.Remedies()), 1)
		m := f.Remedies()[0]
		equal(t, "text", m.Between(), "turn strip 2 end for end: gap under a straightedge about 163 to 80 um, on the underside about 238 to 332 um")
		turned, err := m.Apply(edit.New(p), check.Allowances(shoptest.Roomy()))
		if err != nil {
			t.Fatal(err)
		}
		equal(t, "the strip that is turned", turned.Pattern.Strips[1].Bark, pattern.Bark{Right: -1, Up: 1})
		gap := 0.0
		for _, s := range relief.Of(physics(), turned.Pattern, relief.Wetter{}).Seasons() {
			gap = max(gap, s.GapTopUM)
		}
		equal(t, "gap", length.StepValue(gap, length.InMM), "80")
	}
}

// What leans one way, or too little, or is not rift, is no finding.
func TestNoLean(t *testing.T) {
	steep, low := leaning(1), leaning(1)
	steep.Rings, _ = pattern.RingsAt(80)
	low.Species = "black_walnut"
	low.Width = 12 * mm
	for name, p := range map[string]pattern.Pattern{
		"one way":        panel(leaning(1), leaning(1), leaning(1)),
		"steep rings":    panel(leaning(-1), steep),
		"narrow strips":  panel(low, func() pattern.Strip { s := low; s.Bark.Right = -1; return s }()),
		"no bark":        panel(leaning(0), leaning(0)),
		"across another": panel(leaning(-1), strip("hard_maple", 25*mm), leaning(1)),
		"no figure":      panel(leaning(-1), leaning(1), strip("plum", 25*mm)),
	} {
		if found := by(check.Of(physics(), p, length.InMM), "lean"); len(found) > 0 {
			t.Errorf("%s: %+v", name, found)
		}
	}
	for name, p := range map[string]pattern.Pattern{"steep rings": panel(steep, steep), "seen": panel(leaning(1), leaning(1))} {
		if found := by(check.Of(physics(), p, length.InMM), "bark"); len(found) > 0 {
			t.Errorf("%s, bark: %+v", name, found)
		}
	}
}

// What a key may not wait for comes late, only where there is something to look for, and
// makes what the whole check is; it is left out where it is stopped.
func TestSoonAndLate(t *testing.T) {
	if _, late := check.Soon(physics(), panel(leaning(1), leaning(1)), length.InMM); late != nil {
		t.Error("strips that lean one way are looked at late")
	}
	p := panel(leaning(-1), leaning(1), strip("black_walnut", 25*mm), leaning(0))
	soon, late := check.Soon(physics(), p, length.InMM)
	if late == nil || len(by(soon, "lean")) > 0 {
		t.Fatalf("soon %+v", soon.Findings)
	}
	rules := func(r check.Report) (ids []string) {
		for _, f := range r.Findings {
			ids = append(ids, f.Rule+" "+f.Message)
		}
		return ids
	}
	whole := check.Of(physics(), p, length.InMM)
	if got := late(context.Background()); !slices.Equal(rules(got), rules(whole)) || got.Level != whole.Level {
		t.Errorf("late %v, whole %v", rules(got), rules(whole))
	}
	if len(whole.Findings) != len(soon.Findings)+1 {
		t.Errorf("soon %v, whole %v", rules(soon), rules(whole))
	}
	stopped, stop := context.WithCancel(context.Background())
	stop()
	for _, f := range by(late(stopped), "lean") {
		if len(f.Remedies()) > 0 {
			t.Errorf("stopped, it tries turns: %+v", f.Remedies())
		}
	}
}

func TestTooManyToLean(t *testing.T) {
	p := panel(slices.Repeat([]pattern.Strip{leaning(-1), leaning(1)}, 500)...)
	found := by(check.Of(physics(), p, length.InMM), "lean")
	if len(found) != 1 || !strings.Contains(found[0].Message, "too many strips") {
		t.Errorf("%+v", found)
	}
}

// Budget: 30 strips that lean against each other, with every turn tried: 0.5 s beside the
// screen.
func BenchmarkLate30(b *testing.B) {
	p := panel(slices.Repeat([]pattern.Strip{leaning(-1), leaning(1)}, 15)...)
	for b.Loop() {
		_, late := check.Soon(physics(), p, length.InMM)
		late(context.Background())
	}
}
