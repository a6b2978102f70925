// Package worksteps tells how a plan is worked at the machines: its pieces in detail, the
// steps in the workshop's order, what to know before each, what to chalk on the strips.
package worksteps

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// Steps returns the order of work of plan, a plain sentence each, to be numbered; name
// says a timber's key as its maker does, lengths are in u. It is the workshop's order, not
// that of the plan's counting: the tail comes off first and whole, the piece is trued,
// sections with the same stack stay together and are resawn, planed and ripped as one run,
// and are crosscut last. It is crosscut before only where stacks differ, or strips of a
// stack are ripped differently. Words of caution stand at their step, once in a job where
// they are the same for every piece.
func Steps(job cutting.Job, plan cutting.Plan, name func(key string) string, u length.Unit) []string {
	var out []string
	told := false
	for _, s := range Order(job, plan, name, u) {
		text := s.String()
		for _, n := range s.Notes {
			text += "; " + n.Message
		}
		if s.Kind == StepCut && !told {
			text, told = text+"; "+Manuals, true
		}
		out = append(out, text)
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

// A Step is one thing to do, with what to know of it.
type Step struct {
	Kind  StepKind
	Piece string // id of the piece that is cut, or of the ready strip; empty of what is short
	Copy  int    // of the piece, from 1; which of several ready strips stands in Text
	Name  string // what is chalked on it: Piece, and which of several pieces alike
	Text  string // what to do with what is so called, or which strips are short
	Notes []Note
}

// String returns the whole sentence, its notes apart.
func (s Step) String() string {
	if s.Kind == StepShort {
		return "short, " + s.Text
	}
	return s.Name + ": " + s.Text
}

// Order returns the steps of plan as Steps does, each with its words of caution apart;
// Manuals is not among them.
func Order(job cutting.Job, plan cutting.Plan, name func(key string) string, u length.Unit) []Step {
	pl := planner{job.Shop, u}
	var out []Step
	for _, r := range readyUses(job, plan) {
		out = append(out, pl.ready(r))
	}
	for _, p := range pl.pieces(job, plan) {
		w := &worker{piece: p}
		w.all(name(p.Piece.Species))
		out = append(out, w.out...)
	}
	if len(plan.Missing) > 0 {
		var refs []cutting.Ref
		for _, m := range plan.Missing {
			refs = append(refs, m.Ref)
		}
		out = append(out, Step{Kind: StepShort, Text: "to be found before these can be glued: " + cutting.RefsText(refs)})
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
		w.part("the stacks differ, so crosscut it first", w.runs, w.togetherFirst())
	}
	for _, run := range w.runs {
		w.run(run)
	}
	w.goesBack()
}

func (w *worker) fetch(timber string) {
	p := w.Piece
	text := fmt.Sprintf("take the %s, %s", timber, w.size(p.Length, p.Width, p.Thickness))
	if p.Planed {
		text += ", planed"
	}
	if p.ID != w.Whole.ID {
		text += fmt.Sprintf(", the clear part of %s from %s to %s of its length and %s to %s of its width: cut the faults out first", w.Whole.ID,
			w.From.Format(w.unit), w.with(w.From+p.Length), w.Low.Format(w.unit), w.with(w.Low+p.Width))
	}
	w.say(atFaults, "%s", text)
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
		texts = append(texts, fmt.Sprintf("leave the tail of %s on until the piece is %s, where it can be spared, and correct the rack: %s alone is too short for your machines; "+
			"else cut it off now, and it goes back whole", w.with(tail), work, w.with(w.InHand)))
	case tail > 0:
		texts = append(texts, fmt.Sprintf("cut the tail off before anything else is done to it: %s go back whole", w.with(tail)))
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
			text += " (" + tell.Count(n, "section") + ")"
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
		w.part("its slices are ripped differently, so crosscut them", sets, "")
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
		what = " it whole"
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
			rest = append(rest, fmt.Sprintf("the last slice is what is left, %s", w.with(sl.Comes)))
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
		text += fmt.Sprintf("; a slab of %s is left", w.with(slab))
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
		w.say(nowhere, "rip off what goes back of the slices before they are planed: %s", strings.Join(off, ", "))
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

func (w *worker) rip(set stretch) {
	var alike tell.Groups[ripping, cutting.Ref]
	for sl, st := range stripsOf(set.sections[:1]) {
		alike.Add(ripping{st.Ripped, st.Jointed, sl.PlanesTo, st.Thickness, st.Make == pattern.MakeEdge}, st.Ref)
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
		texts = append(texts, text)
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
		if text := st.Showing.String(); st.Showing.Known() && !slices.Contains(rings, text) {
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
		text := cutting.RefsText(at.Of(l))
		if len(sections.Of(l)) == 0 {
			text = fmt.Sprintf("shortened to %s: ", w.with(l)) + text
		} else if len(stops) > 1 {
			text = fmt.Sprintf("of %s: ", w.with(l)) + text
		}
		texts = append(texts, text)
	}
	text := "crosscut last, stop at " + strings.Join(lengths, ", then ")
	if before && len(set.sections) == 1 {
		text = fmt.Sprintf("it is %s long already, nothing to crosscut", w.with(set.length))
	}
	text += fmt.Sprintf("; out of it come %s; chalk each as it comes", strings.Join(texts, "; "))
	if len(rings) > 0 {
		text += fmt.Sprintf("; rings expected: %s, look at the ends, for they turn within a thick piece", strings.Join(rings, ", "))
	}
	w.say(nowhere, "%s", text)
}

// goesBack lists what goes back to the rack, alike ones together. The plan counts
// slabs and rips by section, so those that come off a run in one are said to be cut.
func (w *worker) goesBack() {
	inRun := map[int]bool{} // of each section: it is worked on together with others, or is not all of what is in hand
	for _, run := range w.runs {
		for _, s := range run.sections {
			inRun[s.Number] = len(run.sections) > 1 || len(w.Sections) == 1 && w.InHand > s.Length
		}
	}
	longer := slices.ContainsFunc(w.Back, func(l Left) bool { return l.Kind != LeftTail && inRun[l.Section] })
	texts := BackTexts(w.Back, w.unit)
	for _, c := range w.Others {
		texts = append(texts, fmt.Sprintf("the other clear part of %s, %s", w.Whole.ID, w.size(c.Length, c.Width, c.Thickness)))
	}
	if len(texts) == 0 {
		return
	}
	text := "back to the rack: " + strings.Join(texts, ", ")
	if longer {
		text += "; what came off is longer than listed: crosscut it so, or leave it whole and correct the rack"
	}
	w.say(nowhere, "%s", text)
}
