// Package cli holds the commands of oddments, their flags and their JSON. It only
// translates: every figure that it prints was computed by the packages of the domain.
//
// Only the commands whose help says so write to the maker's files, and the terminal is never
// asked for anything. JSON is stable and always in millimetres.
//
// The exit is 0 for done, 1 for done with a finding at too much, strips short or no
// layout, 2 for wrong usage, 3 for what could not be done.
package cli

import (
	"context"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
)

// An app is one run of the program, with the commands.
type app struct{ *command.App }

// A workshop is what the commands that compute work in.
type workshop struct{ command.Workshop }

// Run does what args say, without the program's name, and returns the exit.
func Run(ctx context.Context, args []string, env command.Env) int {
	a := app{command.New(env)}
	return a.Run(ctx, args, a.root)
}

// Tree returns all commands for whoever writes them down. They print to env when run.
func Tree(env command.Env) *cobra.Command {
	a := app{command.New(env)}
	return a.root()
}

// workshop reads the workshop of the flags.
func (a *app) workshop() (workshop, error) {
	w, err := a.Workshop()
	return workshop{w}, err
}
