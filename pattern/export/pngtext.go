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

// Fonts keeps the faces of a picture.
type fonts struct {
	plain, bold *opentype.Font
	faces       map[fontKey]font.Face
}

type fontKey struct {
	bold bool
	size float64
}

func newFonts() (*fonts, error) {
	plain, err := opentype.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	bold, err := opentype.Parse(gobold.TTF)
	return &fonts{plain, bold, map[fontKey]font.Face{}}, err
}

func (f *fonts) face(key fontKey) (font.Face, error) {
	if face, ok := f.faces[key]; ok {
		return face, nil
	}
	from := f.plain
	if key.bold {
		from = f.bold
	}
	face, err := opentype.NewFace(from, &opentype.FaceOptions{Size: key.size, DPI: 72, Hinting: font.HintingNone})
	if err == nil {
		f.faces[key] = face
	}
	return face, err
}

func (o textOp) png(p *pngPen) {
	size := p.px(o.size)
	if size < smallestText || o.text == "" {
		return
	}
	face, err := p.fonts.face(fontKey{o.bold, size})
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
