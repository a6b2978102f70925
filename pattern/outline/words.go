package outline

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Text gives a product in a few words, lengths in u: round 290 mm, bevel 8 mm (under).
// How many are wanted is not said.
func Text(p pattern.Product, u length.Unit) string {
	text := fmt.Sprintf("%v %s", p.Shape, p.Diameter.With(u))
	if p.Shape != Round {
		text = fmt.Sprintf("%v %s x %s", p.Shape, p.Length.With(u), p.Width.With(u))
	}
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

// Line gives p as it is typed, numbers without a unit in u; ParseLine reads it back to
// the same.
func Line(p pattern.Product, u length.Unit) string {
	words := []string{p.Shape.String()}
	if p.Shape == Round {
		words = append(words, p.Diameter.Typed(u))
	} else {
		words = append(words, strings.Join(length.TypedTogether(u, p.Length, p.Width), " x "))
	}
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

// KnotLine gives a as it is typed: along, across, radius, in u where no unit stands.
func KnotLine(a pattern.Avoid, u length.Unit) string {
	return strings.Join(length.TypedTogether(u, a.Along, a.Across, a.Radius), ", ")
}
