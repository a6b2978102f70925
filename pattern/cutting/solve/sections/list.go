package sections

import (
	"math"
	"slices"

	"example.com/oddments/pattern/length"
)

// Bounds on what is kept of one cross, so that a batch of very many kinds can fill
// neither the memory nor the time. Where one is met the cross is not whole: its
// sections serve, but proofs fall back on coarser bounds (Relaxer). Of many crosses
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
func (c *Catalogue) share() quota {
	n := len(c.Crosses)
	tried := min(maxTried, allTried/n)
	return quota{min(maxSections, allSections/n), tried, stepsAWay * tried}
}

// ListPlain lists the plain ways of every cross, which are soon there.
func (c *Catalogue) ListPlain(stop Stopper) {
	for n := range c.Crosses {
		share := c.share()
		c.listAs(n, plainWays, &share, stop)
	}
}

// ListAll lists every cross. Most need little; those to which their share is too
// little then have what is left. The crosses of a timber of few pieces share a quota.
func (c *Catalogue) ListAll(few bool, stop Stopper) {
	if few {
		all := quota{smallSections, smallTried, smallSteps}
		for n := range c.Crosses {
			c.list(n, &all, stop)
		}
		return
	}
	var short []int
	kept := 0
	for n := range c.Crosses {
		share := c.share()
		if room := c.list(n, &share, stop); !room {
			short = append(short, n)
		}
		kept += len(c.Sections[n])
	}
	for _, n := range short {
		some := c.Sections[n]
		tried := moreTried / len(short)
		more := quota{min(maxSections, max(0, allSections-kept)), tried, stepsAWay * tried}
		if tried <= c.share().tried || stop.Stopped() {
			return
		}
		if c.listAs(n, everyWay, &more, stop) {
			kept += len(c.Sections[n])
			continue
		}
		c.Sections[n], c.Whole[n], c.crowded[n] = some, false, true
	}
}

// list fills in the sections of cross n: of alike ways the one that gives back
// most. It stops early when stop says so, and reports whether there was room for all.
func (c *Catalogue) list(n int, most *quota, stop Stopper) bool {
	if c.listAs(n, everyWay, most, stop) || stop.Stopped() {
		return true
	}
	share := c.share()
	c.listAs(n, someWays, &share, stop)
	return false
}

// listAs is list by one search. It reports whether there was room for all that it
// looked for.
func (c *Catalogue) listAs(n int, how scope, most *quota, stop Stopper) bool {
	var found []Section
	tried, room, whole := 0, !stop.Stopped(), how == everyWay
	for along, l := range c.Lengths {
		if l > c.Crosses[n].Longest || !room {
			continue
		}
		var index TakeIndex
		start := len(found)
		scratch := make(Take, 0, len(c.Kinds))
		saw := &sectionEnumerator{c: c, cross: n, along: along, scope: how, steps: &most.steps, stop: stop}
		saw.emit = func(w *way) bool {
			tried++
			if len(found) >= most.sections || tried >= most.tried || tried%1024 == 0 && stop.Stopped() {
				room = false
				return false
			}
			scratch = scratch[:0]
			for k, count := range w.counts {
				if count > 0 {
					scratch = append(scratch, Part{int32(k), count})
				}
			}
			i, fresh := index.Find(scratch)
			if fresh {
				found = append(found, Section{Along: int16(along), Side: w.side, Take: slices.Clone(scratch), credit: w.credit, plain: how == plainWays})
			} else if have := &found[start+i]; w.credit > have.credit {
				have.Side, have.credit = w.side, w.credit
			}
			return true
		}
		whole = saw.ways(c.Want) && whole
		room = room && !saw.short
	}
	c.Sections[n], c.Whole[n], c.crowded[n] = found, whole && room, how == someWays
	most.sections, most.tried = most.sections-len(found), most.tried-tried
	return room
}

// Stack finds how section s of cross n is sawn, its slab, and what it gives back: again by
// the search that found it, or, where that was for every way, by one for its strips only,
// which then finds the best way even if the list is not whole.
func (c *Catalogue) Stack(n int, s Section) (stack []Slicing, slab length.Length, credit float64) {
	how, want, steps := everyWay, make([]int32, len(c.Want)), math.MaxInt
	switch {
	case s.plain:
		how = plainWays
	case c.crowded[n]:
		how = someWays
	}
	if how == everyWay {
		s.Take.AddTo(want)
		credit = -1
	} else {
		copy(want, c.Want)
		credit = s.credit
	}
	saw := &sectionEnumerator{c: c, cross: n, along: int(s.Along), scope: how, steps: &steps}
	saw.emit = func(w *way) bool {
		if w.side == s.Side && w.credit >= credit && slices.Equal(TakeOf(w.counts), s.Take) {
			stack, slab, credit = w.stack(), w.slab, w.credit
		}
		return how == everyWay || stack == nil
	}
	saw.ways(want)
	return stack, slab, credit
}
