package outline

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// The bounds of products and settings.
const (
	MaxCopies = pattern.MaxCopies // of one product
	// MaxPlaced is how many copies are placed on one panel, of all products together.
	// Each is drawn, marked out and computed with by itself; more than a maker ever cuts
	// from a panel would take more memory than there is.
	MaxPlaced = 2000
	MaxHoles  = MaxCopies        // likewise, of the holes in all blocks on one panel
	MaxCut    = 1 * length.Metre // of a margin, gap or cutter
)

// A Wrong is one thing that cannot be laid.
type Wrong struct {
	Of   string // what is wrong: product 2, avoid 1, gap 3 m
	Text string // how, and what would be right
}

// Wrongs are an error: all that is wrong, a line each.
type Wrongs []Wrong

// Error returns the lines.
func (w Wrongs) Error() string {
	lines := make([]string, len(w))
	for i, one := range w {
		lines[i] = one.Of + ": " + one.Text
	}
	return strings.Join(lines, "\n")
}

// Check refuses products, circles to avoid and settings that p cannot be laid with: the
// error is Wrongs, everything that is wrong.
func Check(p pattern.Pattern, products []pattern.Product, avoids []pattern.Avoid, cut Cut) error {
	var all Wrongs
	wrong := func(is bool, of, format string, args ...any) {
		if is {
			all = append(all, Wrong{of, fmt.Sprintf(format, args...)})
		}
	}
	for i, product := range products {
		of, c, strips := fmt.Sprintf("product %d", i+1), product.Centre, len(p.Strips)
		for _, m := range Misfits(product) {
			all = append(all, Wrong{of, m.Key + ": " + m.Text})
		}
		board := len(p.Seconds) > 0
		wrong(board && c != (pattern.Centre{}), of, "centre %v: must be panel, a board has neither strips nor joints to stand on", c)
		if board {
			c = pattern.Centre{}
		}
		wrong(c.Strip > strips, of, "centre %v: must be a strip of the %d there are", c, strips)
		wrong(c.Strip <= strips && c.Joint > 0 && c.Joint >= strips, of, "centre %v: must be a joint of the %d there are", c, max(0, strips-1))
		wrong(product.Count == 0 && i < len(products)-1, of, "count 0: must be 1 or more, only the last product may fill the rows")
	}
	for i, a := range avoids {
		of := fmt.Sprintf("avoid %d", i+1)
		wrong(!within(a.Radius, 0, pattern.MaxRadius), of, "radius %v: must be 0 to %v", a.Radius, length.Length(pattern.MaxRadius))
		wrong(!within(a.Along, 0, pattern.MaxLength+pattern.MaxStart) || !within(a.Across, 0, pattern.MaxLength), of,
			"%v along, %v across: must be on the panel", a.Along, a.Across)
	}
	all = append(all, checkCut(cut)...)
	if len(all) == 0 {
		return nil
	}
	return all
}

func within(l, least, most length.Length) bool { return l >= least && l <= most }

func checkCut(c Cut) Wrongs {
	for _, l := range []struct {
		name string
		is   length.Length
	}{
		{"end margin", c.EndMargin}, {"side margin", c.SideMargin}, {"gap", c.Gap},
		{"cutter", c.Cutter}, {"bush", c.Bush}, {"pass", c.Pass}, {"base", c.Base},
	} {
		if !within(l.is, 0, MaxCut) {
			return Wrongs{{fmt.Sprintf("%s %v", l.name, l.is), fmt.Sprintf("must be 0 to %v", MaxCut)}}
		}
	}
	return nil
}
