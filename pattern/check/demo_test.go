package check_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

// The demo shows a maker what the check is for: something at too much, with a remedy,
// end grain to look at, a glue line and a contrast that are borderline.
func TestDemo(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	r := movement.New(species.Builtin(), demo.Shop)
	much, looks, remedies, borderline := 0, 0, 0, map[string]bool{}
	for _, saved := range demo.Patterns {
		report := check.Of(r, saved.Pattern, length.InMM)
		if len(report.Findings) == 0 {
			t.Errorf("%s: no findings", saved.Stem)
		}
		looks += len(by(report, "rings"))
		for _, f := range report.Findings {
			if f.Level == pattern.TooMuch {
				much++
			}
			remedies += len(f.Remedies())
			if strings.Contains(f.Message, "borderline") {
				borderline[f.Rule] = true
			}
		}
	}
	if !borderline["movement"] || !borderline["contrast"] {
		t.Errorf("borderline are only %v", borderline)
	}
	if much == 0 || looks == 0 || remedies == 0 {
		t.Errorf("%d at too much, %d to look at, %d remedies; want some of each", much, looks, remedies)
	}
}

// What the demo's first pattern is told, word for word.
func TestDemoText(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	report := check.Of(movement.New(species.Builtin(), demo.Shop), demo.Patterns[0].Pattern, length.InMM)
	var got strings.Builder
	for _, f := range report.Findings {
		fmt.Fprintf(&got, "%s, %v, %v: %s\n", f.Rule, f.Level, f.Where, f.Message)
		for _, m := range f.Remedies() {
			fmt.Fprintf(&got, "\t%s\n", m.Text)
		}
	}
	if d := cmp.Diff(demoText, got.String()); d != "" {
		t.Error(d)
	}
}

const demoText = `movement, take care, line 9: hornbeam and European elm: step 74 ±14 um a face in the humid season, strain 0.77 ±0.14 %; borderline
	let strip 10 settle to 9.1 %: line 9 strain 0.77 to 0.22 %
movement, take care, line 10: European elm and hornbeam: step 31 ±19 um a face in the dry season, strain 0.32 ±0.19 %; borderline
	let strip 10 settle to 10.2 %: line 10 strain 0.32 to 0.05 %, line 9 strain 0.77 to 0.49 % (take care)
moisture, too much, line 9: strip 9 is at 9.1 % and strip 10 at 11.3 %: 2.2 points apart; let them settle together before gluing
	let strip 10 settle to 9.1 %: line 9 gap 2.2 to 0.0 points
moisture, take care, line 10: strip 10 is at 11.3 % and strip 11 at 10.2 %: 1.1 points apart; let them settle together before gluing
	let strip 10 settle to 10.2 %: line 10 gap 1.1 to 0.0 points, line 9 strain 0.77 to 0.49 % (take care)
rings, fine, strip 8: look at the end grain of strip 8: it settles 2 glue lines; till then its rings count as 45 degrees
width, fine, panel: glue-up width 255 mm of 251 mm wanted: 4 mm to take off
	narrow each unpinned strip by 0.4 mm
thicknesser, take care, panel: glue-up width 255 mm is more than your thicknesser's 254 mm, the wanted 251 mm is not: ` +
	`take the rest off the strips first; follow your machine's manual and local rules
open_pored, fine, panel: European elm: large pores hold food; some buyers and food-business rules want close grain
`
