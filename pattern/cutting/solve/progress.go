package solve

import (
	"cmp"
	"sync"

	"example.com/oddments/pattern/cutting"
)

// A gatherer gathers how far the timbers are, on each side of a job, and tells
// Options.Progress.
type gatherer struct {
	mu    sync.Mutex
	opt   Options
	sides []sideNotes
}

// sideNotes are the notes of one side's timbers.
type sideNotes struct {
	notes []note
	asked []int // strips of each timber
}

// expect adds a side with such timbers.
func (b *gatherer) expect(timbers []*timber) {
	side := sideNotes{notes: make([]note, len(timbers))}
	for _, t := range timbers {
		side.asked = append(side.asked, t.strips())
	}
	b.sides = append(b.sides, side)
}

// post takes a note of timber i of a side, and tells of the side that is better so far.
func (b *gatherer) post(side, i int, n note) {
	if b.opt.Progress == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	b.sides[side].notes[i] = n
	if b.opt.Tick != nil {
		select {
		case <-b.opt.Tick:
		default:
			return
		}
	}
	p := b.sides[0].progress()
	for _, s := range b.sides[1:] {
		q := s.progress()
		timbers, done, low := p.Timbers+q.Timbers, p.Done+q.Done, min(p.LowerBoundCM3, q.LowerBoundCM3)
		if q.DrawnCM3 > 0 && cmp.Or(cmp.Compare(q.Short, p.Short), cmp.Compare(q.DrawnCM3, p.DrawnCM3)) < 0 {
			p = q
		}
		p.Timbers, p.Done, p.LowerBoundCM3 = timbers, done, low
	}
	b.opt.Progress(p)
}

func (s sideNotes) progress() cutting.Progress {
	p := cutting.Progress{Timbers: len(s.notes)}
	for i, n := range s.notes {
		p.Short += int(n.short)
		p.DrawnCM3 += cm3(n.cost)
		p.LowerBoundCM3 += lowerCM3(n.bound, s.asked[i])
		if n.done {
			p.Done++
		}
	}
	return p
}
