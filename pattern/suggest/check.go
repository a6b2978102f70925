package suggest

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
)

// Check reports the first thing that makes an ask no ask.
func (a Request) Check(r movement.Physics) error {
	if err := a.checkPanel(); err != nil {
		return err
	}
	if a.Strips[0] < 2 || a.Strips[1] < a.Strips[0] || a.Strips[1] > pattern.MaxStrips {
		return fmt.Errorf("%d to %d strips: must be a range from 2 to %d", a.Strips[0], a.Strips[1], pattern.MaxStrips)
	}
	if a.Level < pattern.Fine || a.Level > pattern.TooMuch {
		return fmt.Errorf("%v: must be fine, take care or too much", a.Level)
	}
	if a.Aim < Auto || a.Aim > UseUp {
		return fmt.Errorf("%v: must be use-up, contrast or auto", a.Aim)
	}
	if !(a.LeastContrast >= 0 && a.LeastContrast <= 100) {
		return fmt.Errorf("least contrast %v: must be 0 to 100", a.LeastContrast)
	}
	if a.Layouts < 1 {
		return fmt.Errorf("%d layouts: must be 1 or more", a.Layouts)
	}
	if a.Differ < 1 {
		return fmt.Errorf("layouts that differ by %d strips: must be 1 or more", a.Differ)
	}
	for _, w := range a.Widths {
		if err := across("strip width", w); err != nil {
			return err
		}
	}
	return a.checkStrips(r)
}

func (a Request) checkPanel() error {
	if err := across("width", a.Width); err != nil {
		return err
	}
	if err := across("thickness", a.Thickness); err != nil {
		return err
	}
	if a.Length <= 0 || a.Length > pattern.MaxLength {
		return fmt.Errorf("length %s: must be above 0 and at most %s", a.Length, pattern.MaxLength)
	}
	if a.Tolerance < 0 || a.Tolerance > pattern.MaxAcross {
		return fmt.Errorf("tolerance %s: must be 0 to %s", a.Tolerance, pattern.MaxAcross)
	}
	return nil
}

func across(what string, w length.Length) error {
	if w <= 0 || w > pattern.MaxAcross {
		return fmt.Errorf("%s %s: must be above 0 and at most %s", what, w, pattern.MaxAcross)
	}
	return nil
}

// checkStrips looks at the strips named, pinned and lying on the rack.
func (a Request) checkStrips(r movement.Physics) error {
	known := func(key string) error {
		if _, ok := r.Table().Get(key); !ok {
			return fmt.Errorf("species %q: must be a key of the species table", key)
		}
		return nil
	}
	for i, h := range a.Have {
		if err := known(h.Species); err != nil {
			return fmt.Errorf("strips to be had %d: %w", i+1, err)
		}
		if err := across("width", h.Width); err != nil {
			return fmt.Errorf("strips to be had %d: %w", i+1, err)
		}
		if h.Count < 1 || h.Count > pattern.MaxStrips {
			return fmt.Errorf("strips to be had %d: count %d: must be 1 to %d", i+1, h.Count, pattern.MaxStrips)
		}
	}
	places := map[int]bool{}
	for _, p := range a.Pinned {
		if p.Place < 1 || p.Place > a.Strips[1] {
			return fmt.Errorf("pinned strip %d: its place must be 1 to %d, the most strips", p.Place, a.Strips[1])
		}
		if places[p.Place] {
			return fmt.Errorf("pinned strip %d: two strips are pinned there: must be one", p.Place)
		}
		places[p.Place] = true
		if err := known(p.Strip.Species); err != nil {
			return fmt.Errorf("pinned strip %d: %w", p.Place, err)
		}
		if err := across("width", p.Strip.Width); err != nil {
			return fmt.Errorf("pinned strip %d: %w", p.Place, err)
		}
	}
	return a.CheckRack(known)
}

// CheckRack looks at the rack's ids and species.
func (a Request) CheckRack(known func(key string) error) error {
	ids := map[string]bool{}
	twice := func(id string) error {
		if ids[id] {
			return fmt.Errorf("rack: id %q stands twice: ids of pieces and ready strips must differ", id)
		}
		ids[id] = true
		return nil
	}
	for _, s := range a.Rack.Strips {
		if err := twice(s.ID); err != nil {
			return err
		}
		if err := known(s.Species); err != nil {
			return fmt.Errorf("ready strip %s: %w", s.ID, err)
		}
	}
	for _, p := range a.Rack.Pieces {
		if err := twice(p.ID); err != nil {
			return err
		}
		if err := known(p.Species); err != nil {
			return fmt.Errorf("piece %s: %w", p.ID, err)
		}
	}
	return nil
}
