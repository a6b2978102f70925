package rack

import "example.com/oddments/pattern/colour"

// SetColour says what colour the entry of id has under oil, and where that comes from.
func (r Rack) SetColour(id string, c colour.Own, from string) (Rack, error) {
	return r.change(id, func(e *Entry) { e.Colour, e.From = c, from })
}

// Keeping returns e, which replaces old, with the colour of old where both are of one timber
// and e says none: a typed line has no word for it.
func (e Entry) Keeping(old Entry) Entry {
	if e.Species == old.Species && !e.Colour.Known {
		e.Colour, e.From = old.Colour, old.From
	}
	return e
}

// Colour returns the colour that the timber of a species has on the rack: the mean in CIELAB,
// by volume, of the entries that have one of their own.
func (r Rack) Colour(key string) colour.Own {
	var colours []colour.Lab
	var volumes []float64
	add := func(p Piece) {
		if p.Species == key && p.Colour.Known {
			colours, volumes = append(colours, p.Colour.RGB.Lab()), append(volumes, p.VolumeCM3())
		}
	}
	for _, p := range r.Pieces {
		add(p)
	}
	for _, s := range r.Strips {
		add(EntryOf(s).Piece)
	}
	if len(colours) == 0 {
		return colour.Own{}
	}
	return colour.OwnOf(colour.MeanLab(colours, volumes).RGB())
}
