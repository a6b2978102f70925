package choose_test

import (
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/choose"
)

func press(t *testing.T, o screen.Overlay, keys ...tea.KeyMsg) (screen.Overlay, screen.Outcome) {
	t.Helper()
	ctx := screen.Context{Keys: keymap.NewMap()}
	var out screen.Outcome
	for _, k := range keys {
		o, out = o.Key(k, ctx)
	}
	return o, out
}

func letters(s string) []tea.KeyMsg {
	var keys []tea.KeyMsg
	for _, r := range s {
		keys = append(keys, tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
	return keys
}

var enter, down, esc = tea.KeyMsg{Type: tea.KeyEnter}, tea.KeyMsg{Type: tea.KeyDown}, tea.KeyMsg{Type: tea.KeyEsc}

func items() []choose.Item {
	return []choose.Item{
		{Name: "hornbeam", Also: "Carpinus betulus", Value: 1},
		{Name: "black cherry", Value: 2},
		{Name: "sweet chestnut", Value: 3},
		{Name: "broken file", Value: nil},
	}
}

// What stands in a name as it was typed comes before what only has its letters, in the
// list's order.
func TestTypingNarrows(t *testing.T) {
	if _, out := press(t, choose.New("", "", items()), append(letters("ch"), enter)...); out.Value != 2 {
		t.Errorf("ch chooses %v, want black cherry", out.Value)
	}
	if _, out := press(t, choose.New("", "", items()), append(letters("ch"), down, enter)...); out.Value != 3 {
		t.Errorf("the next is %v, want sweet chestnut", out.Value)
	}
	if _, out := press(t, choose.New("", "", items()), append(letters("betul"), enter)...); out.Value != 1 {
		t.Errorf("betul chooses %v, want hornbeam by its other name", out.Value)
	}
}

func TestNothingToChoose(t *testing.T) {
	if _, out := press(t, choose.New("", "", items()), append(letters("zzz"), enter)...); out.Closed {
		t.Error("enter on an empty list closes it")
	}
	if _, out := press(t, choose.New("", "", items()), down, down, down, down, down, enter); out.Closed {
		t.Error("an entry that cannot be chosen was")
	}
	if _, out := press(t, choose.New("", "", items()), esc); !out.Closed || out.Value != nil {
		t.Errorf("esc gives %+v", out)
	}
}
