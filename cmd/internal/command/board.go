package command

import (
	"fmt"

	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

// SayGlueUps prints what is cut and laid in second glue-ups, and reports whether a board comes
// out.
func (w Workshop) SayGlueUps(ups []second.GlueUp) bool {
	for i, g := range ups {
		w.Fact(fmt.Sprintf("second glue-up %d", i+1), "%s; %s left", work.SecondText(g, w.Unit), g.Left.With(w.Unit))
	}
	g, any := second.Last(ups)
	switch size := g.Size; {
	case any && size.Length == 0:
		w.Fact("board", "none comes out")
	case any:
		w.Fact("board", "%s", tell.Size(w.Unit, size.Length, size.Width, size.Thickness))
	}
	return any && g.Size.Length > 0
}

// SayBoard prints what second glue-ups give, and how it moves; nothing of no board.
func (w Workshop) SayBoard(b *movement.Board) {
	if b == nil || !w.SayGlueUps(b.Ups) {
		return
	}
	if !b.Known {
		w.Fact("bar lines", "no figure")
		return
	}
	w.Fact("one point wetter on one face", "bends the board by %s %s", length.Estimate(b.BowMM, w.Unit), w.Unit)
	if b.Rows {
		w.Fact("rows along", "move at most %.2f %% apart from the board", b.Along.Pct)
		w.Fact("rows across", "move at most %.2f %% apart from the board", b.Across.Pct)
	}
	for _, l := range b.Lines {
		w.barLine(l)
	}
}

// barLine prints one bar line.
func (w Workshop) barLine(l movement.BarLine) {
	moves := fmt.Sprintf("strain %.2f ±%.2f %% in the %s season", l.CellPct, l.CellPM, l.Season) +
		Said(l.StepUM > 0, ", step up to "+length.Step(l.StepUM, 0, w.Unit)) + ", " + l.Level.String() +
		Said(!l.Settled, fmt.Sprintf(", not settled: by the rings %.2f to %.2f %%", l.LeastPct, l.MostPct)) + Said(l.Borderline, ", borderline")
	w.Row(rows.Form{{"bar line", "bar line "}, {"bars", ", bars "}, {"moves", ": "}}, l.Level,
		fmt.Sprintf("%d of glue-up %d", l.Line, l.Second), fmt.Sprintf("%d and %d", l.Line, l.Line+1), moves)
}

// SayNeeds prints what a board of a wanted size takes of p; nothing where none is wanted.
func (w Workshop) SayNeeds(p pattern.Pattern, want second.Size, bars int) {
	if want == (second.Size{}) {
		return
	}
	for _, l := range work.NeedLines(p, want, bars, w.Shop.Takes(), w.Unit) {
		w.Fact(l.Name(), "%s", l.Text)
	}
}
