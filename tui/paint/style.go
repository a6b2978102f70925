package paint

import "example.com/oddments/species"

// A Colour is the terminal's own (the zero value, Default), one of its 16 named
// colours, or an sRGB colour of wood. Colours compare with ==.
type Colour uint32

// What the upper byte of a Colour says about the rest.
const (
	kindNamed Colour = (iota + 1) << 24
	kindRGB
	kindMask Colour = 0xFF << 24
)

// Default is the terminal's own colour for text, or for its background.
const Default Colour = 0

// The 16 named colours, which the terminal's user has chosen the look of.
const (
	Black Colour = kindNamed + iota
	Red
	Green
	Yellow
	Blue
	Magenta
	Cyan
	White
	BrightBlack
	BrightRed
	BrightGreen
	BrightYellow
	BrightBlue
	BrightMagenta
	BrightCyan
	BrightWhite
)

// Of returns the Colour of c.
func Of(c species.RGB) Colour {
	return kindRGB | Colour(c.R)<<16 | Colour(c.G)<<8 | Colour(c.B)
}

// RGB returns the sRGB colour of c, and false for Default and the named colours.
func (c Colour) RGB() (species.RGB, bool) {
	if c&kindMask != kindRGB {
		return species.RGB{}, false
	}
	return species.RGB{R: uint8(c >> 16), G: uint8(c >> 8), B: uint8(c)}, true
}

// named returns the number of a named colour, and false for any other.
func (c Colour) named() (int, bool) {
	if c&kindMask != kindNamed {
		return 0, false
	}
	return int(c &^ kindMask), true
}

// A Style is how a cell looks. The zero value is plain text. Styles compare
// with ==.
type Style struct {
	FG, BG                           Colour
	Bold, Faint, Underline, Reversed bool
}

// attributes returns the style without its colours.
func (s Style) attributes() Style {
	s.FG, s.BG = Default, Default
	return s
}

// On returns the style on background bg.
func (s Style) On(bg Colour) Style {
	s.BG = bg
	return s
}

// Bolder returns the style in bold.
func (s Style) Bolder() Style {
	s.Bold = true
	return s
}
