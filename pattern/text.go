package pattern

import (
	"unicode"
	"unicode/utf8"
)

// ForbiddenRune returns the first character of s that no text in a file may hold, since it
// could act on a screen or show the text otherwise than it is: a control character, an end
// of line or paragraph, one that turns the direction of writing, or what is no character
// at all (utf8.RuneError then). Names, notes and ids are held to it wherever they come
// from, so that whatever the bench takes can be saved and read again.
func ForbiddenRune(s string) (rune, bool) {
	for i, r := range s {
		switch {
		case unicode.IsControl(r): // C0, DEL and C1
		case r == '\u2028' || r == '\u2029': // line and paragraph ends
		case r >= '\u202a' && r <= '\u202e': // embeddings and overrides of direction
		case r >= '\u2066' && r <= '\u2069': // isolates
		case r == utf8.RuneError && noCharacter(s[i:]):
		default:
			continue
		}
		return r, true
	}
	return 0, false
}

// noCharacter reports whether s begins with a byte that is no UTF-8.
func noCharacter(s string) bool {
	_, width := utf8.DecodeRuneInString(s)
	return width == 1
}
