package movement

import (
	"math"

	"example.com/oddments/pattern/length"
)

// A panel's thickness follows a jump of the free change between two strips by and by: at
// the jump itself half of it, a thickness away all of it. followed holds the share that the
// face has followed so many thicknesses beyond the jump; before it, it is what is wanting of
// 1. Found by us with plane-stress finite elements and the exact series for one hardwood;
// derived, not published.
var followed = [...]struct{ thicknesses, share float64 }{
	{0, 0.5}, {0.01, 0.5638}, {0.02, 0.6064}, {0.035, 0.6582}, {0.05, 0.7006}, {0.075, 0.7578},
	{0.1, 0.8033}, {0.15, 0.8706}, {0.2, 0.9167}, {0.25, 0.9486}, {0.3, 0.9707}, {0.35, 0.9858},
	{0.4, 0.9959}, {0.45, 1.0024}, {0.5, 1.0064}, {0.6, 1.0097}, {0.7, 1.0097}, {0.8, 1.0084},
	{0.9, 1.0067}, {1, 1.0051}, {1.25, 1.0023}, {1.5, 1.001}, {2, 1.0001}, {far, 1},
}

// far is how many thicknesses away a jump is followed wholly, and an edge not felt.
const far = 3

// perThickness is how many equal steps of a table through which all entries of followed go
// make a thickness: with them what lies between is found without a search.
const perThickness = 200

var followedEvenly = func() (table [far*perThickness + 1]float64) {
	at := 0
	for i := range table {
		q := float64(i) / perThickness
		for at+2 < len(followed) && followed[at+1].thicknesses <= q {
			at++
		}
		a, b := followed[at], followed[at+1]
		table[i] = a.share + (b.share-a.share)*(q-a.thicknesses)/(b.thicknesses-a.thicknesses)
	}
	return table
}()

// follows returns the share of a jump that the face has followed at steps beyond it, each
// of which is a part of a thickness, perThickness of them a whole one; linear between.
func follows(steps float64) float64 {
	if steps < 0 {
		return 1 - follows(-steps)
	}
	if !(steps < far*perThickness) { // so that a panel of no thickness has steps of nothing
		return 1
	}
	i := int(steps)
	return followedEvenly[i] + (followedEvenly[i+1]-followedEvenly[i])*(steps-float64(i))
}

// jumps say how much of each jump near a glue line shows as its step: half the thickness at
// one place less that at another, for free changes of the strips.
//
// A panel stands between its mirror images, for a free edge holds like a mirror. A strip of
// unknown coefficients counts as an edge: nothing is made up for it.
type jumps struct {
	first  int       // the strip right of the first jump, from 0
	shares []float64 // of the jumps, from left to right
}

// at returns the share of the jump left of strip i; of one that is not near it is 0.
func (j jumps) at(i int) float64 {
	if i -= j.first; i < 0 || i >= len(j.shares) {
		return 0
	}
	return j.shares[i]
}

// pull returns what a free change of strip i adds to the step in parts of itself.
func (j jumps) pull(i int) float64 { return j.at(i) - j.at(i+1) }

// jumps returns those of glue line n for what stands right of it at the one place and left
// of it at the other, each counted from the line and twice as far as it is. They are good
// until the next call.
func (p *Panel) jumps(n int, left, right length.Length) jumps {
	reach := 2 * far * p.thickness
	var edges [2]length.Length // of those that are near: four times as far as they are
	near := 0
	first, from := n, length.Length(0)
	for ; from > left-reach; from -= 2 * p.strips[first].width {
		if first == 0 || !p.strips[first-1].known {
			edges[near] = 2 * from
			near++
			break
		}
		first--
	}
	last := n
	for at := length.Length(0); at < right+reach; last++ {
		if last == len(p.strips) || !p.strips[last].known {
			edges[near] = 2 * at
			near++
			break
		}
		at += 2 * p.strips[last].width
	}
	steps := perThickness / float64(2*p.thickness)
	p.shares = p.shares[:0]
	at := from
	for _, s := range p.strips[first : last-1] {
		at += 2 * s.width
		share := follows(float64(right-at)*steps) - follows(float64(left-at)*steps)
		for _, edge := range edges[:near] { // beyond it the jump is the other way
			image := edge - at
			share -= follows(float64(right-image)*steps) - follows(float64(left-image)*steps)
		}
		p.shares = append(p.shares, share)
	}
	return jumps{first + 1, p.shares}
}

// own returns the jumps of glue line n as its step counts them.
func (p *Panel) own(n int) jumps {
	return p.jumps(n, p.middles[n-1]-2*p.strips[n-1].width, p.middles[n])
}

// steps returns the step of a glue line in each season, in parts of half the thickness:
// above 0 where the right side stands higher.
func (p *Panel) steps(j jumps) (sum [seasonCount]float64) {
	before := &p.strips[j.first-1].flush
	for i, share := range j.shares {
		after := &p.strips[j.first+i].flush
		sum[Dry] += share * (after[Dry] - before[Dry])
		sum[Humid] += share * (after[Humid] - before[Humid])
		before = after
	}
	return sum
}

// deviation returns one standard deviation of step, each run of strips that are alike
// scattering by itself.
func (p *Panel) deviation(j jumps, s Season) float64 {
	squares, from := 0.0, 0.0 // from: the share of the jump where the run begins
	last := j.first + len(j.shares) - 1
	for i := j.first - 1; i <= last; i++ {
		if i < last && p.strips[i].alike(p.strips[i+1]) {
			continue
		}
		to := j.at(i + 1)
		add := (from - to) * p.strips[i].flush[s]
		squares += add * add
		from = to
	}
	return scatter * math.Sqrt(squares)
}

// ranges returns the least and the most that the step of glue line n may be without its
// sign, in parts of half the thickness, when its own strips of unknown rings run over all
// angles and every other strip stands for 45 degrees. A strip of unknown rings is a run of
// its own there.
func (p *Panel) ranges(n int) (least, most float64) {
	a, b := p.strips[n-1], p.strips[n]
	left, right := p.middles[n-1]-2*a.width, p.middles[n]
	if !a.rings.Known() {
		left = -a.width
	}
	if !b.rings.Known() {
		right = b.width
	}
	j := p.jumps(n, left, right)
	for season, from := range p.steps(j) {
		to := from
		for i := n - 1; i <= n; i++ {
			pull, s := j.pull(i), p.strips[i]
			down, up := order(pull*(s.move[season].flushLeast-s.flush[season]), pull*(s.move[season].flushMost-s.flush[season]))
			from, to = from+down, to+up
		}
		least = max(least, from, -to)
		most = max(most, to, -from)
	}
	return least, most
}

// join finds the middles of the runs that strips from first to last, counted from 0, belong
// to or touch.
func (p *Panel) join(first, last int) {
	from, _ := p.Run(max(first-1, 0))
	for from <= min(last+1, len(p.strips)-1) {
		to, width := from, length.Length(0)
		for to < len(p.strips) && (to == from || p.strips[to].alike(p.strips[from])) {
			width += p.strips[to].width
			to++
		}
		for ; from < to; from++ {
			p.middles[from] = width
			width -= 2 * p.strips[from].width
		}
	}
}
