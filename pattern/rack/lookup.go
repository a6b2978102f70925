package rack

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
)

// A Lookup finds the timber that a maker means by a word or two. The zero value
// knows none; make one with NewLookup.
type Lookup struct {
	table  *species.Table
	groups [][]named // the likeliest first; the last holds every timber
}

// named is a timber with its names made plain: key, name, then the others.
type named struct {
	species.Species
	names [][]string // each as its words
}

// NewLookup returns a Lookup in a table. Each list of keys is a group of timbers that
// goes before the groups after it: those of the rack, then those of the pattern, say.
// A key that the table has not is passed over.
func NewLookup(table *species.Table, prefer ...[]string) Lookup {
	l := Lookup{table: table}
	all := make([]named, 0, table.Len())
	byKey := map[string]named{}
	for _, s := range table.All() {
		n := named{Species: s}
		for _, name := range append([]string{s.Key, s.Name}, s.Also...) {
			n.names = append(n.names, plainWords(name))
		}
		byKey[s.Key] = n
		all = append(all, n)
	}
	for _, keys := range prefer {
		var group []named
		taken := map[string]bool{}
		for _, key := range keys {
			if n, ok := byKey[key]; ok && !taken[key] {
				taken[key] = true
				group = append(group, n)
			}
		}
		l.groups = append(l.groups, group)
	}
	l.groups = append(l.groups, all)
	return l
}

// Letters returns the two capitals that mark a timber, or R where it is not known.
func (l Lookup) Letters(key string) string {
	if s, ok := l.get(key); ok {
		return s.Letters
	}
	return "R"
}

// Name returns the name of a timber, or its key where it is not known.
func (l Lookup) Name(key string) string {
	if s, ok := l.get(key); ok {
		return s.Name
	}
	return key
}

func (l Lookup) get(key string) (species.Species, bool) {
	if l.table == nil {
		return species.Species{}, false
	}
	return l.table.Get(key)
}

// Called returns the name by which a maker knows the timber of a key and by which Find
// finds it, whichever timbers go before the others: its name, else another name that
// it has, where no other timber has a name that begins so; else the key.
func (l Lookup) Called(key string) string {
	s, ok := l.get(key)
	if !ok {
		return key
	}
	all := l.groups[len(l.groups)-1]
	for _, name := range append([]string{s.Name}, s.Also...) {
		want := plainWords(name)
		mean := fitting(all, func(n named) bool { return n.begins(want, false) || strings.EqualFold(n.Letters, name) })
		if other, taken := l.table.Get(strings.ToLower(name)); taken && other.Key != key {
			continue
		}
		if len(mean) == 1 && mean[0].Key == key {
			return name
		}
	}
	return key
}

// calledAll returns what each of list is Called.
func (l Lookup) calledAll(list []species.Species) []string {
	names := make([]string, len(list))
	for i, s := range list {
		names[i] = l.Called(s.Key)
	}
	return names
}

// A TimberError says that words name no timber, or more than one.
type TimberError struct {
	Words  string
	Could  []species.Species // the timbers that the words may mean; empty: none
	Called []string          // what to type for each of these
	Near   []species.Species // where there is none, those spelled most like it
}

// Error returns the words and the timbers that could be meant.
func (e *TimberError) Error() string {
	if len(e.Could) == 0 {
		text := fmt.Sprintf("%q is not a timber I know", e.Words)
		if len(e.Near) > 0 {
			text += ": did you mean " + oneOf(e.Near) + "?"
		}
		return text
	}
	return fmt.Sprintf("%q may be %s: write more of it, or its key", e.Words, oneOf(e.Could))
}

// oneOf lists timbers, each with its key where that says more than the name.
func oneOf(list []species.Species) string {
	const most = 6
	var texts []string
	for _, s := range list[:min(most, len(list))] {
		texts = append(texts, fmt.Sprintf("%s (%s)", s.Name, s.Key))
	}
	if len(list) > most {
		return strings.Join(texts, ", ") + fmt.Sprintf(" or one of %d more", len(list)-most)
	}
	return tell.List(texts, "or")
}

// namesOf lists the names of timbers on little room: black cherry or European cherry,
// red oak, white oak or 7 more.
func namesOf(list []species.Species) string {
	const most = 2
	var names []string
	for _, s := range list[:min(most, len(list))] {
		names = append(names, s.Name)
	}
	if len(list) > most {
		return fmt.Sprintf("%s or %d more", strings.Join(names, ", "), len(list)-most)
	}
	return strings.Join(names, " or ")
}

// Find returns the timber that words name: the one of that key; else, group by group,
// the only one of that name, else also called so, else of those letters, else with a
// name whose words begin with the words in their order (bl ch is black cherry). A name of
// the trade that only ends so counts where nothing else does: Brazilian walnut is no walnut.
// In any case, with blanks, hyphens and underscores alike. The error is a *TimberError.
func (l Lookup) Find(words string) (species.Species, error) {
	want := plainWords(words)
	if l.table == nil || len(want) == 0 {
		return species.Species{}, &TimberError{Words: words}
	}
	if s, ok := l.table.Get(strings.ToLower(words)); ok {
		return s, nil
	}
	by := []func(named) bool{
		func(n named) bool { return slices.Equal(n.names[1], want) },
		func(n named) bool {
			return slices.ContainsFunc(n.names, func(w []string) bool { return slices.Equal(w, want) })
		},
		func(n named) bool { return strings.EqualFold(n.Letters, words) },
		func(n named) bool { return n.begins(want, false) },
	}
	ends := []func(named) bool{func(n named) bool { return n.begins(want, true) }}
	for _, by := range [][]func(named) bool{by, ends} {
		for _, group := range l.groups {
			for _, fits := range by {
				found := fitting(group, fits)
				if len(found) == 1 {
					return found[0], nil
				}
				if len(found) > 1 {
					return species.Species{}, &TimberError{Words: words, Could: found, Called: l.calledAll(found)}
				}
			}
		}
	}
	const near = 3
	return species.Species{}, &TimberError{Words: words, Near: l.table.Nearest(words, near)}
}

// Key returns the key of the timber that words name, as Find finds it.
func (l Lookup) Key(words string) (string, error) {
	s, err := l.Find(words)
	return s.Key, err
}

// fitting lists the timbers of a group that fit.
func fitting(group []named, fits func(named) bool) []species.Species {
	var found []species.Species
	for _, n := range group {
		if fits(n) {
			found = append(found, n.Species)
		}
	}
	return found
}

// begins reports whether words of one of the names begin with want, in their order. Of a
// name of the trade the first word must be among them, unless it may only end so.
func (n named) begins(want []string, ends bool) bool {
	for i, words := range n.names {
		next := 0
		for at, w := range words {
			if next == 0 && at > 0 && i > 1 && !ends {
				break
			}
			if next < len(want) && strings.HasPrefix(w, want[next]) {
				next++
			}
		}
		if next == len(want) {
			return true
		}
	}
	return false
}

// plainWords parts a name into small words.
func plainWords(name string) []string {
	return strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return r == ' ' || r == '-' || r == '_' || r == '\t' })
}
