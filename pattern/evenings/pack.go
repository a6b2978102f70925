package evenings

import (
	"cmp"
	"encoding/binary"
	"slices"
)

// mostSteps bounds the search for the fewest evenings, for more than those where it was not sure,
// and for the order; a step counts more where there are many evenings.
const mostSteps = 400_000

// mostKnown bounds the evenings with which ways that lead nowhere are known again: more take room.
const mostKnown = 100

// A room is what an evening has, or a glue-up takes of it.
type room struct{ clamps, seconds int }

func (r room) holds(t room) bool   { return t.clamps <= r.clamps && t.seconds <= r.seconds }
func (r room) without(t room) room { return room{r.clamps - t.clamps, r.seconds - t.seconds} }
func (r room) with(t room) room    { return room{r.clamps + t.clamps, r.seconds + t.seconds} }

// A task is a glue-up to be put into an evening.
type task struct {
	GlueUp
	takes  room
	behind int // rounds of its panel behind it
}

// single reports whether no other glue-up must stand before or behind it.
func (t task) single() bool { return t.Round == 0 && t.behind == 0 }

// A packer puts glue-ups into evenings.
type packer struct {
	Request
	tasks []task
	order []int // in which they are placed
	roomy room  // of an empty evening
	steps int   // left
}

// fewest returns the evenings of the glue-ups, as few as were found, and what none has fewer than.
func (p *packer) fewest() (at []int, least int) {
	greedy := p.greedy()
	most := 1 + slices.Max(greedy)
	least = p.bound()
	more := mostSteps / 2 // for numbers of evenings where it was not sure that there are no fewer
	for n := least; n < most; n++ {
		sure := least == n
		if !sure {
			if more <= 0 {
				break
			}
			p.steps = more / 4
			more -= p.steps + 1
		}
		var none bool
		if at, none = p.fits(n, nil); at != nil {
			return at, least
		}
		if sure && none {
			least = n + 1
		}
	}
	return greedy, least
}

// greedy puts each glue-up into the first evening that has room for it, those with most behind
// them first.
func (p *packer) greedy() []int {
	at, free := make([]int, len(p.tasks)), []room{}
	for _, i := range p.order {
		e := 0
		for _, k := range p.before(i) {
			e = max(e, at[k]+1)
		}
		for ; ; e++ {
			for e >= len(free) {
				free = append(free, p.roomy)
			}
			if free[e].holds(p.tasks[i].takes) {
				break
			}
		}
		at[i], free[e] = e, free[e].without(p.tasks[i].takes)
	}
	return at
}

// before returns the tasks of the same panel that must stand before one. Those of a panel stand
// together.
func (p *packer) before(i int) (all []int) {
	for k := i - 1; k >= 0 && p.tasks[k].Panel == p.tasks[i].Panel; k-- {
		if p.tasks[k].Round < p.tasks[i].Round {
			all = append(all, k)
		}
	}
	return all
}

// sorted returns the order in which glue-ups are placed: those of panels of several rounds first,
// round by round, then the largest.
func sorted(tasks []task) []int {
	order := make([]int, len(tasks))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int {
		a, b := tasks[i], tasks[k]
		return cmp.Or(cmp.Compare(b.Round+b.behind, a.Round+a.behind), cmp.Compare(a.Round, b.Round),
			cmp.Compare(b.takes.clamps, a.takes.clamps), cmp.Compare(b.takes.seconds, a.takes.seconds))
	})
	return order
}

// bound returns what no schedule has fewer evenings than: whatever has so many rounds before or
// behind it stands in the other evenings.
func (p *packer) bound() (least int) {
	for n := 0; ; n++ {
		var later, earlier []room
		for _, t := range p.tasks {
			if t.Round >= n {
				later = append(later, t.takes)
			}
			if t.behind >= n {
				earlier = append(earlier, t.takes)
			}
		}
		if len(later)+len(earlier) == 0 {
			return least
		}
		least = max(least, n+p.evenings(later), n+p.evenings(earlier))
	}
}

// evenings returns how many evenings all of these take at least, by clamps or by time: those over
// half of one stand alone, and the others fill what these leave (Martello and Toth's bound).
func (p *packer) evenings(all []room) int {
	of := func(full int, take func(room) int) (least int) {
		seen := map[int]bool{}
		for _, from := range all {
			small := take(from)
			if 2*small > full {
				small = 0
			}
			if seen[small] {
				continue
			}
			seen[small] = true
			ones, left, rest := 0, 0, 0 // alone; what those over half leave; what is to find room
			for _, t := range all {
				switch n := take(t); {
				case n > full-small:
					ones++
				case 2*n > full:
					ones, left = ones+1, left+full-n
				case n >= small:
					rest += n
				}
			}
			least = max(least, ones+max(0, (rest-left+full-1)/full))
		}
		return least
	}
	return max(of(p.roomy.clamps, func(r room) int { return r.clamps }), of(p.roomy.seconds, func(r room) int { return r.seconds }))
}

// inOrder moves glue-ups of a schedule to earlier evenings, those of the first panels first, as far
// as the rest still fits.
func (p *packer) inOrder(at []int) []int {
	p.steps = mostSteps
	n := 1 + slices.Max(at)
	held := make([]int, 0, len(at))
	for i := range at {
		for e := range at[i] {
			if p.steps <= 0 {
				return at
			}
			if better, _ := p.fits(n, append(slices.Clip(held), e)); better != nil {
				at = better
				break
			}
		}
		held = append(held, at[i])
	}
	return at
}

// fits returns evenings of all glue-ups out of n, the first of them as they are held; nil: none
// were found, and sure says that there are none.
func (p *packer) fits(n int, held []int) (at []int, sure bool) {
	f := &filling{packer: p, free: slices.Repeat([]room{p.roomy}, n), at: slices.Repeat([]int{-1}, len(p.tasks)), dead: map[string]bool{}}
	for i, e := range held {
		if !f.may(i, e) {
			return nil, true
		}
		f.put(i, e)
	}
	p.steps -= len(p.tasks) // what is prepared takes time too
	for _, i := range p.order {
		if f.at[i] < 0 {
			f.rest = append(f.rest, i)
			f.wants = f.wants.with(p.tasks[i].takes)
		}
	}
	if f.fill(0) {
		return f.at, true
	}
	return nil, p.steps > 0
}

// A filling is a search for evenings.
type filling struct {
	*packer
	free  []room
	at    []int // the evening of each task; -1: none yet
	rest  []int // the tasks that are placed, in their order
	wants room  // what they take together
	dead  map[string]bool
}

func (f *filling) put(i, e int) { f.at[i], f.free[e] = e, f.free[e].without(f.tasks[i].takes) }

func (f *filling) take(i int) {
	e := f.at[i]
	f.at[i], f.free[e] = -1, f.free[e].with(f.tasks[i].takes)
}

// may reports whether a task may stand in an evening beside those that are placed.
func (f *filling) may(i, e int) bool {
	t := f.tasks[i]
	if e < t.Round || e >= len(f.free)-t.behind || !f.free[e].holds(t.takes) {
		return false
	}
	if t.single() {
		return true
	}
	beside := func(k int) bool { return k >= 0 && k < len(f.tasks) && f.tasks[k].Panel == t.Panel }
	bars := func(k int) bool {
		other := f.tasks[k]
		return f.at[k] >= 0 && (other.Round < t.Round && f.at[k] >= e || other.Round > t.Round && f.at[k] <= e)
	}
	for k := i - 1; beside(k); k-- {
		if bars(k) {
			return false
		}
	}
	for k := i + 1; beside(k); k++ {
		if bars(k) {
			return false
		}
	}
	return true
}

// fill places the rest of the tasks from one on.
func (f *filling) fill(from int) bool {
	if from == len(f.rest) {
		return true
	}
	if f.steps <= 0 || !f.sum().holds(f.wants) {
		return false
	}
	f.steps -= 1 + len(f.free)/8
	i := f.rest[from]
	key := ""
	if f.tasks[i].single() && len(f.free) <= mostKnown { // and all behind it are: only what is free counts, wherever
		all := slices.Clone(f.free)
		slices.SortFunc(all, func(a, b room) int { return cmp.Or(cmp.Compare(a.clamps, b.clamps), cmp.Compare(a.seconds, b.seconds)) })
		if key = keyOf(from, all); f.dead[key] {
			return false
		}
	}
	f.wants = f.wants.without(f.tasks[i].takes)
	for e := range f.free {
		if !f.may(i, e) {
			continue
		}
		f.put(i, e)
		if f.fill(from + 1) {
			return true
		}
		if f.take(i); f.steps <= 0 {
			break // each of those before would else try all its evenings for nothing
		}
	}
	f.wants = f.wants.with(f.tasks[i].takes)
	if key != "" && f.steps > 0 {
		f.dead[key] = true
	}
	return false
}

func keyOf(from int, all []room) string {
	key := binary.AppendUvarint(nil, uint64(from))
	for _, r := range all {
		key = binary.AppendUvarint(binary.AppendUvarint(key, uint64(r.clamps)), uint64(r.seconds))
	}
	return string(key)
}

func (f *filling) sum() (all room) {
	for _, r := range f.free {
		all = all.with(r)
	}
	return all
}
