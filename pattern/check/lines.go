package check

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
)

// movementRule finds the glue lines whose step or strain is above fine. The moisture
// gap, which makes a line's level with them, has a rule of its own.
func movementRule(b *board) []Finding {
	var out []Finding
	for _, l := range b.figures.Lines {
		figure := movement.Figure{StepUM: l.StepUM, StrainPct: l.StrainPct}
		level := level(b.shop.Limits, byMovement, figure)
		if level == pattern.Fine {
			continue // so is a line without figures
		}
		said := l.Moves(b.pattern.EndGrain(), b.unit)
		if !l.Settled && !b.pattern.EndGrain() {
			said += fmt.Sprintf("; rings not checked: the step may be %s to %s", length.StepValue(l.LeastUM, b.unit), length.Step(l.MostUM, 0, b.unit))
		}
		if l.Borderline {
			said += "; close to the limit"
		}
		out = append(out, Finding{Level: level, Where: Place{Line: l.Line}, Message: b.between(l.Line) + ": " + said,
			remedies: b.laterFor(l.Line, byMovement), figures: &figures{weight(b.shop.Limits, figure), said}})
	}
	return out
}

// weight returns how bad f is by movement, first by the worse of its figures.
func weight(limits shop.Limits, f movement.Figure) float64 {
	const second = 1e-3
	return severity(limits, byMovement, f) + second*(f.StepUM/limits.StepUM.Care+f.StrainPct/limits.StrainPct.Care)
}

func moistureRule(b *board) []Finding {
	var out []Finding
	for _, l := range b.figures.Lines {
		level := level(b.shop.Limits, byMoisture, movement.Figure{GapPct: l.GapPct})
		if level == pattern.Fine {
			continue
		}
		said := fmt.Sprintf("strip %d is at %.1f %% moisture and strip %d at %.1f %%, %.1f points apart: keep both in the same air until they agree, then glue",
			l.Line, b.moisture(l.Line-1), l.Line+1, b.moisture(l.Line), l.GapPct)
		out = append(out, Finding{Level: level, Where: Place{Line: l.Line}, Message: said,
			remedies: b.laterFor(l.Line, byMoisture), figures: &figures{l.GapPct, said}})
	}
	return out
}

func ringsRule(b *board) []Finding {
	var out []Finding
	for _, look := range b.figures.Look {
		out = append(out, Finding{Where: Place{Strip: look.Strip}, Message: look.String() + "; until then 45 degrees is assumed"})
	}
	return out
}

// How far above its limit a contrast may lie and still be called borderline: colours of
// timbers are "about", off by a median of 6 where measured; two that were read from photos
// err alike.
const (
	borderlineContrast = 5
	borderlineSeen     = 2
)

func contrastRule(b *board) []Finding {
	var out []Finding
	limit := b.shop.Limits.Contrast
	for _, l := range b.figures.Lines {
		left, right := b.timber(l.Line-1), b.timber(l.Line)
		if !left.known || !right.known {
			continue // they have no colour to compare
		}
		f, near := Finding{Where: Place{Line: l.Line}}, float64(borderlineContrast)
		if l.Seen {
			near = borderlineSeen
		}
		said := fmt.Sprintf("contrast about %.1f, they look like one strip", l.Contrast)
		switch {
		case l.Contrast > limit+near:
			continue
		case l.Contrast >= limit:
			said = fmt.Sprintf("contrast about %.1f, close to the limit: hold the real boards side by side", l.Contrast)
		default:
			f.Level = pattern.TakeCare
		}
		f.figures, f.Message = &figures{-l.Contrast, said}, b.between(l.Line)+": "+said
		if left.Key == right.Key && f.Level > pattern.Fine {
			f.figures.said = "they look like one strip"
			f.Message = fmt.Sprintf("%s next to %s: %s", left.Name, right.Name, f.figures.said)
		}
		out = append(out, f)
	}
	return out
}
