package paint

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// standIn takes the place of what cannot be shown in one cell.
const standIn = '?'

// Width returns the cells that Text needs for s: one for each character.
func Width(s string) int { return utf8.RuneCountInString(s) }

// Text writes s on the first row of r, from its left edge, cut off where r ends,
// and returns the cells it took. Each character takes one cell: tabs and line ends
// become blanks; what is no printable character of one cell's width becomes a
// stand-in.
func (c *Canvas) Text(r Rect, s string, style Style) int {
	if r.Empty() {
		return 0
	}
	at := 0
	for _, char := range s {
		if at >= r.W {
			break
		}
		c.Set(r.X+at, r.Y, char, style)
		at++
	}
	return at
}

// TextFit is Text with a ~ where s is cut off.
func (c *Canvas) TextFit(r Rect, s string, style Style) int { return c.Text(r, Fit(s, r.W), style) }

// Lines writes one line a row from the top of r, as many as find room, and returns what of r
// is left beneath them.
func (c *Canvas) Lines(r Rect, lines []string, style Style) (rest Rect) {
	for i, line := range lines {
		c.Text(r.Row(i), line, style)
	}
	_, rest = r.SplitTop(len(lines))
	return rest
}

// TextRight is Text with the end of s at the right edge of r. Where r is too
// narrow the end of s is cut off.
func (c *Canvas) TextRight(r Rect, s string, style Style) int {
	n := min(Width(s), max(0, r.W))
	part, _ := r.SplitRight(n)
	return c.Text(part, s, style)
}

// TextCentre is Text with s in the middle of r.
func (c *Canvas) TextCentre(r Rect, s string, style Style) int {
	return c.Text(r.Centred(Width(s), 1).at(r.Y), s, style)
}

// at returns r moved to row y.
func (r Rect) at(y int) Rect {
	r.Y = y
	return r
}

// Fit returns s in at most w cells, the last one ~ where something was cut off, with
// what Text would put in place of each character.
func Fit(s string, w int) string {
	if w <= 0 {
		return ""
	}
	n := Width(s)
	var b strings.Builder
	at := 0
	for _, char := range s {
		if at == w-1 && n > w {
			b.WriteByte('~')
			break
		}
		b.WriteRune(printable(char))
		at++
	}
	return b.String()
}

// standsAlone reports whether r takes one cell whatever stands beside it, which vowels
// of Thai and Lao and the parts of Hangul syllables do not.
func standsAlone(r rune) bool {
	const thai, vowel, final = "\u0e01", "\u1160", "\u11a8"
	return ansi.StringWidth(thai+string(r)+thai) == 3 && ansi.StringWidth(vowel+string(r)+final) == 3
}

// printable returns r when it is a printable character of one cell's width, a blank
// for what parts words, and the stand-in for all else: controls, direction marks,
// what combines with its neighbour, has no width or has two cells' width, and
// bytes that are no text.
func printable(r rune) rune {
	switch {
	case r >= ' ' && r < 0x7F:
		return r
	case r >= '─' && r <= '▟': // box drawing and block elements
		return r
	case r == '\t' || r == '\n' || r == '\r' || r == 0xA0:
		return ' '
	case r < 0xA1 || r == utf8.RuneError || !unicode.IsPrint(r) || unicode.Is(unicode.M, r):
		return standIn
	case r < 0x300: // Latin, all one cell wide
		return r
	case standsAlone(r):
		return r
	default:
		return standIn
	}
}
