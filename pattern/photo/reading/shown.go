package reading

import (
	"github.com/lucasb-eyer/go-colorful"

	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
)

// Shown returns a pixel of a photo as it is to be seen: corrected where its light is known,
// else as the camera coded it. r may be nil.
func Shown(p *photo.Photo, r *Reader, x, y int) colour.RGB {
	xyz := p.XYZ(p.At(x, y).Coded)
	if r != nil {
		xyz = r.correct(xyz, float64(x)+0.5, float64(y)+0.5)
	}
	red, green, blue := colorful.LinearRgb(colorful.XyzToLinearRgb(xyz[0], xyz[1], xyz[2])).Clamped().RGB255()
	return colour.RGB{R: red, G: green, B: blue}
}
