package length

import "strings"

// Take reads a length from the front of the words of a typed line, as TakeText takes it,
// and gives the words behind it. A number without a unit is in u. There must be a word.
func Take(words []string, u Unit) (Length, []string, error) {
	text, rest := TakeText(words)
	l, err := ParseIn(text, u)
	return l, rest, err
}

// TakeText takes what should be a length from the front of the words of a typed line,
// where its unit or its fraction may be a word of its own, and gives it as ParseIn
// reads it, with the words behind it. 11-1/2 is 11 and a half. There must be a word.
func TakeText(words []string) (text string, rest []string) {
	text, rest = words[0], words[1:]
	if len(rest) > 0 && strings.Trim(text, "0123456789") == "" && strings.Contains(rest[0], "/") && !strings.Contains(rest[0], "-") {
		text, rest = text+" "+rest[0], rest[1:]
	}
	if len(rest) > 0 {
		switch unit := strings.ToLower(rest[0]); unit {
		case "mm", "cm", "m", "in":
			text, rest = text+" "+unit, rest[1:]
		}
	}
	if whole, fraction, ok := strings.Cut(text, "-"); ok && strings.Contains(fraction, "/") {
		text = whole + " " + fraction
	}
	return text, rest
}

// Typed gives l as one word of a typed line: as it is shown where that reads back to
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
