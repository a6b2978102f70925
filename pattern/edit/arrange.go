package edit

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
)

// CarryLeft carries the chosen strip past its left neighbour; it stays chosen.
func CarryLeft(s State) (State, error) {
	if s.Selected == 0 && len(s.Pattern.Strips) > 0 {
		return s, refuse("strip 1 is at the left edge already")
	}
	return Swap(s, s.Selected-1)
}

// CarryRight carries the chosen strip past its right neighbour; it stays chosen.
func CarryRight(s State) (State, error) {
	if n := len(s.Pattern.Strips); s.Selected == n-1 && n > 0 {
		return s, refuse("strip %d is at the right edge already", n)
	}
	return Swap(s, s.Selected+1)
}

// CarryTo carries the chosen strip to place index, from 0; it stays chosen.
func CarryTo(s State, index int) (State, error) {
	next, err := Select(s, index)
	if err != nil {
		return s, err
	}
	strip, err := s.chosen()
	if err != nil {
		return s, err
	}
	rest := splice(s.Pattern.Strips, s.Selected, 1, nil)
	next.Pattern.Strips = splice(rest, index, 0, []pattern.Strip{strip})
	return next, nil
}

// PutIn puts strip in after the chosen one, or as the first of a draft, and
// chooses it.
func PutIn(s State, strip pattern.Strip) (State, error) {
	strip, err := fit(strip)
	if err != nil {
		return s, err
	}
	return s.insert(strip)
}

// insert puts strip in after the chosen one and chooses it.
func (s State) insert(strip pattern.Strip) (State, error) {
	if err := s.room(); err != nil {
		return s, err
	}
	s.Pattern.Fit(&strip)
	next := s
	if len(s.Pattern.Strips) == 0 {
		next.Selected = 0
		return next.swapOut(0, strip), nil
	}
	if _, err := s.chosen(); err != nil {
		return s, err
	}
	next.Selected++
	return next.swapOut(0, strip), nil
}

// ChangeTimber puts a piece of another species in the chosen strip's place. It is
// another piece: its rings are unknown, it has no moisture reading, and it has been
// neither turned nor laid over; its colour is its own. Width, own length, start and pin stay with the
// place.
func ChangeTimber(s State, key string, own colour.Own) (State, error) {
	return s.change(func(strip *pattern.Strip) error {
		if err := timber(key); err != nil {
			return err
		}
		if strip.Species == key {
			return refuse("strip %d is %s already", s.number(), key)
		}
		strip.Species = key
		strip.Lay(pattern.Grain{})
		strip.Moisture, strip.Colour = pattern.Reading{}, own
		strip.Turned, strip.Over = false, false
		return nil
	})
}

// LayAside takes the chosen strip out and lays it on the tray. Its left neighbour
// is chosen next, so that BringBack puts the strip where it was; a strip that was
// at the left edge comes back as the second.
func LayAside(s State) (State, error) {
	strip, err := s.chosen()
	if err != nil {
		return s, err
	}
	next := s.swapOut(1)
	next.Selected = max(0, s.Selected-1)
	next.Tray = splice(s.Tray, len(s.Tray), 0, []pattern.Strip{strip})
	return next, nil
}

// BringBack puts strip index of the tray, from 0, in after the chosen one, or as
// the first of a draft, and chooses it.
func BringBack(s State, index int) (State, error) {
	if len(s.Tray) == 0 {
		return s, refuse("no strip is laid aside")
	}
	if index < 0 || index >= len(s.Tray) {
		return s, refuse("there is no strip %d laid aside, only %d", index+1, len(s.Tray))
	}
	next, err := s.insert(s.Tray[index])
	if err != nil {
		return s, err
	}
	next.Tray = splice(s.Tray, index, 1, nil)
	return next, nil
}

// Twin puts a copy of the chosen strip in after it and chooses the copy. The copy
// is alike in all but the pin.
func Twin(s State) (State, error) {
	strip, err := s.chosen()
	if err != nil {
		return s, err
	}
	return s.insert(unpinned(strip))
}

// Mirror makes the other half the mirror image of the half that the chosen strip
// stands in. The halves are counted in strips: with n strips, strip i answers to
// strip n+1-i, each keeps its place and the count stays; the middle strip of an odd
// count belongs to both halves, counts as left when it is chosen, and is not
// changed. A copy is alike in all but the pin (own length and start, rings, ends
// and faces too: a mirror image is one of timber and size, not of figure). A pinned
// strip of the other half is left alone at its place, so the panel is then
// symmetric everywhere else, in strips but not always in millimetres.
func Mirror(s State) (State, error) {
	if _, err := s.chosen(); err != nil {
		return s, err
	}
	n := len(s.Pattern.Strips)
	if n < 2 {
		return s, refuse("a panel of one strip has no halves to mirror")
	}
	fromLeft := s.Selected <= (n-1)/2
	strips := splice(s.Pattern.Strips, 0, 0, nil)
	changed, pinned := false, 0
	for i := range n / 2 {
		from, to := i, n-1-i
		if !fromLeft {
			from, to = to, from
		}
		image := unpinned(strips[from])
		switch {
		case strips[to].Pinned:
			pinned++
		case strips[to] != image:
			strips[to], changed = image, true
		}
	}
	switch {
	case !changed && pinned > 0:
		return s, refuse("nothing to mirror: the other half has %d pinned, the rest is its mirror image already", pinned)
	case !changed:
		return s, refuse("the halves mirror each other already")
	}
	s.Pattern.Strips = strips
	return s, nil
}

func unpinned(strip pattern.Strip) pattern.Strip {
	strip.Pinned = false
	return strip
}

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
