package outline

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// longestLine bounds what is read of a typed line.
const longestLine = 1000

// ParseLine reads a product as it is spoken: its shape, its size, then what else
// there is to say in any order, parted by blanks or by a comma with a blank. Numbers
// without a unit are in u; 11-1/2 is 11 and a half.
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
	r := newReader(text, u)
	for len(r.words) > 0 {
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

// A reader goes through the words of a typed product.
type reader struct {
	words   []string // that are still to be read
	unit    length.Unit
	product pattern.Product
	shape   Shape    // without a size; nil: not said yet
	sizes   []sizeOf // that were read
}

func newReader(text string, u length.Unit) *reader {
	r := &reader{unit: u, product: pattern.Product{Count: 1}}
	for w := range strings.FieldsSeq(text) {
		if w = strings.TrimRight(w, ",;"); w != "" {
			r.words = append(r.words, w)
		}
	}
	return r
}

// wanting says what a product needs and was not given.
func (r *reader) wanting() error {
	if r.shape == nil {
		return fmt.Errorf("still wanted: %s; write it like round 290 x2", ShapeWords(nil))
	}
	if t, ok := r.taken(); ok {
		return fmt.Errorf("still wanted: %s", t.Wanted)
	}
	return nil
}

// taken gives the next size that the shape takes, if it is said and takes one more.
func (r *reader) taken() (Taken, bool) {
	if r.shape == nil || len(r.sizes) == len(r.shape.Takes()) {
		return Taken{}, false
	}
	return r.shape.Takes()[len(r.sizes)], true
}

// word takes the next word, in lower case; nothing where there is none.
func (r *reader) word() string {
	if len(r.words) == 0 {
		return ""
	}
	w := strings.ToLower(r.words[0])
	r.words = r.words[1:]
	return w
}

// skip takes the next word where it is one of those.
func (r *reader) skip(words ...string) {
	for _, w := range words {
		if len(r.words) > 0 && strings.EqualFold(r.words[0], w) {
			r.words = r.words[1:]
			return
		}
	}
}

// next reads one thing that is said.
func (r *reader) next() (err error) {
	p := &r.product
	w := r.word()
	if s, ok := shapeTyped(w); ok {
		return r.named(s)
	}
	switch w {
	case "fill":
		p.Count = 0
	case "count":
		p.Count, err = r.number("count", r.word())
	case "bevel":
		p.Bevel, err = r.length("bevel")
	case "under", "top", "both":
		p.BevelSide, err = pattern.ParseBevelSide(w)
	case "centre", "center", "centred", "centered":
		r.skip("on")
		err = r.centre()
	case "hole", "holes":
		err = r.holes()
	case "x", "by":
		if _, ok := r.taken(); !ok || len(r.sizes) == 0 {
			err = fmt.Errorf("%q: stands between length and width only", w)
		}
	default:
		if count, ok := strings.CutPrefix(w, "x"); ok && digits(count) {
			p.Count, err = r.number("count", count)
			return err
		}
		r.words = append([]string{w}, r.words...)
		err = r.size()
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
func (r *reader) size() error {
	taken, ok := r.taken()
	switch {
	case r.shape == nil:
		return fmt.Errorf("%q: say first whether it is %s", r.words[0], ShapeWords(A))
	case !ok:
		return fmt.Errorf("%q: what is it? x2, bevel 8 top, centre strip 6 or holes 3 of 40 deep 18", r.words[0])
	}
	next := sizeOf{what: taken.Key, into: taken.In(&r.product)}
	next.text, r.words = length.TakeText(r.words)
	r.sizes = append(r.sizes, next)
	return r.together(r.sizes)
}

// length reads a length, whose unit or fraction may be a word of its own.
func (r *reader) length(what string) (l length.Length, err error) {
	s := sizeOf{what: what, into: &l}
	if s.text, err = r.lengthText(what); err != nil {
		return 0, err
	}
	return l, r.together([]sizeOf{s})
}

// lengthText takes what should be a length.
func (r *reader) lengthText(what string) (text string, err error) {
	if len(r.words) == 0 {
		return "", fmt.Errorf("still wanted: how large the %s is", what)
	}
	text, r.words = length.TakeText(r.words)
	return text, nil
}

func (r *reader) centre() (err error) {
	text := r.word()
	if text != "panel" {
		text += " " + r.word()
	}
	r.product.Centre, err = pattern.ParseCentre(strings.TrimSpace(text))
	return err
}

// together reads lengths of which one unit behind the last may hold for all.
func (r *reader) together(of []sizeOf) error {
	texts := make([]string, len(of))
	for i, s := range of {
		texts[i] = s.text
	}
	meant, err := length.Together(texts, r.unit)
	if err != nil {
		return err
	}
	for i, s := range of {
		if *s.into, err = length.ParseIn(meant[i], r.unit); err != nil {
			return fmt.Errorf("%s: %w", s.what, err)
		}
	}
	return nil
}

// A sizeOf is a length that is typed: what it is called, where it goes, and its text.
type sizeOf struct {
	what string
	into *length.Length
	text string
}

// holes reads how many holes, how wide and how deep.
func (r *reader) holes() (err error) {
	p := &r.product
	if p.Holes, err = r.number("holes", r.word()); err != nil {
		return err
	}
	r.skip("of", "x")
	both := []sizeOf{{what: "hole", into: &p.Hole}, {what: "depth of the holes", into: &p.HoleDepth}}
	for i := range both {
		if both[i].text, err = r.lengthText(both[i].what); err != nil {
			return err
		}
		r.skip("deep", "x", "by")
	}
	return r.together(both)
}

func (r *reader) number(what, text string) (int, error) {
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 || n > MaxCopies {
		return 0, fmt.Errorf("%s %q: must be a whole number from 1 to %d", what, text, MaxCopies)
	}
	return n, nil
}

func digits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// ParseKnot reads what products keep clear of: how far its middle lies along the panel
// from the datum end, how far across it from edge A, and its radius, parted by blanks
// or by a comma with a blank. Numbers without a unit are in u.
func ParseKnot(text string, u length.Unit) (pattern.Avoid, error) {
	if len(text) > longestLine {
		return pattern.Avoid{}, fmt.Errorf("a knot of %d letters: write it like 210, 96, 8", len(text))
	}
	r := newReader(text, u)
	var a pattern.Avoid
	all := []sizeOf{{what: "distance along the panel", into: &a.Along}, {what: "distance across it", into: &a.Across}, {what: "radius", into: &a.Radius}}
	for i := range all {
		if len(r.words) == 0 {
			return pattern.Avoid{}, fmt.Errorf("still wanted: the %s; write it like 210, 96, 8", all[i].what)
		}
		all[i].text, r.words = length.TakeText(r.words)
	}
	if err := r.together(all); err != nil {
		return pattern.Avoid{}, err
	}
	if len(r.words) > 0 {
		return pattern.Avoid{}, fmt.Errorf("%q: a knot is along, across and radius", r.words[0])
	}
	return a, nil
}
