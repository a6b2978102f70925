package evenings

import (
	"math"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/work"
)

// PanelOf returns what is glued of one copy of a job in workshop s, f being its figures: the panel,
// and what second glue-ups make of it. What cannot be spread within the open time, or is wider than
// the thicknesser takes, is glued in parts of whole strips, and the parts together in another round.
func PanelOf(j work.Job, f work.Figures, s shop.Shop) Panel {
	b := builder{glue: s.Glue}
	var widths []length.Length
	for _, strip := range j.Pattern.Strips {
		widths = append(widths, strip.Width)
	}
	b.add(GlueUp{Clamps: clampsOf(f.Glue.Clamps)}, widths, s.Machine.ThicknesserWidth)
	for i, second := range f.Second {
		b.add(GlueUp{Second: i + 1, Clamps: clampsOf(second.Clamps)}, make([]length.Length, second.Joints+1), 0)
	}
	if b.slow {
		return Panel{Slow: true}
	}
	return Panel{Rounds: b.rounds}
}

// RequestOf returns what a workshop says of evenings; its panels are still to be put in. With
// clamps above 0 so many are at hand, whatever the workshop says.
func RequestOf(s shop.Shop, clamps int) Request {
	r := Request{Clamps: s.Glue.Clamps, Seconds: seconds(s.Glue.EveningHours * 3600), Handling: seconds(s.Glue.Handling * 60), Wait: s.Glue.WaitDays}
	if clamps > 0 {
		r.Clamps = clamps
	}
	return r
}

// seconds rounds up to whole ones.
func seconds(x float64) int { return int(math.Ceil(x - 1e-6)) }

func clampsOf(e work.Estimate) int {
	if !e.Known {
		return 0
	}
	return int(e.Value)
}

// A builder gathers the rounds of a panel.
type builder struct {
	glue   shop.Glue
	rounds [][]GlueUp
	slow   bool
}

// add adds what gluing things so wide side by side takes, none of it spread longer than the glue
// stays open, no part of strips wider than most where that is above 0.
func (b *builder) add(g GlueUp, widths []length.Length, most length.Length) {
	lines := len(widths) // that may be spread in one go
	if b.glue.SecondsJoint > 0 {
		lines = min(lines, int(b.glue.OpenMinutes*60/b.glue.SecondsJoint+1e-9))
	}
	glued := false
	for len(widths) > 1 {
		if lines < 1 {
			b.slow = true
			return
		}
		parts := split(widths, lines, most)
		var all []GlueUp
		from := 0
		for _, n := range parts {
			one := g
			one.Joints, one.From, one.To = n-1, from+1, from+n
			one.Spread = seconds(float64(one.Joints) * b.glue.SecondsJoint)
			switch {
			case glued:
				one.Kind, one.From, one.To = Together, 0, 0
			case len(parts) > 1:
				one.Kind = Part
			default:
				one.From, one.To = 0, 0
			}
			if from += n; n > 1 {
				all = append(all, one)
			}
		}
		if len(all) > 0 {
			b.rounds, glued = append(b.rounds, all), true
		}
		if len(parts) == len(widths) { // each is as wide as the thicknesser takes: only lines count
			most = 0
			continue
		}
		widths, most = make([]length.Length, len(parts)), 0
	}
}

// split returns how many things each part holds: the fewest parts of at most so many glue lines and
// so wide, and of those the evenest.
func split(widths []length.Length, lines int, most length.Length) []int {
	parts := filled(widths, lines, most)
	for lines > 1 {
		even := filled(widths, lines-1, most)
		if len(even) > len(parts) {
			break
		}
		parts, lines = even, lines-1
	}
	return parts
}

// filled fills one part after the other.
func filled(widths []length.Length, lines int, most length.Length) (parts []int) {
	n, wide := 0, length.Length(0)
	for _, w := range widths {
		if n > 0 && (n > lines || most > 0 && wide+w > most) {
			parts = append(parts, n)
			n, wide = 0, 0
		}
		n, wide = n+1, wide+w
	}
	return append(parts, n)
}
