package species

import "example.com/oddments/pattern/colour"

// An RGB is a colour as timbers have one.
type RGB = colour.RGB

// ParseRGB reads a colour written #RRGGBB.
func ParseRGB(text string) (RGB, error) { return colour.ParseRGB(text) }

// Contrast is the colour difference of two colours, CIEDE2000.
func Contrast(a, b RGB) float64 { return colour.Contrast(a, b) }

// As returns the timber as a board of it looks that has a colour of its own.
func (s Species) As(o colour.Own) Species {
	s.ColourOiled = o.Or(s.ColourOiled)
	return s
}
