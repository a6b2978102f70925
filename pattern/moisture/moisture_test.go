package moisture_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"example.com/oddments/pattern/moisture"
)

// USDA Wood Handbook FPL-GTR-190 (2010), table 4-2, as reprinted in Celsius: every
// cell that was read in the reprint must come out within 0.06 points, which is the
// rounding of the printed table.
func TestEquilibriumAgainstWoodHandbookTable42(t *testing.T) {
	f, err := os.Open("testdata/emc.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range rows[1:] {
		if row[7] != "verified" {
			continue
		}
		air := moisture.Air{TemperatureC: number(t, row[0]), HumidityPct: number(t, row[1])}
		if got, want := air.EquilibriumPct(), number(t, row[2]); math.Abs(got-want) > 0.06 {
			t.Errorf("%v: %.3f percent, table 4-2 says %.1f", air, got, want)
		}
		checked++
	}
	if checked != 192 {
		t.Errorf("%d verified cells checked, want 192", checked)
	}
}

// Wood takes up more moisture from damper air and less from warmer air; over the
// whole range that a shop file may name the figure stays finite.
func TestEquilibriumIsMonotone(t *testing.T) {
	for temperature := -10.0; temperature <= 60; temperature += 5 {
		last := -1.0
		for humidity := 0.0; humidity <= 100; humidity++ {
			got := moisture.Air{TemperatureC: temperature, HumidityPct: humidity}.EquilibriumPct()
			if math.IsNaN(got) || got <= last || got > 40 {
				t.Fatalf("%v C, %v percent: %v after %v", temperature, humidity, got, last)
			}
			last = got
		}
	}
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
