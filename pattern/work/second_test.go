package work

import (
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/second/secondtest"
	"example.com/oddments/pattern/shop/shoptest"
)

// workedBoard returns the job of a worked second glue-up, with products.
func workedBoard(t *testing.T, name string, products ...pattern.Product) (Job, secondtest.Answer) {
	t.Helper()
	cases, _, err := secondtest.Stored()
	i := slices.IndexFunc(cases, func(c secondtest.Case) bool { return c.Name == name })
	if err != nil || i < 0 {
		t.Fatalf("%s: %v", name, err)
	}
	p, err := secondtest.Read(cases[i].TOML)
	if err != nil {
		t.Fatal(err)
	}
	p.Products = products
	j, err := JobOf(physics(), p, 2)
	if err != nil {
		t.Fatal(err)
	}
	return j, cases[i].Answer
}

// What a glue-up takes is held against the worked ones, here for two boards.
func TestSecondFigures(t *testing.T) {
	for _, name := range []string{"stripes", "chequer", "brick", "chevron-45", "three-glue-ups", "diamonds", "too-many"} {
		j, want := workedBoard(t, name)
		got := Of(physics(), j).Second
		if len(got) != len(want.Work) {
			t.Fatalf("%s: %d glue-ups", name, len(got))
		}
		for i, w := range want.Work {
			if got[i].Joints != w.Joints || got[i].Stages != known(float64(w.Stages)) || got[i].Clamps != known(float64(w.Clamps)) {
				t.Errorf("%s: %+v, want %+v", name, got[i], w)
			}
			near(t, name+" area", got[i].AreaM2, 2*w.AreaM2, 1e-9)
			near(t, name+" grams", got[i].Grams, 2*w.Grams, 1e-6)
			near(t, name+" minutes", got[i].Minutes, w.Minutes, 1e-9)
		}
	}
}

// Products lie on the board: their size, weight, growth and timbers are its own.
func TestProductsOfABoard(t *testing.T) {
	round := pattern.Product{Shape: outline.Round, Diameter: 100 * mm, Count: 2}
	j, want := workedBoard(t, "chequer", round)
	if len(j.Layout.Placed) != 2 || j.Layout.OwnLengths != nil || j.Layout.Left.Width != 300*mm {
		t.Fatalf("%+v", j.Layout)
	}
	r := physics()
	at := j.Layout.Placed[0]
	for season, s := range want.Seasons {
		near(t, "out of round", OutOfRound(r, j, round, at, movement.Season(season)).Value, s.Round100MM, 1e-6)
	}
	// Half maple at 706 kg/m3 and half walnut at 616, 38 mm thick.
	near(t, "weight", WeightKg(r, j, round, at).Value, 0.25*3.14159265*0.1*0.1*0.038*661, 1e-4)
	all := strings.Join(Texts(MarkLines(r, j, length.InMM)), "\n")
	for _, text := range []string{
		"second glue-up 1, cut: the panel, squared and flattened, 704 mm long and 300 mm wide",
		"second glue-up 1, near side of each bar, along edge A: 0, 44.2, 88.4,",
		"lay them: bars 1, 3, 5, 7, 9, 11, 13, 15 as cut; bars 2, 4, 6, 8, 10, 12, 14, 16 end for end",
		"second glue-up 1, board: 400 x 300 x 38 mm",
		"measure: lengths from the board's datum end",
		"bound by the board's end",
	} {
		if !strings.Contains(all, text) {
			t.Errorf("no %q in\n%s", text, all)
		}
	}
	small := pattern.Product{Shape: outline.Rectangle, Length: 10 * mm, Width: 10 * mm, Count: 1}
	j, _ = workedBoard(t, "chequer", small)
	j.Layout.Placed[0].From, j.Layout.Placed[0].Side = 30*mm, 5*mm
	if labels := Labels(r.Table(), j, length.InMM); len(labels[0].Timbers) != 1 || !strings.HasPrefix(labels[0].Timbers[0], "black walnut") {
		t.Errorf("%v is in the second cell of a chequer", labels[0].Timbers)
	}
	if whole, _ := workedBoard(t, "chequer"); whole.Makes()[0].Width != 300*mm || whole.Makes()[0].Length != 400*mm || whole.Called(1) != "board" {
		t.Errorf("the board is no product: %+v", whole.Makes())
	}
	p := j.Pattern
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 100 * mm, Count: 1, Centre: pattern.Centre{Strip: 1}}}
	if _, err := JobOf(r, p, 1); err == nil || !strings.Contains(err.Error(), "centre strip 1: must be panel") {
		t.Errorf("a product about a strip of a board: %v", err)
	}
}

// End grain drinks three times the oil on its two faces, and the wait counts both times.
func TestFinishOfABoard(t *testing.T) {
	j, _ := workedBoard(t, "chequer")
	f := Of(physics(), j)
	// 400 x 300 faces, 1400 mm of edge 38 high.
	area := 2*0.4*0.3 + 1.4*0.038
	near(t, "area", f.Finish.AreaM2, 2*area, 1e-9)
	near(t, "oil", f.Finish.OilMl, 2*(area+2*2*0.4*0.3)*60*3, 1e-6)
	if tt, _ := LastStart(pattern.Date{Year: 2026, Month: 12, Day: 5}, j, f, shoptest.Roomy().Glue); tt.Glue != 8 {
		t.Errorf("%d days of glue, want a day and three of wait, twice", tt.Glue)
	}
	flat, _ := workedBoard(t, "chevron-45")
	g := Of(physics(), flat).Finish
	near(t, "oil of long grain", g.OilMl, g.AreaM2*60*3, 1e-6)
}

// The cautions stand at their own step, and each only where it is of use.
func TestSecondCautions(t *testing.T) {
	rules := func(name string) (all []string) {
		j, _ := workedBoard(t, name)
		r := physics()
		for _, c := range Cautions(r, j, Of(r, j), length.InMM) {
			if c.Step == StepSecond || strings.Contains(c.Rule, "oil") {
				all = append(all, c.Rule)
			}
		}
		return slices.Compact(all)
	}
	common := []string{"second_ready", "second_saw", "second_order"}
	if got, want := rules("chequer"), append(slices.Clone(common), "second_dry", "second_wait", "end_grain", "second_oil", "end_grain_oil"); !slices.Equal(got, want) {
		t.Errorf("chequer: %v, want %v", got, want)
	}
	if got, want := rules("chevron-45"), append(slices.Clone(common), "second_mitre", "second_dry", "second_size", "second_wait", "second_short", "second_oil"); !slices.Equal(got, want) {
		t.Errorf("chevron: %v, want %v", got, want)
	}
	if j := job(t); len((&bench{job: j}).second()) != 0 {
		t.Error("a panel has cautions of a second glue-up")
	}
}

func TestNeedLines(t *testing.T) {
	j, _ := workedBoard(t, "chequer")
	takes := shoptest.Roomy().Takes()
	all := strings.Join(Texts(NeedLines(j.Pattern, second.Size{Length: 410 * mm, Width: 305 * mm, Thickness: 40 * mm}, 0, takes, length.InMM)), "\n")
	for _, text := range []string{"bars: 17, each 43 mm wide as sawn", "panel: 782.2 x 306 x 25 mm", "comes out larger by: 15 mm in length, 1 mm in width"} {
		if !strings.Contains(all, text) {
			t.Errorf("no %q in\n%s", text, all)
		}
	}
	j.Pattern.Seconds = nil
	if l := NeedLines(j.Pattern, second.Size{Length: mm, Width: mm, Thickness: mm}, 0, takes, length.InMM); !strings.Contains(l[0].Text, "not exactly one") {
		t.Errorf("%+v", l)
	}
}
