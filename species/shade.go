package species

import (
	"slices"
	"strconv"
	"strings"
)

// Shade names a class of near colours, from 1, that boards of a timber have: a timber by
// itself to whoever lays strips out. No key has a stroke in it.
func Shade(key string, n int) string { return key + "/" + strconv.Itoa(n) }

// TimberOf returns the timber of a shade and its class; of a timber, that and 0.
func TimberOf(name string) (key string, n int) {
	key, class, is := strings.Cut(name, "/")
	if is {
		n, _ = strconv.Atoi(class) // Shade wrote it
	}
	return key, n
}

// WithShades returns the table with shades of its timbers added.
func (t *Table) WithShades(shades []Species) *Table {
	out := &Table{list: append(slices.Clip(slices.Clone(t.list)), shades...), byKey: make(map[string]int, len(t.list)+len(shades))}
	for i, s := range out.list {
		out.byKey[s.Key] = i
	}
	return out
}
