package sets

import (
	"math"
	"slices"
	"strings"
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
// of what the search goes by it takes only the check of a plan.
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
	holdSources(t, r, set)
}

// holdSources holds every piece of every strip to the timber that the strip counts on, and finds
// each of them once in the plan.
func holdSources(t *testing.T, r Request, set Set) {
	t.Helper()
	type source struct {
		id string
		at cutting.Ref
	}
	var all []source
	for _, one := range set.Plan.Ready {
		all = append(all, source{one.ID, one.For})
	}
	for _, cut := range set.Plan.Cuts {
		id, _, _ := strings.Cut(cut.Piece, "/")
		for _, section := range cut.Sections {
			for _, slice := range section.Slices {
				for _, ref := range slice.Strips {
					all = append(all, source{id, ref})
				}
			}
		}
	}
	entries := map[string]rack.Entry{}
	for _, e := range r.Rack.Entries() {
		entries[e.ID] = e
	}
	found := map[cutting.Ref]int{}
	for _, one := range all {
		found[one.at]++
		i := slices.IndexFunc(set.Panels, func(p Panel) bool { return p.Stem == one.at.Pattern })
		if i < 0 {
			t.Errorf("%v is of no panel", one.at)
			continue
		}
		p := set.Panels[i]
		strip := p.Pattern.Strips[one.at.Strip-1]
		e, there := entries[one.id]
		if !there || e.Species != strip.Species || e.Moisture != strip.Moisture || e.Colour != strip.Colour || e.Rings != strip.Rings && e.Rings.Rolled() != strip.Rings {
			t.Errorf("%v counts on %v, and comes from %q, %v", one.at, strip, one.id, e)
		}
		if one.at.Piece <= 1 && p.Sources[one.at.Strip-1] != one.id {
			t.Errorf("%v comes from %q, said %q", one.at, one.id, p.Sources[one.at.Strip-1])
		}
	}
	for _, p := range set.Panels {
		for i, strip := range p.Pattern.Strips {
			for n := range strip.Joints.Len() + 1 {
				ref := cutting.Ref{Pattern: p.Stem, Copy: 1, Strip: i + 1}
				if strip.Joints.Len() > 0 {
					ref.Piece = n + 1
				}
				if found[ref] != 1 {
					t.Errorf("%v is cut %d times", ref, found[ref])
				}
			}
		}
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
	holdJoints(t, r, w, p, along.MM())
	holdLevel(t, r, w.Level, p)
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

// holdJoints holds the joints of a panel to joints.md: only where the want lets strips be parted,
// between two products, as bricks, of pieces as long as the stops say.
func holdJoints(t *testing.T, r Request, w orders.Want, p Panel, along float64) {
	t.Helper()
	cut := r.Physics.Shop().Cut
	step := along + cut.Gap.MM()
	bonds := map[int]bool{}
	for i, s := range p.Pattern.Strips {
		if s.Joints.Len() == 0 {
			continue
		}
		if !w.Joints || p.Copies() < 2 {
			t.Errorf("%s strip %d is parted", p.Stem, i+1)
		}
		pieces := p.Pattern.PiecesOf(s, r.Physics.Shop().Allowance.Length)
		for n, piece := range pieces {
			if piece.Length < cut.Shortest || cut.Stop > 0 && piece.Length%cut.Stop != 0 {
				t.Errorf("%s strip %d has a piece %v long", p.Stem, i+1, piece.Length)
			}
			if n > 0 { // it begins between the middles of two products
				gap := int(math.Floor((piece.Start.MM() - cut.EndMargin.MM() - along/2) / step))
				bonds[(i+1+gap)%2] = true
			}
		}
	}
	if len(bonds) > 1 {
		t.Errorf("%s is not laid as bricks: %v", p.Stem, p.Pattern.Strips)
	}
}

// holdWishes holds a panel to the contrast, the look and the timbers.
func holdWishes(t *testing.T, r Request, w orders.Want, p Panel) {
	t.Helper()
	strips := p.Pattern.Strips
	floor := w.LeastContrast
	if w.Look == look.Fade {
		floor = min(floor, 4)
	}
	for i := range strips[1:] {
		if c := species.Contrast(oiledOf(r, strips[i]), oiledOf(r, strips[i+1])); c < floor {
			t.Errorf("%s line %d: contrast %.1f", p.Stem, i+1, c)
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
