package remake

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// awayWithin is how far two ways may stand in the wrong order: the search counts in
// ten-thousandths, rounded once for each timber.
const awayWithin = 1e-3

// uphold looks at every claim before it is handed out, as that of a Result does.
func (a *Result) uphold(r movement.Physics, ask Request) {
	var first *suggest.Broken
	note := func(b *suggest.Broken, place int) {
		if first == nil && b != nil {
			b.Layout = place
			first = b
		}
	}
	kept := make([]Way, 0, len(a.Answers))
	for i, s := range a.Answers {
		b := ask.same(r, s)
		if b == nil && slices.ContainsFunc(kept, func(o Way) bool { return slices.Equal(o.timbersOf(ask), s.timbersOf(ask)) }) {
			b = suggest.NewBroken(suggest.ClaimUnlike, "another choice of timbers", "the same")
		}
		if b == nil && len(kept) > 0 && s.ColourDistance < kept[len(kept)-1].ColourDistance-awayWithin {
			b = suggest.NewBroken(suggest.ClaimOrder, fmt.Sprintf("no nearer than %v", kept[len(kept)-1].ColourDistance), s.ColourDistance)
		}
		if note(b, i+1); b == nil || b.Claim == suggest.ClaimOrder {
			kept = append(kept, s)
		}
	}
	a.Answers = kept
	n := len(kept)
	if none := a.Status == suggest.Infeasible || a.Status == suggest.Open; none != (n == 0) || n > ask.Answers {
		note(suggest.NewBroken(suggest.ClaimStatus, a.Status, fmt.Sprintf("%d ways of %d", n, ask.Answers)), 0)
	}
	if first == nil {
		return
	}
	a.Broken = first
	for i := range a.Answers {
		a.Answers[i].Plan.Status, a.Answers[i].Plan.LowerBoundCM3 = cutting.Feasible, 0
	}
	if a.Status = suggest.Feasible; n == 0 {
		a.Status = suggest.Open
	}
}

// timbersOf returns the timber in the place of each strip.
func (s Way) timbersOf(ask Request) []string {
	var out []string
	for _, t := range ask.Pattern.Strips {
		out = append(out, s.Timbers[t.Species])
	}
	return out
}

// same returns the first claim of one way that is wrong.
func (a Request) same(r movement.Physics, s Way) *suggest.Broken {
	if b := a.swapped(s); b != nil {
		return b
	}
	away, now := 0.0, map[string]species.RGB{}
	for i, t := range a.Pattern.Strips {
		was, _ := r.Table().Get(t.Species)
		key := s.Pattern.Strips[i].Species
		if _, known := now[key]; !known {
			timber, _ := r.Table().Get(key)
			now[key] = a.Rack.Colour(key).Or(timber.ColourOiled)
		}
		away += t.Width.MM() * species.Contrast(t.Colour.Or(was.ColourOiled), now[key])
	}
	if math.Abs(away-s.ColourDistance) > suggest.AsGood*max(1, away) {
		return suggest.NewBroken(suggest.ClaimColour, s.ColourDistance, away)
	}
	level, least := pattern.Fine, 0.0
	for copy := range a.Copies {
		made := a.asMade(s, copy+1)
		if copy == 0 && !slices.Equal(made.Strips, s.Pattern.Strips) {
			return suggest.NewBroken(suggest.ClaimTimber, "the strips as the plan makes them", "others")
		}
		for i, line := range r.Panel(made).Lines() {
			level = max(level, line.Level)
			left, right := made.Strips[i].Species, made.Strips[i+1].Species
			if c := species.Contrast(now[left], now[right]); left != right && (least == 0 || c < least) {
				least = c
			}
		}
	}
	if least > 0 && least < r.Shop().Limits.Contrast {
		return suggest.NewBroken(suggest.ClaimContrast, r.Shop().Limits.Contrast, least)
	}
	if level != s.Level || level > a.Level {
		return suggest.NewBroken(suggest.ClaimLevel, fmt.Sprintf("%v of at most %v", s.Level, a.Level), level)
	}
	if least != s.SmallestContrast {
		return suggest.NewBroken(suggest.ClaimContrast, s.SmallestContrast, least)
	}
	if s.Plan.Short > 0 {
		return suggest.NewBroken(suggest.ClaimPlan, "nothing short", s.Plan.Short)
	}
	job := a.Job(r, s)
	job.Rack = named(a.Rack, s.Plan)
	if err := cutting.Verify(job, s.Plan); err != nil {
		return suggest.NewBroken(suggest.ClaimPlan, "it can be cut", err)
	}
	return nil
}

// swapped looks whether each timber has one in its place, no two the same, and strips are
// otherwise as they were but for how their rings lie, moisture and colour.
func (a Request) swapped(s Way) *suggest.Broken {
	taken := map[string]string{} // by what is in its place
	if len(s.Pattern.Strips) != len(a.Pattern.Strips) {
		return suggest.NewBroken(suggest.ClaimStrips, len(a.Pattern.Strips), len(s.Pattern.Strips))
	}
	for i, was := range a.Pattern.Strips {
		now := s.Pattern.Strips[i]
		if before, there := taken[now.Species]; there && before != was.Species {
			return suggest.NewBroken(suggest.ClaimTimber, "each timber in one place", now.Species+" in two")
		}
		taken[now.Species] = was.Species
		if s.Timbers[was.Species] != now.Species {
			return suggest.NewBroken(suggest.ClaimTimber, fmt.Sprintf("strip %d is %s", i+1, s.Timbers[was.Species]), now.Species)
		}
		was.Species, was.Moisture, was.Colour = now.Species, now.Moisture, now.Colour
		was.Lay(now.Grain())
		if was != now {
			return suggest.NewBroken(suggest.ClaimWidth, fmt.Sprintf("strip %d as it was", i+1), "it is not")
		}
	}
	return nil
}

// asMade returns a copy as the plan of a way makes it, worked out from the plan itself:
// moisture and colour are those of the piece, and rings are the piece's on the face that shows, which
// turn once where the section is sliced from its side and once where strips are on edge.
func (a Request) asMade(s Way, copy int) pattern.Pattern {
	p := a.asked(s.Timbers)
	take := func(ref cutting.Ref, g pattern.Grain, m pattern.Reading, own colour.Own) {
		if ref.Copy == copy && ref.Strip >= 1 && ref.Strip <= len(p.Strips) {
			s := &p.Strips[ref.Strip-1]
			s.Moisture, s.Colour = m, own
			s.Lay(g.Laid(*s))
		}
	}
	for _, ready := range s.Plan.Ready {
		for _, lying := range a.Rack.Strips {
			if lying.ID == ready.ID {
				take(ready.For, rack.EntryOf(lying).Grain(), lying.Moisture, lying.Colour)
			}
		}
	}
	for _, c := range s.Plan.Cuts {
		piece, there := a.pieceOf(c.Piece)
		if !there {
			continue
		}
		for _, section := range c.Sections {
			grain := piece.Grain()
			if section.Side != (p.Panel.Make == pattern.MakeEdge) {
				grain = grain.Rolled()
			}
			for _, slice := range section.Slices {
				for _, ref := range slice.Strips {
					take(ref, grain, piece.Moisture, piece.Colour)
				}
			}
		}
	}
	return p
}

// pieceOf returns the piece of the rack that goes by id, or whose clear part does.
func (a Request) pieceOf(id string) (rack.Piece, bool) {
	for _, name := range [...]string{id, id[:max(0, strings.LastIndexByte(id, '/'))]} {
		if at := slices.IndexFunc(a.Rack.Pieces, func(p rack.Piece) bool { return p.ID == name }); at >= 0 {
			return a.Rack.Pieces[at], true
		}
	}
	return rack.Piece{}, false
}

// named returns the part of a rack that a plan names: the rest has no part in whether it
// can be cut, and may be much.
func named(r rack.Rack, p cutting.Plan) rack.Rack {
	ids := map[string]bool{}
	for _, ready := range p.Ready {
		ids[ready.ID] = true
	}
	for _, c := range p.Cuts {
		ids[c.Piece] = true
		if end := strings.LastIndexByte(c.Piece, '/'); end >= 0 { // a clear rectangle of a piece
			ids[c.Piece[:end]] = true
		}
	}
	var out rack.Rack
	for _, piece := range r.Pieces {
		if ids[piece.ID] {
			out.Pieces = append(out.Pieces, piece)
		}
	}
	for _, s := range r.Strips {
		if ids[s.ID] {
			out.Strips = append(out.Strips, s)
		}
	}
	return out
}
