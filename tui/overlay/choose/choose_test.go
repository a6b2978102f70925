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

// Every word that is typed begins a word of the entry; names go before other names, each in
// the list's order.
func TestTypingNarrows(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  any
	}{{"ch", 2}, {"betul", 1}, {"bl che", 2}, {"CHEST", 3}, {"carp", 1}, {"sweet-ch", 3}} {
		if _, out := press(t, choose.New("", "", items()), append(letters(c.typed), enter)...); out.Value != c.want {
			t.Errorf("%s chooses %v, want %v", c.typed, out.Value, c.want)
		}
	}
	if _, out := press(t, choose.New("", "", items()), append(letters("ch"), down, enter)...); out.Value != 3 {
		t.Errorf("the next is %v, want sweet chestnut", out.Value)
	}
	pears := []choose.Item{{Name: "European ash", Value: 1}, {Name: "wild service", Also: "pear-leaved", Value: 3}, {Name: "PE pear", Value: 2}}
	if _, out := press(t, choose.New("", "", pears), append(letters("pea"), enter)...); out.Value != 2 {
		t.Errorf("pea chooses %v, want the one of that name", out.Value)
	}
}

// Letters that lie scattered, or in the middle of a word, find nothing; it is said what is
// near.
func TestScatteredLettersFindNothing(t *testing.T) {
	for typed, near := range map[string]string{"hbm": "", "eech": "", "herry": "try cherry", "hornbaem": "try hornbeam", "...": "", "ch zz": ""} {
		o, out := press(t, choose.New("", "no timber of that name", items()), append(letters(typed), enter)...)
		if out.Closed {
			t.Errorf("%s chooses %v", typed, out.Value)
		}
		c := paint.New(60, 12, paint.None)
		o.Draw(c, c.Bounds(), screen.Context{Keys: keymap.NewMap()})
		if s := c.String(); !strings.Contains(s, "no timber of that name") || !strings.Contains(s, near) {
			t.Errorf("after %s:\n%s", typed, s)
		}
	}
}

// In a careful list an entry is chosen by hand, unless it is the only one and only shows.
func TestCarefulListChoosesNothingByItself(t *testing.T) {
	list := func() choose.List {
		return choose.New("", "", []choose.Item{
			{Name: "book", Says: "take the timber off", Words: "delete", Value: 1}, {Name: "help", Says: "show the keys", Shows: true, Value: 2},
			{Name: "manual", Also: "kerf keys", Spare: true, Shows: true, Value: 3}}).Careful()
	}
	for _, c := range []struct {
		typed string
		keys  []tea.KeyMsg
		want  any
	}{
		{"", []tea.KeyMsg{enter}, nil}, {"delete", []tea.KeyMsg{enter}, nil}, {"delete", []tea.KeyMsg{down, enter}, 1},
		{"the", []tea.KeyMsg{enter}, nil}, {"keys", []tea.KeyMsg{enter}, 2}, {"kerf", []tea.KeyMsg{enter}, 3},
		{"the", []tea.KeyMsg{down, down, enter}, 2}, {"zzz", []tea.KeyMsg{down, enter}, nil},
	} {
		if _, out := press(t, list(), append(letters(c.typed), c.keys...)...); out.Value != c.want {
			t.Errorf("%q, then %v: %v, want %v", c.typed, c.keys, out.Value, c.want)
		}
	}
	c := paint.New(80, 12, paint.None)
	list().Draw(c, c.Bounds(), screen.Context{Keys: keymap.NewMap()})
	if s := c.String(); strings.Contains(s, "> ") || !strings.Contains(s, "Down Up choose one") {
		t.Errorf("something is chosen:\n%s", s)
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
