package booking

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

// A Changed strip of a pattern got something from the timber that the plan cuts it
// from.
type Changed struct {
	Strip    int    // from 1
	From     string // id on the rack, of the whole piece or the ready strip
	Moisture bool   // it had no reading of its own
	Rings    bool   // they were unknown; now those expected
	Bark     bool   // nobody had seen its side; now that expected
	Colour   bool   // it had another, or none of its own
}

// Any reports whether anything changed.
func (c Changed) Any() bool { return c.Moisture || c.Rings || c.Bark || c.Colour }

// String says what changed: strip 4: moisture and rings from W3.
func (c Changed) String() string {
	var what tell.Phrases
	what.If(c.Moisture, "moisture")
	what.If(c.Rings, "rings")
	what.If(c.Bark, "bark side")
	what.If(c.Colour, "colour")
	return fmt.Sprintf("strip %d: %s from %s", c.Strip, tell.List(what, "and"), c.From)
}

// A Source is the timber that serves one strip of a job.
type Source struct {
	ID string // on the rack
	pattern.Grain
	Moisture pattern.Reading
	Colour   colour.Own
}

// Sources finds what serves each strip.
func Sources(job cutting.Job, plan cutting.Plan) map[cutting.Ref]Source {
	of := map[cutting.Ref]Source{}
	for _, d := range worksteps.Details(job, plan) {
		for _, st := range d.Strips() {
			of[st.Ref] = Source{d.Whole.ID, st.Showing, d.Piece.Moisture, d.Whole.Colour}
		}
	}
	ready := cutting.ReadyByID(job.Rack)
	for _, r := range plan.Ready {
		if s, ok := ready[r.ID]; ok {
			of[r.For] = Source{s.ID, rack.EntryOf(s).Grain(), s.Moisture, s.Colour}
		}
	}
	return of
}

// Real returns a copy of a pattern of the job as plan makes it: a strip without a
// reading has that of its piece, and one whose rings are unknown has those that its
// piece lets expect: for a flat strip the piece's; flat and quarter exchanged where the
// section is side-sliced or the strip on edge; the piece's again where both are. Where its
// rings let it, it has the piece's bark side likewise, as it is laid. Its colour is that of
// its piece, where that has one. Rings of a thick piece change over its depth, so what is
// expected is to be looked at. A strip that is short, or made of several pieces, stays as it
// is. A stem that the job has not gives an empty
// pattern.
func Real(job cutting.Job, plan cutting.Plan, stem string, copy int) (pattern.Pattern, []Changed) {
	for _, d := range job.Patterns {
		if d.Stem == stem {
			return AsMade(d, copy, Sources(job, plan))
		}
	}
	return pattern.Pattern{}, nil
}

// AsMade returns a copy of a pattern as it is made, each strip with moisture and rings of
// what serves it, and what differs from the pattern by that.
func AsMade(d cutting.Demand, copy int, of map[cutting.Ref]Source) (pattern.Pattern, []Changed) {
	p := d.Pattern
	p.Strips = append([]pattern.Strip(nil), p.Strips...)
	var changed []Changed
	for i := range p.Strips {
		from, ok := of[cutting.Ref{Pattern: d.Stem, Copy: copy, Strip: i + 1}]
		if !ok {
			continue
		}
		if c := from.GiveTo(&p.Strips[i], i+1); c.Any() {
			changed = append(changed, c)
		}
	}
	return p, changed
}

// GiveTo lends strip n what it lacks and its timber knows, and the colour of its timber.
func (from Source) GiveTo(s *pattern.Strip, n int) Changed {
	c := Changed{Strip: n, From: from.ID}
	if c.Moisture = !s.Moisture.Known && from.Moisture.Known; c.Moisture {
		s.Moisture = from.Moisture
	}
	if c.Rings = !s.Rings.Known() && from.Rings.Known(); c.Rings {
		s.Rings = from.Rings
	}
	side := from.Laid(*s)
	if c.Bark = !s.Bark.Known() && side.Bark.Known() && s.Rings.CheckBark(side.Bark) == nil; c.Bark {
		s.Bark, s.Heart = side.Bark, side.Heart
	}
	if c.Colour = from.Colour.Known && from.Colour != s.Colour; c.Colour {
		s.Colour = from.Colour
	}
	return c
}

// A Look says that the end grain of an entry of the rack would settle glue lines.
type Look struct {
	Piece string // id on the rack, of a piece or a ready strip
	Lines int    // over all copies of the patterns; each counts for the first look that covers it
}

// String says what to look at, and why.
func (l Look) String() string { return tell.Look(l.Piece, l.Lines) }

// LookFirst says which end grain on the rack to look at, so that most glue lines of
// the patterns are settled: again and again the entry of unknown rings whose strips
// touch most lines that are not settled and not yet covered, the first on the rack on
// a tie. A line is covered by either of its strips. Where the entry is one of several
// alike, each that the plan uses wants a look.
//
// Without a plan the strips of a timber are taken to come from the first of its
// entries whose rings are unknown and that has most volume.
func LookFirst(job cutting.Job, plan *cutting.Plan, r movement.Physics) []Look {
	var of map[cutting.Ref]Source
	if plan != nil {
		of = Sources(job, *plan)
	} else {
		of = guessed(job)
	}
	touched := map[string][]int{} // lines by the entry that touches them
	lines := 0
	for _, d := range job.Patterns {
		for copy := 1; copy <= d.Copies; copy++ {
			p, _ := AsMade(d, copy, of)
			for _, l := range r.Panel(p).Lines() {
				if l.Settled {
					continue
				}
				for strip := l.Line; strip <= l.Line+1; strip++ {
					from, ok := of[cutting.Ref{Pattern: d.Stem, Copy: copy, Strip: strip}]
					if ok && !p.Strips[strip-1].Rings.Known() {
						touched[from.ID] = append(touched[from.ID], lines)
					}
				}
				lines++
			}
		}
	}
	return cover(job.Rack, touched, lines)
}

// cover takes again and again the entry that touches most lines still open.
func cover(r rack.Rack, touched map[string][]int, lines int) []Look {
	covered := make([]bool, lines)
	var ids []string
	for _, e := range r.Entries() {
		if len(touched[e.ID]) > 0 {
			ids = append(ids, e.ID)
		}
	}
	var looks []Look
	for {
		best := Look{}
		for _, id := range ids {
			seen := map[int]bool{}
			for _, l := range touched[id] {
				if !covered[l] {
					seen[l] = true
				}
			}
			if len(seen) > best.Lines {
				best = Look{Piece: id, Lines: len(seen)}
			}
		}
		if best.Lines == 0 {
			return looks
		}
		for _, l := range touched[best.Piece] {
			covered[l] = true
		}
		looks = append(looks, best)
	}
}

// guessed takes each strip from the largest entry of its timber that nobody has
// looked at.
func guessed(job cutting.Job) map[cutting.Ref]Source {
	largest := map[string]rack.Entry{}
	for _, e := range job.Rack.Entries() {
		if old, ok := largest[e.Species]; !e.Rings.Known() && (!ok || e.VolumeCM3() > old.VolumeCM3()) {
			largest[e.Species] = e
		}
	}
	of := map[cutting.Ref]Source{}
	for _, n := range cutting.Needs(job) {
		if e, ok := largest[n.Species]; ok {
			of[n.Ref] = Source{ID: e.ID}
		}
	}
	return of
}
