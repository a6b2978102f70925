package cli_test

import (
	"context"
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/species"
)

const mm = length.Millimetre

// A warned is one warning as it stands somewhere.
type warned struct {
	pkg, rule string
	level     pattern.Level
	step      string
	text      string
}

// everyWarning returns what all packages say of a workshop that does everything wrong.
func everyWarning(t *testing.T) []warned {
	t.Helper()
	s := shoptest.Roomy()
	s.Air.TemperatureC = 4
	s.Glue.SecondsJoint, s.Price.Stall = 300, 5000
	s.Machine.ThicknesserWidth = 150 * mm
	p := pattern.Pattern{Name: "All wrong", Panel: pattern.Panel{Length: 300 * mm, Thickness: 22 * mm}}
	for i, key := range []string{"teak", "hard_maple", "padauk", "basswood", "white_oak", "black_walnut", "hard_maple", "pear"} {
		strip := pattern.Strip{Species: key, Width: 24 * mm, Rings: pattern.RingsFlat(), Moisture: pattern.Read(13)}
		if i == 1 {
			strip.Moisture = pattern.Read(17)
		}
		if i == 3 {
			strip.Length = 420 * mm
		}
		p.Strips = append(p.Strips, strip)
	}
	p.Products = []pattern.Product{
		{Shape: outline.Block, Length: 150 * mm, Width: 60 * mm, Count: 1, Hole: 41 * mm, Holes: 2, HoleDepth: 18 * mm, Bevel: 20 * mm, For: pattern.ForCandles},
		{Shape: outline.Round, Diameter: 400 * mm, Count: 1},
	}
	r := movement.New(species.Builtin(), s)
	var out []warned
	for _, f := range check.Of(r, p, length.InMM).Findings {
		out = append(out, warned{"check", f.Rule, f.Level, "findings", f.Message})
	}
	job, err := work.JobOf(movement.New(species.Builtin(), s), p, 1)
	if err != nil {
		t.Fatal(err)
	}
	job.Minutes, job.Asked, job.Clamps = 600, 5, 1
	job.Label = work.Labels(r.Table(), job, length.InMM)[0]
	job.DryingOil = true
	glue := s
	glue.Glue.Class, glue.Glue.WaitDays = 2, 1
	r = movement.New(species.Builtin(), glue)
	figures := work.Of(r, job)
	for _, c := range work.Report(r, job, figures, length.InMM) {
		if c.Caution {
			out = append(out, warned{"work", ruleOf(t, work.Cautions(r, job, figures, length.InMM), c.Text), c.Level, c.Step, c.Text})
		}
	}
	return append(out, planWarnings(t, s)...)
}

// ruleOf returns the rule that a caution's text is of.
func ruleOf(t *testing.T, cautions []work.Caution, text string) string {
	t.Helper()
	for _, c := range cautions {
		if c.String() == text {
			return c.Rule
		}
	}
	t.Fatalf("%q is no caution's text", text)
	return ""
}

// planWarnings returns what is said of a plan from one short, thick, cracked piece: two
// narrow strips come out of it, and more are wanted.
func planWarnings(t *testing.T, s shop.Shop) []warned {
	t.Helper()
	p := pattern.Pattern{Panel: pattern.Panel{Length: 200 * mm, Thickness: 20 * mm}}
	for range 12 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "hard_maple", Width: 15 * mm})
	}
	piece := rack.Piece{ID: "M1", Species: "hard_maple", Length: 280 * mm, Width: 90 * mm, Thickness: 58 * mm, Quantity: 1,
		Faults: []rack.Fault{{Along: true, From: 80 * mm, To: 90 * mm}}}
	job := cutting.Job{Rack: rack.Rack{Pieces: []rack.Piece{piece}}, Shop: s,
		Patterns: []cutting.Demand{{Stem: "narrow", Pattern: p, Copies: 1}}}
	plan, err := solve.Plan(context.Background(), job, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var out []warned
	if plan.Short > 0 {
		out = append(out, warned{"cutting", "short", pattern.TooMuch, "plan", "strips are short"})
	}
	for _, n := range worksteps.Notes(job, plan, length.InMM) {
		out = append(out, warned{"cutting", n.Rule, n.Level, "plan", n.Message})
	}
	return out
}

// Every warning of the trade that concerns what is built is reached, at its own level;
// what does not concern it says why.
func TestEveryWarningOfTheTradeIsReached(t *testing.T) {
	file, err := os.Open("testdata/warnings.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	all := everyWarning(t)
	levels := map[string]pattern.Level{"note": pattern.Fine, "take care": pattern.TakeCare, "too much": pattern.TooMuch}
	reached := 0
	for _, row := range rows[1:] {
		step, when, level, pkg, rule := row[0], row[1], levels[row[2]], row[3], row[4]
		if pkg == "" {
			if len(rule) < 20 {
				t.Errorf("%s: it does not say why it is not warned of", when)
			}
			continue
		}
		found := false
		for _, s := range all {
			if s.pkg != pkg || s.rule != rule {
				continue
			}
			found = true
			if s.level != level {
				t.Errorf("%s: %v, want %v: %s", when, s.level, level, s.text)
			}
			if pkg == "work" && step != "stock" && step != "species" && s.step != step {
				t.Errorf("%s: stands at the step %q, want %q", when, s.step, step)
			}
		}
		if !found {
			t.Errorf("%s: %s of package %s is not reached", when, rule, pkg)
		}
		reached++
	}
	if reached < 30 {
		t.Errorf("only %d warnings are reached", reached)
	}
	for _, s := range all {
		for _, word := range []string{"safe", "certif", "guarantee"} {
			if strings.Contains(strings.ToLower(s.text), word) {
				t.Errorf("%s of %s says %q: %s", s.rule, s.pkg, word, s.text)
			}
		}
	}
}
