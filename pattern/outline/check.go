package outline

import (
	"errors"
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// The bounds of products and settings.
const (
	MinSize   = 1 * length.Millimetre // of a product, along and across
	MaxCopies = 10_000                // of one product
	MaxCut    = 1 * length.Metre      // of a margin, gap or cutter
)

// Check refuses products, circles to avoid and settings that p cannot be laid with.
// It joins everything that is wrong.
func Check(p pattern.Pattern, products []Product, avoids []Avoid, cut Cut) error {
	var errs []error
	for i, product := range products {
		if err := product.check(len(p.Strips)); err != nil {
			errs = append(errs, fmt.Errorf("product %d: %w", i+1, err))
		}
		if product.Count == 0 && i < len(products)-1 {
			errs = append(errs, fmt.Errorf("product %d: count 0: must be 1 or more, only the last product may fill the rows", i+1))
		}
	}
	for i, a := range avoids {
		if a.Radius < 0 || a.Radius > MaxCut {
			errs = append(errs, fmt.Errorf("avoid %d: radius %v: must be 0 to %v", i+1, a.Radius, MaxCut))
		}
		if !within(a.Along, 0, pattern.MaxLength+pattern.MaxStart) || !within(a.Across, 0, pattern.MaxLength) {
			errs = append(errs, fmt.Errorf("avoid %d: %v along, %v across: must lie on the panel", i+1, a.Along, a.Across))
		}
	}
	return errors.Join(append(errs, cut.check())...)
}

func within(l, least, most length.Length) bool { return l >= least && l <= most }

func (p Product) check(strips int) error {
	switch {
	case p.Shape < Round || p.Shape > Block:
		return fmt.Errorf("%v: must be round, rectangle or block", p.Shape)
	case !within(p.Across(), MinSize, pattern.MaxAcross):
		return fmt.Errorf("%v across: must be %v to %v", p.Across(), MinSize, length.Length(pattern.MaxAcross))
	case !within(p.Along(), MinSize, pattern.MaxLength):
		return fmt.Errorf("length %v: must be %v to %v", p.Along(), MinSize, length.Length(pattern.MaxLength))
	case p.Count < 0 || p.Count > MaxCopies:
		return fmt.Errorf("count %d: must be 0 to %d", p.Count, MaxCopies)
	case p.Centre.Strip < 0 || p.Centre.Joint < 0 || p.Centre.Strip > 0 && p.Centre.Joint > 0:
		return errors.New("centre: must be panel, one strip or one joint")
	case p.Centre.Strip > strips:
		return fmt.Errorf("centre %v: must be a strip of the %d there are", p.Centre, strips)
	case p.Centre.Joint > 0 && p.Centre.Joint >= strips:
		return fmt.Errorf("centre %v: must be a joint of the %d there are", p.Centre, max(0, strips-1))
	case p.Bevel < 0 || 2*p.Bevel >= min(p.Along(), p.Across()):
		return fmt.Errorf("bevel %v: must be 0 to less than half of %v", p.Bevel, min(p.Along(), p.Across()))
	case p.BevelSide < Under || p.BevelSide > Both:
		return fmt.Errorf("%v: must be under, top or both", p.BevelSide)
	}
	return p.checkHoles()
}

func (p Product) checkHoles() error {
	switch {
	case p.Shape != Block && (p.Hole != 0 || p.Holes != 0 || p.HoleDepth != 0):
		return fmt.Errorf("holes in a %v: only a block has them", p.Shape)
	case p.Shape != Block:
		return nil
	case p.Hole < 0 || p.HoleDepth < 0 || p.Holes < 0 || p.Holes > MaxCopies:
		return errors.New("holes: number, diameter and depth must be 0 or more")
	case p.Hole > p.Width || length.Length(p.Holes)*p.Hole > p.Length:
		return fmt.Errorf("%d holes of %v: must lie within %v x %v", p.Holes, p.Hole, p.Length, p.Width)
	default:
		return nil
	}
}

func (c Cut) check() error {
	for _, l := range []struct {
		name string
		is   length.Length
	}{
		{"end margin", c.EndMargin}, {"side margin", c.SideMargin}, {"gap", c.Gap},
		{"cutter", c.Cutter}, {"bush", c.Bush}, {"pass", c.Pass}, {"base", c.Base},
	} {
		if !within(l.is, 0, MaxCut) {
			return fmt.Errorf("%s %v: must be 0 to %v", l.name, l.is, MaxCut)
		}
	}
	return nil
}
