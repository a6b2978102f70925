// Package worksteps tells how a plan is worked at the machines: its pieces in detail, the
// steps in the workshop's order, what to know before each, what to chalk on the strips.
package worksteps

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// A By says how the steps of a plan are put together.
type By int

// By machine and setting over all pieces, or piece by piece.
const (
	ByMachine By = iota
	ByPiece
)

// Bys lists the ways.
func Bys() []By { return []By{ByMachine, ByPiece} }

// String returns machine or piece.
func (b By) String() string { return tell.Word(b, "order", "machine", "piece") }

// Steps returns the order of work of plan, a plain sentence each, to be numbered, with its
// words of caution in the same line; see Order.
func Steps(by By, job cutting.Job, plan cutting.Plan, name func(key string) string, u length.Unit) []string {
	var out []string
	for _, s := range WithManuals(Order(by, job, plan, name, u)) {
		text := s.String()
		for _, n := range s.Notes {
			text += "; "
			if len(n.Names) > 0 {
				text += strings.Join(n.Names, ", ") + ": "
			}
			text += n.Message
		}
		out = append(out, text)
	}
	return out
}

// KnownBy returns what tells a plan from others: the same for the same steps by machine.
func KnownBy(job cutting.Job, plan cutting.Plan) string {
	sum := sha256.New()
	for _, s := range Order(ByMachine, job, plan, func(key string) string { return key }, length.InMM) {
		fmt.Fprintln(sum, s)
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

// Lines returns the order of work by machine, a line for each step and each word of
// caution.
func Lines(job cutting.Job, plan cutting.Plan, name func(key string) string, u length.Unit) []string {
	var out []string
	for _, s := range WithManuals(Order(ByMachine, job, plan, name, u)) {
		out = append(out, s.String())
		for _, n := range s.Notes {
			out = append(out, n.String())
		}
	}
	return out
}

// WithManuals returns steps with Manuals as a word of caution at the first that cuts.
func WithManuals(steps []Step) []Step {
	out := slices.Clone(steps)
	if i := slices.IndexFunc(out, func(s Step) bool { return s.Kind == StepCut }); i >= 0 {
		out[i].Notes = append(slices.Clone(out[i].Notes), Note{Rule: "manuals", Message: Manuals})
	}
	return out
}

// A StepKind says what a step is about.
type StepKind int

// The kinds of steps.
const (
	StepReady StepKind = iota // a ready strip is taken
	StepCut                   // an opened piece is worked
	StepShort                 // strips are short
)

// String returns ready, cut or short.
func (k StepKind) String() string { return tell.Word(k, "step", "ready", "cut", "short") }

// A Step is one thing to do, with what to know of it. Steps by machine have what they
// take, the others the piece that they are about.
type Step struct {
	Kind  StepKind
	Work  Work          // by machine
	At    length.Length // what the machine is set to; 0: nothing
	Takes []Take        // in the order in which they lie on the rack
	Piece string        // id of the piece that is cut, or of the ready strip; empty of what is short
	Copy  int           // of the piece, from 1; which of several ready strips stands in Text
	Name  string        // what is chalked on it: Piece, and which of several pieces alike
	Text  string        // what to do with what is so called, or which strips are short
	Notes []Note
}

// String returns the whole sentence, its notes apart.
func (s Step) String() string {
	switch {
	case s.Kind == StepShort:
		return "short, " + s.Text
	case len(s.Takes) > 0:
		return s.Text
	default:
		return s.Name + ": " + s.Text
	}
}

// Order returns the steps of plan, each with its words of caution apart, but for Manuals;
// name says a timber's key as its maker does, lengths are in u. It is the workshop's order,
// not that of the plan's counting: the end offcut comes off first and whole, the piece is
// trued, sections with the same stack stay together and are resawn, planed and ripped as
// one run, and are crosscut last. A piece is crosscut before only where stacks differ, or
// strips of a stack are ripped differently. By machine all pieces are taken through each
// work together, which keeps this order for every one of them. Words of caution stand at
// their step, once in a job where they are the same for every piece.
func Order(by By, job cutting.Job, plan cutting.Plan, name func(key string) string, u length.Unit) []Step {
	pl := planner{job.Shop, u, job.RefsText}
	var out []Step
	if by == ByMachine {
		out = pl.byMachine(job, plan)
		one := len(job.Patterns) == 1
		s := speaker{pl, name, one, one && job.Patterns[0].Copies == 1, map[string]bool{}}
		for i := range out {
			out[i].Text = s.text(out[i])
		}
	} else {
		out = pl.byPiece(job, plan, name)
	}
	if len(plan.Missing) > 0 {
		var refs []cutting.Ref
		for _, m := range plan.Missing {
			refs = append(refs, m.Ref)
		}
		out = append(out, Step{Kind: StepShort, Text: "missing before gluing: " + job.RefsText(refs)})
	}
	return out
}

// byPiece returns the steps of plan, one ready strip and one piece after the other.
func (pl planner) byPiece(job cutting.Job, plan cutting.Plan, name func(key string) string) []Step {
	var out []Step
	for _, r := range readyUses(job, plan) {
		out = append(out, pl.ready(r))
	}
	for _, p := range pl.pieces(job, plan, true) {
		w := &worker{piece: p}
		w.all(name(p.Piece.Species))
		out = append(out, w.out...)
	}
	return out
}

// A worker says how one piece is worked.
type worker struct {
	piece
	out []Step
}

// say adds a step, with the notes of the piece that belong to it.
func (w *worker) say(at step, format string, args ...any) { w.sayOf(0, at, format, args...) }

// sayOf adds a step on a section and those worked on with it, with the notes that
// belong to it.
func (w *worker) sayOf(section int, at step, format string, args ...any) {
	step := Step{Kind: StepCut, Piece: w.Piece.ID, Copy: w.Cut.Copy, Name: w.Name(), Text: fmt.Sprintf(format, args...)}
	var rest []Note
	for _, n := range w.notes {
		if n.step == at && (len(n.Sections) == 0 || slices.Contains(n.Sections, section)) {
			step.Notes = append(step.Notes, n)
		} else {
			rest = append(rest, n)
		}
	}
	w.notes = rest
	w.out = append(w.out, step)
}

// all says the whole work on the piece, which is of a timber.
func (w *worker) all(timber string) {
	w.fetch(timber)
	w.ends()
	if !w.Piece.Planed && w.shop.Allowance.Truing > 0 {
		w.say(atTruing, "true it, %s off width and thickness: %s are left", w.with(w.shop.Allowance.Truing), w.size(w.Width, w.Thickness))
	}
	if len(w.runs) > 1 {
		w.part("crosscut first, since the stacks differ", w.runs, w.togetherFirst())
	}
	for _, run := range w.runs {
		w.run(run)
	}
	w.goesBack()
}

func (w *worker) fetch(timber string) {
	p := w.Piece
	w.say(atFaults, "take the %s, %s%s", timber, w.size(p.Length, p.Width, p.Thickness), w.fetchText())
}

// fetchText says what to know of a piece that is fetched beside its size.
func (p piece) fetchText() string {
	text := ""
	if p.Piece.Planed {
		text = ", planed"
	}
	if p.Piece.ID != p.Whole.ID {
		text += fmt.Sprintf(", the clear part of %s, %s to %s along its length and %s to %s across its width: cut the faults out first", p.Whole.ID,
			p.From.Format(p.unit), p.with(p.From+p.Piece.Length), p.Low.Format(p.unit), p.with(p.Low+p.Piece.Width))
	}
	return text
}

// keepEnd says to leave the end offcut on a piece that is too short for a machine without
// it.
func (p piece) keepEnd(work string) string {
	return fmt.Sprintf("keep the %s end on while %s: %s alone is too short for your machines", p.with(p.Cut.Tail), work, p.with(p.InHand))
}

func (w *worker) ends() {
	var texts []string
	if w.Trim > 0 {
		texts = append(texts, fmt.Sprintf("square the near end, %s off", w.with(w.Trim)))
	}
	tail := w.Cut.Tail
	work := w.tooShortThen()
	switch {
	case tail > 0 && work != "":
		texts = append(texts, w.keepEnd(work)+"; cut it off after, then enter its new size on the rack")
	case tail > 0:
		texts = append(texts, fmt.Sprintf("cut the end offcut off before anything else: %s go back whole", w.with(tail)))
	}
	if len(texts) > 0 {
		w.say(nowhere, "%s", strings.Join(texts, ", "))
	}
}

// part says into which lengths to crosscut, and what to think of before.
func (w *worker) part(why string, into []stretch, before string) {
	var texts []string
	for _, s := range into {
		text := s.length.Format(w.unit)
		if n := len(s.sections); n > 1 {
			text += " (" + tell.Count(n, "length") + ")"
		}
		texts = append(texts, text)
	}
	w.say(nowhere, "%s: %s %s, a kerf between each two%s", why, strings.Join(texts, ", "), w.unit, before)
}

// run says how sections with the same stack become strips.
func (w *worker) run(run stretch) {
	several, what := len(w.runs) > 1, ""
	if several {
		what = fmt.Sprintf(" the length of %s", w.with(run.length))
	}
	w.resaw(run, what)
	sets := w.stretches(run.sections, bySet)
	together := len(w.planing(run)) == 1
	if together {
		w.plane(run, what)
	}
	if len(sets) > 1 {
		w.part("crosscut now, since the slices are ripped differently", sets, "")
	}
	for _, set := range sets {
		if !together {
			w.plane(set, fmt.Sprintf(" the length of %s", w.with(set.length)))
		}
		w.rip(set)
		w.crosscut(set, several || len(sets) > 1 || w.Cut.Tail > 0)
	}
}

func (w *worker) resaw(run stretch, what string) {
	first := run.sections[0]
	if first.Cuts == 0 {
		return
	}
	if what == "" {
		what = " the whole piece"
	}
	if first.Side {
		what += " lying flat, its edge against the fence"
	} else {
		what += " standing on its edge, its face against the fence"
	}
	var fences tell.Groups[length.Length, SliceDetail]
	var rest []string
	for _, sl := range first.Slices {
		if sl.Comes == sl.Sawn {
			fences.Add(sl.Sawn, sl)
		} else {
			rest = append(rest, fmt.Sprintf("the last slice is the rest, %s", w.with(sl.Comes)))
		}
	}
	var texts []string
	for sawn, alike := range fences.All() {
		texts = append(texts, fmt.Sprintf("fence at %s for %s", w.with(sawn), tell.Count(len(alike), "slice")))
	}
	text := fmt.Sprintf("resaw%s, bandsaw %s", what, strings.Join(append(texts, rest...), ", then "))
	if first.Cuts > 1 && w.shop.Allowance.Cleaning > 0 {
		text += ", the sawn face cleaned before the next cut"
	}
	if slab := first.Through - first.SlabFrom; first.Cuts == len(first.Slices) {
		text += fmt.Sprintf("; a spare thickness of %s is left", w.with(slab))
	}
	w.say(atSaw, "%s", text)
}

// plane says to plane the slices of sections that are planed as one. What goes back of them
// is ripped off before, as it was sawn, so that it is what the plan counts.
func (w *worker) plane(run stretch, what string) {
	first := run.sections[0]
	if !first.planed() {
		return
	}
	var off, texts []string
	for _, sl := range slicesOf(run.sections) {
		if text := w.size(sl.RipLeft, sl.Sawn); sl.RipLeft > 0 && !slices.Contains(off, text) {
			off = append(off, text)
		}
	}
	if len(off) > 0 {
		w.say(nowhere, "before planing, rip the spare width off each slice: %s", strings.Join(off, ", "))
	}
	for _, sl := range first.Slices {
		text := fmt.Sprintf("%s to %s", sl.Comes.Format(w.unit), w.with(sl.PlanesTo))
		if sl.PlanesTo < sl.Comes && !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	if what != "" {
		what = " of" + what
	}
	w.sayOf(first.Number, atPlane, "plane the %s%s from %s", tell.Plural(len(first.Slices), "slice"), what, strings.Join(texts, ", from "))
}

// A ripping is one setting of the saw's fence, with what is done to the strips then.
type ripping struct {
	ripped, jointed, thickness, planes length.Length
	edge                               bool
}

func rippingOf(sl SliceDetail, st StripDetail) ripping {
	return ripping{st.Ripped, st.Jointed, sl.PlanesTo, st.Thickness, st.Make == pattern.MakeEdge}
}

func (w *worker) rip(set stretch) {
	fills := fillings(set, w.shop)
	var alike tell.Groups[ripping, cutting.Ref]
	for sl, st := range stripsOf(set.sections[:1]) {
		alike.Add(rippingOf(sl, st), st.Ref)
	}
	var texts []string
	for r, strips := range alike.All() {
		text := fmt.Sprintf("saw fence at %s for %s", w.with(r.ripped), tell.Count(len(strips), "strip"))
		switch {
		case r.edge:
			text += fmt.Sprintf(", rolled a quarter turn: %s wide", w.with(r.planes))
		case r.jointed < r.ripped:
			text += fmt.Sprintf(", edges jointed to %s", w.with(r.jointed))
		}
		if r.planes < r.thickness {
			text += fmt.Sprintf(", planed on to %s", w.with(r.planes))
		}
		for i, f := range fills {
			if f.ripped == r.ripped && f.edge == r.edge {
				text += moreText(f.count, f.wide, w.unit)
				fills = slices.Delete(fills, i, i+1)
				break
			}
		}
		texts = append(texts, text)
	}
	for _, f := range fills {
		texts = append(texts, fmt.Sprintf("saw fence at %s for %d of %s for the rack", w.with(f.ripped), f.count, w.with(f.wide)))
	}
	w.say(atRip, "rip, %s", strings.Join(texts, ", then "))
}

// crosscut says which strips come out at which stop. Of a set that was cut to length
// before, a single section has no cut left.
func (w *worker) crosscut(set stretch, before bool) {
	var sections tell.Groups[length.Length, int]
	for _, s := range set.sections {
		sections.Add(s.Length, s.Number)
	}
	var at tell.Groups[length.Length, cutting.Ref]
	var rings []string // that are expected
	for _, st := range stripsOf(set.sections) {
		at.Add(st.Length, st.Ref)
		if text := st.Showing.Rings.String(); st.Showing.Rings.Known() && !slices.Contains(rings, text) {
			rings = append(rings, text)
		}
	}
	var lengths, texts []string
	for l, numbers := range sections.All() {
		lengths = append(lengths, fmt.Sprintf("%s (%d)", w.with(l), len(numbers)))
	}
	stops := at.Keys()
	slices.SortStableFunc(stops, func(a, b length.Length) int { return cmp.Compare(b, a) })
	for _, l := range stops {
		text := w.named(at.Of(l))
		if len(sections.Of(l)) == 0 {
			text = fmt.Sprintf("shortened to %s: ", w.with(l)) + text
		} else if len(stops) > 1 {
			text = fmt.Sprintf("of %s: ", w.with(l)) + text
		}
		texts = append(texts, text)
	}
	text := "crosscut last, stop at " + strings.Join(lengths, ", then ")
	if before && len(set.sections) == 1 {
		text = fmt.Sprintf("%s long already, nothing to crosscut", w.with(set.length))
	}
	text += fmt.Sprintf("; strips: %s; chalk each as it comes off", strings.Join(texts, "; "))
	if len(rings) > 0 {
		text += fmt.Sprintf("; rings expected: %s, check the ends, since rings turn within a thick piece", strings.Join(rings, ", "))
	}
	w.say(nowhere, "%s", text)
}

// longerBack says what to do with an offcut that is longer than the plan counts it.
const longerBack = "; where the real offcut is longer, cut it to this, or keep it whole and edit the rack"

// goesBack says what goes back to the rack.
func (w *worker) goesBack() {
	texts, longer := w.back()
	if len(texts) == 0 {
		return
	}
	text := "back to the rack: " + strings.Join(texts, ", ")
	if longer {
		text += longerBack
	}
	w.say(nowhere, "%s", text)
}

// back lists what goes back to the rack, alike ones together. The plan counts spare
// thickness and width by section, so what comes off a run in one is longer.
func (w piece) back() (texts []string, longer bool) {
	inRun := map[int]bool{} // of each section: it is worked on together with others, or is not all of what is in hand
	for _, run := range w.runs {
		for _, s := range run.sections {
			inRun[s.Number] = len(run.sections) > 1 || len(w.Sections) == 1 && w.InHand > s.Length
		}
	}
	longer = slices.ContainsFunc(w.Back, func(l Left) bool { return l.Kind != LeftTail && inRun[l.Section] })
	texts = BackTexts(w.Back, w.unit)
	for _, c := range w.Others {
		texts = append(texts, fmt.Sprintf("the other clear part of %s, %s", w.Whole.ID, w.size(c.Length, c.Width, c.Thickness)))
	}
	return texts, longer
}
