// Package waysout looks for ways out of a plan that is short: timber with other rings,
// fewer copies, another timber, narrower strips. Each was planned anew and can be cut.
package waysout

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/species"
)

// Ways are the ways out of a plan that is short. Each was planned anew and can be cut.
type Ways struct {
	Short []Lack // by timber, in the order of the first strip that is short
	// Full are the copies of each pattern of the job, in its order, that come out
	// with nothing short: those of the first pattern as many as can be, then those of
	// the second, and so on, so that the last ones give way first.
	Full []int
	// Sure says that nothing better was overlooked: it was proved that no more copies
	// can be made, and that what was passed over as too little is.
	Sure bool
	// Broken is a *Broken where the search contradicted itself on the way. What is said
	// can be cut all the same, and is not Sure.
	Broken error
}

// A Lack is one timber of which strips are short.
type Lack struct {
	Species  string
	Strips   []cutting.Ref
	AnyRings AnyRings
	Instead  []Instead // the nearest in colour first, three at most
	Narrower Narrower
}

// AnyRings says that nothing of a timber is short where its rings are no matter. The zero
// value: that would not do, or no strip of it asks for rings.
type AnyRings struct {
	Pieces  []Other       // what serves then and shows other rings than are asked for
	Known   bool          // every line that they make can be computed
	Worst   movement.Line // the worst of these
	Pattern string        // where that is
	Copy    int
}

// An Other is a piece or ready strip of the rack, with its rings.
type Other struct {
	ID    string
	Rings pattern.Rings
}

// Instead says that another timber of the rack can serve all strips that a timber is
// short of, beside all else that the plan takes of it.
type Instead struct {
	Species  string
	Contrast float64       // CIEDE2000 of the strips' colour and that of the timber as it lies there
	Known    bool          // every line that it would make can be computed
	Worst    movement.Line // the worst glue line that it would make
	Pattern  string        // where that is
	Copy     int
}

// Narrower says that nothing of a timber is short when its strips, in every pattern
// that is short of it, are each narrower by By. The zero value: no whole number of
// millimetres up to half the narrowest strip will do.
type Narrower struct {
	By     length.Length
	Widths []Narrowed
}

// Narrowed is the glue-up width that a pattern would come to.
type Narrowed struct {
	Pattern string
	Width   length.Length
}

// The bounds of what is tried. Steps of a solver, not time, bound one try, so that
// the same job gives the same ways unless the context ended the work.
const (
	mostInstead  = 3
	stepsOfATry  = 4
	narrowerStep = length.Millimetre
	mostNarrower = 40 * length.Millimetre
)

// Find looks for ways out of plan, a plan of job that is short. It returns soon
// after ctx ends with what it found so far, which holds; then Sure is false. A plan
// that is not short gives every copy in full.
func Find(ctx context.Context, job cutting.Job, plan cutting.Plan, r movement.Physics) (Ways, error) {
	if err := job.Check(); err != nil {
		return Ways{}, err
	}
	w := &wayfinder{ctx: ctx, job: job, plan: plan, physics: r, sure: true}
	ways := Ways{Short: w.lacks()}
	ways.Full = w.full(ways.Short)
	for i := range ways.Short {
		w.anyRings(&ways.Short[i])
	}
	for i := range ways.Short {
		w.instead(&ways.Short[i], ways.Short)
	}
	for i := range ways.Short {
		w.narrower(&ways.Short[i])
	}
	ways.Sure, ways.Broken = w.sure && w.ctx.Err() == nil, w.broken
	return ways, nil
}

// A wayfinder looks for ways out.
type wayfinder struct {
	ctx     context.Context
	job     cutting.Job
	plan    cutting.Plan
	physics movement.Physics
	sure    bool // no try ended undecided
	broken  error
}

func (w *wayfinder) lacks() []Lack {
	var out []Lack
	missing := w.plan.MissingByTimber()
	for species, strips := range missing.All() {
		out = append(out, Lack{Species: species, Strips: strips})
	}
	return out
}

// fits reports whether nothing is short of a job of one timber, and gives the plan.
func (w *wayfinder) fits(job cutting.Job) (cutting.Plan, bool) {
	a := solve.Try(w.ctx, job, stepsOfATry)
	w.sure = w.sure && a.Sure
	w.doubt(a.Broken)
	return a.Plan, a.Fits
}

// doubt keeps the first claim that broke, where one did.
func (w *wayfinder) doubt(broken error) {
	w.broken = cmp.Or(w.broken, broken)
	w.sure = w.sure && broken == nil
}

// full finds the copies that come out in full.
func (w *wayfinder) full(lacks []Lack) []int {
	copies := make([]int, len(w.job.Patterns))
	fits := func(i, n int) bool {
		for _, l := range lacks {
			job := w.job.Of(l.Species)
			for k := range job.Patterns {
				job.Patterns[k].Copies = copies[k]
			}
			job.Patterns[i].Copies = n
			if len(job.Patterns[i].Pattern.Strips) == 0 {
				continue
			}
			if _, ok := w.fits(job); !ok {
				return false
			}
		}
		return true
	}
	for i, d := range w.job.Patterns {
		if fits(i, d.Copies) {
			copies[i] = d.Copies
			continue
		}
		low, high := 0, d.Copies // low fits, high does not
		for high-low > 1 {
			if mid := (low + high) / 2; fits(i, mid) {
				low = mid
			} else {
				high = mid
			}
		}
		copies[i] = low
	}
	return copies
}

// anyRings looks whether timber with other rings serves what is short.
func (w *wayfinder) anyRings(lack *Lack) {
	asked := w.job.Of(lack.Species)
	if !asksForRings(asked) {
		return
	}
	job := asked.AnyRings()
	plan, ok := w.fits(job)
	if !ok {
		return
	}
	out := AnyRings{Known: true}
	rings := map[string]pattern.Rings{}
	for _, e := range w.job.Rack.Entries() {
		rings[e.ID] = e.Rings
	}
	of, now := booking.Sources(w.job, w.plan), booking.Sources(job, plan)
	for _, d := range w.job.Patterns {
		for copy := 1; copy <= d.Copies; copy++ {
			p, _ := booking.AsMade(d, copy, of)
			replaced := map[int]bool{}
			for i, s := range d.Pattern.Strips {
				from := now[cutting.Ref{Pattern: d.Stem, Copy: copy, Strip: place(d, lack.Species, i)}]
				if s.Species != lack.Species || from.ID == "" {
					continue
				}
				made := &p.Strips[i]
				made.Moisture = s.Moisture
				made.Lay(from.Laid(*made))
				if !s.Moisture.Known {
					made.Moisture = from.Moisture
				}
				replaced[i+1] = true
				other := Other{from.ID, rings[from.ID]}
				if !cutting.RingsServe(from.Rings, s.Rings) && !slices.Contains(out.Pieces, other) {
					out.Pieces = append(out.Pieces, other)
				}
			}
			for _, l := range w.physics.Panel(p).Lines() {
				if replaced[l.Line] || replaced[l.Line+1] {
					out.Known = out.Known && l.Known
					if w.physics.Worse(l, out.Worst) {
						out.Worst, out.Pattern, out.Copy = l, d.Stem, copy
					}
				}
			}
		}
	}
	if len(out.Pieces) > 0 {
		lack.AnyRings = out
	}
}

// place returns which of a timber's strips, from 1, strip i of a pattern is, from 0.
func place(d cutting.Demand, species string, i int) int {
	n := 0
	for _, s := range d.Pattern.Strips[:i+1] {
		if s.Species == species {
			n++
		}
	}
	return n
}

// asksForRings reports whether a strip of a job does.
func asksForRings(job cutting.Job) bool {
	for _, d := range job.Patterns {
		if d.Copies > 0 && slices.ContainsFunc(d.Pattern.Strips, func(s pattern.Strip) bool { return s.Rings.Known() }) {
			return true
		}
	}
	return false
}

// instead finds timbers of the rack that can stand in for a timber.
func (w *wayfinder) instead(lack *Lack, lacks []Lack) {
	table := w.physics.Table()
	short, ok := table.Get(lack.Species)
	if !ok {
		return
	}
	wanted := short.As(w.colour(lack, short))
	var near []Instead
	for _, key := range w.job.Rack.Species() {
		other, ok := table.Get(key)
		if ok && !slices.ContainsFunc(lacks, func(l Lack) bool { return l.Species == key }) {
			near = append(near, Instead{Species: key, Contrast: wanted.Contrast(other.As(w.job.Rack.Colour(key)))})
		}
	}
	slices.SortStableFunc(near, func(a, b Instead) int { return cmp.Compare(a.Contrast, b.Contrast) })
	for _, n := range near {
		if len(lack.Instead) == mostInstead || w.ctx.Err() != nil {
			return
		}
		if served, ok := w.standIn(lack, n.Species); ok {
			w.worst(&n, lack, served)
			lack.Instead = append(lack.Instead, n)
		}
	}
}

// colour returns the colour that what lacks should have: the mean in CIELAB, by width, of the
// strips' own or else of their timber's.
func (w *wayfinder) colour(lack *Lack, timber species.Species) colour.Own {
	var labs []colour.Lab
	var widths []float64
	for _, ref := range lack.Strips {
		for _, d := range w.job.Patterns {
			if s := d.Pattern.Strips; d.Stem == ref.Pattern && ref.Strip <= len(s) {
				labs, widths = append(labs, s[ref.Strip-1].Colour.Or(timber.ColourOiled).Lab()), append(widths, s[ref.Strip-1].Width.MM())
			}
		}
	}
	if len(labs) == 0 {
		return colour.Own{}
	}
	return colour.OwnOf(colour.MeanLab(labs, widths).RGB())
}

// standInStem names the demand of the i-th strip that a timber stands in for; no stem
// of the user's holds a slash.
func standInStem(i int) string { return fmt.Sprintf("/%d", i) }

// standIn plans a timber with the strips that another is short of; what serves each
// of those is given in their order.
func (w *wayfinder) standIn(lack *Lack, species string) ([]booking.Source, bool) {
	job := w.job.Of(species)
	for i, ref := range lack.Strips {
		p, _ := w.pattern(ref)
		s := p.Strips[ref.Strip-1]
		s.Species = species
		p.Strips = []pattern.Strip{s}
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: standInStem(i), Pattern: p, Copies: 1})
	}
	plan, ok := w.fits(job)
	if !ok {
		return nil, false
	}
	of := booking.Sources(job, plan)
	served := make([]booking.Source, len(lack.Strips))
	for i := range served {
		served[i] = of[cutting.Ref{Pattern: standInStem(i), Copy: 1, Strip: 1}]
	}
	return served, true
}

func (w *wayfinder) pattern(ref cutting.Ref) (pattern.Pattern, bool) {
	for _, d := range w.job.Patterns {
		if d.Stem == ref.Pattern {
			return d.Pattern, true
		}
	}
	return pattern.Pattern{}, false
}

// worst finds the worst glue line that a timber standing in would make.
func (w *wayfinder) worst(in *Instead, lack *Lack, served []booking.Source) {
	of := booking.Sources(w.job, w.plan)
	in.Known = true
	for _, d := range w.job.Patterns {
		for copy := 1; copy <= d.Copies; copy++ {
			p, replaced := w.withStandIn(d, copy, in.Species, lack, served, of)
			if len(replaced) == 0 {
				continue
			}
			for _, l := range w.physics.Panel(p).Lines() {
				if !replaced[l.Line] && !replaced[l.Line+1] {
					continue
				}
				in.Known = in.Known && l.Known
				if w.physics.Worse(l, in.Worst) {
					in.Worst, in.Pattern, in.Copy = l, d.Stem, copy
				}
			}
		}
	}
}

// withStandIn returns a copy of a pattern as it would be made, with the strips that
// were replaced. A reading of a strip that is not cut after all does not count.
func (w *wayfinder) withStandIn(d cutting.Demand, copy int, key string, lack *Lack, served []booking.Source, of map[cutting.Ref]booking.Source) (pattern.Pattern, map[int]bool) {
	p, _ := booking.AsMade(d, copy, of)
	replaced := map[int]bool{}
	for i, ref := range lack.Strips {
		if ref.Pattern == d.Stem && ref.Copy == copy {
			s := &p.Strips[ref.Strip-1]
			s.Species, s.Moisture, s.Colour = key, pattern.Reading{}, colour.Own{}
			served[i].GiveTo(s, ref.Strip)
			replaced[ref.Strip] = true
		}
	}
	return p, replaced
}

// narrower finds by how much the strips of a timber must be narrower.
func (w *wayfinder) narrower(lack *Lack) {
	lacking := map[string]bool{}
	for _, ref := range lack.Strips {
		lacking[ref.Pattern] = true
	}
	most := mostNarrower
	for _, d := range w.job.Patterns {
		for _, s := range d.Pattern.Strips {
			if lacking[d.Stem] && s.Species == lack.Species {
				most = min(most, s.Width/2)
			}
		}
	}
	for by := narrowerStep; by <= most && w.ctx.Err() == nil; by += narrowerStep {
		narrow := w.narrowed(lacking, lack.Species, by)
		if _, ok := w.fits(narrow.Of(lack.Species)); !ok {
			continue
		}
		lack.Narrower.By = by
		for _, d := range narrow.Patterns {
			if lacking[d.Stem] {
				lack.Narrower.Widths = append(lack.Narrower.Widths, Narrowed{d.Stem, d.Pattern.Width()})
			}
		}
		return
	}
}

// narrowed returns the job with the strips of a timber narrower in some patterns.
func (w *wayfinder) narrowed(in map[string]bool, species string, by length.Length) cutting.Job {
	job := cutting.Job{Rack: rack.Rack{Pieces: w.job.Rack.Pieces, Strips: w.job.Rack.Strips}, Shop: w.job.Shop}
	for _, d := range w.job.Patterns {
		if in[d.Stem] {
			d.Pattern.Strips = slices.Clone(d.Pattern.Strips)
			for i := range d.Pattern.Strips {
				if s := &d.Pattern.Strips[i]; s.Species == species {
					s.Width -= by
				}
			}
		}
		job.Patterns = append(job.Patterns, d)
	}
	return job
}
