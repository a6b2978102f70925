// Package remake makes a pattern again from other timber: the ways nearest to it in
// colour that the rack yields.
package remake

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// A Request asks for a pattern once more, from other timber. Each timber of the
// pattern gets one timber of the rack, no two the same. Strips keep their place and width;
// their rings and moisture are those of the pieces that they are cut from, unknown where
// nobody has looked or measured.
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
	Level            pattern.Level     // worst of the glue lines of all copies
	SmallestContrast float64           // of neighbours of two timbers; 0 where there are none
	Pattern          pattern.Pattern   // the first copy, as its plan makes it
	Plan             cutting.Plan
}

// Fresh returns the pattern of a way as one that was never made. Its notes say where rings
// and moisture come from.
func (s Way) Fresh() pattern.Pattern {
	p := Fresh(s.Pattern)
	if !strings.Contains(p.Notes, otherTimber) {
		p.Notes = strings.TrimSpace(p.Notes + " " + otherTimber)
	}
	return p
}

// Fresh returns p as one that was never made: with no batches and no knots of the old panel.
func Fresh(p pattern.Pattern) pattern.Pattern {
	p.Made, p.Avoids = nil, nil
	p.Strips = slices.Clone(p.Strips)
	for i := range p.Strips {
		if m := &p.Strips[i].Moisture; m.Known { // a mean of readings is no finer than they are
			m.Percent = math.Round(m.Percent*meterParts) / meterParts
		}
	}
	return p
}

// otherTimber is what the notes of a pattern say that was made again.
const otherTimber = "Made again from other timber: rings and moisture are those of its pieces."

// meterParts is how finely a reading is written down: to a hundredth of a percent, which
// no meter tells.
const meterParts = 100

// Again finds the ways to make a pattern again: those with the least colour difference
// times width whose neighbours of two timbers all differ by the workshop's least contrast,
// for which the rack yields every strip, and whose glue lines, made from the pieces that
// the plan takes, are all at most at the level asked for. Other pieces of the same timbers
// might keep to a level that these do not: where a way is passed over for that, nothing is
// proved any more. It ends soon after ctx does, with what was found.
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
		case same.Level > m.ask.Level:
			m.taken = append(m.taken, choice)
			m.proved, sure = false, false
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

// A matcher gives timbers of the rack to timbers of the pattern.
type matcher struct {
	ask        Request
	physics    movement.Physics
	limits     shop.Limits
	was        []string          // timbers of the pattern, the widest in all first
	candidates []species.Species // that the rack has, each with its colour there
	beside     [][]bool          // of each timber: those it lies beside in the pattern
	cost       [][]int64         // of each timber: each candidate, in ten-thousandths of Away
	order      [][]int           // of each timber: candidates, the cheapest first
	refused    [][]bool          // of each timber: candidates that do not yield its strips
	proved     bool              // every one of these is proved
	taken      [][]int           // choices found: the candidate of each timber
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
	m := &matcher{ask: a, physics: r, limits: r.Shop().Limits, proved: true, stop: stop}
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
			m.candidates = append(m.candidates, timber.As(a.Rack.Colour(timber.Key)))
		}
	}
	m.beside = m.neighbours()
	for _, key := range m.was {
		if stop() {
			return m
		}
		was := a.coloursOf(r, key)
		cost, order := make([]int64, len(m.candidates)), make([]int, len(m.candidates))
		for j, c := range m.candidates {
			away := 0.0
			for _, w := range was {
				away += w.wide * species.Contrast(w.rgb, c.ColourOiled)
			}
			cost[j], order[j] = int64(math.Round(away*perAway)), j
		}
		slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(cost[x], cost[y]) })
		m.cost, m.order = append(m.cost, cost), append(m.order, order)
		m.refused = append(m.refused, make([]bool, len(m.candidates)))
	}
	return m
}

// A stripe is how wide the strips of one timber are that had one colour.
type stripe struct {
	rgb  species.RGB
	wide float64
}

// coloursOf returns the colours that strips of a timber had in the pattern: their own, or
// the timber's.
func (a Request) coloursOf(r movement.Physics, key string) []stripe {
	timber, _ := r.Table().Get(key)
	var all []stripe
	for _, s := range a.Pattern.Strips {
		if s.Species != key {
			continue
		}
		rgb := s.Colour.Or(timber.ColourOiled)
		at := slices.IndexFunc(all, func(t stripe) bool { return t.rgb == rgb })
		if at < 0 {
			at = len(all)
			all = append(all, stripe{rgb: rgb})
		}
		all[at].wide += s.Width.MM()
	}
	return all
}

// neighbours says which timbers of the pattern lie beside which.
func (m *matcher) neighbours() [][]bool {
	beside := make([][]bool, len(m.was))
	for i := range beside {
		beside[i] = make([]bool, len(m.was))
	}
	strips := m.ask.Pattern.Strips
	for n := 1; n < len(strips); n++ {
		i, k := slices.Index(m.was, strips[n-1].Species), slices.Index(m.was, strips[n].Species)
		beside[i][k], beside[k][i] = true, true
	}
	return beside
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

// agrees reports whether candidate j in the place of timber i differs enough from those
// chosen for the timbers before, as far as they lie beside it.
func (m *matcher) agrees(i, j int) bool {
	for h, c := range m.choice[:i] {
		if m.beside[h][i] && m.candidates[c].Contrast(m.candidates[j]) < m.limits.Contrast {
			return false
		}
	}
	return true
}

// asked returns the pattern as its plan is asked for: from other timbers, of which the
// plan says what their rings and moisture are.
func (a Request) asked(timbers map[string]string) pattern.Pattern {
	p := a.Pattern
	p.Strips = slices.Clone(p.Strips)
	for i := range p.Strips {
		s := &p.Strips[i]
		s.Species, s.Moisture, s.Colour = timbers[s.Species], pattern.Reading{}, colour.Own{}
		s.Lay(pattern.Grain{})
	}
	return p
}

// same writes a choice down, with its plan.
func (m *matcher) same(ctx context.Context, choice []int) (Way, error) {
	s := Way{Timbers: map[string]string{}}
	now := map[string]species.RGB{}
	for i, j := range choice {
		s.Timbers[m.was[i]] = m.candidates[j].Key
		now[m.candidates[j].Key] = m.candidates[j].ColourOiled
	}
	for _, strip := range m.ask.Pattern.Strips {
		was, _ := m.physics.Table().Get(strip.Species)
		s.ColourDistance += strip.Width.MM() * species.Contrast(strip.Colour.Or(was.ColourOiled), now[s.Timbers[strip.Species]])
	}
	job := m.ask.Job(m.physics, s)
	s.Pattern = job.Patterns[0].Pattern
	var err error
	if s.Plan, err = solve.Plan(ctx, job, solve.Options{}); err != nil || s.Plan.Short > 0 {
		return s, err
	}
	from := booking.Sources(job, s.Plan)
	for copy := range m.ask.Copies {
		made, _ := booking.AsMade(job.Patterns[0], copy+1, from)
		if copy == 0 {
			s.Pattern = made
		}
		s.judge(m.physics, made, now)
	}
	return s, nil
}

// judge takes in the glue lines of one copy; contrast is that of the colours that timbers have
// now.
func (s *Way) judge(r movement.Physics, made pattern.Pattern, now map[string]species.RGB) {
	for _, line := range r.Panel(made).Lines() {
		s.Level = max(s.Level, line.Level)
		left, right := made.Strips[line.Line-1].Species, made.Strips[line.Line].Species
		if left == right {
			continue
		}
		if c := species.Contrast(now[left], now[right]); s.SmallestContrast == 0 || c < s.SmallestContrast {
			s.SmallestContrast = c
		}
	}
}

// Job returns the job that the plan of an answer is of.
func (a Request) Job(r movement.Physics, s Way) cutting.Job {
	stem := a.Stem
	if stem == "" {
		stem = "again"
	}
	return cutting.Job{Rack: a.Rack, Shop: r.Shop(), Patterns: []cutting.Demand{{Stem: stem, Pattern: a.asked(s.Timbers), Copies: a.Copies}}}
}

// refuse keeps in mind which timbers a plan is short of. A timber's plan depends on no
// other's, so that candidate will not do for that timber whatever the others are: it has
// the same strips to give in each choice, since no two timbers of the pattern share it.
// Where the plan is not proved, the refusal is none, and nothing after it is (proved).
func (m *matcher) refuse(choice []int, plan cutting.Plan) {
	m.proved = m.proved && plan.Status == cutting.Optimal
	for i, j := range choice {
		key := m.candidates[j].Key
		if slices.ContainsFunc(plan.Missing, func(s cutting.Missing) bool { return s.Species == key }) {
			m.refused[i][j] = true
		}
	}
}
