package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/relief"
)

// Relief returns the JSON of how the section of a pattern stands in each season; there are no
// seasons where it has no relief.
func Relief(stem string, of pattern.Pattern, p relief.Panel, w relief.Wetter, seasons []relief.Season) Object {
	return Object{
		{"format", "oddments/relief 1"}, {"pattern", stem}, {"width_mm", of.Width()}, {"thickness_mm", of.Panel.Thickness},
		{"bark_unknown", len(p.NoBark)}, {"wetter", Known(Object{{"face", w.Face}, {"points", w.Points}}, w.Points > 0)},
		{"seasons", Each(seasons, reliefIn)},
	}
}

// reliefIn returns one season of a relief.
func reliefIn(s relief.Season) Object {
	strips, lines := make([]Object, len(s.Strips)), make([]Object, len(s.Lines))
	for i, f := range s.Strips {
		strips[i] = Object{{"strip", i + 1}, {"crown_um", f.CrownUM}, {"under_um", f.UnderUM}}
	}
	for i, f := range s.Lines {
		lines[i] = Object{{"line", i + 1}, {"step_um", f.StepUM}, {"edge_um", f.EdgeUM}, {"ridge_um", f.RidgeUM}}
	}
	return Object{
		{"name", s.Season}, {"at_mm", s.AtMM}, {"top_um", s.TopUM}, {"under_um", s.UnderUM}, {"band_um", s.BandUM},
		{"cup_um", s.CupUM}, {"gap_top_um", s.GapTopUM}, {"gap_under_um", s.GapUnderUM}, {"width_change_mm", s.WidthChangeMM},
		{"strips", strips}, {"glue_lines", lines},
	}
}
