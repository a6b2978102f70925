// Package fill offers strips for the rack out of what slices of a finished plan leave
// beside its own: nothing is resawn for them and no piece is opened. It says how many of
// which widths are worth most, and what is gone and goes back with them.
//
// Widths are whole nanometres; worth is in halves of them, so that it is exact.
package fill

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// Widths says which widths a slice may be filled with. The zero value is Off.
type Widths int

// The widths.
const (
	Off      Widths = iota
	Own             // those that are cut from the slice already: the fence is not moved
	Standing        // the standing ones of the workshop and the plan's other ones too, a new setting each
)

// Kinds lists the widths that can be asked for.
func Kinds() []Widths { return []Widths{Own, Standing} }

// String returns off, own or standing.
func (w Widths) String() string { return tell.Word(w, "fill", "off", "own", "standing") }

// An Ask is what fills go by.
type Ask struct {
	Widths Widths
	Saved  []pattern.Pattern // of strips that these would use more of, each is worth half as much again
	Rips   bool              // fills in place of a spare width are made too, and not only offered
}

// A kind is strips that can come out of a slice.
type kind struct {
	across length.Length // what one takes of the slice
	width  length.Length // finished
	wanted int           // so many of them are worth half as much again
}

// Of offers fills for the slices of plan, which is one of job, in the plan's order. It
// returns none of a slice in which no strip finds room.
func Of(job cutting.Job, plan cutting.Plan, ask Ask) []cutting.Fill {
	if ask.Widths == Off {
		return nil
	}
	f := filler{job: job, asked: cutting.NeedsOf(job, plan), pieces: pieces(job.Rack), wanted: wanted(job, ask.Saved)}
	if ask.Widths == Standing {
		f.standing = job.Shop.Standing.Widths()
		f.planned = map[length.Length][]length.Length{}
		for ref := range plan.Served() {
			if n := f.asked[ref]; n.Make != pattern.MakeEdge && !slices.Contains(f.planned[n.Glued], n.Width) {
				f.planned[n.Glued] = append(f.planned[n.Glued], n.Width)
			}
		}
	}
	var out []cutting.Fill
	for _, c := range plan.Cuts {
		for i, s := range c.Sections {
			for k, sl := range s.Slices {
				if fill, ok := f.slice(f.pieces[c.Piece], s, sl); ok {
					fill.Piece, fill.Copy, fill.Section, fill.Slice = c.Piece, c.Copy, i+1, k+1
					fill.Made = ask.Rips || !fill.InsteadOfRip
					out = append(out, fill)
				}
			}
		}
	}
	return out
}

// pieces returns the clear rectangles of a rack by their names; the first of a name counts.
func pieces(r rack.Rack) map[string]rack.Piece {
	out := map[string]rack.Piece{}
	for _, p := range r.Pieces {
		for _, c := range p.Clear() {
			if _, there := out[c.ID]; !there {
				out[c.ID] = c.Piece
			}
		}
	}
	return out
}

// A sort is what strips are alike in, to a pattern that would use them.
type sort struct {
	species      string
	width, glued length.Length
	edge         bool
}

// wanted counts the strips that saved patterns, made once more, would use beyond the ready
// strips on the rack.
func wanted(job cutting.Job, saved []pattern.Pattern) map[sort]int {
	out := map[sort]int{}
	for _, p := range saved {
		for _, s := range p.Strips {
			out[sort{s.Species, s.Width, job.Shop.Glued(p.Panel.Thickness), p.Panel.Make == pattern.MakeEdge}]++
		}
	}
	for of := range out {
		for _, s := range job.Rack.Strips {
			if s.Species == of.species && s.Width == of.width && s.Thickness >= of.glued {
				out[of] = max(0, out[of]-s.Quantity)
			}
		}
	}
	return out
}

// A filler goes through the slices of a plan.
type filler struct {
	job      cutting.Job
	asked    map[cutting.Ref]cutting.Strip
	pieces   map[string]rack.Piece
	wanted   map[sort]int // what is left of them
	standing []length.Length
	planned  map[length.Length][]length.Length // widths of flat strips, by their thickness before flattening
}

// slice offers the best fill of one slice.
func (f *filler) slice(p rack.Piece, s cutting.Section, sl cutting.Slice) (cutting.Fill, bool) {
	sh := f.job.Shop
	if s.Length < sh.Cut.Shortest || len(sl.Strips) == 0 {
		return cutting.Fill{}, false
	}
	left := Left(sh, p, s, sl, f.asked)
	own := f.asked[sl.Strips[0]]
	for _, ref := range sl.Strips { // a flat strip says what the slice is, where there is one
		if n := f.asked[ref]; n.Make != pattern.MakeEdge {
			own = n
			break
		}
	}
	kinds := f.kinds(own, sl)
	counts := best(kinds, left, sh.Kerf.Rip)
	fill := cutting.Fill{Edge: own.Make == pattern.MakeEdge, InsteadOfRip: sl.RipLeft > 0, Glued: own.Glued}
	if p.Planed && !fill.Edge {
		fill.Glued = p.Thickness
	}
	for i, k := range kinds {
		for range counts[i] {
			fill.Widths = append(fill.Widths, k.width)
			fill.Takes += k.across + sh.Kerf.Rip
			fill.CM3 += length.VolumeCM3(k.width, fill.Glued, s.Length)
		}
		of := sort{own.Species, k.width, own.Glued, fill.Edge}
		f.wanted[of] = max(0, f.wanted[of]-counts[i])
	}
	if len(fill.Widths) == 0 {
		return cutting.Fill{}, false
	}
	if rest := left - fill.Takes; s.Length >= sh.Keep.Length && rest >= sh.Keep.Width && rest > 0 {
		fill.RipLeft = rest
	}
	return fill, true
}

// kinds lists what a slice may be filled with, the widest first: what is cut from it already
// of the sort of own, then of flat strips the widths asked for.
func (f *filler) kinds(own cutting.Strip, sl cutting.Slice) []kind {
	sh := f.job.Shop
	var out []kind
	add := func(width, across length.Length) {
		if !slices.ContainsFunc(out, func(k kind) bool { return k.width == width && k.across == across }) {
			out = append(out, kind{across, width, f.wanted[sort{own.Species, width, own.Glued, own.Make == pattern.MakeEdge}]})
		}
	}
	for _, ref := range sl.Strips {
		if n := f.asked[ref]; n.Make == own.Make && n.Glued == own.Glued && (n.Make != pattern.MakeEdge || n.Width == own.Width) {
			add(n.Width, n.Across)
		}
	}
	if own.Make != pattern.MakeEdge {
		for _, w := range slices.Concat(f.standing, f.planned[own.Glued]) {
			add(w, w+sh.Allowance.Jointing)
		}
	}
	slices.SortStableFunc(out, func(a, b kind) int { return cmp.Compare(b.width, a.width) })
	return out
}

// Left returns what a slice of a section leaves beside its strips, their kerfs taken off.
func Left(sh shop.Shop, p rack.Piece, s cutting.Section, sl cutting.Slice, asked map[cutting.Ref]cutting.Strip) length.Length {
	left := p.Width
	if s.Side {
		left = p.Thickness
	}
	if !p.Planed {
		left -= sh.Allowance.Truing
	}
	for _, ref := range sl.Strips {
		left -= asked[ref].Across + sh.Kerf.Rip
	}
	return left
}

// A packing is so many of each kind, and what they are worth.
type packing struct {
	counts []int
	worth  int64 // in halves of a nanometre of width
	strips int
}

// best returns how many of each kind, which stand from the widest on, are worth most in what is left: of those
// that are, the fewest, then those with more of the wider. It tries each number of a kind
// and remembers what the kinds behind it come to in the room that is left.
func best(kinds []kind, left, rip length.Length) []int {
	type state struct {
		at   int
		room length.Length
	}
	known := map[state]packing{}
	var from func(at int, room length.Length) packing
	from = func(at int, room length.Length) packing {
		if at == len(kinds) {
			return packing{counts: []int{}}
		}
		if p, ok := known[state{at, room}]; ok {
			return p
		}
		k, found := kinds[at], packing{strips: -1}
		most := 0
		if step := k.across + rip; step > 0 && room > 0 {
			most = int(room / step)
		}
		for n := most; n >= 0; n-- {
			rest := from(at+1, room-length.Length(n)*(k.across+rip))
			p := packing{worth: rest.worth + int64(k.width)*int64(2*n+min(n, k.wanted)), strips: rest.strips + n}
			if found.strips < 0 || p.worth > found.worth || p.worth == found.worth && p.strips < found.strips {
				p.counts = append([]int{n}, rest.counts...)
				found = p
			}
		}
		known[state{at, room}] = found
		return found
	}
	return from(0, left+rip).counts // no kerf behind the last
}

// GoneCM3 returns what is gone of the opened pieces with the fills that are made: what was,
// less the strips, and less what goes back now in place of what would have.
func GoneCM3(plan cutting.Plan) float64 {
	gone := plan.GoneCM3
	for _, f := range plan.Fills {
		if s, sl := f.In(plan); f.Made && s != nil {
			gone -= f.CM3 + length.VolumeCM3(f.RipLeft, sl.Thickness, s.Length) - length.VolumeCM3(sl.RipLeft, sl.Thickness, s.Length)
		}
	}
	return gone
}

// Text says what one fill is, in a line.
func Text(f cutting.Fill, u length.Unit) string {
	var of tell.Groups[length.Length, int]
	for _, w := range f.Widths {
		of.Add(w, 0)
	}
	var parts []string
	for w, all := range of.All() {
		parts = append(parts, fmt.Sprintf("%d of %s", len(all), w.With(u)))
	}
	text := fmt.Sprintf("%s for the rack, %s", tell.List(parts, "and"), length.SmallVolume(f.CM3, u))
	switch {
	case f.InsteadOfRip && f.Made:
		text += ", instead of a spare width"
	case f.InsteadOfRip:
		text += ", instead of a spare width, which can still become any: not made"
	}
	return text
}
