package edit

import (
	"math"
	"slices"

	"example.com/oddments/pattern/length"
)

// A sort is the strips of one width that are to stay of one width.
type sort struct {
	width, scaled length.Length
	strips        int
}

// byWidths gives strips other widths.
func (r *resizing) byWidths() error {
	held := r.held()
	var fixed, open length.Length
	var sorts []sort
	for i, s := range r.strips {
		if held[i] {
			fixed += s.Width
			continue
		}
		open += s.Width
		at := slices.IndexFunc(sorts, func(o sort) bool { return o.width == s.Width })
		if at < 0 {
			at, sorts = len(sorts), append(sorts, sort{width: s.Width})
		}
		sorts[at].strips++
	}
	left := r.to.Width - fixed
	switch {
	case len(sorts) == 0:
		return refuse("every strip is pinned: unpin one to reach %v", r.to.Width)
	case left+r.to.Tolerance <= 0:
		return refuse("the pinned strips are %v wide already, you want %v: unpin one", fixed, r.to.Width)
	}
	for i := range sorts {
		sorts[i].scaled = share(sorts[i].width, max(left, 0), open)
	}
	w := weighing{sorts: sorts, step: r.to.Step, wanted: left, tolerance: r.to.Tolerance}
	widths, ok := w.best()
	if !ok {
		return r.noWidths(w, fixed)
	}
	for i := range r.strips {
		if s := &r.strips[i]; !held[i] {
			s.Width = widths[slices.IndexFunc(sorts, func(o sort) bool { return o.width == s.Width })]
		}
	}
	return nil
}

// noWidths says which widths are the nearest.
func (r *resizing) noWidths(w weighing, fixed length.Length) error {
	w.tolerance = 0
	reach := w.reach(min(w.wanted+length.Length(w.strips())*w.step, length.Length(stepsMost)*w.step))
	nearest := length.Length(-1)
	for t, can := range reach {
		total := length.Length(t) * w.step
		if can && (nearest < 0 || away(total, w.wanted) < away(nearest, w.wanted)) {
			nearest = total
		}
	}
	if nearest < 0 {
		return refuse("strips of whole steps of %v are wider than %v together: use a finer step or fewer strips", r.to.Step, r.to.Width)
	}
	return refuse("no strip widths of whole steps of %v add up to %v within %v: %v is the nearest", r.to.Step, r.to.Width, r.to.Tolerance, nearest+fixed)
}

func away(a, b length.Length) length.Length { return max(a-b, b-a) }

// A weighing chooses widths of sorts.
type weighing struct {
	sorts             []sort
	step              length.Length
	wanted, tolerance length.Length // of the sorts together
}

func (w weighing) strips() int {
	n := 0
	for _, s := range w.sorts {
		n += s.strips
	}
	return n
}

// reach reports of each number of steps up to most whether the sorts can come to it, at
// least a step wide each.
func (w weighing) reach(most length.Length) []bool {
	can := make([]bool, max(0, most/w.step)+1)
	least := w.strips()
	if least >= len(can) {
		return nil
	}
	can[least] = true
	for _, s := range w.sorts {
		for t := least + s.strips; t < len(can); t++ {
			can[t] = can[t] || can[t-s.strips]
		}
	}
	return can
}

// best returns the width of each sort, and false where there are none within the
// tolerance. Widths are looked for ever further from the scaled ones, until whatever is
// further away is no better than what was found.
func (w weighing) best() ([]length.Length, bool) {
	can := w.reach(w.wanted + w.tolerance)
	low := max(0, (w.wanted-w.tolerance+w.step-1)/w.step)
	if int(low) >= len(can) || !slices.Contains(can[low:], true) {
		return nil, false
	}
	for reach := 2; ; reach *= 2 {
		steps, cost := w.near(reach, int(low), len(can)-1)
		if steps != nil && cost < w.beyond(reach) || reach >= len(can) {
			widths := make([]length.Length, len(steps))
			for i, n := range steps {
				widths[i] = length.Length(n) * w.step
			}
			return widths, true
		}
	}
}

// beyond returns what it costs at least when a sort is more than reach steps from the
// scaled width and all others are as near to it as steps allow.
func (w weighing) beyond(reach int) length.Length {
	nearest := func(s sort) length.Length {
		return length.Length(s.strips) * min(s.scaled%w.step, w.step-s.scaled%w.step)
	}
	var all length.Length
	for _, s := range w.sorts {
		all += nearest(s)
	}
	beyond := length.Length(math.MaxInt64)
	for _, s := range w.sorts {
		beyond = min(beyond, all-nearest(s)+length.Length(s.strips)*length.Length(reach)*w.step)
	}
	return beyond
}

// none is a cost that nothing has.
const none = math.MaxInt64

// near returns the best widths, in steps, with each sort at most reach steps from the
// scaled width, and how far strips are away from it together; nil where there are none.
func (w weighing) near(reach, low, high int) (steps []int, cost length.Length) {
	row := costs{at: []length.Length{0}}
	rows := make([]costs, len(w.sorts))
	for i, s := range w.sorts {
		row = row.with(w, s, reach, high)
		rows[i] = row
	}
	best := -1
	for t := max(low, row.from); t <= min(high, row.from+len(row.at)-1); t++ {
		if c := row.of(t); c != none && (best < 0 || c < row.of(best) || c == row.of(best) &&
			away(length.Length(t)*w.step, w.wanted) < away(length.Length(best)*w.step, w.wanted)) {
			best = t
		}
	}
	if best < 0 {
		return nil, none
	}
	steps = make([]int, len(w.sorts))
	t := best
	for i := len(w.sorts) - 1; i >= 0; i-- {
		steps[i] = int(rows[i].chosen[t-rows[i].from])
		t -= steps[i] * w.sorts[i].strips
	}
	return steps, row.of(best)
}

// costs holds the least cost of each number of steps that some sorts come to, from a
// number on, and the width of the last of these sorts.
type costs struct {
	from   int
	at     []length.Length
	chosen []int32
}

func (c costs) of(t int) length.Length { return c.at[t-c.from] }

// with adds a sort at most reach steps from its scaled width.
func (c costs) with(w weighing, s sort, reach, high int) costs {
	base := int(s.scaled / w.step)
	least, most := max(1, base-reach), base+reach
	until := min(high, c.from+len(c.at)-1+most*s.strips)
	next := costs{from: c.from + least*s.strips}
	size := max(0, until-next.from+1)
	next.at, next.chosen = make([]length.Length, size), make([]int32, size)
	for t := range next.at {
		next.at[t] = none
	}
	for n := least; n <= most; n++ {
		more := length.Length(s.strips) * away(length.Length(n)*w.step, s.scaled)
		for i, before := range c.at {
			t := i + c.from + n*s.strips - next.from
			if t >= size {
				break
			}
			if before != none && before+more < next.at[t] {
				next.at[t], next.chosen[t] = before+more, int32(n)
			}
		}
	}
	return next
}
