package cli

import (
	"fmt"
	"math"
	"strings"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

// suggestText prints layouts in plain words, one fact a row.
type suggestText struct {
	workshop
	ask    suggest.Request
	answer suggest.Result
	late   bool // the time ran out
	begun  bool // what comes before the layouts is printed
}

func (t suggestText) with(l length.Length) string { return l.With(t.Unit) }

func (t *suggestText) print() {
	if !t.begun {
		t.begin()
	}
	t.sayLate(t.late, t.answer.Status)
	if len(t.answer.Layouts) > 0 && !t.answer.PlansProved {
		t.Fact("plans", "some layouts were skipped because their plans fell short without proof; the proof holds for the others")
	}
	for i := range t.answer.Layouts {
		t.layout(i)
	}
	for _, out := range t.answer.LeftOut {
		t.Fact(out.Look.String(), "left out: %s%s", out.Why, command.Or(out.Proved, " (proved)", "; not proved that there is none"))
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
	wide := fmt.Sprintf("%s wide, ±%s", t.with(a.Width), t.with(a.Tolerance))
	if least, most := a.Limits(); a.Range != [2]length.Length{} {
		wide = fmt.Sprintf("%s to %s wide", t.with(least), t.with(most))
	}
	t.Fact("panel", "%s, %s thick, %s long", wide, t.with(a.Thickness), t.with(a.Length))
	t.Fact("strips", "%d to %d%s", a.Strips[0], a.Strips[1], t.fromWhat())
	useUp := t.answer.Aim == suggest.UseUp
	t.Fact("rules", "%s", command.Together(fmt.Sprintf("glue lines up to %q", a.Level),
		command.Said(useUp, fmt.Sprintf("neighbours with a contrast of %g or more", a.LeastContrast)), command.Said(a.NoTwins, "no same wood side by side"), command.Said(a.Symmetric, "its own mirror image")))
	if a.Join.On() {
		t.Fact("joints", "strips may be in pieces, %s; every joint in the waste between products", command.Or(a.Join.How == joints.Even, "neighbours parted in different gaps, like bricks", "parted in any gap"))
	}
	t.Fact("aim", "%s, then the greatest sum of contrasts", command.Or(useUp, "use-up: the most use-first width, then the weakest contrast as strong as possible",
		"contrast: the weakest contrast of neighbours as strong as possible"))
	t.Fact("contrast", "by your boards' own colours, else by the listed ones, which are approximate; lay the strips side by side before gluing")
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
	return fmt.Sprintf(", %s wide, from %s and what pieces yield", widthsText(a.Widths, t.Unit), ready)
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
		t.Fact("layouts", "none: nothing from %s can meet all of this (proved)", t.stock())
	case n == 0:
		t.Fact("layouts", "none found; not proved that there is none")
	case t.answer.Status == suggest.Optimal && n < t.ask.Layouts && len(t.ask.Looks) < 2:
		t.Fact("layouts", "%d, proved, no other differs enough from these", n)
	case t.ask.Sought() && t.answer.Status == suggest.Optimal:
		t.Fact("layouts", "%d, each proved the best of its look, of those that look different enough", n)
	case t.answer.Status == suggest.Optimal:
		t.Fact("layouts", "%d, each proved the best of those that differ enough from the ones before", n)
	default:
		t.Fact("layouts", "%d, not all of them proved", n)
	}
}

// sayLate tells that the time ran out, where that left something open.
func (w workshop) sayLate(late bool, s suggest.Status) {
	if late && s != suggest.Optimal {
		w.Fact("time", "the %s s ran out; a longer --time may find more", typed.Shown(w.Flags.Seconds))
	}
}

func (t suggestText) layout(i int) {
	l := t.answer.Layouts[i]
	sure := command.Or(l.Proved, "proved", "not proved")
	if i == 0 {
		sure = command.Or(l.Proved, "the best, proved", command.Or(l.UseFirst == 0 && t.answer.UseLeft(t.Unit) != "", "found, but not the best", "the best found, not proved"))
	}
	layout := t.Of("layout %d", i+1)
	if t.ask.Sought() {
		t.looks(layout, i)
	} else {
		layout.Fact("", "%s; %s, %s wide", sure, tell.Count(len(l.Strips), "strip"), t.with(l.Width))
		layout.Fact("why", "%s", t.answer.Why(i, t.Unit))
	}
	if i > 0 && !t.ask.Sought() {
		layout.Fact(fmt.Sprintf("against layout %d", i), "%s", suggest.Against(t.answer.Layouts[i-1], l))
	}
	layout.Fact("contrast", "weakest %.1f, sum %.1f", l.SmallestContrast, l.TotalContrast)
	if t.answer.Aim == suggest.UseUp {
		layout.Fact("use-first", "%s wide together", t.with(l.UseFirst))
	}
	worst(layout, l.Level, t.Physics(), t.ask.Pattern(l), t.Unit)
	layout.Fact("mirror", "%smirrored", command.Or(l.Mirror(), "", "not "))
	p := t.ask.Pattern(l)
	for n, s := range l.Strips {
		layout.Fact(fmt.Sprintf("strip %d", n+1), "%s", t.strip(s, l.Sources(n)))
		if s.Joints != "" || s.Length > 0 {
			layout.Fact(fmt.Sprintf("strip %d, laid", n+1), "%s", joints.Way(p.PiecesOf(p.Strips[n], t.Shop.Allowance.Length)).Text(n+1, t.Unit))
		}
	}
	if l.Plan != nil { // --json has every cut
		planInShort(layout, t.ask.Job(t.Physics(), l), *l.Plan, l.LeastOfTimber, t.Unit)
	}
}

// looks says what look layout i has, and how different it looks from those before.
func (t suggestText) looks(layout command.Topic, i int) {
	l := t.answer.Layouts[i]
	sure := command.Or(l.Proved, "the best of its look, proved", "the best of its look that was found, not proved")
	layout.Fact("", "%v; %s; %s, %s wide", l.Look, sure, tell.Count(len(l.Strips), "strip"), t.with(l.Width))
	layout.Fact("look", "%s", l.Look.Says())
	if i > 0 {
		layout.Fact("apart", "at least %.0f %% of the width differs from every layout before", math.Floor(l.ApartPct))
	}
	if left := l.UseLeft(t.Unit); t.answer.Aim == suggest.UseUp && left != "" {
		layout.Fact("use-first left", "%s", left)
	}
}

// strip says what lies at a place, and where it comes from.
func (t suggestText) strip(s suggest.Placed, from []string) string {
	return command.Together(t.Name(s.Species), t.with(s.Width), "rings "+s.Rings.String(), command.Said(s.Colour.Known, "colour "+s.Colour.RGB.String()),
		command.Said(s.Source != "", "from "+tell.List(from, "and")), command.Said(s.UseFirst, "use first"), command.Said(s.Pinned, "pinned"))
}

// worst tells of the glue line that asks for most, and what it does.
func worst(t command.Topic, level pattern.Level, r movement.Physics, p pattern.Pattern, u length.Unit) {
	l := r.Worst(p)
	t.Row(command.PartForm(), level, t.Subject, "worst glue line",
		fmt.Sprintf("%s, between strips %d and %d, %s, moisture %.1f points apart", level, l.Line, l.Line+1, l.Moves(p.EndGrain(), u), l.GapPct))
}

// planProof says what is proved of a plan; ofTimber says that it is the least of those
// that take the timber a layout counts on.
func planProof(plan cutting.Plan, ofTimber bool, u length.Unit) string {
	var proof string
	claim := plan.Claim()
	switch {
	case claim.Sure == cutting.Least:
		return "no better plan from the whole rack exists (proved)"
	case ofTimber:
		proof = "no better plan from timber of this moisture, these marks and colours exists (proved); not proved for the whole rack"
	default:
		proof = "not proved the best plan"
	}
	if under := claim.Under(u); under != "" {
		proof += "; " + under
	}
	return proof
}

// planInShort says what a plan that is not short draws and opens; ofTimber is as for
// planProof.
func planInShort(t command.Topic, job cutting.Job, plan cutting.Plan, ofTimber bool, u length.Unit) {
	t.Fact("plan", "nothing missing, counts %s, %s", length.Volume(plan.DrawnCM3, u), planProof(plan, ofTimber, u))
	taken := plan.ReadyTaken()
	for id, refs := range taken.All() {
		t.Fact("plan, ready strips", "%d from %s", len(refs), id)
	}
	for _, d := range worksteps.Details(job, plan) {
		strips := 0
		for range d.Strips() {
			strips++
		}
		t.Fact("plan, open "+d.Name(), "%s from %s", tell.Count(strips, "strip"), tell.Count(len(d.Cut.Sections), "length"))
	}
}

// none says what else there may be to lay out.
func (t suggestText) none() {
	if len(t.ask.Have) == 0 && len(t.ask.Rack.Entries()) == 0 {
		t.Fact("rack", "empty; oddments rack add adds timber, --have names strips on the spot")
		return
	}
	if text := t.ask.ReadyText(t.Shop, t.Unit); text != "" {
		t.Fact("ready strips", "%s", text)
		if len(t.ask.Rack.Pieces) > 0 {
			t.Fact("pieces", "not used; --widths 20,25 cuts strips of these widths from them")
		}
	}
}

// loosen says what to loosen.
func (t suggestText) loosen() {
	if t.answer.Loosen == nil && t.answer.Status != suggest.Infeasible {
		t.Fact("loosen", "not searched, since the search was not finished")
		return
	}
	ways := t.answer.Loosen.Say(t.Unit)
	brief := t.answer.Loosen != nil && t.answer.Loosen.Brief
	for _, way := range ways {
		t.Fact("loosen", "%s", way)
	}
	proved := t.answer.Loosen != nil && t.answer.Loosen.Proved
	switch {
	case brief && !proved && len(ways) > 0:
		t.Fact("loosen", "searched for %g s only; less of it may be enough, or another condition", suggest.LoosenFor.Seconds())
	case brief && !proved:
		t.Fact("loosen", "no single change found that is enough; searched for %g s only", suggest.LoosenFor.Seconds())
	case len(ways) > 0 && t.answer.Status != suggest.Infeasible:
		t.Fact("loosen", "less of it may be enough, or nothing at all")
	case len(ways) > 0:
	case !proved:
		t.Fact("loosen", "no single change found that is enough")
	default:
		t.Fact("loosen", "no single change is enough; other or more strips are needed")
	}
}
