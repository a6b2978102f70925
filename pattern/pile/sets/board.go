package sets

import (
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// A wanted is a want with what its panels are measured by.
type wanted struct {
	orders.Want
	at          int
	glued       length.Length // thickness before flattening
	least, most length.Length // glue-up width
	each        float64
	floor       float64  // least contrast of neighbours
	pairs       []int8   // of each two kinds of the search: what they are to each other; 0 not looked at yet
	timbers     []string // that may serve
	shape       outline.Shape
	rules       look.Rules
}

// A board is a panel that was drawn.
type board struct {
	Panel
	kinds []int // of the search
	needs map[int][]item
	worth float64
	first float64 // use-first timber, cubic centimetres of finished strips
	held  bool
}

// panel returns the pattern of strips from edge to edge for so many products: its strips as
// long as these need. False where not all products find their place.
func (s *search) panel(w *wanted, along int, strips []pattern.Strip) (pattern.Pattern, bool) {
	sh := &s.shop
	p := pattern.Pattern{Strips: slices.Clone(strips), Products: []pattern.Product{w.Product}}
	p.Panel.Length, p.Panel.Thickness = w.PanelLength(along, sh.Cut), w.Thickness
	p.Panel.Width = p.Width()
	p.Products[0].Count, p.Products[0].Centre = along, pattern.Centre{}
	layout, err := outline.Lay(p, sh.Allowance.Length, p.Products, nil, sh.Cut)
	if err != nil || len(layout.NotPlaced) > 0 {
		return p, false
	}
	for _, own := range layout.OwnLengths {
		strip := &p.Strips[own.Strip-1]
		strip.Start = min(own.Start, pattern.MaxStart)
		strip.Length = own.Start + own.Length - strip.Start
	}
	layout, err = outline.Lay(p, sh.Allowance.Length, p.Products, nil, sh.Cut)
	return p, err == nil && len(layout.NotPlaced) == 0
}

// oiled returns the colour of a strip under oil.
func (s *search) oiled(strip pattern.Strip) species.RGB {
	if strip.Colour.Known {
		return strip.Colour.RGB
	}
	t, _ := s.Physics.Table().Get(strip.Species)
	return t.ColourOiled
}

// seen returns what the eye sees of strips.
func (s *search) seen(strips []pattern.Strip) []look.Strip {
	out := make([]look.Strip, len(strips))
	for i, one := range strips {
		out[i] = look.Strip{Species: one.Species, Width: one.Width, L: s.oiled(one).Lightness()}
	}
	return out
}

// rules returns what the looks of a want go by, which remembers contrasts.
func (s *search) rules(w *wanted) look.Rules {
	if w.rules.Contrast == nil {
		w.rules = suggest.Request{LeastContrast: w.LeastContrast}.Rules(s.Physics)
		contrast, known := w.rules.Contrast, map[[2]string]float64{}
		w.rules.Contrast = func(a, b string) float64 {
			key := [2]string{a, b}
			c, there := known[key]
			if !there {
				c = contrast(a, b)
				known[key] = c
			}
			return c
		}
	}
	return w.rules
}

// A fault is what keeps strips from being a panel of a want.
type fault int

const (
	none    fault = iota
	lines         // a glue line is above the level, or neighbours are too alike
	looks         // not the look
	timbers       // not the timbers
)

// keeps holds a pattern to all that its want says, and returns what it misses, and of a glue
// line its left strip.
func (s *search) keeps(w *wanted, p pattern.Pattern) (fault, int) {
	for i, l := range s.Physics.Panel(p).Lines() {
		if l.Level > w.Level || l.Contrast < w.floor {
			return lines, i
		}
	}
	if !s.rules(w).Is(w.Look, s.seen(p.Strips)) {
		return looks, 0
	}
	wide := map[string]length.Length{}
	for _, one := range p.Strips {
		wide[one.Species] += one.Width
	}
	if w.Timbers.Most > 0 && (len(wide) < w.Timbers.Least || len(wide) > w.Timbers.Most) {
		return timbers, 0
	}
	for _, key := range w.With {
		if wide[key] == 0 {
			return timbers, 0
		}
	}
	for _, key := range w.Without {
		if wide[key] > 0 {
			return timbers, 0
		}
	}
	for _, share := range w.AtMost {
		if 100*wide[share.Species].MM() > share.Pct*p.Width().MM() {
			return timbers, 0
		}
	}
	return none, 0
}

// What two kinds are to each other.
const (
	strangers = 1 + iota // they may not lie side by side
	doubtful             // they may as far as two strips decide it, and the panel they are in the rest
	friends
)

// beside reports whether two kinds may lie side by side in panels of a want, by themselves; also
// where that depends on the panel, if boldly.
func (s *search) beside(w *wanted, a, b int, boldly bool) bool {
	at := &w.pairs[a*len(s.kinds)+b]
	if *at == 0 {
		left, right := s.kinds[a].strip, s.kinds[b].strip
		*at = strangers
		if species.Contrast(s.oiled(left), s.oiled(right)) >= w.floor {
			two := pattern.Panel{Thickness: w.Thickness}
			figure, _ := s.Physics.Pair(two, left, right)
			alone, _ := s.Physics.Panel(pattern.Pattern{Panel: two, Strips: []pattern.Strip{left, right}}).Beside(0, 1)
			switch {
			case figure.Level <= w.Level:
				*at = friends
			case alone.Level <= w.Level:
				*at = doubtful
			}
		}
		w.pairs[b*len(s.kinds)+a] = *at
	}
	return *at == friends || boldly && *at == doubtful
}

// long returns how long a strip is that begins at across and is so wide, in a panel of a given
// width with so many products.
func (s *search) long(w *wanted, along int, across, width, wide length.Length) length.Length {
	sh := &s.shop
	size, body := w.shape.Size()
	off := max(0, math.Abs(float64(2*across+width-wide))/2-float64(width)/2) / float64(length.Millimetre)
	if off >= body.MM()/2 {
		return w.PanelLength(along, sh.Cut) + sh.Allowance.Length
	}
	half := w.shape.Half(0, off)
	return length.Length(along-1)*(size+sh.Cut.Gap) + 2*sh.Cut.EndMargin + length.Length(2*half*float64(length.Millimetre))
}

// stop is what lengths are rounded up to while a set is sought: then panels that are nearly
// alike ask for the same strips. What the planner may cut from a longer section is lessened by
// as much, so that what can be cut rounded can be cut as it is.
const stop = 10 * length.Millimetre

// board completes what was drawn; nil where it misses what the want says.
func (s *search) board(w *wanted, along int, kinds []int) (*board, fault, int) {
	strips := make([]pattern.Strip, len(kinds))
	for i, k := range kinds {
		strips[i] = s.kinds[k].strip
	}
	p, ok := s.panel(w, along, strips)
	if !ok {
		return nil, timbers, 0
	}
	if miss, at := s.keeps(w, p); miss != none {
		return nil, miss, at
	}
	b := &board{Panel: Panel{Want: w.at, Pattern: p}, kinds: kinds, needs: map[int][]item{}, worth: float64(along) * w.each}
	for _, k := range kinds {
		b.lots = append(b.lots, s.kinds[k].lot)
	}
	s.count(b)
	return b, none, 0
}

// count lists what a board asks of each lot, and what is of use-first timber.
func (s *search) count(b *board) {
	for i, it := range s.itemsOf(b.Panel) {
		if l := b.lots[i]; l >= 0 {
			b.needs[l] = append(b.needs[l], it)
			if s.lots[l].first {
				strip := b.Pattern.Strips[i]
				b.first += float64(length.VolumeCM3(strip.Width, b.Pattern.StripLength(strip, s.shop.Allowance.Length), b.Pattern.Panel.Thickness))
			}
		}
	}
}

// itemsOf returns what each strip of a panel asks of its lot.
func (s *search) itemsOf(p Panel) []item {
	var ways [][]joints.Way
	w := s.wants[p.Want]
	if own := p.Pattern.Joints() > 0; own || w.Joints && p.Copies() > 1 {
		how := joints.Even
		if own {
			how = joints.AsTheyAre
		}
		ways, _ = joints.Of(p.Pattern, s.shop, how) // that it can be laid was found when it was drawn
	}
	out := make([]item, len(p.Pattern.Strips))
	for i, one := range p.Pattern.Strips {
		long := p.Pattern.StripLength(one, s.shop.Allowance.Length)
		out[i] = item{thickness: p.Pattern.Panel.Thickness, width: one.Width, rings: one.Rings, length: (long + stop - 1) / stop * stop}
		if ways != nil && (len(ways[i]) > 1 || len(ways[i][0]) > 1) {
			out[i].ways = s.remember(ways[i])
		}
	}
	return out
}
