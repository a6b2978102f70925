package colour

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/lucasb-eyer/go-colorful"
)

// A Lab is a colour in CIELAB under daylight, L 0 to 100.
type Lab struct{ L, A, B float64 }

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
	if v[0] <= 0 || v[0] > cieScale {
		return Lab{}, bad
	}
	return Lab{v[0], v[1], v[2]}, nil
}

// Lab returns the colour in CIELAB.
func (c RGB) Lab() Lab {
	l, a, b := c.Colorful().Lab()
	return Lab{cieScale * l, cieScale * a, cieScale * b}
}

// LabOfXYZ returns the colour of XYZ.
func LabOfXYZ(xyz [3]float64) Lab {
	l, a, b := colorful.XyzToLab(xyz[0], xyz[1], xyz[2])
	return Lab{cieScale * l, cieScale * a, cieScale * b}
}

// XYZ returns the colour in XYZ.
func (c Lab) XYZ() [3]float64 {
	x, y, z := colorful.LabToXyz(c.L/cieScale, c.A/cieScale, c.B/cieScale)
	return [3]float64{x, y, z}
}

func (c Lab) colorful() colorful.Color {
	return colorful.Lab(c.L/cieScale, c.A/cieScale, c.B/cieScale)
}

// RGB returns the colour in sRGB, as near as that comes, each channel rounded half up.
func (c Lab) RGB() RGB {
	r, g, b := c.colorful().Clamped().RGB255()
	return RGB{R: r, G: g, B: b}
}

// Difference returns how far two colours are apart, in CIEDE2000.
func (c Lab) Difference(d Lab) float64 {
	return contrast(c.colorful(), d.colorful())
}

// Plus returns the colour shifted by the way from one colour to another.
func (c Lab) Plus(from, to Lab) Lab {
	return Lab{c.L + to.L - from.L, c.A + to.A - from.A, c.B + to.B - from.B}
}

// MeanLab returns the mean of colours in CIELAB, each by its weight.
func MeanLab(colours []Lab, weights []float64) Lab {
	var sum Lab
	var all float64
	for i, c := range colours {
		w := weights[i]
		sum.L, sum.A, sum.B, all = sum.L+w*c.L, sum.A+w*c.A, sum.B+w*c.B, all+w
	}
	return Lab{sum.L / all, sum.A / all, sum.B / all}
}
