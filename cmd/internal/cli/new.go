package cli

import (
	"context"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/store"
)

func (a *app) newCommand() *cobra.Command {
	return a.command("new", task{
		takes: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) < 2:
				return failure.Usage(`write it like oddments new "Hearth board" "800 x 340 x 25" "wa30 ma10 x3"`, "new needs a NAME and a SIZE")
			case len(args) > 3:
				return failure.Usage(helpHint(cmd), "new takes NAME, SIZE and STRIPS, and got %q too; put quotes around each", args[3])
			}
			return nil
		},
		errand: func(_ context.Context, w workshop, args []string) error {
			return w.begin(args[0], args[1], slices.Concat(args[2:], []string{""})[0])
		},
	})
}

// begin makes and saves a pattern of a name, of a size and of strips that are typed.
func (w workshop) begin(name, size, strips string) error {
	board, err := edit.ParseBoard(size, w.unit)
	if err != nil {
		return failure.Usage("nothing was saved", "SIZE %q: %v", size, err)
	}
	state, err := edit.NewBoard(board)
	if err == nil {
		state, err = edit.SetName(state, strings.TrimSpace(name))
	}
	if err != nil || state.Pattern.Name == "" {
		return failure.Usage("nothing was saved", "NAME %q: a pattern needs a name, one line", name)
	}
	if strips != "" {
		words, err := w.vocabulary()
		if err != nil {
			return err
		}
		row, err := edit.ParseRow(board.Row(strips), words.Find, w.unit)
		if err == nil {
			state, err = edit.PutInRow(state, row)
		}
		if err != nil {
			return failure.Usage("nothing was saved", "STRIPS %q: %v", strips, err)
		}
	}
	if err := w.keep(keepFlags{name: state.Pattern.Name}, "", []pattern.Pattern{state.Pattern}); err != nil {
		return err
	}
	w.sayStrips(store.Saved{Pattern: state.Pattern})
	return nil
}
