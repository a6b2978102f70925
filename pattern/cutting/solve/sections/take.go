package sections

import "encoding/binary"

// A Part is so many strips of one kind.
type Part struct{ Kind, Count int32 }

// A Take is a set of strips: its parts in ascending order of kind, none empty.
type Take []Part

// TakeOf returns the take of a count for each kind.
func TakeOf(counts []int32) Take {
	var t Take
	for k, n := range counts {
		if n > 0 {
			t = append(t, Part{int32(k), n})
		}
	}
	return t
}

// Worth returns what the strips of t bring at prices.
func (t Take) Worth(prices []int64) int64 {
	var sum int64
	for _, p := range t {
		sum += int64(p.Count) * prices[p.Kind]
	}
	return sum
}

// Strips returns how many strips t holds.
func (t Take) Strips() int {
	n := 0
	for _, p := range t {
		n += int(p.Count)
	}
	return n
}

// Within reports whether no kind of t is more than left has of it.
func (t Take) Within(left []int32) bool {
	for _, p := range t {
		if p.Count > left[p.Kind] {
			return false
		}
	}
	return true
}

// SubtractFrom takes t out of left.
func (t Take) SubtractFrom(left []int32) {
	for _, p := range t {
		left[p.Kind] -= p.Count
	}
}

// AddTo puts t into left.
func (t Take) AddTo(left []int32) {
	for _, p := range t {
		left[p.Kind] += p.Count
	}
}

// Covers reports whether t holds at least the strips of u.
func (t Take) Covers(u Take) bool {
	i := 0
	for _, p := range u {
		for i < len(t) && t[i].Kind < p.Kind {
			i++
		}
		if i == len(t) || t[i].Kind != p.Kind || t[i].Count < p.Count {
			return false
		}
	}
	return true
}

// A TakeIndex gives takes their places: the first 0, each that is new the next. The zero
// value is empty.
type TakeIndex struct {
	places map[string]int
	key    []byte
}

// Find returns the place of t, and whether it is a new one.
func (x *TakeIndex) Find(t Take) (place int, fresh bool) {
	x.key = x.key[:0]
	for _, p := range t {
		x.key = binary.LittleEndian.AppendUint64(x.key, uint64(p.Kind)<<32|uint64(p.Count))
	}
	place, known := x.places[string(x.key)]
	if !known {
		if x.places == nil {
			x.places = map[string]int{}
		}
		place = len(x.places)
		x.places[string(x.key)] = place
	}
	return place, !known
}
