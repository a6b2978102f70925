// Package booking writes down what was done: it books a plan on the rack and its patterns,
// and tells patterns what the timber says that they are made from.
package booking

import (
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/worksteps"
)

// A Booked pattern has an entry more of what was made.
type Booked struct {
	Stem    string
	Pattern pattern.Pattern
}

// Book writes down that plan was done at the bench on a day. It gives the rack as it
// lies then, and those patterns of which copies came out, in the job's order, each
// with one entry made. The job stays as it was.
//
// From the rack go the opened pieces and the ready strips that served. Back to its
// end come, in the order of the plan, the clear rectangles of an opened faulty piece
// that were not cut, whatever their size, and the tails, slabs and rips, as they leave
// the saws: an unplaned piece's slabs and rips are not planed. They keep moisture and
// use first, and their rings are those of the face that they show: a slab of a flat
// piece is flat, one of a side-sliced section quarter. Alike leftovers of one piece are
// one entry. Each gets the next id of its timber's letters, never that of what is on
// the rack or was just used up.
//
// A plan makes no strip in excess. But a copy that is short of strips does not come
// out: it is not counted as made, the strips cut for it go to the rack as ready
// strips, which the next plan will use, and ready strips meant for it stay there.
//
// What slices were filled with comes to the rack as ready strips.
//
// So for every timber the volume before is that after, with plan.GoneCM3, with the
// ready strips used and the faults cut out, less the strips laid aside for copies that
// are short; with what is gone by fill.GoneCM3 and the strips of fills where there are any.
func Book(job cutting.Job, plan cutting.Plan, on pattern.Date, letters func(species string) string) (rack.Rack, []Booked, error) {
	if err := cutting.Verify(job, plan); err != nil {
		return job.Rack, nil, fmt.Errorf("book a plan that does not fit the rack: plan it again: %w", err)
	}
	b := &booking{job: job, letters: letters, all: rack.Rack{Pieces: slices.Clone(job.Rack.Pieces), Strips: slices.Clone(job.Rack.Strips)}}
	short := map[cutting.Ref]bool{} // by copy
	for _, m := range plan.Missing {
		short[m.OfCopy()] = true
	}
	b.use(plan, short)
	b.back(worksteps.Details(job, plan), short)
	if b.err != nil {
		return job.Rack, nil, b.err
	}
	return b.left(), done(job, short, on), nil
}

// done returns the patterns of which copies came out.
func done(job cutting.Job, short map[cutting.Ref]bool, on pattern.Date) []Booked {
	var out []Booked
	for _, d := range job.Patterns {
		copies := 0
		for n := range d.Copies {
			if !short[cutting.Ref{Pattern: d.Stem, Copy: n + 1}] && len(d.Pattern.Strips) > 0 {
				copies++
			}
		}
		if copies > 0 {
			p := d.Pattern
			p.Made = append(slices.Clip(p.Made), pattern.Made{Date: on, Copies: copies})
			out = append(out, Booked{d.Stem, p})
		}
	}
	return out
}

// A booking is one under way.
type booking struct {
	job     cutting.Job
	letters func(string) string
	all     rack.Rack      // before, and behind that what came back: no id of either is given again
	used    map[string]int // copies that are gone of each entry
	err     error
}

// use counts what leaves the rack.
func (b *booking) use(plan cutting.Plan, short map[cutting.Ref]bool) {
	b.used = map[string]int{}
	for _, r := range plan.Ready {
		if !short[r.For.OfCopy()] {
			b.used[r.ID]++
		}
	}
}

// An opened copy of a piece, with its rectangles that were cut.
type opened struct {
	whole   rack.Piece
	details []worksteps.Detail
}

func (o *opened) cut(id string) bool {
	return slices.ContainsFunc(o.details, func(d worksteps.Detail) bool { return d.Piece.ID == id })
}

// back puts what is left of the opened pieces on the rack.
func (b *booking) back(details []worksteps.Detail, short map[cutting.Ref]bool) {
	var order []*opened
	at := map[string]*opened{}
	for _, d := range details {
		key := fmt.Sprintf("%s (%d)", d.Whole.ID, d.Cut.Copy)
		o := at[key]
		if o == nil {
			o = &opened{whole: d.Whole}
			at[key] = o
			order = append(order, o)
			b.used[d.Whole.ID]++
		}
		o.details = append(o.details, d)
	}
	from, last := len(b.all.Pieces), "" // entries of one piece's leftovers may be joined
	for _, o := range order {
		if o.whole.ID != last {
			from, last = len(b.all.Pieces), o.whole.ID
		}
		for _, c := range o.whole.Clear() {
			if !o.cut(c.ID) {
				b.put(c.Piece, from, fmt.Sprintf("clear part of %s", o.whole.ID))
			}
		}
		for _, d := range o.details {
			for _, l := range d.Back {
				b.put(l.Piece, from, fmt.Sprintf("%s of %s", l.Kind, o.whole.ID))
			}
		}
	}
	for _, d := range details {
		b.aside(d, short)
		b.fills(d)
	}
}

// fills lays the strips that slices were filled with on the rack, as long as their section.
func (b *booking) fills(d worksteps.Detail) {
	first := len(b.job.Rack.Strips)
	for s, sl := range d.Slices() {
		showing := d.Piece.Grain()
		if s.Side != sl.Fill.Edge {
			showing = showing.Rolled()
		}
		for _, w := range sl.Fill.Widths {
			b.lay(rack.Strip{
				Species: d.Piece.Species, Width: w, Thickness: sl.Fill.Glued, Length: s.Length, Quantity: 1, Rings: showing.Rings, Bark: showing.Bark,
				Heart: showing.Heart, Moisture: d.Piece.Moisture, UseFirst: d.Piece.UseFirst, Colour: d.Whole.Colour, From: d.Whole.From,
			}, first)
		}
	}
}

// put adds a leftover, or counts it to one that is alike, from an entry on.
func (b *booking) put(p rack.Piece, from int, note string) {
	p.ID, p.Quantity, p.Faults, p.Note = "", 1, nil, note
	for i := from; i < len(b.all.Pieces); i++ {
		q := &b.all.Pieces[i]
		p.ID, p.Quantity = q.ID, q.Quantity
		if q.Quantity < rack.MaxQuantity && (rack.Entry{Piece: p}).Equal(rack.Entry{Piece: *q}) {
			q.Quantity++
			return
		}
	}
	p.ID, p.Quantity = b.id(p.Species), 1
	b.keep(rack.Entry{Piece: p})
	b.all.Pieces = append(b.all.Pieces, p)
}

// aside makes ready strips of what was cut for copies that are short.
func (b *booking) aside(d worksteps.Detail, short map[cutting.Ref]bool) {
	first := len(b.job.Rack.Strips)
	for _, st := range d.Strips() {
		if short[st.OfCopy()] {
			b.lay(rack.Strip{
				Species: st.Species, Width: st.Width, Thickness: st.Glued, Length: st.Strip.Length, Quantity: 1,
				Rings: st.Showing.Rings, Bark: st.Showing.Bark, Heart: st.Showing.Heart, Moisture: d.Piece.Moisture, UseFirst: d.Piece.UseFirst, Colour: d.Whole.Colour, From: d.Whole.From,
			}, first)
		}
	}
}

// lay adds a ready strip, or counts it to one that is alike, from an entry on.
func (b *booking) lay(s rack.Strip, from int) {
	for i := from; i < len(b.all.Strips); i++ {
		q := &b.all.Strips[i]
		s.ID, s.Quantity = q.ID, q.Quantity
		if s == *q && q.Quantity < rack.MaxQuantity {
			q.Quantity++
			return
		}
	}
	s.ID, s.Quantity = b.id(s.Species), 1
	b.keep(rack.EntryOf(s))
	b.all.Strips = append(b.all.Strips, s)
}

func (b *booking) id(species string) string { return rack.NextID(b.all, b.letters(species)) }

// keep notes the first entry that a rack may not hold.
func (b *booking) keep(e rack.Entry) {
	if err := e.Check(); err != nil && b.err == nil {
		b.err = fmt.Errorf("book %s back: %w", e.Note, err)
	}
}

// left returns the rack without what was used.
func (b *booking) left() rack.Rack {
	var out rack.Rack
	for _, p := range b.all.Pieces {
		if p.Quantity -= b.used[p.ID]; p.Quantity > 0 {
			out.Pieces = append(out.Pieces, p)
		}
	}
	for _, s := range b.all.Strips {
		if s.Quantity -= b.used[s.ID]; s.Quantity > 0 {
			out.Strips = append(out.Strips, s)
		}
	}
	return out
}
