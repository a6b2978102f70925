package worksteps

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// thinnestSawn is how much must come off to be worth a cut of the bandsaw; less is
// planed away (common practice, no source).
const thinnestSawn = 3 * length.Millimetre

// Details returns the cuts of plan, which must be one of job (see cutting.Verify), in its
// order. A cut of a piece that is not on the job's rack is left out.
func Details(job cutting.Job, plan cutting.Plan) []Detail {
	used := map[string]bool{} // ids of what is cut, and of the pieces that it may be a part of
	for _, c := range plan.Cuts {
		used[c.Piece] = true
		for at, sign := range c.Piece {
			if sign == '/' {
				used[c.Piece[:at]] = true
			}
		}
	}
	clear := map[string]Detail{}
	for _, p := range job.Rack.Pieces {
		if !used[p.ID] {
			continue // many faults leave very many parts
		}
		for _, c := range p.Clear() {
			clear[c.ID] = Detail{Piece: c.Piece, Whole: p, From: c.From, Low: c.Low}
		}
	}
	l := layer{job.Shop, cutting.NeedsOf(job, plan), map[fillKey]cutting.Fill{}}
	for _, f := range plan.Fills {
		if f.Made {
			l.fills[fillKey{f.Piece, f.Copy, f.Section, f.Slice}] = f
		}
	}
	var out []Detail
	for _, c := range plan.Cuts {
		if d, ok := clear[c.Piece]; ok {
			d.Cut, d.Piece.Quantity = c, 1
			l.fill(&d)
			out = append(out, d)
		}
	}
	leaveOthers(out)
	return out
}

// leaveOthers tells the first cut of each opened piece of its clear parts that no cut
// is of.
func leaveOthers(details []Detail) {
	type copyOf struct {
		piece string
		copy  int
	}
	cut, first := map[copyOf][]string{}, map[copyOf]int{}
	for i, d := range details {
		key := copyOf{d.Whole.ID, d.Cut.Copy}
		if len(cut[key]) == 0 {
			first[key] = i
		}
		cut[key] = append(cut[key], d.Piece.ID)
	}
	for key, i := range first {
		for _, c := range details[i].Whole.Clear() {
			if !slices.Contains(cut[key], c.ID) {
				details[i].Others = append(details[i].Others, c)
			}
		}
	}
}

// A layer lays out how pieces are cut.
type layer struct {
	shop  shop.Shop
	asked map[cutting.Ref]cutting.Strip
	fills map[fillKey]cutting.Fill // that are made
}

// A fillKey is a slice of a plan.
type fillKey struct {
	piece                string
	copy, section, slice int
}

func (l layer) fill(d *Detail) {
	d.Width, d.Thickness, d.Trim = d.Piece.Width, d.Piece.Thickness, l.shop.Allowance.EndTrim
	if !d.Piece.Planed {
		d.Width -= l.shop.Allowance.Truing
		d.Thickness -= l.shop.Allowance.Truing
	}
	for i, s := range d.Cut.Sections {
		d.Sections = append(d.Sections, l.section(d, i+1, s))
	}
	d.gather()
	at := d.Trim
	for i := range d.Sections {
		d.Sections[i].From = at
		at += d.Sections[i].Length + l.shop.Kerf.Crosscut
	}
	d.TailFrom = at
	d.InHand = d.Piece.Length - d.Trim
	if d.Cut.Tail > 0 {
		d.InHand = d.TailFrom - l.shop.Kerf.Crosscut - d.Trim
	}
	d.leftovers()
	d.settings()
}

func (l layer) section(d *Detail, number int, s cutting.Section) SectionDetail {
	out := SectionDetail{Number: number, Length: s.Length, Side: s.Side, Across: d.Width, Through: d.Thickness, Slab: s.SlabLeft}
	if s.Side {
		out.Across, out.Through = out.Through, out.Across
	}
	for i, sl := range s.Slices {
		slice := l.slice(d, i+1, s.Side, sl)
		if f, filled := l.fills[fillKey{d.Cut.Piece, d.Cut.Copy, number, i + 1}]; filled {
			slice.Fill, slice.RipLeft = f, f.RipLeft
			slice.RipFrom += f.Takes
		}
		out.Slices = append(out.Slices, slice)
	}
	// The same stacks in the same order, whatever order the plan has them in.
	slices.SortStableFunc(out.Slices, func(a, b SliceDetail) int {
		return cmp.Or(cmp.Compare(b.Sawn, a.Sawn), slices.CompareFunc(a.Strips, b.Strips, widestFirst))
	})
	for i := range out.Slices {
		out.Slices[i].From = out.SlabFrom
		out.SlabFrom += out.Slices[i].Sawn + l.shop.Kerf.Resaw + l.shop.Allowance.Cleaning
	}
	if d.Piece.Planed || len(out.Slices) == 0 {
		return out
	}
	out.Cuts = len(out.Slices) - 1
	if !cutting.TooHigh(out.Across, l.shop.Machine.BandsawHeight) && (out.Slab > 0 || out.Through-out.SlabFrom >= thinnestSawn) {
		out.Cuts++
	} else {
		last := &out.Slices[len(out.Slices)-1]
		last.Comes = out.Through - last.From
	}
	return out
}

func (l layer) slice(d *Detail, number int, side bool, s cutting.Slice) SliceDetail {
	out := SliceDetail{Number: number, Sawn: s.Thickness, Comes: s.Thickness, RipLeft: s.RipLeft}
	for _, ref := range s.Strips {
		n := l.asked[ref]
		strip := StripDetail{Strip: n, Ripped: n.Across, Jointed: n.Across, Thickness: n.Least, Showing: d.Piece.Grain()}
		if n.Make == pattern.MakeFlat {
			strip.Jointed = n.Width
		}
		if side != (n.Make == pattern.MakeEdge) {
			strip.Showing = strip.Showing.Rolled()
		}
		out.Strips = append(out.Strips, strip)
		out.PlanesTo = max(out.PlanesTo, n.Least)
	}
	slices.SortStableFunc(out.Strips, widestFirst)
	for i := range out.Strips {
		out.Strips[i].From = out.RipFrom
		out.RipFrom += out.Strips[i].Ripped + l.shop.Kerf.Rip
	}
	return out
}

func widestFirst(a, b StripDetail) int { return cmp.Compare(b.Ripped, a.Ripped) }

// gather puts sections with the same stack side by side, and of those the ones that
// are ripped alike; which comes first is as in the plan.
func (d *Detail) gather() {
	group := func(into func(*SectionDetail) *int, key func(SectionDetail) string) {
		seen := map[string]int{}
		for i := range d.Sections {
			k := key(d.Sections[i])
			if seen[k] == 0 {
				seen[k] = len(seen) + 1
			}
			*into(&d.Sections[i]) = seen[k]
		}
		slices.SortStableFunc(d.Sections, func(a, b SectionDetail) int { return cmp.Compare(*into(&a), *into(&b)) })
	}
	stack := func(s SectionDetail) string {
		key := fmt.Sprint(s.Side)
		for _, sl := range s.Slices {
			key += fmt.Sprint(" ", int64(sl.Sawn), " ", int64(sl.PlanesTo))
		}
		return key
	}
	group(func(s *SectionDetail) *int { return &s.Run }, stack)
	group(func(s *SectionDetail) *int { return &s.Set }, func(s SectionDetail) string {
		key := stack(s)
		for _, sl := range s.Slices {
			key += "/"
			for _, st := range sl.Strips {
				key += fmt.Sprint(int64(st.Ripped), " ")
			}
			key += fmt.Sprint(sl.Fill.Widths)
		}
		return key
	})
}

// leftovers lists what goes back, as it leaves the saws: slabs and rips of an unplaned
// piece have a sawn face and count as not planed. The rings of a side-sliced section
// lie the other way round on the broad face that is new.
func (d *Detail) leftovers() {
	left := func(kind LeftKind, s SectionDetail, slice int, long, width, thickness length.Length) {
		if min(long, width, thickness) <= 0 {
			return
		}
		p := d.Piece
		p.ID, p.Note, p.Faults = "", "", nil
		p.Length, p.Width, p.Thickness = long, width, thickness
		if s.Side {
			p.Lay(p.Grain().Rolled())
		}
		d.Back = append(d.Back, Left{Kind: kind, Section: s.Number, Slice: slice, Piece: p})
	}
	left(LeftTail, SectionDetail{}, 0, d.Cut.Tail, d.Piece.Width, d.Piece.Thickness)
	for _, s := range d.Sections {
		left(LeftSlab, s, 0, s.Length, s.Across, s.Slab)
	}
	for s, sl := range d.Slices() {
		left(LeftRip, s, sl.Number, s.Length, sl.RipLeft, sl.Sawn)
	}
}

// settings lists what fences and stops are set to.
func (d *Detail) settings() {
	once := func(list *[]length.Length, l length.Length) {
		if !slices.Contains(*list, l) {
			*list = append(*list, l)
		}
	}
	for _, s := range d.Sections {
		once(&d.Stops, s.Length)
	}
	for s, sl := range d.Slices() {
		if s.Cuts > 0 && sl.Comes == sl.Sawn {
			once(&d.Bandsaw, sl.Sawn)
		}
	}
	for _, st := range d.Strips() {
		once(&d.Fence, st.Ripped)
		once(&d.Stops, st.Length)
	}
}
