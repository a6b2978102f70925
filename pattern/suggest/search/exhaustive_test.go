package search

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// The exhaustive search: every row of strips that an ask allows, written from the
// statement alone. It shares nothing with the solver but the species table, the
// formulas of package movement, and package cutting for what a rack yields.

// A sort is strips that are alike, from timber with the same mark.
type sort struct {
	strip pattern.Strip
	wet   float64 // percent at glue-up
	class string  // sorts of one class are one kind to the eye
	made  string  // sorts of one making differ in their mark alone
	count int
	first int
	mark  bool // cut from, or lying as, timber marked use first, where that counts
	given bool
}

// An exhaustive search at work.
type exhaustive struct {
	ask    suggest.Request
	r      movement.Physics
	sorts  []sort
	line   [][]bool  // whether two sorts may lie side by side
	tint   [][]int64 // their contrast in millionths
	best   map[string]*bundle
	ranked []*bundle
	yields map[string]bool // whether the rack yields strips of one timber
}

// A bundle is how many there are of each sort, with the best row of them.
type bundle struct {
	counts []int
	worth  worth
}

func (e *exhaustive) wet(m pattern.Reading) float64 {
	return m.Or(e.ask.Moisture.Or(e.r.Shop().Air.EquilibriumPct()))
}

func (e *exhaustive) class(s pattern.Strip) string { return fmt.Sprint(s.Species, " ", int64(s.Width)) }

func (e *exhaustive) made(s pattern.Strip) string {
	return fmt.Sprint(s.Species, " ", int64(s.Width), " ", s.Rings.Known(), s.Rings.Degrees(), " ", e.wet(s.Moisture))
}

func newExhaustive(r movement.Physics, ask suggest.Request) *exhaustive {
	e := &exhaustive{ask: ask, r: r, best: map[string]*bundle{}, yields: map[string]bool{}}
	rough := len(ask.Widths) > 0
	if ask.Aim == suggest.Auto {
		e.ask.Aim = suggest.Contrast
		if slices.ContainsFunc(e.lying(), func(s rack.Strip) bool { return s.UseFirst }) ||
			rough && slices.ContainsFunc(ask.Rack.Pieces, func(p rack.Piece) bool { return p.UseFirst }) {
			e.ask.Aim = suggest.UseUp
		}
	}
	for _, s := range e.lying() {
		if !rough || slices.Contains(ask.Widths, s.Width) {
			e.add(pattern.Strip{Species: s.Species, Width: s.Width, Rings: s.Rings, Moisture: s.Moisture}, s.UseFirst, s.Quantity)
		}
	}
	if rough {
		e.fromPieces()
	}
	for _, p := range ask.Pinned {
		if made := e.made(p.Strip); !slices.ContainsFunc(e.sorts, func(s sort) bool { return s.made == made }) {
			e.sorts = append(e.sorts, sort{strip: p.Strip, wet: e.wet(p.Strip.Moisture), class: e.class(p.Strip), made: made, count: math.MaxInt, given: true})
		}
	}
	for i, a := range e.sorts {
		e.line, e.tint = append(e.line, make([]bool, len(e.sorts))), append(e.tint, make([]int64, len(e.sorts)))
		for j, b := range e.sorts {
			x, _ := r.Table().Get(a.strip.Species)
			y, _ := r.Table().Get(b.strip.Species)
			c := species.Contrast(x.ColourOiled, y.ColourOiled)
			e.tint[i][j] = int64(math.Round(c * 1e6))
			e.line[i][j] = e.level(a, b) <= ask.Level && !(ask.NoTwins && a.strip.Species == b.strip.Species) &&
				(e.ask.Aim != suggest.UseUp || c >= ask.LeastContrast)
		}
	}
	for n := ask.Strips[0]; n <= ask.Strips[1]; n++ {
		e.grow(make([]int, 0, n), make([]int, len(e.sorts)), 0, n)
	}
	for _, b := range e.best {
		e.ranked = append(e.ranked, b)
	}
	slices.SortFunc(e.ranked, func(a, b *bundle) int {
		return cmp.Or(cmp.Compare(b.worth.use, a.worth.use), cmp.Compare(b.worth.least, a.worth.least), cmp.Compare(b.worth.sum, a.worth.sum))
	})
	return e
}

// lying returns the ready strips that are long and thick enough.
func (e *exhaustive) lying() []rack.Strip {
	sh := e.r.Shop()
	long, thick := e.ask.Length+sh.Allowance.Length, e.ask.Thickness+sh.Allowance.Flattening
	if len(e.ask.Have) == 0 {
		return slices.DeleteFunc(slices.Clone(e.ask.Rack.Strips), func(s rack.Strip) bool { return s.Length < long || s.Thickness < thick })
	}
	var out []rack.Strip
	for i, h := range e.ask.Have {
		out = append(out, rack.Strip{ID: fmt.Sprint("h", i), Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture,
			Quantity: h.Count, UseFirst: h.UseFirst, Length: long, Thickness: thick})
	}
	return out
}

// add counts strips among the sorts. Those of a rack with pieces are told apart by mark.
func (e *exhaustive) add(s pattern.Strip, first bool, count int) {
	made, mark := e.made(s), (len(e.ask.Widths) > 0 || e.ask.Symmetric) && first && e.ask.Aim == suggest.UseUp
	at := slices.IndexFunc(e.sorts, func(o sort) bool { return o.made == made && o.mark == mark })
	if at < 0 {
		at = len(e.sorts)
		e.sorts = append(e.sorts, sort{strip: s, wet: e.wet(s.Moisture), class: e.class(s), made: made, mark: mark})
	}
	e.sorts[at].count += count
	if first && e.ask.Aim == suggest.UseUp {
		e.sorts[at].first += count
	}
}

// fromPieces adds the sorts that some piece gives one strip of at least.
func (e *exhaustive) fromPieces() {
	sh := e.r.Shop()
	for _, p := range e.ask.Rack.Pieces {
		for _, w := range e.ask.Widths {
			across, sawn, least := w+sh.Allowance.Jointing, e.ask.Thickness+sh.Allowance.Flattening+sh.Allowance.Planing, e.ask.Thickness+sh.Allowance.Flattening
			rings := p.Rings
			if e.ask.Make == pattern.MakeEdge {
				across, sawn, least, rings = least, w+sh.Allowance.Planing, w, rings.Rolled()
			}
			for _, c := range p.Clear() {
				wide, thick := c.Width-sh.Allowance.Truing, c.Thickness-sh.Allowance.Truing
				long := c.Length >= 2*sh.Allowance.EndTrim+e.ask.Length+sh.Allowance.Length
				flat := pattern.Strip{Species: p.Species, Width: w, Rings: rings, Moisture: p.Moisture}
				side := flat
				side.Rings = rings.Rolled()
				switch {
				case !long:
				case p.Planed:
					if c.Width >= across && c.Thickness >= least {
						e.add(flat, p.UseFirst, 1000)
					}
				default:
					if wide >= across && thick >= sawn {
						e.add(flat, p.UseFirst, 1000)
					}
					if thick >= across && wide >= sawn {
						e.add(side, p.UseFirst, 1000)
					}
				}
			}
		}
	}
	for _, s := range slices.Clone(e.sorts) { // timber with the other mark may serve too
		if e.ask.Aim == suggest.UseUp {
			e.add(s.strip, !s.mark, 1000)
		}
	}
	for i := range e.sorts {
		e.sorts[i].count = 1000
		if e.sorts[i].first > 0 {
			e.sorts[i].first = 1000
		}
	}
}

// level returns that of the glue line between two strips, as the statement has it.
func (e *exhaustive) level(a, b sort) pattern.Level {
	limits := e.r.Shop().Limits
	level := movement.LevelOf(math.Abs(a.wet-b.wet), limits.MoisturePct)
	if a.strip.Species == b.strip.Species && a.strip.Rings == b.strip.Rings && a.wet == b.wet {
		return level
	}
	k := (movement.Relief(a.strip.Width, e.ask.Thickness) + movement.Relief(b.strip.Width, e.ask.Thickness)) / 2
	through := func(s sort, from, to float64) float64 {
		timber, _ := e.r.Table().Get(s.strip.Species)
		sin, cos := math.Sincos(s.strip.Rings.Degrees() * math.Pi / 180)
		return movement.FreeChange(timber.CR*cos*cos+timber.CT*sin*sin, timber.FSP(), from, to)
	}
	for _, season := range movement.Seasons() {
		to := e.r.EquilibriumPct(season)
		strain := math.Abs(through(a, a.wet, to) - through(b, b.wet, to))
		step := math.Abs(through(a, e.ask.Flattened.Or(a.wet), to) - through(b, e.ask.Flattened.Or(b.wet), to))
		level = max(level, movement.LevelOf(100*strain, limits.StrainPct), movement.LevelOf(500*k*e.ask.Thickness.MM()*step, limits.StepUM))
	}
	return level
}

// fits reports whether sort k may lie at place len(row) of n.
func (e *exhaustive) fits(row []int, k, n int) bool {
	at := len(row)
	if at > 0 && !e.line[row[at-1]][k] {
		return false
	}
	if e.ask.Symmetric && at > n-1-at && e.sorts[row[n-1-at]].class != e.sorts[k].class {
		return false
	}
	given := false
	for _, p := range e.ask.Pinned {
		here := p.Place == at+1
		if here && e.made(p.Strip) != e.sorts[k].made {
			return false
		}
		given = given || (here || e.ask.Symmetric && p.Place == n-at) && e.made(p.Strip) == e.sorts[k].made
	}
	return given || !e.sorts[k].given
}

// grow tries every row of n strips that begins with row.
func (e *exhaustive) grow(row, used []int, width length.Length, n int) {
	if width > e.ask.Width+e.ask.Tolerance {
		return
	}
	if len(row) == n {
		if width >= e.ask.Width-e.ask.Tolerance && !slices.ContainsFunc(e.ask.Pinned, func(p suggest.Pin) bool { return p.Place > n }) {
			e.take(row, used)
		}
		return
	}
	for k := range e.sorts {
		if used[k] == e.sorts[k].count || !e.fits(row, k, n) {
			continue
		}
		used[k]++
		e.grow(append(row, k), used, width+e.sorts[k].strip.Width, n)
		used[k]--
	}
}

// worth returns what a row counts.
func (e *exhaustive) worth(row []int) worth {
	w := worth{least: math.MaxInt64}
	used := make([]int, len(e.sorts))
	for i, k := range row {
		if used[k]++; used[k] <= e.sorts[k].first {
			w.use += e.sorts[k].strip.Width
		}
		if i > 0 {
			w.least, w.sum = min(w.least, e.tint[row[i-1]][k]), w.sum+e.tint[row[i-1]][k]
		}
	}
	return w
}

func (e *exhaustive) take(row, used []int) {
	w, key := e.worth(row), fmt.Sprint(used)
	b, ok := e.best[key]
	if ok && !w.better(b.worth) || !e.inFull(row) {
		return
	}
	if !ok {
		e.best[key] = &bundle{slices.Clone(used), w}
	} else {
		b.worth = w
	}
}

// inFull reports whether the lines of a row as it will be are at most at the level.
func (e *exhaustive) inFull(row []int) bool {
	p := pattern.Pattern{Panel: e.ask.Panel()}
	for _, k := range row {
		p.Strips = append(p.Strips, e.sorts[k].strip)
	}
	return e.ask.Level == pattern.TooMuch || suggest.LevelOf(e.r, p) <= e.ask.Level
}

// byClass returns how many strips of each class a bundle has.
func (e *exhaustive) byClass(counts []int) map[string]int {
	out := map[string]int{}
	for k, n := range counts {
		out[e.sorts[k].class] += n
	}
	return out
}

func unlikeBy(a, b map[string]int) int {
	sum := 0
	for class, n := range a {
		sum += max(n-b[class], b[class]-n)
	}
	for class, n := range b {
		if _, both := a[class]; !both {
			sum += n
		}
	}
	return (sum + 1) / 2
}

// there reports whether the rack yields the strips of counts, timber by timber.
func (e *exhaustive) there(t *testing.T, counts []int) bool {
	if len(e.ask.Widths) == 0 {
		return true
	}
	timber := func(species string, wet float64, mark bool) string { return fmt.Sprint(species, wet, mark) }
	asked := map[string][]pattern.Strip{}
	for k, n := range counts {
		s := e.sorts[k]
		strip := s.strip
		strip.Species = timber(strip.Species, s.wet, s.mark)
		for range n {
			if !s.given {
				asked[strip.Species] = append(asked[strip.Species], strip)
			}
		}
	}
	for name, strips := range asked {
		key := fmt.Sprint(strips)
		ok, known := e.yields[key]
		if !known {
			job := cutting.Job{Shop: e.r.Shop(), Patterns: []cutting.Demand{{Stem: "x", Copies: 1,
				Pattern: pattern.Pattern{Panel: e.ask.Panel(), Strips: strips}}}}
			for _, p := range e.ask.Rack.Pieces {
				if p.Species = timber(p.Species, e.wet(p.Moisture), p.UseFirst && e.ask.Aim == suggest.UseUp); p.Species == name {
					job.Rack.Pieces = append(job.Rack.Pieces, p)
				}
			}
			for _, s := range e.lying() {
				if s.Species = timber(s.Species, e.wet(s.Moisture), s.UseFirst && e.ask.Aim == suggest.UseUp); s.Species == name {
					job.Rack.Strips = append(job.Rack.Strips, s)
				}
			}
			plan, err := solve.Plan(context.Background(), job, solve.Options{})
			if err != nil {
				t.Fatal(err)
			}
			if plan.Short > 0 && plan.Status != cutting.Optimal {
				t.Fatalf("a job as small as this is not proved: %+v", job)
			}
			ok = plan.Short == 0
			e.yields[key] = ok
		}
		if !ok {
			return false
		}
	}
	return true
}

// next returns what the best row is worth that differs enough from those before.
func (e *exhaustive) next(t *testing.T, before []map[string]int) (best worth, any bool) {
	for _, b := range e.ranked {
		if e.apart(b, before) && e.there(t, b.counts) {
			return b.worth, true
		}
	}
	return worth{}, false
}

func (e *exhaustive) apart(b *bundle, before []map[string]int) bool {
	mine := e.byClass(b.counts)
	return !slices.ContainsFunc(before, func(o map[string]int) bool { return unlikeBy(mine, o) < e.ask.Differ })
}

// row returns the sorts of a layout that was handed out, or what is wrong with it.
func (e *exhaustive) row(l suggest.Layout) ([]int, error) {
	var row []int
	used := make([]int, len(e.sorts))
	var width length.Length
	for i, p := range l.Strips {
		made := e.made(p.Strip())
		mark := (len(e.ask.Widths) > 0 || e.ask.Symmetric) && p.UseFirst && e.ask.Aim == suggest.UseUp
		k := slices.IndexFunc(e.sorts, func(s sort) bool { return s.made == made && s.mark == mark })
		if k < 0 {
			return nil, fmt.Errorf("strip %d cannot be had: %+v", i+1, p)
		}
		if !e.fits(row, k, len(l.Strips)) || used[k] == e.sorts[k].count {
			return nil, fmt.Errorf("strip %d may not lie there: %+v", i+1, p)
		}
		row, width = append(row, k), width+p.Width
		used[k]++
	}
	n := len(row)
	if n < e.ask.Strips[0] || n > e.ask.Strips[1] || width < e.ask.Width-e.ask.Tolerance || width > e.ask.Width+e.ask.Tolerance || width != l.Width {
		return nil, fmt.Errorf("%d strips, %s wide", n, width)
	}
	if slices.ContainsFunc(e.ask.Pinned, func(p suggest.Pin) bool { return p.Place > n }) {
		return nil, fmt.Errorf("%d strips, and one is pinned beyond them", n)
	}
	return row, nil
}
