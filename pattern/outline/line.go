package outline

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/tell"
)

// longestLine bounds what is read of a typed line.
const longestLine = 1000

// ParseLine reads a product as it is spoken: its shape, its size, then what else
// there is to say in any order, parted by blanks or commas. Numbers without a unit are
// in u; 11-1/2 is 11 and a half.
//
//	round 290 x2 bevel 8 under centre strip 6
//	rectangle 240 by 160 x4
//	block 400 95 holes 3 of 40 deep 18 bevel 3 top
//	oval 340 220
//
// Sizes are those that the shape takes: the diameter of a round, else the length along
// the grain and the width; x or by may stand between, and a unit behind the last alone
// holds for both. x4 or count 4 is how many, fill as many as the rows hold; where neither stands it is one. The error says what is wrong, or what is still
// wanted.
func ParseLine(text string, u length.Unit) (pattern.Product, error) {
	if len(text) > longestLine {
		return pattern.Product{}, fmt.Errorf("a product of %d letters: write it like round 290 x2", len(text))
	}
	r := reader{Line: spoken.Line{Text: text, Unit: u}, product: pattern.Product{Count: 1}}
	for r.More() {
		if err := r.next(); err != nil {
			return pattern.Product{}, err
		}
	}
	if err := r.wanting(); err != nil {
		return pattern.Product{}, err
	}
	for _, m := range Misfits(r.product) {
		return pattern.Product{}, fmt.Errorf("%s: %s", strings.ReplaceAll(m.Key, "_", " "), m.Text)
	}
	return r.product, nil
}

// A reader goes through a typed product.
type reader struct {
	spoken.Line
	product pattern.Product
	shape   Shape         // without a size; nil: not said yet
	sizes   []spoken.Size // that were read
}

// wanting says what a product needs and was not given.
func (r *reader) wanting() error {
	if r.shape == nil {
		return fmt.Errorf("missing: %s; write it like round 290 x2", ShapeWords(nil))
	}
	if t, ok := r.taken(); ok {
		return fmt.Errorf("missing: %s", t.Wanted)
	}
	return nil
}

// taken returns the next size that the shape takes, if it is said and takes one more.
func (r *reader) taken() (Taken, bool) {
	if r.shape == nil || len(r.sizes) == len(r.shape.Takes()) {
		return Taken{}, false
	}
	return r.shape.Takes()[len(r.sizes)], true
}

// next reads one thing that is said.
func (r *reader) next() (err error) {
	p := &r.product
	from := r.At
	w := r.Next()
	if s, ok := shapeTyped(w); ok {
		return r.named(s)
	}
	switch w {
	case "fill":
		p.Count = 0
	case "count":
		p.Count, err = spoken.Count("count", r.Next(), MaxCopies)
	case "bevel":
		bevel := []spoken.Size{{What: "bevel", Into: &p.Bevel}}
		if err = r.take(&bevel[0]); err == nil {
			err = r.Together(bevel)
		}
	case "under", "top", "both":
		p.BevelSide, err = pattern.ParseBevelSide(w)
	case "centre", "center", "centred", "centered":
		r.Skip("on")
		err = r.centre()
	case "hole", "holes":
		err = r.holes()
	case "x", "by":
		if _, ok := r.taken(); !ok || len(r.sizes) == 0 {
			err = fmt.Errorf("%q: stands between length and width only", w)
		}
	default:
		if count, ok := strings.CutPrefix(w, "x"); ok && spoken.Digits(count) {
			p.Count, err = spoken.Count("count", count, MaxCopies)
			return err
		}
		r.At = from
		err = r.size(w)
	}
	return err
}

func (r *reader) named(s Shape) error {
	if r.shape != nil {
		return fmt.Errorf("%s: it is %s already", s.Name(), A(string(r.shape.Name())))
	}
	r.product.Shape, r.shape = s.Name(), s
	return nil
}

// size reads the next size of the shape.
func (r *reader) size(w string) error {
	taken, ok := r.taken()
	switch {
	case r.shape == nil:
		return fmt.Errorf("%q: say first whether it is %s", w, ShapeWords(A))
	case !ok:
		return fmt.Errorf("%q: what is it? x2, bevel 8 top, centre strip 6 or holes 3 of 40 deep 18", w)
	}
	r.sizes = append(r.sizes, spoken.Size{What: taken.Key, Into: taken.In(&r.product), Text: r.LengthText()})
	return r.Together(r.sizes)
}

// take takes what should be a length.
func (r *reader) take(s *spoken.Size) error {
	if !r.More() {
		return fmt.Errorf("missing: how large the %s is", s.What)
	}
	s.Text = r.LengthText()
	return nil
}

func (r *reader) centre() (err error) {
	text := r.Next()
	if text != "panel" {
		text += " " + r.Next()
	}
	r.product.Centre, err = pattern.ParseCentre(strings.TrimSpace(text))
	return err
}

// holes reads how many holes, how wide and how deep.
func (r *reader) holes() (err error) {
	p := &r.product
	if p.Holes, err = spoken.Count("holes", r.Next(), MaxCopies); err != nil {
		return err
	}
	r.Skip("of", "x")
	both := []spoken.Size{{What: "hole", Into: &p.Hole}, {What: "depth of the holes", Into: &p.HoleDepth}}
	for i := range both {
		if err := r.take(&both[i]); err != nil {
			return err
		}
		r.Skip("deep", "x", "by")
	}
	return r.Together(both)
}

// ParseKnot reads what products keep clear of: how far its middle lies along the panel
// from the datum end, how far across it from edge A, and its radius, parted by blanks
// or commas. Numbers without a unit are in u.
func ParseKnot(text string, u length.Unit) (pattern.Avoid, error) {
	if len(text) > longestLine {
		return pattern.Avoid{}, fmt.Errorf("a knot of %d letters: write it like 210, 96, 8", len(text))
	}
	l := spoken.Line{Text: text, Unit: u}
	var a pattern.Avoid
	all := []spoken.Size{{What: "distance along the panel", Into: &a.Along}, {What: "distance across it", Into: &a.Across}, {What: "radius", Into: &a.Radius}}
	read := "" // the number before, where it could have been two
	for i := range all {
		if !l.More() {
			return pattern.Avoid{}, fmt.Errorf("missing: the %s%s; write it like 210, 96, 8", all[i].What, read)
		}
		from := l.At
		all[i].Text = l.LengthText()
		if read = ""; strings.Contains(text[from:l.At], ",") {
			read = fmt.Sprintf(", since %q was read as one number", text[from:l.At])
		}
	}
	if err := l.Together(all); err != nil {
		return pattern.Avoid{}, err
	}
	if l.More() {
		return pattern.Avoid{}, fmt.Errorf("%q: a knot is along, across and radius", l.Next())
	}
	return a, nil
}

// Text returns a product in a few words, lengths in u: round 290 mm, bevel 8 mm (under).
// How many are wanted is not said, and nothing is of a product without a shape.
func Text(p pattern.Product, u length.Unit) string {
	if _, err := ShapeNamed(string(p.Shape)); err != nil {
		return ""
	}
	text := tell.Phrases{string(p.Shape) + " " + SizeText(ShapeOf(p).Sizes(), func(l length.Length) string { return l.With(u) })}
	text.If(p.Holes > 0, fmt.Sprintf("%s of %s, %s deep", tell.Count(p.Holes, "hole"), p.Hole.With(u), p.HoleDepth.With(u)))
	text.If(p.Bevel > 0, fmt.Sprintf("bevel %s (%v)", p.Bevel.With(u), p.BevelSide))
	text.If(p.Centre != (pattern.Centre{}), "centred on "+p.Centre.Words())
	return strings.Join(text, ", ")
}

// Line returns p as it is typed, numbers without a unit in u; ParseLine reads it back to
// the same.
func Line(p pattern.Product, u length.Unit) string {
	both := length.TypedTogether(u, p.Hole, p.HoleDepth)
	words := tell.Phrases{string(p.Shape), strings.Join(typed(ShapeOf(p).Sizes(), u), " x ")}
	words.If(p.Count == 0, "fill")
	words.If(p.Count != 0, fmt.Sprintf("x%d", p.Count))
	words.If(p.Holes > 0, fmt.Sprintf("holes %d of %s deep %s", p.Holes, both[0], both[1]))
	words.If(p.Bevel > 0, "bevel "+p.Bevel.Typed(u)+" "+p.BevelSide.String())
	words.If(p.Centre != (pattern.Centre{}), "centre "+p.Centre.String())
	return strings.Join(words, " ")
}

// typed returns lengths as they are typed behind one another.
func typed(all []length.Length, u length.Unit) []string {
	if len(all) == 1 {
		return []string{all[0].Typed(u)}
	}
	return length.TypedTogether(u, all...)
}

// KnotLine returns a as it is typed: along, across, radius, in u where no unit stands.
func KnotLine(a pattern.Avoid, u length.Unit) string {
	return strings.Join(length.TypedTogether(u, a.Along, a.Across, a.Radius), ", ")
}
