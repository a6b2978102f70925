package choose_test

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
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

// What begins a word of a name comes first, then what stands in it elsewhere, then what
// only has its letters; each in the list's order.
func TestTypingNarrows(t *testing.T) {
	if _, out := press(t, choose.New("", "", items()), append(letters("ch"), enter)...); out.Value != 2 {
		t.Errorf("ch chooses %v, want black cherry", out.Value)
	}
	if _, out := press(t, choose.New("", "", items()), append(letters("ch"), down, enter)...); out.Value != 3 {
		t.Errorf("the next is %v, want sweet chestnut", out.Value)
	}
	pears := []choose.Item{{Name: "European ash", Value: 1}, {Name: "PE pear", Value: 2}}
	if _, out := press(t, choose.New("", "", pears), append(letters("pea"), enter)...); out.Value != 2 {
		t.Errorf("pea chooses %v, want pear before European", out.Value)
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

// The answers to a question stay in sight whatever is typed; where they are many they
// are narrowed like any list.
func TestAnswersStayInSight(t *testing.T) {
	o, _ := press(t, choose.New("", "", items()).Answers(), letters("zzz")...)
	c := paint.New(60, 12, paint.None)
	o.Draw(c, c.Bounds(), screen.Context{Keys: keymap.NewMap()})
	if s := c.String(); strings.Contains(s, "find:") || !strings.Contains(s, "hornbeam") || !strings.Contains(s, "sweet chestnut") {
		t.Errorf("after zzz:\n%s", s)
	}
	if _, out := press(t, o, down, enter); out.Value != 2 {
		t.Errorf("the second answer is %v", out.Value)
	}
	many := append(items(), items()...)
	if _, out := press(t, choose.New("", "", many).Answers(), append(letters("betul"), enter)...); out.Value != 1 {
		t.Errorf("of many, betul chooses %v", out.Value)
	}
}

// Where room is short the name gives way to the figures that an entry is chosen by.
func TestFiguresStayWhole(t *testing.T) {
	long := choose.Item{Name: "a timber with a long name", Detail: "moves 0.17-0.28 %   contrast 23", Brief: "0.17-0.28 %  contrast 23", Value: 1}
	for w, want := range map[int]string{80: long.Name + "  ", 60: long.Detail, 46: long.Brief} {
		c := paint.New(w, 12, paint.None)
		choose.New("", "", []choose.Item{long}).Draw(c, c.Bounds(), screen.Context{Keys: keymap.NewMap()})
		if s := c.String(); !strings.Contains(s, want) || !strings.Contains(s, "contrast 23") {
			t.Errorf("at %d:\n%s", w, s)
		}
	}
}
