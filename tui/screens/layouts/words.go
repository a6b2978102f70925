package layouts

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// drawHead says what is laid out, and of what.
func drawHead(c *paint.Canvas, r paint.Rect, ctx scene) {
	u := ctx.Unit
	title := "Layouts"
	text := ""
	if ctx.q.Again {
		title = "Again, from what the rack holds"
		text = fmt.Sprintf("%d x %s", max(1, ctx.q.Same.Copies), ctx.Title)
	} else {
		text = fmt.Sprintf("%s wide, %s thick, %s long", ctx.q.Ask.Width.Format(u), ctx.q.Ask.Thickness.Format(u), ctx.q.Ask.Length.With(u))
		if n := len(ctx.q.Ask.Pinned); n > 0 {
			text += fmt.Sprintf(", %d pinned", n)
		}
	}
	at := c.Text(r, title, c.Role(paint.RoleHeading))
	right := ""
	if n := len(ctx.s.shown.Laid); n > 0 {
		right = fmt.Sprintf("%s of %d", Name(ctx.s.at), n)
	}
	c.TextRight(r, right, c.Role(paint.RoleFaint))
	_, rest := r.SplitLeft(at + 3)
	rest.W -= paint.Width(right) + 2
	c.TextFit(rest, text, paint.Style{})
}

// drawState says how the search goes, how sure its answer is, or that it is of an
// out of date.
func drawState(c *paint.Canvas, r paint.Rect, ctx scene) {
	role, text := paint.RolePlain, ""
	switch {
	case ctx.s.works:
		role = paint.RoleUnknown
		text = fmt.Sprintf("searching: %d of %d proved", ctx.s.found.Layouts, ctx.s.found.Wanted)
		if len(ctx.s.asked.Ask.Looks) > 0 {
			text = fmt.Sprintf("searching: %d of %d found", ctx.s.found.Layouts, ctx.s.found.Wanted)
		}
		if n := len(ctx.s.shown.Laid); n > ctx.s.found.Layouts && !ctx.stale {
			text += fmt.Sprintf(", %d so far", n)
		}
		switch {
		case ctx.s.found.None:
			text = none + "; finding out which change helps"
		case ctx.s.found.Wanted == 0:
			text = "searching"
		}
		if ctx.s.found.Tried > 0 {
			text += fmt.Sprintf(", %d skipped: too little timber", ctx.s.found.Tried)
		}
		text += fmt.Sprintf("   %s stops", ctx.Keys.KeyOf(layStop))
		if ctx.stale && len(ctx.s.shown.Laid) > 0 {
			text += "   (these are out of date)"
		}
	case ctx.stale:
		role, text = paint.RoleCare, "out of date (bench, rack or settings changed): "+ctx.Keys.KeyOf(layAsk)+" searches again"
	case !ctx.s.shown.Have:
		return
	case ctx.s.shown.Told.Row() != "":
		role, text = paint.RoleError, ctx.s.shown.Told.Row()
	default:
		text = ctx.sure(r.W)
	}
	c.TextFit(r, text, c.Role(role))
}

// none says that there is no layout.
const none = "no layout can meet all of this (proved)"

// sure says what is proved of the layouts and, where it fits too, by what they are ordered.
func (ctx scene) sure(room int) string {
	order := "best first: by weakest contrast, then by the sum"
	if ctx.s.shown.Aim == suggest.UseUp {
		order = "best first: by use-first wood, then by contrast"
	}
	proved := 0
	for _, l := range ctx.s.shown.Laid {
		if l.Summary.Sure > suggest.Unproved {
			proved++
		}
		if l.Sought {
			order = "the best of each look"
		}
	}
	if ctx.q.Again {
		order = "closest in colour first"
	}
	proof := fmt.Sprintf("%d found, %d proved", len(ctx.s.shown.Laid), proved)
	switch {
	case len(ctx.s.shown.Laid) == 0 && ctx.s.shown.Status == suggest.Infeasible:
		return none
	case len(ctx.s.shown.Laid) == 0:
		return "no layout found yet; not proved that there is none"
	case ctx.s.shown.Status == suggest.Optimal:
		proof = "all proved"
	}
	if ctx.s.shown.NoMore {
		proof += ", no other differs enough"
	}
	if ctx.s.shown.stopped {
		proof += ", stopped"
	}
	proof += ", " + tell.Took(ctx.s.shown.took)
	if text := order + "   " + proof; paint.Width(text) <= room {
		return text
	}
	return "best first   " + proof
}

// loosenHead is how many rows stand above the conditions to loosen.
const loosenHead = 2

// drawNone says what would do where there is no layout.
func drawNone(c *paint.Canvas, r paint.Rect, ctx scene) {
	if len(ctx.s.shown.loosen) == 0 {
		texts := []string{"No single change is enough, as far as the search could tell."}
		if ctx.s.shown.Status != suggest.Infeasible {
			why := "The search gave up before it could tell."
			if ctx.s.shown.stopped {
				why = "The time was too short to tell."
			}
			texts = []string{why + " Fewer strip widths shorten the search; pins and a narrower range of strips too."}
		}
		if !ctx.q.Again {
			if text := ctx.q.Ask.ReadyText(ctx.Physics.Shop(), ctx.Unit); text != "" {
				texts = append([]string{"From ready strips alone: " + text + "."}, texts...)
			}
			texts = append(texts, fmt.Sprintf("Try other strip widths (%s), strips cut from pieces too (%s), another wanted width or more timber.",
				ctx.Keys.KeyOf(layWidths), ctx.Keys.KeyOf(layFrom)))
		} else {
			texts = append(texts, fmt.Sprintf("Try fewer copies (%s), another level (%s) or more timber.", ctx.Keys.KeyOf(layCopiesN), ctx.Keys.KeyOf(layLevel)))
		}
		writeLines(c, r, texts)
		return
	}
	c.Text(r.Row(0), fmt.Sprintf("Any one of these changes is enough; %s makes the chosen one:", ctx.Keys.KeyOf(layTake)), paint.Style{})
	_, r = r.SplitTop(loosenHead)
	for i, l := range ctx.s.shown.loosen {
		mark, style := screen.Marked(c, i == ctx.s.at)
		c.Fill(r.Row(i), ' ', style)
		c.TextFit(r.Row(i), mark+l.text(ctx.Unit), style)
	}
}

// drawWords says of the chosen layout why it stands where it does, how it differs from
// what lies on the bench, and what it needs.
func drawWords(c *paint.Canvas, r paint.Rect, wide bool, ctx scene) {
	if ctx.s.at >= len(ctx.s.shown.Laid) {
		return
	}
	l := ctx.s.shown.Laid[ctx.s.at]
	texts := []string{why(l, wide, ctx)}
	if l.Sought {
		texts = append(texts, uses(l, ctx))
	}
	if ctx.s.strip >= 0 && ctx.s.strip < len(l.Pattern.Strips) {
		texts = append(texts, stripWords(l, ctx))
	}
	switch {
	case ctx.q.Again:
		texts = append(texts, becomes(l, ctx), needs(l), worst(l, ctx))
	case l.Sought:
		texts = append(texts, worst(l, ctx), pieced(l), needs(l))
		if !wide { // beside the pictures they are said in full
			texts = append(texts, ctx.leftOutBrief())
		}
		if len(ctx.State.Pattern.Strips) > 0 {
			texts = append(texts, differs(l, ctx))
		}
	default:
		texts = append(texts, differs(l, ctx), pieced(l), needs(l), worst(l, ctx))
	}
	if !wide && ctx.s.strip < 0 && !l.Sought {
		texts[0], texts[1] = texts[1], texts[0] // what it changes comes before the proof where rows are few
	}
	writeTexts(c, r, slices.DeleteFunc(texts, func(text string) bool { return text == "" }), wide)
}

// sentences says all that there is to say of the chosen layout, a sentence for each thing;
// nothing where there is none.
func sentences(ctx scene) []string {
	if ctx.s.at >= len(ctx.s.shown.Laid) {
		return nil
	}
	l := ctx.s.shown.Laid[ctx.s.at]
	out := []string{why(l, true, ctx)}
	if l.Sought {
		out = append(out, uses(l, ctx))
	}
	if ctx.q.Again {
		out = append(out, becomes(l, ctx))
	} else {
		for _, ch := range suggest.Compare(ctx.State.Pattern.Strips, l.Pattern.Strips) {
			out = append(out, "strip "+change(ch, ctx.State.Pattern.Strips, l.Pattern.Strips, ctx))
		}
	}
	out = append(append(out, pieces(l, ctx)...), needs(l))
	for _, line := range l.Summary.Lines {
		out = append(out, lineWords("", line, l, ctx))
	}
	for _, left := range ctx.s.shown.leftOut {
		out = append(out, leftOutWords(left))
	}
	return out
}

// why says why a layout stands where it does, where there is room in what it differs from
// the one before it, and what is proved of it and its plan.
func why(l Candidate, room bool, ctx scene) string {
	text := Name(ctx.s.at) + ": "
	switch {
	case ctx.s.shown.Part && !l.Sought:
		return text + "found so far; the search continues"
	case l.Sought:
		return text + lookWhy(l, ctx)
	case ctx.q.Again:
		text += fmt.Sprintf("average colour difference %.1f", l.Same.AwayEach())
		if ctx.s.at == 0 && ctx.s.shown.Status == suggest.Optimal {
			text += ": the closest the rack has (proved)"
		}
	case l.Place < len(l.Answer.Layouts):
		if l.Later && l.Place == 0 {
			text += "of those that differ from the ones before, "
		}
		text += l.Answer.Why(l.Place, ctx.Unit)
		if room && l.Against != "" {
			text += ". Against " + Name(ctx.s.at-1) + ", " + l.Against
		}
	}
	return text + ". " + proof(l)
}

// proof says what is proved of a layout and of its plan.
func proof(l Candidate) string {
	plan := l.Layout.Plan
	if l.Same.Plan.Cuts != nil || l.Same.Plan.Ready != nil {
		plan = &l.Same.Plan
	}
	switch {
	case l.Summary.Sure == suggest.AllProved && plan != nil:
		return "Layout and plan are proved."
	case l.Summary.Sure == suggest.AllProved:
		return "Proved."
	case l.Summary.Sure == suggest.LayoutProved && plan != nil && plan.Claim().Sure != cutting.Least:
		return "The layout is proved; its plan is complete, but not proved the best."
	case l.Summary.Sure == suggest.AmongPlanned:
		return "Proved among those whose plan was found; some were skipped without proof."
	default:
		return "Not proved the best."
	}
}

// mostNamed is how many strips are named one by one.
const mostNamed = 12

// differs says in which strips a layout differs from the bench.
func differs(l Candidate, ctx scene) string {
	was, now := ctx.State.Pattern.Strips, l.Pattern.Strips
	if len(was) == 0 {
		return fmt.Sprintf("%d strips, %s wide.", len(now), l.Layout.Width.With(ctx.Unit))
	}
	changes := suggest.Compare(was, now)
	if len(changes) == 0 {
		return "Same as yours" + otherMoisture(was, now)
	}
	var parts []string
	for _, ch := range changes[:min(len(changes), mostNamed)] {
		parts = append(parts, change(ch, was, now, ctx))
	}
	if len(changes) > mostNamed {
		parts = append(parts, "and more")
	}
	return fmt.Sprintf("%s (%s wide): %s.", changed(len(changes), len(was), len(now)), l.Layout.Width.With(ctx.Unit), strings.Join(parts, ", "))
}

// changed says how many strips change: 9 of 11 strips change, or 5 strips instead of 6.
func changed(changes, was, now int) string {
	if was != now {
		return fmt.Sprintf("%s instead of %d", tell.Count(now, "strip"), was)
	}
	return fmt.Sprintf("%d of %s %s", changes, tell.Count(was, "strip"), verb(changes))
}

func verb(n int) string {
	if n == 1 {
		return "changes"
	}
	return "change"
}

// otherMoisture ends the sentence that two rows of strips are alike.
func otherMoisture(was, now []pattern.Strip) string {
	n := 0
	for i := range min(len(was), len(now)) {
		if was[i].Moisture != now[i].Moisture {
			n++
		}
	}
	if n == 0 {
		return "."
	}
	return fmt.Sprintf(", except the moisture of %s.", tell.Count(n, "strip"))
}

// change says what one strip becomes.
func change(ch suggest.Change, was, now []pattern.Strip, ctx scene) string {
	one := func(s pattern.Strip) string { return ctx.Letters(s.Species) + " " + s.Width.Format(ctx.Unit) }
	switch {
	case ch.Was == 0:
		return fmt.Sprintf("%d %s new", ch.Now, one(now[ch.Now-1]))
	case ch.Now == 0:
		return fmt.Sprintf("your %d %s out", ch.Was, one(was[ch.Was-1]))
	}
	w, n := was[ch.Was-1], now[ch.Now-1]
	wood, before := ctx.Letters(n.Species), ctx.Letters(w.Species)
	switch {
	case w.Species == n.Species && w.Width == n.Width:
		return fmt.Sprintf("%d %s rings %s -> %s", ch.Now, wood, w.Rings, n.Rings)
	case w.Species == n.Species:
		return fmt.Sprintf("%d %s -> %s", ch.Now, one(w), n.Width.Format(ctx.Unit))
	case w.Width == n.Width:
		return fmt.Sprintf("%d %s -> %s", ch.Now, before, wood)
	default:
		return fmt.Sprintf("%d %s -> %s", ch.Now, one(w), one(n))
	}
}

// becomes says which timber stands in for which, how far away in colour each is, and which
// stay.
func becomes(l Candidate, ctx scene) string {
	var parts []string
	for _, was := range slices.Sorted(maps.Keys(l.Same.Timbers)) {
		now := l.Same.Timbers[was]
		if was == now {
			parts = append(parts, ctx.Name(was)+" stays")
			continue
		}
		parts = append(parts, fmt.Sprintf("%s -> %s, colour difference %.1f", ctx.Name(was), ctx.Name(now), away(was, now, ctx)))
	}
	return strings.Join(parts, "; ") + "."
}

// standIns says in letters which timber stands in for which.
func standIns(l Candidate, ctx scene) string {
	var parts []string
	for _, was := range slices.Sorted(maps.Keys(l.Same.Timbers)) {
		if now := l.Same.Timbers[was]; now != was {
			parts = append(parts, ctx.Letters(was)+" -> "+ctx.Letters(now))
		}
	}
	return cmp.Or(strings.Join(parts, ", "), "same timbers")
}

// away returns the colour difference of two timbers.
func away(was, now string, ctx scene) float64 {
	a, _ := ctx.Physics.Table().Get(was)
	b, _ := ctx.Physics.Table().Get(now)
	return a.Contrast(b)
}

// needs says which pieces and ready strips a layout takes.
func needs(l Candidate) string {
	parts := make([]string, len(l.Summary.Needs))
	for i, n := range l.Summary.Needs {
		parts[i] = fmt.Sprintf("%s (%d)", n.ID, n.Strips)
	}
	text := "Needs " + strings.Join(parts, ", ") + "."
	if len(parts) == 0 {
		text = "Needs nothing from the rack."
	}
	for i, p := range l.Layout.Strips {
		if p.Source == "" {
			text += fmt.Sprintf(" Strip %d is pinned and not on the rack: taken as given.", i+1)
		}
	}
	return text
}

// worst says which glue line asks most, and what it does.
func worst(l Candidate, ctx scene) string {
	if l.Summary.Worst.Line == 0 {
		return "No glue line."
	}
	return lineWords("Worst glue line ", l.Summary.Worst, l, ctx)
}

// lineWords says what a glue line does.
func lineWords(what string, line movement.Line, l Candidate, ctx scene) string {
	at := fmt.Sprintf("%s%d|%d, %s and %s: ", what, line.Line, line.Line+1, ctx.Name(l.Pattern.Strips[line.Line-1].Species), ctx.Name(l.Pattern.Strips[line.Line].Species))
	if !line.Known {
		return at + "no figure."
	}
	text := at + "step " + length.Step(line.StepUM, line.StepPM, ctx.Unit) + " " + line.Season.String() + ", " + line.Level.String()
	if !line.Settled {
		text += ", rings not checked"
	}
	return text + "."
}

// stripWords says everything of the chosen strip.
func stripWords(l Candidate, ctx scene) string {
	n := ctx.s.strip
	s := l.Pattern.Strips[n]
	parts := []string{fmt.Sprintf("Strip %d: %s %s", n+1, ctx.Name(s.Species), s.Width.With(ctx.Unit)), "rings " + s.Rings.String()}
	if s.Moisture.Known {
		parts = append(parts, fmt.Sprintf("moisture %.1f %%", s.Moisture.Percent))
	}
	if n < len(l.Layout.Strips) {
		p := l.Layout.Strips[n]
		if p.Source != "" {
			parts = append(parts, "from "+p.Source)
		}
		if p.UseFirst {
			parts = append(parts, "use first")
		}
	}
	if pinned(n, ctx.s.at, ctx) {
		parts = append(parts, "pinned")
	}
	return strings.Join(parts, ", ") + "."
}
