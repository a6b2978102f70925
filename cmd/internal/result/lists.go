package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/species"
)

// Species returns the JSON of timbers. A number that nobody knows is null.
func Species(list []species.Species) Object {
	return Object{{"format", "oddments/species 1"}, {"species", Each(list, func(s species.Species) Object {
		sources := map[string]string{}
		for name, source := range s.Sources {
			sources[name] = source.String()
		}
		return Object{{"key", s.Key}, {"name", s.Name}, {"cr", Known(s.CR, s.CR > 0)}, {"ct", Known(s.CT, s.CT > 0)},
			{"density_kg_m3", Known(s.DensityKgM3, s.DensityKgM3 > 0)}, {"janka_n", Known(s.JankaN, s.JankaN > 0)},
			{"colour", s.Colour}, {"colour_oiled", s.ColourOiled}, {"sources", sources}}
	})}}
}

// Made returns the JSON of what was made; lengths in mm, null where nothing was
// written down.
func Made(stem string, all []pattern.Made) Object {
	batches := []Object{}
	for i, m := range all {
		batches = append(batches, Object{{"batch", i + 1}, {"date", m.Date}, {"copies", m.Copies}, {"width_mm", Known(m.Width, m.Width > 0)},
			{"thickness_mm", Known(m.Thickness, m.Thickness > 0)}, {"minutes", Known(m.Minutes, m.Minutes > 0)}, {"note", m.Note}})
	}
	return Object{{"format", "oddments/made 1"}, {"pattern", stem}, {"batches", batches}}
}
