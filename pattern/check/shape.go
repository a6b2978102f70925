package check

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/suggest/look"
)

// A shape is the look that remedies keep: which strips are alike for it.
type shape struct {
	mirror bool
	period int // of a repeat; 0: none
	n      int // strips
}

// alikeMost is how many strips a remedy changes at most to keep the look.
const alikeMost = 64

// shapeOf returns the look of strips that remedies keep.
func shapeOf(strips []pattern.Strip) shape {
	seen := make([]look.Strip, len(strips))
	for i, s := range strips {
		seen[i] = look.Strip{Species: s.Species, Width: s.Width}
	}
	return shape{mirror: look.Rules{}.Is(look.Mirror, seen), period: look.Period(seen), n: len(strips)}
}

// beside returns what the strips at, all of them moved alike, correspond to: the other half,
// and the rows before and behind.
func (s shape) beside(at []int) [][]int {
	var out [][]int
	add := func(to func(i int) int) {
		moved := make([]int, len(at))
		for k, i := range at {
			if moved[k] = to(i); moved[k] < 0 || moved[k] >= s.n {
				return
			}
		}
		out = append(out, moved)
	}
	if s.mirror {
		add(func(i int) int { return s.n - 1 - i })
	}
	if s.period > 0 {
		add(func(i int) int { return i + s.period })
		add(func(i int) int { return i - s.period })
	}
	return out
}

// all returns everything that strips correspond to, they themselves first.
func (s shape) all(at ...int) [][]int {
	out := [][]int{at}
	for k := 0; k < len(out) && len(out) <= alikeMost; k++ {
		for _, next := range s.beside(out[k]) {
			if !slices.ContainsFunc(out, func(o []int) bool { return slices.Equal(o, next) }) {
				out = append(out, next)
			}
		}
	}
	return out
}

// with returns the strips that are alike for the look, i first.
func (s shape) with(i int) []int {
	var out []int
	for _, at := range s.all(i) {
		out = append(out, at[0])
	}
	return out
}

// pairs returns the strips that must change places for i and j to do so and the look to stay,
// i and j first; none where it cannot, or too many would. Strips of one kind change places
// alone.
func (s shape) pairs(i, j int, strips []pattern.Strip) [][2]int {
	one := [][2]int{{i, j}}
	if !s.mirror && s.period == 0 || strips[i].Species == strips[j].Species && strips[i].Width == strips[j].Width {
		return one
	}
	var out [][2]int
	used := map[int]bool{}
	for _, p := range s.all(i, j) {
		a, b := p[0], p[1]
		if slices.Contains(out, [2]int{b, a}) {
			continue
		}
		if used[a] || used[b] || len(out) == alikeMost {
			return nil
		}
		used[a], used[b] = true, true
		out = append(out, [2]int{a, b})
	}
	after := slices.Clone(strips)
	for _, p := range out {
		after[p[0]], after[p[1]] = after[p[1]], after[p[0]]
	}
	if shapeOf(after).keeps(s) {
		return out
	}
	return nil
}

// keeps reports whether a panel of shape s has the look that one of shape o has.
func (s shape) keeps(o shape) bool {
	return (s.mirror || !o.mirror) && (o.period == 0 || s.period == o.period)
}
