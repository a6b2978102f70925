package solve

import "encoding/binary"

// A part is so many strips of one kind.
type part struct{ kind, count int32 }

// A take is a set of strips: its parts in ascending order of kind, none empty.
type take []part

// takeOf returns the take of a count for each kind.
func takeOf(counts []int32) take {
	var t take
	for k, n := range counts {
		if n > 0 {
			t = append(t, part{int32(k), n})
		}
	}
	return t
}

// worth returns what the strips of t bring at prices.
func (t take) worth(prices []int64) int64 {
	var sum int64
	for _, p := range t {
		sum += int64(p.count) * prices[p.kind]
	}
	return sum
}

// strips returns how many strips t holds.
func (t take) strips() int {
	n := 0
	for _, p := range t {
		n += int(p.count)
	}
	return n
}

// within reports whether no kind of t is more than left has of it.
func (t take) within(left []int32) bool {
	for _, p := range t {
		if p.count > left[p.kind] {
			return false
		}
	}
	return true
}

// subtractFrom takes t out of left.
func (t take) subtractFrom(left []int32) {
	for _, p := range t {
		left[p.kind] -= p.count
	}
}

// addTo puts t addTo into left.
func (t take) addTo(left []int32) {
	for _, p := range t {
		left[p.kind] += p.count
	}
}

// covers reports whether t holds at least the strips of u.
func (t take) covers(u take) bool {
	i := 0
	for _, p := range u {
		for i < len(t) && t[i].kind < p.kind {
			i++
		}
		if i == len(t) || t[i].kind != p.kind || t[i].count < p.count {
			return false
		}
	}
	return true
}

// A takeIndex gives takes their places: the first 0, each that is new the next.
type takeIndex struct {
	places map[string]int
	key    []byte
}

func newTakeIndex() *takeIndex { return &takeIndex{places: map[string]int{}} }

// find returns the place of t, and whether it is a new one.
func (x *takeIndex) find(t take) (place int, fresh bool) {
	x.key = x.key[:0]
	for _, p := range t {
		x.key = binary.LittleEndian.AppendUint64(x.key, uint64(p.kind)<<32|uint64(p.count))
	}
	place, known := x.places[string(x.key)]
	if !known {
		place = len(x.places)
		x.places[string(x.key)] = place
	}
	return place, !known
}
