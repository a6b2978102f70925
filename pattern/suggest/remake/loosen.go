package remake

import (
	"context"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
)

// A Relaxation says by which one condition alone a pattern could be made again. What
// would not do, or was not found out in the time, is nil or 0.
type Relaxation struct {
	Level  *pattern.Level // the mildest that would do
	Copies int            // the most, fewer than asked for, that would do
	Check  []string       // ids on the rack whose rings nobody has checked: with Rings they would do
	Rings  pattern.Rings
	Proved bool // no milder level, and no more copies, would do
}

// Loosen finds what to loosen where Again found no way; proved: that there is none.
func Loosen(ctx context.Context, r movement.Physics, a Request, proved bool) Relaxation {
	a.Answers = 1
	could := func(a Request) (Way, bool) {
		answer, err := Again(ctx, r, a, suggest.Options{})
		if err != nil || len(answer.Answers) == 0 {
			return Way{}, false
		}
		return answer.Answers[0], true
	}
	out := Relaxation{Proved: proved}
	for _, level := range pattern.Levels() {
		with := a
		if with.Level = level; level <= a.Level {
			continue
		}
		if _, ok := could(with); ok {
			out.Level = &level
			break
		}
	}
	for _, rings := range []pattern.Rings{pattern.RingsQuarter(), pattern.RingsFlat()} {
		with := a
		if with.Rack = checked(a.Rack, rings); len(out.Check) > 0 || out.Level == nil {
			break // rings decide levels, and nothing else
		}
		if way, ok := could(with); ok {
			out.Check, out.Rings = a.unchecked(r, way), rings
		}
	}
	// Fewer copies never need more of the rack, so the most is found by halving.
	low, high := 0, a.Copies
	for low+1 < high {
		with := a
		with.Copies = (low + high) / 2
		if _, ok := could(with); ok {
			low = with.Copies
		} else {
			high = with.Copies
		}
	}
	out.Copies = low
	return out
}

// checked returns the rack as if all that nobody has checked had these rings.
func checked(r rack.Rack, rings pattern.Rings) rack.Rack {
	r.Pieces, r.Strips = slices.Clone(r.Pieces), slices.Clone(r.Strips)
	for i := range r.Pieces {
		if !r.Pieces[i].Rings.Known() {
			r.Pieces[i].Rings = rings
		}
	}
	for i := range r.Strips {
		if !r.Strips[i].Rings.Known() {
			r.Strips[i].Rings = rings
		}
	}
	return r
}

// unchecked lists what of the rack a way takes whose rings nobody has checked, in the rack's
// order.
func (a Request) unchecked(r movement.Physics, w Way) []string {
	takes := map[string]bool{}
	for _, from := range booking.Sources(a.Job(r, w), w.Plan) {
		takes[from.ID] = true
	}
	var out []string
	for _, e := range a.Rack.Entries() {
		if takes[e.ID] && !e.Rings.Known() {
			out = append(out, e.ID)
		}
	}
	return out
}

// Say says by which one condition alone the pattern could be made, a sentence each.
func (l Relaxation) Say() []string {
	var all []string
	if l.Check != nil {
		word, _ := l.Rings.Word()
		is := "it is"
		if len(l.Check) > 1 {
			is = "they are"
		}
		all = append(all, fmt.Sprintf("check the end grain of %s: if %s %s-sawn, all glue lines keep to the level you asked for", tell.List(l.Check, "and"), is, word))
	}
	if l.Level != nil {
		all = append(all, l.SayLevel())
	}
	if l.Copies > 0 {
		all = append(all, l.SayCopies())
	}
	return all
}

// SayLevel is the sentence about the level.
func (l Relaxation) SayLevel() string {
	return fmt.Sprintf("accept glue lines up to %q", *l.Level) + l.sure(" (no milder level is enough, proved)")
}

// SayCopies is the sentence about the number of copies.
func (l Relaxation) SayCopies() string {
	return "make only " + tell.Count(l.Copies, "panel") + l.sure(" (the most possible, proved)")
}

func (l Relaxation) sure(text string) string {
	if !l.Proved {
		return ""
	}
	return text
}
