package opening

import (
	"strings"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/manual"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/overlay/help"
)

// Chapters lists what the manual tells, each as the page at it: in a search they are found where
// no action is.
func Chapters(keys keymap.Map, from help.Page) []choose.Item {
	var items []choose.Item
	for i, ch := range manual.Chapters(keys) {
		items = append(items, choose.Item{Name: ch.Title, Also: strings.Join(ch.Lines, " "), Spare: true, Shows: true, Detail: "manual", Value: from.At(i + 1)})
	}
	return items
}
