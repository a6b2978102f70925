package gallery

import "slices"

// A scarcity is what the strips of a layout take of something that there is so much of.
type scarcity struct {
	takes []int64 // of a strip of each class
	most  int64
}

// scarcities returns what may run short: the width, and other room, of each timber, the strips
// of each class, and what timbers that earlier layouts are of may have together.
func (s *seek) scarcities() []scarcity {
	var out []scarcity
	g := s.g
	_, widest := g.ask.Limits()
	for _, like := range s.shared {
		half := scarcity{make([]int64, len(g.classes)), s.most / 2}
		for c, class := range g.classes {
			if like[class.timber] {
				half.takes[c] = class.width
			}
		}
		out = append(out, half)
	}
	for i, t := range g.timbers {
		if t.most < int64(widest) {
			s := scarcity{make([]int64, len(g.classes)), t.most}
			for c, class := range g.classes {
				if class.timber == i {
					s.takes[c] = class.width
				}
			}
			out = append(out, s)
		}
		for _, b := range t.budgets {
			for c, class := range g.classes {
				if class.timber == i && b.Takes[c]*(int64(widest)/class.width) > b.Most {
					out = append(out, scarcity{b.Takes, b.Most})
					break
				}
			}
		}
	}
	for c, class := range g.classes {
		if int64(class.count)*class.width < int64(widest) {
			s := scarcity{make([]int64, len(g.classes)), int64(class.count)}
			s.takes[c] = 1
			out = append(out, s)
		}
	}
	return out
}

// An aim is what layouts are weighed by while prices are sought.
type aim struct {
	contrast bool  // contrast counts
	use      int64 // use-first width that there must be
	first    bool  // use-first width counts, and nothing else
}

// A pricing seeks the prices that give the least bound: of what is scarce, of use-first width
// that there must be, and of what is marked use first of each timber. A strip of a timber
// counts as a use-first one where that is worth its price.
type pricing struct {
	t      *table
	aim    aim
	scarce []scarcity
	prices
}

type prices struct {
	of    []float64 // of each scarce thing, by what it counts
	use   float64   // of a nanometre
	first []float64 // of each timber, of a nanometre that is marked
}

const (
	paceLeast = 0.02
	stepLeast = float64(1_000_000) // in units, or nanometres
)

// priced fills t at good prices: those at which what no layout is worth more than is small,
// as long as that is enough or more, and a best walk takes what there is not.
func (t *table) priced(a aim, scarce []scarcity, enough int64, rounds int, stop func() bool) int64 {
	p := &pricing{t: t, aim: a, scarce: scarce, prices: prices{of: make([]float64, len(scarce)), first: make([]float64, len(t.g.timbers))}}
	if a.first {
		p.use = 1
	}
	best, at, pace := t.fill(p.weighing(), stop), p.prices, 1.0
	filled := at.use == p.use
	for round := 0; round < rounds && best >= enough && best > never && pace > paceLeast && !stop(); round++ {
		over := p.over(t.trace())
		square := over.square()
		if square == 0 {
			break
		}
		p.prices = p.move(over, pace*max(float64(t.all()+t.weigh.credit-enough), stepLeast)/square)
		now := t.fill(p.weighing(), stop)
		if filled = now < best; filled {
			best, at = now, p.prices
		} else {
			pace *= 0.7
		}
	}
	if !filled && best >= enough && !stop() {
		p.prices = at
		t.fill(p.weighing(), stop)
	}
	return best
}

// over returns by how much a walk misses what it must keep to, of each thing that has a price;
// 0 where a price of 0 cannot follow.
func (p *pricing) over(steps []int) prices {
	g := p.t.g
	out := prices{of: make([]float64, len(p.scarce)), first: make([]float64, len(g.timbers))}
	counts := make([]float64, len(g.classes))
	for i, c := range steps { // where a walk may begin later, each step puts one strip
		counts[c] += float64(p.t.f.copies[i])
	}
	follow := func(price, over float64) float64 {
		if price == 0 && over < 0 {
			return 0
		}
		return over
	}
	for i, s := range p.scarce {
		over := -float64(s.most)
		for c, n := range counts {
			over += n * float64(s.takes[c])
		}
		out.of[i] = follow(p.of[i], over)
	}
	if p.aim.use == 0 && !p.aim.first {
		return out
	}
	all := 0.0
	for t, timber := range g.timbers {
		wide := 0.0
		for c, n := range counts {
			if g.classes[c].timber == t && g.classes[c].first > 0 && p.use >= p.first[t] {
				wide += n * float64(g.classes[c].width)
			}
		}
		all += wide
		out.first[t] = follow(p.first[t], wide-float64(timber.first))
	}
	if !p.aim.first {
		out.use = follow(p.use, float64(p.aim.use)-all)
	}
	return out
}

func (p prices) square() float64 {
	sum := p.use * p.use
	for _, v := range slices.Concat(p.of, p.first) {
		sum += v * v
	}
	return sum
}

// move returns the prices moved by so much of over.
func (p *pricing) move(over prices, by float64) prices {
	moved := func(from, over []float64) []float64 {
		out := make([]float64, len(from))
		for i := range from {
			out[i] = max(0, from[i]+by*over[i])
		}
		return out
	}
	return prices{moved(p.of, over.of), max(0, p.use+by*over.use), moved(p.first, over.first)}
}

// weighing returns what layouts are worth at the prices. What a strip is charged is rounded
// down and what it brings up, what there is is credited rounded up and what there must be
// rounded down, so that it bounds all the same.
func (p *pricing) weighing() weighing {
	g := p.t.g
	w := weighing{contrast: p.aim.contrast, gain: make([]int64, len(g.classes))}
	for i, s := range p.scarce {
		price := p.of[i]
		if price == 0 {
			continue
		}
		w.credit += int64(price*float64(s.most)*(1+1e-12)) + 1
		for c, takes := range s.takes {
			if takes > 0 {
				w.gain[c] -= int64(price * float64(takes) * (1 - 1e-12))
			}
		}
	}
	if p.use > 0 && !p.aim.first {
		w.credit -= int64(p.use * float64(p.aim.use) * (1 - 1e-12))
	}
	for t, timber := range g.timbers {
		w.credit += int64(p.first[t]*float64(timber.first)*(1+1e-12)) + 1
	}
	for c, class := range g.classes {
		if more := p.use - p.first[class.timber]; class.first > 0 && more > 0 {
			w.gain[c] += int64(more*float64(class.width)*(1+1e-12)) + 1
		}
	}
	return w
}
