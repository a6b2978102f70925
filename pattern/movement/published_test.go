package movement

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/moisture"
	"example.com/oddments/species"
)

func table(t *testing.T, path string) []map[string]string {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		record := map[string]string{}
		for i, name := range rows[0] {
			record[name] = row[i]
		}
		out = append(out, record)
	}
	return out
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// Worked examples of handbooks and trade papers; the source of each stands in its
// row of worked_examples.csv. The tolerance is half the last digit that the source
// prints, or says why it is wider.
func TestWorkedExamples(t *testing.T) {
	fsp := species.Species{}.FSP()
	change := func(width, c, from, to float64) float64 { return width * FreeChange(c, fsp, from, to) }
	beech := timber(t, "european_beech")
	for _, c := range []struct {
		id        string
		got       float64 // in the unit of stated_answer
		tolerance float64
	}{
		{"wh13_white_fir_width", change(232, 0.00245, 8, 11), 0.05},
		{"wh13_white_fir_final", 232 + change(232, 0.00245, 8, 11), 0.05},
		{"wh13_white_fir_inch", change(9.15, 0.00245, 8, 11), 0.0005},
		// "the handbook itself uses C_R for the thickness of a flat-sawn board"
		{"wh13_white_fir_thickness_coeff", through(0.00112, 0.00245, 0), 0},
		{"nwfa_white_oak", change(5, timber(t, "white_oak").CT, 6, 9), 0.0005},
		{"nwfa_mesquite", change(5, 0.00129, 6, 9), 0.0005},
		{"trade_mag_red_alder", change(8, 0.0026, 6, 12), 0.00005},
		{"wengert_flatsawn_6in", change(6, 0.0025, 7, 8), 0.0005},
		{"wengert_rule_flat", FreeChange(0.0025, fsp, 7, 11) / 4, 1e-9},
		{"wengert_rule_quarter", FreeChange(0.01/7, fsp, 7, 14) / 7, 0.000005},
		{"awc_rule", FreeChange(0.0025, fsp, 7, 8), 1e-9},
		// "nearly one half inch", "under one quarter inch": upper bounds of the source.
		{"beech_tabletop_flat", change(38, across(beech.CR, beech.CT, 0), 7, 10), 0.025},
		{"beech_tabletop_quarter", change(38, across(beech.CR, beech.CT, 90), 7, 10), 0.025},
		// Rounded to a whole percent in the source, at room temperature.
		{"wengert_emc_30", moisture.Air{TemperatureC: 21.1, HumidityPct: 30}.EquilibriumPct(), 0.5},
		{"wengert_emc_50", moisture.Air{TemperatureC: 21.1, HumidityPct: 50}.EquilibriumPct(), 0.5},
		{"wengert_emc_65", moisture.Air{TemperatureC: 21.1, HumidityPct: 65}.EquilibriumPct(), 0.5},
		{"wengert_emc_80", moisture.Air{TemperatureC: 21.1, HumidityPct: 80}.EquilibriumPct(), 0.5},
		{"simpson_21_60", moisture.Air{TemperatureC: 21.1, HumidityPct: 60}.EquilibriumPct(), 0.05},
		{"simpson_21_25", moisture.Air{TemperatureC: 21.1, HumidityPct: 25}.EquilibriumPct(), 0.05},
	} {
		found := false
		for _, row := range table(t, "testdata/worked_examples.csv") {
			if row["id"] != c.id {
				continue
			}
			found = true
			if want := number(t, row["stated_answer"]); math.Abs(c.got-want) > c.tolerance+1e-12 {
				t.Errorf("%s: %v, stated %v (%s)", c.id, c.got, want, row["source"])
			}
		}
		if !found {
			t.Errorf("%s is not in the table", c.id)
		}
	}
}

// Wood Handbook FPL-GTR-190 (2010): the coefficients of table 13-5 are the total
// shrinkages of table 4-3 put through eq. 13-3. So drying from 10 percent to
// nothing by eq. 13-3 must take back what S took from green: (1 - S/100)(1 + d) of
// the green size is the size at 10 percent.
func TestEquation133AgainstTable43(t *testing.T) {
	for _, c := range []struct {
		name  string
		s, c5 float64 // table 4-3 in percent, table 13-5
	}{
		{"black walnut, radial", 5.5, 0.00190},
		{"black walnut, tangential", 7.8, 0.00274},
		{"sugar maple, radial", 4.8, 0.00165},
		{"sugar maple, tangential", 9.9, 0.00353},
		{"black cherry, radial", 3.7, 0.00126},
		{"black cherry, tangential", 7.1, 0.00248},
		{"white oak, radial", 5.6, 0.00180}, // table 13-5 lumps the group: C of 5.3
		{"American beech, tangential", 11.9, 0.00431},
	} {
		// eq. 13-3 with D_I at 10 percent and F = 30
		want := 10 / (100*30/c.s - 30 + 10)
		got := FreeChange(c.c5, 30, 10, 0)
		tolerance := 10 * 0.000006 // half a unit in the fifth decimal of C, and the table's rounding
		if c.name == "white oak, radial" {
			tolerance = 10 * 0.00014
		}
		if math.Abs(got+want) > tolerance {
			t.Errorf("%s: %.5f from table 13-5, %.5f from table 4-3", c.name, got, -want)
		}
	}
}

// The two rules of the Wood Handbook agree to 1.4 percent where they meet, and wood
// does not move above its fibre saturation point.
func TestFreeChangeOutsideTheLinearRange(t *testing.T) {
	const c = 0.00353
	inside, outside := FreeChange(c, 30, 6, 14), FreeChange(c, 30, 5.999999, 14)
	if ratio := outside / inside; math.Abs(ratio-1) > 0.0145 {
		t.Errorf("the rules differ by %.2f percent at 6 percent", 100*(ratio-1))
	}
	if got := FreeChange(c, 22, 25, 30); got != 0 {
		t.Errorf("wood above fibre saturation moves by %v", got)
	}
	if got, want := FreeChange(c, 22, 10, 30), FreeChange(c, 22, 10, 22); got != want {
		t.Errorf("to 30 percent %v, to fibre saturation %v", got, want)
	}
}

func timber(t *testing.T, key string) species.Species {
	t.Helper()
	s, ok := species.Builtin().Get(key)
	if !ok {
		t.Fatalf("no %s in the table", key)
	}
	return s
}

// A round's strips laid flat-sawn keep flush lines better than quarter-sawn ones, and
// quarter-sawn ones keep their width better (common practice, no source).
func TestTradeFacts(t *testing.T) {
	for _, s := range species.Builtin().All() {
		if !s.Moves() {
			continue
		}
		if through(s.CR, s.CT, 0) >= through(s.CR, s.CT, 90) {
			t.Errorf("%s: flat moves no less through the thickness than quarter", s.Key)
		}
		if across(s.CR, s.CT, 90) >= across(s.CR, s.CT, 0) {
			t.Errorf("%s: quarter moves no less across the width than flat", s.Key)
		}
	}
	if got := pattern.RingsFlat().Rolled(); got != pattern.RingsQuarter() {
		t.Errorf("flat rolled a quarter turn is %v", got)
	}
}
