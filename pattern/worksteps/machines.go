package worksteps

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// A Work is what is done at a machine. They stand in the order in which every piece
// goes through them, so that taking up one after the other breaks no piece's own order.
type Work int

// The works. A piece that is too short for a machine without its end offcut keeps that on
// until it is trued, or planed.
const (
	Fetch Work = iota
	Square
	EndOff
	True
	EndOffTrued
	PartStacks // into lengths that are resawn differently
	Resaw
	PartRough // into lengths that are ripped differently, of which some leave a spare width
	RipSpare
	Plane
	EndOffPlaned
	PartPlaned // into lengths that are ripped differently
	Rip
	PlaneOn // strips that are thinner than their slice
	Crosscut
	Already // as long as it is to be
	Shorten
	Back
)

// works has what each work is called, and the machine.
var works = [...]struct {
	name    string
	machine Machine
}{
	Fetch: {"fetch", ByHand}, Square: {"square", CrosscutSaw}, EndOff: {"end off", CrosscutSaw}, True: {"true", Surfacer},
	EndOffTrued: {"end off, trued", CrosscutSaw}, PartStacks: {"part stacks", CrosscutSaw}, Resaw: {"resaw", Bandsaw},
	PartRough: {"part rough", CrosscutSaw}, RipSpare: {"rip spare", Saw}, Plane: {"plane", Thicknesser},
	EndOffPlaned: {"end off, planed", CrosscutSaw}, PartPlaned: {"part planed", CrosscutSaw}, Rip: {"rip", Saw},
	PlaneOn: {"plane on", Thicknesser}, Crosscut: {"crosscut", CrosscutSaw}, Already: {"already", ByHand},
	Shorten: {"shorten", CrosscutSaw}, Back: {"back", ByHand},
}

// String returns its name.
func (w Work) String() string { return works[w].name }

// Machine returns what it is done at.
func (w Work) Machine() Machine { return works[w].machine }

// A Machine is one of the workshop's.
type Machine int

// The machines.
const (
	ByHand Machine = iota
	CrosscutSaw
	Surfacer
	Bandsaw
	Thicknesser
	Saw
)

// String returns its name.
func (m Machine) String() string {
	return tell.Word(m, "machine", "by hand", "crosscut saw", "surface planer", "bandsaw", "thicknesser", "saw")
}

// A Take is one piece, or what of it is worked as one, as a step takes it.
type Take struct {
	Work     Work
	Piece    string // id of the piece that is cut, or of the ready strip
	Copy     int    // of several alike
	Name     string // what is chalked on it
	Timber   string // key
	At       length.Length
	Sections []int           // of the plan's cut, where it is not all that is in hand
	Strips   []cutting.Ref   // that are in it
	Count    int             // slices, strips or lengths that come of it
	Long     length.Length   // of what is not all that is in hand
	From     length.Length   // thickness before, or width that edges are jointed to
	Sizes    []length.Length // of what is left; ripped: widths of strips for the rack, all alike
	Parts    []stretch
	Back     []string
	Rings    []string // expected
	Way      Way
	Ready    bool // a ready strip
	Follow   bool // what follows is to be done: a sawn face cleaned, a longer offcut cut
	More     string
	Notes    []Note
}

// A Way is how something is worked that may be worked in two ways.
type Way int

// The ways.
const (
	Plainly Way = iota // standing on edge at the bandsaw, flat at the saw
	OnFlat             // resawn lying flat
	OnEdge             // a ripped strip rolled a quarter turn
)

// A stepKey is what one step is set to.
type stepKey struct {
	work Work
	at   length.Length
	of   string // fetched: the timber
}

// byMachine returns the steps of a plan by machine and setting, each machine set once for
// all pieces that come to it. Settings fall from step to step, as slices are sawn from a
// piece and strips from a slice, the thickest and widest first. Pieces stand in the order
// in which they lie on the rack.
func (pl planner) byMachine(job cutting.Job, plan cutting.Plan) []Step {
	lies := map[string]int{}
	for i, p := range job.Rack.Pieces {
		lies[p.ID] = i
	}
	pieces := pl.pieces(job, plan, false)
	slices.SortStableFunc(pieces, func(a, b piece) int {
		return cmp.Or(cmp.Compare(lies[a.Whole.ID], lies[b.Whole.ID]), cmp.Compare(a.Cut.Copy, b.Cut.Copy), cmp.Compare(a.Piece.ID, b.Piece.ID))
	})
	var groups tell.Groups[stepKey, Take]
	add := func(takes []Take) {
		for _, t := range takes {
			key := stepKey{work: t.Work, at: t.At}
			if t.Work == Fetch && !t.Ready {
				key.of = t.Timber
			}
			groups.Add(key, t)
		}
	}
	for _, r := range readyUses(job, plan) {
		add(pl.readyTakes(r))
	}
	for _, p := range pieces {
		add(p.takes())
	}
	keys := slices.Clone(groups.Keys())
	slices.SortStableFunc(keys, func(a, b stepKey) int { return cmp.Or(cmp.Compare(a.work, b.work), cmp.Compare(b.at, a.at)) })
	var out []Step
	said := map[string]bool{}
	for _, key := range keys {
		takes := groups.Of(key)
		step := Step{Kind: StepCut, Work: key.work, At: key.at, Takes: takes, Notes: sharedNotes(takes, said)}
		if takes[0].Ready && key.work == Fetch {
			step.Kind = StepReady
		}
		out = append(out, step)
	}
	return out
}

// sharedNotes returns what to know of a step: what is the same for several pieces once,
// with the pieces named where it does not hold for all; what is said once in a job only
// where it was not said before.
func sharedNotes(takes []Take, said map[string]bool) []Note {
	type same struct{ rule, text string }
	var alike tell.Groups[same, Note]
	for _, t := range takes {
		for _, n := range t.Notes {
			n.Names = []string{t.Name}
			alike.Add(same{n.Rule, n.Message}, n)
		}
	}
	names := map[string]bool{}
	for _, t := range takes {
		names[t.Name] = true
	}
	var out []Note
	for _, all := range alike.All() {
		n := all[0]
		for _, other := range all[1:] {
			if !slices.Contains(n.Names, other.Names[0]) {
				n.Names = append(n.Names, other.Names[0])
			}
		}
		if n.once && said[n.Rule] {
			continue
		}
		said[n.Rule] = true
		if n.once || len(n.Names) == len(names) {
			n.Names = nil
		}
		out = append(out, n)
	}
	return out
}

// readyTakes returns what is done to a ready strip.
func (pl planner) readyTakes(r readyUse) []Take {
	of := Take{Piece: r.ID, Copy: r.Copy, Name: r.ID, Timber: r.lies.Species, Strips: []cutting.Ref{r.For}, Ready: true, Count: 1}
	out := []Take{of}
	if r.tooThick() {
		of.Work, of.At, of.From = Plane, r.need.Glued, r.lies.Thickness
		out = append(out, of)
	}
	if r.need.Length > 0 && r.lies.Length > r.need.Length {
		of.Work, of.At, of.From = Crosscut, r.need.Length, 0
		out = append(out, of)
	}
	return noted(out, pl.readyNotes(r))
}

// takes returns what is done to a piece, in its own order.
func (p piece) takes() []Take {
	t := &taker{piece: p}
	t.begin()
	if len(p.runs) > 1 {
		t.part(PartStacks, p.runs)
	}
	for _, run := range p.runs {
		t.run(run)
	}
	if texts, longer := p.back(); len(texts) > 0 {
		t.add(Back, stretch{}, Take{Back: texts, Follow: longer})
	}
	return noted(t.out, append(p.notes, t.notes...))
}

// A taker lists what is done to one piece.
type taker struct {
	piece
	out   []Take
	notes []Note // beside those of the piece
}

// add adds a take of what is worked as one, of the whole piece where that has no sections.
func (t *taker) add(work Work, of stretch, take Take) {
	take.Work, take.Piece, take.Copy, take.Name, take.Timber = work, t.Piece.ID, t.Cut.Copy, t.Name(), t.Piece.Species
	for _, s := range of.sections {
		take.Sections = append(take.Sections, s.Number)
	}
	if len(of.sections) > 0 && len(of.sections) < len(t.Sections) {
		take.Long = of.length
	}
	if take.Strips == nil {
		sections := of.sections
		if len(sections) == 0 {
			sections = t.Sections
		}
		for _, st := range stripsOf(sections) {
			take.Strips = append(take.Strips, st.Ref)
		}
	}
	t.out = append(t.out, take)
}

// begin fetches the piece, squares it, takes its end offcut off and trues it.
func (t *taker) begin() {
	p := t.Piece
	t.add(Fetch, stretch{}, Take{Sizes: []length.Length{p.Length, p.Width, p.Thickness}, More: t.fetchText()})
	if t.Trim > 0 {
		t.add(Square, stretch{}, Take{At: t.Trim})
	}
	if t.Cut.Tail > 0 {
		t.add(t.endOff(), stretch{}, Take{Sizes: []length.Length{t.Cut.Tail}})
	}
	if !p.Planed && t.shop.Allowance.Truing > 0 {
		t.add(True, stretch{}, Take{At: t.shop.Allowance.Truing, Sizes: []length.Length{t.Width, t.Thickness}})
	}
}

// endOff returns when the end offcut is cut off: before anything else, or after what the
// piece would be too short for without it, before which a note says so.
func (t *taker) endOff() Work {
	trued := len(shortForSurfacer(t.piece)) > 0
	planed := len(t.runs) == 1 && len(t.planed) == 1 && len(shortForThicknesser(t.piece)) > 0
	off, why, until := EndOff, "", atTruing
	switch {
	case trued && planed:
		off, why = EndOffPlaned, "truing and planing"
	case trued:
		off, why = EndOffTrued, "truing"
	case planed:
		off, why, until = EndOffPlaned, "planing", atPlane
	default:
		return EndOff
	}
	t.notes = append(t.notes, Note{Rule: "keep_end", Level: pattern.TakeCare, Piece: t.Piece.ID, step: until, Message: t.keepEnd(why)})
	return off
}

// part crosscuts what is in hand into stretches.
func (t *taker) part(work Work, into []stretch) {
	var whole stretch
	for _, s := range into {
		whole.sections = append(whole.sections, s.sections...)
		whole.length += s.length + t.shop.Kerf.Crosscut
	}
	whole.length -= t.shop.Kerf.Crosscut
	t.add(work, whole, Take{Parts: into, Count: len(into)})
}

// run makes strips of sections with the same stack.
func (t *taker) run(run stretch) {
	t.resaw(run)
	sets := t.stretches(run.sections, bySet)
	together := len(t.planing(run)) == 1
	parting := PartRough
	if together {
		t.plane(run)
		parting = PartPlaned
	}
	if len(sets) > 1 {
		t.part(parting, sets)
	}
	for _, set := range sets {
		if !together {
			t.plane(set)
		}
		t.rip(set)
		t.crosscut(set, len(t.runs) > 1 || len(sets) > 1 || t.Cut.Tail > 0)
	}
}

// inSlices returns the strips of the slices of sections that are such ones, and how many
// slices of the first section are.
func inSlices(sections []SectionDetail, such func(SliceDetail) bool) (refs []cutting.Ref, count int) {
	for i, s := range sections {
		for _, sl := range s.Slices {
			if !such(sl) {
				continue
			}
			if i == 0 {
				count++
			}
			for _, st := range sl.Strips {
				refs = append(refs, st.Ref)
			}
		}
	}
	return refs, count
}

func (t *taker) resaw(run stretch) {
	first := run.sections[0]
	if first.Cuts == 0 {
		return
	}
	var fences []length.Length // they fall: see the order of slices
	rest := length.Length(0)
	for _, sl := range first.Slices {
		if sl.Comes != sl.Sawn {
			rest = sl.Comes
		} else if !slices.Contains(fences, sl.Sawn) {
			fences = append(fences, sl.Sawn)
		}
	}
	for i, fence := range fences {
		take := Take{At: fence, Follow: first.Cuts > 1 && t.shop.Allowance.Cleaning > 0}
		take.Strips, take.Count = inSlices(run.sections, func(sl SliceDetail) bool { return sl.Comes == sl.Sawn && sl.Sawn == fence })
		if first.Side {
			take.Way = OnFlat
		}
		if i == len(fences)-1 {
			take.From = rest
			if first.Cuts == len(first.Slices) {
				take.Sizes = []length.Length{first.Through - first.SlabFrom}
			}
		}
		t.add(Resaw, run, take)
	}
}

// plane rips off what goes back of slices that are planed as one, and planes them.
func (t *taker) plane(run stretch) {
	first := run.sections[0]
	if !first.planed() {
		return
	}
	type spare struct{ width, thickness length.Length }
	type planing struct{ to, from length.Length }
	var spares tell.Groups[spare, int]
	var planings tell.Groups[planing, int]
	for _, sl := range slicesOf(run.sections) {
		if sl.RipLeft > 0 {
			spares.Add(spare{sl.RipLeft, sl.Sawn}, 0)
		}
		if sl.PlanesTo < sl.Comes {
			planings.Add(planing{sl.PlanesTo, sl.Comes}, 0)
		}
	}
	for _, s := range spares.Keys() {
		take := Take{At: s.width, Sizes: []length.Length{s.thickness}}
		take.Strips, take.Count = inSlices(run.sections, func(sl SliceDetail) bool { return spare{sl.RipLeft, sl.Sawn} == s })
		t.add(RipSpare, run, take)
	}
	for _, pl := range planings.Keys() {
		take := Take{At: pl.to, From: pl.from}
		take.Strips, take.Count = inSlices(run.sections, func(sl SliceDetail) bool { return planing{sl.PlanesTo, sl.Comes} == pl })
		t.add(Plane, run, take)
	}
}

func (t *taker) rip(set stretch) {
	fills := fillings(set, t.shop)
	var alike, first tell.Groups[ripping, cutting.Ref]
	for sl, st := range stripsOf(set.sections) {
		alike.Add(rippingOf(sl, st), st.Ref)
	}
	for sl, st := range stripsOf(set.sections[:1]) {
		first.Add(rippingOf(sl, st), st.Ref)
	}
	for r, refs := range alike.All() {
		take := Take{At: r.ripped, From: r.jointed, Strips: refs, Count: len(first.Of(r))}
		if r.edge {
			take.Way, take.From = OnEdge, r.planes
		}
		for i, f := range fills {
			if f.ripped == r.ripped && f.edge == r.edge {
				take.Sizes = slices.Repeat([]length.Length{f.wide}, f.count)
				fills = slices.Delete(fills, i, i+1)
				break
			}
		}
		t.add(Rip, set, take)
		if r.planes < r.thickness {
			t.add(PlaneOn, set, Take{At: r.planes, From: r.thickness, Strips: refs, Count: len(first.Of(r))})
		}
	}
	for _, f := range fills {
		take := Take{At: f.ripped, From: f.ripped, Strips: []cutting.Ref{}, Sizes: slices.Repeat([]length.Length{f.wide}, f.count)}
		if f.edge {
			take.Way = OnEdge
		}
		t.add(Rip, set, take)
	}
}

// crosscut cuts a set to its lengths, and shortens the strips that are shorter. Of a set
// that was cut to length before, a single section has no cut left.
func (t *taker) crosscut(set stretch, before bool) {
	work := Crosscut
	if before && len(set.sections) == 1 {
		work = Already
	}
	var at tell.Groups[length.Length, SectionDetail]
	for _, s := range set.sections {
		at.Add(s.Length, s)
	}
	for long, sections := range at.All() {
		take := Take{At: long, Count: len(sections)}
		for _, st := range stripsOf(sections) {
			if text := st.Showing.Rings.String(); st.Showing.Rings.Known() && !slices.Contains(take.Rings, text) {
				take.Rings = append(take.Rings, text)
			}
		}
		t.add(work, stretch{sections: sections}, take)
		var shorter tell.Groups[length.Length, cutting.Ref]
		for _, st := range stripsOf(sections) {
			if st.Length < long {
				shorter.Add(st.Length, st.Ref)
			}
		}
		for l, refs := range shorter.All() {
			t.add(Shorten, stretch{sections: sections}, Take{At: l, Strips: refs, Count: len(refs)})
		}
	}
}

// noted puts each note to the first take that it belongs to, or at least to the piece's
// first.
func noted(takes []Take, notes []Note) []Take {
	for _, n := range notes {
		at := slices.IndexFunc(takes, func(t Take) bool { return n.fits(t) })
		takes[max(0, at)].Notes = append(takes[max(0, at)].Notes, n)
	}
	return takes
}

// fits reports whether a note is to be known before a take.
func (n Note) fits(t Take) bool {
	at := map[step][]Work{atFaults: {Fetch}, atTruing: {True}, atSaw: {Resaw}, atPlane: {Plane, PlaneOn}, atRip: {Rip}}[n.step]
	about := len(n.Sections) == 0 || slices.ContainsFunc(n.Sections, func(s int) bool { return slices.Contains(t.Sections, s) })
	return slices.Contains(at, t.Work) && about && (n.under == 0 || t.At < n.under)
}
