package work

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

// The rim comes before the bevel, then all faces grit by grit, damp, the last grit
// again: common practice, no source. Grits rise by at most half (a woodworking
// magazine).
func TestSandingOrder(t *testing.T) {
	want := []string{"sand the rim at grit 120", "bevel, 8 mm deep, on the lower edge", "all faces at grit 120", "all faces at grit 180", "damp", "lightly at grit 180"}
	steps := SandingOrder(lantern(), length.InMM)
	if len(steps) != len(want) {
		t.Fatalf("%d steps, want %d", len(steps), len(want))
	}
	for i, w := range want {
		if !strings.Contains(steps[i].Text, w) || steps[i].Source == "" {
			t.Errorf("step %d: %q (%s), want %q", i+1, steps[i].Text, steps[i].Source, w)
		}
		if bevelled := i == 1; bevelled != slices.Equal(steps[i].Rules, []string{"edge_left"}) {
			t.Errorf("step %d takes the cautions %v", i+1, steps[i].Rules)
		}
	}
	if plain := SandingOrder(pattern.Product{Shape: outline.Rectangle}, length.InMM); len(plain) != 4 || strings.Contains(plain[0].Text, "rim") {
		t.Errorf("without a bevel: %v", plain)
	}
	if edges := SandingOrder(pattern.Product{Shape: outline.Rectangle, Bevel: mm}, length.InMM); !strings.Contains(edges[0].Text, "sand the edges") {
		t.Errorf("a rectangle: %v", edges[0])
	}
	grits := Grits()
	for i := 1; i < len(grits); i++ {
		if ratio := float64(grits[i]) / float64(grits[i-1]); ratio > 1.5 {
			t.Errorf("%d after %d", grits[i], grits[i-1])
		}
	}
}

func labelText(l Label) string {
	var b strings.Builder
	for _, f := range l.Fields() {
		fmt.Fprintln(&b, f)
	}
	return b.String()
}

// Maker, postal and electronic address, and type, batch or serial number are what the
// EU's General Product Safety Regulation asks to be marked (a laboratory's page).
func TestLabelNamesEmptyFields(t *testing.T) {
	j := job(t)
	l := Label{Item: "trivet", Size: "290 x 22 mm", Timbers: TimberNames(species.Builtin(), j.Pattern), Finish: "mineral oil and wax",
		Glue: "D3", Maker: "A. Maker", Batch: "LL-290-3"}
	missing := strings.Join(l.Missing(), ", ")
	if missing != "postal address, electronic address, date" {
		t.Errorf("missing %q", missing)
	}
	text := labelText(l)
	for _, want := range []string{"hard maple (Acer saccharum), black walnut (Juglans nigra)", "postal address: ____", "batch: LL-290-3", "no dishwasher"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, text)
		}
	}
	l.Care = "Wipe it."
	if text := labelText(l); !strings.Contains(text, "care: Wipe it.\n") || strings.Contains(text, "soak") {
		t.Errorf("own words of care:\n%s", text)
	}
	if names := TimberNames(species.Builtin(), pattern.Pattern{Strips: []pattern.Strip{{Species: "own_wood"}}}); names[0] != "own_wood" {
		t.Errorf("a timber that the table lacks: %v", names)
	}
}

// Counted back by hand: one glue-up and three days' wait, two days at the bench for
// ten hours, six evenings: 12 days before 5 December.
func TestLastStart(t *testing.T) {
	j := job(t, lantern())
	j.Minutes = 600
	s := shoptest.Roomy()
	f := Of(physics(), j)
	got, ok := LastStart(pattern.Date{Year: 2026, Month: time.December, Day: 5}, j, f, s.Glue)
	want := Timetable{Glue: 4, Bench: 2, Dry: 6, Start: pattern.Date{Year: 2026, Month: time.November, Day: 23}}
	if !ok || got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	f.Glue.Parts = 2 // glued twice
	if got, _ := LastStart(pattern.Date{Year: 2027, Month: time.January, Day: 2}, j, f, s.Glue); got.Glue != 8 || got.Start.String() != "2026-12-17" {
		t.Errorf("in two parts: %+v", got)
	}
}

func TestMarkOut(t *testing.T) {
	j := job(t, lantern(), pattern.Product{Shape: outline.Rectangle, Length: 60 * mm, Width: 60 * mm, Count: 1})
	for i := range j.Pattern.Strips {
		j.Pattern.Strips[i].Length = 760 * mm
	}
	j.Pattern.Strips[6].Start = 30 * mm // the middle strip stands back
	layout, err := outline.Lay(j.Pattern, 20*mm, j.Products, nil, shoptest.Roomy().Cut)
	if err != nil {
		t.Fatal(err)
	}
	m := MarkOutOf(j.Pattern, 0, layout, 16*mm)
	if m.Hook != 7 || len(m.Marks) != 3 {
		t.Fatalf("%+v", m)
	}
	if first := m.Marks[0]; first.FromHook != 150*mm || first.FromA != 149_500_000 || first.SlidesToFromHook != 150*mm+first.Slide {
		t.Errorf("first mark %+v: 145 and the margin of 5 from strip 7's end", first)
	}
	if second := m.Marks[1]; second.FromHook != 456*mm {
		t.Errorf("second mark %+v: 306 on", second)
	}
	// Blanks join end to end and each holds its band.
	var at length.Length
	for i, b := range m.Blanks {
		band := layout.Bands[i]
		if b.From != at || b.From > band.From || b.From+b.Length < band.End || b.Width != j.Pattern.Width() {
			t.Errorf("blank %+v of band %+v", b, band)
		}
		at += b.Length
	}
	// A last band that leaves less than half a gap has the panel's end for its own: 5 of
	// margin, 750, 5 of margin.
	p, long := panelOf760(j.Pattern), pattern.Product{Shape: outline.Rectangle, Length: 750 * mm, Width: 60 * mm, Count: 1}
	layout, err = outline.Lay(p, 0, []pattern.Product{long}, nil, shoptest.Roomy().Cut)
	if err != nil {
		t.Fatal(err)
	}
	if b := MarkOutOf(p, 0, layout, 16*mm).Blanks; len(b) != 1 || b[0].Length != 760*mm {
		t.Errorf("blanks %+v, want the panel of 760", b)
	}
	if none := MarkOutOf(j.Pattern, 0, outline.Layout{}, 16*mm); none.Hook != 0 || len(none.Marks) != 0 {
		t.Errorf("nothing to mark: %+v", none)
	}
}

// panelOf760 returns p with every strip from 0 to 760.
func panelOf760(p pattern.Pattern) pattern.Pattern {
	p.Strips = slices.Clone(p.Strips)
	for i := range p.Strips {
		p.Strips[i].Start, p.Strips[i].Length = 0, 760*mm
	}
	return p
}

// A good job gives notes only; each change reaches the caution named and its words.
func TestCautions(t *testing.T) {
	good := func() (Job, shop.Shop) {
		j := job(t, lantern())
		j.Minutes, j.Asked, j.Clamps = 600, 60, 10
		j.Label = Label{"trivet", "290 mm", []string{"hard maple"}, "oil", "D3", "A. Maker", "1 Lane", "a@example.com", "7", "2026-11-02", ""}
		return j, shoptest.Roomy()
	}
	find := func(change func(*Job, *shop.Shop)) []Caution {
		j, s := good()
		if change != nil {
			change(&j, &s)
		}
		r := physicsOf(s)
		return Cautions(r, j, Of(r, j), length.InMM)
	}
	for _, c := range find(nil) {
		if c.Level != pattern.Fine {
			t.Errorf("a good job: %+v", c)
		}
	}
	reached := map[string]bool{}
	for _, c := range cautionCases(t) {
		found := false
		for _, got := range find(c.change) {
			for _, word := range []string{"safe", "certified", "blow the", "blow and"} {
				if strings.Contains(strings.ToLower(got.Text), word) {
					t.Errorf("%s says %q: %s", got.Rule, word, got.Text)
				}
			}
			if got.Rule == c.rule && strings.Contains(got.String(), c.says) {
				found, reached[c.rule] = true, true
				if got.Level != c.level || got.Step == "" {
					t.Errorf("%s: %v at step %q, want %v", c.rule, got.Level, got.Step, c.level)
				}
			}
		}
		if !found {
			t.Errorf("no %s with %q in %+v", c.rule, c.says, find(c.change))
		}
	}
	for _, c := range (&bench{}).cautions() {
		if !reached[c.rule] {
			t.Errorf("%s is reached by no case", c.rule)
		}
	}
}

// A cautionCase is a change that reaches a caution, and a part of what it says.
type cautionCase struct {
	rule, says string
	level      pattern.Level
	change     func(*Job, *shop.Shop)
}

func cautionCases(t *testing.T) []cautionCase {
	t.Helper()
	block := pattern.Product{Shape: outline.Block, Length: 300 * mm, Width: 60 * mm, Count: 1, Hole: 41 * mm, Holes: 3, HoleDepth: 14 * mm, For: pattern.ForCandles}
	return []cautionCase{
		// At 20 C wood settles to 6.9 % in air of 35 % and to 12.0 in air of 65 (Wood Handbook, table 4-2): 9.5 between them.
		{"in_use", "glued at 11.6 % moisture and will live at about 9.5 %", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Pattern.Panel.Moisture = pattern.Read(11.6) }},
		{"in_use", "at 7.3 % moisture", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Pattern.Panel.Moisture = pattern.Read(7.3) }},
		{"hard_beside_soft", "times as hard as black cherry next to it", pattern.Fine, nil},
		{"colour_travels", "colour of black walnut can travel into hard maple", pattern.Fine, nil},
		{"glue_time", "12 glue lines take 14.0 min", pattern.TakeCare, func(_ *Job, s *shop.Shop) { s.Glue.SecondsJoint = 70 }},
		{"glue_cold", "at 4 °C, the glue needs 8 °C", pattern.TooMuch, func(_ *Job, s *shop.Shop) { s.Air.TemperatureC = 4 }},
		{"glue_class", "class D2", pattern.TakeCare, func(_ *Job, s *shop.Shop) { s.Glue.Class = 2 }},
		{"clamps", "8 clamps by force and reach, you have 3", pattern.Fine, func(j *Job, _ *shop.Shop) { j.Clamps = 3 }},
		{"wait", "planing 1 days after", pattern.TakeCare, func(_ *Job, s *shop.Shop) { s.Glue.WaitDays = 1 }},
		{"fit", "product 1: 1 does not fit: panel too short by", pattern.TooMuch, func(j *Job, _ *shop.Shop) { *j = with(t, *j, 3, 290*mm) }},
		{"fit", "product 1: 1 does not fit: panel too narrow by 5 mm", pattern.TooMuch, func(j *Job, _ *shop.Shop) { *j = with(t, *j, 1, 300*mm) }},
		{"fit", "product 1: none fits in rows", pattern.TooMuch, func(j *Job, _ *shop.Shop) { *j = with(t, *j, 0, 300*mm) }},
		{"edge_left", "only 2 mm of the edge stays", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Products[0].Bevel = 20 * mm }},
		{"no_edge", "no edge is left", pattern.TooMuch, func(j *Job, _ *shop.Shop) { j.Products[0].Bevel = 22 * mm }},
		{"floor_left", "only 5 mm left", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Products = []pattern.Product{block} }},
		{"floor_left", "comes through", pattern.TakeCare, func(j *Job, _ *shop.Shop) {
			b := block
			b.HoleDepth = 20 * mm
			j.Products = []pattern.Product{b}
		}},
		{"candles_apart", "holes 44.2 mm apart", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Products = []pattern.Product{block} }},
		{"candle_room", "30 cm clear around and 1 m above", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Products = []pattern.Product{block} }},
		{"unattended", "never leave a burning candle unattended", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Products = []pattern.Product{block} }},
		{"bare_wood", "metal or glass cup", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Products = []pattern.Product{block} }},
		{"cure", "let the glue cure before any machine", pattern.Fine, nil},
		{"scrape", "scrape dried glue off", pattern.Fine, nil},
		{"scrape", "a loose glue line or a step", pattern.Fine, nil},
		{"sanding_dust", "vacuum dust off, never blow it", pattern.Fine, nil},
		{"sanding_dust", "cancer of the nose (IARC group 1) and asthma", pattern.Fine, nil},
		{"router", "eye and ear protection", pattern.Fine, nil},
		{"router", "guards stay in place", pattern.Fine, nil},
		{"last_pass", "tape slips", pattern.Fine, nil},
		{"sleeves", "no gloves", pattern.Fine, func(j *Job, _ *shop.Shop) { j.Products = []pattern.Product{block} }},
		{"drill", "clamp the block", pattern.Fine, func(j *Job, _ *shop.Shop) { j.Products = []pattern.Product{block} }},
		{"router", "extraction", pattern.Fine, nil},
		{"last_pass", "wait for the cutter to stop", pattern.Fine, nil},
		{"sawn", "no lathe, no circle jig; at the bandsaw set the guard", pattern.Fine, func(j *Job, _ *shop.Shop) {
			j.Products = []pattern.Product{{Shape: outline.Oval, Length: 340 * mm, Width: 220 * mm, Count: 1}}
		}},
		{"small", "saw it outside the line and sand to it", pattern.TakeCare, func(j *Job, _ *shop.Shop) {
			j.Products = []pattern.Product{{Shape: outline.Oval, Length: 340 * mm, Width: 40 * mm, Count: 1}}
		}},
		{"small", "too small to hold", pattern.TakeCare, func(j *Job, _ *shop.Shop) { *j = with(t, *j, 1, 49*mm) }},
		{"cutter_reach", "must reach 31 mm deep", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Pattern.Panel.Thickness = 30 * mm }},
		{"blank", "a blank of 300 mm across is usual, the panel is 299 mm wide", pattern.TakeCare, func(j *Job, _ *shop.Shop) { *j = with(t, *j, 1, 295*mm) }},
		{"thin_wall", "only 5.5 mm of wood", pattern.TakeCare, func(j *Job, _ *shop.Shop) {
			b := block
			b.Hole = 49 * mm
			j.Products = []pattern.Product{b}
		}},
		{"no_wall", "no wood is left", pattern.TooMuch, func(j *Job, _ *shop.Shop) {
			b := block
			b.Hole, b.Holes = 50*mm, 6 // 6 x 50 are all of its 300
			j.Products = []pattern.Product{b}
		}},
		{"drying_oil", "catch fire by themselves", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.DryingOil = true }},
		{"rags", "mineral oil burn too", pattern.Fine, nil},
		{"wax", "water bath", pattern.Fine, nil},
		{"rack", "evenings are not known", pattern.Fine, func(_ *Job, s *shop.Shop) { s.Finish.RackWidth = 100 * mm }},
		{"label", "lacks postal address, batch", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Label.Address, j.Label.Batch = "", "" }},
		{"below_cost", "the price of 30.00 is below", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Asked = 30 }},
		{"break_even", "the job makes 8", pattern.TakeCare, func(_ *Job, s *shop.Shop) { s.Price.Stall = 500 }},
		{"break_even", "earns nothing", pattern.TakeCare, func(j *Job, _ *shop.Shop) { j.Asked = 3 }},
	}
}

// with returns j with so many rounds of another size, laid anew.
func with(t *testing.T, j Job, count int, diameter length.Length) Job {
	t.Helper()
	j.Products = []pattern.Product{{Shape: outline.Round, Diameter: diameter, Count: count}}
	layout, err := outline.Lay(j.Pattern, 20*mm, j.Products, nil, shoptest.Roomy().Cut)
	if err != nil {
		t.Fatal(err)
	}
	j.Layout = layout
	return j
}

// Budget: the figures and cautions of a job under 1 ms.
func BenchmarkFigures(b *testing.B) {
	j, r := job(b, lantern()), physics()
	for b.Loop() {
		Cautions(r, j, Of(r, j), length.InMM)
	}
}
