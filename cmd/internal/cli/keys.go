package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/tui"
	"example.com/oddments/tui/keymap"
)

const keysLong = `keys prints what every key does on the bench, and what the mouse does. It is the
table that the screens themselves go by.`

func (a *app) keysCommand() *cobra.Command {
	return &cobra.Command{
		Use:               "keys",
		Short:             "print what every key and the mouse do on the bench",
		Long:              keysLong,
		Example:           "  oddments keys",
		Args:              noArgs,
		RunE:              func(*cobra.Command, []string) error { a.printKeys(); return nil },
		ValidArgsFunction: cobra.NoFileCompletions,
	}
}

func (a *app) printKeys() {
	wide, wideName := 0, 0
	table := tui.Keys()
	for _, action := range table.Actions() {
		wide, wideName = max(wide, len(shownKeys(action))), max(wideName, len(action.Name))
	}
	for _, group := range table.Groups() {
		fmt.Fprintf(a.out, "%s\n", group.Heading)
		for _, action := range table.Actions() {
			if action.Group.Heading == group.Heading {
				fmt.Fprintf(a.out, "  %-*s  %-*s  %s\n", wide, shownKeys(action), wideName, action.Name, action.Does)
			}
		}
		fmt.Fprintln(a.out)
	}
	fmt.Fprintln(a.out, "with the mouse")
	for _, g := range keymap.Gestures() {
		fmt.Fprintf(a.out, "  %s: %s\n", g.Does, g.Mouse)
	}
}

func shownKeys(a keymap.Action) string {
	keys := make([]string, len(a.Keys))
	for i, k := range a.Keys {
		keys[i] = keymap.Shown(k)
	}
	return strings.Join(keys, " or ")
}
