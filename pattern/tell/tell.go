// Package tell has the turns of speech that every fact is told with, on the screen, in
// print and on the sheet: how many of something there are, lists of numbers, sizes, and
// what is alike told of together.
package tell

import (
	"fmt"
	"iter"
	"strings"

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

// Look says whose end grain to look at, and how many glue lines that settles.
func Look(what string, lines int) string {
	return fmt.Sprintf("look at the end grain of %s: it settles %s", what, Count(lines, "glue line"))
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

// Groups puts together what goes by one key, in the order in which the keys came. The
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
