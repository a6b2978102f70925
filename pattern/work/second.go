package work

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/tell"
)

// SecondFigures are what one second glue-up takes. Grams and area are for all copies, the
// rest is for one board.
type SecondFigures struct {
	Joints  int
	AreaM2  float64
	Grams   float64  // more where a joint cuts the grain
	Minutes float64  // to spread every joint in one go
	Stages  Estimate // that spreading within the open time makes
	Clamps  Estimate // the larger of force and reach
}

func secondOf(r movement.Physics, j Job) (all []SecondFigures) {
	if j.Board == nil {
		return nil
	}
	g := r.Shop().Glue
	for i, up := range j.Board.Ups {
		f := SecondFigures{Joints: max(0, up.Bars-1)}
		var longest length.Length
		var area float64 // cm2, one board
		for _, l := range up.Joints() {
			area += length.AreaCM2(l, up.Height())
			longest = max(longest, l)
		}
		f.AreaM2 = area / 1e4 * float64(j.Copies)
		f.Grams = GlueGrams(f.AreaM2, g)
		if j.cutsGrain(i + 1) {
			f.Grams *= 1 + g.SizePct/100
		}
		f.Minutes = float64(f.Joints) * g.SecondsJoint / 60
		f.Stages = glueUps(f.Joints, g)
		if f.Joints > 0 {
			_, _, f.Clamps = clamps(g, longest, ClampForceN(g.PressureMPa, longest, up.Height()))
		}
		all = append(all, f)
	}
	return all
}

// cutsGrain reports whether joints of a second glue-up, from 1, cut the grain.
func (j Job) cutsGrain(n int) bool {
	for _, l := range j.Board.Lines {
		if l.Second == n && l.Cuts() {
			return true
		}
	}
	return false
}

// SecondText says what is cut and how it is laid in a second glue-up.
func SecondText(g second.GlueUp, u length.Unit) string {
	text := fmt.Sprintf("%s %s wide as sawn, ", tell.Count(g.Bars, "bar"), g.Bar.With(u))
	if g.Mitred() {
		text += fmt.Sprintf("mitred at %g degrees (%g on the saw's scale), ", g.Degrees(), pattern.Square-g.Degrees())
	}
	if g.Lay == pattern.LayEnd {
		return text + "rolled a quarter turn, end grain up"
	}
	return text + "laid flat, as cut"
}

// LyingText groups the bars of a second glue-up by how they lie, lengths in u.
func LyingText(g second.GlueUp, u length.Unit) string {
	var lie tell.Groups[string, int]
	for i, shift := range g.Shifts {
		var how tell.Phrases
		how.If(g.TurnedAt(i), "end for end")
		how.If(g.OverAt(i), "turned over")
		how.If(shift > 0, "shifted "+shift.With(u))
		if len(how) == 0 {
			how = tell.Phrases{"as cut"}
		}
		lie.Add(strings.Join(how, ", "), i+1)
	}
	var all []string
	for how, bars := range lie.All() {
		all = append(all, tell.Numbered("bar", bars)+" "+how)
	}
	return strings.Join(all, "; ")
}

// BarLines says where the bars of every second glue-up of j are cut and how they are laid.
func BarLines(j Job, u length.Unit) []Line {
	m := marker{job: j, unit: u}
	m.bars()
	return m.lines
}

// bars says where the bars of every second glue-up are cut and how they are laid.
func (m *marker) bars() {
	if m.job.Board == nil {
		return
	}
	for i, g := range m.job.Board.Ups {
		of, from := fmt.Sprintf("second glue-up %d", i+1), "the panel, squared and flattened"
		if i > 0 {
			from = fmt.Sprintf("board %d, turned a quarter, its bar 1 at edge A", i)
		}
		m.say(of, "cut", "%s, %s long and %s wide", from, m.with(g.From.Length), m.with(g.From.Width))
		m.say(of, "bars", "%s", SecondText(g, m.unit))
		if cuts := g.Cuts(); len(cuts) > 0 {
			m.say(of, "near side of each bar, along edge A", "%s", tell.Lengths(m.unit, cuts...))
			m.say(of, "lay them", "%s", LyingText(g, m.unit))
		}
		if g.Size.Length > 0 {
			m.say(of, "board", "%s", tell.Size(m.unit, g.Size.Length, g.Size.Width, g.Size.Thickness))
		} else {
			m.say(of, "board", "none comes out")
		}
	}
}

// NeedLines says what a board of a wanted size takes of p, in so many bars; with 0, in as
// many as it takes.
func NeedLines(p pattern.Pattern, want second.Size, bars int, takes second.Takes, u length.Unit) []Line {
	of := "a board of " + tell.Size(u, want.Length, want.Width, want.Thickness)
	n, ok := second.For(p, want, bars, takes)
	if !ok {
		return []Line{{Of: of, What: "takes", Text: "no figure, the pattern has not exactly one second glue-up"}}
	}
	return []Line{
		{Of: of, What: "bars", Text: fmt.Sprintf("%d, each %s wide as sawn", n.Bars, n.Bar.With(u))},
		{Of: of, What: "panel", Text: tell.Size(u, n.Panel.Length, n.Panel.Width, n.Panel.Thickness) + ", squared and flattened"},
		{Of: of, What: "strips", Text: tell.Lengths(u, n.Widths...) + " wide"},
		{Of: of, What: "comes out larger by", Text: n.OverLength.With(u) + " in length, " + n.OverWidth.With(u) + " in width"},
	}
}

// seconds tells the figures of the second glue-ups.
func (b *lines) seconds(all []SecondFigures) {
	for i, f := range all {
		of := fmt.Sprintf("second glue-up %d", i+1)
		g := b.job.Board.Ups[i]
		b.out = append(b.out, Line{Step: StepSecond, Of: of, What: "bars", Text: SecondText(g, b.unit)})
		if f.Joints == 0 {
			b.out = append(b.out, Line{Step: StepSecond, Of: of, What: "glue", Text: "none, there is no bar line"})
			continue
		}
		b.say("Second.Joints", "%d", f.Joints).Of = of
		b.say("Second.AreaM2", "%s", length.Area(f.AreaM2, b.unit)).Of = of
		b.say("Second.Grams", "%.0f g", f.Grams).Of = of
		b.say("Second.Minutes", "%.1f min, and the glue stays open %g min", f.Minutes, b.shop.Glue.OpenMinutes).Of = of
		b.guess("Second.Stages", "%.0f", f.Stages, "a bar line takes longer than the glue stays open").Of = of
		b.guess("Second.Clamps", "%.0f", f.Clamps, "neither force nor reach is set").Of = of
	}
}

// second has what sawing bars and gluing them again takes: habits of the trade, no source;
// that cut grain starves a joint is the Wood Handbook's (FPL-GTR-190), chapter 10.
func (b *bench) second() []caution {
	if b.job.Board == nil {
		return nil
	}
	var mitred, flat, cut, fed bool
	for i, g := range b.job.Board.Ups {
		mitred, flat = mitred || g.Mitred(), flat || g.Lay == pattern.LayFlat
		cut = cut || b.job.cutsGrain(i+1)
	}
	board, end := b.job.Board.Up(), b.job.Pattern.EndGrain()
	least := b.shop.Machine.ThicknesserLength
	fed = flat && !end && board.Size.Length > 0 && board.Size.Length < least
	return []caution{
		{"second_ready", StepSecond, note, many(true, "saw bars only from a panel that is cured, flat and square")},
		{"second_saw", StepSecond, care, many(true, "crosscut bars on a sled, to a stop block, the offcut free to move",
			"never crosscut a bar between the blade and the rip fence: it jams and is thrown",
			"clamp short or thin bars to the sled, hands clear, by the saw's manual")},
		{"second_order", StepSecond, note, many(true, "chalk its number and its order on every bar as it comes off the saw")},
		{"second_mitre", StepSecond, care, many(mitred, "mitred bars creep under pressure: clamp them against sliding first")},
		{"second_dry", StepSecond, note, many(true, "clamp the board up dry first", "cauls both ways on a flat base, light before tight, so that no bar tips")},
		{"second_size", StepSecond, care, many(cut, "cut grain drinks the glue and starves the joint: size it with glue, let it set by the glue's sheet, glue again")},
		{"second_wait", StepSecond, note, one(b.shop.Glue.WaitDays > 0, "let the glue cure %s before flattening, after both glue-ups", tell.Count(b.shop.Glue.WaitDays, "day"))},
		{"end_grain", StepSecond, care, many(end, "never feed end grain to a thicknesser or a surface planer: it bursts and is thrown",
			"flatten end grain with a router sled: small passes, board wedged, edges backed",
			"or with a drum sander, no shorter than its manual allows, or by hand")},
		{"second_short", StepSecond, care, one(fed, "the board is %s long, your thicknesser takes %s at least: do not feed it, flatten it another way",
			board.Size.Length.With(b.unit), least.With(b.unit))},
		{"second_oil", StepFinish, note, many(true, "oil both faces alike, or the board cups")},
		{"end_grain_oil", StepFinish, note, many(end, "end grain drinks more oil than long grain: feed it until it takes no more")},
	}
}
