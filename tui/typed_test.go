package tui

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// Letters typed in one go are letters, though a key goes by their name.
func TestLettersInOneGoAreNoKey(t *testing.T) {
	d := onDemo(t, 80, 24).keys("N")
	for _, word := range []string{"up", "enter", "esc", "down"} {
		d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(word)})
	}
	d.shows("> Rookery squareupenterescdown")
}

// A paste of one letter is no key either.
func TestPasteOfOneLetter(t *testing.T) {
	d := onDemo(t, 80, 24)
	before := d.app.state()
	d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'x'}, Paste: true})
	if len(d.app.state().Pattern.Strips) != len(before.Pattern.Strips) {
		t.Error("a pasted letter laid a strip aside")
	}
}
