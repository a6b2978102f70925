package length

import "strings"

// Typed returns l as one word of a typed line: as it is shown where that reads back to
// the same, else exactly. Whole inches and their fraction are parted by a hyphen.
func (l Length) Typed(u Unit) string {
	text := l.Format(u)
	if again, err := ParseIn(text, u); err != nil || again != l {
		text = l.Exact()
	}
	whole, fraction, mixed := strings.Cut(text, " ")
	if mixed && strings.Contains(fraction, "/") {
		text = whole + "-" + fraction
	}
	return strings.ReplaceAll(text, " ", "")
}
