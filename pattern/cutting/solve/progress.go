package solve

import (
	"sync"

	"example.com/oddments/pattern/cutting"
)

// A gatherer gathers how far the timbers are, and tells Options.Progress.
type gatherer struct {
	mu    sync.Mutex
	opt   Options
	notes []note
	asked []int // strips of each timber
}

func newGatherer(timbers []*timber, opt Options) *gatherer {
	b := &gatherer{opt: opt, notes: make([]note, len(timbers))}
	for _, t := range timbers {
		b.asked = append(b.asked, t.strips())
	}
	return b
}

// post takes a note of timber i.
func (b *gatherer) post(i int, n note) {
	if b.opt.Progress == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.notes[i] = n
	if b.opt.Tick != nil {
		select {
		case <-b.opt.Tick:
		default:
			return
		}
	}
	p := cutting.Progress{Timbers: len(b.notes)}
	for i, n := range b.notes {
		p.Short += int(n.short)
		p.DrawnCM3 += cm3(n.cost)
		p.LowerBoundCM3 += lowerCM3(n.bound, b.asked[i])
		if n.done {
			p.Done++
		}
	}
	b.opt.Progress(p)
}
