package cli_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/edit"
)

// inWords says by which words of the command line each undo step of the screens is made.
func inWords() map[string]string {
	return map[string]string{
		"carry-left": "arrange carry", "carry-right": "arrange carry", "carry-to": "arrange carry", "swap": "arrange swap",
		"put-in": "arrange put", "change-timber": "arrange timber", "lay-aside": "arrange out", "bring-back": "arrange put",
		"put-in-row": "arrange row", "twin": "arrange twin", "mirror": "arrange mirror", "turn": "arrange turn", "turn-over": "arrange over", "roll": "arrange roll",
		"split": "arrange split", "join": "arrange join", "slide-far": "arrange start", "slide-near": "arrange start",
		"set-start": "arrange start", "set-length": "arrange length", "set-joints": "arrange joints", "widen": "arrange width", "narrow": "arrange width",
		"set-width": "arrange width", "next-rings": "arrange rings", "set-rings": "arrange rings", "set-moisture": "arrange moisture",
		"set-bark": "arrange bark", "set-heart": "arrange heart",
		"pin": "arrange pin", "fill": "arrange fill", "another-width": "resize --save", "set-panel-length": "arrange panel",
		"set-thickness": "arrange panel", "set-panel-width": "arrange panel", "set-make": "arrange strips",
		"set-panel-moisture": "arrange glue-up", "set-flattened": "arrange flush", "set-name": "arrange name", "set-notes": "arrange notes",
		"add-product": "mark --add", "set-product": "mark --add", "drop-product": "mark --drop", "product-sooner": "mark --drop",
		"add-avoid": "mark --knot", "set-avoid": "mark --knot", "drop-avoid": "mark --drop-knot", "short-ends": "mark --apply",
		"glue-again": "arrange second", "for-board": "arrange board",
		"add-made": "made LINE", "set-made": "made --change", "drop-made": "made --strike",
	}
}

// Every change that the screens make can be made by a command too, and its help says so.
func TestEveryMoveHasWords(t *testing.T) {
	s := stage{home: t.TempDir()}
	words := inWords()
	for _, m := range edit.Moves() {
		if !m.Step {
			continue
		}
		command, word, ok := strings.Cut(words[m.ID], " ")
		if !ok {
			t.Errorf("%s is made by no command", m.ID)
			continue
		}
		help, _, _ := s.run(t, "help", command)
		if !strings.Contains(help, "\n  "+word) && !strings.Contains(help, word+" ") {
			t.Errorf("%s: the help of %s does not tell of %q", m.ID, command, word)
		}
	}
}
