package check

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

// The distances of the rules for joints: judgement, no source.
const (
	jointsApart = 10 * length.Millimetre // joints of neighbours nearer than that are one weak place
	openWidths  = 2                      // a strip that stands open for more of its widths gives a clamp nothing to press on
)

// layout returns where products stand; nothing where they cannot be laid.
func (b *board) layout() outline.Layout {
	if job, err := work.JobOn(b.physics, b.pattern, 1, b.figures.Board, nil); err == nil {
		return job.Layout
	}
	return outline.Layout{}
}

// jointShowsRule finds joints that no cut takes away.
func jointShowsRule(b *board) []Finding {
	why := "no product is laid, the panel stays whole"
	switch again := len(b.pattern.Seconds) > 0; {
	case b.pattern.Joints() == 0 || !again && len(b.layout().Placed) > 0:
		return nil
	case again:
		why = "bars are cut across the whole panel, so it opens in the board"
	}
	var out []Finding
	for i, s := range b.pattern.Strips {
		if s.Joints.Len() > 0 {
			out = append(out, Finding{Level: pattern.TakeCare, Where: Place{Strip: i + 1},
				Message: fmt.Sprintf("strip %d is in %d pieces and the joint at %s shows: %s",
					i+1, s.Joints.Len()+1, work.JointText(s.Joints.All()[0], b.unit), why)})
		}
	}
	return out
}

// jointsBesideRule finds neighbours that are parted at one place.
func jointsBesideRule(b *board) []Finding {
	var out []Finding
	strips := b.pattern.Strips
	for i := 1; i < len(strips); i++ {
		if one, other, near := beside(strips[i-1].Joints, strips[i].Joints); near {
			out = append(out, Finding{Level: pattern.TakeCare, Where: Place{Line: i},
				Message: fmt.Sprintf("strips %d and %d are parted at one place, %s and %s: stagger the joints, so that a whole strip bridges each",
					i, i+1, work.JointText(one, b.unit), work.JointText(other, b.unit))})
		}
	}
	return out
}

// beside returns two joints that lie within jointsApart of each other.
func beside(a, b pattern.Joints) (one, other pattern.Joint, near bool) {
	for _, one := range a.All() {
		for _, other := range b.All() {
			if max(one.From, other.From)-min(one.To, other.To) <= jointsApart {
				return one, other, true
			}
		}
	}
	return one, other, false
}

// partedRule looks for a place between the first product and the last, or where bars are cut
// anywhere, that fewer than two strips bridge. Those that do change only at ends of pieces.
func partedRule(b *board) []Finding {
	if b.pattern.Joints() == 0 {
		return nil
	}
	from, to := length.Length(0), b.pattern.Panel.Length // bars take all of it
	if len(b.pattern.Seconds) == 0 {
		bands := b.layout().Bands
		if len(bands) == 0 {
			return nil
		}
		from, to = bands[0].From, bands[len(bands)-1].End
	}
	for _, s := range b.pattern.Strips {
		for _, j := range s.Joints.All() {
			for _, at := range []length.Length{j.From, j.To} {
				if from < at && at < to && b.running(at) < 2 {
					return []Finding{{Level: pattern.TooMuch, Message: fmt.Sprintf(
						"%d of %d strips run through at %s from the datum end: the panel comes apart there in the clamps; move joints to other gaps",
						b.running(at), len(b.pattern.Strips), b.with(at))}}
				}
			}
		}
	}
	return nil
}

// running counts the strips that run through at a place.
func (b *board) running(at length.Length) (n int) {
	for _, s := range b.pattern.Strips {
		for _, p := range b.pattern.PiecesOf(s, b.allow.Length) {
			if p.Start <= at && at <= p.End() && (p.Start < at || at == s.Start) && (at < p.End() || at == b.end(s)) {
				n++
			}
		}
	}
	return n
}

func shortPieceRule(b *board) []Finding {
	var out []Finding
	for i, s := range b.pattern.Strips {
		if s.Joints.Len() == 0 {
			continue
		}
		for n, p := range b.pattern.PiecesOf(s, b.allow.Length) {
			if p.Length < b.shop.Cut.Shortest {
				out = append(out, Finding{Where: Place{Strip: i + 1},
					Message: fmt.Sprintf("piece %s is %s long, your shortest is %s: crosscut it last, from a longer strip",
						pattern.PieceName(i+1, n+1), b.with(p.Length), b.with(b.shop.Cut.Shortest))})
			}
		}
	}
	return out
}

func openStripRule(b *board) []Finding {
	var out []Finding
	for i, s := range b.pattern.Strips {
		for _, j := range s.Joints.All() {
			if open := j.To - j.From; open > openWidths*s.Width {
				out = append(out, Finding{Level: pattern.TakeCare, Where: Place{Strip: i + 1},
					Message: fmt.Sprintf("strip %d is open for %s at %s: a clamp has nothing to press on there; lay in a loose filler as wide as the strip, not glued, or a caul across",
						i+1, b.with(open), work.JointText(j, b.unit))})
			}
		}
	}
	return out
}
