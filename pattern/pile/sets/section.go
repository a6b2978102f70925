package sets

import (
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A section is a length of a clear piece under the saw. What it says never falls short of what
// a plan may have of it.
type section struct {
	Width, Thickness length.Length
	Planed           bool
	shop             *shop.Shop
}

func (s *search) section(p rack.Piece) section {
	return section{p.Width, p.Thickness, p.Planed, &s.shop}
}

// lies says how much there is across the slices and through the stack, as the piece lies and
// side-sliced; what is planed only lies.
func (c section) lies() (across, depth [2]length.Length) {
	if c.Planed {
		return [2]length.Length{c.Width}, [2]length.Length{c.Thickness}
	}
	a, d := c.Width-c.shop.Allowance.Truing, c.Thickness-c.shop.Allowance.Truing
	return [2]length.Length{a, d}, [2]length.Length{d, a}
}

// slices returns how many slices such a stack gives for strips so thick before flattening.
func (c section) slices(across, depth, glued length.Length) int {
	if c.Planed {
		if depth >= glued {
			return 1
		}
		return 0
	}
	sawn, between := glued+c.shop.Allowance.Planing, c.shop.Kerf.Resaw+c.shop.Allowance.Cleaning
	n := int((depth + between) / (sawn + between))
	if high := c.shop.Machine.BandsawHeight; high > 0 && across > high {
		n = min(n, 1)
	}
	return max(0, n)
}

// gives reports whether strips so wide and thick come out, as the piece lies and side-sliced.
func (c section) gives(width, glued length.Length) (upright, side bool) {
	across, depth := c.lies()
	var can [2]bool
	for i := range can {
		can[i] = across[i] >= width+c.shop.Allowance.Jointing && c.slices(across[i], depth[i], glued) > 0
	}
	return can[0], can[1]
}
