package search

import "slices"

// A boundKey tells the bounds of a search apart.
type boundKey struct {
	walk   int
	least  int64
	target target
}

// A boundStore holds what was worked out before.
type boundStore struct {
	of     map[boundKey]*tightening
	heavy  []boundKey // of these, those with kept kinds, the latest last
	graphs map[int64]*graph
}

func newBoundStore() boundStore {
	return boundStore{of: map[boundKey]*tightening{}, graphs: map[int64]*graph{}}
}

// heavyMost is how many tables with kept kinds are held on to.
const heavyMost = 6

// remember holds on to a table with kept kinds, and lets go of the oldest.
func (b *boundStore) remember(key boundKey) {
	b.heavy = append(slices.DeleteFunc(b.heavy, func(k boundKey) bool { return k == key }), key)
	if len(b.heavy) > heavyMost {
		delete(b.of, b.heavy[0])
		b.heavy = b.heavy[1:]
	}
}

// A strength says how hard a bound is worked on.
type strength int

const (
	loose  strength = iota // to find a layout by, or to see soon that there is none
	sharp                  // as tight as prices make it
	strong                 // with some kinds kept
	stronger
	strongest
)

// states returns how many states of kept kinds a bound may have.
func (s strength) states() int { return [...]int{1, 1, 48, 400, 3200}[s] }

// boundOf returns the bound of walk n for t with lines of at least the contrast least,
// worked on until it is below enough. known is what a layout is worth that has been
// found, or infeasible. It is nil where the work was stopped.
//
// A bound that is there already serves again, whatever was known or enough when it was
// made: those say how long to work on it, and it holds however long that was. It holds
// for its walk, its target and lines of at least its contrast, which are its key; what
// differs from other layouts, or is known to have no plan, are conditions more, and a
// bound of more layouts holds for fewer.
func (s *search) boundOf(n int, least int64, t target, known, enough int64, how strength) *bound {
	if s.stop.stopped() {
		return nil // not even a table is made room for
	}
	key := boundKey{n, least, t}
	x, ok := s.bounds.of[key]
	if !ok || x.best == nil || how >= sharp && !x.sharp && x.best.all() >= enough {
		x = s.problems[n].tightening(s.graphOf(least), t, known, s.stop)
		x.walked = func(kinds []int32) { s.noteWalk(n, kinds) }
		if near := s.near(key); near != nil {
			x.at = near.base.clone()
		}
		rounds := roundsMost
		if how == loose {
			rounds = roundsFew
		}
		x.start(enough, rounds)
		x.sharp = how >= sharp && x.base != nil // one that was relaxed alone is begun anew where less is enough
		if !s.stop.stopped() {
			s.bounds.of[key] = x
		}
	}
	if how > x.kept && x.best != nil && x.best.all() >= enough {
		x.keepMore(how.states(), enough)
		x.kept = how
		s.bounds.remember(key)
	}
	s.looked += int(x.steps / stepsOfLook)
	x.steps = 0
	return x.best
}

// near returns a place to begin, and no more: the bound for the same target with the contrast nearest to that of key, of
// two the one with less, or nil: its prices are good ones to begin with.
func (s *search) near(key boundKey) *tightening {
	var out *tightening
	var at int64
	for other, x := range s.bounds.of {
		if other.walk != key.walk || other.target != key.target || x.base == nil {
			continue
		}
		if away, best := abs(other.least-key.least), abs(at-key.least); out == nil || away < best || away == best && other.least < at {
			out, at = x, other.least
		}
	}
	return out
}
