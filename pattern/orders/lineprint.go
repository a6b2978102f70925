package orders

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/tell"
)

// Line returns a want as it is typed, numbers without a unit in u and timbers by the names that
// called gives; ParseLine reads it back to the same.
func (w Want) Line(called func(species string) string, u length.Unit) string {
	p := w.Product
	p.Count = 1
	words := tell.Phrases{strings.Replace(outline.Line(p, u), " x1", "", 1), w.Thickness.Typed(u) + " thick"}
	w.wishes(&words)
	w.closer(&words, called, w.Spare.Typed(u))
	words.If(w.ID != "", "called "+w.ID)
	return strings.Join(words, ", ")
}

// Told returns a want in a few words, lengths in u, timbers by name.
func (w Want) Told(name func(string) string, u length.Unit) string {
	words := tell.Phrases{outline.Text(w.Product, u), w.Thickness.With(u) + " thick"}
	w.wishes(&words)
	w.closer(&words, name, w.Spare.With(u))
	return strings.Join(words, ", ")
}

// Brief returns what is wanted in fewer words: the product by its sizes and how thick it is, without
// its edges, then the wishes, for a row that says above it which unit lengths are in.
func (w Want) Brief(called func(species string) string, u length.Unit) string {
	format := func(l length.Length) string { return l.Format(u) }
	words := tell.Phrases{string(w.Product.Shape) + " " + outline.SizeText(append(w.Shape().Sizes(), w.Thickness), format)}
	words.If(w.Product.Holes > 0, tell.Count(w.Product.Holes, "hole"))
	bare := w
	bare.Least, bare.Most = 0, 0
	bare.wishes(&words)
	w.closer(&words, called, format(w.Spare))
	return strings.Join(words, ", ")
}

// wishes says how many, what one is worth, and what is asked of panels.
func (w Want) wishes(words *tell.Phrases) {
	words.If(w.Least > 0, fmt.Sprintf("at least %d", w.Least))
	words.If(w.Most > 0, fmt.Sprintf("up to %d", w.Most))
	words.If(w.Worth > 0, plain(w.Worth)+" each")
	words.If(w.Look != look.Any, w.Look.String())
	words.If(w.Level != suggest.DefaultLevel, w.Level.String())
	words.If(w.Along != DefaultAlong(), w.Along.String()+" along")
	words.If(w.Timbers != Range{}, w.Timbers.String()+" timbers")
}

// closer says the wishes that few makers have.
func (w Want) closer(words *tell.Phrases, name func(string) string, spare string) {
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
		words.If(true, fmt.Sprintf("at most %s %% %s", plain(s.Pct), name(s.Species)))
	}
	words.If(w.LeastContrast != suggest.DefaultLeastContrast, "contrast "+plain(w.LeastContrast))
	words.If(w.Spare != DefaultSpare, "spare "+spare)
	words.If(!w.Joints, "no joints")
}

func plain(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// FreeID returns an id for a want that no other of them has: its shape, with a number where
// that is taken.
func FreeID(w Want, others []Want) string {
	id := string(w.Product.Shape)
	for n := 2; slices.ContainsFunc(others, func(o Want) bool { return o.ID == id }); n++ {
		id = fmt.Sprintf("%s-%d", w.Product.Shape, n)
	}
	return id
}
