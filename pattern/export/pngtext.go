package export

import (
	"image"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// smallestText is the size in pixels below which letters are only dirt.
const smallestText = 4

// A fontKey is one face of the fonts that come with Go.
type fontKey struct {
	bold bool
	size float64 // pixels
}

// face returns a face, read once for a picture.
func (p *pngPen) face(key fontKey) (font.Face, error) {
	if face, ok := p.faces[key]; ok {
		return face, nil
	}
	data := goregular.TTF
	if key.bold {
		data = gobold.TTF
	}
	from, err := opentype.Parse(data)
	if err != nil {
		return nil, err
	}
	face, err := opentype.NewFace(from, &opentype.FaceOptions{Size: key.size, DPI: 72, Hinting: font.HintingNone})
	if err == nil {
		p.faces[key] = face
	}
	return face, err
}

func (o textOp) png(p *pngPen) {
	size := p.px(o.size)
	if size < smallestText || o.text == "" {
		return
	}
	face, err := p.face(fontKey{o.bold, size})
	if err != nil {
		return // a size that the font cannot have
	}
	long := font.MeasureString(face, o.text)
	x := fixed.Int26_6(math.Round(p.px(o.at.x) * 64))
	switch {
	case o.middle:
		x -= long / 2
	case o.end:
		x -= long
	}
	m := face.Metrics()
	left := x.Floor() - 2
	base := int(math.Round(p.px(o.at.y)))
	mask := image.NewAlpha(image.Rect(0, 0, long.Ceil()+5, (m.Ascent+m.Descent).Ceil()+4))
	up := m.Ascent.Ceil() + 2
	d := font.Drawer{Dst: mask, Src: image.Opaque, Face: face, Dot: fixed.Point26_6{X: x - fixed.I(left), Y: fixed.I(up)}}
	d.DrawString(o.text)
	p.stamp(mask, left, base-up, p.inks.at(o.colour))
}
