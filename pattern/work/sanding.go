package work

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// A Step is one thing to do, with where the advice comes from.
type Step struct {
	Text, Source string
	Rules        []string // of the cautions that belong to it
}

// Grits returns the grits to sand with, one after the other: each at most half as fine
// again as the one before.
func Grits() []int { return []int{120, 180} }

const (
	commonPractice  = "common practice"
	sandingPractice = "common practice; grits at most half as fine again, 180 enough under oil (two woodworking magazines)"
)

// SandingOrder returns the order of sanding p. The rim of a piece with a bevel comes
// first, since after it a flat pad has less edge to stand on. Lengths are in u.
func SandingOrder(p pattern.Product, u length.Unit) []Step {
	grits := Grits()
	first, last := grits[0], grits[len(grits)-1]
	rim := outline.ShapeOf(p).Edge()
	var steps []Step
	add := func(source, format string, args ...any) {
		steps = append(steps, Step{Text: fmt.Sprintf(format, args...), Source: source})
	}
	if p.Bevel > 0 {
		add(commonPractice, "sand the %s at grit %d on a flat pad, before the bevel", rim, first)
		add(commonPractice, "cut the 45 degree bevel, %s deep, %s; hold the product", p.Bevel.With(u), bevelled(p.BevelSide))
		steps[len(steps)-1].Rules = []string{RuleEdgeLeft}
	}
	for _, grit := range grits {
		add(sandingPractice, "sand all faces at grit %d, then vacuum the dust off", grit)
	}
	add(commonPractice, "damp it, let it dry; no mains sander on a damp board")
	add(commonPractice, "sand lightly at grit %d again", last)
	return steps
}

// bevelled says where a bevel lies.
func bevelled(side pattern.BevelSide) string {
	switch side {
	case pattern.BevelTop:
		return "on the upper edge"
	case pattern.BevelBoth:
		return "on both edges"
	default:
		return "on the lower edge"
	}
}
