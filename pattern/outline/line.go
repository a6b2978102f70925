package outline

import (
	"fmt"
	"strings"
	"unicode/utf8"

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
//	300x200, 4 circles of 90, square 250 x 2
//	block 400 95 holes 3 of 40 deep 18 for candles bevel 3 top
//
// Sizes are those that the shape takes: the diameter of a round, else the length along
// the grain and the width; x or by may stand between, and a unit behind the last alone
// holds for both. Two sizes without a shape are a rectangle, with holes a block. x4 or
// count 4 is how many, fill as many as the rows hold; where neither stands it is one.
// The error says what is wrong, or what is still wanted.
func ParseLine(text string, u length.Unit) (pattern.Product, error) {
	if len(text) > longestLine {
		return pattern.Product{}, fmt.Errorf("a product of %d letters: write it like round 290 x2", len(text))
	}
	r := reader{Line: spoken.Line{Text: text, Unit: u, Times: true}, product: pattern.Product{Count: 1}}
	for r.More() {
		if err := r.next(); err != nil {
			return pattern.Product{}, err
		}
	}
	if err := r.finish(); err != nil {
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
	shape   Shape    // without a size; nil: not said yet
	square  bool     // a rectangle that is given by one size
	sizes   []string // as they are typed
}

// takes returns how many sizes are to be typed. What has no shape yet may come to have two.
func (r *reader) takes() int {
	switch {
	case r.shape == nil:
		return 2
	case r.square:
		return 1
	default:
		return len(r.shape.Takes())
	}
}

// between reports whether a size was read and another is to follow.
func (r *reader) between() bool { return len(r.sizes) > 0 && len(r.sizes) < r.takes() }

// finish gives the product its shape and its sizes, or says what is still wanted.
func (r *reader) finish() error {
	if r.shape == nil && len(r.sizes) == 2 {
		r.shape = rectangle{}
		if r.product.Holes > 0 {
			r.shape = block{}
		}
	}
	switch {
	case r.shape == nil && len(r.sizes) == 0:
		return fmt.Errorf("missing: %s; write it like round 290 x2", ShapeWords(nil))
	case r.shape == nil:
		return sayShape(r.sizes[0])
	case len(r.sizes) < r.takes():
		return fmt.Errorf("missing: %s", r.shape.Takes()[len(r.sizes)].Wanted)
	case len(r.sizes) > r.takes():
		return fmt.Errorf("%q: %s takes %s", r.sizes[r.takes()], r.called(), tell.Count(r.takes(), "size"))
	}
	r.product.Shape = r.shape.Name()
	var into []spoken.Size
	for i, text := range r.sizes {
		t := r.shape.Takes()[i]
		into = append(into, spoken.Size{What: t.Key, Into: t.In(&r.product), Text: text})
	}
	err := r.Together(into)
	if r.square {
		r.product.Width = r.product.Length
	}
	return err
}

// called returns what was said that the product is.
func (r *reader) called() string {
	if r.square {
		return "a square"
	}
	return tell.A(string(r.shape.Name()))
}

func sayShape(word string) error {
	return fmt.Errorf("%q: name the shape first, %s", word, ShapeWords(tell.A))
}

// next reads one thing that is said.
func (r *reader) next() (err error) {
	p := &r.product
	from := r.At
	w := r.Next()
	if s, ok := shapeTyped(w); ok {
		return r.named(s, w)
	}
	switch w {
	case "a", "an", "of", "with", "and":
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
		err = r.holes(r.Next())
	case "for":
		err = r.purpose()
	case "by":
		if !r.between() {
			err = fmt.Errorf("%q: belongs only between length and width", w)
		}
	default:
		if first, wide := utf8.DecodeRuneInString(w); spoken.IsTimes(first) && (len(w) == wide || spoken.Digits(w[wide:wide+1])) {
			return r.times(from, from+wide)
		}
		r.At = from
		err = r.size(w)
	}
	return err
}

// named takes the shape that a word stands for. One number before several of them is how
// many: 4 rounds.
func (r *reader) named(s Shape, word string) error {
	if r.shape != nil {
		return fmt.Errorf("%s: it is %s already", s.Name(), r.called())
	}
	r.shape, r.square = s, strings.TrimSuffix(word, "s") == "square"
	if strings.HasSuffix(word, "s") && len(r.sizes) == 1 && spoken.Digits(r.sizes[0]) {
		var err error
		r.product.Count, err = spoken.Count("count", r.sizes[0], MaxCopies)
		r.sizes = nil
		return err
	}
	return nil
}

// leastBesideX is the least width that a whole number behind an x is taken for where it
// may be a number of copies too.
const leastBesideX = 20 * length.Millimetre

// times reads what stands behind an x: the other size, or how many. The x begins at from
// and ends at after.
func (r *reader) times(from, after int) error {
	r.At = after
	r.Spaces()
	apart, joined := r.At > after, from > 0 && spoken.Digits(r.Text[from-1:from])
	text := r.LengthText()
	whole := spoken.Digits(text)
	l, _ := length.ParseIn(text, r.Unit)
	copies := whole && l < leastBesideX && (r.shape == nil || !apart && !joined)
	switch {
	case apart && len(r.sizes) == 0:
		return fmt.Errorf("%q: belongs only between length and width", "x")
	case r.between() && !copies:
		return r.sized(text)
	case r.square && len(r.sizes) == 1 && text == r.sizes[0]:
		return nil
	}
	var err error
	r.product.Count, err = spoken.Count("count", text, MaxCopies)
	return err
}

// size reads the next size, or how many holes.
func (r *reader) size(w string) error {
	number := r.AtNumber()
	text := r.LengthText()
	switch {
	case len(r.sizes) >= r.takes() && spoken.Digits(text) && r.Skip("hole", "holes"):
		return r.holes(text)
	case r.shape == nil && !number:
		return sayShape(w)
	case r.square && len(r.sizes) == 1 && text == r.sizes[0]:
		return nil
	case len(r.sizes) >= r.takes():
		return &UnknownWord{w}
	}
	return r.sized(text)
}

// An UnknownWord is a word of a typed product that is none of a product's.
type UnknownWord struct{ Word string }

// Error returns the word, and what would be right.
func (e *UnknownWord) Error() string {
	return fmt.Sprintf("%q: not a word I know. Use: x2, bevel 8 top, centre strip 6, holes 3 of 40 deep 18", e.Word)
}

// sized takes a size, which has to be a length beside those before it.
func (r *reader) sized(text string) error {
	r.sizes = append(r.sizes, text)
	read := make([]spoken.Size, len(r.sizes))
	for i, size := range r.sizes {
		read[i] = spoken.Size{What: "size", Into: new(length.Length), Text: size}
	}
	return r.Together(read)
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

// holes reads how wide and how deep a number of holes are.
func (r *reader) holes(many string) (err error) {
	p := &r.product
	if p.Holes, err = spoken.Count("holes", many, MaxCopies); err != nil {
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

// purpose reads what the holes are for.
func (r *reader) purpose() error {
	r.Skip("a")
	w := r.Next()
	if w == "tea" {
		w += r.Next()
	}
	switch strings.TrimSuffix(strings.ReplaceAll(w, "-", ""), "s") {
	case "candle", "tealight":
		r.product.For = pattern.ForCandles
		return nil
	default:
		return fmt.Errorf("for %q: write for candles or for tea lights; holes for anything else need no word", w)
	}
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
	text.If(p.For != pattern.AnyPurpose, "for "+p.For.String())
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
	words.If(p.For != pattern.AnyPurpose, "for "+p.For.String())
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
