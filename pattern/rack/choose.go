package rack

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/tell"
)

// An Order is one that a rack may be sorted in. The zero value is ByTimber.
type Order int

// The orders. What one of them leaves equal keeps its place.
const (
	ByTimber   Order = iota // key, then the longest first
	ByLength                // the longest first
	ByVolume                // of all copies, the largest first
	ByID                    // W2 before W10
	ByUseFirst              // what is to be used first, then the rest
)

// Orders lists every order.
func Orders() []Order { return []Order{ByTimber, ByLength, ByVolume, ByID, ByUseFirst} }

// String returns the order's word.
func (o Order) String() string {
	return tell.Word(o, "order", "timber", "length", "volume", "id", "first")
}

// ParseOrder reads the word of an order.
func ParseOrder(s string) (Order, error) {
	if o, ok := tell.Named(s, Orders()); ok {
		return o, nil
	}
	return ByTimber, fmt.Errorf("order %q: must be one of timber, length, volume, id, first", s)
}

// compare orders two entries.
func (o Order) compare(a, b Entry) int {
	switch o {
	case ByLength:
		return cmp.Compare(b.Length, a.Length)
	case ByVolume:
		return cmp.Compare(b.VolumeCM3(), a.VolumeCM3())
	case ByID:
		return compareIDs(a.ID, b.ID)
	case ByUseFirst:
		return useFirstRank(b) - useFirstRank(a)
	default:
		return cmp.Or(cmp.Compare(a.Species, b.Species), cmp.Compare(b.Length, a.Length))
	}
}

func useFirstRank(e Entry) int {
	if e.UseFirst {
		return 1
	}
	return 0
}

// compareIDs orders ids with the digits in them as numbers.
func compareIDs(a, b string) int {
	restA, restB := a, b
	for restA != "" && restB != "" {
		var partA, partB string
		partA, restA = cutRun(restA)
		partB, restB = cutRun(restB)
		if digit(partA[0]) && digit(partB[0]) {
			partA, partB = strings.TrimLeft(partA, "0"), strings.TrimLeft(partB, "0")
			if c := cmp.Compare(len(partA), len(partB)); c != 0 {
				return c
			}
		}
		if c := cmp.Compare(partA, partB); c != 0 {
			return c
		}
	}
	return cmp.Or(cmp.Compare(len(restA), len(restB)), cmp.Compare(a, b))
}

// cutRun cuts the digits, or what is none, off the start of s, which is not empty.
func cutRun(s string) (run, rest string) {
	at := 1
	for at < len(s) && digit(s[at]) == digit(s[0]) {
		at++
	}
	return s[:at], s[at:]
}

func digit(b byte) bool { return b >= '0' && b <= '9' }

// Sort returns r with its pieces and its ready strips in an order.
func (r Rack) Sort(by Order) Rack {
	r.Pieces, r.Strips = slices.Clone(r.Pieces), slices.Clone(r.Strips)
	slices.SortStableFunc(r.Pieces, func(a, b Piece) int { return by.compare(Entry{Piece: a}, Entry{Piece: b}) })
	slices.SortStableFunc(r.Strips, func(a, b Strip) int { return by.compare(EntryOf(a), EntryOf(b)) })
	return r
}

// A Filter says which entries to show: those for which all of it holds. The zero value
// shows all.
type Filter struct{ must []func(Entry) bool }

// Match reports whether e is to be shown.
func (f Filter) Match(e Entry) bool {
	return !slices.ContainsFunc(f.must, func(holds func(Entry) bool) bool { return !holds(e) })
}

// Filter returns what of r f lets through.
func (r Rack) Filter(f Filter) Rack {
	r.Pieces = slices.DeleteFunc(slices.Clone(r.Pieces), func(p Piece) bool { return !f.Match(Entry{Piece: p}) })
	r.Strips = slices.DeleteFunc(slices.Clone(r.Strips), func(s Strip) bool { return !f.Match(EntryOf(s)) })
	return r
}

// A filterWord is a word of a filter and what it lets through.
type filterWord struct {
	word string
	fits func(Entry) bool
}

func filterWords() []filterWord {
	rings := func(r pattern.Rings) func(Entry) bool { return func(e Entry) bool { return e.Rings == r } }
	return []filterWord{
		{"planed", func(e Entry) bool { return e.Planed || e.Ready }},
		{"rough", func(e Entry) bool { return !e.Planed && !e.Ready }},
		{"first", func(e Entry) bool { return e.UseFirst }},
		{"ready", func(e Entry) bool { return e.Ready }},
		{"faults", func(e Entry) bool { return len(e.Faults) > 0 }},
		{"flat", rings(pattern.RingsFlat())},
		{"rift", rings(pattern.RingsRift())},
		{"quarter", rings(pattern.RingsQuarter())},
		{"unknown", rings(pattern.Rings{})},
	}
}

// ParseFilter reads what entries to show, all of which must hold: a timber by its
// letters or its words' beginnings (cherry shows all cherries), a number for the
// least length (300, 30cm), #W9 for an id, and planed, rough, first, ready, faults,
// flat, rift, quarter, unknown. Nothing shows all. The error is a *spoken.Error.
func ParseFilter(text string, look Lookup, u length.Unit) (Filter, error) {
	var f Filter
	if len(text) > longestLine {
		return f, &spoken.Error{Column: 1, Message: fmt.Sprintf("%d letters are too many to filter by", len(text))}
	}
	l := &line{Line: spoken.Line{Text: text, Unit: u, Times: true}, look: look}
	var timber []string
	from := 0
	for l.More() {
		start := l.At
		r, _ := utf8.DecodeRuneInString(text[start:])
		switch {
		case l.AtNumber():
			least := l.leastLength()
			f.must = append(f.must, func(e Entry) bool { return e.Length >= least })
		case r == '#':
			l.At++
			l.id(start)
			id := l.entry.ID
			f.must = append(f.must, func(e Entry) bool { return strings.EqualFold(e.ID, id) })
		default:
			word := l.Word()
			at := slices.IndexFunc(filterWords(), func(w filterWord) bool { return w.word == strings.ToLower(word) })
			if at >= 0 {
				f.must = append(f.must, filterWords()[at].fits)
				continue
			}
			if len(timber) == 0 {
				from = start
			}
			timber = append(timber, word)
		}
	}
	if len(timber) > 0 {
		species := look.all(strings.Join(timber, " "))
		if species == nil {
			l.FailAt(from, from+len(timber[0]), "", "no timber, and no word to filter by: those are %s, a length, or #W9", allFilterWords())
		}
		f.must = append(f.must, func(e Entry) bool { return species[e.Species] })
	}
	return f, l.Err()
}

// leastLength reads a number, which must be a length.
func (l *line) leastLength() length.Length {
	start := l.At
	least, err := length.ParseIn(l.Measure(true), l.Unit)
	if err == nil && !l.Ended() {
		l.Word()
		err = fmt.Errorf("the least length is a number, like 300 or 30cm")
	}
	if err != nil {
		l.Fail(start, "", "%v", err)
	}
	return least
}

func allFilterWords() string {
	var words []string
	for _, w := range filterWords() {
		words = append(words, w.word)
	}
	return strings.Join(words, ", ")
}

// all returns the keys of every timber that words may mean: the one of those letters
// or that key, else each with a name whose words begin so. It is nil where none is.
func (l Lookup) all(words string) map[string]bool {
	want := plainWords(words)
	if l.table == nil || len(want) == 0 {
		return nil
	}
	if s, ok := l.table.Get(strings.ToLower(words)); ok {
		return map[string]bool{s.Key: true}
	}
	everything := l.groups[len(l.groups)-1]
	found := fitting(everything, func(n named) bool { return strings.EqualFold(n.Letters, words) })
	if len(found) == 0 {
		found = fitting(everything, func(n named) bool { return n.begins(want, true) })
	}
	if len(found) == 0 {
		return nil
	}
	keys := map[string]bool{}
	for _, s := range found {
		keys[s.Key] = true
	}
	return keys
}
