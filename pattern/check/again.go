package check

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/second"
)

// mostTried is how many cells a board may have for other arrangements of its bars to be tried
// while a key waits.
const mostTried = 600

// A trial is one change of a second glue-up, in words as they are typed, and what it does.
type trial struct{ words, text string }

// again returns those trials of glue-up n, counted from 0, that give a board which is better
// by what the finding is about, and worse at no bar line or row.
func (b *board) again(n int, better func(*movement.Board) bool, all ...trial) *deferred {
	return b.later(func() (out []Remedy) {
		now := b.figures.Board
		for _, t := range all {
			words := fmt.Sprintf("%d %s", n+1, t.words)
			a, err := edit.ParseAgain(words, b.unit)
			if err != nil {
				continue
			}
			next, err := edit.GlueAgain(edit.State{Pattern: b.pattern}, a)
			if err != nil {
				continue
			}
			board := b.physics.Board(next.Pattern)
			if board.Up().Size != (second.Size{}) && board.RowLevel <= now.RowLevel && worstBar(board) <= worstBar(now) && better(board) {
				out = append(out, Remedy{Kind: Again, Again: a, Text: t.text})
			}
		}
		return out
	})
}

// worstBar returns the worst level of the bar lines.
func worstBar(b *movement.Board) (worst pattern.Level) {
	for _, l := range b.Lines {
		worst = max(worst, l.Level)
	}
	return worst
}

// mixed returns what evens out the rows of a board: turning or shifting every other bar.
func (b *board) mixed() *deferred {
	now := b.figures.Board
	if len(now.Up().Cells) > mostTried {
		return nil
	}
	worst := func(of *movement.Board) float64 { return max(of.Along.Pct, of.Across.Pct) }
	return b.again(0, func(next *movement.Board) bool { return worst(next) < worst(now) },
		trial{"turn none over none turn shift none", "turn every other bar of glue-up 1 end for end, as a chequer"},
		trial{"shift 0 strip", "shift every other bar of glue-up 1 by a strip"},
		trial{"shift 0 half", "shift every other bar of glue-up 1 by half a strip"})
}
