package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/tui"
	"example.com/oddments/tui/keymap"
)

func (a *app) keysCommand() *cobra.Command {
	return a.command("keys", task{json: "oddments/keys 1", takes: noArgs, run: func(*cobra.Command, []string) error { a.printKeys(); return nil }})
}

func (a *app) printKeys() {
	wide, wideName := 0, 0
	table := tui.Keys()
	for _, action := range table.Actions() {
		wide, wideName = max(wide, len(shownKeys(action))), max(wideName, len(action.Name))
	}
	key := rows.Form{{"", "  "}, {"", "  "}, {"", "  "}}
	for _, group := range table.Groups() {
		a.Say("%s", group.Heading)
		for _, action := range table.Actions() {
			if action.Group.Heading == group.Heading {
				a.Row(key, pattern.Fine, fmt.Sprintf("%-*s", wide, shownKeys(action)), fmt.Sprintf("%-*s", wideName, action.Name), action.Does)
			}
		}
		a.Say("")
	}
	a.Say("with the mouse")
	for _, g := range keymap.Gestures() {
		a.Row(rows.Form{{"", "  "}, {"", ": "}}, pattern.Fine, g.Does, g.Mouse)
	}
	a.Result(func() result.Object {
		return result.Object{{"format", "oddments/keys 1"},
			{"keys", result.Each(table.Actions(), func(k keymap.Action) result.Object {
				return result.Object{{"id", k.ID}, {"keys", shown(k)}, {"name", k.Name}, {"does", k.Does}, {"group", k.Group.Heading}}
			})},
			{"mouse", result.Each(keymap.Gestures(), func(g keymap.Gesture) result.Object {
				return result.Object{{"does", g.Does}, {"mouse", g.Mouse}}
			})}}
	})
}

func shownKeys(a keymap.Action) string { return strings.Join(shown(a), " or ") }

func shown(a keymap.Action) []string {
	keys := make([]string, len(a.Keys))
	for i, k := range a.Keys {
		keys[i] = keymap.Shown(k)
	}
	return keys
}
