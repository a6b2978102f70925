package suggest

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest/look"
)

// Sought reports whether looks or timbers are wished for, which package gallery looks after.
func (w Wishes) Sought() bool {
	return len(w.Looks) > 0 || w.Timbers != [2]int{} || len(w.With) > 0 || len(w.AtMost) > 0
}

// Spared returns the request with the rack that its wishes leave: without species that must
// not be, and without rough pieces that are too long to be cut. Where strips may be in pieces
// and ready ones alone are asked for, it asks for these by their widths, and leaves no pieces.
func (a Request) Spared() Request {
	out := func(species string) bool { return slices.Contains(a.Without, species) }
	a.Rack.Pieces = slices.DeleteFunc(slices.Clone(a.Rack.Pieces), func(p rack.Piece) bool {
		return out(p.Species) || a.Longest > 0 && p.Length > a.Longest
	})
	a.Rack.Strips = slices.DeleteFunc(slices.Clone(a.Rack.Strips), func(s rack.Strip) bool { return out(s.Species) })
	a.Have = slices.DeleteFunc(slices.Clone(a.Have), func(h ReadyStrips) bool { return out(h.Species) })
	a.readyAlone()
	return a
}

// StartStrips returns how many strips the layouts of a gallery have to begin with: UsualStrips
// for a narrow panel, where the strips to be had can come to it in so many; else any number.
func (a Request) StartStrips(sh shop.Shop) [2]int {
	widths := slices.Clone(a.Widths)
	for _, h := range a.Have {
		widths = append(widths, h.Width)
	}
	if len(a.Have) == 0 {
		for _, s := range a.Serving(sh) {
			widths = append(widths, s.Width)
		}
	}
	usual := UsualStrips()
	least, most := a.Limits()
	if len(widths) == 0 || least > NarrowPanel || length.Length(usual[0])*slices.Min(widths) > most || length.Length(usual[1])*slices.Max(widths) < least {
		return [2]int{DefaultFewest, DefaultMost}
	}
	return usual
}

// Floor returns the least contrast of neighbours in a layout of a look; below 0: any.
func (a Request) Floor(l look.Look) float64 {
	switch {
	case a.Aim != UseUp:
		return -1
	case l == look.Fade:
		return min(a.LeastContrast, fadeContrast)
	default:
		return a.LeastContrast
	}
}

// Rules returns what looks go by.
func (a Request) Rules(r movement.Physics) look.Rules {
	return look.Rules{AccentWidth: cmp.Or(a.AccentWidth, DefaultAccent), LeastContrast: a.LeastContrast, Contrast: func(x, y string) float64 {
		s, _ := r.Table().Get(x)
		o, _ := r.Table().Get(y)
		return s.Contrast(o)
	}}
}

// Seen returns what the eye sees of placed strips.
func Seen(r movement.Physics, strips []Placed) []look.Strip {
	out := make([]look.Strip, len(strips))
	for i, p := range strips {
		s, _ := r.Table().Get(p.Species)
		out[i] = look.Strip{Species: p.Species, Width: p.Width, L: s.ColourOiled.Lightness()}
	}
	return out
}

// Told returns what reports whether the eye tells two species apart; not for sharing between
// goroutines.
func Told(r movement.Physics) func(x, y string) bool {
	limit, known := r.Shop().Limits.Contrast, map[[2]string]bool{}
	return func(x, y string) bool {
		told, there := known[[2]string{x, y}]
		if !there {
			s, _ := r.Table().Get(x)
			o, _ := r.Table().Get(y)
			told = s.Contrast(o) > limit
			known[[2]string{x, y}] = told
		}
		return told
	}
}

// Looks gives each layout of an answer its distance to the eye from those before it, and
// those of a classic search their look.
func (a *Result) Looks(ask Request, r movement.Physics) {
	told := Told(r)
	for i := range a.Layouts {
		l := &a.Layouts[i]
		if !ask.Sought() && ask.Symmetric {
			l.Look = look.Mirror
		}
		l.ApartPct = 100
		for _, before := range a.Layouts[:i] {
			l.ApartPct = min(l.ApartPct, look.Apart(Seen(r, l.Strips), Seen(r, before.Strips), told))
		}
	}
}

// UpholdLooks looks at every claim of a gallery before it is handed out. A layout that is
// not what it says is left out, and nothing is claimed to be proved any more.
func (a *Result) UpholdLooks(r movement.Physics, ask Request) {
	j := NewJudge(r, ask)
	var first *Broken
	kept := make([]Layout, 0, len(a.Layouts))
	for i, l := range a.Layouts {
		b := j.look(l)
		if b == nil {
			_, b = j.Layout(l)
		}
		if b != nil {
			b.Layout = i + 1
			first = cmp.Or(first, b)
			continue
		}
		kept = append(kept, l)
	}
	if a.Layouts = kept; first != nil {
		a.breaks(first)
	}
}

// look looks whether a layout has its look and keeps to what was wished of timbers.
func (j *Judge) look(l Layout) *Broken {
	seen := Seen(j.physics, l.Strips)
	wide := map[string]float64{}
	for _, p := range l.Strips {
		wide[p.Species] += p.Width.MM()
	}
	if !j.ask.Rules(j.physics).Is(l.Look, seen) {
		return NewBroken(ClaimLook, l.Look, "it has not")
	}
	if l.ApartPct < j.ask.ApartPct {
		return NewBroken(ClaimLook, fmt.Sprintf("%v %% unlike those before", j.ask.ApartPct), l.ApartPct)
	}
	if n, most := len(wide), j.ask.Timbers[1]; n < j.ask.Timbers[0] || most > 0 && n > most {
		return NewBroken(ClaimWish, fmt.Sprintf("%d to %d timbers", j.ask.Timbers[0], most), n)
	}
	for _, key := range j.ask.With {
		if wide[key] == 0 {
			return NewBroken(ClaimWish, "with "+key, "without")
		}
	}
	for _, s := range j.ask.AtMost {
		if pct := 100 * wide[s.Species] / l.Width.MM(); pct > s.Pct*(1+AsGood) {
			return NewBroken(ClaimWish, fmt.Sprintf("at most %v %% %s", s.Pct, s.Species), pct)
		}
	}
	return nil
}

// LineLevel returns the level of the glue line between two strips, each with the relief
// of its own width.
func LineLevel(r movement.Physics, a Request, left, right pattern.Strip) pattern.Level {
	figure, _ := r.Pair(a.Panel(), left, right)
	return figure.Level
}
