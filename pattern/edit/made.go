package edit

import (
	"slices"

	"example.com/oddments/pattern"
)

// AddMade writes down a batch that was made, behind the others.
func AddMade(s State, m pattern.Made) (State, error) {
	if err := batch(m); err != nil {
		return s, err
	}
	s.Pattern.Made = slices.Concat(s.Pattern.Made, []pattern.Made{m})
	return s, nil
}

// SetMade puts m in the place of batch index, from 0.
func SetMade(s State, index int, m pattern.Made) (State, error) {
	if err := s.written(index); err != nil {
		return s, err
	}
	if err := batch(m); err != nil {
		return s, err
	}
	s.Pattern.Made = slices.Clone(s.Pattern.Made)
	s.Pattern.Made[index] = m
	return s, nil
}

// DropMade strikes batch index, from 0, out.
func DropMade(s State, index int) (State, error) {
	if err := s.written(index); err != nil {
		return s, err
	}
	s.Pattern.Made = slices.Concat(s.Pattern.Made[:index], s.Pattern.Made[index+1:])
	return s, nil
}

func (s State) written(index int) error {
	if n := len(s.Pattern.Made); index < 0 || index >= n {
		return refuse("there is no batch %d; written down so far: %d", index+1, n)
	}
	return nil
}

// batch refuses what a file could not keep.
func batch(m pattern.Made) error {
	switch {
	case !m.Date.Valid():
		return refuse("%v: must be a day of the calendar, like 2026-11-02", m.Date)
	case m.Copies < 1 || m.Copies > pattern.MaxBatch:
		return refuse("%d copies: must be 1 to %d", m.Copies, pattern.MaxBatch)
	case m.Minutes < 0 || m.Minutes > pattern.MaxMinutes:
		return refuse("%d minutes: must be 0 to %d", m.Minutes, pattern.MaxMinutes)
	}
	if err := within("width", m.Width, 0, pattern.MaxAcross); err != nil {
		return err
	}
	if err := within("thickness", m.Thickness, 0, pattern.MaxAcross); err != nil {
		return err
	}
	return plain("note", m.Note)
}
