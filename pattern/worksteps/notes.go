package worksteps

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
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
	step     step
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

// A caution is a rule: what it tells of one piece, nothing where it does not hold.
type caution struct {
	rule  string
	level pattern.Level
	at    step
	once  bool // in a job
	find  func(planner, Detail) []remark
}

// A remark is what a rule tells of some sections of a piece, which are worked on as
// one.
type remark struct {
	sections []int // none: the whole piece
	text     string
}

// whole makes a rule of what is told of a piece as a whole, empty where it is nothing.
func whole(find func(planner, Detail) string) func(planner, Detail) []remark {
	return func(pl planner, d Detail) []remark {
		if text := find(pl, d); text != "" {
			return []remark{{text: text}}
		}
		return nil
	}
}

// cautions lists every rule in the order of the work. A new one is one entry here.
func cautions() []caution {
	const note, care, stop = pattern.Fine, pattern.TakeCare, pattern.TooMuch
	return []caution{
		{"fault_along", care, atFaults, false, whole(faultAlong)},
		{"settle", care, atFaults, false, settle},
		{"short_surfacer", stop, atTruing, false, whole(shortForSurfacer)},
		{"stress_fork", note, atSaw, true, whole(stressFork)},
		{"flat_face", note, atSaw, true, whole(flatFace)},
		{"short_thicknesser", stop, atPlane, false, shortForThicknesser},
		{"keep_long", note, atPlane, false, keepLong},
		{"thin_thicknesser", care, atPlane, false, whole(thinForThicknesser)},
		{"wide_thicknesser", care, atPlane, false, whole(wideForThicknesser)},
		{"saw_depth", care, atRip, false, whole(tooDeep)},
		{"narrow_rip", note, atRip, true, whole(narrowRip)},
		{"short_rip", care, atRip, true, whole(shortRip)},
	}
}

// Notes lists what to know of the plan's cuts, piece by piece in the order of the
// work; lengths in the texts are in u. What holds for a whole job stands once, at the
// first piece that it is about.
func Notes(job cutting.Job, plan cutting.Plan, u length.Unit) []Note {
	pl := planner{job.Shop, u}
	var all []Note
	for _, r := range readyUses(job, plan) {
		all = append(all, pl.readyNotes(r)...)
	}
	for _, notes := range pl.notes(Details(job, plan)) {
		all = append(all, notes...)
	}
	return all
}

// A planner puts the work on one plan into words.
type planner struct {
	shop shop.Shop
	unit length.Unit
}

// notes returns those of each piece.
func (pl planner) notes(details []Detail) [][]Note {
	said := map[string]bool{}
	out := make([][]Note, len(details))
	for i, d := range details {
		for _, c := range cautions() {
			if c.once && said[c.rule] {
				continue
			}
			for _, r := range c.find(pl, d) {
				said[c.rule] = true
				out[i] = append(out[i], Note{c.rule, c.level, d.Piece.ID, r.sections, r.text, c.at})
			}
		}
	}
	return out
}

func faultAlong(_ planner, d Detail) string {
	for _, f := range d.Whole.Faults {
		if f.Along {
			return "cracked wood can be thrown by a machine: cut the fault along the grain out before truing or planing, or leave the piece"
		}
	}
	return ""
}

func (pl planner) with(l length.Length) string { return l.With(pl.unit) }

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

// settle tells of strips whose pattern counts on another moisture than the piece reads.
func settle(pl planner, d Detail) []remark {
	var at tell.Groups[float64, cutting.Ref]
	for _, st := range d.Strips() {
		if pl.settling(d.Piece.Moisture, st.Wants, nil) != "" {
			at.Add(st.Wants.Percent, st.Ref)
		}
	}
	var out []remark
	for percent, refs := range at.All() {
		out = append(out, remark{text: pl.settling(d.Piece.Moisture, pattern.Read(percent), refs)})
	}
	return out
}

// tooShortThen says what a piece whose tail goes back should be done to before that is
// off, since it is too short for a machine then; nothing where it is not. To leave it
// long is the first way out.
func (pl planner) tooShortThen(d Detail) string {
	var work []string
	if shortForSurfacer(pl, d) != "" {
		work = append(work, "trued")
	}
	if all := d.planed(pl); len(all) == 1 && len(shortForThicknesser(pl, d)) > 0 {
		work = append(work, "planed")
	}
	return strings.Join(work, " and ")
}

// togetherFirst says of a piece that is to be parted before it is planed, and of which a
// part is too short for that, what could be sawn and planed before; nothing where no two
// parts have a slice in common.
func (pl planner) togetherFirst(d Detail) string {
	least := pl.shop.Machine.ThicknesserLength
	all := d.planed(pl)
	for i, run := range all {
		for k, other := range all {
			if to, ok := inCommon(run, other); ok && k != i && run.length < least {
				return fmt.Sprintf("; but %s is under %s: what comes to %s out of both may be resawn and planed before", pl.with(run.length), pl.limit(shop.Machine.ThicknesserLeast), pl.with(to))
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

func shortForSurfacer(pl planner, d Detail) string {
	if d.Piece.Planed || pl.shop.Allowance.Truing == 0 || d.InHand >= pl.shop.Machine.SurfacerLength {
		return ""
	}
	return pl.notFed(d.InHand, shop.Machine.Surfacer) + "glue long runners to both edges, or true it by hand plane"
}

// sawn reports whether the bandsaw is used on d.
func (d Detail) sawn() bool {
	return slices.ContainsFunc(d.Sections, func(s SectionDetail) bool { return s.Cuts > 0 })
}

func stressFork(_ planner, d Detail) string {
	if !d.sawn() {
		return ""
	}
	return "before resawing thick stock cut a test fork from it: stressed wood curls when it is opened and can grip the blade"
}

func flatFace(_ planner, d Detail) string {
	if !d.sawn() {
		return ""
	}
	return "what lies on the bandsaw's table is flat there: a lump that rolls grabs the blade"
}

// planed reports whether slices of s are to be planed.
func (s SectionDetail) planed() bool {
	return slices.ContainsFunc(s.Slices, func(sl SliceDetail) bool { return sl.PlanesTo < sl.Comes })
}

// shortForThicknesser tells of each run that is planed as one and is too short to be.
func shortForThicknesser(pl planner, d Detail) []remark {
	least := pl.shop.Machine.ThicknesserLength
	all := d.planed(pl)
	var out []remark
	for _, run := range all {
		if run.length >= least {
			continue
		}
		text := pl.notFed(run.length, shop.Machine.ThicknesserLeast)
		if len(all) > 1 {
			text += "plane it together with its neighbour before they are parted, where both come to one thickness; or "
		}
		out = append(out, run.remark(len(all), text+orByHand))
	}
	return out
}

// keepLong tells of each run that is long enough for the machine only while it is
// whole.
func keepLong(pl planner, d Detail) []remark {
	least := pl.shop.Machine.ThicknesserLength
	all := d.planed(pl)
	var out []remark
	for _, run := range all {
		at := slices.IndexFunc(run.sections, func(s SectionDetail) bool { return s.Length < least })
		if run.length >= least && at >= 0 {
			out = append(out, run.remark(len(all), fmt.Sprintf("a section of %s is under %s: plane the run of %s whole and crosscut last",
				pl.with(run.sections[at].Length), pl.limit(shop.Machine.ThicknesserLeast), pl.with(run.length))))
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

func wideForThicknesser(pl planner, d Detail) string {
	most := pl.shop.Machine.ThicknesserWidth
	for _, s := range d.Sections {
		if most > 0 && s.planed() && s.Across > most {
			return fmt.Sprintf("%s wide is over %s: rip the slices first, then plane the strips", pl.with(s.Across), pl.limit(shop.Machine.ThicknesserMost))
		}
	}
	return ""
}

func thinForThicknesser(pl planner, d Detail) string {
	least := thinnestFed
	for sl, st := range d.Strips() {
		if st.Thickness < sl.Comes {
			least = min(least, st.Thickness)
		}
	}
	if least == thinnestFed {
		return ""
	}
	return fmt.Sprintf("%s is thinner than a bench thicknesser's manual lets be fed (%s): carry it on a flat board where your manual allows that, or plane or sand it by hand",
		pl.with(least), pl.with(thinnestFed))
}

func tooDeep(pl planner, d Detail) string {
	most := pl.shop.Machine.SawDepth
	for _, s := range d.Sections {
		for _, sl := range s.Slices {
			if most > 0 && sl.PlanesTo > most {
				return fmt.Sprintf("%s thick is over %s: rip it on the bandsaw, from a flat face", pl.with(sl.PlanesTo), pl.limit(shop.Machine.Saw))
			}
		}
	}
	return ""
}

func narrowRip(_ planner, d Detail) string {
	for _, l := range d.Fence {
		if l < narrow {
			return "a narrow strip: push block, the waste side free, never pinched between blade and fence"
		}
	}
	return ""
}

// shortRipped is the length under which a push stick is used all along ("when making any
// cut less than 300 mm in length", HSE woodworking sheet 16 on circular saw benches; from
// memory).
const shortRipped = 300 * length.Millimetre

// shortRip tells of short stock, which is what a saw throws; the saw has no least length
// in its settings.
func shortRip(pl planner, d Detail) string {
	least := d.InHand
	runs := d.runs(pl)
	for _, run := range runs {
		sets := d.stretches(run.sections, pl.shop.Kerf.Crosscut, bySet)
		for _, set := range sets {
			if len(runs) > 1 || len(sets) > 1 {
				least = min(least, set.length)
			}
		}
	}
	if least >= shortRipped {
		return ""
	}
	return fmt.Sprintf("what is under %s long is short to rip, and your saw's manual says whether it may be: push stick and riving knife, no hand near the blade; "+
		"or rip before you crosscut, or saw it by hand", pl.with(shortRipped))
}

// runs parts the sections where the stack changes.
func (d Detail) runs(pl planner) []stretch {
	return d.stretches(d.Sections, pl.shop.Kerf.Crosscut, byRun)
}

// planing parts a run into what is planed as one: all of it, but where strips are
// ripped differently and some of the slices goes back as it was sawn, each set by
// itself.
func (d Detail) planing(pl planner, run stretch) []stretch {
	goesBack := func(s SectionDetail) bool {
		return slices.ContainsFunc(s.Slices, func(sl SliceDetail) bool { return sl.RipLeft > 0 })
	}
	if run.sections[0].planed() && slices.ContainsFunc(run.sections, goesBack) {
		return d.stretches(run.sections, pl.shop.Kerf.Crosscut, bySet)
	}
	return []stretch{run}
}

// planed returns what is planed as one and does go over the plane. What is not crosscut
// before is as long as the piece in hand.
func (d Detail) planed(pl planner) []stretch {
	var out []stretch
	runs := d.runs(pl)
	for _, run := range runs {
		if run.sections[0].planed() {
			out = append(out, d.planing(pl, run)...)
		}
	}
	if len(runs) == 1 && len(out) == 1 {
		out[0].length = d.InHand
	}
	return out
}
