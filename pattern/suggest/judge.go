package suggest

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/species"
)

// A Judge holds layouts against what was asked for. It works from the statement and
// shares nothing with the search: neither kinds, matrix nor figures.
type Judge struct {
	ask       Request // its aim is not Auto
	physics   movement.Physics
	had       map[Variety]*readyKind
	entries   map[string]rack.Entry // of the rack, and ready strips named on the spot
	ambiguous bool                  // two ready strips have one name
	contrasts map[[2]string]float64
}

// A readyKind is the ready strips of one variety.
type readyKind struct {
	all, first int
	sources    map[string]bool // those marked use first, and those not
}

// NewJudge returns the judge of an ask whose aim is not Auto.
func NewJudge(r movement.Physics, ask Request) *Judge {
	j := &Judge{ask: ask, physics: r, had: map[Variety]*readyKind{}, entries: map[string]rack.Entry{}, contrasts: map[[2]string]float64{}}
	ready := ask.Have
	sh := r.Shop()
	long, thick := ask.Length+sh.Allowance.Length, ask.Thickness+sh.Allowance.Flattening
	longs := map[string]length.Length{} // of the rack's own
	if len(ready) == 0 {
		for _, s := range ask.Rack.Strips {
			if (s.Length >= long || ask.Join.On()) && s.Thickness >= thick {
				ready = append(ready, ReadyStrips{s.Species, s.Width, s.Rings, s.Moisture, s.Quantity, s.UseFirst, s.ID})
				longs[s.ID] = s.Length
			}
		}
	}
	for _, h := range ready {
		key := j.varietyOf(pattern.Strip{Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture})
		if j.had[key] == nil {
			j.had[key] = &readyKind{sources: map[string]bool{}}
		}
		j.had[key].all += h.Count
		if h.UseFirst {
			j.had[key].first += h.Count
		}
		j.had[key].sources[h.Source] = j.had[key].sources[h.Source] || h.UseFirst
		_, twice := j.entries[h.Source]
		j.ambiguous = j.ambiguous || twice
		j.entries[h.Source] = rack.EntryOf(rack.Strip{ID: h.Source, Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture,
			Quantity: h.Count, UseFirst: h.UseFirst, Length: cmp.Or(longs[h.Source], long), Thickness: thick})
	}
	if len(ask.Widths) > 0 {
		for _, p := range ask.Rack.Pieces {
			_, twice := j.entries[p.ID]
			j.ambiguous = j.ambiguous || twice
			j.entries[p.ID] = rack.Entry{Piece: p}
		}
	}
	return j
}

// varietyOf returns what glue lines know of a strip.
func (j *Judge) varietyOf(s pattern.Strip) Variety {
	return Variety{Kind{s.Species, s.Width}, s.Rings, s.Moisture.Or(j.ask.Moisture.Or(j.physics.Shop().Air.EquilibriumPct()))}
}

// varieties returns that of each strip of a layout.
func (j *Judge) varieties(strips []Placed) []Variety {
	out := make([]Variety, len(strips))
	for i, p := range strips {
		out[i] = j.varietyOf(p.Strip())
	}
	return out
}

// Layout returns the first claim of a layout that is wrong, and what it is worth.
func (j *Judge) Layout(l Layout) (Merit, *Broken) {
	kinds := j.varieties(l.Strips)
	for _, look := range []func(Layout, []Variety) *Broken{j.sizes, j.places, j.joints, j.timber, j.plan} {
		if b := look(l, kinds); b != nil {
			return Merit{}, b
		}
	}
	return j.lines(l, kinds)
}

// NewBroken returns a claim that is wrong.
func NewBroken(c Claim, claimed, found any) *Broken {
	return &Broken{Claim: c, Claimed: fmt.Sprint(claimed), Found: fmt.Sprint(found)}
}

// sizes looks at the number of strips and their width.
func (j *Judge) sizes(l Layout, _ []Variety) *Broken {
	if n := len(l.Strips); n < j.ask.Strips[0] || n > j.ask.Strips[1] {
		return NewBroken(ClaimStrips, fmt.Sprintf("%d to %d", j.ask.Strips[0], j.ask.Strips[1]), n)
	}
	var width, first length.Length
	for _, p := range l.Strips {
		width += p.Width
		if p.UseFirst {
			first += p.Width
		}
	}
	least, most := j.ask.Limits()
	switch {
	case width != l.Width:
		return NewBroken(ClaimWidth, l.Width, width)
	case width < least || width > most:
		return NewBroken(ClaimWidth, fmt.Sprintf("%s to %s", least, most), width)
	case first != l.UseFirst:
		return NewBroken(ClaimFirst, l.UseFirst, first)
	}
	return nil
}

// places looks at what must lie where: twins, mirror images, pinned strips.
func (j *Judge) places(l Layout, kinds []Variety) *Broken {
	n := len(kinds)
	for i := range kinds {
		if j.ask.NoTwins && i > 0 && kinds[i].Species == kinds[i-1].Species {
			return NewBroken(ClaimTwins, "it holds", fmt.Sprintf("strips %d and %d", i, i+1))
		}
		if j.ask.Symmetric && kinds[i].Kind != kinds[n-1-i].Kind {
			return NewBroken(ClaimSymmetric, "it holds", fmt.Sprintf("strips %d and %d differ", i+1, n-i))
		}
	}
	for _, p := range j.ask.Pinned {
		if p.Place > n || kinds[p.Place-1] != j.varietyOf(p.Strip) || !l.Strips[p.Place-1].Pinned {
			return NewBroken(ClaimPinned, fmt.Sprintf("strip %d is in its place", p.Place), "it is not")
		}
	}
	return nil
}

// givenAt reports whether a strip at place i, from 0, may be one that is only given.
func (j *Judge) givenAt(i, n int, k Variety) bool {
	return slices.ContainsFunc(j.ask.Pinned, func(p Pin) bool {
		return (p.Place == i+1 || j.ask.Symmetric && p.Place == n-i) && j.varietyOf(p.Strip) == k
	})
}

// timber looks whether the strips can be had from where the layout says.
func (j *Judge) timber(l Layout, kinds []Variety) *Broken {
	type tally struct{ all, first int }
	used := map[Variety]tally{}
	for i, p := range l.Strips {
		at := fmt.Sprintf("strip %d", i+1)
		h := j.had[kinds[i]]
		if h == nil && p.Source == "" {
			if !j.givenAt(i, len(kinds), kinds[i]) {
				return NewBroken(ClaimTimber, at+" is given", "it is not")
			}
			continue
		}
		if len(j.ask.Widths) > 0 {
			continue // plan looks at these
		}
		if h == nil {
			return NewBroken(ClaimTimber, at+" can be had", "it cannot")
		}
		if marked, there := h.sources[p.Source]; !there || p.UseFirst && !marked {
			return NewBroken(ClaimTimber, at+" is from "+p.Source, "it is not")
		}
		u := used[kinds[i]]
		u.all++
		if p.UseFirst {
			u.first++
		}
		if used[kinds[i]] = u; u.all > h.all || u.first > h.first {
			return NewBroken(ClaimTimber, fmt.Sprintf("%d like %s, %d use first", u.all, at, u.first), fmt.Sprintf("%d and %d", h.all, h.first))
		}
	}
	return nil
}

// plan looks at the plan of a layout that is cut from pieces.
func (j *Judge) plan(l Layout, kinds []Variety) *Broken {
	if len(j.ask.Widths) == 0 {
		if l.Plan != nil {
			return NewBroken(ClaimPlan, "one", "none asked for")
		}
		return nil
	}
	switch p := l.Plan; {
	case p == nil:
		return NewBroken(ClaimPlan, "one", "none")
	case p.Short > 0:
		return NewBroken(ClaimPlan, "nothing short", p.Short)
	case p.Status == cutting.Optimal && p.LowerBoundCM3 != p.DrawnCM3, p.LowerBoundCM3 > p.DrawnCM3:
		return NewBroken(ClaimPlan, fmt.Sprintf("%v, none counts less than %v cm3", p.Status, p.LowerBoundCM3), fmt.Sprintf("%v cm3", p.DrawnCM3))
	}
	job := cutting.Job{Shop: j.physics.Shop(), Patterns: []cutting.Demand{{Stem: Stem, Pattern: j.ask.Pattern(l), Copies: 1}}}
	served := make([]int, len(l.Strips))
	seen := map[string]bool{}
	serve := func(ref cutting.Ref, id string) error {
		if ref.Strip < 1 || ref.Strip > len(l.Strips) || ref.Piece <= 1 && l.Strips[ref.Strip-1].Source != id {
			return fmt.Errorf("strip %d from %s", ref.Strip, id)
		}
		i := ref.Strip - 1
		served[i]++
		whole, _, _ := strings.Cut(id, "/")
		e, there := j.entries[id]
		if !there {
			if e, there = j.entries[whole]; !there || e.Ready {
				return fmt.Errorf("%s is not on the rack", id)
			}
		}
		if k := kinds[i]; j.varietyOf(pattern.Strip{Species: e.Species, Width: k.Width, Rings: k.Rings, Moisture: e.Moisture}) != k || l.Strips[i].UseFirst && !e.UseFirst {
			return fmt.Errorf("strip %d differs from %s", ref.Strip, id)
		}
		if !seen[e.ID] {
			seen[e.ID] = true
			if e.Ready {
				job.Rack.Strips = append(job.Rack.Strips, e.Strip())
			} else {
				job.Rack.Pieces = append(job.Rack.Pieces, e.Piece)
			}
		}
		return nil
	}
	var all []error
	for ref, id := range l.Plan.Served() {
		all = append(all, serve(ref, id))
	}
	if err := errors.Join(all...); err != nil {
		return NewBroken(ClaimPlan, "it serves each strip from its source", err)
	}
	for i, n := range served {
		if given := l.Strips[i].Source == ""; given && n != 0 || !given && n != 1+l.Strips[i].Joints.Len() {
			return NewBroken(ClaimPlan, fmt.Sprintf("strip %d is served once", i+1), n)
		}
	}
	if l.Given() || j.ambiguous {
		return nil // the plan is not of the whole pattern, or names do not tell timber apart
	}
	if err := cutting.Verify(job, *l.Plan); err != nil {
		return NewBroken(ClaimPlan, "it can be cut", err)
	}
	return nil
}

// AsGood is how far a figure may lie off: it is computed in another order here.
const AsGood = 1e-9

// lines looks at the glue lines and gives what the layout is worth.
func (j *Judge) lines(l Layout, kinds []Variety) (Merit, *Broken) {
	m := Merit{Least: math.MaxInt64}
	least, sum := math.Inf(1), 0.0
	for i := 1; i < len(kinds); i++ {
		at := fmt.Sprintf("line %d", i)
		if level := j.level(kinds[i-1], kinds[i]); level > j.ask.Level {
			return m, NewBroken(ClaimLevel, fmt.Sprintf("%s at most %v", at, j.ask.Level), level)
		}
		c := j.contrast(kinds[i-1].Species, kinds[i].Species)
		if floor := j.ask.Floor(l.Look); c < floor {
			return m, NewBroken(ClaimContrast, fmt.Sprintf("%s has %v", at, floor), c)
		}
		units := int64(math.Round(c * PerContrast))
		least, sum, m.Least, m.Sum = min(least, c), sum+c, min(m.Least, units), m.Sum+units
	}
	if math.Abs(least-l.SmallestContrast) > AsGood || math.Abs(sum-l.TotalContrast) > AsGood*float64(len(kinds)) {
		return m, NewBroken(ClaimContrast, fmt.Sprintf("%v, %v in all", l.SmallestContrast, l.TotalContrast), fmt.Sprintf("%v, %v in all", least, sum))
	}
	switch level := LevelOf(j.physics, j.ask.Pattern(l)); {
	case level != l.Level:
		return m, NewBroken(ClaimLevel, l.Level, level)
	case level > j.ask.Level:
		return m, NewBroken(ClaimLevel, fmt.Sprintf("in full at most %v", j.ask.Level), level)
	}
	if j.ask.Aim == UseUp {
		m.Use = l.UseFirst
	}
	if l.Proved && l.Most != m {
		return m, NewBroken(ClaimProof, "none is worth more than "+l.Most.String(), m)
	}
	return m, nil
}

// contrast returns that of two timbers under oil.
func (j *Judge) contrast(a, b string) float64 {
	c, there := j.contrasts[[2]string{a, b}]
	if !there {
		x, _ := j.physics.Table().Get(a)
		y, _ := j.physics.Table().Get(b)
		c = species.Contrast(x.ColourOiled, y.ColourOiled)
		j.contrasts[[2]string{a, b}] = c
	}
	return c
}

// level returns that of the glue line between two strips, each with the relief of its own
// width. Figures within asGood of a limit keep to it.
func (j *Judge) level(a, b Variety) pattern.Level {
	limits := j.physics.Shop().Limits
	level := movement.LevelOf(math.Abs(a.Moisture-b.Moisture)*(1-AsGood), limits.MoisturePct)
	x, _ := j.physics.Table().Get(a.Species)
	y, _ := j.physics.Table().Get(b.Species)
	if !x.Moves() || !y.Moves() || a.Species == b.Species && a.Rings == b.Rings && a.Moisture == b.Moisture {
		return level
	}
	through := func(s Variety, timber species.Species, from, to float64) float64 {
		sin, cos := math.Sincos(s.Rings.Degrees() * math.Pi / 180)
		return movement.FreeChange(timber.CR*cos*cos+timber.CT*sin*sin, timber.FSP(), from, to)
	}
	t := j.ask.Thickness
	k := (movement.Relief(a.Width, t) + movement.Relief(b.Width, t)) / 2
	for _, season := range movement.Seasons() {
		to := j.physics.EquilibriumPct(season)
		strain := math.Abs(through(a, x, a.Moisture, to) - through(b, y, b.Moisture, to))
		step := math.Abs(through(a, x, j.ask.Flattened.Or(a.Moisture), to) - through(b, y, j.ask.Flattened.Or(b.Moisture), to))
		level = max(level, movement.LevelOf(100*strain*(1-AsGood), limits.StrainPct),
			movement.LevelOf(500*k*t.MM()*step*(1-AsGood), limits.StepUM))
	}
	return level
}
