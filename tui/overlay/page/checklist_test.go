package page_test

import (
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/screen"
)

// Space ticks the chosen step and takes the tick back, and says each time what is done.
// Cautions stand on lines of their own.
func TestChecklist(t *testing.T) {
	ctx := screen.Context{Keys: keymap.NewMap()}
	tasks := []page.Task{{Text: "saw"}, {Text: "plane", Notes: []string{"caution: mind the heron"}}, {Text: "rip"}}
	var o screen.Overlay = page.NewChecklist("the order", []string{"note, every machine: guards"}, tasks, []string{"chalk"}, []int{3, 9})
	press := func(k tea.KeyMsg, want []int) {
		t.Helper()
		var got screen.Outcome
		o, got = o.Key(k, ctx)
		if done, _ := got.Meanwhile.([]int); got.Closed || !slices.Equal(done, want) {
			t.Errorf("%v: %+v, want %v", k, got, want)
		}
	}
	space, down := tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}, tea.KeyMsg{Type: tea.KeyDown}
	press(down, nil)
	press(space, []int{2, 3})
	got := drawn(o, 12)
	for _, want := range []string{"  [ ]  1. saw", "> [x]  2. plane", "          caution: mind the heron", "[x]  3. rip", "2 of 3 done", "chalk", "every machine: guards"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in\n%s", want, got)
		}
	}
	press(space, []int{3})
	press(down, nil)
	press(down, nil)
	press(space, nil) // the chalk is no step
	press(down, nil)
	if _, out := o.Key(tea.KeyMsg{Type: tea.KeyEsc}, ctx); !out.Closed || out.Value != nil {
		t.Errorf("esc: %+v", out)
	}
}
