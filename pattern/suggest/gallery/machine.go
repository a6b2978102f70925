package gallery

import (
	"math/bits"
	"slices"

	"example.com/oddments/pattern/suggest/look"
)

// A state is what the look and the wishes must know of a walk so far to say what may come
// next.
type state struct {
	last   int16  // class of the last strip; -1: there is none
	first  int16  // class of the first, where a repeat comes back to it; else -1
	before int16  // timber of the strip before the last, where it counts; else -1
	way    int8   // fade: 1 growing lighter, -1 darker, 2 and -2 the same after the turn; accent: how many accents, 2 or more are 2
	seen   uint64 // timbers so far, as far as they count
}

// An edge is a step from a state.
type edge struct {
	to    int32
	class int16
	worth int64 // contrast of the line that it makes, in units
}

// A machine is the states of a look with the least contrast of its lines.
type machine struct {
	states []state
	edges  [][]edge // of each state
	ends   []bool   // of each: whether a walk may end there
	closes []int64  // of each: contrast of the closing line, where there is one
}

// A theme is what a machine is built for.
type theme struct {
	g      *goods
	look   look.Look
	least  int64  // contrast of every line, in units
	accent int    // timber of the accent
	widest int64  // an accent strip, where the field is at least twice as wide
	field  uint64 // timbers of the field
	fewest int    // different timbers
	most   int
	with   uint64  // timbers that there must be
	usual  []bool  // of each class: whether it serves where it is no accent
	stands []int16 // of each class: that which stands for it as the last of a walk
	twin   bool    // the closing line lies between two strips of the last step
}

// statesMost is how many states a machine may have.
const statesMost = 20_000

// build returns the machine; nil where it would be too large.
func (t *theme) build() *machine {
	m := &machine{}
	at := map[state]int32{}
	add := func(s state) int32 {
		i, there := at[s]
		if !there {
			i = int32(len(m.states))
			at[s] = i
			m.states = append(m.states, s)
		}
		return i
	}
	add(state{last: -1, first: -1, before: -1})
	for i := 0; i < len(m.states); i++ {
		if len(m.states) > statesMost {
			return nil
		}
		s := m.states[i]
		var edges []edge
		for c := range t.g.classes {
			if next, ok := t.next(s, c); ok {
				e := edge{to: add(next), class: int16(c)}
				if s.last >= 0 {
					e.worth = t.g.contrast(int(s.last), c)
				}
				edges = append(edges, e)
			}
		}
		m.edges = append(m.edges, edges)
		closes, ok := t.closing(s)
		m.ends, m.closes = append(m.ends, ok && t.end(s)), append(m.closes, closes)
	}
	return m
}

// standIns returns the class that stands for each as the last of a walk: the first of its
// timber that the same may lie beside, where the look does not ask how wide the last one is.
func (t *theme) standIns() []int16 {
	n := len(t.g.classes)
	out := make([]int16, n)
	alike := func(a, b int) bool {
		if t.g.classes[a].timber != t.g.classes[b].timber {
			return false
		}
		for c := range n {
			if t.g.besides[a*n+c] != t.g.besides[b*n+c] || t.g.besides[c*n+a] != t.g.besides[c*n+b] {
				return false
			}
		}
		return true
	}
	for c := range out {
		for out[c] = 0; t.look == look.Lively || t.look == look.Calm || !alike(int(out[c]), c); out[c]++ {
			if int(out[c]) == c {
				break
			}
		}
	}
	return out
}

// line reports whether classes a and b may lie side by side.
func (t *theme) line(a, b int) bool {
	g := t.g
	c := g.contrast(a, b)
	if !g.besides[a*len(g.classes)+b] || c < t.least {
		return false
	}
	accent := g.classes[a].timber == t.accent || g.classes[b].timber == t.accent
	return t.look != look.Accent || !accent || c >= units(2*g.ask.LeastContrast)
}

// next returns the state after class c.
func (t *theme) next(s state, c int) (state, bool) {
	class := &t.g.classes[c]
	out := state{last: t.stands[c], first: s.first, before: -1, way: s.way, seen: t.sees(s.seen, class.timber)}
	if !t.usual[c] && !(t.look == look.Accent && class.timber == t.accent) || out.seen == tooMany || s.last >= 0 && !t.line(int(s.last), c) {
		return out, false
	}
	var last *timber
	if s.last >= 0 {
		last = &t.g.timbers[t.g.classes[s.last].timber]
	}
	ok := true
	switch t.look {
	case look.Repeat:
		if s.last < 0 {
			out.first = t.stands[c]
		}
	case look.Lively, look.Calm:
		if s.last < 0 {
			break
		}
		was := t.g.classes[s.last]
		out.before = int16(was.timber)
		if t.look == look.Lively {
			ok = class.timber != was.timber && class.width != was.width && int(s.before) != class.timber
		} else {
			ok = class.timber != was.timber && (s.before < 0 || int(s.before) == class.timber)
		}
	case look.Fade:
		out.way, ok = t.fade(s, last, class)
	case look.Accent:
		if class.timber != t.accent {
			ok = class.width >= 2*t.widest && t.field&(1<<class.timber) != 0
		} else {
			ok = class.width <= t.widest && s.last >= 0 && t.g.classes[s.last].timber != t.accent
			out.way = min(2, s.way+1)
		}
	}
	return out, ok
}

// fade returns the way that lightness runs after a strip of class c.
func (t *theme) fade(s state, last *timber, c *class) (way int8, ok bool) {
	if last == nil {
		return 0, true
	}
	now := &t.g.timbers[c.timber]
	to := int8(0)
	switch {
	case last.light < now.light:
		to = 1
	case last.light > now.light:
		to = -1
	default:
		return s.way, last.key == now.key
	}
	switch s.way {
	case 0, to:
		return to, true
	case -to:
		return 2 * to, true // the one turn
	default:
		return s.way, s.way == 2*to
	}
}

// What seen may be: timbers by their bits, as long as they count.
const (
	enough  = uint64(1) << 63 // no more of them need be told apart
	tooMany = ^uint64(0)
)

// sees returns the timbers after one more.
func (t *theme) sees(seen uint64, timber int) uint64 {
	if t.fewest <= 1 && t.with == 0 && t.most >= len(t.g.timbers) {
		return 0
	}
	if seen == enough {
		return enough
	}
	seen |= 1 << timber
	switch n := bits.OnesCount64(seen); {
	case n > t.most:
		return tooMany
	case t.most >= len(t.g.timbers) && n >= t.fewest && seen&t.with == t.with:
		return enough
	}
	return seen
}

// end reports whether a walk may end in s, which its look and its timbers allow.
func (t *theme) end(s state) bool {
	if s.last < 0 {
		return false
	}
	if seen := s.seen; seen != enough && !(t.fewest <= 1 && t.with == 0) && (bits.OnesCount64(seen) < t.fewest || seen&t.with != t.with) {
		return false
	}
	return t.look != look.Accent || s.way == 2 && t.g.classes[s.last].timber != t.accent
}

// closing returns the contrast of the closing line, and whether it may be.
func (t *theme) closing(s state) (int64, bool) {
	switch {
	case s.last < 0:
		return 0, false
	case t.look == look.Repeat:
		return t.g.contrast(int(s.last), int(s.first)), t.line(int(s.last), int(s.first))
	case t.twin:
		return t.g.contrast(int(s.last), int(s.last)), t.line(int(s.last), int(s.last))
	default:
		return 0, true
	}
}

// leastTimbers is how many different timbers a layout of a look has at least.
func (g *goods) leastTimbers(l look.Look) int { return max(l.Fewest(), g.ask.Timbers[0]) }

// mostTimbers is how many it has at most.
func (g *goods) mostTimbers(l look.Look) int {
	most := len(g.timbers)
	if n := g.ask.Timbers[1]; n > 0 {
		most = min(most, n)
	}
	if l == look.Accent {
		most = min(most, look.AccentTimbers)
	}
	return most
}

// withBits returns the timbers that must be; false where one is not there.
func (g *goods) withBits() (out uint64, ok bool) {
	for _, key := range g.ask.With {
		at := slices.IndexFunc(g.timbers, func(t timber) bool { return t.key == key })
		if at < 0 {
			return 0, false
		}
		out |= 1 << at
	}
	return out, true
}
