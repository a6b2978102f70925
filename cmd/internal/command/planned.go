package command

import (
	"context"

	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/fill"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
)

// What a plan knows of the strips of its patterns, written into them.

// Adopt writes the pieces that plan makes strips of into the patterns, and returns them as
// they are now.
func (w Workshop) Adopt(job cutting.Job, plan cutting.Plan, saved []store.Saved) ([]store.Saved, error) {
	for i, s := range saved {
		laid, err := cutting.Adopted(job, plan, s.Stem)
		if err != nil {
			w.Message("oddments: %s keeps its strips: %v\n", s.Stem, err)
			continue
		}
		if len(laid) == 0 {
			w.Of("joints").Fact(s.Stem, "its strips are laid so already")
			continue
		}
		now, err := edit.New(s.Pattern).Lay(laid)
		if err != nil {
			return saved, err
		}
		version, err := w.SavePattern(s, now.Pattern)
		if err != nil {
			return saved, err
		}
		saved[i].Pattern, saved[i].Version = now.Pattern, version
		w.Of("joints").Fact(s.Stem, "%s, %s in all", tell.Count(len(laid), "strip")+" in new pieces", tell.Count(now.Pattern.Joints(), "joint"))
		w.SayReplaced("saved", s.File)
	}
	return saved, nil
}

// WriteReal returns the strips of the patterns the moisture and the rings of the pieces
// that plan cuts the first copies from, and gives the patterns as they are now.
func (w Workshop) WriteReal(job cutting.Job, plan cutting.Plan, saved []store.Saved) ([]store.Saved, error) {
	for i, s := range saved {
		real, changed := booking.Real(job, plan, s.Stem, 1)
		if len(changed) == 0 {
			w.Of("real").Fact(s.Stem, "the strips have readings, rings and colours already, or their pieces have none")
			continue
		}
		version, err := w.SavePattern(s, real)
		if err != nil {
			return saved, err
		}
		saved[i].Pattern, saved[i].Version = real, version
		for _, c := range changed {
			w.Say("real, %s, %v", s.Stem, c)
		}
		w.SayReplaced("saved", s.File)
	}
	return saved, nil
}

// ShortEnds plans a board of a pattern from the rack, its strips in their own length or whole.
func (w Workshop) ShortEnds(ctx context.Context, saved store.Saved) (cutting.ShortEnds, error) {
	all, err := w.ReadRack()
	if err != nil {
		return cutting.ShortEnds{}, err
	}
	job := cutting.Job{Patterns: []cutting.Demand{{Stem: saved.Stem, Pattern: saved.Pattern}}, Rack: all, Shop: w.Shop}
	return cutting.ShortEndsOf(job, func(job cutting.Job) (cutting.Plan, error) { return w.Solve(ctx, job) })
}

// Fill offers what slices of plan may be filled with, by the saved patterns that would use it.
func (w Workshop) Fill(job cutting.Job, plan *cutting.Plan, ask fill.Ask) error {
	if ask.Widths == fill.Off {
		return nil
	}
	all, err := w.Home.Patterns(w.Table)
	if err != nil {
		return err
	}
	for _, one := range all {
		if one.Err == nil {
			ask.Saved = append(ask.Saved, one.Pattern)
		}
	}
	plan.Fills = fill.Of(job, *plan, ask)
	return nil
}
