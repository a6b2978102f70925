// Package remake makes a pattern again from other timber: the ways nearest to it in
// colour that the rack yields.
package remake

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// A Request asks for a pattern once more, from other timber. Each timber of the
// pattern gets one timber of the rack, no two the same. Strips keep their place, width
// and rings, and take the moisture of their new timber: the mean of its readings on
// the rack by volume, and no reading where it has none.
type Request struct {
	Pattern pattern.Pattern
	Stem    string // what plans call it; empty: again
	Copies  int    // 1 or more
	Rack    rack.Rack
	Level   pattern.Level // the worst allowed on a glue line
	Answers int           // how many, 1 or more
}

// A Result is the ways to make a pattern again, the one nearest to it first.
type Result struct {
	Status  suggest.Status
	Answers []Way
	Stopped bool // ctx ended the work before all was proved
	// Broken is a *Broken, or a *cutting.Broken of a plan, where a claim was found to be
	// wrong before it was handed out. Then nothing is claimed to be proved, and ways that
	// are not what they say are left out. Nil where all claims hold.
	Broken error
}

// A Way is one way to make a pattern again.
type Way struct {
	ColourDistance   float64           // sum over strips of width in mm times CIEDE2000 of the oiled colours, was and now
	Timbers          map[string]string // of each timber of the pattern: the one in its place
	Level            pattern.Level     // worst of its glue lines
	SmallestContrast float64           // of neighbours of two timbers; 0 where there are none
	Pattern          pattern.Pattern
	Plan             cutting.Plan
}

// Fresh returns the pattern of an answer as one that was never made: with no batches
// and no knots of the old panel.
func (s Way) Fresh() pattern.Pattern {
	p := s.Pattern
	p.Made, p.Avoids = nil, nil
	p.Strips = slices.Clone(p.Strips)
	for i := range p.Strips {
		if m := &p.Strips[i].Moisture; m.Known { // a mean of readings is no finer than they are
			m.Percent = math.Round(m.Percent*meterParts) / meterParts
		}
	}
	return p
}

// meterParts is how finely a reading is written down: to a hundredth of a percent, which
// no meter tells.
const meterParts = 100

// Again finds the ways to make a pattern again: those with the least colour difference
// times width whose glue lines are all at most at the level asked for, whose
// neighbours of two timbers all differ by the workshop's least contrast, and for which
// the rack yields every strip. It ends soon after ctx does, with what was found.
func Again(ctx context.Context, r movement.Physics, a Request, opt suggest.Options) (Result, error) {
	return again(ctx, r, a, opt, nil)
}

// again is Again; in tests spoil makes claims wrong before they are looked at.
func again(ctx context.Context, r movement.Physics, a Request, opt suggest.Options, spoil func(*Result)) (Result, error) {
	if err := a.check(r); err != nil {
		return Result{}, err
	}
	stop := func() bool { return ctx.Err() != nil }
	out, err := newMatcher(r, a, stop).seek(ctx, opt)
	if err != nil {
		return Result{}, err
	}
	if spoil != nil {
		spoil(&out)
	}
	out.uphold(r, a)
	out.Stopped = out.Status != suggest.Optimal && out.Status != suggest.Infeasible && stop()
	return out, nil
}

// seek finds the ways, one after the other.
func (m *matcher) seek(ctx context.Context, opt suggest.Options) (Result, error) {
	out := Result{Status: suggest.Optimal, Answers: []Way{}}
	sure := true
	for tried := 0; len(out.Answers) < m.ask.Answers; {
		choice, done := m.next()
		if choice == nil || m.stop() {
			out.Status = m.status(len(out.Answers), sure && done && choice == nil)
			return out, nil
		}
		same, err := m.same(ctx, choice)
		plan, none := suggest.NoPlan(len(m.ask.Pattern.Strips), err)
		if err != nil && !none {
			return Result{}, err
		}
		if out.Broken = cmp.Or(out.Broken, same.Plan.Broken, plan.Broken); out.Broken != nil {
			m.proved, sure = false, false
		}
		switch {
		case none: // what can be had of it is not known
			m.taken = append(m.taken, choice)
			tried++
		case same.Plan.Short > 0:
			m.refuse(choice, same.Plan)
			tried++
		default:
			sure = sure && done && m.proved
			m.taken = append(m.taken, choice)
			out.Answers = append(out.Answers, same)
		}
		if opt.Progress != nil {
			opt.Progress(suggest.Progress{Layouts: len(out.Answers), Wanted: m.ask.Answers, Tried: tried})
		}
	}
	if !sure {
		out.Status = suggest.Feasible
	}
	return out, nil
}

// status says how sure n answers are when there are no more; done says that this is
// proved.
func (m *matcher) status(n int, done bool) suggest.Status {
	switch {
	case done && m.proved && n == 0:
		return suggest.Infeasible
	case n == 0:
		return suggest.Open
	case done && m.proved:
		return suggest.Optimal
	default:
		return suggest.Feasible
	}
}

func (a Request) check(r movement.Physics) error {
	switch {
	case len(a.Pattern.Strips) == 0:
		return fmt.Errorf("pattern %q has no strips: there is nothing to make again", a.Pattern.Name)
	case a.Copies < 1:
		return fmt.Errorf("%d copies: must be 1 or more", a.Copies)
	case a.Answers < 1:
		return fmt.Errorf("%d answers: must be 1 or more", a.Answers)
	}
	if err := suggest.CheckLevel(a.Level); err != nil {
		return err
	}
	for i, s := range a.Pattern.Strips {
		if err := suggest.CheckSpecies(r, s.Species); err != nil {
			return fmt.Errorf("strip %d: %w", i+1, err)
		}
	}
	return suggest.CheckRack(r, a.Rack)
}

// A candidate is a timber that the rack has.
type candidate struct {
	species species.Species
	reading pattern.Reading
}

// A matcher gives timbers of the rack to timbers of the pattern.
type matcher struct {
	ask        Request
	physics    movement.Physics
	limits     shop.Limits
	was        []string // timbers of the pattern, the widest in all first
	candidates []candidate
	cost       [][]int64 // of each timber: each candidate, in ten-thousandths of Away
	order      [][]int   // of each timber: candidates, the cheapest first
	refused    [][]bool  // of each timber: candidates that do not yield its strips
	proved     bool      // every one of these is proved
	fits       map[[4]int]bool
	taken      [][]int // choices found: the candidate of each timber
	stop       func() bool

	choice, best []int // at work
	used         []bool
	least        int64
	nodes        int
	rest         []int64 // of each timber: the least that it and those after it can cost
}

// nodesMost is how many partial choices one search looks at.
const nodesMost = 5_000_000

// perAway is how many units of cost a millimetre times a colour difference of 1 is.
const perAway = 1e4

func newMatcher(r movement.Physics, a Request, stop func() bool) *matcher {
	m := &matcher{ask: a, physics: r, limits: r.Shop().Limits, proved: true, fits: map[[4]int]bool{}, stop: stop}
	wide := map[string]float64{}
	for _, s := range a.Pattern.Strips {
		if _, ok := wide[s.Species]; !ok {
			m.was = append(m.was, s.Species)
		}
		wide[s.Species] += s.Width.MM()
	}
	slices.SortStableFunc(m.was, func(x, y string) int { return cmp.Compare(wide[y], wide[x]) })
	for _, timber := range r.Table().All() {
		if stop() {
			return m // next finds nothing, and proves nothing
		}
		if a.Rack.VolumeCM3(timber.Key) > 0 {
			m.candidates = append(m.candidates, candidate{timber, reading(a.Rack, timber.Key)})
		}
	}
	for _, key := range m.was {
		if stop() {
			return m
		}
		was, _ := r.Table().Get(key)
		cost, order := make([]int64, len(m.candidates)), make([]int, len(m.candidates))
		for j, c := range m.candidates {
			cost[j] = int64(math.Round(wide[key] * was.Contrast(c.species) * perAway))
			order[j] = j
		}
		slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(cost[x], cost[y]) })
		m.cost, m.order = append(m.cost, cost), append(m.order, order)
		m.refused = append(m.refused, make([]bool, len(m.candidates)))
	}
	return m
}

// reading returns the mean moisture of a timber's readings, by volume.
func reading(r rack.Rack, key string) pattern.Reading {
	sum, volume := 0.0, 0.0
	add := func(species string, m pattern.Reading, cm3 float64) {
		if species == key && m.Known {
			sum, volume = sum+m.Percent*cm3, volume+cm3
		}
	}
	for _, p := range r.Pieces {
		add(p.Species, p.Moisture, p.VolumeCM3())
	}
	for _, s := range r.Strips {
		add(s.Species, s.Moisture, rack.Rack{Strips: []rack.Strip{s}}.VolumeCM3(s.Species))
	}
	if volume == 0 {
		return pattern.Reading{}
	}
	return pattern.Read(sum / volume)
}

// next returns the cheapest choice that was not taken yet, or nil; done says that it is
// proved to be so. Rest is the least that the timbers still to come can cost, each with
// its cheapest candidate that is not refused, though two may want the same one: no choice
// costs less. A timber for which all are refused has none.
func (m *matcher) next() (choice []int, done bool) {
	if m.stop() {
		return nil, false
	}
	m.best, m.least, m.nodes = nil, math.MaxInt64, 0
	m.choice, m.used = make([]int, len(m.was)), make([]bool, len(m.candidates))
	m.rest = make([]int64, len(m.was)+1)
	for i := len(m.was) - 1; i >= 0; i-- {
		least := int64(-1)
		for _, j := range m.order[i] {
			if !m.refused[i][j] {
				least = m.cost[i][j]
				break
			}
		}
		if least < 0 {
			return nil, true
		}
		m.rest[i] = m.rest[i+1] + least
	}
	m.assign(0, 0)
	return m.best, m.nodes <= nodesMost && !m.stop()
}

// assign gives a candidate to timber i and those after it, the cheapest first: where one
// costs too much with the rest, so do those behind it. A choice that costs as much as the
// best is no better, so that it need not be looked at.
func (m *matcher) assign(i int, cost int64) {
	if m.nodes++; m.nodes > nodesMost || m.nodes&63 == 0 && m.stop() {
		return
	}
	if i == len(m.was) {
		if !slices.ContainsFunc(m.taken, func(t []int) bool { return slices.Equal(t, m.choice) }) {
			m.best, m.least = slices.Clone(m.choice), cost
		}
		return
	}
	for _, j := range m.order[i] {
		if cost+m.cost[i][j]+m.rest[i+1] >= m.least {
			return
		}
		if m.used[j] || m.refused[i][j] || !m.agrees(i, j) {
			continue
		}
		m.choice[i], m.used[j] = j, true
		m.assign(i+1, cost+m.cost[i][j])
		m.used[j] = false
	}
}

// agrees reports whether candidate j in the place of timber i goes with those chosen
// for the timbers before.
func (m *matcher) agrees(i, j int) bool {
	if !m.pair(i, j, i, j) {
		return false
	}
	for h, c := range m.choice[:i] {
		if !m.pair(h, c, i, j) {
			return false
		}
	}
	return true
}

// pair reports whether every glue line between timbers i and k, or within i where they
// are one, is as asked with the candidates j and l in their places. A line depends on
// its two strips, on how those alike join, and on where the edges are; so the other
// timbers may stay unknown.
func (m *matcher) pair(i, j, k, l int) bool {
	key := [4]int{i, j, k, l}
	ok, there := m.fits[key]
	if there {
		return ok
	}
	ok = true
	p := m.put(func(was string) int {
		switch was {
		case m.was[i]:
			return j
		case m.was[k]:
			return l
		default:
			return -1
		}
	})
	var panel *movement.Panel
	for n := 1; n < len(p.Strips) && ok; n++ {
		left, right := m.ask.Pattern.Strips[n-1].Species, m.ask.Pattern.Strips[n].Species
		if !(left == m.was[i] && right == m.was[k] || left == m.was[k] && right == m.was[i]) {
			continue
		}
		if panel == nil {
			panel = m.physics.Panel(p)
		}
		line := panel.Line(n)
		ok = line.Level <= m.ask.Level && (i == k || line.Contrast >= m.limits.Contrast)
	}
	m.fits[key] = ok
	return ok
}

// put returns the pattern with the candidates that of names; below 0 there is none.
func (m *matcher) put(of func(was string) int) pattern.Pattern {
	p := m.ask.Pattern
	p.Strips = slices.Clone(p.Strips)
	for i := range p.Strips {
		s := &p.Strips[i]
		if j := of(s.Species); j >= 0 {
			s.Species, s.Moisture = m.candidates[j].species.Key, m.candidates[j].reading
		} else {
			s.Species = ""
		}
	}
	return p
}

// same writes a choice down, with its plan.
func (m *matcher) same(ctx context.Context, choice []int) (Way, error) {
	s := Way{Timbers: map[string]string{}}
	for i, j := range choice {
		s.Timbers[m.was[i]] = m.candidates[j].species.Key
	}
	s.Pattern = m.put(func(was string) int { return choice[slices.Index(m.was, was)] })
	for _, line := range m.physics.Panel(s.Pattern).Lines() {
		s.Level = max(s.Level, line.Level)
		if s.Pattern.Strips[line.Line-1].Species != s.Pattern.Strips[line.Line].Species &&
			(s.SmallestContrast == 0 || line.Contrast < s.SmallestContrast) {
			s.SmallestContrast = line.Contrast
		}
	}
	for i, strip := range m.ask.Pattern.Strips {
		was, _ := m.physics.Table().Get(strip.Species)
		now, _ := m.physics.Table().Get(s.Pattern.Strips[i].Species)
		s.ColourDistance += strip.Width.MM() * was.Contrast(now)
	}
	var err error
	s.Plan, err = solve.Plan(ctx, m.ask.Job(m.physics, s), solve.Options{})
	return s, err
}

// Job returns the job that the plan of an answer is of.
func (a Request) Job(r movement.Physics, s Way) cutting.Job {
	stem := a.Stem
	if stem == "" {
		stem = "again"
	}
	return cutting.Job{Rack: a.Rack, Shop: r.Shop(), Patterns: []cutting.Demand{{Stem: stem, Pattern: s.Pattern, Copies: a.Copies}}}
}

// refuse keeps in mind which timbers a plan is short of. A timber's plan depends on no
// other's, so that candidate will not do for that timber whatever the others are: it has
// the same strips to give in each choice, since no two timbers of the pattern share it.
// Where the plan is not proved, the refusal is none, and nothing after it is (proved).
func (m *matcher) refuse(choice []int, plan cutting.Plan) {
	m.proved = m.proved && plan.Status == cutting.Optimal
	for i, j := range choice {
		key := m.candidates[j].species.Key
		if slices.ContainsFunc(plan.Missing, func(s cutting.Missing) bool { return s.Species == key }) {
			m.refused[i][j] = true
		}
	}
}
