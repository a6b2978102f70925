package reading

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/pattern/photo"
	"example.com/oddments/species"
)

// A Lab is a colour in CIELAB under daylight, L 0 to 100.
type Lab struct{ L, A, B float64 }

// labScale: the library has L of 0 to 1, the standard of 0 to 100.
const labScale = 100

// ParseLab reads a colour as L,a,b.
func ParseLab(text string) (Lab, error) {
	const most = 130
	bad := fmt.Errorf("%q: must be L,a,b of CIELAB, like 94,0,2", text)
	parts := strings.Split(text, ",")
	var v [3]float64
	if len(parts) != len(v) {
		return Lab{}, bad
	}
	for i, p := range parts {
		x, err := strconv.ParseFloat(strings.TrimSpace(p), 64)
		if err != nil || !(math.Abs(x) <= most) {
			return Lab{}, bad
		}
		v[i] = x
	}
	if v[0] <= 0 || v[0] > labScale {
		return Lab{}, bad
	}
	return Lab{v[0], v[1], v[2]}, nil
}

// LabOf returns the colour of an RGB.
func LabOf(c species.RGB) Lab {
	l, a, b := c.Colorful().Lab()
	return Lab{labScale * l, labScale * a, labScale * b}
}

func labOfXYZ(xyz photo.Triple) Lab {
	l, a, b := colorful.XyzToLab(xyz[0], xyz[1], xyz[2])
	return Lab{labScale * l, labScale * a, labScale * b}
}

// XYZ returns the colour in XYZ.
func (c Lab) XYZ() photo.Triple {
	x, y, z := colorful.LabToXyz(c.L/labScale, c.A/labScale, c.B/labScale)
	return photo.Triple{x, y, z}
}

func (c Lab) colorful() colorful.Color {
	return colorful.Lab(c.L/labScale, c.A/labScale, c.B/labScale)
}

// RGB returns the colour in sRGB, as near as that comes, each channel rounded half up.
func (c Lab) RGB() species.RGB {
	r, g, b := c.colorful().Clamped().RGB255()
	return species.RGB{R: r, G: g, B: b}
}

// Difference returns how far two colours are apart, in CIEDE2000.
func (c Lab) Difference(d Lab) float64 {
	return labScale * c.colorful().DistanceCIEDE2000(d.colorful())
}

// Plus returns the colour shifted by the way from one colour to another.
func (c Lab) Plus(from, to Lab) Lab {
	return Lab{c.L + to.L - from.L, c.A + to.A - from.A, c.B + to.B - from.B}
}

// Mean returns the mean of colours in CIELAB, each by its weight.
func Mean(colours []Lab, weights []float64) Lab {
	var sum Lab
	var all float64
	for i, c := range colours {
		w := weights[i]
		sum.L, sum.A, sum.B, all = sum.L+w*c.L, sum.A+w*c.A, sum.B+w*c.B, all+w
	}
	return Lab{sum.L / all, sum.A / all, sum.B / all}
}
