package worksteps

import (
	"cmp"
	"fmt"
	"iter"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// A Detail is one opened piece of a plan with all that is drawn or said of cutting
// it. Lengths run from the near end, widths from the low edge, depths from the face
// that is trued first; widths and depths of an unplaned piece are those of the trued
// one.
type Detail struct {
	Cut              cutting.Cut   // as the plan has it
	Piece            rack.Piece    // what is cut: one copy, a clear rectangle where Whole has faults
	Whole            rack.Piece    // as it lies on the rack
	From, Low        length.Length // of Piece within Whole
	Width, Thickness length.Length // usable
	Trim             length.Length // squared off the near end
	TailFrom         length.Length // where the sections and their kerfs end
	InHand           length.Length // its length when the near end is square and the tail is off
	Sections         []SectionDetail
	Back             []Left          // tail, slabs, then rips
	Others           []rack.Clear    // clear parts of Whole that the plan leaves; told of with the first that it cuts
	Bandsaw          []length.Length // fence settings, each once, in the order of use
	Fence            []length.Length // of the saw that rips
	Stops            []length.Length // of the crosscut: lengths of sections, then of strips that are shorter
}

// Name returns what is chalked on the piece, and which of several alike it is: HB3 (1).
func (d Detail) Name() string {
	if d.Whole.Quantity > 1 {
		return fmt.Sprintf("%s (%d)", d.Cut.Piece, d.Cut.Copy)
	}
	return d.Cut.Piece
}

// A SectionDetail is one section. They lie along the piece in the order of the work:
// those with the same stack side by side, so that they are resawn and planed as one
// run and crosscut last.
type SectionDetail struct {
	Number   int // in the plan's cut
	Run      int // of the piece: its sections have the same stack
	Set      int // of the piece: sections of a run that are also ripped alike
	From     length.Length
	Length   length.Length
	Side     bool          // resawn across the piece's width
	Across   length.Length // what the bandsaw is to saw through
	Through  length.Length // what the stack is sawn out of
	Slices   []SliceDetail // in the order of sawing
	SlabFrom length.Length // depth
	Slab     length.Length // thickness of what goes back; 0: nothing
	Cuts     int           // of the bandsaw
}

// A SliceDetail is one slice of a section.
type SliceDetail struct {
	Number   int           // in the plan's section
	From     length.Length // depth
	Sawn     length.Length // as the plan counts it; the piece's thickness where that is planed
	Comes    length.Length // as it comes to the plane: more than Sawn where the rest is too thin to be sawn off
	PlanesTo length.Length // equal to Comes where nothing is to do
	Strips   []StripDetail // side by side from the low edge, the widest first
	RipFrom  length.Length
	RipLeft  length.Length // width of what goes back; 0: nothing
}

// A StripDetail is one strip of a slice, with what it is for.
type StripDetail struct {
	cutting.Strip
	From      length.Length   // across the slice
	Ripped    length.Length   // width off the saw
	Jointed   length.Length   // width when its edges are done
	Thickness length.Length   // planed
	Showing   pattern.Rings   // expected on its visible face
	Wants     pattern.Reading // the moisture that its pattern counts on
}

// A LeftKind says what of a piece goes back to the rack.
type LeftKind int

// The kinds of leftovers.
const (
	LeftTail LeftKind = iota // of its length
	LeftSlab                 // of a section's stack
	LeftRip                  // of a slice's width
)

// String returns tail, slab or rip.
func (k LeftKind) String() string {
	switch k {
	case LeftTail:
		return "tail"
	case LeftSlab:
		return "slab"
	case LeftRip:
		return "rip"
	default:
		return fmt.Sprintf("leftover(%d)", int(k))
	}
}

// A Left is something that goes back to the rack.
type Left struct {
	Kind    LeftKind
	Section int        // in the plan's cut; 0: of a tail
	Slice   int        // in the plan's section; 0: of a tail or a slab
	Piece   rack.Piece // one, without an id
}

// BackTexts tells of what goes back, alike pieces together: 2 slabs 620 x 85 x 23 mm.
func BackTexts(all []Left, u length.Unit) []string {
	type alike struct {
		kind                     LeftKind
		length, width, thickness length.Length
	}
	var of tell.Groups[alike, Left]
	for _, l := range all {
		of.Add(alike{l.Kind, l.Piece.Length, l.Piece.Width, l.Piece.Thickness}, l)
	}
	var texts []string
	for a, same := range of.All() {
		texts = append(texts, tell.Count(len(same), a.kind.String())+" "+tell.Size(u, a.length, a.width, a.thickness))
	}
	return texts
}

// A Setting is one machine with what it is set to for a piece, each once, in the order
// of use.
type Setting struct {
	Name string
	At   []length.Length
}

// Text returns what it is set to.
func (s Setting) Text(u length.Unit) string { return tell.Lengths(u, s.At...) }

// Settings lists the machines that are used on the piece.
func (d Detail) Settings() []Setting {
	return slices.DeleteFunc([]Setting{{"bandsaw fence", d.Bandsaw}, {"saw fence", d.Fence}, {"crosscut stop", d.Stops}},
		func(s Setting) bool { return len(s.At) == 0 })
}

// Text says what the piece is and how many sections it is cut into; timber is its name.
func (d Detail) Text(timber string, u length.Unit) string {
	state := "rough"
	if d.Piece.Planed {
		state = "planed"
	}
	part := ""
	if d.Piece.ID != d.Whole.ID {
		part = ", a clear part of " + d.Whole.ID
	}
	return fmt.Sprintf("%s, %s, %s%s, cut into %s", timber, tell.Size(u, d.Piece.Length, d.Piece.Width, d.Piece.Thickness), state, part,
		tell.Count(len(d.Sections), "section"))
}

// thinnestSawn is how much must come off to be worth a cut of the bandsaw; less is
// planed away (common practice, no source).
const thinnestSawn = 3 * length.Millimetre

// Details returns the cuts of plan, which must be one of job (see Verify), in its
// order. A cut of a piece that is not on the job's rack is left out.
func Details(job cutting.Job, plan cutting.Plan) []Detail {
	asked, strips := cutting.NeedsByRef(job), cutting.StripsByRef(job)
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
	var out []Detail
	for _, c := range plan.Cuts {
		if d, ok := clear[c.Piece]; ok {
			d.Cut, d.Piece.Quantity = c, 1
			d.fill(job.Shop, asked, strips)
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
		if _, ok := first[key]; !ok {
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

func (d *Detail) fill(sh shop.Shop, asked map[cutting.Ref]cutting.Strip, strips map[cutting.Ref]pattern.Strip) {
	d.Width, d.Thickness = d.Piece.Width, d.Piece.Thickness
	if !d.Piece.Planed {
		d.Width -= sh.Allowance.Truing
		d.Thickness -= sh.Allowance.Truing
	}
	for i, s := range d.Cut.Sections {
		d.Sections = append(d.Sections, d.section(sh, i+1, s, asked))
	}
	d.gather()
	for _, s := range d.Sections {
		for _, sl := range s.Slices {
			for i := range sl.Strips {
				sl.Strips[i].Wants = strips[sl.Strips[i].Ref].Moisture
			}
		}
	}
	d.Trim = sh.Allowance.EndTrim
	at := d.Trim
	for i := range d.Sections {
		s := &d.Sections[i]
		s.From = at
		at += s.Length + sh.Kerf.Crosscut
	}
	d.TailFrom = at
	d.InHand = d.Piece.Length - d.Trim
	if d.Cut.Tail > 0 {
		d.InHand = d.TailFrom - sh.Kerf.Crosscut - d.Trim
	}
	d.Back = d.back()
	d.settings()
}

func (d *Detail) section(sh shop.Shop, number int, s cutting.Section, asked map[cutting.Ref]cutting.Strip) SectionDetail {
	out := SectionDetail{Number: number, Length: s.Length, Side: s.Side, Across: d.Width, Through: d.Thickness, Slab: s.SlabLeft}
	if s.Side {
		out.Across, out.Through = out.Through, out.Across
	}
	for i, sl := range s.Slices {
		out.Slices = append(out.Slices, d.slice(sh, i+1, s.Side, sl, asked))
	}
	// The same stacks in the same order, whatever order the plan has them in.
	slices.SortStableFunc(out.Slices, func(a, b SliceDetail) int {
		return cmp.Or(cmp.Compare(b.Sawn, a.Sawn), slices.CompareFunc(a.Strips, b.Strips, widestFirst))
	})
	var at length.Length
	for i := range out.Slices {
		out.Slices[i].From = at
		at += out.Slices[i].Sawn + sh.Kerf.Resaw + sh.Allowance.Cleaning
	}
	out.SlabFrom = at
	if d.Piece.Planed || len(out.Slices) == 0 {
		return out
	}
	last := &out.Slices[len(out.Slices)-1]
	out.Cuts = len(out.Slices) - 1
	if !cutting.TooHigh(out.Across, sh.Machine.BandsawHeight) && (out.Slab > 0 || out.Through-at >= thinnestSawn) {
		out.Cuts++
	} else {
		last.Comes = out.Through - last.From
	}
	return out
}

func (d *Detail) slice(sh shop.Shop, number int, side bool, s cutting.Slice, asked map[cutting.Ref]cutting.Strip) SliceDetail {
	out := SliceDetail{Number: number, Sawn: s.Thickness, Comes: s.Thickness, RipLeft: s.RipLeft}
	for _, ref := range s.Strips {
		n := asked[ref]
		strip := StripDetail{Strip: n, Ripped: n.Across, Jointed: n.Across, Thickness: n.Least, Showing: d.Piece.Rings}
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
		out.RipFrom += out.Strips[i].Ripped + sh.Kerf.Rip
	}
	return out
}

func widestFirst(a, b StripDetail) int { return cmp.Compare(b.Ripped, a.Ripped) }

// gather puts sections with the same stack side by side, and of those the ones that
// are ripped alike; which comes first is as in the plan.
func (d *Detail) gather() {
	group := func(into func(*SectionDetail) *int, key func(*SectionDetail) string) {
		seen := map[string]int{}
		for i := range d.Sections {
			s := &d.Sections[i]
			k := key(s)
			if seen[k] == 0 {
				seen[k] = len(seen) + 1
			}
			*into(s) = seen[k]
		}
	}
	group(func(s *SectionDetail) *int { return &s.Run }, (*SectionDetail).stackKey)
	slices.SortStableFunc(d.Sections, func(a, b SectionDetail) int { return cmp.Compare(a.Run, b.Run) })
	group(func(s *SectionDetail) *int { return &s.Set }, func(s *SectionDetail) string {
		key := s.stackKey()
		for _, sl := range s.Slices {
			key += "/"
			for _, st := range sl.Strips {
				key += fmt.Sprint(int64(st.Ripped), " ")
			}
		}
		return key
	})
	slices.SortStableFunc(d.Sections, func(a, b SectionDetail) int { return cmp.Compare(a.Set, b.Set) })
}

// stackKey tells stacks apart.
func (s *SectionDetail) stackKey() string {
	key := fmt.Sprint(s.Side)
	for _, sl := range s.Slices {
		key += fmt.Sprint(" ", int64(sl.Sawn), " ", int64(sl.PlanesTo))
	}
	return key
}

// back lists what goes back, as it leaves the saws: slabs and rips of an unplaned
// piece have a sawn face and count as not planed. The rings of a side-sliced section
// lie the other way round on the broad face that is new.
func (d *Detail) back() []Left {
	base := d.Piece
	base.ID, base.Quantity, base.Faults = "", 1, nil
	base.Note = ""
	var slabs, rips []Left
	for _, s := range d.Sections {
		p := base
		p.Length = s.Length
		if s.Side {
			p.Rings = p.Rings.Rolled()
		}
		if s.Slab > 0 {
			slab := p
			slab.Width, slab.Thickness = s.Across, s.Slab
			slabs = append(slabs, Left{Kind: LeftSlab, Section: s.Number, Piece: slab})
		}
		for _, sl := range s.Slices {
			if sl.RipLeft > 0 {
				rip := p
				rip.Width, rip.Thickness = sl.RipLeft, sl.Sawn
				rips = append(rips, Left{Kind: LeftRip, Section: s.Number, Slice: sl.Number, Piece: rip})
			}
		}
	}
	var all []Left
	if d.Cut.Tail > 0 {
		tail := base
		tail.Length = d.Cut.Tail
		all = append(all, Left{Kind: LeftTail, Piece: tail})
	}
	return append(append(all, slabs...), rips...)
}

// settings lists what fences and stops are set to.
func (d *Detail) settings() {
	for _, s := range d.Sections {
		d.Stops = once(d.Stops, s.Length)
		for _, sl := range s.Slices {
			if s.Cuts > 0 && sl.Comes == sl.Sawn {
				d.Bandsaw = once(d.Bandsaw, sl.Sawn)
			}
			for _, st := range sl.Strips {
				d.Fence = once(d.Fence, st.Ripped)
			}
		}
	}
	for _, st := range d.Strips() {
		d.Stops = once(d.Stops, st.Length)
	}
}

// once appends l unless it is there.
func once(list []length.Length, l length.Length) []length.Length {
	if slices.Contains(list, l) {
		return list
	}
	return append(list, l)
}

// A span of sections that are worked on as one.
type stretch struct {
	sections []SectionDetail
	length   length.Length // their kerfs included
}

// stretches parts the sections where key changes.
func (d *Detail) stretches(sections []SectionDetail, crosscut length.Length, key func(SectionDetail) int) []stretch {
	var out []stretch
	for i, s := range sections {
		if i == 0 || key(s) != key(sections[i-1]) {
			out = append(out, stretch{sections: sections[i : i+1], length: s.Length})
			continue
		}
		last := &out[len(out)-1]
		last.sections = sections[i-len(last.sections) : i+1]
		last.length += crosscut + s.Length
	}
	return out
}

func byRun(s SectionDetail) int { return s.Run }

func bySet(s SectionDetail) int { return s.Set }

// Strips goes through the strips that come out of a piece in the order of the work, each
// with its slice.
func (d Detail) Strips() iter.Seq2[SliceDetail, StripDetail] { return stripsOf(d.Sections) }

func stripsOf(sections []SectionDetail) iter.Seq2[SliceDetail, StripDetail] {
	return func(yield func(SliceDetail, StripDetail) bool) {
		for _, s := range sections {
			for _, sl := range s.Slices {
				for _, st := range sl.Strips {
					if !yield(sl, st) {
						return
					}
				}
			}
		}
	}
}
