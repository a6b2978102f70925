package orders

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/spoken"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/tell"
)

// longestLine bounds what is read of a typed line.
const longestLine = 1000

// ParseLine reads a want as it is spoken: a product, as outline.ParseLine reads it, with how
// thick it is finished, then how many, what one is worth and what its panel should look like, in
// any order. Numbers without a unit are in u. What a line cannot say stays as it is in of.
//
//	round 290 x 25 thick, up to 6, 38 each, mirror
//	rectangle 300 x 180 bevel 3 both, 18 thick, at least 1, 3..5 timbers, called tray
func ParseLine(text string, of Want, u length.Unit) (Want, error) {
	if len(text) > longestLine {
		return Want{}, fmt.Errorf("a want of %d letters: write it like round 290 x 25 thick, up to 6", len(text))
	}
	bare := New()
	of.Thickness, of.Least, of.Most, of.Worth = 0, 0, 0, 0
	of.Along, of.Timbers, of.Look, of.Level = bare.Along, bare.Timbers, look.Any, bare.Level
	r := reader{Line: spoken.Line{Text: text, Unit: u, Times: true}, want: of}
	for r.More() {
		if err := r.next(); err != nil {
			return Want{}, err
		}
	}
	return r.finish()
}

// A reader goes through a typed want.
type reader struct {
	spoken.Line
	want    Want
	product []string // what is said of the product
}

// finish reads the product, and says what is missing or cannot be.
func (r *reader) finish() (Want, error) {
	w := r.want
	p, err := outline.ParseLine(strings.Join(r.product, " "), r.Unit)
	if err != nil {
		return Want{}, err
	}
	if p.Count > 1 && w.Most == 0 {
		w.Most = p.Count
	}
	p.Count, p.Centre = 1, pattern.Centre{}
	if w.Product = p; w.Thickness == 0 {
		return Want{}, fmt.Errorf("missing: how thick it is when finished; write it like 25 thick")
	}
	for _, wrong := range w.Wrongs() {
		return Want{}, fmt.Errorf("%s %s: %s", strings.ReplaceAll(wrong.Key, "_", " "), wrong.Text, wrong.Hint)
	}
	return w, nil
}

// next reads one thing that is said.
func (r *reader) next() (err error) {
	from := r.At
	if r.SkipTimes() || r.AtNumber() {
		text := r.LengthText()
		after := r.At
		if said, err := r.number(text, r.Next()); said {
			return err
		}
		r.At = after
		r.product = append(r.product, r.Text[from:after])
		return nil
	}
	w := &r.want
	switch word := r.Next(); word {
	case "up":
		r.Skip("to")
		w.Most, err = spoken.Count("up to", r.Next(), MostCopies)
	case "at":
		into := &w.Least
		switch {
		case r.Skip("most"):
			into = &w.Most
		case !r.Skip("least"):
			return fmt.Errorf("%q: write at least 2 or at most 6", word)
		}
		*into, err = spoken.Count("how many", r.Next(), MostCopies)
	case "called":
		if r.More() {
			w.ID = r.Word()
		}
	case "look", "level":
	case "fine":
		w.Level = pattern.Fine
	case "take":
		r.Skip("care")
		w.Level = pattern.TakeCare
	case "too":
		r.Skip("much")
		w.Level = pattern.TooMuch
	default:
		if l, err := look.Parse(word); err == nil {
			w.Look = l
			return nil
		}
		r.product = append(r.product, r.Text[from:r.At])
	}
	return err
}

// number reads a number by the word behind it, and reports whether that is one of a want's.
func (r *reader) number(text, word string) (said bool, err error) {
	w := &r.want
	switch word {
	case "thick":
		if n := len(r.product); n > 0 && r.product[n-1] == "by" {
			r.product = r.product[:n-1]
		}
		w.Thickness, err = length.ParseIn(text, r.Unit)
		if err == nil && (w.Thickness <= 0 || w.Thickness > pattern.MaxAcross) {
			err = fmt.Errorf("%q: must be more than 0 and at most %s", text, length.Length(pattern.MaxAcross).With(r.Unit))
		}
	case "each":
		w.Worth, err = spoken.Decimal(text)
		if err != nil || w.Worth <= 0 || w.Worth > MostWorth {
			err = fmt.Errorf("%q: what one is worth must be a plain number above 0", text)
		}
	case "along":
		w.Along, err = ParseRange(text, MostAlong)
	case "timber", "timbers":
		w.Timbers, err = ParseRange(text, MostTimbers)
	default:
		return false, nil
	}
	return true, err
}

// Line returns a want as it is typed, numbers without a unit in u; with the same want ParseLine
// reads it back to the same.
func (w Want) Line(u length.Unit) string {
	p := w.Product
	p.Count = 1
	words := tell.Phrases{strings.Replace(outline.Line(p, u), " x1", "", 1), w.Thickness.Typed(u) + " thick"}
	w.wishes(&words)
	words.If(w.ID != "", "called "+w.ID)
	return strings.Join(words, ", ")
}

// Told returns a want in a few words, lengths in u, timbers by name.
func (w Want) Told(name func(string) string, u length.Unit) string {
	words := tell.Phrases{outline.Text(w.Product, u), w.Thickness.With(u) + " thick"}
	w.wishes(&words)
	named := func(keys []string) string {
		names := make([]string, len(keys))
		for i, key := range keys {
			names[i] = name(key)
		}
		return tell.List(names, "and")
	}
	words.If(len(w.With) > 0, "with "+named(w.With))
	words.If(len(w.Without) > 0, "without "+named(w.Without))
	for _, s := range w.AtMost {
		words.If(true, fmt.Sprintf("at most %s %% %s", strconv.FormatFloat(s.Pct, 'f', -1, 64), name(s.Species)))
	}
	words.If(w.LeastContrast != suggest.DefaultLeastContrast, "contrast at least "+strconv.FormatFloat(w.LeastContrast, 'f', -1, 64))
	words.If(!w.Joints, "strips in one piece")
	return strings.Join(words, ", ")
}

// Brief returns what is wanted in fewer words: the product without its edges, how thick it is, and
// the wishes, for a row that says above it which unit lengths are in.
func (w Want) Brief(u length.Unit) string {
	p := w.Product
	p.Bevel = 0
	words := tell.Phrases{outline.Text(p, u), w.Thickness.Format(u) + " thick"}
	w.Least, w.Most = 0, 0
	w.wishes(&words)
	return strings.Join(words, ", ")
}

// wishes says how many, what one is worth, and what is asked of panels.
func (w Want) wishes(words *tell.Phrases) {
	words.If(w.Least > 0, fmt.Sprintf("at least %d", w.Least))
	words.If(w.Most > 0, fmt.Sprintf("up to %d", w.Most))
	words.If(w.Worth > 0, strconv.FormatFloat(w.Worth, 'f', -1, 64)+" each")
	words.If(w.Look != look.Any, w.Look.String())
	words.If(w.Level != suggest.DefaultLevel, w.Level.String())
	words.If(w.Along != DefaultAlong(), w.Along.String()+" along")
	words.If(w.Timbers != Range{}, w.Timbers.String()+" timbers")
}

// FreeID returns an id for a want that no other of them has: its shape, with a number where
// that is taken.
func FreeID(w Want, others []Want) string {
	id := string(w.Product.Shape)
	for n := 2; slices.ContainsFunc(others, func(o Want) bool { return o.ID == id }); n++ {
		id = fmt.Sprintf("%s-%d", w.Product.Shape, n)
	}
	return id
}
