package screen

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Count gives so many of something: 1 strip, 2 strips.
func Count(n int, word string) string {
	if n != 1 {
		word += "s"
	}
	return fmt.Sprintf("%d %s", n, word)
}

// Size says how large a pattern is, for lists.
func Size(p pattern.Pattern, u length.Unit) string {
	return fmt.Sprintf("%s   %s x %s x %s", Count(len(p.Strips), "strip"), p.Panel.Length.Format(u), p.Width().Format(u), p.Panel.Thickness.With(u))
}
