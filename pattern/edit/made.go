package edit

import (
	"cmp"

	"example.com/oddments/pattern"
)

func batches() list[pattern.Made] {
	return list[pattern.Made]{"batch", "written down", func(p *pattern.Pattern) *[]pattern.Made { return &p.Made },
		func(_ State, all []pattern.Made) error {
			for _, m := range all {
				if err := batch(m); err != nil {
					return err
				}
			}
			return nil
		}}
}

// AddMade writes down a batch that was made, behind the others.
func AddMade(s State, m pattern.Made) (State, error) { return batches().add(s, m) }

// SetMade puts m in the place of batch index, from 0.
func SetMade(s State, index int, m pattern.Made) (State, error) { return batches().set(s, index, m) }

// DropMade strikes batch index, from 0, out.
func DropMade(s State, index int) (State, error) { return batches().drop(s, index) }

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
	return cmp.Or(
		within("width", m.Width, 0, pattern.MaxAcross),
		within("thickness", m.Thickness, 0, pattern.MaxAcross),
		plain("note", m.Note),
	)
}
