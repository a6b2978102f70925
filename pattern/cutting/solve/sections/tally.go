package sections

import "math/bits"

// A Tally holds a count of each kind, side by side in two words, so that whether a
// take is within what is left is one subtraction. What is left has a guard bit set
// above each count: one that would fall below zero clears it.
type Tally [2]uint64

// A Tallying says where the counts of a timber's kinds stand in a tally.
type Tallying struct {
	places []tallyPlace // of each kind
	Guard  Tally
	Whole  bool // every kind has found room; else tallies only say what surely is not within
}

// A tallyPlace is where a kind's count stands; below 0 it has none.
type tallyPlace struct {
	word  int8
	shift uint8
	mask  uint64
}

// NewTallying makes room for counts up to want, for the kinds as they stand.
func NewTallying(want []int32) Tallying {
	order := make([]int32, len(want))
	for k := range order {
		order[k] = int32(k)
	}
	return TallyingInOrder(want, order)
}

// TallyingInOrder makes room for these kinds, one after another while there is some.
func TallyingInOrder(want, order []int32) Tallying {
	t := Tallying{places: make([]tallyPlace, len(want)), Whole: true}
	var used [2]int
	for _, k := range order {
		width := bits.Len32(uint32(want[k]))
		word := 0
		if used[0]+width+1 > 64 {
			word = 1
		}
		if used[word]+width+1 > 64 {
			t.places[k].word, t.Whole = -1, false
			continue
		}
		t.places[k] = tallyPlace{int8(word), uint8(used[word]), 1<<width - 1}
		used[word] += width + 1
		t.Guard[word] |= 1 << (used[word] - 1)
	}
	return t
}

// Of returns the tally of a take.
func (t *Tallying) Of(k Take) Tally {
	var sum Tally
	for _, q := range k {
		if p := t.places[q.Kind]; p.word >= 0 {
			sum[p.word] += uint64(uint32(q.Count)) << p.shift
		}
	}
	return sum
}

// Counted returns the tally of a count of each kind.
func (t *Tallying) Counted(counts []int32) Tally {
	var sum Tally
	for k, n := range counts {
		if p := t.places[k]; p.word >= 0 {
			sum[p.word] += uint64(uint32(n)) << p.shift
		}
	}
	return sum
}

// Left returns the tally of what is left, none of it below 0.
func (t *Tallying) Left(left []int32) Tally {
	sum := t.Guard
	for k, n := range left {
		if p := t.places[k]; p.word >= 0 {
			sum[p.word] += uint64(uint32(n)) << p.shift
		}
	}
	return sum
}

// Count returns how many of a kind are left; the kind has a place.
func (t *Tallying) Count(left Tally, kind int32) int32 {
	p := t.places[kind]
	return int32(left[p.word] >> p.shift & p.mask)
}

// Holds reports whether a kind has found room.
func (t *Tallying) Holds(kind int32) bool { return t.places[kind].word >= 0 }

// Without returns what is left without so many of a kind, which has room and so many left.
func (t *Tallying) Without(left Tally, kind, count int32) Tally {
	p := t.places[kind]
	left[p.word] -= uint64(uint32(count)) << p.shift
	return left
}

// Less takes some out of what is left, guards set, and reports whether it was within.
func (t Tally) Less(some, guard Tally) (Tally, bool) {
	rest := Tally{t[0] - some[0], t[1] - some[1]}
	return rest, ^rest[0]&guard[0]|^rest[1]&guard[1] == 0
}
