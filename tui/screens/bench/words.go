package bench

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// chosen says everything of the chosen strip.
func chosen(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	strip, ok := ctx.State.Strip()
	if !ok {
		return
	}
	at := c.Text(r, fmt.Sprintf(" %d ", ctx.State.Selected+1), c.Role(paint.RoleSelected))
	_, r = r.SplitLeft(at + 1)
	parts := []string{
		ctx.Name(strip.Species),
		strip.Width.Format(ctx.Unit) + " x " + ctx.Physics.Shop().Glued(ctx.State.Pattern.Panel.Thickness).With(ctx.Unit),
		rings(strip.Rings),
	}
	parts = append(parts, strip.Grain().Words(ctx.Unit)...)
	for _, flag := range [...]struct {
		set  bool
		word string
	}{{strip.Turned, "end for end"}, {strip.Over, "face down"}, {strip.Pinned, "pinned"}} {
		if flag.set { // no key may be without a sign of what it did, where the rest is cut off too
			parts = append(parts, flag.word)
		}
	}
	parts = append(parts, fmt.Sprintf("moisture %.1f %% %s", ctx.Physics.Moisture(ctx.State.Pattern, strip), moistureOf(ctx.State.Pattern, strip)))
	own := ctx.State.Pattern.StripLength(strip, ctx.Allow.Length).With(ctx.Unit) + " long"
	if strip.Length > 0 {
		own = "own length " + strip.Length.With(ctx.Unit)
	}
	switch {
	case strip.Start > 0 && strip.Length > 0: // the two are read as one, and must both be seen
		own = "own length " + strip.Length.Format(ctx.Unit) + ", from " + strip.Start.With(ctx.Unit)
	case strip.Start > 0:
		own += ", from " + strip.Start.With(ctx.Unit)
	}
	parts = append(parts, own)
	c.TextFit(r, strings.Join(parts, "   "), paint.Style{})
}

func rings(r pattern.Rings) string {
	if word, ok := r.Word(); ok {
		if !r.Known() {
			return "rings not checked"
		}
		return word
	}
	return "rings at " + r.String()
}

// moistureOf says where a strip's moisture comes from.
func moistureOf(p pattern.Pattern, s pattern.Strip) string {
	switch {
	case s.Moisture.Known:
		return "read"
	case p.Panel.Moisture.Known:
		return "as the panel"
	default:
		return "as the air"
	}
}

// A told is a part of what is said of a glue line, with the level that it names; -1: none.
type told struct {
	text  string
	level pattern.Level
}

// plain is said in no colour of a level.
const plain pattern.Level = -1

// lines says what the glue lines left and right of the chosen strip do, in as many words
// as both find room with; the milder of the two is shortened first.
func lines(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	var both []movement.Line
	for _, n := range [...]int{ctx.State.Selected, ctx.State.Selected + 1} {
		if n >= 1 && n <= len(ctx.Report.Figures.Lines) {
			both = append(both, ctx.Report.Figures.Lines[n-1])
		}
	}
	says := [...]func(screen.Context, movement.Line) []told{inFull, inShort, verdictOnly}
	for _, brevity := range [...][2]int{{0, 0}, {1, 0}, {1, 1}, {2, 1}, {2, 2}} { // of the milder, of the other
		var all []told
		for i, l := range both {
			brief := brevity[1]
			if len(both) > 1 && milder(ctx, both) == i {
				brief = brevity[0]
			}
			if i > 0 {
				all = append(all, told{"   ", plain})
			}
			all = append(all, says[brief](ctx, l)...)
		}
		width := 0
		for _, t := range all {
			width += paint.Width(t.text)
		}
		if width > r.W {
			continue
		}
		for _, t := range all {
			style := paint.Style{}
			if t.level != plain {
				style = c.Role(screen.Role(t.level))
			}
			_, r = r.SplitLeft(c.Text(r, t.text, style))
		}
		return
	}
}

// milder returns which of two glue lines is at the lower level.
func milder(ctx screen.Context, both []movement.Line) int {
	if ctx.Of(both[1]).Level < ctx.Of(both[0]).Level {
		return 1
	}
	return 0
}

// inFull says all of a glue line: 9|10 HB step 71 ±13 um humid, take care; moisture 2.2
// points apart, too much.
func inFull(ctx screen.Context, l movement.Line) []told {
	f := ctx.Of(l)
	out := []told{{neighbour(ctx, l) + moves(ctx, l) + ", ", plain}, {f.Moves.String(), f.Moves}}
	if !l.Settled {
		out = append(out, told{", rings not checked", plain})
	}
	if l.Borderline {
		out = append(out, told{", close to the limit", plain})
	}
	switch {
	case f.Gap > f.Moves:
		out = append(out, told{"; " + apart(l) + ", ", plain}, told{f.Gap.String(), f.Gap})
	case l.GapPct > 0:
		out = append(out, told{"; " + apart(l), plain})
	}
	return out
}

// inShort says what decides a glue line, moisture or movement.
func inShort(ctx screen.Context, l movement.Line) []told {
	f := ctx.Of(l)
	if f.Gap > f.Moves {
		return []told{{neighbour(ctx, l) + fmt.Sprintf("moisture %.1f apart, ", l.GapPct), plain}, {f.Gap.String(), f.Gap}}
	}
	return append([]told{{neighbour(ctx, l) + moves(ctx, l) + ", ", plain}}, verdict(l, f.Moves)...)
}

// verdictOnly says the level of a glue line.
func verdictOnly(ctx screen.Context, l movement.Line) []told {
	return append([]told{{neighbour(ctx, l), plain}}, verdict(l, ctx.Of(l).Level)...)
}

// neighbour returns a glue line with the timber on its far side: 9|10 HB.
func neighbour(ctx screen.Context, l movement.Line) string {
	other := l.Line
	if other == ctx.State.Selected+1 {
		other = l.Line + 1
	}
	return fmt.Sprintf("%d|%d %s ", l.Line, l.Line+1, ctx.Letters(ctx.State.Pattern.Strips[other-1].Species))
}

// moves says how a line steps.
func moves(ctx screen.Context, l movement.Line) string {
	if !l.Known {
		return "no figure"
	}
	f := ctx.Of(l)
	if ctx.State.Pattern.EndGrain() { // there the thickness lies along the grain: no step
		return fmt.Sprintf("strain %.2f ±%.2f %% %s", f.StrainPct, l.StrainPM, f.Season)
	}
	return "step " + length.Step(f.StepUM, l.StepPM, ctx.Unit) + " " + f.Season.String()
}

func apart(l movement.Line) string { return fmt.Sprintf("moisture %.1f points apart", l.GapPct) }

// verdict returns a level, or that the rings keep it open.
func verdict(l movement.Line, level pattern.Level) []told {
	switch {
	case l.Settled:
		return []told{{level.String(), level}}
	case level == pattern.Fine:
		return []told{{"rings?", plain}}
	default:
		return []told{{level.String(), level}, {", rings?", plain}}
	}
}

// ofBoard returns the worst finding about the second glue-ups, of equals one that has a
// remedy.
func ofBoard(ctx screen.Context) (worst check.Group, found bool) {
	for _, f := range ctx.Report.Groups {
		if f.Where.Second > 0 && (!found || f.Level > worst.Level || f.Level == worst.Level && len(worst.Remedies()) == 0 && len(f.Remedies()) > 0) {
			worst, found = f, true
		}
	}
	return worst, found
}

// Advise returns the best remedy for a glue line of the chosen strip: that of the
// worse finding. Where the board is shown it is for that.
func (s Screen) Advise(ctx screen.Context) (check.Remedy, bool) {
	if s.showsBoard(ctx) {
		if f, ok := ofBoard(ctx); ok && len(f.Remedies()) > 0 {
			return f.Remedies()[0], true
		}
		return check.Remedy{}, false
	}
	var best check.Finding
	found := false
	for _, n := range [...]int{ctx.State.Selected, ctx.State.Selected + 1} {
		for _, f := range ctx.Report.At(n) {
			if n > 0 && len(f.Remedies()) > 0 && (!found || f.Level > best.Level) {
				best, found = f, true
			}
		}
	}
	if !found {
		for _, f := range ctx.Report.Findings {
			if f.Where == (check.Place{}) && len(f.Remedies()) > 0 {
				return f.Remedies()[0], true
			}
		}
		return check.Remedy{}, false
	}
	return best.Remedies()[0], true
}

// advice says in r what would help, with the key that does it, and returns the rows that it
// takes: what a key does is said in whole.
func (s Screen) advice(c *paint.Canvas, r paint.Rect, ctx screen.Context) int {
	remedy, ok := s.Advise(ctx)
	if s.showsBoard(ctx) {
		return boardAdvice(c, r, ctx, remedy)
	}
	if ok {
		at := c.Text(r, ctx.Keys.KeyOf(keymap.Advice), c.Role(paint.RoleKey))
		_, r = r.SplitLeft(at + 1)
		words := screen.Wrap(remedy.Between(), r.W)
		c.Lines(r, words, paint.Style{})
		return min(len(words), r.H)
	}
	if look := ctx.Looks(); look != "" {
		c.TextFit(r, "check the end grain of "+look, c.Role(paint.RoleUnknown))
	}
	return 1
}

// boardAdvice says what is worst about the board and, in a row of its own, what would help.
func boardAdvice(c *paint.Canvas, r paint.Rect, ctx screen.Context, remedy check.Remedy) int {
	f, ok := ofBoard(ctx)
	if !ok || f.Level == pattern.Fine && remedy.Text == "" {
		c.Text(r, "the board asks for no care; "+ctx.Keys.KeyOf("glue-again")+" changes how it is glued", c.Role(paint.RoleFaint))
		return 1
	}
	words := screen.Wrap(screen.Sentence(f), r.W)
	rows := min(len(words), r.H)
	if remedy.Text != "" {
		rows = min(rows, r.H-1)
		at := c.Text(r.Row(rows), ctx.Keys.KeyOf(keymap.Advice), c.Role(paint.RoleKey))
		_, key := r.Row(rows).SplitLeft(at + 1)
		c.TextFit(key, remedy.Text, paint.Style{})
	}
	for i := range rows {
		text := words[i]
		if i == rows-1 { // the rest of it stands among the findings
			for _, more := range words[rows:] {
				text += " " + strings.TrimSpace(more)
			}
		}
		c.TextFit(r.Row(i), text, paint.Style{})
	}
	c.Text(r, f.Level.Heading(), c.Role(screen.Role(f.Level)))
	return r.H
}

// timber says what the panel takes of each timber, what the rack has, and what lies
// aside.
func timber(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	var parts []string
	for _, t := range ctx.Report.Figures.Timber {
		parts = append(parts, ctx.Letters(t.Species)+" "+used(ctx, t))
	}
	text := strings.Join(parts, "   ")
	switch {
	case text == "":
	case hasRack(ctx):
		text = "needs/rack " + length.VolumeUnit(ctx.Unit) + "   " + text
	default:
		text = "needs " + length.VolumeUnit(ctx.Unit) + "   " + text
	}
	if n := len(ctx.State.Tray); n > 0 {
		key := ctx.Keys.KeyOf("bring-back")
		aside := screen.FirstThatFits(r.W-paint.Width(text), "   aside "+tray(ctx),
			fmt.Sprintf("   %s aside: %s", tell.Count(n, "strip"), key), fmt.Sprintf("   %d aside: %s", n, key))
		if room := r.W - paint.Width(aside); paint.Width(text) > room { // what lies aside is said in whole
			text = paint.Fit(text, room)
		}
		text += aside
	}
	if joints := ctx.State.Pattern.Joints(); joints > 0 {
		text = fmt.Sprintf("joints %d   ", joints) + text
	}
	c.TextFit(r, text, c.Role(paint.RoleFaint))
}

// used says what is used of a timber and, behind a stroke, what the rack has, and whether
// the rack has less than that. The rack may run short all the same: what can be cut of it
// is not computed here.
func used(ctx screen.Context, t movement.Timber) string {
	text := length.VolumeValue(t.RoughCM3, ctx.Unit)
	if !hasRack(ctx) {
		return text
	}
	have := ctx.Rack.VolumeCM3(t.Species)
	text += "/" + length.VolumeValue(have, ctx.Unit)
	if have < t.FinishedCM3 {
		text += " SHORT"
	}
	return text
}

func hasRack(ctx screen.Context) bool { return len(ctx.Rack.Pieces)+len(ctx.Rack.Strips) > 0 }

func tray(ctx screen.Context) string {
	var out []string
	for _, s := range ctx.State.Tray {
		out = append(out, ctx.Letters(s.Species)+" "+s.Width.Format(ctx.Unit))
	}
	return strings.Join(out, ", ")
}
