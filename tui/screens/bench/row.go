package bench

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// askRow asks for strips in one line, and puts them in after the chosen one. What was
// understood of the line stands below it while it is typed.
func askRow(text string, ctx screen.Context) []screen.Request {
	move, _ := ctx.Keys.ByID("put-in-row")
	find := ctx.Lookup().Key
	field := ask.New(move.Move.Takes[0].What, text, func(s string) ([]pattern.Strip, string, error) {
		strips, err := edit.ParseRow(s, find, ctx.Unit)
		return strips, rowWords(strips, ctx), err
	})
	return ask.Show(field.Home(), func(strips []pattern.Strip) tea.Msg {
		return screen.Edit{Label: move.Name, Make: with(*move.Move, edit.Args{Strips: strips}), Then: screen.Say("put in: " + tell.Count(len(strips), "strip"))}
	})
}

// rowWords says what strips were understood.
func rowWords(strips []pattern.Strip, ctx screen.Context) string {
	if len(strips) == 0 {
		return ""
	}
	var wide length.Length
	for _, s := range strips {
		wide += s.Width
	}
	return fmt.Sprintf("%s, %s wide: %s", tell.Count(len(strips), "strip"), wide.With(ctx.Unit), edit.RowLine(strips, ctx.Letters, ctx.Unit))
}
