package tell

import (
	"fmt"
	"strings"
)

// Word returns the word of a value that counts words from 0; one that has none is told as
// its kind with its number: order(7).
func Word[E ~int](value E, kind string, words ...string) string {
	if value < 0 || int(value) >= len(words) {
		return fmt.Sprintf("%s(%d)", kind, int(value))
	}
	return words[value]
}

// Named returns the one of all that is called s.
func Named[E fmt.Stringer](s string, all []E) (found E, ok bool) {
	for _, e := range all {
		if e.String() == s {
			return e, true
		}
	}
	return found, false
}

// List returns words with commas between them and the last word before the last: a, b or c.
func List(words []string, last string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	end := len(words) - 1
	return strings.Join(words[:end], ", ") + " " + last + " " + words[end]
}

// Phrases are what there is to say of something, in its order.
type Phrases []string

// If adds a phrase where there is reason to say it.
func (p *Phrases) If(reason bool, phrase string) {
	if reason {
		*p = append(*p, phrase)
	}
}

// Distance counts the letters to put in, take out, change or swap with their neighbour to
// make b of a (Damerau and Levenshtein, each letter moved once).
func Distance[T byte | rune](a, b []T) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
