package work

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

const mm = length.Millimetre

// worked reads the worked examples. They are common practice and arithmetic, without
// a source, unless a case says otherwise.
func worked(t *testing.T) map[string][2]string {
	t.Helper()
	f, err := os.Open("testdata/worked.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][2]string{}
	for _, row := range rows[1:] {
		out[row[0]] = [2]string{row[4], row[5]} // answer, note
	}
	return out
}

// tableWith returns the built-in table with a timber of such a density and movement.
func tableWith(t testing.TB, key string, density, cr, ct float64) *species.Table {
	t.Helper()
	table, err := species.Builtin().With([]species.Species{{Key: key, DensityKgM3: density, CR: cr, CT: ct,
		Sources: map[string]species.Source{"density_kg_m3": {}, "cr": {}, "ct": {}}}})
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// oval returns by how much the disc of the example turns oval for four points.
func oval(t *testing.T, rings pattern.Rings) float64 {
	t.Helper()
	// Coefficients of hard maple, Wood Handbook table 13-5, from memory in the example.
	r := movement.New(tableWith(t, "maple_of_the_example", 700, 0.00165, 0.00353), shoptest.Roomy())
	p := pattern.Pattern{Panel: pattern.Panel{Length: 400 * mm, Thickness: 25 * mm,
		Flattened: pattern.Read(r.EquilibriumPct(movement.Humid) - 4)}}
	for range 16 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "maple_of_the_example", Width: 20 * mm, Rings: rings})
	}
	got := OutOfRound(r, Job{Pattern: p}, pattern.Product{Shape: outline.Round, Diameter: 300 * mm}, outline.Placed{Side: 10 * mm}, movement.Humid)
	if !got.Known {
		t.Fatal("not known")
	}
	return got.Value
}

func TestWorkedExamples(t *testing.T) {
	rows := worked(t)
	disc := pattern.Product{Shape: outline.Round, Diameter: 300 * mm, Bevel: 10 * mm, BevelSide: pattern.BevelTop}
	rectangle := pattern.Product{Shape: outline.Rectangle, Length: 400 * mm, Width: 300 * mm, Bevel: 10 * mm}
	cut := shop.Default().Cut
	six := shop.Cut{Pass: 6 * mm}
	const psi, lbf = 0.00689476, 4.44822 // MPa, N
	published := ClampForceN(150*psi, 25*length.Inch, length.Inch)
	top, _ := faces(disc)
	holes := pattern.Product{Shape: outline.Block, Length: 400 * mm, Hole: 41 * mm, Holes: 5}
	centres, gap := HoleCentres(holes)
	centresText := ""
	for _, c := range centres {
		centresText += fmt.Sprintf(" %.1f", c.MM())
	}
	area := 11 * length.AreaCM2(450*mm, 28*mm) / 1e4
	maple := movement.New(tableWith(t, "seven_hundred", 700, 0, 0), shoptest.Roomy())
	plain := pattern.Pattern{Panel: pattern.Panel{Thickness: 25 * mm}, Strips: []pattern.Strip{
		{Species: "seven_hundred", Width: 100 * mm}, {Species: "seven_hundred", Width: 210 * mm}}}
	weight := WeightKg(maple, Job{Pattern: plain}, pattern.Product{Shape: outline.Round, Diameter: 300 * mm}, outline.Placed{Side: 5 * mm})
	cases := map[string][]string{ // what must stand in the answer or its note
		"G1": {fmt.Sprintf("%.0f N", ClampForceN(1.2, 450*mm, 28*mm))},
		"G2": {fmt.Sprintf("%d |", ClampsByForce(15120, 3025)), fmt.Sprintf("trigger 2091 N: %d", ClampsByForce(15120, 2091)),
			fmt.Sprintf("parallel 1646 N: %d", ClampsByForce(15120, 1646)), fmt.Sprintf("pipe 4671 N: %d", ClampsByForce(15120, 4671))},
		"G3": {fmt.Sprintf("%d |", ClampsByReach(450*mm, 60*mm))},
		// Published: a woodworking magazine of 2021.
		"G1b": {fmt.Sprintf("%.0f lbf", published/lbf), fmt.Sprintf("%d at 420", ClampsByForce(published, 420*lbf)),
			fmt.Sprintf("%d at 470", ClampsByForce(published, 470*lbf))},
		"G5": {fmt.Sprintf("%.1f g", GlueGrams(area, shop.Default().Glue)), fmt.Sprintf("area %.4f m2", area)},
		"G6": {fmt.Sprintf("%.2f point", WaterPoints(180, 0.5, 25*mm, 650))},
		"C4": {MaleTemplate(300*mm, cut).String()}, // offset of bush and cutter read in two question pages
		"C5": {FemaleTemplate(300*mm, cut).String()},
		"C6": {HoleTemplate(300*mm, cut).String()},
		"C7": {fmt.Sprintf("%d passes", Passes(25*mm, six)), fmt.Sprintf("path %.2f m", PathM(disc, 12*mm, Passes(25*mm, six)))},
		"C8": {fmt.Sprintf("%.2f mm", BevelFaceMM(10*mm)), "edge " + EdgeLeft(disc, 25*mm).String(),
			"top " + (disc.Diameter - top).String(), fmt.Sprintf("%.1f cm3", BevelCM3(disc))},
		"C9":  {fmt.Sprintf("%.1f cm3", BevelCM3(rectangle))},
		"C12": {fmt.Sprintf("gap %.1f", gap.MM()), "centres" + centresText},
		"A1": {fmt.Sprintf("%.4f m2", FinishM2(disc, 25*mm)),
			fmt.Sprintf("rectangle 400 x 300 x 25: %.4f m2", FinishM2(rectangle, 25*mm))},
		"M1": {fmt.Sprintf("%.3f kg", weight.Value)},
		"P3": {fmt.Sprintf("%.0f pieces", BreakEven(80, 55, 2, 17).Value)},
		"O1": {fmt.Sprintf("%.1f mm if flat-sawn", oval(t, pattern.RingsFlat())),
			fmt.Sprintf("%.1f mm if quarter-sawn", oval(t, pattern.RingsQuarter()))},
	}
	elsewhere := map[string]string{
		"R1": "package cutting", "R2": "package cutting", "S1": "second glue-ups", "S2": "second glue-ups", "S3": "second glue-ups", "S4": "second glue-ups",
		"C1": "package outline", "C2": "package outline", "C3": "package outline", "C10": "no round-over among the products",
		"C11": "no groove among the products", "C13": "no holes by their distance among the products", "M2": "package length", "J1": "gluing up out of square",
	}
	for id, row := range rows {
		wants, ok := cases[id]
		if !ok {
			if elsewhere[id] == "" {
				t.Errorf("%s is checked nowhere", id)
			}
			continue
		}
		text := row[0] + " | " + row[1]
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%s: reckoned %q, the example has %q", id, want, text)
			}
		}
	}
	for id := range cases {
		if _, ok := rows[id]; !ok {
			t.Errorf("no example %s", id)
		}
	}
}

// A recipe of 71 g of wax and 355 ml of oil is 1 to 4.3 by mass: derived from pages
// that mix mass and volume. By the house blend 300 g are 100 of wax and 200 of oil.
func TestBlendGoesByMass(t *testing.T) {
	s := shop.Default().Finish
	if ratio := 355 * s.OilDensity / 71; math.Abs(ratio-4.3) > 0.06 {
		t.Errorf("the recipe is 1 to %.2f", ratio)
	}
	if wax, oil := s.WaxToOil.Blend(300); wax != 100 || oil != 200 {
		t.Errorf("300 g are %v of wax and %v of oil", wax, oil)
	}
	if wax, oil := (shop.Ratio{}).Blend(300); wax != 0 || oil != 0 {
		t.Error("no ratio, yet a blend")
	}
}
