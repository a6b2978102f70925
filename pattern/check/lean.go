package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/relief"
	"example.com/oddments/pattern/tell"
)

// ridgeCareUM is the ridge between strips that lean against each other from which they ask
// for care (common practice, no source: a finger feels less).
const ridgeCareUM = 60

// rift lists the glue lines between strips whose rings are known to be rift: only these are
// worth working the section out for.
func (b *board) rift() (lines []int) {
	for n := 1; n < len(b.pattern.Strips); n++ {
		if relief.Leans(b.pattern.Strips[n-1].Rings) && relief.Leans(b.pattern.Strips[n].Rings) {
			lines = append(lines, n)
		}
	}
	return lines
}

// leans reports whether there is anything that leanRule could find.
func leans(b *board) bool {
	return slices.ContainsFunc(b.rift(), func(n int) bool {
		left, right := b.pattern.Strips[n-1].Bark, b.pattern.Strips[n].Bark
		return left.Right*left.Up*right.Right*right.Up < 0
	})
}

// leanRule finds the glue lines between rift strips that lean against each other and stand
// in a ridge or a valley, and the turn of one strip that mends most. It works the relief out,
// which no key waits for.
func leanRule(b *board) []Finding {
	if !leans(b) {
		return nil
	}
	if b.beside == nil {
		b.left = true
		return nil
	}
	section := b.section()
	if section.TooLarge {
		return []Finding{{Message: "too many strips to work out how they lean against each other"}}
	}
	seasons := section.Seasons()
	var out []Finding
	for _, n := range b.rift() {
		if seasons == nil || !section.Against(n) {
			continue
		}
		worst := slices.MaxFunc(seasons, func(a, b relief.Season) int {
			return cmp.Compare(math.Abs(a.Lines[n-1].RidgeUM), math.Abs(b.Lines[n-1].RidgeUM))
		})
		ridge, what := worst.Lines[n-1].RidgeUM, "ridge"
		if ridge < 0 {
			ridge, what = -ridge, "valley"
		}
		if ridge > ridgeCareUM {
			said := fmt.Sprintf(" lean against each other: a %s of about %s in the %s season, %s",
				what, length.Step(ridge, 0, b.unit), worst.Season, relief.GiveOrTake)
			out = append(out, Finding{Level: pattern.TakeCare, Where: Place{Line: n}, Message: b.between(n) + said, figures: &figures{ridge, said}})
		}
	}
	if len(out) > 0 {
		remedies := &deferred{board: b, found: b.turn(section)}
		for i := range out {
			out[i].remedies = remedies
		}
	}
	return out
}

// turn returns the turn of one strip, as it lies at glue-up, that leaves the smallest gap
// under a straightedge, if any is worth its while.
func (b *board) turn(section relief.Panel) []Remedy {
	turn, ok := section.BestTurn(b.beside)
	if !ok {
		return nil
	}
	return []Remedy{{Kind: Turn, Strip: turn.Strip, Text: turn.Text(b.unit)}}
}

// mostNamed is how many strips are named of those whose end grain is worth a look.
const mostNamed = 3

// barkRule says whose end grain to look at for the bark side: that of rift strips which may
// lean against a neighbour and stand in a ridge, those first of which most depends.
func barkRule(b *board) []Finding {
	rift := b.rift()
	if len(rift) == 0 || len(b.section().NoFigure) > 0 {
		return nil
	}
	section := b.section()
	open := make([]float64, len(b.pattern.Strips)) // by strip: the ridges that its bark side settles
	most := 0.0
	for _, n := range rift {
		ridge := section.MayRidgeUM(n)
		if ridge <= ridgeCareUM {
			continue
		}
		for _, i := range [...]int{n - 1, n} {
			if !section.Strips[i].Bark.Known() {
				open[i] += ridge
				most = max(most, ridge)
			}
		}
	}
	var strips []int
	for i, ridge := range open {
		if ridge > 0 {
			strips = append(strips, i+1)
		}
	}
	if len(strips) == 0 {
		return nil
	}
	slices.SortStableFunc(strips, func(i, j int) int { return cmp.Compare(open[j-1], open[i-1]) })
	first := ""
	if len(strips) > mostNamed {
		first = fmt.Sprintf(", first of %d,", len(strips))
	}
	return []Finding{{Where: Place{Strip: strips[0]}, Message: fmt.Sprintf(
		"check the end grain of %s%s for the bark side: rift strips that lean against each other may stand in a ridge of up to about %s",
		tell.Numbered("strip", strips[:min(mostNamed, len(strips))]), first, length.Step(most, 0, b.unit))}}
}
