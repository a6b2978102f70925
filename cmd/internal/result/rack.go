package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// A Listed entry of the rack has beside it how many strips it gives, where that was asked.
type Listed struct {
	rack.Entry
	Gives any // null, or an object
}

// Rack returns the JSON of entries of a rack, of which so many others are not listed. The
// needs are what a pattern takes of each timber, where that was asked.
func Rack(listed []Listed, notListed int, needs []Object) Object {
	entries := make([]rack.Entry, len(listed))
	for i, l := range listed {
		entries[i] = l.Entry
	}
	pieces, ready, cm3 := rack.Totals(entries)
	return Object{{"format", "oddments/rack 1"}, {"entries", Each(listed, entry)}, {"pieces", pieces}, {"ready_strips", ready},
		{"volume_cm3", cm3}, {"not_listed", notListed}, {"needs", Each(needs, func(o Object) Object { return o })}}
}

func entry(l Listed) Object {
	kind := "piece"
	if l.Ready {
		kind = "strip"
	}
	return Object{{"id", l.ID}, {"kind", kind}, {"species", l.Species}, {"length_mm", l.Length}, {"width_mm", l.Width},
		{"thickness_mm", l.Thickness}, {"quantity", l.Quantity}, {"planed", l.Planed}, {"rings", l.Rings}, {"moisture_pct", moistureOf(l.Moisture)},
		{"faults", Each(l.Faults, func(f rack.Fault) Object {
			return Object{{"along", f.Along}, {"from_mm", f.From}, {"to_mm", f.To}}
		})},
		{"use_first", l.UseFirst}, {"note", l.FullNote()}, {"colour", own(l.Colour)}, {"colour_from", l.From}, {"volume_cm3", l.VolumeCM3()}, {"gives", l.Gives}}
}

// moistureOf returns a moisture, null where nobody read one.
func moistureOf(r pattern.Reading) any { return Known(r.Percent, r.Known) }

// own returns a board's own colour, null where nobody looked.
func own(c colour.Own) any { return Known(c.RGB, c.Known) }

// said returns a length, null where none is said.
func said(l length.Length) any { return Known(l, l > 0) }

// Strips returns the JSON of a pattern's panel and its strips.
func Strips(stem string, p pattern.Pattern) Object {
	way := "flat"
	if p.Panel.Make == pattern.MakeEdge {
		way = "edge"
	}
	strips := make([]Object, len(p.Strips))
	for i, s := range p.Strips {
		strips[i] = Object{{"strip", i + 1}, {"species", s.Species}, {"width_mm", s.Width}, {"rings", s.Rings},
			{"moisture_pct", moistureOf(s.Moisture)}, {"length_mm", said(s.Length)}, {"start_mm", s.Start},
			{"turned", s.Turned}, {"over", s.Over}, {"pinned", s.Pinned}, {"colour", own(s.Colour)}}
	}
	return Object{{"format", "oddments/arrange 1"}, {"pattern", stem}, {"name", p.Name}, {"notes", p.Notes},
		{"length_mm", p.Panel.Length}, {"thickness_mm", p.Panel.Thickness}, {"wanted_width_mm", said(p.Panel.Width)}, {"make", way},
		{"moisture_pct", moistureOf(p.Panel.Moisture)}, {"flattened_pct", moistureOf(p.Panel.Flattened)}, {"strips", strips},
		{"glue_up_width_mm", p.Width()}}
}
