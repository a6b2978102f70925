package sets

import (
	"slices"

	"example.com/oddments/pattern/suggest/look"
)

// A rule says how a look goes from strip to strip: in each of some states, which kind may
// come next and what state that leads to, below 0 where it may not.
type rule struct {
	states int
	begin  func(k int) int
	next   func(state, last, k int) int
	ends   func(state, last int) bool
}

// rule returns that of the look, which also looks after the timbers that there must be.
func (d *draw) rule() rule {
	return d.with(d.lookRule())
}

func (d *draw) lookRule() rule {
	at := func(k int) *kind { return &d.search.kinds[d.kinds[k]] }
	plain := rule{1, func(int) int { return 0 }, func(_, _, _ int) int { return 0 }, func(_, _ int) bool { return true }}
	switch d.w.Look {
	case look.Accent:
		return d.accentRule(at)
	case look.Lively:
		var all []string
		for k := range d.kinds {
			if key := at(k).strip.Species; !slices.Contains(all, key) {
				all = append(all, key)
			}
		}
		place := func(k int) int { return slices.Index(all, at(k).strip.Species) }
		plain.states = len(all) + 1 // the timber before the last; none at first
		plain.begin = func(int) int { return len(all) }
		plain.next = func(before, last, k int) int {
			a, b := place(last), place(k)
			if a == b || b == before || at(last).strip.Width == at(k).strip.Width {
				return -1
			}
			return a
		}
	case look.Fade:
		return d.fadeRule(at)
	case look.Calm:
		plain.next = func(_, last, k int) int {
			a, b := at(last).strip, at(k).strip
			if a.Species == b.Species || int64(d.way)*int64(b.Width-a.Width) < 0 || d.turned && a.Width != b.Width {
				return -1
			}
			return 0
		}
	}
	return plain
}

// accentRule counts the strips of the accent, up to two.
func (d *draw) accentRule(at func(int) *kind) rule {
	const enough = 2
	is := func(k int) bool { return at(k).strip.Species == d.accent }
	limit := 2 * d.w.LeastContrast
	rules := d.rules(d.w)
	return rule{enough + 1,
		func(k int) int {
			if is(k) {
				return -1
			}
			return 0
		},
		func(n, last, k int) int {
			if is(last) && is(k) {
				return -1
			}
			if (is(last) || is(k)) && rules.Contrast(at(last).strip.Species, at(k).strip.Species) < limit {
				return -1
			}
			if is(k) {
				n = min(n+1, enough)
			}
			return n
		},
		func(n, last int) bool { return n == enough && !is(last) },
	}
}

// fadeRule counts the timbers until the lightness turns, up to three; states from three on
// have turned.
func (d *draw) fadeRule(at func(int) *kind) rule {
	const enough = 3
	return rule{2 * enough,
		func(int) int { return 0 },
		func(n, last, k int) int {
			a, b := at(last).light, at(k).light
			goes := float64(d.way)*(b-a) > 0
			switch {
			case a == b && at(last).strip.Species == at(k).strip.Species:
				return n
			case a == b:
				return -1
			case n < enough && goes:
				return min(n+1, enough-1)
			case n < enough:
				return n + enough
			case goes:
				return -1
			default:
				return n
			}
		},
		func(n, _ int) bool { return n%enough == enough-1 },
	}
}

// mostWith is how many timbers that there must be a walk looks after; of more, what is drawn
// is looked at when it is there.
const mostWith = 4

// with adds to a rule which of the timbers that there must be were put.
func (d *draw) with(r rule) rule {
	must := d.must[:min(mostWith, len(d.must))]
	if len(must) == 0 {
		return r
	}
	bit := func(k int) int {
		if i := slices.Index(must, d.search.kinds[d.kinds[k]].strip.Species); i >= 0 {
			return 1 << i
		}
		return 0
	}
	all := 1 << len(must)
	return rule{r.states * all,
		func(k int) int {
			state := r.begin(k)
			if state < 0 {
				return state
			}
			return state*all + bit(k)
		},
		func(state, last, k int) int {
			after := r.next(state/all, last, k)
			if after < 0 {
				return after
			}
			return after*all + (state%all | bit(k))
		},
		func(state, last int) bool { return state%all == all-1 && r.ends(state/all, last) },
	}
}
