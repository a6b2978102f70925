package relief

import (
	"cmp"
	"math"
	"slices"
)

// Magnification returns by how much heights that lie so far apart, in micrometres, are drawn
// higher than they are where there is so much room for them, in mm of the section as it is
// drawn across: the largest factor that keeps them within it, or 1.
func Magnification(rangeUM, roomMM float64) int {
	factors := [...]int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000}
	best := factors[0]
	for _, f := range factors {
		if rangeUM*float64(f)/1000 <= roomMM {
			best = f
		}
	}
	return best
}

// At returns how far a face stands out at x, seen from there, and the band there.
func (s Season) At(f Face, x float64) (height, band float64) {
	c := curves{p: s.Profile, width: s.AtMM[len(s.AtMM)-1]}
	if f == Under {
		return -c.at(s.UnderUM, x), c.at(s.BandUM, x)
	}
	return c.at(s.TopUM, x), c.at(s.BandUM, x)
}

// GapUM returns the largest distance under a straightedge across a face.
func (f Figures) GapUM(face Face) float64 {
	if face == Under {
		return f.GapUnderUM
	}
	return f.GapTopUM
}

// Range returns between which heights a face stands, its band with it, seen from there.
func (s Season) Range(f Face) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, x := range s.AtMM {
		um, band := s.At(f, x)
		least, most = min(least, um-band), max(most, um+band)
	}
	return least, most
}

// RangeUM returns how far the heights of a face lie apart where that is most, of both faces
// in all seasons: what one magnification is chosen by.
func RangeUM(seasons []Season) float64 {
	most := 0.0
	for _, s := range seasons {
		for _, f := range [...]Face{Top, Under} {
			from, to := s.Range(f)
			most = max(most, to-from)
		}
	}
	return most
}

// Columns returns how far a face stands out in each of n columns as wide as one another, at
// its middle and seen from there, and the band there.
func (s Season) Columns(f Face, n int) (heights, band []float64) {
	width := s.AtMM[len(s.AtMM)-1]
	for i := range n {
		height, by := s.At(f, (float64(i)+0.5)*width/float64(n))
		heights, band = append(heights, height), append(band, by)
	}
	return heights, band
}

// leastStepUM is the least that is told of as a step: what is less is printed as nothing.
const leastStepUM = 0.5

// Worst returns the glue lines of the largest steps, from 1, at most so many, the largest
// first; what is no step is left out.
func (f Figures) Worst(most int) []int {
	var lines []int
	for i, l := range f.Lines {
		if l.StepUM >= leastStepUM {
			lines = append(lines, i+1)
		}
	}
	slices.SortStableFunc(lines, func(a, b int) int { return cmp.Compare(f.Lines[b-1].StepUM, f.Lines[a-1].StepUM) })
	return lines[:min(most, len(lines))]
}

// WorseFor returns the place of the season in which a face has the larger gap, the first of
// several.
func WorseFor(seasons []Season, f Face) int {
	worst := 0
	for i, s := range seasons {
		if s.GapUM(f) > seasons[worst].GapUM(f) {
			worst = i
		}
	}
	return worst
}
