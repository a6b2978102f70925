package edit

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// A Way says how a pattern comes to another width. The zero value is AnyWay.
type Way int

// The ways.
const (
	AnyWay  Way = iota // Repeats where they come within the tolerance, else Widths
	Widths             // the same strips, wider or narrower
	Repeats            // as wide strips, with more or fewer repeats of what repeats
)

// Ways lists every way.
func Ways() []Way { return []Way{AnyWay, Widths, Repeats} }

// String returns any, widths or repeats.
func (w Way) String() string { return tell.Word(w, "way", "any", "widths", "repeats") }

// ParseWay reads any, widths or repeats.
func ParseWay(s string) (Way, error) {
	if w, ok := tell.Named(s, Ways()); ok {
		return w, nil
	}
	return AnyWay, fmt.Errorf("way %q: must be any, widths or repeats", s)
}

// A Size is the order that a pattern is to be made for.
type Size struct {
	Width     length.Length // glue-up width; 0: as Strip makes it
	Tolerance length.Length // either way, inclusive
	Step      length.Length // new widths of strips are whole steps
	Strip     length.Length // first the widest strips become so wide, the others in proportion; 0: as they are
	Way       Way           // with Strip it is Repeats
}

// A Resized is a pattern for another order, and what differs.
type Resized struct {
	Pattern pattern.Pattern // its panel's width is the one wanted, where one is
	Way     Way             // Widths or Repeats
	Changes []Resizing      // left to right, those taken out at their old places
}

// A Resizing is one strip that differs: it has another width, was added (Was is 0) or
// taken out (Now is 0). Places count from 1.
type Resizing struct {
	Was, Now           int
	Strip              pattern.Strip // as it is now; one taken out, as it was
	WidthWas, WidthNow length.Length // 0 where it was not there
}

// Resize returns p for an order of another size. The sequence of timbers stays, and what
// is mirror symmetric in timber and width stays so. A pinned strip keeps its width, and
// so does its mirror image where p is symmetric; it is never taken out.
//
// By Widths, strips of one width stay of one width. Of all ways within the tolerance
// it is the one whose strips together are the least away from the scaled pattern, in
// which every strip that is not pinned is wider by one and the same factor, chosen so
// that the width wanted is met; then the one nearest to the width wanted; then the
// narrower one. By Repeats, one section that repeats in whole gets more or fewer
// repeats, at least one, or it and its mirror image do: of all such, the one nearest to
// the width wanted, then with the fewest strips added or taken out, then with the
// shorter repeat, then the leftmost. Both are the best by these rules, since all that
// could be better is looked at.
func Resize(p pattern.Pattern, to Size) (Resized, error) {
	if err := to.check(p); err != nil {
		return Resized{}, err
	}
	r := resizing{was: p.Strips, strips: splice(p.Strips, 0, 0, nil), from: make([]int, len(p.Strips)), to: to}
	for i := range r.from {
		r.from[i] = i
	}
	way := to.Way
	if to.Strip > 0 {
		way = Repeats
		if err := r.scale(); err != nil {
			return Resized{}, err
		}
	}
	if to.Width > 0 && !(to.Strip > 0 && r.within(r.width())) {
		var err error
		if way, err = r.resize(way); err != nil {
			return Resized{}, err
		}
	} else if to.Strip > 0 {
		way = Widths
	}
	p.Strips = r.strips
	if to.Width > 0 {
		p.Panel.Width = to.Width
	}
	out := Resized{Pattern: p, Way: way, Changes: r.changes()}
	if len(out.Changes) == 0 {
		return Resized{}, refuse("the strips are %v wide already, and nothing is to be changed", p.Width())
	}
	return out, nil
}

// AnotherWidth makes the pattern for an order of another width.
func AnotherWidth(s State, to Size) (State, error) {
	r, err := Resize(s.Pattern, to)
	if err != nil {
		return s, err
	}
	s.Pattern = r.Pattern
	s.Selected = max(0, min(s.Selected, len(s.Pattern.Strips)-1))
	return s, nil
}

// stepsMost is how many steps the widest panel asked for may be.
const stepsMost = 200_000

func (to Size) check(p pattern.Pattern) error {
	switch {
	case len(p.Strips) == 0:
		return refuse("there is no strip yet: put one in first")
	case to.Width == 0 && to.Strip == 0:
		return refuse("no width set: give that of the panel or of the strips")
	case to.Width == p.Width() && to.Strip == 0:
		return refuse("the strips are %v wide already", to.Width)
	}
	if err := cmp.Or(
		within("width", to.Width, 0, pattern.MaxAcross),
		within("tolerance", to.Tolerance, 0, pattern.MaxAcross),
		within("strip width", to.Strip, 0, pattern.MaxAcross),
		within("step", to.Step, 1, pattern.MaxAcross),
	); err != nil {
		return err
	}
	if (to.Width+to.Tolerance)/to.Step > stepsMost {
		return refuse("steps of %v are too fine for %v: must be %v or more", to.Step, to.Width, (to.Width+to.Tolerance)/stepsMost+1)
	}
	return nil
}

// A resizing is a Resize at work.
type resizing struct {
	was    []pattern.Strip
	strips []pattern.Strip
	from   []int // of each strip: which it was, or -1
	to     Size
}

func (r *resizing) width() length.Length { return pattern.Pattern{Strips: r.strips}.Width() }

// within reports whether a width is as wanted.
func (r *resizing) within(w length.Length) bool {
	return w >= r.to.Width-r.to.Tolerance && w <= r.to.Width+r.to.Tolerance
}

func (r *resizing) resize(way Way) (Way, error) {
	switch way {
	case Widths:
		return Widths, r.byWidths()
	case Repeats:
		return Repeats, r.byRepeats()
	case AnyWay:
		if r.byRepeats() == nil {
			return Repeats, nil
		}
		return Widths, r.byWidths()
	default:
		return way, refuse("%v: must be any, widths or repeats", way)
	}
}

// held reports of each strip whether its width stays: it is pinned, or the mirror image
// of one that is in a pattern that is symmetric.
func (r *resizing) held() []bool {
	n := len(r.strips)
	held := make([]bool, n)
	mirror := symmetric(r.strips)
	for i, s := range r.strips {
		held[i] = s.Pinned || mirror && r.strips[n-1-i].Pinned
	}
	return held
}

// scale gives the widest strips the width asked for, the others in proportion.
func (r *resizing) scale() error {
	held := r.held()
	var widest length.Length
	for i, s := range r.strips {
		if !held[i] {
			widest = max(widest, s.Width)
		}
	}
	if widest == 0 {
		return refuse("every strip is pinned: unpin one to make it %v wide", r.to.Strip)
	}
	for i := range r.strips {
		if s := &r.strips[i]; !held[i] {
			s.Width = r.steps(share(s.Width, r.to.Strip, widest))
		}
	}
	return nil
}

// steps returns the nearest width of whole steps, the typed width itself where it is one.
func (r *resizing) steps(w length.Length) length.Length {
	if w == r.to.Strip {
		return w
	}
	return max(1, (w+r.to.Step/2)/r.to.Step) * r.to.Step
}

// share returns l times part over whole, to the nearest nanometre. Both l and part are at
// most 2 m, so that their product is no larger than what is counted with.
func share(l, part, whole length.Length) length.Length { return (l*part + whole/2) / whole }

// sameForm reports whether two strips are one timber in one size.
func sameForm(a, b pattern.Strip) bool {
	return a.Species == b.Species && a.Width == b.Width && a.Length == b.Length && a.Start == b.Start
}

// symmetric reports whether strips are their own mirror image in timber and size.
func symmetric(strips []pattern.Strip) bool {
	for i, j := 0, len(strips)-1; i < j; i, j = i+1, j-1 {
		if !sameForm(strips[i], strips[j]) {
			return false
		}
	}
	return true
}

// changes lists what differs. What was taken out stands before the next strip that was
// behind it.
func (r *resizing) changes() []Resizing {
	var out []Resizing
	kept := make([]bool, len(r.was))
	for _, from := range r.from {
		if from >= 0 {
			kept[from] = true
		}
	}
	at := 0
	gone := func(until int) {
		for ; at < until; at++ {
			if !kept[at] {
				out = append(out, Resizing{Was: at + 1, Strip: r.was[at], WidthWas: r.was[at].Width})
			}
		}
	}
	for i, from := range r.from {
		s := r.strips[i]
		if from < 0 {
			out = append(out, Resizing{Now: i + 1, Strip: s, WidthNow: s.Width})
			continue
		}
		gone(from)
		at = from + 1
		if s.Width != r.was[from].Width {
			out = append(out, Resizing{from + 1, i + 1, s, r.was[from].Width, s.Width})
		}
	}
	gone(len(r.was))
	return slices.Clip(out)
}
