package export

import (
	"bytes"
	"context"
	"encoding/xml"
	"fmt"
	"maps"
	"os"
	"regexp"
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
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/species"
)

// planned returns a job with a plan from a rack that is short of one timber.
func planned(t testing.TB, p pattern.Pattern, copies int) Job {
	t.Helper()
	j := jobFor(t, p)
	j.Work.Copies = copies
	j.Stock = cutting.Job{
		Patterns: []cutting.Demand{{Stem: j.Stem, Pattern: p, Copies: copies}},
		Rack: rack.Rack{
			Pieces: []rack.Piece{
				{ID: "M1", Species: "hard_maple", Length: 1700 * mm, Width: 90 * mm, Thickness: 60 * mm, Quantity: 2, Rings: pattern.RingsQuarter()},
				{ID: "W<3", Species: "black_walnut", Length: 900 * mm, Width: 110 * mm, Thickness: 60 * mm, Quantity: 1,
					Faults: []rack.Fault{{From: 0, To: 40 * mm}, {From: 0, To: 12 * mm, Along: true}}},
			},
			Strips: []rack.Strip{{ID: "C-23", Species: "black_cherry", Width: 23 * mm, Thickness: 24 * mm, Length: 800 * mm, Quantity: 2}},
		},
		Shop: j.Physics.Shop(),
	}
	plan, err := solve.Plan(context.Background(), j.Stock, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	j.Plan = plan
	return j
}

// words returns the text of a page on one line.
func words(t *testing.T, page []byte) string {
	t.Helper()
	_, text := elements(t, page)
	return strings.Join(strings.Fields(text), " ")
}

// same is how a text stands on the page.
func same(s string) string { return strings.Join(strings.Fields(s), " ") }

// The sheet says what the commands say: the same figures with their sources, the same
// steps, findings and cautions.
func TestSheetSaysTheSame(t *testing.T) {
	for _, unit := range []length.Unit{length.InMM, length.InInches} {
		j := planned(t, lantern(round(290*mm, 2)), 2)
		j.Unit = unit
		text := words(t, written(t, ".html", j))
		want := func(what, s string) {
			if !strings.Contains(text, same(s)) {
				t.Errorf("%s is missing: %q", what, s)
			}
		}
		f := work.Of(j.Physics, j.Work)
		for _, l := range work.Lines(j.Work, f, j.Physics.Shop(), unit) {
			want("a figure", l.What+" "+l.Text+" "+l.Source)
		}
		job := j.Work
		job.Label = work.Labels(j.Physics.Table(), job, unit)[0]
		for _, c := range work.Cautions(j.Physics, job, f, unit) {
			want("a caution of "+c.Step, c.String())
		}
		for _, c := range worksteps.Cares(j.Stock, j.Plan) {
			want("a care at the machines", c.Message)
		}
		for _, g := range check.Of(j.Physics, j.Work.Pattern, unit).Groups {
			want("a finding", g.Says())
			for _, m := range g.Best() {
				want("a remedy", m.Between())
			}
		}
		steps := worksteps.Order(worksteps.ByMachine, j.Stock, j.Plan, j.timber, unit)
		if len(steps) < 10 || j.Plan.Short == 0 || len(j.Plan.Ready) == 0 {
			t.Fatalf("the plan is no test: %d steps, %d short, %d ready", len(steps), j.Plan.Short, len(j.Plan.Ready))
		}
		for _, s := range steps {
			body := capital(s.String())
			if s.Kind == worksteps.StepShort {
				body = s.Text
			}
			for _, n := range s.Notes {
				body += " " + n.String() // at its own step
			}
			want("a step", body)
		}
		for _, s := range work.SandingOrder(j.Work.Products[0], unit) {
			want("a step of sanding", capital(s.Text)+" ("+s.Source+")")
		}
		out := work.MarkOutOf(j.Work.Pattern, j.Physics.Shop().Allowance.Length, j.Work.Layout, j.Physics.Shop().Cut.Gap)
		for i, m := range out.Marks {
			want("a mark", fmt.Sprintf("1.%d %s %s", i+1, m.FromHook.With(unit), m.FromA.With(unit)))
		}
		want("the last pass at its step", "the last one frees it. Note: "+cautionOf(t, work.Cautions(j.Physics, job, f, unit), "router"))
		want("rags at their step", "wipe off the rest. Note: rags with mineral oil")
		want("manuals", work.Manuals)
		want("the law", "check current local law")
	}
}

// Where a step stands on the sheet goes by its kind, however it is worded: strips that
// are short are in the red box whatever is said of them, and nothing else is.
func TestStepsStandByTheirKind(t *testing.T) {
	s := sheetOf(jobFor(t, lantern()))
	s.sort([]worksteps.Step{
		{Kind: worksteps.StepReady, Name: "R1", Text: "short, fetch it", Notes: []worksteps.Note{{Level: pattern.TakeCare, Message: "let it rest"}}},
		{Kind: worksteps.StepCut, Name: "P (2)", Text: "short, P (1): saw it"},
		{Kind: worksteps.StepCut, Name: "P (1)", Text: "burn it", Notes: []worksteps.Note{{Level: pattern.TooMuch, Message: "hot"}}},
		{Kind: worksteps.StepShort, Text: "nobody has seen strip 7"},
	})
	s.Cares = nil
	var b bytes.Buffer
	if err := s.write(&b); err != nil {
		t.Fatal(err)
	}
	text := words(t, b.Bytes())
	for _, want := range []string{"Missing: nobody has seen strip 7", "R1: short, fetch it caution: let it rest", "P (1): burn it caution, too much: hot", "P (2): short, P (1): saw it"} {
		if strings.Count(text, want) != 1 {
			t.Errorf("the sheet has not once %q: %s", want, text)
		}
	}
	if n := strings.Count(b.String(), "care much"); n != 1 {
		t.Errorf("%d boxes in red", n)
	}
}

// Every caution stands once on the sheet, at its own step where that is on the page, above
// the steps where it is not.
func TestEveryCautionStandsOnce(t *testing.T) {
	block := pattern.Product{Shape: outline.Block, Length: 400 * mm, Width: 95 * mm, Count: 1, Bevel: 10 * mm, BevelSide: pattern.BevelBoth,
		Hole: 40 * mm, Holes: 3, HoleDepth: 18 * mm}
	for name, c := range map[string]struct {
		pattern pattern.Pattern
		coats   int
		rack    length.Length
	}{
		"block": {lantern(block), 3, 1200 * mm}, "oval and round": {lantern(ovalOf(pattern.Product{}), round(100*mm, 1)), 3, 1200 * mm},
		"no oil": {lantern(round(290*mm, 1)), 0, 1200 * mm}, "no rack": {lantern(round(290*mm, 1)), 3, 0},
		"nothing comes out": {lantern(round(900*mm, 1)), 3, 1200 * mm}, "the panel": {lantern(), 3, 1200 * mm},
	} {
		j := planned(t, c.pattern, 1)
		s := j.Physics.Shop()
		s.Finish.Coats, s.Finish.RackLength = c.coats, c.rack
		s.Glue.OpenMinutes, s.Glue.LeastC, s.Glue.Class, s.Glue.WaitDays = 1, 30, 1, 1
		j.Physics = movement.New(species.Builtin(), s)
		j.Work.Clamps, j.Work.Asked, j.Work.DryingOil = 1, 1, true
		text := words(t, written(t, ".html", j))
		job := j.Work
		job.Label = work.Labels(j.Physics.Table(), job, j.Unit)[0]
		for _, c := range work.Cautions(j.Physics, job, work.Of(j.Physics, job), j.Unit) {
			if n := strings.Count(text, same(c.String())); n != 1 {
				t.Errorf("%s: %q of rule %s stands %d times", name, c, c.Rule, n)
			}
		}
	}
}

// Whatever the maker's texts are, the page has the elements that it has with harmless ones.
func TestNoTextIsAnElement(t *testing.T) {
	page := func(text string) (map[string]int, string) {
		p := lantern(round(290*mm, 1))
		p.Name, p.Notes = text, text
		p.Made = []pattern.Made{{Date: pattern.Date{Year: 2026, Month: 11, Day: 2}, Copies: 1, Note: text}}
		p.Strips[0].Species = text
		j := planned(t, p, 1)
		j.Stem, j.Stock.Patterns[0].Stem, j.Work.Label.Maker = text, text, text
		j.Stock.Rack.Pieces[0].ID = text
		var err error
		if j.Plan, err = solve.Plan(context.Background(), j.Stock, solve.Options{}); err != nil {
			t.Fatal(err)
		}
		return elements(t, written(t, ".html", j))
	}
	tame, _ := page("heron")
	for _, evil := range []string{`</p><script>"x" & 'y'`, `"><b onclick="x">`, `{{.Name}}`, `]]></style>&lt;`, `javascript:alert(1)`, `<!-- + -->`} {
		names, text := page(evil)
		if !maps.Equal(names, tame) {
			t.Errorf("%q: elements %v, of a harmless text %v", evil, names, tame)
		}
		if n := strings.Count(text, evil); n < 8 {
			t.Errorf("%q stands %d times on the page", evil, n)
		}
	}
}

func cautionOf(t *testing.T, all []work.Caution, rule string) string {
	t.Helper()
	for _, c := range all {
		if c.Rule == rule {
			return c.String()
		}
	}
	t.Fatalf("no caution %s", rule)
	return ""
}

// A finding and a caution has a step on the page, whatever its rule.
func TestEveryRuleHasAStep(t *testing.T) {
	stands := func(step string) bool {
		s := sheetOf(jobFor(t, lantern()))
		s.Cares = map[string][]care{step: {{Text: "mind the heron"}}}
		var b bytes.Buffer
		if err := s.write(&b); err != nil {
			t.Fatal(err)
		}
		return strings.Contains(b.String(), "mind the heron")
	}
	if stands("nowhere") {
		t.Fatal("a step that there is not has a place")
	}
	for _, r := range check.Rules() {
		if step := stepOfRule(r.ID); !stands(step) {
			t.Errorf("rule %s stands at step %q, which the page has not", r.ID, step)
		}
	}
	for _, step := range []string{work.StepGlue, work.StepCut, work.StepSand, work.StepFinish, work.StepLabel, work.StepSale} {
		if !stands(step) {
			t.Errorf("cautions of step %q are not shown", step)
		}
	}
}

// The page can be followed by a screen reader and has no part outside it.
func TestSheetIsAccessibleAndWhole(t *testing.T) {
	accessible(t, written(t, ".html", planned(t, lantern(round(290*mm, 2)), 1)))
}

func accessible(t *testing.T, data []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(data))
	level, headings, ids := 0, 0, map[string]bool{}
	var labelled []string
	for {
		token, err := d.Token()
		if err != nil {
			break
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		at := map[string]string{}
		for _, a := range e.Attr {
			at[a.Name.Local] = a.Value
		}
		if id := at["id"]; id != "" {
			if ids[id] {
				t.Errorf("id %q stands twice", id)
			}
			ids[id] = true
		}
		for _, ref := range []string{"href", "src", "data", "action"} {
			if to, ok := at[ref]; ok && !strings.HasPrefix(to, "#") {
				t.Errorf("<%s %s=%q> leads out of the page", e.Name.Local, ref, to)
			}
		}
		switch name := e.Name.Local; name {
		case "html":
			if at["lang"] != "en" {
				t.Error("the language is not said")
			}
		case "h1", "h2", "h3", "h4":
			n := int(name[1] - '0')
			if headings++; n > level+1 {
				t.Errorf("heading %s follows one of level %d", name, level)
			}
			level = n
		case "th":
			if at["scope"] == "" {
				t.Error("a table's header does not say what it heads")
			}
		case "svg":
			if at["hidden"] == "" && at["labelledby"] == "" && at["aria-hidden"] == "" && at["aria-labelledby"] == "" {
				t.Errorf("a drawing without words: %v", e.Attr)
			}
			labelled = append(labelled, strings.Fields(at["aria-labelledby"])...)
		case "script", "link", "iframe", "img", "object":
			t.Errorf("<%s> is on the page", name)
		}
	}
	for _, id := range labelled {
		if !ids[id] {
			t.Errorf("a drawing is named by %q, which is not there", id)
		}
	}
	if headings < 12 {
		t.Errorf("only %d headings", headings)
	}
	if css := regexp.MustCompile(`url\((?:[^#)]|#)[^)]*\)|@import`).FindAll(data, -1); len(css) > 0 {
		for _, c := range css {
			if !bytes.HasPrefix(c, []byte("url(#")) {
				t.Errorf("the style leads out: %s", c)
			}
		}
	}
}

func TestSheetOfHostileText(t *testing.T) {
	file, err := os.ReadFile("../../testdata/hostile/pattern.toml")
	if err != nil {
		t.Fatal(err)
	}
	fromFile, err := store.ReadPattern(bytes.NewReader(file), "pattern.toml", nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, p := range map[string]pattern.Pattern{"in code": hostile(), "from a file": fromFile} {
		t.Run(name, func(t *testing.T) {
			j := planned(t, p, 1)
			for _, ending := range []string{".html", ".svg"} {
				data := written(t, ending, j)
				names, text := elements(t, data)
				if names["script"] > 0 || names["img"] > 0 || names["title"] < 1 {
					t.Errorf("%s: text became elements: %v", ending, names)
				}
				if !strings.Contains(text, `<script>alert("1")</script>`) {
					t.Errorf("%s: the name does not stand there as text", ending)
				}
				for _, r := range []string{"\u202e", "\u202c", "\u200f", "\x1b", "\x00"} {
					if bytes.Contains(data, []byte(r)) {
						t.Errorf("%s: %q came through", ending, r)
					}
				}
			}
			if text := words(t, written(t, ".html", j)); !strings.Contains(text, `<img src=x onerror=alert(1)>`) {
				t.Error("the notes do not stand there as text")
			}
		})
	}
}

// The words of caution defer; nothing is promised.
func TestSheetPromisesNothing(t *testing.T) {
	text := words(t, written(t, ".html", planned(t, lantern(round(290*mm, 2)), 2)))
	if m := regexp.MustCompile(`(?i)certifi|food.safe|\bsafe\b`).FindString(text); m != "" {
		t.Errorf("the sheet says %q", m)
	}
}

func TestSheetOfLittle(t *testing.T) {
	draft := pattern.Pattern{Name: "Draft", Panel: pattern.Panel{Length: 300 * mm, Thickness: 20 * mm}}
	if text := words(t, written(t, ".html", jobFor(t, draft))); !strings.Contains(text, "A draft: it has no strips yet") {
		t.Errorf("of a draft: %q", text)
	}
	if text := words(t, written(t, ".html", jobFor(t, lantern()))); !strings.Contains(text, "No stock plan was made.") || !strings.Contains(text, "Trim it to 740 mm long") {
		t.Error("of a pattern without a plan and products")
	}
	one := lantern()
	one.Strips = one.Strips[:1]
	elements(t, written(t, ".html", planned(t, one, 1)))
	many := manyStrips(500)
	elements(t, written(t, ".html", jobFor(t, many)))
}

// Names of strips stand in their order, clear of one another, near their strips.
func TestSpread(t *testing.T) {
	for _, wanted := range [][]float64{nil, {5}, {5, 5.1, 5.2, 40, 41}, {1, 2, 3, 4, 5, 6, 7, 8}, {0, 0, 0, 0}} {
		got := spread(wanted, 2, 0)
		for i := range got {
			if i > 0 && got[i] < got[i-1]+2-1e-9 {
				t.Errorf("%v: %v", wanted, got)
			}
			if got[i] < -1e-9 || got[i] > wanted[i]+2*float64(len(wanted)) {
				t.Errorf("%v: %v lies far off", wanted, got)
			}
		}
	}
}

// A sheet of a panel of 60 strips with its plan. Budget: 50 ms.
func BenchmarkSheet(b *testing.B) {
	j := planned(b, manyStrips(60), 1)
	var out bytes.Buffer
	for b.Loop() {
		out.Reset()
		if err := writeSheet(&out, j); err != nil {
			b.Fatal(err)
		}
	}
}

// What several strips have in common stands once.
func TestGathered(t *testing.T) {
	row := func(n int, timber string) stripRow { return stripRow{Number: n, Timber: timber} }
	got := gathered([]stripRow{row(1, "a"), row(2, "a"), row(3, "b"), row(4, "b"), row(5, "b"), row(6, "a")})
	var numbers []string
	for _, r := range got {
		numbers = append(numbers, r.Numbers)
	}
	if text := strings.Join(numbers, "|"); text != "1|2|3 to 5|6" {
		t.Errorf("rows: %s", text)
	}
}

// At most six boxes stand before the first cut, the gravest, and every finding somewhere.
func TestFewBoxesFirst(t *testing.T) {
	s := sheetOf(planned(t, lantern(), 1))
	s.Cares = map[string][]care{"saw": {{Text: "dust"}}}
	for i := range 12 {
		level := pattern.Fine
		if i == 9 {
			level = pattern.TooMuch
		}
		s.Cares["before"] = append(s.Cares["before"], care{Level: level, Where: "panel", Text: fmt.Sprint("finding ", i)})
	}
	s.fewFirst()
	if n := len(boxes(s.Cares["before"])) + len(boxes(s.Cares["saw"])) + len(s.Missing); n > 6 || s.Cares["before"][0].Text != "finding 9" {
		t.Errorf("%d boxes before the first cut: %v", n, s.Cares["before"])
	}
	if n := len(s.Cares["before"]) + len(s.Cares[work.StepGlue]); n != 12 {
		t.Errorf("%d findings are left", n)
	}
}

// The numbers of the chapters have no holes, whatever is made.
func TestChaptersAreCounted(t *testing.T) {
	for _, p := range []pattern.Pattern{lantern(), lantern(round(290*mm, 2))} {
		page := string(written(t, ".html", planned(t, p, 1)))
		for i, found := range regexp.MustCompile(`<h2>(\d+)\. `).FindAllStringSubmatch(page, -1) {
			if found[1] != fmt.Sprint(i+1) {
				t.Errorf("chapter %s is the %dth", found[1], i+1)
			}
		}
	}
}

// There are as many labels as pieces come out of the copies.
func TestLabelsForAllCopies(t *testing.T) {
	for copies, want := range map[int]int{1: 2, 3: 6} {
		page := string(written(t, ".html", planned(t, lantern(round(290*mm, 2)), copies)))
		if n := strings.Count(page, `<div class="label">`); n != want {
			t.Errorf("made %d times: %d labels, want %d", copies, n, want)
		}
	}
}
