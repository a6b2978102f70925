package check_test

import (
	"fmt"
	"slices"
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
			if strings.Contains(f.Message, "close to the limit") {
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

const demoText = `movement, take care, line 9: hornbeam and European elm: step 74 ±14 um a face in the humid season, strain 0.77 ±0.14 %; close to the limit
	dry strip 10 to 9.1 %: line 9 strain 0.77 -> 0.22 %
movement, take care, line 10: European elm and hornbeam: step 31 ±19 um a face in the dry season, strain 0.32 ±0.19 %; close to the limit
	dry strip 10 to 10.2 %: line 10 strain 0.32 -> 0.05 %, line 9 strain 0.77 -> 0.49 % (take care)
moisture, too much, line 9: strip 9 is at 9.1 % moisture and strip 10 at 11.3 %, 2.2 points apart: keep both in the same air until they agree, then glue
	dry strip 10 to 9.1 %: line 9 moisture 2.2 -> 0.0 points apart
moisture, take care, line 10: strip 10 is at 11.3 % moisture and strip 11 at 10.2 %, 1.1 points apart: keep both in the same air until they agree, then glue
	dry strip 10 to 10.2 %: line 10 moisture 1.1 -> 0.0 points apart, line 9 strain 0.77 -> 0.49 % (take care)
rings, fine, strip 8: check the end grain of strip 8: it decides 2 glue lines; until then 45 degrees is assumed
width, fine, panel: glue-up width 255 mm is 4 mm over the 251 mm you want
	narrow each unpinned strip by 0.4 mm
thicknesser, take care, panel: glue-up width 255 mm is more than your thicknesser's 254 mm, 251 mm would fit: ` +
	`trim the strips first; follow your machine's manual and local rules
open_pored, fine, panel: European elm: large pores hold food; some buyers and food-business rules want close grain
`

// The lines of the candle sill that are told together: of those that strain alike, 6|7 steps
// most; no contrast goes by rings.
func TestDemoGroups(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	at := slices.IndexFunc(demo.Patterns, func(s store.Saved) bool { return s.Stem == "candle-sill" })
	report := check.Of(movement.New(species.Builtin(), demo.Shop), demo.Patterns[at].Pattern, length.InMM)
	var got []string
	for _, g := range report.Groups {
		if len(g.Findings) > 1 {
			got = append(got, g.Places()+": "+g.Says())
		}
	}
	want := []string{
		"lines 3|4, 6|7: hornbeam and sweet chestnut: step 61 ±17 um a face in the humid season, strain 0.68 ±0.21 %; close to the limit; worst at 6|7",
		"lines 4|5, 5|6: hornbeam and robinia: step 31 ±22 um a face in the humid season, strain 0.51 ±0.22 %; close to the limit; worst at 4|5",
		"lines 1|2, 2|3, 7|8, 8|9: sweet chestnut and robinia: contrast about 7.7, close to the limit: hold the real boards side by side",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}
