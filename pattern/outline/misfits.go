package outline

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// A Misfit is one value of a product that does not go with the others.
type Misfit struct {
	Key  string // of the value, as the file calls it
	Text string // what is wrong, and what would be right
}

type misfits []Misfit

// refuse adds what is wrong with a value, where that is bad.
func (all *misfits) refuse(bad bool, key, format string, args ...any) {
	if bad {
		*all = append(*all, Misfit{key, fmt.Sprintf(format, args...)})
	}
}

// Misfits lists what in p cannot be, whatever panel it is cut from. A product without any
// can be saved.
func Misfits(p pattern.Product) []Misfit {
	shape, err := ShapeNamed(string(p.Shape))
	if err != nil {
		return []Misfit{{"shape", noShape(string(p.Shape))}}
	}
	shape = shape.Of(p)
	out := sizeMisfits(p, shape)
	along, across := shape.Size()
	out.refuse(p.Count < 0 || p.Count > MaxCopies, "count", "%d: must be 0 to %d", p.Count, MaxCopies)
	out.refuse(p.Centre.Strip < 0 || p.Centre.Joint < 0 || p.Centre.Strip > 0 && p.Centre.Joint > 0, "centre",
		"must be panel, one strip or one joint")
	sized := along >= pattern.MinProduct && across >= pattern.MinProduct
	out.refuse(p.Bevel < 0 || sized && 2*p.Bevel >= min(along, across), "bevel",
		"%v: must be 0 to less than half of %v", p.Bevel, min(along, across))
	out.refuse(p.BevelSide < pattern.BevelUnder || p.BevelSide > pattern.BevelBoth, "bevel_side", "%v: must be under, top or both", p.BevelSide)
	return append(out, holeMisfits(p, shape)...)
}

// sizeMisfits lists the sizes that a shape does not have, and those that are too small
// or too large.
func sizeMisfits(p pattern.Product, shape Shape) (out misfits) {
	taken := map[string]bool{}
	var keys []string
	for _, t := range shape.Takes() {
		taken[t.Key], keys = true, append(keys, t.Key)
	}
	right := strings.Join(keys, " and ")
	if len(keys) == 1 {
		right += " alone"
	}
	for _, t := range []Taken{diameter(), lengthwise(), widthwise()} {
		out.refuse(!taken[t.Key] && *t.In(&p) != 0, t.Key, "%s has none: must be its %s", tell.A(string(p.Shape)), right)
	}
	for _, t := range shape.Takes() {
		is := *t.In(&p)
		out.refuse(is < pattern.MinProduct || is > t.Most, t.Key, "%v %s: must be %v to %v", is, t.Way, length.Length(pattern.MinProduct), t.Most)
	}
	return out
}

func holeMisfits(p pattern.Product, shape Shape) (out misfits) {
	drilled := p.Hole != 0 || p.Holes != 0 || p.HoleDepth != 0
	for _, given := range []struct {
		key string
		is  bool
	}{{"hole", p.Hole != 0}, {"holes", p.Holes != 0}, {"hole_depth", p.HoleDepth != 0}} {
		out.refuse(given.is && !shape.Drilled(), given.key, "%s has no holes: must be %s", tell.A(string(p.Shape)), tell.List(drillable(), "or"))
		out.refuse(!given.is && drilled && shape.Drilled(), given.key, "missing: a row of holes is hole, holes and hole_depth together")
	}
	out.refuse(p.For != pattern.AnyPurpose && p.Holes == 0, "for", "candles need holes, and it has none: must be a block with holes")
	if len(out) > 0 || !drilled {
		return out
	}
	along, across := shape.Size()
	wide := p.Hole < 0 || p.Hole > across
	many := p.Holes < 0 || p.Holes > MaxCopies || length.Length(p.Holes)*p.Hole > along
	deep := p.HoleDepth < 0 || p.HoleDepth > pattern.MaxAcross
	out.refuse(wide, "hole", "%v: must be above 0, up to the width of %v", p.Hole, across)
	out.refuse(!wide && many, "holes", "%d of %v: must fit the length of %v", p.Holes, p.Hole, along)
	out.refuse(!wide && !many && deep, "hole_depth", "%v: must be above 0, up to %v", p.HoleDepth, length.Length(pattern.MaxAcross))
	return out
}

// drillable names the shapes that may have holes, with their articles.
func drillable() []string {
	var out []string
	for _, s := range Shapes() {
		if s.Drilled() {
			out = append(out, tell.A(string(s.Name())))
		}
	}
	return out
}
