package cutting

import "sync"

// A board gathers how far the timbers are, and tells Options.Progress.
type board struct {
	mu    sync.Mutex
	opt   Options
	notes []note
}

func newBoard(timbers int, opt Options) *board {
	return &board{opt: opt, notes: make([]note, timbers)}
}

// post takes a note of timber i.
func (b *board) post(i int, n note) {
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
	p := Progress{Timbers: len(b.notes)}
	for _, n := range b.notes {
		p.Short += int(n.short)
		p.DrawnCM3 += float64(n.cost) / perCM3
		p.LowerBoundCM3 += float64(n.bound) / perCM3
		if n.done {
			p.Done++
		}
	}
	b.opt.Progress(p)
}
