package outline

import (
	"errors"
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// The bounds of products and settings.
const (
	MaxCopies = pattern.MaxCopies // of one product
	// MaxPlaced is how many copies are placed on one panel, of all products together.
	// Each is drawn, marked out and reckoned with by itself; more than a maker ever cuts
	// from a panel would take more memory than there is.
	MaxPlaced = 2000
	MaxHoles  = MaxCopies        // likewise, of the holes in all blocks on one panel
	MaxCut    = 1 * length.Metre // of a margin, gap or cutter
)

// Check refuses products, circles to avoid and settings that p cannot be laid with.
// It joins everything that is wrong.
func Check(p pattern.Pattern, products []pattern.Product, avoids []pattern.Avoid, cut Cut) error {
	var errs []error
	for i, product := range products {
		for _, m := range Misfits(product) {
			errs = append(errs, fmt.Errorf("product %d: %s: %s", i+1, m.Key, m.Text))
		}
		if err := checkCentre(product.Centre, len(p.Strips)); err != nil {
			errs = append(errs, fmt.Errorf("product %d: %w", i+1, err))
		}
		if product.Count == 0 && i < len(products)-1 {
			errs = append(errs, fmt.Errorf("product %d: count 0: must be 1 or more, only the last product may fill the rows", i+1))
		}
	}
	for i, a := range avoids {
		if a.Radius < 0 || a.Radius > pattern.MaxRadius {
			errs = append(errs, fmt.Errorf("avoid %d: radius %v: must be 0 to %v", i+1, a.Radius, length.Length(pattern.MaxRadius)))
		}
		if !within(a.Along, 0, pattern.MaxLength+pattern.MaxStart) || !within(a.Across, 0, pattern.MaxLength) {
			errs = append(errs, fmt.Errorf("avoid %d: %v along, %v across: must lie on the panel", i+1, a.Along, a.Across))
		}
	}
	return errors.Join(append(errs, cut.check())...)
}

func within(l, least, most length.Length) bool { return l >= least && l <= most }

// checkCentre refuses a strip or joint that is not there.
func checkCentre(c pattern.Centre, strips int) error {
	switch {
	case c.Strip > strips:
		return fmt.Errorf("centre %v: must be a strip of the %d there are", c, strips)
	case c.Joint > 0 && c.Joint >= strips:
		return fmt.Errorf("centre %v: must be a joint of the %d there are", c, max(0, strips-1))
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
