package bench

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
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
	}{{strip.Turned, "turned"}, {strip.Over, "over"}, {strip.Pinned, "pinned"}} {
		if flag.set { // no key may be without a sign of what it did, where the rest is cut off too
			parts = append(parts, flag.word)
		}
	}
	parts = append(parts, fmt.Sprintf("%.1f %% %s", ctx.Physics.Moisture(ctx.State.Pattern, strip), moistureOf(ctx.State.Pattern, strip)))
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
			return "rings unknown"
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

// wordsFrom is the width from which both glue lines find room with all their words.
const wordsFrom = 110

// lines says what the glue lines left and right of the chosen strip do.
func lines(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	const gap = 3
	wide := r.W >= wordsFrom
	for _, n := range [...]int{ctx.State.Selected, ctx.State.Selected + 1} {
		if n < 1 || n > len(ctx.Report.Figures.Lines) {
			continue
		}
		_, r = r.SplitLeft(line(c, r, ctx, ctx.Report.Figures.Lines[n-1], wide) + gap)
	}
}

// line says what one glue line does, and returns the cells that it took.
func line(c *paint.Canvas, r paint.Rect, ctx screen.Context, l movement.Line, wide bool) int {
	f := ctx.Of(l)
	text := fmt.Sprintf("%d|%d ", l.Line, l.Line+1)
	other := l.Line
	if other == ctx.State.Selected+1 {
		other = l.Line + 1
	}
	text += ctx.Letters(ctx.State.Pattern.Strips[other-1].Species) + " "
	switch {
	case !l.Known:
		text += "no figure"
	default:
		text += length.Step(f.StepUM, l.StepPM, ctx.Unit) + " " + f.Season.String()
	}
	all := r
	say := func(text string, style paint.Style) {
		_, r = r.SplitLeft(c.Text(r, text, style))
	}
	say(text, paint.Style{})
	if wide || f.Gap <= f.Moves { // on little room the worse of the two is said
		say(", ", paint.Style{})
		say(verdict(l, f.Moves, wide), c.Role(screen.Role(f.Moves)))
	}
	if l.GapPct > 0 && (wide || f.Gap > pattern.Fine) {
		say(fmt.Sprintf(", gap %.1f", l.GapPct), paint.Style{})
	}
	if f.Gap > f.Moves {
		say(" ", paint.Style{})
		say(f.Gap.String(), c.Role(screen.Role(f.Gap)))
	}
	return r.X - all.X
}

// verdict returns the level of how a line moves in words, with what keeps it open.
func verdict(l movement.Line, level pattern.Level, wide bool) string {
	text := level.String()
	if !l.Settled {
		text += " ?"
	}
	if l.Borderline && wide {
		text += ", borderline"
	}
	return text
}

// Advise returns the best remedy for a glue line of the chosen strip: that of the
// worse finding.
func Advise(ctx screen.Context) (check.Remedy, bool) {
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
func advice(c *paint.Canvas, r paint.Rect, ctx screen.Context) int {
	remedy, ok := Advise(ctx)
	if ok {
		at := c.Text(r, ctx.Keys.KeyOf(keymap.Advice), c.Role(paint.RoleKey))
		_, r = r.SplitLeft(at + 1)
		words := screen.Wrap(remedy.Between(), r.W)
		c.Lines(r, words, paint.Style{})
		return min(len(words), r.H)
	}
	if look := ctx.Looks(); look != "" {
		c.TextFit(r, "look at the end grain of "+look, c.Role(paint.RoleUnknown))
	}
	return 1
}

// timber says what the panel takes of each timber, what the rack has, and what lies
// on the tray.
func timber(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	var parts []string
	for _, t := range ctx.Report.Figures.Timber {
		parts = append(parts, ctx.Letters(t.Species)+" "+used(ctx, t, "/"))
	}
	text := strings.Join(parts, "   ")
	switch {
	case text == "":
	case hasRack(ctx):
		text = "needs/rack " + length.VolumeUnit(ctx.Unit) + "   " + text
	default:
		text = "needs " + length.VolumeUnit(ctx.Unit) + "   " + text
	}
	if tray := tray(ctx); tray != "" {
		text += "   aside " + tray
	}
	c.TextFit(r, text, c.Role(paint.RoleFaint))
}

// used says what is used of a timber and, behind of, what the rack has, and whether the rack has less than that. The
// rack may run short all the same: what can be cut of it is not computed here.
func used(ctx screen.Context, t movement.Timber, of string) string {
	text := length.VolumeValue(t.RoughCM3, ctx.Unit)
	if !hasRack(ctx) {
		return text
	}
	have := ctx.Rack.VolumeCM3(t.Species)
	text += of + length.VolumeValue(have, ctx.Unit)
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
