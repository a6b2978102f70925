package search

import (
	"cmp"
	"slices"
)

// A need is a bound that partial layouts must still be able to reach.
type need struct {
	bound *bound
	least int64
}

// A job is one pass over the layouts of a walk: partial layouts grow strip by strip,
// those with the same counts and the same last kind are kept once, and those that a
// need rules out are dropped.
//
// What may follow on a partial layout depends on its counts and its last kind alone:
// from them come number and width, use-first width, what budgets and rules of difference
// say, and the pins to come. So of two with the same, the one with the greater sum can be
// made into all that the other can, and into no worse. One is dropped for a need only
// where a bound says that no way to go on comes to what is needed; as its score adds
// what its own strips are worth to what the bound's table says of the rest, it is no less
// than any layout made from it is worth, prices included. The table's counts of kept
// kinds are its own. What was dropped for want of room or time is told by done.
//
// Whether a whole layout keeps its level in full (keeps) depends on its order as well. So
// where a layout was refused for that, and some with the same counts were kept once, the
// pass is made again with all of them (apart).
type job struct {
	w      *pathProblem
	g      *graph
	needs  []need // the first ranks partial layouts
	target target
	any    bool // the first layout found will do
	wide   int  // partial layouts kept of one length
	budget int  // partial layouts looked at in all
	accept func(counts []uint16) bool
	keeps  func(kinds []int32) bool // nil: every layout does
	apart  bool                     // partial layouts with the same counts are all kept
	dead   func(counts []uint16, kind int) bool
	stop   stopper
	looked *int // counts partial layouts
}

// A found layout is the kinds of a walk, in order.
type found struct {
	kinds []int32 // all strips, left to right
	sum   int64   // contrast, units
	use   int64   // use-first width, nanometres
}

// value returns what a layout counts for t; infeasible of none.
func (f *found) value(t target) int64 {
	if f == nil {
		return infeasible
	}
	return t.alpha*f.sum + t.use*f.use
}

const needsMost = 3

// A partial layout.
type partial struct {
	sum, use, width int64
	node            [needsMost]int64 // value less prices of its strips, by need
	score           int64            // what the first need says it may reach
	hash            uint64           // of its counts
	last, parent    int32
	cell            int32
}

// A layer is the partial layouts of one length. counts holds theirs, k each.
type layer struct {
	list   []partial
	counts []uint16
	table  []int32 // places in list, plus one, by hash
}

// A trail is what is kept of a layer that has been left.
type trail struct{ last, parent []int32 }

// A run is a job at work.
type run struct {
	job
	now, then layer
	trails    []trail
	random    []uint64 // of each kind, for hashes
	done      bool     // nothing was dropped that a need allows
	tries     int      // partial layouts
	refused   bool     // a layout, for its level in full
	merged    bool     // partial layouts with the same counts were kept once
	best      *found
	counts    []uint16           // scratch
	from      [needsMost][]int64 // what the rest brings after each kind's step, for the partial layout that grows, by need
}

// pass looks through the layouts. done says that every one that the needs allow was
// looked at; each layout found raises the first need above itself.
func (j job) pass() (best *found, done bool) {
	r := j.run()
	if best, done = r.best, r.done; j.any && best != nil || !r.refused || !r.merged {
		return best, done
	}
	j.apart, j.needs = true, slices.Clone(j.needs)
	if best != nil {
		j.needs[0].least = max(j.needs[0].least, best.value(j.target)+1)
	}
	if r = j.run(); r.best != nil {
		best = r.best
	}
	return best, r.done
}

// run goes through one pass.
func (j job) run() *run {
	r := &run{job: j, done: true, counts: make([]uint16, j.w.k)}
	r.needs = slices.Clone(j.needs)
	r.random = make([]uint64, 2*j.w.k)
	seed := uint64(0x9E3779B97F4A7C15)
	for i := range r.random {
		seed = mix(seed + 0x9E3779B97F4A7C15)
		r.random[i] = seed | 1
	}
	r.begin()
	for step := 1; len(r.now.list) > 0 && !(r.any && r.best != nil); step++ {
		r.grow(step)
		if r.stop.stopped() {
			r.done = false
			break
		}
		if len(r.then.list) > r.wide {
			r.trim()
		}
		r.trails = append(r.trails, r.now.trail())
		r.now, r.then = r.then, r.now
		r.then.reset()
		if r.tries > r.budget {
			r.done = r.done && len(r.now.list) == 0
			break
		}
	}
	*r.looked += r.tries
	return r
}

// mix scatters the bits of x (the finaliser of SplitMix64).
func mix(x uint64) uint64 {
	x = (x ^ x>>30) * 0xBF58476D1CE4E5B9
	x = (x ^ x>>27) * 0x94D049BB133111EB
	return x ^ x>>31
}

func (l *layer) trail() trail {
	t := trail{last: make([]int32, len(l.list)), parent: make([]int32, len(l.list))}
	for i := range l.list {
		t.last[i], t.parent[i] = l.list[i].last, l.list[i].parent
	}
	return t
}

func (l *layer) reset() {
	l.list, l.counts = l.list[:0], l.counts[:0]
	clear(l.table)
}

// begin puts every first step into the first layer.
func (r *run) begin() {
	root := partial{last: -1, parent: -1}
	clear(r.counts)
	r.leave(&root, 1)
	for kind := range r.w.k {
		if r.w.allowed(0, kind) {
			r.put(&root, -1, 0, kind, 0)
		}
	}
	if len(r.then.list) > r.wide {
		r.trim()
	}
	r.now, r.then = r.then, r.now
	r.then.reset()
}

// grow makes the layer of step+1 steps from that of step steps.
func (r *run) grow(step int) {
	k := r.w.k
	free := step >= len(r.w.pins)
	for i := range r.now.list {
		if i&63 == 0 && r.stop.stopped() {
			return
		}
		p := &r.now.list[i]
		copy(r.counts, r.now.counts[i*k:(i+1)*k])
		r.leave(p, step+1)
		if free {
			r.end(p, i, step)
		}
		if r.any && r.best != nil {
			return
		}
		for _, kind := range r.g.next[p.last] {
			if !r.w.allowed(step, int(kind)) {
				continue
			}
			if r.w.odd && step+1 >= len(r.w.pins) {
				r.endOdd(p, i, step, int(kind))
			}
			if (step+1)*r.w.units <= r.w.hi {
				r.put(p, int32(i), step, int(kind), r.g.worth[int(p.last)*k+int(kind)])
			}
		}
		if len(r.then.list) > 2*r.wide {
			r.trim()
		}
	}
}

// leave makes p, whose counts are in r.counts, the one to which step is added.
func (r *run) leave(p *partial, step int) {
	depth := min(step, r.w.depths()) - 1
	for n := range r.needs {
		b := r.needs[n].bound
		at := b.from(r.w, depth, int(p.cell), b.state(r.w, r.counts))
		r.from[n] = b.rest[at : at+r.w.k]
	}
}

// put adds a step of kind to p, of so many steps, which was left. Counts that take more than a budget has,
// or hold a failure, will do so with more strips too; and so will one that is too wide.
func (r *run) put(p *partial, parent int32, step, kind int, worth int64) {
	w, units := r.w, r.w.units
	have := int(r.counts[kind])
	sum, width, cell := p.sum+int64(units)*worth, p.width+int64(units)*w.width[kind], int(p.cell)+units*w.cell[kind]
	if have+units > w.count[kind] || width > w.whi || cell > w.chi || w.barred(int(p.cell), step, kind) {
		return
	}
	firsts := int64(w.firsts(kind, have, units))
	var node [needsMost]int64
	var score int64 // of the first need
	for i := len(r.needs) - 1; i >= 0; i-- {
		b := r.needs[i].bound
		rest := r.from[i][kind]
		if rest == infeasible {
			return
		}
		node[i] = p.node[i] + firsts*b.first[kind] + (int64(units)-firsts)*b.plain[kind]
		if score = b.alpha*sum + node[i] + b.constant + rest; score < r.needs[i].least {
			return
		}
	}
	r.counts[kind] += uint16(units)
	if r.canBeCut(kind) {
		r.keep(&partial{
			sum: sum, use: p.use + firsts*w.width[kind], width: width, node: node, score: score,
			hash: p.hash + uint64(units)*r.random[kind], last: int32(kind), parent: parent, cell: int32(cell),
		})
	}
	r.counts[kind] -= uint16(units)
}

// canBeCut reports whether the counts, of which the last was of kind, keep to its budgets and
// hold no failure.
func (r *run) canBeCut(kind int) bool {
	for _, b := range r.w.budgets {
		if b.Takes[kind] > 0 && b.Overdrawn(r.counts) {
			return false
		}
	}
	return r.dead == nil || !r.dead(r.counts, kind)
}

// keep adds q to the next layer, or puts it in the place of one that is not better.
func (r *run) keep(q *partial) {
	r.tries++
	l, k := &r.then, r.w.k
	if r.apart {
		l.list, l.counts = append(l.list, *q), append(l.counts, r.counts...)
		return
	}
	if 2*(len(l.list)+1) > len(l.table) {
		l.rehash(r, max(1024, 2*len(l.table)))
	}
	mask := uint64(len(l.table) - 1)
	at := mix(q.hash+r.random[k+int(q.last)]) & mask
	for ; l.table[at] != 0; at = (at + 1) & mask {
		o := int(l.table[at] - 1)
		other := &l.list[o]
		if other.hash == q.hash && other.last == q.last && slices.Equal(l.counts[o*k:(o+1)*k], r.counts) {
			if r.merged = true; q.sum > other.sum {
				*other = *q
			}
			return
		}
	}
	l.list = append(l.list, *q)
	l.counts = append(l.counts, r.counts...)
	l.table[at] = int32(len(l.list))
}

func (l *layer) rehash(r *run, size int) {
	if cap(l.table) >= size {
		l.table = l.table[:size]
		clear(l.table)
	} else {
		l.table = make([]int32, size)
	}
	mask := uint64(size - 1)
	for i := range l.list {
		at := mix(l.list[i].hash+r.random[r.w.k+int(l.list[i].last)]) & mask
		for l.table[at] != 0 {
			at = (at + 1) & mask
		}
		l.table[at] = int32(i + 1)
	}
}

// trim keeps the partial layouts of the next layer that may become best.
func (r *run) trim() {
	r.done = false
	l, k := &r.then, r.w.k
	type ranked struct {
		score int64
		place int32
	}
	rank := make([]ranked, len(l.list))
	for i := range rank {
		rank[i] = ranked{l.list[i].score, int32(i)}
	}
	slices.SortFunc(rank, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.place, b.place))
	})
	order := make([]int32, r.wide)
	for i := range order {
		order[i] = rank[i].place
	}
	slices.Sort(order)
	for to, from := range order {
		l.list[to] = l.list[from]
		copy(l.counts[to*k:(to+1)*k], l.counts[int(from)*k:(int(from)+1)*k])
	}
	l.list, l.counts = l.list[:r.wide], l.counts[:r.wide*k]
	if !r.apart {
		l.rehash(r, len(l.table))
	}
}

// end takes p as a whole layout, where it is one.
func (r *run) end(p *partial, place, step int) {
	f := found{sum: p.sum, use: p.use}
	if r.w.units == 2 {
		twin := int(p.last)*r.w.k + int(p.last)
		if !r.w.even || !r.g.middle[p.last] {
			return
		}
		f.sum += r.g.worth[twin]
	}
	if r.whole(&f, step*r.w.units, p.width) {
		f.kinds = r.path(p, place, -1)
		r.offer(&f)
	}
}

// endOdd takes p with one strip of kind in its middle as a whole layout. A couple is two
// strips, so none lies there by itself; its kinds do.
func (r *run) endOdd(p *partial, place, step, kind int) {
	if r.w.pair[kind] || int(r.counts[kind])+1 > r.w.count[kind] {
		return
	}
	f := found{sum: p.sum + 2*r.g.worth[int(p.last)*r.w.k+kind], use: p.use}
	if int(r.counts[kind]) < r.w.first[kind] {
		f.use += r.w.width[kind]
	}
	r.counts[kind]++
	if r.canBeCut(kind) &&
		r.whole(&f, step*r.w.units+1, p.width+r.w.width[kind]) {
		f.kinds = r.path(p, place, kind)
		r.offer(&f)
	}
	r.counts[kind]--
}

// whole reports whether f, of so many strips and so wide, is a layout worth what the
// first need asks for, and so more than the best so far. Its counts are in r.counts.
func (r *run) whole(f *found, strips int, width int64) bool {
	return strips >= r.w.lo && strips <= r.w.hi && width >= r.w.wlo && width <= r.w.whi &&
		f.use >= r.target.least && (r.any || f.value(r.target) >= r.needs[0].least) &&
		(r.accept == nil || r.accept(r.counts))
}

// offer takes f as the best, where its level in full is kept to.
func (r *run) offer(f *found) {
	if r.keeps != nil && !r.keeps(f.kinds) {
		r.refused = true
		return
	}
	r.best = f
	if !r.any {
		r.needs[0].least = max(r.needs[0].least, f.value(r.target)+1)
	}
}

// path returns the kinds of p, in a symmetric layout those of both halves; middle is the
// one strip between them, or -1.
func (r *run) path(p *partial, place, middle int) []int32 {
	half := []int32{p.last}
	at := p.parent
	for i := len(r.trails) - 1; i >= 0; i-- {
		half = append(half, r.trails[i].last[at])
		at = r.trails[i].parent[at]
	}
	slices.Reverse(half)
	return r.w.unfold(half, middle)
}
