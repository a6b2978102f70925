// Package phototest makes photos for tests, of which the colours are known: scenes of paper
// and timber under lights that change from place to place, with noise, as JPEG or PNG, held
// any way round, with profiles. The same scene makes the same photo.
package phototest

import (
	"image"
	"image/color"
	"math"
	"math/bits"

	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/photo/reading"
)

// A Thing lies in a scene.
type Thing struct {
	Box   reading.Box
	Lab   colour.Lab
	Grain float64 // how much lighter and darker its lines are, in L
}

// A Scene is what a photo is taken of, and how.
type Scene struct {
	Width, Height int
	Ground        colour.Lab
	Things        []Thing
	Light         func(u, v float64) photo.Triple // for each cone; u and v run from -1 to 1 along the longer side; nil: 1
	Bright        float64                         // of a perfect white; 0: as bright as it is
	Gamma         float64                         // the camera's own curve on top of sRGB's; 0: none
	Noise         float64                         // of coded channels, of 255
	P3            bool                            // coded in the colours of Display P3
}

// Paper is what office paper is taken to be by daylight.
var Paper = colour.Lab{L: 94.5, A: 2.5, B: -9}

// Room returns a scene of 400 x 300 with paper to the left and right, and pieces of the
// colours between; with it the boxes of the papers and of the pieces.
func Room(pieces ...colour.Lab) (s Scene, papers, boxes []reading.Box) {
	const wide, high = 400, 300
	s = Scene{Width: wide, Height: high, Ground: colour.Lab{L: 50}, Bright: 0.8}
	papers = []reading.Box{{X: 10, Y: 20, W: 50, H: 250}, {X: 340, Y: 20, W: 50, H: 250}}
	for _, b := range papers {
		s.Things = append(s.Things, Thing{Box: b, Lab: Paper})
	}
	for i, lab := range pieces {
		b := reading.Box{X: 80, Y: 20 + i*250/len(pieces), W: 240, H: 250/len(pieces) - 10}
		boxes = append(boxes, b)
		s.Things = append(s.Things, Thing{Box: b, Lab: lab})
	}
	return s, papers, boxes
}

// Slope returns a light that grows by factors from the middle to the right and to the bottom,
// of the colour of each cone.
func Slope(colour photo.Triple, right, bottom float64) func(u, v float64) photo.Triple {
	return func(u, v float64) photo.Triple {
		k := math.Exp(u*math.Log(right) + v*math.Log(bottom))
		return photo.Triple{colour[0] * k, colour[1] * k, colour[2] * k}
	}
}

// Image returns the scene as a camera codes it, in 16 bits a channel.
func (s Scene) Image() *image.NRGBA64 {
	img := image.NewNRGBA64(image.Rect(0, 0, s.Width, s.Height))
	half := float64(max(s.Width, s.Height)) / 2
	ground, curve, back := s.Ground.XYZ(), s.curve(), photo.Cones().Inverse()
	for y := range s.Height {
		for x := range s.Width {
			xyz := ground
			for _, t := range s.Things {
				if x >= t.Box.X && x < t.Box.X+t.Box.W && y >= t.Box.Y && y < t.Box.Y+t.Box.H {
					xyz = t.at(x, y)
				}
			}
			u, v := (float64(x)+0.5-float64(s.Width)/2)/half, (float64(y)+0.5-float64(s.Height)/2)/half
			l := s.linear(back.Times(s.lit(xyz, u, v)))
			var coded [3]uint16
			for i := range coded {
				v := float64(curve[int(max(0, min(1, l[i]))*float64(len(curve)-1)+0.5)])
				if s.Noise != 0 {
					v += s.Noise / 255 * noise(uint64(3*(y*s.Width+x)+i))
				}
				coded[i] = uint16(max(0, min(1, v))*math.MaxUint16 + 0.5)
			}
			img.SetNRGBA64(x, y, color.NRGBA64{R: coded[0], G: coded[1], B: coded[2], A: math.MaxUint16})
		}
	}
	return img
}

// at returns the colour of a thing with grain along its longer side.
func (t Thing) at(x, y int) photo.Triple {
	across := y
	if t.Box.H > t.Box.W {
		across = x
	}
	xyz := t.Lab.XYZ()
	if t.Grain != 0 {
		xyz = t.Lab.Plus(colour.Lab{}, colour.Lab{L: t.Grain * math.Sin(float64(across)*0.7)}).XYZ()
	}
	return xyz
}

// lit returns the cones of a colour under the light of a place.
func (s Scene) lit(xyz photo.Triple, u, v float64) photo.Triple {
	cones := photo.Cones().Times(xyz)
	bright := s.Bright
	if bright == 0 {
		bright = 1
	}
	light := photo.Triple{1, 1, 1}
	if s.Light != nil {
		light = s.Light(u, v)
	}
	for i := range cones {
		cones[i] *= bright * light[i]
	}
	return cones
}

// fromP3 takes XYZ to the primaries of Display P3, as published for it.
var fromP3 = photo.Matrix{
	{2.4934969, -0.9313836, -0.4027108}, {-0.8294890, 1.7626641, 0.0236247}, {0.0358458, -0.0761724, 0.9568845},
}

// linear returns XYZ in the primaries that the photo is coded in.
func (s Scene) linear(xyz photo.Triple) photo.Triple {
	if s.P3 {
		return fromP3.Times(xyz)
	}
	r, g, b := colorful.XyzToLinearRgb(xyz[0], xyz[1], xyz[2])
	return photo.Triple{r, g, b}
}

// curve returns the codes of even steps of linear light.
func (s Scene) curve() []float32 {
	const steps = 1 << 16
	out := make([]float32, steps)
	for i := range out {
		v := float64(i) / (steps - 1)
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		if s.Gamma != 0 {
			v = math.Pow(v, s.Gamma)
		}
		out[i] = float32(v)
	}
	return out
}

// noise returns about one of the standard normal distribution for each n: the sum of three
// even ones, scaled.
func noise(n uint64) float64 {
	sum := -1.5
	for i := range uint64(3) {
		z := (n*3 + i + 1) * 0x9e3779b97f4a7c15
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z ^= bits.RotateLeft64(z, 31)
		sum += float64(z>>11) / (1 << 53)
	}
	return 2 * sum
}
