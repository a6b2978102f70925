package outline

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Text returns a product in a few words, lengths in u: round 290 mm, bevel 8 mm (under).
// How many are wanted is not said, and nothing is of a product without a shape.
func Text(p pattern.Product, u length.Unit) string {
	if _, err := ShapeNamed(string(p.Shape)); err != nil {
		return ""
	}
	text := string(p.Shape) + " " + SizeText(ShapeOf(p).Sizes(), func(l length.Length) string { return l.With(u) })
	if p.Holes > 0 {
		holes := "holes"
		if p.Holes == 1 {
			holes = "hole"
		}
		text += fmt.Sprintf(", %d %s of %s, %s deep", p.Holes, holes, p.Hole.With(u), p.HoleDepth.With(u))
	}
	if p.Bevel > 0 {
		text += fmt.Sprintf(", bevel %s (%v)", p.Bevel.With(u), p.BevelSide)
	}
	if p.Centre != (pattern.Centre{}) {
		text += ", centred on " + p.Centre.Words()
	}
	return text
}

// Line returns p as it is typed, numbers without a unit in u; ParseLine reads it back to
// the same.
func Line(p pattern.Product, u length.Unit) string {
	words := []string{string(p.Shape), strings.Join(typed(ShapeOf(p).Sizes(), u), " x ")}
	if p.Count == 0 {
		words = append(words, "fill")
	} else {
		words = append(words, fmt.Sprintf("x%d", p.Count))
	}
	if p.Holes > 0 {
		both := length.TypedTogether(u, p.Hole, p.HoleDepth)
		words = append(words, fmt.Sprintf("holes %d of %s deep %s", p.Holes, both[0], both[1]))
	}
	if p.Bevel > 0 {
		words = append(words, "bevel "+p.Bevel.Typed(u), p.BevelSide.String())
	}
	if p.Centre != (pattern.Centre{}) {
		words = append(words, "centre "+p.Centre.String())
	}
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
