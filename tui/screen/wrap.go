package screen

import (
	"strings"

	"example.com/oddments/pattern/check"
	"example.com/oddments/tui/paint"
)

// Sentence puts findings that are read as one into one line: their level, their places, and
// what was found.
func Sentence(g check.Group) string {
	if g.Where == (check.Place{}) {
		return g.Level.Heading() + ": " + g.Says()
	}
	return g.Level.Heading() + ", " + g.Places() + ": " + g.Says()
}

// FirstThatFits returns the first of the texts that w cells hold, else the last.
func FirstThatFits(w int, texts ...string) string {
	for _, text := range texts {
		if paint.Width(text) <= w {
			return text
		}
	}
	return texts[len(texts)-1]
}

// Wrap parts text into lines of at most w cells, at blanks where it can; lines after
// the first are set in by two.
func Wrap(text string, w int) []string {
	const indent = "  "
	if w <= len(indent)+1 {
		return []string{paint.Fit(text, w)}
	}
	var out []string
	line := ""
	for _, word := range strings.Fields(text) {
		for {
			joined := word
			if line != "" && line != indent {
				joined = line + " " + word
			} else {
				joined = line + word
			}
			if paint.Width(joined) <= w {
				line = joined
				break
			}
			if line != "" && line != indent {
				out, line = append(out, line), indent
				continue
			}
			cut := []rune(joined)
			out, line, word = append(out, string(cut[:w])), indent, string(cut[w:])
		}
	}
	if strings.TrimSpace(line) != "" {
		out = append(out, line)
	}
	return out
}
