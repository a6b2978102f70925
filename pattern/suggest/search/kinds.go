package search

import (
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// A kind is strips that are alike, as far as they can be had.
type kind struct {
	strip    pattern.Strip // species, width, rings, and a reading that gives moisture
	moisture float64       // at glue-up
	count    int           // to be had
	first    int           // of these, ready ones or timber marked use first
	sources  []source      // of ready strips, those to use first first
	class    int           // kinds of one class are one kind to the maker
	timber   int           // stock it is cut from; -1: none
	given    bool          // only pinned, and not among those to be had
	couple   *couple       // it stands for strips of two kinds; nil: for itself
}

// A source is some ready strips of a kind.
type source struct {
	id    string
	count int
	first bool
}

// A kinds holds them, in the order in which they came.
type kinds struct {
	list    []kind
	classes []suggest.Kind
}

// class returns the place of st among the classes.
func (k *kinds) class(st suggest.Kind) int {
	i := slices.Index(k.classes, st)
	if i < 0 {
		i = len(k.classes)
		k.classes = append(k.classes, st)
	}
	return i
}

// find returns the kind of a class that is cut from a timber, and makes it where there
// is none yet.
func (k *kinds) find(class, timber int, s pattern.Strip) *kind {
	for i := range k.list {
		if k.list[i].class == class && k.list[i].timber == timber {
			return &k.list[i]
		}
	}
	k.list = append(k.list, kind{
		strip:    pattern.Strip{Species: s.Species, Width: s.Width, Rings: s.Rings, Moisture: s.Moisture},
		moisture: k.classes[class].Moisture, class: class, timber: timber,
	})
	return &k.list[len(k.list)-1]
}

// ready returns the ready strips that are long and thick enough.
func ready(r movement.Physics, a suggest.Request) []suggest.ReadyStrips {
	if len(a.Have) > 0 {
		return a.Have
	}
	var have []suggest.ReadyStrips
	for _, s := range a.Serving(r.Shop()) {
		have = append(have, suggest.ReadyStrips{Species: s.Species, Width: s.Width, Rings: s.Rings, Moisture: s.Moisture,
			Count: s.Quantity, UseFirst: s.UseFirst, Source: s.ID})
	}
	return have
}

// gather returns the kinds of the ready strips; where the work is stopped on the way, some
// of them.
func gather(r movement.Physics, a suggest.Request, stop stopper) *kinds {
	ks := &kinds{}
	for _, h := range ready(r, a) {
		if stop.stopped() {
			return ks
		}
		s := pattern.Strip{Species: h.Species, Width: h.Width, Rings: h.Rings, Moisture: h.Moisture}
		k := ks.find(ks.class(a.KindOf(r, s)), -1, s)
		k.count += h.Count
		if h.UseFirst {
			k.first += h.Count
		}
		k.sources = append(k.sources, source{h.Source, h.Count, h.UseFirst})
	}
	for i := range ks.list {
		slices.SortStableFunc(ks.list[i].sources, func(a, b source) int {
			if a.first == b.first {
				return 0
			}
			if a.first {
				return -1
			}
			return 1
		})
	}
	return ks
}

// pin adds the kinds of pinned strips that cannot be had.
func pin(r movement.Physics, a suggest.Request, ks *kinds) {
	for _, p := range a.Pinned {
		class := ks.class(a.KindOf(r, p.Strip))
		if slices.ContainsFunc(ks.list, func(k kind) bool { return k.class == class && !k.given }) {
			continue
		}
		k := ks.find(class, -1, p.Strip)
		k.given = true
		k.count += 2 // its mirror image is given too
	}
}

// A matrix holds what each two kinds are beside each other.
type matrix struct {
	n        int
	contrast []int64         // in units
	exact    []float64       // the same, not rounded
	level    []pattern.Level // of the glue line
}

func (m *matrix) at(i, j int) int { return i*m.n + j }

// newMatrix computes every pair of kinds.
func newMatrix(r movement.Physics, a suggest.Request, list []kind, stop stopper) (*matrix, error) {
	n := len(list)
	m := &matrix{n: n, contrast: make([]int64, n*n), exact: make([]float64, n*n), level: make([]pattern.Level, n*n)}
	timbers := make([]species.Species, n)
	for i, k := range list {
		timber, ok := r.Table().Get(k.strip.Species)
		if !ok {
			return nil, fmt.Errorf("species %q: must be a key of the species table", k.strip.Species)
		}
		timbers[i] = timber
	}
	for i := range list {
		if stop.stopped() {
			return nil, errStopped
		}
		for j := i; j < n; j++ {
			c := timbers[i].Contrast(timbers[j])
			level := lineLevel(r, a, list[i].strip, list[j].strip)
			for _, at := range [...]int{m.at(i, j), m.at(j, i)} {
				m.exact[at], m.contrast[at], m.level[at] = c, int64(math.Round(c*suggest.PerContrast)), level
			}
		}
	}
	return m, nil
}

// lineLevel returns the level of the glue line between two strips, each with the relief
// of its own width. A panel of the two counts both twice as wide, since they are its
// edges, so its step is brought to the relief of single widths.
func lineLevel(r movement.Physics, a suggest.Request, left, right pattern.Strip) pattern.Level {
	p := pattern.Pattern{Panel: a.Panel(), Strips: []pattern.Strip{left, right}}
	figure, known := r.Panel(p).Figure(1)
	limits := r.Shop().Limits
	level := movement.LevelOf(figure.GapPct, limits.MoisturePct)
	if !known {
		return level
	}
	step := figure.StepUM
	if step > 0 {
		own := movement.Relief(left.Width, a.Thickness) + movement.Relief(right.Width, a.Thickness)
		edge := movement.Relief(2*left.Width, a.Thickness) + movement.Relief(2*right.Width, a.Thickness)
		step *= own / edge
	}
	return max(level, movement.LevelOf(step, limits.StepUM), movement.LevelOf(figure.StrainPct, limits.StrainPct))
}
