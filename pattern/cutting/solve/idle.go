package solve

import (
	"sync/atomic"

	"example.com/oddments/pattern/cutting/solve/crew"
)

// idleWorkers counts the workers that have no timber of their own left; they lend a hand to
// the others. Nothing that is found may depend on how many there are.
type idleWorkers struct{ free atomic.Int32 }

// take reports whether there was one, which is then taken.
func (h *idleWorkers) take() bool {
	for h != nil {
		n := h.free.Load()
		if n <= 0 {
			return false
		}
		if h.free.CompareAndSwap(n, n-1) {
			return true
		}
	}
	return false
}

func (h *idleWorkers) back() { h.free.Add(1) }

// together does work with p, and at the same time with others like it for as many
// workers as are idle, and returns when all have.
func (p *pricer) together(work func(*pricer)) {
	var together crew.Crew
	for n := 0; p.idle.take(); n++ {
		if n == len(p.mates) {
			p.mates = append(p.mates, newPricer(p.t, p.stop))
		}
		mate := p.mates[n]
		mate.free, mate.nodes = p.free, p.nodes
		together.Start(func() {
			defer p.idle.back()
			work(mate)
		}, p.stop.End)
	}
	together.Do(func() { work(p) }, p.stop.End)
	together.Join()
}
