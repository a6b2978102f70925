package cli

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

// suggestText prints layouts in plain words, one fact a line.
type suggestText struct {
	*app
	workshop workshop
	ask      suggest.Request
	answer   suggest.Result
	unit     length.Unit
	late     bool // the time ran out
	begun    bool // what comes before the layouts is printed
	brief    bool // what to loosen was looked for as long as suggest.LoosenFor
}

func (t suggestText) with(l length.Length) string { return l.With(t.unit) }

func (t *suggestText) print() {
	if !t.begun {
		t.begin()
	}
	t.sayLate(t.late, t.answer.Status)
	if len(t.answer.Layouts) > 0 && !t.answer.PlansProved {
		t.say("plans: some layouts were passed over for plans that fell short without proof; what is proved is so among the others")
	}
	for i := range t.answer.Layouts {
		t.layout(i)
	}
	if len(t.answer.Layouts) == 0 {
		t.loosen()
	}
}

// begin prints what was asked for, and what came of it in all.
func (t *suggestText) begin() {
	t.begun = true
	t.asked()
	t.found()
	if len(t.answer.Layouts) == 0 {
		t.none()
	}
}

// asked says again what was asked for, as it was understood.
func (t suggestText) asked() {
	a := t.ask
	t.say("panel: %s wide, %s more or less, %s thick, %s long", t.with(a.Width), t.with(a.Tolerance), t.with(a.Thickness), t.with(a.Length))
	t.say("strips: %d to %d%s", a.Strips[0], a.Strips[1], t.fromWhat())
	rules := []string{fmt.Sprintf("glue lines at most %q", a.Level)}
	if t.answer.Aim == suggest.UseUp {
		rules = append(rules, fmt.Sprintf("neighbours with a contrast of %g or more", a.LeastContrast))
	}
	if a.NoTwins {
		rules = append(rules, "no timber beside itself")
	}
	if a.Symmetric {
		rules = append(rules, "its own mirror image")
	}
	t.say("rules: %s", strings.Join(rules, ", "))
	if t.answer.Aim == suggest.UseUp {
		t.say("aim: use-up, the most use-first width, then the greatest smallest contrast, then the greatest sum of contrasts")
	} else {
		t.say("aim: contrast, the greatest smallest contrast of neighbours, then the greatest sum of contrasts")
	}
	t.say("contrast: by the listed colours, which are approximate; lay the strips side by side before gluing")
}

// fromWhat says where strips come from.
func (t suggestText) fromWhat() string {
	a, ready := t.ask, "ready strips of the rack"
	if len(a.Have) > 0 {
		n := 0
		for _, h := range a.Have {
			n += h.Count
		}
		ready = fmt.Sprintf("the %s named", tell.Count(n, "strip"))
	}
	if len(a.Widths) == 0 {
		return ", from " + ready
	}
	return fmt.Sprintf(", %s wide, from %s and what pieces yield", widthsText(a.Widths, t.unit), ready)
}

// stock names what strips may come from.
func (t suggestText) stock() string {
	switch {
	case len(t.ask.Have) > 0 && len(t.ask.Widths) > 0:
		return "the strips named and the pieces"
	case len(t.ask.Have) > 0:
		return "the strips named"
	case len(t.ask.Widths) > 0:
		return "the rack in these widths"
	default:
		return "the rack's ready strips"
	}
}

// widthsText returns 20 or 25 mm.
func widthsText(widths []length.Length, u length.Unit) string {
	texts := make([]string, len(widths))
	for i, w := range widths {
		texts[i] = w.Format(u)
	}
	return strings.Join(texts, " or ") + " " + u.String()
}

// found says how many layouts there are, and how sure that is.
func (t suggestText) found() {
	n := len(t.answer.Layouts)
	switch {
	case n == 0 && t.answer.Status == suggest.Infeasible:
		t.say("layouts: none, and that is proved: nothing from %s does all this", t.stock())
	case n == 0:
		t.say("layouts: none was found, and it is not proved that there is none")
	case t.answer.Status == suggest.Optimal && n < t.ask.Layouts:
		t.say("layouts: %d, proved, and no other differs enough from these", n)
	case t.answer.Status == suggest.Optimal:
		t.say("layouts: %d, each proved the best of those that differ enough from the ones before", n)
	default:
		t.say("layouts: %d, not all of them proved", n)
	}
}

// sayLate tells that the time ran out, where that left something open.
func (a *app) sayLate(late bool, s suggest.Status) {
	if late && s != suggest.Optimal {
		a.say("time: the %s s ran out; more with --time may say more", a.flags.seconds.String())
	}
}

func (t suggestText) layout(i int) {
	l := t.answer.Layouts[i]
	sure := "proved"
	if !l.Proved {
		sure = "not proved"
	}
	if i == 0 {
		sure = "the best, " + sure
		if !l.Proved {
			sure = "the best that was found, not proved"
		}
	}
	t.say("layout %d: %s; %s, %s wide", i+1, sure, tell.Count(len(l.Strips), "strip"), t.with(l.Width))
	t.say("layout %d, why: %s", i+1, t.answer.Why(i, t.unit))
	if i > 0 {
		t.say("layout %d, against layout %d: %s", i+1, i, t.ask.Against(t.workshop.physics(), t.answer.Layouts[i-1], l))
	}
	t.say("layout %d, contrast: smallest %.2f, %.2f in all", i+1, l.SmallestContrast, l.TotalContrast)
	if t.answer.Aim == suggest.UseUp {
		t.say("layout %d, use-first: %s wide together", i+1, t.with(l.UseFirst))
	}
	t.worst(i, l)
	if l.Mirror() {
		t.say("layout %d, mirror: it is its own mirror image", i+1)
	} else {
		t.say("layout %d, mirror: it is not its own mirror image", i+1)
	}
	for n, s := range l.Strips {
		t.say("layout %d, strip %d: %s", i+1, n+1, t.strip(s))
	}
	if l.Plan != nil {
		t.plan(i, l)
	}
}

// strip says what lies at a place, and where it comes from.
func (t suggestText) strip(s suggest.Placed) string {
	text := fmt.Sprintf("%s, %s, rings %s", t.workshop.name(s.Species), t.with(s.Width), s.Rings)
	if s.Source != "" {
		text += ", from " + s.Source
	}
	if s.UseFirst {
		text += ", use first"
	}
	if s.Pinned {
		text += ", pinned"
	}
	return text
}

// worst tells of the glue line that asks for most.
func (t suggestText) worst(i int, l suggest.Layout) {
	line := t.workshop.physics().Worst(t.ask.Pattern(l))
	t.say("layout %d, %s", i+1, worstText(l.Level, line, t.unit))
}

// worstText says which glue line asks for most, and what it does.
func worstText(level pattern.Level, l movement.Line, u length.Unit) string {
	return fmt.Sprintf("worst glue line: %s, between strips %d and %d, %s, moisture gap %.1f points", level, l.Line, l.Line+1, l.Moves(u), l.GapPct)
}

// plan says in short how a layout is cut; --json has every cut.
func (t suggestText) plan(i int, l suggest.Layout) {
	for _, text := range planInShort(t.ask.Job(t.workshop.physics(), l), *l.Plan, l.LeastOfTimber, t.unit) {
		t.say("layout %d, %s", i+1, text)
	}
}

// planProof says what is proved of a plan; ofTimber says that it is the least of those
// that take the timber a layout counts on.
func planProof(plan cutting.Plan, ofTimber bool, u length.Unit) string {
	var proof string
	claim := plan.Claim()
	switch {
	case claim.Sure == cutting.Least:
		return "the least from the whole rack, proved"
	case ofTimber:
		proof = "the least from timber of this moisture and these marks, proved; not proved the least from the whole rack"
	default:
		proof = "not proved the least"
	}
	if under := claim.Under(u); under != "" {
		proof += "; " + under
	}
	return proof
}

// planInShort returns what a plan that is not short draws and opens; ofTimber is as for
// planProof.
func planInShort(job cutting.Job, plan cutting.Plan, ofTimber bool, u length.Unit) []string {
	proof := planProof(plan, ofTimber, u)
	out := []string{fmt.Sprintf("plan: nothing short, %s drawn, %s", length.Volume(plan.DrawnCM3, u), proof)}
	taken := plan.ReadyTaken()
	for id, refs := range taken.All() {
		out = append(out, fmt.Sprintf("plan, ready strips: %d from %s", len(refs), id))
	}
	for _, d := range worksteps.Details(job, plan) {
		strips := 0
		for range d.Strips() {
			strips++
		}
		out = append(out, fmt.Sprintf("plan, open %s: %s from %s", d.Name(), tell.Count(strips, "strip"), tell.Count(len(d.Cut.Sections), "section")))
	}
	return out
}

// none says what else there may be to lay out.
func (t suggestText) none() {
	if len(t.ask.Have) == 0 && len(t.ask.Rack.Entries()) == 0 {
		t.say("rack: empty; oddments rack add writes timber down, --have names strips on the spot")
		return
	}
	if text := t.ask.ReadyText(t.workshop.shop, t.unit); text != "" {
		t.say("ready strips: %s", text)
		if len(t.ask.Rack.Pieces) > 0 {
			t.say("pieces: left alone; with --widths 20,25 strips of these widths are cut from them")
		}
	}
}

// loosen says what to loosen.
func (t suggestText) loosen() {
	if t.answer.Loosen == nil && t.answer.Status != suggest.Infeasible {
		t.say("loosen: not reckoned, since the search was not finished")
		return
	}
	ways := t.answer.Loosen.Say(t.unit)
	for _, way := range ways {
		t.say("loosen: %s", way)
	}
	proved := t.answer.Loosen != nil && t.answer.Loosen.Proved
	switch {
	case t.brief && !proved && len(ways) > 0:
		t.say("loosen: looked for %g s only; less of it may do, or another condition", suggest.LoosenFor.Seconds())
	case t.brief && !proved:
		t.say("loosen: no condition was found that would do alone; looked for %g s only", suggest.LoosenFor.Seconds())
	case len(ways) > 0 && t.answer.Status != suggest.Infeasible:
		t.say("loosen: less of it may do, or nothing at all")
	case len(ways) > 0:
	case !proved:
		t.say("loosen: no condition was found that would do alone")
	default:
		t.say("loosen: no condition alone would do; other or more strips are wanted")
	}
}
