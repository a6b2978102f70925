package solve

import (
	"math"
	"slices"

	"example.com/oddments/pattern/length"
)

// mostSpread bounds the partial packings held at once: some 100 MB.
const mostSpread = 1 << 20

// A partial is a packing of some sections, the best of those at the same spot.
type partial struct {
	spot
	worth   int64
	sum     [2]float64
	parent  int32 // the partial it was made from; -1: none
	section int32 // that was added to it
}

// A spot is what decides how a packing may go on.
type spot struct {
	left  tally
	room  length.Length
	group int32 // of the last section: later ones come from it or from those after it
}

// A spreader goes through the packings of a stock by the number of their sections.
// Very many packings yield the same strips, cut from different sections of the same
// lengths; it goes on from the best of them only, so each set of strips is told once
// for each room, at its best worth. That serves where all columns above a floor that
// does not move are listed.
//
// Why nothing is lost: which sections may follow depends on the strips and the room that
// are left and on the group of the last section, and what they add is the same after either
// of two packings alike in these. So whatever comes of the poorer one comes of the richer
// one too, with the same strips from the same stock, worth no less; and of columns of one
// stock with the same strips a solution needs only the one that is worth most. Where a
// bound drops a packing it would have dropped the poorer ones too: it is their worth and
// what both may still add.
type spreader struct {
	all []partial
	at  map[spot]int32 // places of the latest partials in all
}

// long is how many options are looked at, one packing after another, before it pays to
// go on from the best of alike ones only.
const long = 400_000

// all goes through every packing, with the tables of rooms made. It gives false when
// the work was cut short.
func (w *walk) all() bool {
	if w.p.tallying.whole && w.p.without&spreading == 0 {
		if w.limit = w.p.spent + w.p.long; !w.p.once && w.through(0, 0, w.k.span, w.k.base, w.k.shared, w.p.tallying.left(w.p.left)) {
			return true
		}
		if w.p.overBudget() {
			return false
		}
		done, room := w.spread()
		if w.chosen = w.chosen[:0]; room {
			return done
		}
	}
	w.limit = math.MaxInt
	return w.through(0, 0, w.k.span, w.k.base, w.k.shared, w.p.tallying.left(w.p.left))
}

// spread tells what through tells, each only at its best. It gives false when the
// work was cut short, and room false when the partials were too many.
func (w *walk) spread() (done, room bool) {
	p := w.p
	s := &p.spreader
	first := partial{spot: spot{left: p.tallying.left(p.left), room: w.k.span}, worth: w.k.base, sum: w.k.shared, parent: -1}
	s.all = append(s.all[:0], first)
	for from := 0; from < len(s.all); {
		to := len(s.all)
		s.start()
		for n := from; n < to; n++ {
			if ok := w.extend(int32(n)); !ok {
				return false, true
			}
			if len(s.all) > mostSpread {
				return false, false
			}
		}
		for n := to; n < len(s.all); n++ {
			if n%1024 == 0 && p.stop.stopped() {
				return false, true
			}
			if s.all[n].worth >= w.floor {
				w.recall(int32(n))
				w.tell(s.all[n].room, s.all[n].worth)
			}
		}
		from = to
	}
	return true, true
}

// extend adds each section that may follow to partial n.
func (w *walk) extend(n int32) bool {
	p, k, s := w.p, w.k, &w.p.spreader
	guard := p.tallying.guard
	at := s.all[n]
	for g := int(at.group); g < len(k.groups); g++ {
		group := &k.groups[g]
		if group.step > at.room {
			continue
		}
		c := int((at.room - group.step) / k.cell)
		rest := [2]float64{at.sum[0] + group.most[0][c] + slackUnits, at.sum[1] + group.most[1][c] + slackUnits}
		floor := float64(w.floor)
		for i := range group.options {
			o := &group.options[i]
			if p.countAndCheck() {
				return false
			}
			if rest[0]+o.adds[0] < floor {
				break
			}
			if rest[1]+o.adds[1] < floor {
				continue
			}
			left, ok := at.left.less(o.tally, guard)
			if !ok {
				continue
			}
			s.add(partial{
				spot:  spot{left: left, room: at.room - group.step, group: int32(g)},
				worth: at.worth + o.worth, sum: [2]float64{at.sum[0] + o.adds[0], at.sum[1] + o.adds[1]},
				parent: n, section: o.section,
			})
		}
	}
	return true
}

// recall puts the sections of partial n into what is chosen.
func (w *walk) recall(n int32) {
	w.chosen = w.chosen[:0]
	for all := w.p.spreader.all; all[n].parent >= 0; n = all[n].parent {
		w.chosen = append(w.chosen, all[n].section)
	}
	slices.Reverse(w.chosen)
}

// start forgets the places of all partials so far.
func (s *spreader) start() {
	if s.at == nil {
		s.at = map[spot]int32{}
	}
	clear(s.at)
}

// add keeps x unless there is one as good.
func (s *spreader) add(x partial) {
	n, known := s.at[x.spot]
	if !known {
		s.at[x.spot] = int32(len(s.all))
		s.all = append(s.all, x)
	} else if x.worth > s.all[n].worth {
		s.all[n] = x
	}
}
