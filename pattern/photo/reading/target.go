package reading

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/tell"
)

// An Edition is the year of the published values of the target.
type Edition int

// The editions of the target's values.
const (
	Edition2005 Edition = iota
	Edition2014
)

// String returns 2005 or 2014.
func (e Edition) String() string { return tell.Word(e, "edition", "2005", "2014") }

// The target of McCamy, Marcus and Davidson 1976 (Journal of Applied Photographic
// Engineering 2(3)) has four rows of six patches; the last row is grey, white first.
const (
	patchColumns = 6
	patchRows    = 4
	patchCount   = patchColumns * patchRows
	firstGrey    = patchCount - patchColumns
)

// target24 has the CIELAB values under D50 that the target's maker published, in 2005 and for
// targets made from November 2014.
//
//go:embed target24.csv
var target24 string

// published returns XYZ under daylight of the patches.
func published(e Edition) ([patchCount]photo.Triple, error) {
	const name, perEdition, percent = 1, 3, 100
	var out [patchCount]photo.Triple
	lines, err := csv.NewReader(strings.NewReader(target24)).ReadAll()
	if err != nil {
		return out, fmt.Errorf("values of the target: %w", err)
	}
	fromD50, white := photo.FromD50(), photo.D50()
	for i, line := range lines[1:] {
		var lab photo.Triple
		for j := range lab {
			if lab[j], err = strconv.ParseFloat(line[name+perEdition*int(e)+j], 64); err != nil {
				return out, fmt.Errorf("values of the target: %w", err)
			}
		}
		x, y, z := colorful.LabToXyzWhiteRef(lab[0]/percent, lab[1]/percent, lab[2]/percent, white)
		out[i] = fromD50.Times(photo.Triple{x, y, z})
	}
	return out, nil
}

// linear returns XYZ as linear sRGB, not clamped.
func linear(xyz photo.Triple) photo.Triple {
	r, g, b := colorful.XyzToLinearRgb(xyz[0], xyz[1], xyz[2])
	return photo.Triple{r, g, b}
}

// A patch is what was read of one patch, in the order of the published ones.
type patch struct {
	read, xyz photo.Triple // linear sRGB, and the published XYZ
	out       bool
}

const targetRemedy = "take the photo again with the target flat, in the same light, neither too bright nor too dark"

// byTarget fits a curve for each channel through the greys, then a matrix to XYZ through all.
func (r *Reader) byTarget() error {
	const most = 8
	patches, err := r.readTarget()
	if err != nil {
		return err
	}
	var cubics [3]cubic
	for channel := range cubics {
		if cubics[channel], err = fitCubic(patches, channel); err != nil {
			return err
		}
	}
	through := func(xyz photo.Triple) photo.Triple {
		l := linear(xyz)
		return photo.Triple{cubics[0].at(l[0]), cubics[1].at(l[1]), cubics[2].at(l[2])}
	}
	matrix := fitMatrix(patches, cubics)
	var sum, n float64
	for _, p := range patches {
		if p.out {
			continue
		}
		got := matrix.Times(photo.Triple{cubics[0].at(p.read[0]), cubics[1].at(p.read[1]), cubics[2].at(p.read[2])})
		sum, n = sum+colour.LabOfXYZ(got).Difference(colour.LabOfXYZ(p.xyz)), n+1
	}
	if r.Target = sum / n; !(r.Target <= most) {
		return refuse("target", targetRemedy, "its patches lie %.0f off in the mean", r.Target)
	}
	bright := func(x, y float64) photo.Triple { return photo.Triple{1, 1, 1} }
	if len(r.setup.White) > 0 {
		l, err := r.readLight(through)
		if err != nil {
			return err
		}
		middle := l.at(r.setup.Target.middle())
		bright = func(x, y float64) photo.Triple { return over(l.at(x, y), middle) }
	}
	r.correct = func(pixel photo.Triple, x, y float64) photo.Triple {
		return matrix.Times(over(through(pixel), bright(x, y)))
	}
	return nil
}

// readTarget reads the patches and finds how the target lies.
func (r *Reader) readTarget() ([patchCount]patch, error) {
	const leastLikeness, leastPatches = 0.9, 18
	var best [patchCount]patch
	b := *r.setup.Target
	if _, err := r.pixels(b, "target"); err != nil {
		return best, err
	}
	xyz, err := published(r.setup.Edition)
	if err != nil {
		return best, err
	}
	likeness := math.Inf(-1)
	for _, turn := range turns(b) {
		var patches [patchCount]patch
		for i := range patches {
			column, columns, row, rows := turn(i)
			if patches[i], err = r.readPatch(b, column, columns, row, rows); err != nil {
				return best, err
			}
			patches[i].xyz = xyz[i]
		}
		if l := alike(patches); l > likeness {
			best, likeness = patches, l
		}
	}
	if !(likeness >= leastLikeness) {
		return best, refuse("target", "set its box by the outer edges of its patches", "it does not look like the target of 24 patches")
	}
	left := 0
	for i, p := range best {
		if !p.out {
			left++
		} else if i >= firstGrey {
			return best, refuse("target", targetRemedy, "grey patch %d is too bright or too dark", i-firstGrey+1)
		}
	}
	if left < leastPatches {
		return best, refuse("target", targetRemedy, "only %d of its 24 patches can be read", left)
	}
	return best, nil
}

// turns lists the two ways that the target can lie in a box: where its patch i is.
func turns(b Box) []func(i int) (column, columns, row, rows int) {
	if b.H > b.W {
		return []func(int) (int, int, int, int){
			func(i int) (int, int, int, int) {
				return patchRows - 1 - i/patchColumns, patchRows, i % patchColumns, patchColumns
			},
			func(i int) (int, int, int, int) {
				return i / patchColumns, patchRows, patchColumns - 1 - i%patchColumns, patchColumns
			},
		}
	}
	return []func(int) (int, int, int, int){
		func(i int) (int, int, int, int) { return i % patchColumns, patchColumns, i / patchColumns, patchRows },
		func(i int) (int, int, int, int) {
			return patchColumns - 1 - i%patchColumns, patchColumns, patchRows - 1 - i/patchColumns, patchRows
		},
	}
}

// readPatch reads the middle of one cell of the target.
func (r *Reader) readPatch(b Box, column, columns, row, rows int) (patch, error) {
	const from, to, most = 0.3, 0.7, 0.02
	middle := func(start, size, at, of int) (int, int) {
		step := float64(size) / float64(of)
		first := int(math.Ceil(float64(start) + step*(float64(at)+from)))
		return first, int(math.Floor(float64(start)+step*(float64(at)+to))) - first
	}
	var p Box
	p.X, p.W = middle(b.X, b.W, column, columns)
	p.Y, p.H = middle(b.Y, b.H, row, rows)
	if p.W < 1 || p.H < 1 {
		return patch{}, refuse("target", "take the photo from nearer", "it is too small in the photo")
	}
	var list []sample
	out := 0
	for y := p.Y; y < p.Y+p.H; y++ {
		for x := p.X; x < p.X+p.W; x++ {
			px := r.photo.At(x, y)
			if px.Out() {
				out++
			}
			xyz := r.photo.XYZ(px.Coded)
			list = append(list, sample{value: linear(xyz), key: xyz[1]})
		}
	}
	return patch{read: mean(trimmed(list)), out: float64(out) > most*float64(len(list))}, nil
}

// darkest is the least light that a logarithm is taken of.
const darkest = 1e-5

func lnOf(v float64) float64 { return math.Log(max(v, darkest)) }

// alike returns how well ln Y of the patches goes with the published (correlation).
func alike(patches [patchCount]patch) float64 {
	luma := func(p patch) float64 {
		_, y, _ := colorful.LinearRgbToXyz(p.read[0], p.read[1], p.read[2])
		return lnOf(y)
	}
	var a, b, aa, bb, ab float64
	const n = patchCount
	for _, p := range patches {
		x, y := luma(p), math.Log(p.xyz[1])
		a, b, aa, bb, ab = a+x/n, b+y/n, aa+x*x/n, bb+y*y/n, ab+x*y/n
	}
	return (ab - a*b) / math.Sqrt((aa-a*a)*(bb-b*b))
}

// A cubic takes light as it was read to light as it is, both in ln, and is held beyond the
// greys.
type cubic struct {
	terms     []float64
	low, high float64
}

func (c cubic) at(v float64) float64 {
	x := max(c.low, min(c.high, lnOf(v)))
	return math.Exp(((c.terms[3]*x+c.terms[2])*x+c.terms[1])*x + c.terms[0])
}

// fitCubic lays a cubic through the six greys of one channel.
func fitCubic(patches [patchCount]patch, channel int) (cubic, error) {
	const below, above, points = 0.5, 0.2, 64
	c := cubic{low: math.Inf(1), high: math.Inf(-1)}
	s := newLeastSquares(4)
	for _, p := range patches[firstGrey:] {
		x := lnOf(p.read[channel])
		s.add([]float64{1, x, x * x, x * x * x}, lnOf(linear(p.xyz)[channel]), 1)
		c.low, c.high = min(c.low, x-below), max(c.high, x+above)
	}
	c.terms = s.solve()
	last := math.Inf(-1)
	for i := range points {
		v := c.at(math.Exp(c.low + (c.high-c.low)*float64(i)/(points-1)))
		if !(v > last) {
			return c, refuse("target", targetRemedy, "its greys do not rise from dark to light")
		}
		last = v
	}
	return c, nil
}

// fitMatrix returns the matrix to XYZ that errs least, dark patches weighing more.
func fitMatrix(patches [patchCount]patch, cubics [3]cubic) photo.Matrix {
	const dark = 0.03
	var m photo.Matrix
	for row := range m {
		s := newLeastSquares(3)
		for _, p := range patches {
			if p.out {
				continue
			}
			weight := 1 / ((dark + p.xyz[1]) * (dark + p.xyz[1]))
			s.add([]float64{cubics[0].at(p.read[0]), cubics[1].at(p.read[1]), cubics[2].at(p.read[2])}, p.xyz[row], weight)
		}
		copy(m[row][:], s.solve())
	}
	return m
}
