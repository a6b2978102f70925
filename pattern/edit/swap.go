package edit

import "slices"

// Swap lets the chosen strip and strip index, from 0, change places; the one that
// was chosen stays so. It is the remedy that carrying strips one by one comes to.
func Swap(s State, index int) (State, error) {
	if _, err := s.chosen(); err != nil {
		return s, err
	}
	if index < 0 || index >= len(s.Pattern.Strips) {
		return s, refuse("there is no strip %d: the panel has %d", index+1, len(s.Pattern.Strips))
	}
	if index == s.Selected {
		return s, refuse("strip %d is the chosen one: name another to swap it with", s.number())
	}
	s.Pattern.Strips = slices.Clone(s.Pattern.Strips)
	s.Pattern.Strips[s.Selected], s.Pattern.Strips[index] = s.Pattern.Strips[index], s.Pattern.Strips[s.Selected]
	s.Selected = index
	return s, nil
}
