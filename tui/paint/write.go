package paint

import (
	"strconv"
	"unicode/utf8"
)

// String returns the frame: as many lines as the canvas is high, each of exactly its
// width in cells, with line ends between them and none after the last. Neighbours
// of one look share an escape; each line begins and ends in the terminal's own
// look, so that lines may be cut, moved and redrawn one by one.
func (c *Canvas) String() string {
	out := c.out[:0]
	for y := range c.h {
		if y > 0 {
			out = append(out, '\n')
		}
		out = c.appendRow(out, c.cells[y*c.w:(y+1)*c.w])
	}
	c.out = out
	return string(out)
}

func (c *Canvas) appendRow(out []byte, row []cell) []byte {
	var shown, asked Style // what the terminal is set to; what the last cell asked for
	for i := range row {
		if style := row[i].style; style != asked {
			asked = style
			if next := c.visible(style); next != shown {
				out = c.appendChange(out, shown, next)
				shown = next
			}
		}
		if r := row[i].r; r < utf8.RuneSelf {
			out = append(out, byte(r))
		} else {
			out = utf8.AppendRune(out, r)
		}
	}
	if shown != (Style{}) {
		out = append(out, "\x1b[0m"...)
	}
	return out
}

// visible returns the style without the colours that the profile does not show.
func (c *Canvas) visible(s Style) Style {
	switch c.palette.profile {
	case TrueColour, ANSI256:
		return s
	case ANSI16:
		if s.FG&kindMask == kindRGB {
			s.FG = Default
		}
		if s.BG&kindMask == kindRGB {
			s.BG = Default
		}
		return s
	default:
		return s.attributes()
	}
}

// appendChange writes the escape that takes the terminal from one style to another.
func (c *Canvas) appendChange(out []byte, from, to Style) []byte {
	out = append(out, "\x1b["...)
	start := len(out)
	if from.attributes() != to.attributes() {
		if from != (Style{}) {
			out = append(out, "0;"...)
			from = Style{}
		}
		for _, a := range [...]struct {
			on   bool
			code string
		}{{to.Bold, "1;"}, {to.Faint, "2;"}, {to.Underline, "4;"}, {to.Reversed, "7;"}} {
			if a.on {
				out = append(out, a.code...)
			}
		}
	}
	if from.FG != to.FG {
		out = c.appendColour(out, to.FG, 30)
	}
	if from.BG != to.BG {
		out = c.appendColour(out, to.BG, 40)
	}
	if len(out) == start {
		return out[:start-2]
	}
	out[len(out)-1] = 'm' // in place of the last semicolon
	return out
}

// appendColour writes a colour's parameters, each with a semicolon behind it; base
// is 30 for text and 40 for background.
func (c *Canvas) appendColour(out []byte, colour Colour, base int) []byte {
	const bright = 60 // added to a base for the named colours from 8 on
	if n, ok := colour.named(); ok {
		code := base + n
		if n >= 8 {
			code = base + bright + n - 8
		}
		return append(strconv.AppendInt(out, int64(code), 10), ';')
	}
	rgb, ok := colour.RGB()
	if !ok {
		return append(strconv.AppendInt(out, int64(base+9), 10), ';')
	}
	out = append(out, '0'+byte(base/10), '8')
	if c.palette.profile == ANSI256 {
		out = append(out, ";5;"...)
		return appendByte(out, c.palette.Index256(rgb))
	}
	out = append(out, ";2;"...)
	out = appendByte(out, rgb.R)
	out = appendByte(out, rgb.G)
	return appendByte(out, rgb.B)
}

// appendByte writes n with a semicolon behind it; it is most of the work of a frame
// with many colours.
func appendByte(out []byte, n uint8) []byte {
	switch {
	case n >= 100:
		return append(out, '0'+n/100, '0'+n/10%10, '0'+n%10, ';')
	case n >= 10:
		return append(out, '0'+n/10, '0'+n%10, ';')
	default:
		return append(out, '0'+n, ';')
	}
}
