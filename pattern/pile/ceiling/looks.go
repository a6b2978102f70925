package ceiling

import (
	"slices"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// A machine says how a panel may go on from strip to strip: states are a kind with a little of
// what went before. Looks ask for no less than their machines do.
type machine struct {
	kind        []int // of each state
	first, last []bool
	before      [][]uint64 // of each state: those that may be before it, bit by bit
	folded      bool       // the panel is walked from both edges to its middle
	seam        []bool     // folded: two strips of the state may meet in the middle
}

// A rule is what a machine is made of: the extra that a walk begins with, and that it goes on
// with after a kind; below 0 where it may not.
type rule struct {
	extras int
	begin  func(k int) int
	next   func(extra, last, k int) int
	ends   func(extra, k int) bool
}

// looks makes the machines of a want: what it asks for is asked by one of them.
func (w *want) looks(c *Ceiling) {
	free := rule{1, func(int) int { return 0 }, func(_, _, _ int) int { return 0 }, func(_, _ int) bool { return true }}
	all := make([]int, len(w.kinds))
	for k := range all {
		all[k] = k
	}
	kind := w.Look
	if c.coarse && kind != look.Mirror {
		kind = look.Any
	}
	switch kind {
	case look.Lively:
		free.next = func(_, last, k int) int {
			if w.timber(c, last) == w.timber(c, k) || w.kinds[last].width == w.kinds[k].width {
				return -1
			}
			return 0
		}
	case look.Fade:
		for _, way := range []float64{1, -1} {
			w.machines = append(w.machines, w.machine(all, w.fade(c, way)))
		}
		return
	case look.Calm:
		w.calm(c, free)
		return
	case look.Accent:
		w.accent(c)
		return
	}
	m := w.machine(all, free)
	if kind == look.Mirror {
		m.folded = true
		for _, a := range all {
			m.seam = append(m.seam, slices.ContainsFunc(all, func(b int) bool { return w.twin(c, a, b) && w.beside[a*len(all)+b] }))
		}
	}
	w.machines = append(w.machines, m)
}

// machine makes one of some kinds.
func (w *want) machine(kinds []int, r rule) *machine {
	m := &machine{}
	n := len(kinds) * r.extras
	words := (n + 63) / 64
	m.before = make([][]uint64, n)
	for i, k := range kinds {
		for extra := range r.extras {
			m.kind = append(m.kind, k)
			m.first = append(m.first, r.begin(k) == extra)
			m.last = append(m.last, r.ends(extra, k))
			m.before[i*r.extras+extra] = make([]uint64, words)
		}
	}
	for i, last := range kinds {
		for j, k := range kinds {
			if !w.beside[last*len(w.kinds)+k] {
				continue
			}
			for extra := range r.extras {
				if after := r.next(extra, last, k); after >= 0 {
					from := i*r.extras + extra
					m.before[j*r.extras+after][from/64] |= 1 << (from % 64)
				}
			}
		}
	}
	return m
}

// fade lets lightness run one way, and then the other.
func (w *want) fade(c *Ceiling, way float64) rule {
	return rule{2, func(int) int { return 0 },
		func(turned, last, k int) int {
			a, b := w.light(c, last), w.light(c, k)
			switch {
			case a == b && w.timber(c, last) == w.timber(c, k):
				return turned
			case a == b:
				return -1
			case way*(b-a) < 0:
				return 1
			case turned == 1:
				return -1
			}
			return 0
		},
		func(_, _ int) bool { return true }}
}

// timbers lists those that kinds are of.
func (w *want) timbers(c *Ceiling) (out []string) {
	for k := range w.kinds {
		if key := w.timber(c, k); !slices.Contains(out, key) {
			out = append(out, key)
		}
	}
	return out
}

// of lists the kinds of some timbers.
func (w *want) of(c *Ceiling, timbers ...string) (out []int) {
	for k := range w.kinds {
		if slices.Contains(timbers, w.timber(c, k)) {
			out = append(out, k)
		}
	}
	return out
}

// calm makes a machine of each two timbers that may lie side by side: they lie turn about.
func (w *want) calm(c *Ceiling, r rule) {
	r.next = func(_, last, k int) int {
		if w.timber(c, last) == w.timber(c, k) {
			return -1
		}
		return 0
	}
	all := w.timbers(c)
	for i, a := range all {
		for _, b := range all[i+1:] {
			kinds := w.of(c, a, b)
			if slices.ContainsFunc(kinds, func(k int) bool {
				return slices.ContainsFunc(kinds, func(o int) bool {
					return w.timber(c, k) != w.timber(c, o) && w.beside[k*len(w.kinds)+o]
				})
			}) {
				w.machines = append(w.machines, w.machine(kinds, r))
			}
		}
	}
}

// accent makes a machine of each timber that may be the accent: two strips of it or more,
// narrow, none beside another or at an edge, all others at least twice as wide.
func (w *want) accent(c *Ceiling) {
	const enough = 2
	for _, key := range w.timbers(c) {
		is := func(k int) bool { return w.timber(c, k) == key }
		narrow := length.Length(0)
		for _, k := range w.of(c, key) {
			if width := w.kinds[k].width; narrow == 0 || width < narrow {
				narrow = width
			}
		}
		if narrow > suggest.DefaultAccent {
			continue
		}
		told := w.told(c, key)
		var kinds []int
		for k := range w.kinds {
			if is(k) && w.kinds[k].width <= suggest.DefaultAccent || !is(k) && w.kinds[k].width >= 2*narrow {
				kinds = append(kinds, k)
			}
		}
		w.machines = append(w.machines, w.machine(kinds, rule{enough + 1,
			func(k int) int {
				if is(k) {
					return -1
				}
				return 0
			},
			func(n, last, k int) int {
				if is(last) && is(k) || is(last) && !told[w.timber(c, k)] || is(k) && !told[w.timber(c, last)] {
					return -1
				}
				if is(k) {
					n = min(n+1, enough)
				}
				return n
			},
			func(n, k int) bool { return n == enough && !is(k) }}))
	}
}
