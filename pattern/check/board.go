package check

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/tell"
)

// ups lists the second glue-ups; none where the panel is the board.
func (b *board) ups() []second.GlueUp {
	if b.figures.Board == nil {
		return nil
	}
	return b.figures.Board.Ups
}

// barsRule finds bars that do not come out, and those that would come out besides.
func barsRule(b *board) []Finding {
	var out []Finding
	find := func(n int, level pattern.Level, format string, args ...any) {
		out = append(out, Finding{Level: level, Where: Place{Second: n + 1}, Message: fmt.Sprintf(format, args...)})
	}
	for i, g := range b.ups() {
		if g.Bars == 0 {
			find(i, pattern.TooMuch, "no bar comes out: what is cut is %s long and %s wide, a bar takes %s",
				b.with(g.From.Length), b.with(g.From.Width), b.with(g.Bar))
			continue
		}
		if g.Short > 0 {
			find(i, pattern.TooMuch, "%s of %d asked for: make the panel longer or ask for fewer", comeOut(g.Bars), g.Bars+g.Short)
			out[len(out)-1].remedies = b.again(i, func(next *movement.Board) bool { return next.Ups[i].Short == 0 },
				trial{fmt.Sprintf("x%d", g.Bars), fmt.Sprintf("make do with %s", tell.Count(g.Bars, "bar"))})
		}
		if g.More > 0 {
			find(i, pattern.Fine, "%s more would come out", tell.Count(g.More, "bar"))
			out[len(out)-1].remedies = b.again(i, func(next *movement.Board) bool { return next.Ups[i].More == 0 },
				trial{"bars all", fmt.Sprintf("cut all %s", tell.Count(g.Bars+g.More, "bar"))})
		}
		if g.Size == (second.Size{}) {
			find(i, pattern.TooMuch, "no board comes out: trim, shift and flattening take all of it")
		}
	}
	if n := len(b.ups()) - 1; n >= 0 && b.ups()[n].Unlaid {
		find(n, pattern.TakeCare, "a board of more than %d cells is not laid: no figures, no picture", second.MaxCells)
	}
	return out
}

func comeOut(bars int) string {
	if bars == 1 {
		return "1 bar comes out"
	}
	return fmt.Sprintf("%d bars come out", bars)
}

// barSawRule finds what the saw does not cut through.
func barSawRule(b *board) []Finding {
	var out []Finding
	limit := b.shop.Machine.SawDepth
	for i, g := range b.ups() {
		if limit > 0 && g.From.Thickness > limit {
			out = append(out, Finding{Level: pattern.TakeCare, Where: Place{Second: i + 1}, Message: fmt.Sprintf(
				"what is cut is %s thick, your saw cuts %s deep: saw it another way; ", b.with(g.From.Thickness), b.with(limit)) + manuals})
		}
	}
	return out
}

// barLines gathers the bar lines of which say tells the same, and makes a finding of each
// text that is one.
func (b *board) barLines(say func(movement.BarLine) (pattern.Level, string)) []Finding {
	if b.figures.Board == nil {
		return nil
	}
	type said struct {
		second int
		level  pattern.Level
		text   string
	}
	var alike tell.Groups[said, int]
	for _, l := range b.figures.Board.Lines {
		if level, text := say(l); text != "" {
			alike.Add(said{l.Second, level, text}, l.Line)
		}
	}
	var out []Finding
	for s, lines := range alike.All() {
		f := Finding{Level: s.level, Where: Place{Second: s.second}, Message: s.text}
		if len(lines) == 1 {
			f.Where.BarLine = lines[0]
		} else {
			f.Message = "bar lines " + tell.Runs(lines) + ": " + s.text
		}
		out = append(out, f)
	}
	return out
}

// cellsRule finds the bar lines whose cells would move apart, or step, above fine.
func cellsRule(b *board) []Finding {
	return b.barLines(func(l movement.BarLine) (pattern.Level, string) {
		if l.Level == pattern.Fine {
			return l.Level, ""
		}
		text := fmt.Sprintf("cells strain %.2f ±%.2f %% in the %s season", l.CellPct, l.CellPM, l.Season)
		if l.StepUM > 0 {
			text += ", step up to " + length.Step(l.StepUM, 0, b.unit)
		}
		if !l.Settled {
			text += fmt.Sprintf("; by the rings it may be %.2f to %.2f %%", l.LeastPct, l.MostPct)
		}
		if l.Borderline {
			text += "; close to the limit"
		}
		return l.Level, text
	})
}

// grainJointRule finds joints that cut the grain.
func grainJointRule(b *board) []Finding {
	return b.barLines(func(l movement.BarLine) (pattern.Level, string) {
		switch {
		case l.Butts():
			return pattern.TooMuch, fmt.Sprintf("end grain to end grain, %.0f degrees: glue holds poorly on it, change the build", l.SlopeDeg)
		case l.Cuts():
			return pattern.TakeCare, fmt.Sprintf("the joint cuts the grain at %.0f degrees: weaker than long grain, size it before you glue", l.SlopeDeg)
		default:
			return pattern.Fine, ""
		}
	})
}

// rowsRule finds a row of an end-grain board that is stretched over its whole length.
func rowsRule(b *board) []Finding {
	board := b.figures.Board
	if board == nil || !board.Rows || board.RowLevel == pattern.Fine {
		return nil
	}
	row, which := board.Along, "the row"
	if board.Across.Pct > row.Pct {
		row, which = board.Across, "the column"
	}
	message := fmt.Sprintf("%s from %s to %s would move %.2f %% apart from the board over its whole length", which, b.with(row.From), b.with(row.To), row.Pct)
	if row.MostPct > row.Pct {
		message += fmt.Sprintf("; by the rings up to %.2f %%", row.MostPct)
	}
	return []Finding{{Level: board.RowLevel, Where: Place{Second: len(board.Ups)}, Message: message + ": mix its timber into other rows, as a chequer does", remedies: b.mixed()}}
}

// turnedAlikeRule finds glue-ups that turn bars to no effect.
func turnedAlikeRule(b *board) []Finding {
	var out []Finding
	for i, g := range b.ups() {
		if g.TurnsAlike {
			out = append(out, Finding{Level: pattern.TakeCare, Where: Place{Second: i + 1},
				Message: "the strips are the same from both ends, so turning bars does nothing: shift them by a strip",
				remedies: b.again(i, func(next *movement.Board) bool { return !next.Ups[i].TurnsAlike },
					trial{"turn none shift 0 strip", fmt.Sprintf("shift every other bar of glue-up %d by a strip, and turn none", i+1)})})
		}
	}
	return out
}

// What lies so far beside its neighbour reads as a mistake: common practice, no source.
const (
	leastMiss = length.Millimetre / 10
	mostMiss  = 2 * length.Millimetre
)

// nearMissRule finds strip lines that nearly meet across a bar line.
func nearMissRule(b *board) []Finding {
	var out []Finding
	for i, g := range b.ups() {
		if lines := g.Misses(leastMiss, mostMiss); len(lines) > 0 {
			f := Finding{Level: pattern.TakeCare, Where: Place{Second: i + 1}, Message: fmt.Sprintf(
				"strip lines miss each other by less than %s: it reads as a mistake, let them meet or shift them further", b.with(mostMiss))}
			if len(lines) == 1 {
				f.Where.BarLine = lines[0]
			} else {
				f.Message = "bar lines " + tell.Runs(lines) + ": " + f.Message
			}
			out = append(out, f)
		}
	}
	return out
}

// frameRule says what an end-grain board does to what is glued round it.
func frameRule(b *board) []Finding {
	board := b.figures.Board
	if board == nil || !board.Known || !board.Up().EndGrain || board.Up().Size == (second.Size{}) {
		return nil
	}
	var seasons []string
	for _, s := range b.figures.Seasons {
		seasons = append(seasons, fmt.Sprintf("%s in length and %s in width in the %s season",
			length.Change(s.LengthChangeMM, b.unit), length.Change(s.WidthChangeMM, b.unit), s.Season))
	}
	return []Finding{{Where: Place{Second: len(board.Ups)},
		Message: "the board changes by " + strings.Join(seasons, ", ") + ": glue no long-grain frame or strip round it, it would break"}}
}
