package solve

import (
	"math"
	"slices"

	"example.com/oddments/pattern/length"
)

// Bounds on what is kept of one cross, so that a batch of very many kinds can fill
// neither the memory nor the time. Where one is met the cross is not whole: its
// sections serve, but proofs fall back on coarser bounds (relaxer). Of many crosses
// each has its share of what all may have, so that a first plan is there soon.
const (
	maxSections = 30_000  // ways kept
	maxTried    = 150_000 // ways looked at
	allSections = 250_000 // of all crosses of a timber together
	allTried    = 1_500_000
	moreTried   = 1_500_000 // of those together for which that was too little
	maxSlices   = 20_000    // ways to rip slices of one thickness
	// Of a timber of few pieces, which branching goes through in long lists quickly.
	smallSections = 1_000_000 // of all crosses together
	smallTried    = 10_000_000
	smallSteps    = 800_000_000
	maxStacked    = 600 // ways to rip slices, all thicknesses together, from which stacks are built
)

// A quota is how many ways of one cross may still be kept, and looked at, and how many
// slices may still be laid on piles to find them. Listing takes from it.
type quota struct{ sections, tried, steps int }

// share returns what each of the crosses may have.
func (t *timber) share() quota {
	n := len(t.crosses)
	tried := min(maxTried, allTried/n)
	return quota{min(maxSections, allSections/n), tried, stepsAWay * tried}
}

// listAll lists every cross. Most need little; those to which their share is too
// little then have what is left. The crosses of a timber of few pieces share a quota.
func (t *timber) listAll(stop stopper) {
	if t.small() {
		all := quota{smallSections, smallTried, smallSteps}
		for n := range t.crosses {
			t.list(n, &all, stop)
		}
		return
	}
	var short []int
	kept := 0
	for n := range t.crosses {
		share := t.share()
		if room := t.list(n, &share, stop); !room {
			short = append(short, n)
		}
		kept += len(t.sections[n])
	}
	for _, n := range short {
		some := t.sections[n]
		tried := moreTried / len(short)
		more := quota{min(maxSections, max(0, allSections-kept)), tried, stepsAWay * tried}
		if tried <= t.share().tried || stop.stopped() {
			return
		}
		if t.listAs(n, everyWay, &more, stop) {
			kept += len(t.sections[n])
			continue
		}
		t.sections[n], t.whole[n], t.crowded[n] = some, false, true
	}
}

// list fills in the sections of cross n: of alike ways the one that gives back
// most. It stops early when stop says so, and reports whether there was room for all.
func (t *timber) list(n int, most *quota, stop stopper) bool {
	if t.listAs(n, everyWay, most, stop) || stop.stopped() {
		return true
	}
	share := t.share()
	t.listAs(n, someWays, &share, stop)
	return false
}

// listAs is list by one search. It reports whether there was room for all that it
// looked for.
func (t *timber) listAs(n int, how scope, most *quota, stop stopper) bool {
	var found []section
	tried, room, whole := 0, !stop.stopped(), how == everyWay
	for along, l := range t.lengths {
		if l > t.crosses[n].longest || !room {
			continue
		}
		index, start := newTakeIndex(), len(found)
		scratch := make(take, 0, len(t.kinds))
		saw := &sectionEnumerator{t: t, x: t.crosses[n], along: along, scope: how, steps: &most.steps, stop: stop}
		saw.emit = func(w *way) bool {
			tried++
			if len(found) >= most.sections || tried >= most.tried || tried%1024 == 0 && stop.stopped() {
				room = false
				return false
			}
			scratch = scratch[:0]
			for k, c := range w.counts {
				if c > 0 {
					scratch = append(scratch, part{int32(k), c})
				}
			}
			i, fresh := index.find(scratch)
			if fresh {
				found = append(found, section{along: int16(along), side: w.side, take: slices.Clone(scratch), credit: w.credit, plain: how == plainWays})
			} else if have := &found[start+i]; w.credit > have.credit {
				have.side, have.credit = w.side, w.credit
			}
			return true
		}
		whole = saw.ways(t.want) && whole
		room = room && !saw.short
	}
	t.sections[n], t.whole[n], t.crowded[n] = found, whole && room, how == someWays
	most.sections, most.tried = most.sections-len(found), most.tried-tried
	return room
}

// stack finds how section s of cross n is sawn, its slab, and what it gives back: again by
// the search that found it, or, where that was for every way, by one for its strips only,
// which then finds the best way even if the list is not whole.
func (t *timber) stack(n int, s section) (stack []slicing, slab length.Length, credit float64) {
	how, want, steps := everyWay, make([]int32, len(t.want)), math.MaxInt
	switch {
	case s.plain:
		how = plainWays
	case t.crowded[n]:
		how = someWays
	}
	if how == everyWay {
		s.take.addTo(want)
		credit = -1
	} else {
		copy(want, t.want)
		credit = s.credit
	}
	saw := &sectionEnumerator{t: t, x: t.crosses[n], along: int(s.along), scope: how, steps: &steps}
	saw.emit = func(w *way) bool {
		if w.side == s.side && w.credit >= credit && slices.Equal(takeOf(w.counts), s.take) {
			stack, slab, credit = w.stack(), w.slab, w.credit
		}
		return how == everyWay || stack == nil
	}
	saw.ways(want)
	return stack, slab, credit
}

// find returns the place of the section of cross n with this length and take.
func (t *timber) find(n int, along int16, want take) (int32, bool) {
	if len(want) == 0 {
		return 0, false
	}
	for i, s := range t.sections[n] {
		if s.along == along && slices.Equal(s.take, want) {
			return int32(i), true
		}
	}
	return 0, false
}

// keep returns the place of a section of cross n, which is added where the list lacks it.
func (t *timber) keep(n int, s section) int32 {
	if i, ok := t.find(n, s.along, s.take); ok && t.sections[n][i].credit >= s.credit {
		return i
	}
	t.sections[n] = append(t.sections[n], s)
	return int32(len(t.sections[n]) - 1)
}
