package export

import (
	"context"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/species"
)

// setJob returns the job of four boards: two of one pattern with rounds, a small one, one that is
// cut into bars and glued again, and one with holes.
func setJob(t testing.TB, clamps int) Job {
	t.Helper()
	small := lantern()
	small.Name, small.Strips = "Small one", small.Strips[:4]
	bars := lantern()
	bars.Name, bars.Seconds = "Bars", []pattern.Second{{Bar: 41 * mm}}
	names := map[string]pattern.Pattern{"lantern-pair": lantern(round(290*mm, 2)), "small": small, "bars": bars, "<i>oval</i>": lantern(ovalOf(pattern.Product{}))}
	var all []Job
	stock := planned(t, lantern(), 1).Stock
	stock.Patterns = nil
	for i := range stock.Rack.Pieces {
		stock.Rack.Pieces[i].Quantity += 2
	}
	for i, stem := range []string{"small", "lantern-pair", "bars", "<i>oval</i>"} {
		p := names[stem]
		j := jobFor(t, p)
		s := j.Physics.Shop()
		s.Glue.Clamps = clamps
		j.Physics = movement.New(species.Builtin(), s)
		made, err := work.JobOf(j.Physics, p, 1+i%2)
		if err != nil {
			t.Fatal(err)
		}
		j.Stem, j.Work, j.Worth = stem, made, float64(10*i)
		all = append(all, j)
		stock.Patterns = append(stock.Patterns, cutting.Demand{Stem: stem, Pattern: p, Copies: made.Copies})
	}
	plan, err := solve.Plan(context.Background(), stock, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	j := all[0]
	j.Beside, j.Stock, j.Plan = all[1:], stock, plan
	return j
}

// The page of a set says of every board what its own sheet does, and of the sawing all, once.
func TestSetSaysAll(t *testing.T) {
	j := setJob(t, 0)
	data := written(t, ".html", j)
	accessible(t, data)
	text := words(t, data)
	steps := worksteps.Order(worksteps.ByMachine, j.Stock, j.Plan, j.timber, j.Unit)
	if len(steps) < 10 {
		t.Fatalf("%d steps are no test", len(steps))
	}
	for _, s := range steps {
		want := same(capital(s.String()))
		if s.Kind == worksteps.StepShort {
			want = same(s.Text)
		}
		if strings.Count(text, want) != 1 {
			t.Errorf("the step %q stands %d times", want, strings.Count(text, want))
		}
	}
	parts := strings.Split(string(data), `<article class="one`)
	if len(parts) != 6 {
		t.Fatalf("%d parts, want the front, four boards and the finish", len(parts))
	}
	for i, one := range append([]Job{j}, j.Beside...) {
		one.Work.Label = work.Labels(one.Physics.Table(), one.Work, one.Unit)[0]
		own, all := same(inner(parts[i+1])), same(inner(parts[0]+parts[5]))
		for _, c := range work.Cautions(one.Physics, one.Work, work.Of(one.Physics, one.Work), j.Unit) {
			want := same(c.String())
			if c.Step == work.StepLabel || c.Step == work.StepSale || c.Step == work.StepFinish {
				if !strings.Contains(all, want) {
					t.Errorf("board %d: the caution %q is not said of all", i+1, want)
				}
			} else if !strings.Contains(own, want) {
				t.Errorf("board %d: the caution %q is missing", i+1, want)
			}
		}
		for _, g := range check.Of(one.Physics, one.Work.Pattern, j.Unit).Groups {
			if want := same(g.Says()); !strings.Contains(own, want) && !strings.Contains(all, want) {
				t.Errorf("board %d: the finding %q is missing", i+1, want)
			}
		}
		for _, r := range stripRows(one) {
			if !strings.Contains(own, r.Letters+" "+r.Timber+r.Width) {
				t.Errorf("board %d: strip %s is missing", i+1, r.Numbers)
			}
		}
	}
	// 2 x 20 for the oval, 20 for the bars and 2 x 10 for the rounds, 6 boards, and 2 x 2 rounds.
	for _, want := range []string{"panels 6", "worth, by the orders 100.00", "4. Lantern pair", "pattern <i>oval</i>, made 2 times", "2/5 being strip 5 of board 2", "not set, one glue-up an evening"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page has not %q", want)
		}
	}
}

// The front says what each board costs in timber and other fixed cost, as its own figures do, what
// all do, and of boards that all have a worth what that leaves.
func TestSetCosts(t *testing.T) {
	j := setJob(t, 0)
	sum := 0.0
	for i, one := range append([]Job{j}, j.Beside...) {
		own := work.Of(one.Physics, one.Work).Price
		cents, _ := strconv.ParseFloat(fmt.Sprintf("%.2f", own.Materials+own.Fixed), 64)
		sum += cents
		if got, want := setOf(j).Set.Cards[i].Costs, fmt.Sprintf("timber and fixed cost %.2f", own.Materials+own.Fixed); got != want {
			t.Errorf("board %d: %s, want %s", i+1, got, want)
		}
	}
	lines := func() string { return fmt.Sprint(setOf(j).Set.Sums) }
	if got := lines(); !strings.Contains(got, fmt.Sprintf("%.2f, by built-in values: set your own in [price]", sum)) || strings.Contains(got, "leaves for") {
		t.Errorf("%s, want costs of %.2f", got, sum)
	}
	j.Worth = 7.5 // of the first board, made once; the others are worth 100
	if got := lines(); !strings.Contains(got, "107.50") || !strings.Contains(got, fmt.Sprintf("leaves for labour, fee and stall: %.2f", 107.5-sum)) {
		t.Errorf("%s, want %.2f to be left", got, 107.5-sum)
	}
}

// inner returns the text of a part of a page.
func inner(html string) string {
	text := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(strings.ReplaceAll(html, "\n", " "), "")
	return strings.NewReplacer("&#34;", `"`, "&#39;", "'", "&lt;", "<", "&gt;", ">", "&#43;", "+", "&amp;", "&").Replace(text)
}

// With clamps at hand several boards are glued in one evening, what is worth most first; the second
// glue-up waits.
func TestSetEvenings(t *testing.T) {
	whole := setOf(setJob(t, 100)).Set
	s := whole.Gluing
	if len(s.Evenings) != 2 {
		t.Fatalf("%+v", s.Evenings)
	}
	first, then := s.Evenings[0], s.Evenings[1]
	if first.Nth != 1 || first.Day != 1 || len(first.GlueUps) != 6 || !strings.HasPrefix(first.GlueUps[0], "4. Lantern pair, board 1: 12 glue lines") {
		t.Errorf("the first evening %+v", first)
	}
	if then.Day != 4 || len(then.GlueUps) != 1 || !strings.HasPrefix(then.GlueUps[0], "3. Bars, second glue-up 1: ") {
		t.Errorf("the second %+v", then)
	}
	for i, want := range []string{"evening 1", "evening 1", "evenings 1, 2", "evening 1"} {
		if got := whole.Sheets[i].Glue; got != want {
			t.Errorf("board %d is glued in %q, want %q", i+1, got, want)
		}
	}
	alone := setOf(setJob(t, 1)).Set.Gluing
	if len(alone.Evenings) != 7 || !strings.Contains(alone.Evenings[0].Lacks, "you have 1") {
		t.Errorf("with one clamp %+v", alone.Evenings)
	}
}

// The pictures of all boards have one scale and their true colours, and what is told of timber adds
// up to the rack.
func TestSetFront(t *testing.T) {
	j := setJob(t, 0)
	s := setOf(j).Set
	scale := 0.0
	for i, one := range append([]Job{j}, j.Beside...) {
		w := woodOf(one)
		var long float64
		if _, err := fmt.Sscanf(s.Cards[i].Long, "%fmm", &long); err != nil {
			t.Fatal(err)
		}
		if is := long / (w.x1 - w.x0); scale == 0 {
			scale = is
		} else if is/scale > 1.01 || is/scale < 0.99 {
			t.Errorf("board %d is drawn to %v, the first to %v", i+1, is, scale)
		}
		for _, k := range w.planks {
			if len(w.tiles) == 0 && !strings.Contains(string(s.Cards[i].Picture), fmt.Sprintf(`fill="%v"`, k.shades[shadeBase])) {
				t.Errorf("board %d has no strip of %v", i+1, k.shades[shadeBase])
			}
		}
		if got := len(strings.Fields(s.Cards[i].Letters)); got != len(one.Work.Pattern.Strips) {
			t.Errorf("board %d: letters of %d strips", i+1, got)
		}
	}
	strips := 0
	for _, r := range s.Timbers {
		strips += r.Strips
	}
	if want := 4 + 2*13 + 13 + 2*13; strips != want || !s.Booked {
		t.Errorf("%d strips of all timbers, want %d", strips, want)
	}
}

// Many boards are drawn so small that they find room, and never smaller than can be seen.
func TestCardScale(t *testing.T) {
	one := wood{x1: 700, high: 300}
	if got := cardScale([]wood{one}); got != largestScale {
		t.Errorf("one board: %v", got)
	}
	many := make([]wood, 30)
	for i := range many {
		many[i] = one
	}
	if got := cardScale(many); got >= largestScale || got < smallestScale {
		t.Errorf("thirty boards: %v", got)
	}
}

// A pattern that is made several times has its evenings on its own sheet; one that takes one evening
// says nothing of it.
func TestEveningsOfCopies(t *testing.T) {
	if text := words(t, written(t, ".html", planned(t, lantern(round(290*mm, 2)), 1))); strings.Contains(text, "Which evening") {
		t.Error("one panel")
	}
	j := planned(t, lantern(round(290*mm, 2)), 3)
	j.Work.Clamps = 16 // a panel takes 8: 1.2 MPa on 760 x 24 mm by 3020 N
	text := words(t, written(t, ".html", j))
	for _, want := range []string{"Which evening", "evenings 2, no fewer is possible (proved)", "Evening 1, day 1 16 clamps", "board 2: 12 glue lines", "Evening 2, day 2 8 clamps"} {
		if !strings.Contains(text, want) {
			t.Errorf("three panels with 16 clamps: no %q", want)
		}
	}
}
