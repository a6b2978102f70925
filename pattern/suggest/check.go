package suggest

import (
	"cmp"
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
)

// Check reports the first thing that makes an ask no ask.
func (a Request) Check(r movement.Physics) error {
	widths := func() (all error) {
		for _, w := range a.Widths {
			all = cmp.Or(all, across("strip width", w))
		}
		return all
	}
	return cmp.Or(
		across("width", a.Width),
		when(a.Range[0] < 0 || a.Range[1] < a.Range[0] || a.Range[1] > pattern.MaxAcross,
			"width %s to %s: must be a range above 0 and at most %s", a.Range[0], a.Range[1], pattern.MaxAcross),
		across("thickness", a.Thickness),
		when(a.Length <= 0 || a.Length > pattern.MaxLength, "length %s: must be above 0 and at most %s", a.Length, pattern.MaxLength),
		when(a.Tolerance < 0 || a.Tolerance > pattern.MaxAcross, "tolerance %s: must be 0 to %s", a.Tolerance, pattern.MaxAcross),
		when(a.Strips[0] < 2 || a.Strips[1] < a.Strips[0] || a.Strips[1] > pattern.MaxStrips,
			"%d to %d strips: must be a range from 2 to %d", a.Strips[0], a.Strips[1], pattern.MaxStrips),
		CheckLevel(a.Level),
		when(a.Aim < Auto || a.Aim > UseUp, "%v: must be use-up, contrast or auto", a.Aim),
		when(!(a.LeastContrast >= 0 && a.LeastContrast <= 100), "least contrast %v: must be 0 to 100", a.LeastContrast),
		when(a.Layouts < 1, "%d layouts: must be 1 or more", a.Layouts),
		when(a.Differ < 1, "layouts that differ by %d strips: must be 1 or more", a.Differ),
		widths(),
		when(a.Join.How != joints.AsTheyAre && a.Join.How != joints.Even && a.Join.How != joints.Anywhere, "strips in pieces: %v: must be bricks or anywhere", a.Join.How),
		when(a.Join.On() && len(a.Join.Products) == 0, "strips in pieces: there must be products, in whose waste joints lie"),
		a.checkHave(r),
		a.checkPinned(r),
		CheckRack(r, a.Rack),
	)
}

// when returns an error where something is wrong.
func when(wrong bool, format string, args ...any) error {
	if !wrong {
		return nil
	}
	return fmt.Errorf(format, args...)
}

func across(what string, w length.Length) error {
	return when(w <= 0 || w > pattern.MaxAcross, "%s %s: must be above 0 and at most %s", what, w, pattern.MaxAcross)
}

// CheckLevel reports a level that is none.
func CheckLevel(l pattern.Level) error {
	return when(l < pattern.Fine || l > pattern.TooMuch, "%v: must be fine, take care or too much", l)
}

// CheckSpecies reports a species that the table does not have.
func CheckSpecies(r movement.Physics, key string) error {
	_, ok := r.Table().Get(key)
	return when(!ok, "species %q: must be a key of the species table", key)
}

// checkHave looks at the strips named on the spot.
func (a Request) checkHave(r movement.Physics) error {
	for i, h := range a.Have {
		if err := cmp.Or(CheckSpecies(r, h.Species), across("width", h.Width),
			when(h.Count < 1 || h.Count > pattern.MaxStrips, "count %d: must be 1 to %d", h.Count, pattern.MaxStrips)); err != nil {
			return fmt.Errorf("strips to be had %d: %w", i+1, err)
		}
	}
	return nil
}

func (a Request) checkPinned(r movement.Physics) error {
	places := map[int]bool{}
	for _, p := range a.Pinned {
		if err := cmp.Or(
			when(p.Place < 1 || p.Place > a.Strips[1], "its place must be 1 to %d, the most strips", a.Strips[1]),
			when(places[p.Place], "two strips are pinned there: must be one"),
			CheckSpecies(r, p.Strip.Species), across("width", p.Strip.Width)); err != nil {
			return fmt.Errorf("pinned strip %d: %w", p.Place, err)
		}
		places[p.Place] = true
	}
	return nil
}

// CheckRack looks at a rack's ids and species.
func CheckRack(r movement.Physics, all rack.Rack) error {
	ids := map[string]bool{}
	look := func(what, id, species string) error {
		if ids[id] {
			return fmt.Errorf("rack: id %q is there twice: ids of pieces and ready strips must differ", id)
		}
		ids[id] = true
		if err := CheckSpecies(r, species); err != nil {
			return fmt.Errorf("%s %s: %w", what, id, err)
		}
		return nil
	}
	for _, s := range all.Strips {
		if err := look("ready strip", s.ID, s.Species); err != nil {
			return err
		}
	}
	for _, p := range all.Pieces {
		if err := look("piece", p.ID, p.Species); err != nil {
			return err
		}
	}
	return nil
}
