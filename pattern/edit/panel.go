package edit

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Fill shares what the strips lack of the wanted width, or have above it, equally
// among those that are not pinned. The widths then add up to the wanted width
// exactly; where it does not divide, the leftmost take a nanometre more of the
// change.
func Fill(s State) (State, error) {
	p := s.Pattern
	var open []int
	for i, strip := range p.Strips {
		if !strip.Pinned {
			open = append(open, i)
		}
	}
	lacks := p.Panel.Width - p.Width()
	switch {
	case len(p.Strips) == 0:
		return s, refuse("there is no strip yet: put one in first")
	case p.Panel.Width <= 0:
		return s, refuse("no width set: set the wanted width of the panel first")
	case lacks == 0:
		return s, refuse("the strips are %v wide already, the width you want", p.Panel.Width)
	case len(open) == 0:
		return s, refuse("every strip is pinned: unpin one to fill %v", p.Panel.Width)
	}
	strips := splice(p.Strips, 0, 0, nil)
	for i, part := range lacks.Split(len(open)) {
		at := open[i]
		width := strips[at].Width + part
		if width <= 0 || width > pattern.MaxAcross {
			return s, refuse("to fill %v strip %d would go from %v to %v: must be above 0, up to %v",
				p.Panel.Width, at+1, strips[at].Width, width, pattern.MaxAcross)
		}
		strips[at].Width = width
	}
	s.Pattern.Strips = strips
	return s, nil
}

// SetPanelLength sets the finished length of the panel. Joints beyond the new end of
// strips that go by it are gone, of those on the tray too.
func SetPanelLength(s State, l length.Length) (State, error) {
	next := s
	next.Pattern.Panel.Length = l
	next.fit()
	return s.to(next, aboveNone("panel length", l, pattern.MaxLength))
}

// fit takes joints off what a shorter panel cuts off, of strips that are aside too: files
// hold a tray to its panel.
func (s *State) fit() {
	s.Pattern.Strips, s.Tray = slices.Clone(s.Pattern.Strips), slices.Clone(s.Tray)
	for _, strips := range [][]pattern.Strip{s.Pattern.Strips, s.Tray} {
		for i := range strips {
			s.Pattern.Fit(&strips[i])
		}
	}
}

// SetThickness sets the finished thickness of the panel.
func SetThickness(s State, thickness length.Length) (State, error) {
	next := s
	next.Pattern.Panel.Thickness = thickness
	return s.to(next, aboveNone("panel thickness", thickness, pattern.MaxAcross))
}

// SetPanelWidth sets the wanted finished width of the panel; 0 says that none is
// wanted.
func SetPanelWidth(s State, width length.Length) (State, error) {
	next := s
	next.Pattern.Panel.Width = width
	return s.to(next, within("panel width", width, 0, pattern.MaxAcross))
}

// SetMake sets how the strips are cut.
func SetMake(s State, m pattern.Make) (State, error) {
	if m != pattern.MakeFlat && m != pattern.MakeEdge {
		return s, refuse("strips %v: must be flat or edge", m)
	}
	s.Pattern.Panel.Make = m
	return s, nil
}

// SetPanelMoisture sets the moisture at glue-up of strips without a reading; the
// zero Reading leaves it to the workshop's air.
func SetPanelMoisture(s State, reading pattern.Reading) (State, error) {
	reading, err := moist("panel moisture", reading)
	next := s
	next.Pattern.Panel.Moisture = reading
	return s.to(next, err)
}

// SetFlattened sets the moisture when the panel is made flush; the zero Reading
// stands for each strip's own at glue-up.
func SetFlattened(s State, reading pattern.Reading) (State, error) {
	reading, err := moist("moisture when flattened", reading)
	next := s
	next.Pattern.Panel.Flattened = reading
	return s.to(next, err)
}

// SetName names the pattern.
func SetName(s State, name string) (State, error) {
	next := s
	next.Pattern.Name = name
	return s.to(next, plain("name", name))
}

// SetNotes sets the maker's notes on the pattern, which are one line.
func SetNotes(s State, notes string) (State, error) {
	next := s
	next.Pattern.Notes = notes
	return s.to(next, plain("notes", notes))
}

// to returns next, unless err refuses it.
func (s State) to(next State, err error) (State, error) {
	if err != nil {
		return s, err
	}
	return next, nil
}
