// Package tell has the turns of speech that every fact is told with, on the screen, in
// print and on the sheet: how many of something there are, lists of numbers, sizes, and
// what is alike told of together.
package tell

import (
	"fmt"
	"iter"
	"strings"
	"time"

	"example.com/oddments/pattern/length"
)

// Plural returns the word for n of something: strip, strips; copy, copies; pass, passes.
func Plural(n int, word string) string {
	before, y := strings.CutSuffix(word, "y")
	switch {
	case n == 1:
		return word
	case y && !strings.ContainsAny(before[len(before)-1:], "aeiou"):
		return before + "ies"
	case strings.HasSuffix(word, "s") || strings.HasSuffix(word, "ch"):
		return word + "es"
	default:
		return word + "s"
	}
}

// Count returns so many of something: 1 strip, 2 strips.
func Count(n int, word string) string { return fmt.Sprintf("%d %s", n, Plural(n, word)) }

// Times returns how often something is made: once, 2 times.
func Times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

// Took returns how long something took: at once, or in 1.2 s.
func Took(d time.Duration) string {
	if d < 50*time.Millisecond {
		return "at once"
	}
	return fmt.Sprintf("in %.1f s", d.Seconds())
}

// Look says whose end grain to check, and how many glue lines that decides.
func Look(what string, lines int) string {
	return fmt.Sprintf("check the end grain of %s: it decides %s", what, Count(lines, "glue line"))
}

// Numbered returns numbers behind what they are of: strip 4, strips 2, 5.
func Numbered(word string, numbers []int) string {
	texts := make([]string, len(numbers))
	for i, n := range numbers {
		texts[i] = fmt.Sprint(n)
	}
	return Labelled(word, texts)
}

// Labelled is Numbered for what has names: strips 2, 4a.
func Labelled(word string, names []string) string {
	return Plural(len(names), word) + " " + strings.Join(names, ", ")
}

// Runs returns ascending numbers, three and more in a row as 2 to 5.
func Runs(numbers []int) string {
	var parts []string
	for i := 0; i < len(numbers); i++ {
		first, last := i, i
		for last+1 < len(numbers) && numbers[last+1] == numbers[last]+1 {
			last++
		}
		if last-first < 2 {
			parts = append(parts, fmt.Sprint(numbers[i]))
			continue
		}
		parts = append(parts, fmt.Sprintf("%d to %d", numbers[first], numbers[last]))
		i = last
	}
	return strings.Join(parts, ", ")
}

// Lengths returns lengths one after the other, the unit behind the last: 24, 18 mm.
func Lengths(u length.Unit, all ...length.Length) string { return lengths(u, ", ", all) }

// Size returns lengths, widths and thicknesses as they are multiplied: 620 x 85 x 77 mm.
func Size(u length.Unit, all ...length.Length) string { return lengths(u, " x ", all) }

func lengths(u length.Unit, between string, all []length.Length) string {
	texts := make([]string, len(all))
	for i, l := range all {
		texts[i] = l.Format(u)
	}
	return strings.Join(texts, between) + " " + u.String()
}

// Groups puts together what has one key, in the order in which the keys came. The
// zero value is empty.
type Groups[K comparable, V any] struct {
	keys []K
	of   map[K][]V
}

// Add puts v to those of k.
func (g *Groups[K, V]) Add(k K, v V) {
	if g.of == nil {
		g.of = map[K][]V{}
	}
	if _, had := g.of[k]; !had {
		g.keys = append(g.keys, k)
	}
	g.of[k] = append(g.of[k], v)
}

// All goes through the keys, each with what was added under it.
func (g *Groups[K, V]) All() iter.Seq2[K, []V] {
	return func(yield func(K, []V) bool) {
		for _, k := range g.keys {
			if !yield(k, g.of[k]) {
				return
			}
		}
	}
}

// Keys returns the keys.
func (g *Groups[K, V]) Keys() []K { return g.keys }

// Of returns what was added under k.
func (g *Groups[K, V]) Of(k K) []V { return g.of[k] }

// A returns name with its article: a round.
func A(name string) string {
	if strings.ContainsRune("aeiou", rune(name[0])) {
		return "an " + name
	}
	return "a " + name
}
