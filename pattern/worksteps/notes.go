package worksteps

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// Manuals is what the cautions of a job defer to; it stands once among its steps.
const Manuals = "follow your machine's manual, your training and local rules; ask a qualified person if unsure"

// A Note is one thing to know before a plan is cut. No level forbids anything.
type Note struct {
	Rule     string // stable: scripts go by it
	Level    pattern.Level
	Piece    string // id of the cut piece that it is about; of what holds for the whole job, the first
	Sections []int  // of the plan's cut, where it is about some that are worked on as one; else none
	Message  string
	Names    []string // of the pieces of a step by machine, where it does not hold for all of them
	step     step
	once     bool          // in a job
	under    length.Length // the setting under which it holds; 0: whatever that is
}

// A step is where in the work on one piece a note belongs.
type step int

const (
	nowhere step = iota // no note does
	atFaults
	atTruing
	atSaw // resawing
	atPlane
	atRip
)

// narrow is the width under which a strip is ripped with a push block (common
// practice, no source).
const narrow = 20 * length.Millimetre

// thinnestFed is the thinnest that one bench thicknesser's manual lets be fed to it, 3/16
// inch.
const thinnestFed = 3 * length.Inch / 16

// shortRipped is the length under which a push stick is used all along ("when making any
// cut less than 300 mm in length", HSE woodworking sheet 16 on circular saw benches; from
// memory).
const shortRipped = 300 * length.Millimetre

// A caution is a rule: what it tells of one piece, nothing where it does not hold.
type caution struct {
	rule  string
	level pattern.Level
	at    step
	once  bool // in a job
	find  func(piece) []remark
}

// A remark is what a rule tells of some sections of a piece, which are worked on as
// one.
type remark struct {
	sections []int // none: the whole piece
	text     string
	under    length.Length // of the machine's settings, those that it is about; 0: all
}

// where tells something of a whole piece where it holds.
func where(holds bool, text string) []remark {
	if !holds {
		return nil
	}
	return []remark{{text: text}}
}

// cautions lists every rule in the order of the work. A new one is one entry here.
func cautions() []caution {
	const note, care, stop = pattern.Fine, pattern.TakeCare, pattern.TooMuch
	return []caution{
		{"fault_along", care, atFaults, false, faultAlong},
		{"settle", care, atFaults, false, settle},
		{"unseen_rings", note, atFaults, false, unseenRings},
		{"short_surfacer", stop, atTruing, false, shortForSurfacer},
		{"stress_fork", note, atSaw, true, stressFork},
		{"flat_face", note, atSaw, true, flatFace},
		{"short_thicknesser", stop, atPlane, false, shortForThicknesser},
		{"keep_long", note, atPlane, false, keepLong},
		{"thin_thicknesser", care, atPlane, false, thinForThicknesser},
		{"wide_thicknesser", care, atPlane, false, wideForThicknesser},
		{"saw_depth", care, atRip, false, tooDeep},
		{"narrow_rip", note, atRip, true, narrowRip},
		{"short_rip", care, atRip, true, shortRip},
	}
}

// Notes lists what to know of the plan's cuts, piece by piece in the order of the
// work; lengths in the texts are in u. What holds for a whole job stands once, at the
// first piece that it is about.
func Notes(job cutting.Job, plan cutting.Plan, u length.Unit) []Note {
	pl := planner{job.Shop, u, job.RefsText}
	var all []Note
	for _, r := range readyUses(job, plan) {
		all = append(all, pl.readyNotes(r)...)
	}
	for _, p := range pl.pieces(job, plan, true) {
		all = append(all, p.notes...)
	}
	return all
}

// A planner puts the work on one plan into words.
type planner struct {
	shop  shop.Shop
	unit  length.Unit
	named func([]cutting.Ref) string // names strips of the job
}

// A piece is one that is cut, with what is worked as one and what to know of it.
type piece struct {
	planner
	Detail
	runs   []stretch // sections with the same stack
	planed []stretch // what goes over the plane as one
	notes  []Note
}

// pieces returns the pieces of a plan with the notes of each; what holds for a whole job
// is told at its first piece only where once is asked for.
func (pl planner) pieces(job cutting.Job, plan cutting.Plan, once bool) []piece {
	said := map[string]bool{}
	var out []piece
	for _, d := range Details(job, plan) {
		p := piece{planner: pl, Detail: d}
		p.runs = p.stretches(d.Sections, byRun)
		p.planed = p.allPlaned()
		for _, c := range cautions() {
			if once && c.once && said[c.rule] {
				continue
			}
			for _, r := range c.find(p) {
				said[c.rule] = true
				p.notes = append(p.notes, Note{Rule: c.rule, Level: c.level, Piece: d.Piece.ID, Sections: r.sections, Message: r.text,
					step: c.at, once: c.once, under: r.under})
			}
		}
		out = append(out, p)
	}
	return out
}

func (pl planner) with(l length.Length) string { return l.With(pl.unit) }

func (pl planner) size(sizes ...length.Length) string { return tell.Size(pl.unit, sizes...) }

// limit returns one of the machines' limits in words, as your thicknesser's 280 mm.
func (pl planner) limit(of func(shop.Machine) shop.Limitation) string {
	return of(pl.shop.Machine).Words(pl.unit)
}

// notFed says of what is so long that it is too short for a machine.
func (pl planner) notFed(l length.Length, of func(shop.Machine) shop.Limitation) string {
	return fmt.Sprintf("%s is under %s, do not feed it: ", pl.with(l), pl.limit(of))
}

// orByHand are the ways to plane what the thicknesser must not be fed.
const orByHand = "glue long runners to both edges, or plane it by hand"

// settling says of timber whose reading is not what strips count on that it must wait;
// nothing where it is near enough, or one of the two is not known.
func (pl planner) settling(reads, wants pattern.Reading, refs []cutting.Ref) string {
	if !reads.Known || !wants.Known || math.Abs(reads.Percent-wants.Percent) <= pl.shop.Limits.MoisturePct.Care {
		return ""
	}
	way := "dry it to that before gluing"
	if reads.Percent < wants.Percent { // it is not to wait to get wetter
		way = "correct the entry (r on the plan, or plan --real), then check again"
	}
	return fmt.Sprintf("it reads %.1f %%, %s is entered at %.1f %%: %s", reads.Percent, pl.named(refs), wants.Percent, way)
}

func faultAlong(p piece) []remark {
	return where(slices.ContainsFunc(p.Whole.Faults, func(f rack.Fault) bool { return f.Along }),
		"cracked wood can be thrown by a machine: cut the fault along the grain out before truing or planing, or leave the piece")
}

// unseenRings tells of a piece that nobody has looked at and of which strips ask for rings.
func unseenRings(p piece) []remark {
	if p.Piece.Rings.Known() {
		return nil
	}
	var asked []string
	for _, st := range p.Strips() {
		if text := st.Asked.Rings.String(); st.Asked.Rings.Known() && !slices.Contains(asked, text) {
			asked = append(asked, text)
		}
	}
	return where(len(asked) > 0, "check its end grain before you cut: the pattern asks for rings "+tell.List(asked, "and"))
}

// settle tells of strips whose pattern counts on another moisture than the piece reads.
func settle(p piece) []remark {
	var at tell.Groups[pattern.Reading, cutting.Ref]
	for _, st := range p.Strips() {
		at.Add(st.Asked.Moisture, st.Ref)
	}
	var out []remark
	for wants, refs := range at.All() {
		if text := p.settling(p.Piece.Moisture, wants, refs); text != "" {
			out = append(out, remark{text: text})
		}
	}
	return out
}

// tooShortThen says what a piece whose tail goes back should be done to before that is
// off, since it is too short for a machine then; nothing where it is not. To leave it
// long is the first way out.
func (p piece) tooShortThen() string {
	var work []string
	if len(shortForSurfacer(p)) > 0 {
		work = append(work, "truing")
	}
	if len(p.planed) == 1 && len(shortForThicknesser(p)) > 0 {
		work = append(work, "planing")
	}
	return strings.Join(work, " and ")
}

// togetherFirst says of a piece that is to be parted before it is planed, and of which a
// part is too short for that, what could be sawn and planed before; nothing where no two
// parts have a slice in common.
func (p piece) togetherFirst() string {
	for i, run := range p.planed {
		for k, other := range p.planed {
			if to, ok := inCommon(run, other); ok && k != i && run.length < p.shop.Machine.ThicknesserLength {
				return fmt.Sprintf("; but %s is under %s: resaw and plane to %s before parting, where both parts are that thick",
					p.with(run.length), p.limit(shop.Machine.ThicknesserLeast), p.with(to))
			}
		}
	}
	return ""
}

// inCommon returns the thickness that a slice of either run is planed to, where both are
// sawn the same way, to the same thickness, from the same face.
func inCommon(a, b stretch) (to length.Length, ok bool) {
	x, y := a.sections[0], b.sections[0]
	if x.Side != y.Side || len(x.Slices) == 0 || len(y.Slices) == 0 {
		return 0, false
	}
	first, other := x.Slices[0], y.Slices[0]
	return first.PlanesTo, first.Comes == other.Comes && first.PlanesTo == other.PlanesTo
}

func shortForSurfacer(p piece) []remark {
	trued := !p.Piece.Planed && p.shop.Allowance.Truing > 0
	return where(trued && p.InHand < p.shop.Machine.SurfacerLength,
		p.notFed(p.InHand, shop.Machine.Surfacer)+"glue long runners to both edges, or true it by hand plane")
}

// sawn reports whether the bandsaw is used on d.
func (d Detail) sawn() bool {
	return slices.ContainsFunc(d.Sections, func(s SectionDetail) bool { return s.Cuts > 0 })
}

func stressFork(p piece) []remark {
	return where(p.sawn(), "cut a test fork from thick stock before you resaw it: stressed wood curls when it is opened and can grip the blade; stand to one side")
}

func flatFace(p piece) []remark {
	return where(p.sawn(), "lay a flat face on the bandsaw's table: a lump that rolls grabs the blade")
}

// planed reports whether slices of s are to be planed.
func (s SectionDetail) planed() bool {
	return slices.ContainsFunc(s.Slices, func(sl SliceDetail) bool { return sl.PlanesTo < sl.Comes })
}

// shortForThicknesser tells of each run that is planed as one and is too short to be.
func shortForThicknesser(p piece) []remark {
	var out []remark
	for _, run := range p.planed {
		if run.length >= p.shop.Machine.ThicknesserLength {
			continue
		}
		text := p.notFed(run.length, shop.Machine.ThicknesserLeast)
		if len(p.planed) > 1 {
			text += "plane it together with its neighbour before you part them, where both become one thickness; or "
		}
		out = append(out, run.remark(len(p.planed), text+orByHand))
	}
	return out
}

// keepLong tells of each run that is long enough for the machine only while it is
// whole.
func keepLong(p piece) []remark {
	least := p.shop.Machine.ThicknesserLength
	var out []remark
	for _, run := range p.planed {
		at := slices.IndexFunc(run.sections, func(s SectionDetail) bool { return s.Length < least })
		if run.length >= least && at >= 0 {
			out = append(out, run.remark(len(p.planed), fmt.Sprintf("a length of %s is under %s: plane the run of %s whole and crosscut last",
				p.with(run.sections[at].Length), p.limit(shop.Machine.ThicknesserLeast), p.with(run.length))))
		}
	}
	return out
}

// remark says text of the run, which is one of so many.
func (run stretch) remark(of int, text string) remark {
	r := remark{text: text}
	if of > 1 {
		for _, s := range run.sections {
			r.sections = append(r.sections, s.Number)
		}
	}
	return r
}

func wideForThicknesser(p piece) []remark {
	most := p.shop.Machine.ThicknesserWidth
	for _, s := range p.Sections {
		if most > 0 && s.planed() && s.Across > most {
			return where(true, fmt.Sprintf("%s wide is over %s: rip the slices first, then plane the strips", p.with(s.Across), p.limit(shop.Machine.ThicknesserMost)))
		}
	}
	return nil
}

func thinForThicknesser(p piece) []remark {
	least := thinnestFed
	for sl, st := range p.Strips() {
		if st.Thickness < sl.Comes {
			least = min(least, st.Thickness)
		}
	}
	return where(least < thinnestFed,
		fmt.Sprintf("%s is thinner than a bench thicknesser's manual lets be fed (%s): carry it on a flat board where your manual allows that, or plane or sand it by hand",
			p.with(least), p.with(thinnestFed)))
}

func tooDeep(p piece) []remark {
	most := p.shop.Machine.SawDepth
	for _, sl := range p.Slices() {
		if most > 0 && sl.PlanesTo > most {
			return where(true, fmt.Sprintf("%s thick is over %s: rip it on the bandsaw, from a flat face", p.with(sl.PlanesTo), p.limit(shop.Machine.Saw)))
		}
	}
	return nil
}

func narrowRip(p piece) []remark {
	out := where(slices.ContainsFunc(p.Fence, func(l length.Length) bool { return l < narrow }),
		"use a push block for a narrow strip, keep the waste side free, never pinched between blade and fence")
	for i := range out {
		out[i].under = narrow
	}
	return out
}

// shortRip tells of short stock, which is what a saw throws; the saw has no least length
// in its settings.
func shortRip(p piece) []remark {
	least := p.InHand
	if sets := p.stretches(p.Sections, bySet); len(sets) > 1 {
		for _, set := range sets {
			least = min(least, set.length)
		}
	}
	return where(least < shortRipped,
		fmt.Sprintf("under %s long is short to rip, follow your saw's manual: push stick and riving knife, no hand near the blade; "+
			"or rip before you crosscut, or saw it by hand", p.with(shortRipped)))
}

// A stretch is sections that are worked on as one.
type stretch struct {
	sections []SectionDetail
	length   length.Length // their kerfs included
}

func byRun(s SectionDetail) int { return s.Run }
func bySet(s SectionDetail) int { return s.Set }

// stretches parts sections where key changes.
func (pl planner) stretches(sections []SectionDetail, key func(SectionDetail) int) []stretch {
	var out []stretch
	for i, s := range sections {
		if i == 0 || key(s) != key(sections[i-1]) {
			out = append(out, stretch{sections: sections[i : i+1], length: s.Length})
			continue
		}
		last := &out[len(out)-1]
		last.sections = sections[i-len(last.sections) : i+1]
		last.length += pl.shop.Kerf.Crosscut + s.Length
	}
	return out
}

// planing parts a run into what is planed as one: all of it, but where strips are
// ripped differently and some of the slices goes back as it was sawn, each set by
// itself.
func (pl planner) planing(run stretch) []stretch {
	for s, sl := range slicesOf(run.sections) {
		if sl.RipLeft > 0 && s.planed() {
			return pl.stretches(run.sections, bySet)
		}
	}
	return []stretch{run}
}

// allPlaned returns what is planed as one and does go over the plane. What is not crosscut
// before is as long as the piece in hand.
func (p piece) allPlaned() []stretch {
	var out []stretch
	for _, run := range p.runs {
		if run.sections[0].planed() {
			out = append(out, p.planing(run)...)
		}
	}
	if len(p.runs) == 1 && len(out) == 1 {
		out[0].length = p.InHand
	}
	return out
}
