package keymap

import (
	_ "embed" // the words
	"strings"

	"example.com/oddments/pattern/edit"
)

//go:embed words.txt
var wordsFile string

// known is what words.txt says of an action.
type known struct {
	text  string
	shows bool
}

// searchWords reads words.txt.
func searchWords() map[ID]known {
	all := map[ID]known{}
	for line := range strings.Lines(wordsFile) {
		id, text, ok := strings.Cut(strings.TrimSpace(line), ": ")
		if !ok || strings.HasPrefix(line, "#") {
			continue
		}
		name, shows := strings.CutPrefix(id, "+ ")
		all[ID(name)] = known{text, shows}
	}
	return all
}

// askedFirst reports whether a move changes nothing before something was typed or chosen, or
// nothing at all.
func askedFirst(m edit.Move) bool {
	asks := m.Asks()
	if len(asks) == 0 {
		return !m.Step
	}
	switch asks[0].Kind {
	case edit.ByStep, edit.OfMake, edit.OnTray, edit.OnItem, edit.ForProducts:
		return false
	default:
		return true
	}
}
