package outline

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

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
