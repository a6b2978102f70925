package photo

import (
	"encoding/binary"
	"math"
	"strings"
	"unicode"
	"unicode/utf16"

	"github.com/lucasb-eyer/go-colorful"
)

// saveAsSRGB is the way out of every profile that is not read.
const saveAsSRGB = "save it as sRGB"

// mostProfile is the most bytes of a profile that are read. Profiles of cameras have some
// hundred, with whole tables of curves 400,000.
const mostProfile = 4_000_000

// A profile says what coded channels mean: a curve for each, then a matrix to XYZ.
type profile struct {
	name   string
	curves [3]curve
	toXYZ  Matrix
}

// A curve takes a coded channel on a scale of 0 to 1 to linear light.
type curve func(float64) float64

// sRGB is the profile of what has none (IEC 61966-2-1), with go-colorful's matrix.
func sRGB() profile {
	var m Matrix
	for column := range 3 {
		unit := Triple{}
		unit[column] = 1
		m[0][column], m[1][column], m[2][column] = colorful.LinearRgbToXyz(unit[0], unit[1], unit[2])
	}
	return profile{name: "sRGB", curves: [3]curve{sRGBCurve, sRGBCurve, sRGBCurve}, toXYZ: m}
}

// displayP3 has the primaries and the white of SMPTE EG 432-1 with the curve of sRGB.
func displayP3() profile {
	xyz := func(x, y float64) Triple { return Triple{x / y, 1, (1 - x - y) / y} }
	red, green, blue, white := xyz(0.680, 0.320), xyz(0.265, 0.690), xyz(0.150, 0.060), xyz(0.3127, 0.3290)
	var m Matrix
	for row := range m {
		m[row] = [3]float64{red[row], green[row], blue[row]}
	}
	scale := m.Inverse().Times(white)
	for row := range m {
		for column := range scale {
			m[row][column] *= scale[column]
		}
	}
	return profile{name: "Display P3", curves: [3]curve{sRGBCurve, sRGBCurve, sRGBCurve}, toXYZ: m}
}

// sRGBCurve is the curve of IEC 61966-2-1.
func sRGBCurve(v float64) float64 {
	const knee, slope, offset, gamma = 0.04045, 12.92, 0.055, 2.4
	if v <= knee {
		return v / slope
	}
	return math.Pow((v+offset)/(1+offset), gamma)
}

func badProfile(what string) error {
	return refuse(saveAsSRGB, "its colour profile cannot be read (%s)", what)
}

func profileTooLarge() error {
	return refuse(saveAsSRGB, "its colour profile has more than %d MB", mostProfile/1_000_000)
}

// An icc is a colour profile as it lies in a photo (ISO 15076-1).
type icc []byte

// parseICC reads a profile of three curves and a matrix.
func parseICC(data []byte) (profile, error) {
	const size = 132
	d := icc(data)
	switch {
	case len(d) < size || string(d[36:40]) != "acsp":
		return profile{}, badProfile("it is none")
	case string(d[16:20]) != "RGB ":
		return profile{}, badProfile("it is not for RGB")
	case string(d[20:24]) != "XYZ ":
		return profile{}, badProfile("it has tables instead of curves")
	}
	p := profile{name: d.name()}
	var colorants Matrix
	for i, colour := range "rgb" {
		xyz := d.tag(string(colour) + "XYZ")
		const end = 20
		if len(xyz) < end || string(xyz[:4]) != "XYZ " {
			return profile{}, badProfile("it has no colorants")
		}
		for row := range 3 {
			colorants[row][i] = fixed(xyz[8+4*row:])
		}
		c, ok := readCurve(d.tag(string(colour) + "TRC"))
		if !ok {
			return profile{}, badProfile("it has no curves")
		}
		p.curves[i] = c
	}
	p.toXYZ = FromD50().By(colorants)
	if math.Abs(p.toXYZ.determinant()) < 1e-6 {
		return profile{}, badProfile("its colorants lie in one plane")
	}
	return p, nil
}

// tag returns what stands under a name of four letters, nil where nothing does.
func (d icc) tag(name string) []byte {
	const start, size = 132, 12
	rest := []byte(d[start:])
	for range binary.BigEndian.Uint32(d[start-4:]) {
		if len(rest) < size {
			break
		}
		if string(rest[:4]) == name {
			at, n := uint64(binary.BigEndian.Uint32(rest[4:])), uint64(binary.BigEndian.Uint32(rest[8:]))
			if at+n > uint64(len(d)) {
				return nil
			}
			return d[at : at+n]
		}
		rest = rest[size:]
	}
	return nil
}

// name returns what the profile calls itself, in at most 40 characters that print.
func (d icc) name() string {
	const most = 40
	var text string
	switch t := d.tag("desc"); {
	case len(t) > 12 && string(t[:4]) == "desc":
		text, _, _ = strings.Cut(string(t[12:]), "\x00")
	case len(t) > 28 && string(t[:4]) == "mluc":
		n, at := uint64(binary.BigEndian.Uint32(t[20:])), uint64(binary.BigEndian.Uint32(t[24:]))
		if at+n <= uint64(len(t)) {
			units := make([]uint16, min(n/2, most))
			for i := range units {
				units[i] = binary.BigEndian.Uint16(t[at+2*uint64(i):])
			}
			text = string(utf16.Decode(units))
		}
	}
	var out []rune
	for _, r := range text {
		if unicode.IsPrint(r) && r != unicode.ReplacementChar && len(out) < most {
			out = append(out, r)
		}
	}
	if len(out) == 0 {
		return "ICC"
	}
	return string(out)
}

// fixed reads s15Fixed16.
func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / (1 << 16) }

// readCurve reads curv and para.
func readCurve(t []byte) (curve, bool) {
	const start = 12
	if len(t) < start {
		return nil, false
	}
	switch string(t[:4]) {
	case "curv":
		return tableCurve(t[start:], uint64(binary.BigEndian.Uint32(t[8:])))
	case "para":
		return formulaCurve(t[start:], binary.BigEndian.Uint16(t[8:]))
	default:
		return nil, false
	}
}

// tableCurve reads n values of 16 bits: none is the straight line, one a power of 8.8.
func tableCurve(t []byte, n uint64) (curve, bool) {
	switch {
	case n > uint64(len(t))/2:
		return nil, false
	case n == 0:
		return func(v float64) float64 { return v }, true
	case n == 1:
		gamma := float64(binary.BigEndian.Uint16(t)) / (1 << 8)
		return func(v float64) float64 { return math.Pow(v, gamma) }, true
	}
	table := make([]float64, n)
	for i := range table {
		table[i] = float64(binary.BigEndian.Uint16(t[2*i:])) / math.MaxUint16
	}
	return func(v float64) float64 {
		at := v * float64(len(table)-1)
		i := min(int(at), len(table)-2)
		return table[i] + (at-float64(i))*(table[i+1]-table[i])
	}, true
}

// formulaCurve reads a formula of ISO 15076-1, table 68: 0 to 4, with g a b c d e f.
func formulaCurve(t []byte, kind uint16) (curve, bool) {
	counts := []int{1, 3, 4, 5, 7}
	if int(kind) >= len(counts) || len(t) < 4*counts[kind] {
		return nil, false
	}
	var k [7]float64
	for i := range counts[kind] {
		k[i] = fixed(t[4*i:])
	}
	g, a, b, c, d, e, f := k[0], k[1], k[2], k[3], k[4], k[5], k[6]
	switch kind {
	case 0:
		a = 1
	case 1, 2:
		if a == 0 {
			return nil, false
		}
		d, e, f, c = -b/a, c, c, 0
	}
	return func(v float64) float64 {
		y := c*v + f
		if v >= d {
			y = math.Pow(math.Max(0, a*v+b), g) + e
		}
		return math.Max(0, math.Min(1, y))
	}, true
}
