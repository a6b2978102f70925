package cli

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
)

func (a *app) newCommand() *cobra.Command {
	return a.command("new", task{json: "oddments/arrange 1",
		takes: func(_ *cobra.Command, args []string) error {
			if len(args) < 2 || len(args) > 3 {
				return failure.Usage(`write it like oddments new "Hearth board" "800 x 340 x 25"`, "new needs a NAME and a SIZE, and takes STRIPS, each in quotes")
			}
			return nil
		},
		errand: func(_ context.Context, w workshop, args []string) error {
			return w.begin(args[0], args[1], strings.Join(args[2:], " "))
		},
	})
}

// begin makes and saves a pattern of a name, of a size and of strips that are typed.
func (w workshop) begin(name, size, strips string) error {
	words, err := w.vocabulary()
	if err != nil {
		return err
	}
	state, err := words.New(name, size, strips, w.Unit)
	if err != nil {
		return failure.Usage("nothing was saved", "%v", err)
	}
	return w.keepNew(state.Pattern)
}
