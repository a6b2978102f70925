package rack

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/spoken"
)

// The edits below take a rack and give a new one; what they were given stays as it
// was, and an edit that is refused gives it back.

// Entries lists the pieces, then the ready strips, in the order of the rack.
func (r Rack) Entries() []Entry {
	all := make([]Entry, 0, len(r.Pieces)+len(r.Strips))
	for _, p := range r.Pieces {
		all = append(all, Entry{Piece: p})
	}
	for _, s := range r.Strips {
		all = append(all, EntryOf(s))
	}
	return all
}

// Get returns the entry of an id.
func (r Rack) Get(id string) (Entry, bool) {
	if i, ready := r.find(id); i >= 0 && ready {
		return EntryOf(r.Strips[i]), true
	} else if i >= 0 {
		return Entry{Piece: r.Pieces[i]}, true
	}
	return Entry{}, false
}

// find returns the place of an id among the pieces or the ready strips, or -1.
func (r Rack) find(id string) (at int, ready bool) {
	if i := slices.IndexFunc(r.Pieces, func(p Piece) bool { return p.ID == id }); i >= 0 {
		return i, false
	}
	return slices.IndexFunc(r.Strips, func(s Strip) bool { return s.ID == id }), true
}

// Species lists the keys of the rack's timbers, each once, in the order of the rack.
func (r Rack) Species() []string {
	var keys []string
	seen := map[string]bool{}
	for _, e := range r.Entries() {
		if !seen[e.Species] {
			seen[e.Species] = true
			keys = append(keys, e.Species)
		}
	}
	return keys
}

// Equal reports whether r and o say the same in the same order.
func (r Rack) Equal(o Rack) bool {
	return slices.EqualFunc(r.Pieces, o.Pieces, Piece.equal) && slices.Equal(r.Strips, o.Strips)
}

// NextID returns an id that is free: the letters and the number above the highest that
// stands behind them on r, CH7 after CH6. Numbers of pieces that were used up come
// back only where they were the highest, for they may still be chalked on an offcut.
func NextID(r Rack, letters string) string {
	highest := 0
	for _, e := range r.Entries() {
		if len(e.ID) > len(letters) && strings.EqualFold(e.ID[:len(letters)], letters) {
			if n, ok := spoken.Whole(e.ID[len(letters):]); ok {
				highest = max(highest, n)
			}
		}
	}
	id := letters + strconv.Itoa(highest+1)
	for n := highest + 2; r.has(id); n++ { // a number too long to be counted
		id = letters + strconv.Itoa(n)
	}
	return id
}

// has reports whether an id is on r, in capitals or not.
func (r Rack) has(id string) bool {
	return slices.ContainsFunc(r.Entries(), func(e Entry) bool { return strings.EqualFold(e.ID, id) })
}

// Add puts e at the end of r. Where e has no id it gets the next one of its timber's
// letters. It gives the entry as it stands on the rack.
func (r Rack) Add(e Entry, look Lookup) (Rack, Entry, error) {
	if e.ID == "" {
		e.ID = NextID(r, look.Letters(e.Species))
	}
	if err := e.Check(); err != nil {
		return r, e, err
	}
	if err := r.free(e.ID); err != nil {
		return r, e, err
	}
	return r.with(e), e, nil
}

func (r Rack) free(id string) error {
	if taken, ok := r.Get(id); ok {
		return fmt.Errorf("id %s is taken by %s: give another one, or none", id, taken.say())
	}
	return nil
}

// say names an entry in a message.
func (e Entry) say() string {
	what := e.Species
	if e.Ready {
		what = "a ready strip of " + what
	}
	return what + ", " + e.Length.String() + " long"
}

// with puts e at the end, unchecked.
func (r Rack) with(e Entry) Rack {
	if e.Ready {
		r.Strips = append(slices.Clip(r.Strips), e.Strip())
	} else {
		r.Pieces = append(slices.Clip(r.Pieces), e.Piece)
	}
	return r
}

// Replace puts e where the entry of id is. Where e has no id it keeps the old one. A
// piece that becomes a ready strip, or the other way round, goes to the end.
func (r Rack) Replace(id string, e Entry) (Rack, error) {
	at, ready := r.find(id)
	if at < 0 {
		return r, r.none(id)
	}
	if e.ID == "" {
		e.ID = id
	}
	if err := e.Check(); err != nil {
		return r, err
	}
	if e.ID != id {
		if err := r.free(e.ID); err != nil {
			return r, err
		}
	}
	switch {
	case ready != e.Ready:
		without, err := r.Remove(id)
		return without.with(e), err
	case ready:
		r.Strips = slices.Clone(r.Strips)
		r.Strips[at] = e.Strip()
	default:
		r.Pieces = slices.Clone(r.Pieces)
		r.Pieces[at] = e.Piece
	}
	return r, nil
}

// none says that the rack has nothing of that id, with the one that may be meant.
func (r Rack) none(id string) error {
	for _, e := range r.Entries() {
		if strings.EqualFold(e.ID, id) {
			return fmt.Errorf("nothing on the rack has the id %q: did you mean %s?", id, e.ID)
		}
	}
	return fmt.Errorf("nothing on the rack has the id %q", id)
}

// Remove takes the entry of id off the rack: it is used up.
func (r Rack) Remove(id string) (Rack, error) {
	at, ready := r.find(id)
	switch {
	case at < 0:
		return r, r.none(id)
	case ready:
		r.Strips = slices.Delete(slices.Clone(r.Strips), at, at+1)
	default:
		r.Pieces = slices.Delete(slices.Clone(r.Pieces), at, at+1)
	}
	return r, nil
}

// change replaces the entry of id by what to makes of it.
func (r Rack) change(id string, to func(*Entry)) (Rack, error) {
	e, ok := r.Get(id)
	if !ok {
		return r, r.none(id)
	}
	to(&e)
	return r.Replace(id, e)
}

// UseOne takes one of the pieces or strips of id; the last one is used up.
func (r Rack) UseOne(id string) (Rack, error) { return r.Use(id, 1) }

// Use takes n of the pieces or strips of id; with the last one it is used up.
func (r Rack) Use(id string, n int) (Rack, error) {
	if e, ok := r.Get(id); ok && e.Quantity <= n {
		return r.Remove(id)
	}
	return r.change(id, func(e *Entry) { e.Quantity -= n })
}

// SetUseFirst says whether the entry of id is to be used first.
func (r Rack) SetUseFirst(id string, first bool) (Rack, error) {
	return r.change(id, func(e *Entry) { e.UseFirst = first })
}

// SetRings says how the growth rings of the entry of id lie.
func (r Rack) SetRings(id string, rings pattern.Rings) (Rack, error) {
	return r.change(id, func(e *Entry) { e.Lay(e.Grain().With(rings)) })
}
