package species

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern/tell"
)

// A Table holds timbers in a fixed order, each key and each pair of letters once. It
// does not change once made, so any number of goroutines may read it. The zero Table
// is empty.
type Table struct {
	list  []Species
	byKey map[string]int
}

// Builtin reads the built-in timbers. It parses them anew, so read them once and
// pass the Table on.
func Builtin() *Table {
	list, err := parse(builtin)
	if err == nil {
		var t *Table
		if t, err = newTable(list); err == nil {
			return t
		}
	}
	panic(fmt.Sprintf("species: the built-in table is broken: %v", err)) // the tests read it
}

// newTable checks every timber and that no two have the same key or letters.
func newTable(list []Species) (*Table, error) {
	t := &Table{list: list, byKey: make(map[string]int, len(list))}
	byLetters := make(map[string]string, len(list))
	var errs []error
	for i, s := range list {
		for _, err := range s.wrongs() {
			if err != nil {
				errs = append(errs, fmt.Errorf("timber %q: %w", s.Key, err))
			}
		}
		if _, twice := t.byKey[s.Key]; twice {
			errs = append(errs, fmt.Errorf("timber %q is there twice: a key must be there once", s.Key))
		}
		if other, taken := byLetters[s.Letters]; taken {
			errs = append(errs, fmt.Errorf("timber %q: letters %s are those of %q: must be two capitals of its own",
				s.Key, s.Letters, other))
		}
		t.byKey[s.Key] = i
		byLetters[s.Letters] = s.Key
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	return t, nil
}

// Len is the number of timbers.
func (t *Table) Len() int { return len(t.list) }

// All lists the timbers in the order of the table.
func (t *Table) All() []Species { return slices.Clone(t.list) }

// Get returns the timber of that key.
func (t *Table) Get(key string) (Species, bool) {
	i, ok := t.byKey[key]
	if !ok {
		return Species{}, false
	}
	return t.list[i], true
}

// Find returns the timber of that key, else of that name, else the first that is also
// called so; in any case, with blanks, hyphens and underscores alike.
func (t *Table) Find(name string) (Species, bool) {
	want := plain(name)
	if want == "" {
		return Species{}, false
	}
	asked := []func(Species) []string{
		func(s Species) []string { return []string{s.Key} },
		func(s Species) []string { return []string{s.Name} },
		func(s Species) []string { return s.Also },
	}
	for _, names := range asked {
		for _, s := range t.list {
			for _, n := range names(s) {
				if plain(n) == want {
					return s, true
				}
			}
		}
	}
	return Species{}, false
}

// Nearest lists at most n timbers whose key, names or a word of them are spelled so much
// like name that they may be meant, the nearest first and none that is more than a letter farther
// than it; on a tie in the order of the table.
func (t *Table) Nearest(name string, n int) []Species {
	want := []rune(plain(name))
	far := make([]int, len(t.list))
	var order []int
	for i, s := range t.list {
		if far[i] = s.farFrom(want); far[i] <= nearEnough(want) {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return far[a] - far[b] })
	var near []Species
	for _, i := range order[:max(0, min(n, len(order)))] {
		if far[i] <= far[order[0]]+oneLetter {
			near = append(near, t.list[i])
		}
	}
	return near
}

// Distances are doubled: a word out of a name is half a letter farther than the whole name.
const (
	oneLetter = 2
	wordOnly  = 1
)

// nearEnough is how far a timber may be spelled from the name that it is meant by: a third
// of its letters, two at least.
func nearEnough(name []rune) int { return oneLetter*max(2, len(name)/3) + wordOnly }

// farFrom is the least spelling distance of want to the timber's key or names. One
// word out of a name counts too ("walnut"), but a slip in a whole name comes first. Of a
// name of the trade the last word does not count: a Brazilian walnut is no walnut.
func (s Species) farFrom(want []rune) int {
	least := math.MaxInt
	for i, name := range append([]string{s.Key, s.Name}, s.Also...) {
		whole := plain(name)
		least = min(least, oneLetter*tell.Distance(want, []rune(whole)))
		words := strings.Fields(whole)
		if len(words) == 1 || i > 1 && len(words) > 1 {
			words = words[:len(words)-1]
		}
		for _, word := range words {
			least = min(least, oneLetter*tell.Distance(want, []rune(word))+wordOnly)
		}
	}
	return least
}

// plain makes names comparable: small letters, one blank between words.
func plain(name string) string {
	name = strings.Map(func(r rune) rune {
		if r == '-' || r == '_' {
			return ' '
		}
		return r
	}, name)
	return strings.Join(strings.Fields(strings.ToLower(name)), " ")
}
