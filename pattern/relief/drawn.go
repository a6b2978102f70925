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

// heights returns how far a face stands out at each point, seen from there.
func (p Profile) heights(f Face) []float64 {
	if f == Top {
		return p.TopUM
	}
	out := make([]float64, len(p.UnderUM))
	for i, um := range p.UnderUM {
		out[i] = -um
	}
	return out
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
	for i, um := range s.heights(f) {
		least, most = min(least, um-s.BandUM[i]), max(most, um+s.BandUM[i])
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
	c, face := curves{p: s.Profile, width: width}, s.heights(f)
	for i := range n {
		x := (float64(i) + 0.5) * width / float64(n)
		heights, band = append(heights, c.at(face, x)), append(band, c.at(s.BandUM, x))
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
