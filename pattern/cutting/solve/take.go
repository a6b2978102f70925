package solve

import (
	"slices"
)

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

// from takes t out of left.
func (t take) from(left []int32) {
	for _, p := range t {
		left[p.kind] -= p.count
	}
}

// back puts t back into left.
func (t take) back(left []int32) {
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

func (t take) hash() uint64 {
	h := uint64(14695981039346656037)
	for _, p := range t {
		h = (h ^ uint64(uint32(p.kind))) * 1099511628211
		h = (h ^ uint64(uint32(p.count))) * 1099511628211
		h ^= h >> 29
	}
	return h
}

// A takeIndex finds takes that are equal.
type takeIndex struct {
	first map[uint64]int32
	next  []int32 // of each number given out: the one before it with its hash, else -1
}

func newTakeIndex() *takeIndex { return &takeIndex{first: map[uint64]int32{}} }

// find returns the number of t, and whether it is a new one: the count of takes so
// far. at gives the take of a number.
func (x *takeIndex) find(t take, at func(int32) take) (int32, bool) {
	h := t.hash()
	head, ok := x.first[h]
	if !ok {
		head = -1
	}
	for n := head; n >= 0; n = x.next[n] {
		if slices.Equal(at(n), t) {
			return n, false
		}
	}
	n := int32(len(x.next))
	x.next = append(x.next, head)
	x.first[h] = n
	return n, true
}
