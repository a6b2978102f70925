package sets

import (
	"math"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// hold holds a set to the statement (pile.md, section 2). It works everything out afresh, and
// of what the search goes by it takes only the figures of glue lines and the check of a plan.
func hold(t *testing.T, r Request, set Set) {
	t.Helper()
	made := make([]int, len(r.Wants))
	stems := map[string]bool{}
	for _, p := range set.Panels {
		w := r.Wants[p.Want]
		made[p.Want] += p.Copies()
		if stems[p.Stem] {
			t.Errorf("two panels are called %s", p.Stem)
		}
		stems[p.Stem] = true
		holdPanel(t, r, w, p)
	}
	worth, short := 0.0, 0
	for i, w := range r.Wants {
		each := w.Worth
		if each == 0 {
			each = w.VolumeDM3()
		}
		worth += float64(made[i]) * each
		short += max(0, w.Least-made[i])
		if made[i] != set.Made[i] || w.Most > 0 && made[i] > w.Most {
			t.Errorf("%s: %d made, said %d, at most %d", w.ID, made[i], set.Made[i], w.Most)
		}
	}
	if math.Abs(worth-set.Worth) > 1e-9*max(1, worth) || short != set.Short || set.Bound < set.Worth-1e-9 {
		t.Errorf("worth %v, said %v of at most %v; %d short, said %d", worth, set.Worth, set.Bound, short, set.Short)
	}
	if err := cutting.Verify(r.Job(set.Panels), set.Plan); err != nil || set.Plan.Short > 0 {
		t.Errorf("plan: %v, %d short", err, set.Plan.Short)
	}
}

func holdPanel(t *testing.T, r Request, w orders.Want, p Panel) {
	t.Helper()
	if n := p.Copies(); len(p.Pattern.Products) != 1 || n < w.Along.Least || n > w.Along.Most {
		t.Errorf("%s: %d products", p.Stem, n)
	}
	along, across := sizeOf(w)
	cut := r.Physics.Shop().Cut
	wide := p.Pattern.Width()
	if least := across + 2*cut.SideMargin; wide < least || wide > least+w.Spare {
		t.Errorf("%s is %v wide, wanted %v and up to %v more", p.Stem, wide, least, w.Spare)
	}
	holdPlaces(t, r, w, p, along.MM(), across.MM())
	holdWishes(t, r, w, p)
	entries := map[string]rack.Entry{}
	for _, e := range r.Rack.Entries() {
		entries[e.ID] = e
	}
	standing := newSearch(t.Context(), r, Options{}).usual
	for i, s := range p.Pattern.Strips {
		e, there := entries[p.Sources[i]]
		if !there || e.Species != s.Species || e.Moisture != s.Moisture || e.Rings != s.Rings && e.Rings.Rolled() != s.Rings {
			t.Errorf("%s strip %d: %v is from %q, %v", p.Stem, i+1, s, p.Sources[i], e)
		}
		if !e.Ready && !slices.Contains(standing, s.Width) && !(w.Look == look.Accent && s.Width <= 12*length.Millimetre) {
			t.Errorf("%s strip %d is %v wide", p.Stem, i+1, s.Width)
		}
	}
}

func sizeOf(w orders.Want) (along, across length.Length) {
	if w.Product.Diameter > 0 {
		return w.Product.Diameter, w.Product.Diameter
	}
	return w.Product.Length, w.Product.Width
}

// holdPlaces lays the products along the middle line, each as near the datum end as it may lie,
// in floating point, and finds all of them in place and strips no longer than they need be.
func holdPlaces(t *testing.T, r Request, w orders.Want, p Panel, along, across float64) {
	t.Helper()
	const within = 1e-3 // mm
	cut := r.Physics.Shop().Cut
	end := cut.EndMargin.MM()
	type strip struct {
		half   float64 // of the product along the grain, over this strip
		pieces [][2]float64
	}
	var strips []strip
	y, middle := 0.0, p.Pattern.Width().MM()/2
	for _, s := range p.Pattern.Strips {
		from, to := y, y+s.Width.MM()
		y = to
		if to <= middle-across/2 || from >= middle+across/2 {
			continue
		}
		half := along / 2
		if w.Product.Diameter > 0 {
			d := max(0, from-middle, middle-to)
			half = math.Sqrt(max(0, along*along/4-d*d))
		}
		one := strip{half: half}
		for _, piece := range p.Pattern.PiecesOf(s, r.Physics.Shop().Allowance.Length) {
			one.pieces = append(one.pieces, [2]float64{piece.Start.MM(), piece.End().MM()})
		}
		strips = append(strips, one)
	}
	x := along/2 + -1e9
	var placed []float64
	for range p.Copies() {
		for again := true; again; { // until every strip has it on one piece
			again = false
			for _, s := range strips {
				ok := false
				for _, piece := range s.pieces {
					least, most := piece[0]+end+s.half, piece[1]-end-s.half
					if x <= most+within && least <= most+within {
						if x < least-within {
							x, again = least, true
						}
						ok = true
						break
					}
				}
				if !ok {
					t.Errorf("%s: product %d of %d finds no place", p.Stem, len(placed)+1, p.Copies())
					return
				}
			}
		}
		placed = append(placed, x)
		x += along + cut.Gap.MM()
	}
	for i, s := range strips {
		first, last := s.pieces[0], s.pieces[len(s.pieces)-1]
		needs := [2]float64{placed[0] - s.half - end, placed[len(placed)-1] + s.half + end}
		if len(s.pieces) == 1 && (math.Abs(first[0]-needs[0]) > within || math.Abs(last[1]-needs[1]) > within) && last[1]-first[0] > needs[1]-needs[0]+r.Physics.Shop().Cut.Stop.MM()+within {
			t.Errorf("%s strip %d lies from %v to %v, and %v are needed", p.Stem, i+1, first[0], last[1], needs)
		}
	}
}

// holdWishes holds a panel to the level, the contrast, the look and the timbers.
func holdWishes(t *testing.T, r Request, w orders.Want, p Panel) {
	t.Helper()
	strips := p.Pattern.Strips
	floor := w.LeastContrast
	if w.Look == look.Fade {
		floor = min(floor, 4)
	}
	for i, l := range r.Physics.Panel(p.Pattern).Lines() {
		a, b := oiledOf(r, strips[i]), oiledOf(r, strips[i+1])
		if l.Level > w.Level || species.Contrast(a, b) < floor {
			t.Errorf("%s line %d: %v, contrast %.1f", p.Stem, i+1, l.Level, species.Contrast(a, b))
		}
	}
	if !hasLook(r, w, strips) {
		t.Errorf("%s is not %v: %v", p.Stem, w.Look, strips)
	}
	wide := map[string]float64{}
	for _, s := range strips {
		wide[s.Species] += s.Width.MM()
	}
	for _, key := range w.With {
		if wide[key] == 0 {
			t.Errorf("%s is without %s", p.Stem, key)
		}
	}
	for _, key := range w.Without {
		if wide[key] > 0 {
			t.Errorf("%s is with %s", p.Stem, key)
		}
	}
	for _, s := range w.AtMost {
		if 100*wide[s.Species] > s.Pct*p.Pattern.Width().MM()+1e-9 {
			t.Errorf("%s has too much %s", p.Stem, s.Species)
		}
	}
	if n := len(wide); w.Timbers.Most > 0 && (n < w.Timbers.Least || n > w.Timbers.Most) {
		t.Errorf("%s has %d timbers", p.Stem, n)
	}
}

func oiledOf(r Request, s pattern.Strip) species.RGB {
	if s.Colour.Known {
		return s.Colour.RGB
	}
	known, _ := r.Physics.Table().Get(s.Species)
	return known.ColourOiled
}

// hasLook is looks.md, section 2, once more.
func hasLook(r Request, w orders.Want, strips []pattern.Strip) bool {
	n := len(strips)
	alike := func(i, j int) bool {
		return strips[i].Species == strips[j].Species && strips[i].Width == strips[j].Width
	}
	count := map[string]int{}
	for _, s := range strips {
		count[s.Species]++
	}
	all := func(from, to int, is func(i int) bool) bool {
		for i := from; i < to; i++ {
			if !is(i) {
				return false
			}
		}
		return true
	}
	switch w.Look {
	case look.Mirror:
		return all(0, n, func(i int) bool { return alike(i, n-1-i) })
	case look.Repeat:
		for p := 2; 2*p <= n; p++ {
			if all(p, n, func(i int) bool { return alike(i, i-p) }) {
				return true
			}
		}
		return false
	case look.Calm:
		turns := all(1, n, func(i int) bool { return strips[i].Species != strips[i-1].Species })
		way := func(sign length.Length) bool {
			return all(1, (n+1)/2, func(i int) bool {
				return sign*(strips[i].Width-strips[i-1].Width) >= 0 && sign*(strips[n-1-i].Width-strips[n-i].Width) >= 0
			})
		}
		return len(count) == 2 && turns && (way(1) || way(-1))
	case look.Lively:
		return len(count) >= 4 && all(1, n, func(i int) bool {
			return strips[i].Width != strips[i-1].Width && strips[i].Species != strips[i-1].Species && (i < 2 || strips[i].Species != strips[i-2].Species)
		})
	case look.Fade:
		turns, last := 0, 0.0
		for i := 1; i < n; i++ {
			d := oiledOf(r, strips[i]).Lightness() - oiledOf(r, strips[i-1]).Lightness()
			if d == 0 && strips[i].Species != strips[i-1].Species {
				return false
			}
			if d != 0 {
				if d*last < 0 {
					turns++
				}
				last = d
			}
		}
		return len(count) >= 3 && turns <= 1
	case look.Accent:
		for key, times := range count {
			widest := length.Length(0)
			good := len(count) >= 2 && len(count) <= 3 && times >= 2 && all(0, n, func(i int) bool {
				if strips[i].Species != key {
					return true
				}
				widest = max(widest, strips[i].Width)
				return i > 0 && i < n-1 && strips[i].Width <= 12*length.Millimetre && strips[i-1].Species != key &&
					species.Contrast(oiledOf(r, strips[i]), oiledOf(r, strips[i-1])) >= 2*w.LeastContrast &&
					species.Contrast(oiledOf(r, strips[i]), oiledOf(r, strips[i+1])) >= 2*w.LeastContrast
			})
			if good && all(0, n, func(i int) bool { return strips[i].Species == key || strips[i].Width >= 2*widest }) {
				return true
			}
		}
		return false
	}
	return true
}
