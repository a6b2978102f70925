package paint

import (
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/species"
)

// read puts text with escapes, as String writes it and as libraries of styled text do, into
// r of c: it is what tests read frames back with. Lines come from the top, cut off where r
// ends, cells beyond a line's end left as they are. Of the escapes only those for style
// count; all others are dropped. A character of two cells becomes a stand-in and a blank,
// one of none is dropped.
func (c *Canvas) read(r Rect, s string) {
	rest := s
	parser := ansi.NewParser()
	var state byte
	var style Style
	x, y := 0, 0
	for len(rest) > 0 && y < r.H {
		seq, width, n, next := ansi.DecodeSequence(rest, state, parser)
		if n <= 0 {
			return
		}
		rest, state = rest[n:], next
		switch {
		case width > 0:
			c.drawCluster(r, x, y, seq, width, style)
			x += width
		case len(seq) == 1 && seq[0] == '\n':
			x, y = 0, y+1
		case len(seq) == 1 && seq[0] == '\t':
			c.drawCluster(r, x, y, seq, 1, style)
			x++
		case ansi.HasCsiPrefix(seq) && parser.Command() == 'm':
			style = applySGR(style, parser.Params())
		}
	}
}

// drawCluster puts one character of width cells at x, y of r.
func (c *Canvas) drawCluster(r Rect, x, y int, seq string, width int, style Style) {
	char, _ := utf8.DecodeRuneInString(seq)
	if width > 1 {
		char = standIn
	}
	for i := range width {
		if x+i >= r.W {
			return
		}
		c.Set(r.X+x+i, r.Y+y, char, style)
		char = ' '
	}
}

// applySGR returns s after the parameters of a "select graphic rendition" (ECMA-48,
// 8.3.117; colours by 38 and 48 as ISO 8613-6 has them, with ; or : between).
func applySGR(s Style, params ansi.Params) Style {
	if len(params) == 0 {
		return Style{}
	}
	for i := 0; i < len(params); i++ {
		n := params[i].Param(0)
		switch {
		case n == 0:
			s = Style{}
		case n == 1:
			s.Bold = true
		case n == 2:
			s.Faint = true
		case n == 4:
			s.Underline = !(params[i].HasMore() && i+1 < len(params) && params[i+1].Param(1) == 0)
			i = skipSub(params, i)
		case n == 7:
			s.Reversed = true
		case n == 22:
			s.Bold, s.Faint = false, false
		case n == 24:
			s.Underline = false
		case n == 27:
			s.Reversed = false
		case n == 38 || n == 48 || n == 58:
			colour, last, ok := extendedColour(params, i)
			i = last
			switch {
			case ok && n == 38:
				s.FG = colour
			case ok && n == 48:
				s.BG = colour
			}
		default:
			s.FG, s.BG = namedSGR(n, s.FG, s.BG)
			i = skipSub(params, i)
		}
	}
	return s
}

// skipSub returns the index of the last of the parameters that hang on i by colons.
func skipSub(params ansi.Params, i int) int {
	for i < len(params)-1 && params[i].HasMore() {
		i++
	}
	return i
}

// namedSGR returns the two colours after parameter n, which may set either.
func namedSGR(n int, fg, bg Colour) (Colour, Colour) {
	switch {
	case n >= 30 && n <= 37:
		return Black + Colour(n-30), bg
	case n == 39:
		return Default, bg
	case n >= 40 && n <= 47:
		return fg, Black + Colour(n-40)
	case n == 49:
		return fg, Default
	case n >= 90 && n <= 97:
		return BrightBlack + Colour(n-90), bg
	case n >= 100 && n <= 107:
		return fg, BrightBlack + Colour(n-100)
	default:
		return fg, bg
	}
}

// extendedColour reads the colour behind a 38 or 48 at i, and gives the index of
// its last parameter.
func extendedColour(params ansi.Params, i int) (colour Colour, last int, ok bool) {
	byColons := params[i].HasMore()
	end := len(params) - 1
	if byColons {
		end = skipSub(params, i)
	}
	if i+1 > end {
		return Default, end, false
	}
	switch mode := params[i+1].Param(0); mode {
	case 5:
		if i+2 > end {
			return Default, end, false
		}
		last = i + 2
		colour = indexed(params[last].Param(0))
	case 2:
		first := i + 2
		if byColons && end-i >= 5 {
			first++ // a colour space stands before the channels
		}
		last = first + 2
		if last > end {
			return Default, end, false
		}
		channel := func(k int) uint8 { return uint8(min(255, max(0, params[first+k].Param(0)))) }
		colour = Of(species.RGB{R: channel(0), G: channel(1), B: channel(2)})
	default:
		return Default, i + 1, false
	}
	if byColons {
		last = end
	}
	return colour, last, true
}

// indexed returns number n of the 256 colours.
func indexed(n int) Colour {
	switch {
	case n < 0 || n >= allColours:
		return Default
	case n < firstFixed:
		return Black + Colour(n)
	default:
		return Of(RGB256(uint8(n)))
	}
}
