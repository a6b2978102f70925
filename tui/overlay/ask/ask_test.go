package ask_test

import (
	"errors"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

func read(s string) (any, string, error) {
	if s == "" {
		return nil, "", errors.New("nothing typed")
	}
	return s, s, nil
}

// typed presses keys in a field and gives what enter takes then.
func typed(f ask.Field, keys ...tea.KeyMsg) any {
	ctx := screen.Context{Keys: keymap.NewMap()}
	var o screen.Overlay = f
	for _, k := range keys {
		o, _ = o.Key(k, ctx)
	}
	_, out := o.Key(tea.KeyMsg{Type: tea.KeyEnter}, ctx)
	return out.Value
}

func runes(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s)} }

func alt(s string) tea.KeyMsg { return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(s), Alt: true} }

// 20 typed at a width of 15 is 20; a list or a text is gone on with, and so is a value
// that an arrow went into.
func TestValueIsReplacedByWhatIsTyped(t *testing.T) {
	left, back, end := tea.KeyMsg{Type: tea.KeyLeft}, tea.KeyMsg{Type: tea.KeyBackspace}, tea.KeyMsg{Type: tea.KeyEnd}
	for _, c := range []struct {
		name string
		got  any
		want any
	}{
		{"a value", typed(ask.New("", "15", read).Value(), runes("2"), runes("0")), "20"},
		{"a value as it stands", typed(ask.New("", "15", read).Value()), "15"},
		{"a value gone into", typed(ask.New("", "15", read).Value(), left, runes("2")), "125"},
		{"a value gone on with", typed(ask.New("", "15", read).Value(), end, runes("2")), "152"},
		{"a value taken away", typed(ask.New("", "15", read).Value(), back), nil},
		{"a list", typed(ask.New("", "17,21", read).Value(), runes(","), runes("9")), "17,21,9"},
		{"a text", typed(ask.New("", "board", read), runes("s")), "boards"},
		{"the last line", typed(ask.New("", "", read).Recall("pear 500"), tea.KeyMsg{Type: tea.KeyUp}, runes("!")), "pear 500!"},
		{"Alt with a letter", typed(ask.New("", "boar", read), alt("d"), left, alt("d"), alt("x")), "boar"},
		{"nothing", typed(ask.New("", "", read)), nil},
	} {
		if c.got != c.want {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
}
