package relief_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern/relief"
)

// Steps that finer elements of another program give, 0.8 mm each, for wood that is stiff
// alike in both directions (E 700 MPa, G 260 MPa, Poisson 0.35) and of which one of two
// timbers swells through the thickness: pattern/movement/testdata/relief_fe.csv; derived,
// not published. It states two decimals.
func TestStepsOfFinerElements(t *testing.T) {
	file, err := os.Open("../movement/testdata/relief_fe.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(text string) float64 {
		x, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	const free = 0.001
	worst := 0.0
	for _, row := range rows[1:] { // case, widths_mm, timbers, line, step_ratio
		s := relief.Section{ThicknessMM: 20}
		var run []int
		timbers := row[2]
		for i, width := range strings.Fields(row[1]) {
			strip := relief.Strip{WidthMM: number(width), Bark: relief.Direction{Z: 1}, Free: []relief.Strain{{}},
				Elastic: relief.Elastic{RadialMPa: 700, TangentialMPa: 700, ShearMPa: 260, CrossPerMPa: -0.35 / 700}}
			if timbers[i] == 'b' {
				strip.Free[0].Radial = free
			}
			s.Strips = append(s.Strips, strip)
			switch {
			case i == 0:
				run = append(run, 0)
			case timbers[i] == timbers[i-1]:
				run = append(run, run[i-1])
			default:
				run = append(run, run[i-1]+1)
			}
		}
		line := int(number(row[3]))
		step := s.Figures(s.Profiles(1)[0], run).Lines[line-1].StepUM
		off := step/(500*s.ThicknessMM*free) - number(row[4])
		worst = max(worst, math.Abs(off))
		if math.Abs(off) > 0.03 {
			t.Errorf("case %s line %d: %.3f off %s", row[0], line, off, row[4])
		}
	}
	if len(rows) != 32 {
		t.Errorf("%d cases, want 31", len(rows)-1)
	}
	t.Logf("worst %.3f off", worst)
}
