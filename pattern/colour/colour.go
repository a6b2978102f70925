// Package colour holds colours of wood as they are kept, and how far two of them are apart.
//
// An RGB is sRGB of 8 bits a channel; a Lab is CIELAB under daylight (CIE D65, 2 degrees) with
// L of 0 to 100, as go-colorful has it. Differences are CIEDE2000.
package colour

import (
	"fmt"
	"math"
	"strconv"

	"github.com/lucasb-eyer/go-colorful"
)

// An RGB is an sRGB colour of 8 bits a channel. RGBs compare with ==.
type RGB struct{ R, G, B uint8 }

// String returns the colour as #RRGGBB.
func (c RGB) String() string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }

// ParseRGB reads a colour written #RRGGBB, in capitals or not.
func ParseRGB(text string) (RGB, error) {
	bad := fmt.Errorf("%q is no colour: must be # and six hexadecimal digits, like #4A3222", text)
	if len(text) != 7 || text[0] != '#' {
		return RGB{}, bad
	}
	v, err := strconv.ParseUint(text[1:], 16, 32)
	if err != nil {
		return RGB{}, bad
	}
	return RGB{R: uint8(v >> 16), G: uint8(v >> 8), B: uint8(v)}, nil
}

// MarshalText writes the colour as #RRGGBB.
func (c RGB) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads a colour as ParseRGB does.
func (c *RGB) UnmarshalText(text []byte) error {
	parsed, err := ParseRGB(string(text))
	if err == nil {
		*c = parsed
	}
	return err
}

// Colorful returns the colour to go-colorful, for computation in other colour spaces.
func (c RGB) Colorful() colorful.Color {
	const most = 255
	return colorful.Color{R: float64(c.R) / most, G: float64(c.G) / most, B: float64(c.B) / most}
}

// Lightness returns L* of the colour, 0 to 100.
func (c RGB) Lightness() float64 {
	const full = 100
	l, _, _ := c.Colorful().Lab()
	return full * l
}

// Lighter returns the colour with its L* moved by so many of 100. What grows darker grows
// a little redder, as late wood does; at the same hue it would look green.
func (c RGB) Lighter(by float64) RGB {
	const redder = 0.3
	l, a, b := c.Colorful().Lab()
	moved := colorful.Lab(math.Min(1, math.Max(0, l+by/100)), a-redder*by/100, b).Clamped()
	red, green, blue := moved.RGB255()
	return RGB{R: red, G: green, B: blue}
}

// cieScale: the library gives colour differences on a scale of 0 to 1, the standard
// on one of 0 to 100.
const cieScale = 100

// Contrast is the colour difference CIEDE2000 of two colours (Sharma, Wu and Dalal
// 2005, all three weights 1): 0 for the same colour, 100 for black and white.
func Contrast(a, b RGB) float64 {
	return contrast(a.Colorful(), b.Colorful())
}

func contrast(a, b colorful.Color) float64 {
	return cieScale * a.DistanceCIEDE2000(b)
}
