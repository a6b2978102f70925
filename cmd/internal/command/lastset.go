package command

import (
	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
)

// A LastSet is the flag --set: the panels of the set that was saved last, in place of patterns that
// are named.
type LastSet bool

// Add puts the flag on a command.
func (l *LastSet) Add(cmd *cobra.Command) {
	cmd.Flags().BoolVar((*bool)(l), "set", false, "all panels of the set that was saved last, in place of PATTERN")
}

// Takes has the set asked for, or patterns named as named wants them.
func (l *LastSet) Takes(named cobra.PositionalArgs) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case !bool(*l):
			return named(cmd, args)
		case len(args) > 0:
			return failure.Usage("leave one of them out", "--set stands in place of a PATTERN")
		}
		return nil
	}
}

// Of returns the patterns that are named, or those of the set.
func (l LastSet) Of(w Workshop, args []string) ([]string, error) {
	if !l {
		return args, nil
	}
	stems, err := w.Home.LastSet()
	if err == nil && len(stems) == 0 {
		err = failure.Usage("oddments pile --save saves one", "no set was saved yet")
	}
	return stems, err
}
