package solve

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve/solvetest"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
)

// A brute tries every way to place every strip of a job, one strip after another:
// short, on a ready strip, or in a slice, old or new, of a section, old or new, of
// every piece. It shares only Needs with Solve, and knows no bound but that cuts
// must fit.
type brute struct {
	job    cutting.Job
	needs  []cutting.Strip
	all    []cutting.Strip // whose lengths sections may have
	whole  bool            // no strip may be short
	pieces []brutePiece
	ready  []bruteReady
	served int
	short  int

	bestServed, bestShort int
	bestDrawn             float64
}

type brutePiece struct {
	rack.Piece
	sections []bruteSection
}

type bruteSection struct {
	long   length.Length
	side   bool
	slices [][]int // places in needs
}

type bruteReady struct {
	rack.Strip
	used bool
}

func newBrute(job cutting.Job) *brute {
	b := &brute{job: job, needs: cutting.Needs(job), all: cutting.Needs(job), bestServed: -1}
	for _, p := range job.Rack.Pieces {
		for _, c := range p.Clear() {
			for range p.Quantity {
				b.pieces = append(b.pieces, brutePiece{Piece: c.Piece})
			}
		}
	}
	for _, s := range job.Rack.Strips {
		for range s.Quantity {
			b.ready = append(b.ready, bruteReady{Strip: s})
		}
	}
	return b
}

func (b *brute) place(i int) {
	if i == len(b.needs) {
		b.judge()
		return
	}
	n := &b.needs[i]
	if !b.whole {
		b.short++
		b.place(i + 1)
		b.short--
	}
	for j := range b.ready {
		r := &b.ready[j]
		if r.used || r.Species != n.Species || r.Width != n.Width || r.Length < n.Length || r.Thickness < n.Glued || !bruteRings(r.Rings, n.Rings, 0) {
			continue
		}
		r.used = true
		b.served++
		b.place(i + 1)
		b.served--
		r.used = false
	}
	opened := map[string]bool{} // of untouched copies of a piece one is enough
	for j := range b.pieces {
		p := &b.pieces[j]
		if p.Species != n.Species || opened[p.ID] {
			continue
		}
		opened[p.ID] = len(p.sections) == 0
		b.intoPiece(i, p)
	}
}

func (b *brute) intoPiece(i int, p *brutePiece) {
	for s := range p.sections {
		sec := &p.sections[s]
		for k := range sec.slices {
			sec.slices[k] = append(sec.slices[k], i)
			if b.fits(p, sec) {
				b.place(i + 1)
			}
			sec.slices[k] = sec.slices[k][:len(sec.slices[k])-1]
		}
		sec.slices = append(sec.slices, []int{i})
		if b.fits(p, sec) {
			b.place(i + 1)
		}
		sec.slices = sec.slices[:len(sec.slices)-1]
	}
	tried := map[length.Length]bool{}
	for _, other := range b.all {
		if other.Species != p.Species || tried[other.Length] {
			continue
		}
		tried[other.Length] = true
		for _, side := range []bool{false, true} {
			p.sections = append(p.sections, bruteSection{long: other.Length, side: side, slices: [][]int{{i}}})
			if b.fits(p, &p.sections[len(p.sections)-1]) && b.length(p) <= p.Length {
				b.place(i + 1)
			}
			p.sections = p.sections[:len(p.sections)-1]
		}
	}
}

// length returns what a piece's sections need of it, with both ends squared.
func (b *brute) length(p *brutePiece) length.Length {
	need := 2*b.job.Shop.Allowance.EndTrim - b.job.Shop.Kerf.Crosscut
	for _, s := range p.sections {
		need += s.long + b.job.Shop.Kerf.Crosscut
	}
	return need
}

// usable returns the width that a section is sawn through, and the depth of its stack.
func (b *brute) usable(p *brutePiece, s *bruteSection) (across, depth length.Length) {
	across, depth = p.Width, p.Thickness
	if !p.Planed {
		across -= b.job.Shop.Allowance.Truing
		depth -= b.job.Shop.Allowance.Truing
	}
	if s.side {
		return depth, across
	}
	return across, depth
}

func (b *brute) resawn(p *brutePiece, across length.Length) bool {
	h := b.job.Shop.Machine.BandsawHeight
	return !p.Planed && (h == 0 || across <= h)
}

func (b *brute) fits(p *brutePiece, s *bruteSection) bool {
	sh := b.job.Shop
	across, depth := b.usable(p, s)
	if p.Planed && s.side || len(s.slices) > 1 && !b.resawn(p, across) {
		return false
	}
	for i, slice := range s.slices {
		if i > 0 {
			depth -= sh.Kerf.Resaw + sh.Allowance.Cleaning
		}
		room := across + sh.Kerf.Rip
		for _, n := range slice {
			strip := b.needs[n]
			room -= strip.Across + sh.Kerf.Rip
			turns := 0
			if s.side {
				turns++
			}
			if strip.Make == pattern.MakeEdge {
				turns++
			}
			if over := s.long - strip.Length; over < 0 || over > sh.Allowance.OverLength {
				return false
			}
			if p.Planed && strip.Least > p.Thickness || !p.Planed && strip.Sawn != b.needs[slice[0]].Sawn || !bruteRings(p.Rings, strip.Rings, turns) {
				return false
			}
		}
		if room < 0 {
			return false
		}
		if !p.Planed {
			depth -= b.needs[slice[0]].Sawn
		}
	}
	return depth >= 0
}

func bruteRings(have, asked pattern.Rings, turns int) bool {
	switch {
	case !asked.Known(), !have.Known():
		return true
	case turns == 1:
		return math.Abs(90-have.Degrees()-asked.Degrees()) <= 15
	default:
		return math.Abs(have.Degrees()-asked.Degrees()) <= 15
	}
}

func (b *brute) judge() {
	if b.served < b.bestServed || b.served == b.bestServed && b.short > b.bestShort {
		return
	}
	drawn := 0.0
	for i := range b.pieces {
		drawn += b.drawn(&b.pieces[i])
	}
	if b.served > b.bestServed || b.short < b.bestShort || drawn < b.bestDrawn {
		b.bestServed, b.bestShort, b.bestDrawn = b.served, b.short, drawn
	}
}

// drawn computes in cubic millimetres with the numbers of the statement.
func (b *brute) drawn(p *brutePiece) float64 {
	if len(p.sections) == 0 {
		return 0
	}
	sh := b.job.Shop
	back := 0.0
	tail := p.Length - sh.Allowance.EndTrim
	for i := range p.sections {
		s := &p.sections[i]
		tail -= s.long + sh.Kerf.Crosscut
		across, slab := b.usable(p, s)
		for _, slice := range s.slices {
			thick := b.needs[slice[0]].Sawn
			if p.Planed {
				thick = p.Thickness
			}
			slab -= thick + sh.Kerf.Resaw + sh.Allowance.Cleaning
			rip := across
			for _, n := range slice {
				rip -= b.needs[n].Across + sh.Kerf.Rip
			}
			if s.long >= sh.Keep.Length && rip >= sh.Keep.Width && rip > 0 {
				back += rip.MM() * thick.MM() * s.long.MM()
			}
		}
		if b.resawn(p, across) && s.long >= sh.Keep.Length && slab >= sh.Keep.Thickness && slab > 0 {
			back += slab.MM() * across.MM() * s.long.MM()
		}
	}
	taken := p.Length.MM() * p.Width.MM() * p.Thickness.MM()
	if tail >= sh.Keep.Length && tail > 0 {
		taken -= sh.Draw.TailsPct / 100 * tail.MM() * p.Width.MM() * p.Thickness.MM()
	}
	f := 1.0
	if p.UseFirst {
		f = sh.Draw.UseFirstPct / 100
	}
	return f*(taken-sh.Draw.ReturnedPct/100*back)/1000 + sh.Draw.OpenedCM3
}

// tinyJob draws a job small enough to try every plan, with every rule of the
// statement in play.
func tinyJob(seed uint64) cutting.Job {
	rng := rand.New(rand.NewPCG(seed, 3))
	pick := func(values ...length.Length) length.Length { return values[rng.IntN(len(values))] * mm }
	rings := func(share int) pattern.Rings {
		if rng.IntN(share) > 0 {
			return pattern.Rings{}
		}
		r, err := pattern.RingsAt([]float64{0, 10, 45, 80, 90}[rng.IntN(5)])
		if err != nil {
			panic(err)
		}
		return r
	}
	job := cutting.Job{Shop: shoptest.Roomy()}
	sh := &job.Shop
	sh.Allowance.Length = 0
	sh.Allowance.EndTrim = pick(0, 5, 10)
	sh.Allowance.OverLength = pick(0, 40, 100)
	sh.Keep = shop.Keep{Length: pick(0, 100, 200), Width: pick(0, 10, 20), Thickness: pick(0, 5, 12)}
	sh.Draw = shop.Draw{UseFirstPct: []float64{0, 60, 100}[rng.IntN(3)], ReturnedPct: []float64{0, 70, 100}[rng.IntN(3)], OpenedCM3: []float64{0, 20, 100}[rng.IntN(3)]}
	sh.Draw.TailsPct = []float64{100, 100, 95, 40, 0}[seed%5]
	sh.Machine.BandsawHeight = pick(0, 40, 60)
	ringed := 2 + 100*rng.IntN(2)
	for i := range 1 + rng.IntN(2) {
		p := pattern.Pattern{Panel: pattern.Panel{Length: pick(150, 200, 240), Thickness: pick(12, 16, 20), Make: pattern.Make(rng.IntN(2))}}
		for range 1 + rng.IntN(3) {
			s := pattern.Strip{Species: solvetest.Timbers[rng.IntN(2)*rng.IntN(2)], Width: pick(16, 20), Rings: rings(ringed)}
			if rng.IntN(2) == 0 {
				s.Length = pick(150, 180, 210)
			}
			p.Strips = append(p.Strips, s)
		}
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprintf("p%d", i+1), Pattern: p, Copies: 1})
	}
	if len(job.Patterns) == 1 && rng.IntN(3) == 0 && len(job.Patterns[0].Pattern.Strips) < 3 {
		job.Patterns[0].Copies = 2
	}
	for i := range 1 + rng.IntN(3) {
		p := rack.Piece{
			ID: fmt.Sprintf("r%d", i+1), Species: solvetest.Timbers[rng.IntN(2)*rng.IntN(2)], Quantity: 1 + rng.IntN(4)/3,
			Length: length.Length(160+rng.IntN(500)) * mm, Width: length.Length(20+rng.IntN(70)) * mm, Thickness: length.Length(18+rng.IntN(40)) * mm,
			Planed: rng.IntN(4) == 0, UseFirst: rng.IntN(3) == 0, Rings: rings(2),
		}
		if rng.IntN(5) == 0 {
			p.Faults = append(p.Faults, rack.Fault{From: p.Length / 3, To: p.Length/3 + 20*mm})
		}
		if rng.IntN(5) == 0 {
			p.Faults = append(p.Faults, rack.Fault{Along: true, From: p.Width / 2, To: p.Width/2 + 5*mm})
		}
		job.Rack.Pieces = append(job.Rack.Pieces, p)
	}
	for i := range rng.IntN(3) {
		job.Rack.Strips = append(job.Rack.Strips, rack.Strip{
			ID: fmt.Sprintf("s%d", i+1), Species: solvetest.Timbers[rng.IntN(2)*rng.IntN(2)], Quantity: 1 + rng.IntN(2),
			Width: pick(16, 20), Thickness: pick(14, 18, 22), Length: pick(150, 190, 250), Rings: rings(2),
		})
	}
	return job
}

func TestAgainstBruteForce(t *testing.T) {
	jobs := 1500
	if testing.Short() {
		jobs = 300
	}
	var ready, short, cut, planed, sides int
	if v := os.Getenv("JOBS"); v != "" {
		jobs, _ = strconv.Atoi(v)
	}
	for seed := range jobs {
		job := tinyJob(uint64(seed))
		plan, err := Plan(context.Background(), job, Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := cutting.Verify(job, plan); err != nil {
			t.Errorf("job %d: %v", seed, err)
		}
		b := newBrute(job)
		b.place(0)
		if plan.Status != cutting.Optimal || len(plan.Ready) != b.bestServed || plan.Short != b.bestShort || math.Abs(plan.DrawnCM3-b.bestDrawn) > 1e-4 {
			t.Errorf("job %d: %v, %d ready, %d short, %.6f cm3, want optimal, %d, %d, %.6f", seed, plan.Status,
				len(plan.Ready), plan.Short, plan.DrawnCM3, b.bestServed, b.bestShort, b.bestDrawn)
		}
		ready, short, cut = ready+len(plan.Ready), short+plan.Short, cut+len(plan.Cuts)
		for _, c := range plan.Cuts {
			if slices.ContainsFunc(job.Rack.Pieces, func(p rack.Piece) bool { return p.ID == c.Piece && p.Planed }) {
				planed++
			}
			if slices.ContainsFunc(c.Sections, func(s cutting.Section) bool { return s.Side }) {
				sides++
			}
		}
	}
	t.Logf("%d jobs: %d ready, %d short, %d pieces opened, %d planed, %d side-sliced", jobs, ready, short, cut, planed, sides)
	if ready == 0 || short == 0 || planed == 0 || sides == 0 {
		t.Error("the jobs leave out a rule")
	}
}
