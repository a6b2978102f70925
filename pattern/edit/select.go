package edit

// Select chooses strip index, from 0.
func Select(s State, index int) (State, error) {
	next := s
	next.Selected = index
	if _, err := next.chosen(); err != nil {
		return s, err
	}
	return next, nil
}

// SelectLeft chooses the left neighbour of the chosen strip.
func SelectLeft(s State) (State, error) {
	if _, err := s.chosen(); err != nil {
		return s, err
	}
	if s.Selected == 0 {
		return s, refuse("strip 1 is at the left edge: there is none beyond it")
	}
	return Select(s, s.Selected-1)
}

// SelectRight chooses the right neighbour of the chosen strip.
func SelectRight(s State) (State, error) {
	if _, err := s.chosen(); err != nil {
		return s, err
	}
	if s.Selected == len(s.Pattern.Strips)-1 {
		return s, refuse("strip %d is at the right edge: there is none beyond it", s.number())
	}
	return Select(s, s.Selected+1)
}

// SelectFirst chooses the strip at the left edge.
func SelectFirst(s State) (State, error) { return Select(s, 0) }

// SelectLast chooses the strip at the right edge.
func SelectLast(s State) (State, error) { return Select(s, max(0, len(s.Pattern.Strips)-1)) }
