package photo

import "image"

// Fullscale is what a coded channel is at most.
const Fullscale = 255

// A Pixel is one pixel of a photo.
type Pixel struct {
	Coded  Triple // 0 to 255, not rounded
	Opaque bool
}

// Clipped reports whether a channel is as good as full: what lies above it is lost.
func (p Pixel) Clipped() bool {
	const full = 254
	return max(p.Coded[0], p.Coded[1], p.Coded[2]) >= full
}

// Out reports whether the pixel says nothing of its colour: it is not opaque, a channel is
// clipped, or one is 0.
func (p Pixel) Out() bool {
	return !p.Opaque || p.Clipped() || min(p.Coded[0], p.Coded[1], p.Coded[2]) <= 0
}

// At returns the pixel in a column and row of the upright photo.
func (p *Photo) At(x, y int) Pixel {
	x, y = p.turned(x, y)
	b := p.img.Bounds()
	x, y = x+b.Min.X, y+b.Min.Y
	switch img := p.img.(type) {
	case *image.YCbCr:
		return Pixel{Coded: fromYCbCr(img, x, y), Opaque: true}
	case *image.RGBA:
		return eightBits(img.Pix[img.PixOffset(x, y):])
	case *image.NRGBA:
		return eightBits(img.Pix[img.PixOffset(x, y):])
	case *image.RGBA64:
		return sixteenBits(img.Pix[img.PixOffset(x, y):])
	case *image.NRGBA64:
		return sixteenBits(img.Pix[img.PixOffset(x, y):])
	default:
		return Pixel{} // readable lets no other in
	}
}

// fromYCbCr follows ITU-T T.871 without rounding. image/color rounds down, which is up to a
// whole difference of colour in dark timber.
func fromYCbCr(img *image.YCbCr, x, y int) Triple {
	const half = 128
	at := img.COffset(x, y)
	luma, c, d := float64(img.Y[img.YOffset(x, y)]), float64(img.Cb[at])-half, float64(img.Cr[at])-half
	out := Triple{luma + 1.402*d, luma - 0.344136*c - 0.714136*d, luma + 1.772*c}
	for i := range out {
		out[i] = max(0, min(Fullscale, out[i]))
	}
	return out
}

func eightBits(b []byte) Pixel {
	return Pixel{Coded: Triple{float64(b[0]), float64(b[1]), float64(b[2])}, Opaque: b[3] == Fullscale}
}

func sixteenBits(b []byte) Pixel {
	const step = 257 // 65535 / 255
	wide := func(i int) float64 { return float64(uint16(b[i])<<8|uint16(b[i+1])) / step }
	return Pixel{Coded: Triple{wide(0), wide(2), wide(4)}, Opaque: b[6] == 0xff && b[7] == 0xff}
}

// turned returns where a place of the upright photo lies in the file (CIPA DC-008,
// Orientation).
func (p *Photo) turned(x, y int) (int, int) {
	right, bottom := p.Width-1-x, p.Height-1-y
	switch p.Orientation {
	case 2:
		return right, y
	case 3:
		return right, bottom
	case 4:
		return x, bottom
	case 5:
		return y, x
	case 6:
		return y, right
	case 7:
		return bottom, right
	case 8:
		return bottom, x
	default:
		return x, y
	}
}

// XYZ returns the colour that coded channels mean.
func (p *Photo) XYZ(coded Triple) Triple {
	var linear Triple
	for i, c := range p.colour.curves {
		linear[i] = c(coded[i] / Fullscale)
	}
	return p.colour.toXYZ.Times(linear)
}
