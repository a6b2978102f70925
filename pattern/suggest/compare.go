package suggest

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
)

// A Change is one place at which two rows of strips differ; strips count from 1.
type Change struct {
	Was int // strip of the row before; 0: the strip is new
	Now int // strip of the row after; 0: the strip is no longer there
}

// Compare returns the places at which now differs from was, left to right: as few as
// there can be. Two strips are alike when timber and width agree, and rings where they
// are known of both.
func Compare(was, now []pattern.Strip) []Change {
	least := compareCosts(was, now)
	var out []Change
	for i, j := 0, 0; i < len(was) || j < len(now); {
		at := least[i][j]
		switch {
		case i < len(was) && j < len(now) && alike(was[i], now[j]) && at == least[i+1][j+1]:
			i, j = i+1, j+1
		case i < len(was) && j < len(now) && at == 1+least[i+1][j+1]:
			i, j = i+1, j+1
			out = append(out, Change{i, j})
		case j < len(now) && at == 1+least[i][j+1]:
			j++
			out = append(out, Change{0, j})
		default:
			i++
			out = append(out, Change{i, 0})
		}
	}
	return out
}

// compareCosts returns, for the rests of both rows from each place on, the fewest
// changes between them.
func compareCosts(was, now []pattern.Strip) [][]int {
	least := make([][]int, len(was)+1)
	for i := len(was); i >= 0; i-- {
		least[i] = make([]int, len(now)+1)
		for j := len(now); j >= 0; j-- {
			switch {
			case i == len(was):
				least[i][j] = len(now) - j
			case j == len(now):
				least[i][j] = len(was) - i
			default:
				step := 1
				if alike(was[i], now[j]) {
					step = 0
				}
				least[i][j] = min(step+least[i+1][j+1], 1+least[i][j+1], 1+least[i+1][j])
			}
		}
	}
	return least
}

func alike(a, b pattern.Strip) bool {
	return a.Species == b.Species && a.Width == b.Width && (a.Rings == b.Rings || !a.Rings.Known() || !b.Rings.Known())
}

// Nearer returns layout l, or its mirror image, which is the same layout: whichever
// differs from was in fewer places. One with pinned strips stays as it is.
func (a Request) Nearer(was []pattern.Strip, l Layout) Layout {
	if len(a.Pinned) > 0 || len(was) == 0 || l.laid() { // products are not laid mirrored
		return l
	}
	flipped := l.Mirrored()
	if len(Compare(was, a.Pattern(flipped).Strips)) < len(Compare(was, a.Pattern(l).Strips)) {
		return flipped
	}
	return l
}

// Mirrored returns the layout from the other side, its plan's strips renumbered.
func (l Layout) Mirrored() Layout {
	n := len(l.Strips)
	l.Strips = slices.Clone(l.Strips)
	slices.Reverse(l.Strips)
	if l.Plan != nil {
		plan := Renumbered(*l.Plan, func(strip int) int { return n + 1 - strip })
		l.Plan = &plan
	}
	return l
}

// Renumbered returns a plan with each of its strips numbered anew.
func Renumbered(plan cutting.Plan, number func(strip int) int) cutting.Plan {
	plan.Ready, plan.Cuts, plan.Pieced = slices.Clone(plan.Ready), slices.Clone(plan.Cuts), slices.Clone(plan.Pieced)
	for i := range plan.Pieced {
		plan.Pieced[i].Strip = number(plan.Pieced[i].Strip)
	}
	for i := range plan.Ready {
		plan.Ready[i].For.Strip = number(plan.Ready[i].For.Strip)
	}
	for i := range plan.Cuts {
		cut := &plan.Cuts[i]
		cut.Sections = slices.Clone(cut.Sections)
		for j := range cut.Sections {
			section := &cut.Sections[j]
			section.Slices = slices.Clone(section.Slices)
			for k := range section.Slices {
				slice := &section.Slices[k]
				slice.Strips = slices.Clone(slice.Strips)
				for m := range slice.Strips {
					slice.Strips[m].Strip = number(slice.Strips[m].Strip)
				}
			}
		}
	}
	return plan
}

// Take returns pattern p with its strips laid out as l. All else of p stays, and so does
// each strip that l has in the same place.
func (a Request) Take(p pattern.Pattern, l Layout) pattern.Pattern {
	strips := a.Pattern(l).Strips
	for i := range min(len(strips), len(p.Strips)) {
		if plainStrip(strips[i]) == plainStrip(p.Strips[i]) {
			from := strips[i]
			strips[i] = p.Strips[i]
			strips[i].Pinned = from.Pinned || strips[i].Pinned
			if a.Join.On() { // all are laid as their plan has them
				strips[i].Start, strips[i].Length, strips[i].Joints = from.Start, from.Length, from.Joints
			}
			if from.Colour.Known { // the board that it is laid out from
				strips[i].Colour = from.Colour
			}
		}
	}
	p.Strips = strips
	return p
}
