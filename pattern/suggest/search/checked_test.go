package search

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
)

// Layouts keep the rules they were asked for when package check, which knows nothing of
// suggestions, computes the finished pattern; and no layout comes twice, nor its mirror
// image.
func TestLayoutsAgainstCheck(t *testing.T) {
	rng := rand.New(rand.NewPCG(31, 7))
	r := physics()
	layouts, lines, kept, symmetric, free := 0, 0, 0, 0, 0
	for n := range byDayOrNight(35, 70) {
		a := pileOf(uint64(100+n), 4+rng.IntN(8), 14+rng.IntN(14), length.Length(120+rng.IntN(120))*mm)
		a.Level = pattern.Level(rng.IntN(3))
		a.Aim = []suggest.Aim{suggest.Contrast, suggest.UseUp}[rng.IntN(2)]
		a.Symmetric, a.NoTwins = rng.IntN(4) == 0, rng.IntN(3) == 0
		answer, err := Solve(t.Context(), r, a, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		var before [][]pattern.Strip
		for i, l := range answer.Layouts {
			layouts++
			p := a.Pattern(l)
			report := check.Of(r, p, length.InMM)
			lines += len(report.Figures.Lines)
			kept += checkLines(t, r, a, l, report)
			if w := report.Figures.Width; w != l.Width || w < a.Width-a.Tolerance || w > a.Width+a.Tolerance {
				t.Fatalf("case %d layout %d: %v wide, said %v", n, i+1, w, l.Width)
			}
			mirror := slices.Clone(p.Strips)
			slices.Reverse(mirror)
			if same := slices.Equal(mirror, p.Strips); same != l.Mirror() || a.Symmetric && !same {
				t.Fatalf("case %d layout %d: mirror image %v, said %v", n, i+1, same, l.Mirror())
			} else if same {
				symmetric++
			} else {
				free++
			}
			for _, b := range before {
				if slices.Equal(b, p.Strips) || slices.Equal(b, mirror) {
					t.Fatalf("case %d: layout %d came before, or its mirror image did", n, i+1)
				}
			}
			before = append(before, p.Strips)
		}
	}
	t.Logf("%d layouts, %d of %d lines at most at the level in the whole panel too; %d mirror images of themselves", layouts, kept, lines, symmetric)
	if kept*20 < lines*19 {
		t.Error("the level that is asked for says too little of the whole panel")
	}
	if layouts < 50 || lines < 500 || symmetric < 10 || free < 40 {
		t.Error("too few cases of one sort")
	}
}

// checkLines holds every glue line to the ask, and returns how many of them check too, which
// looks at the whole panel, finds at a level as low as asked for.
func checkLines(t *testing.T, r movement.Physics, a suggest.Request, l suggest.Layout, report check.Report) (kept int) {
	t.Helper()
	level, least, sum := pattern.Fine, math.Inf(1), 0.0
	lines := report.Figures.Lines
	for i, line := range lines {
		left, right := l.Strips[i], l.Strips[i+1]
		level, least, sum = max(level, line.Level), min(least, line.Contrast), sum+line.Contrast
		if a.Aim == suggest.UseUp && line.Contrast < a.LeastContrast {
			t.Fatalf("line %d has contrast %v, asked %v", i+1, line.Contrast, a.LeastContrast)
		}
		if a.NoTwins && left.Species == right.Species {
			t.Fatalf("line %d lies between twins", i+1)
		}
		pair, _ := r.Pair(a.Panel(), a.Pattern(l).Strips[i], a.Pattern(l).Strips[i+1])
		if pair.Level > a.Level {
			t.Fatalf("line %d is %v, asked %v", i+1, pair.Level, a.Level)
		}
		if line.Level <= a.Level {
			kept++
		}
	}
	if level != l.Level || least != l.SmallestContrast || math.Abs(sum-l.TotalContrast) > 1e-9 {
		t.Fatalf("check has %v, %v, %v; said %v, %v, %v", level, least, sum, l.Level, l.SmallestContrast, l.TotalContrast)
	}
	return kept
}
