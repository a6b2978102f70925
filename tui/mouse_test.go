package tui

import (
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

// click presses the left button on the first place that shows text, below the head.
func (d *hand) click(text string) *hand {
	d.t.Helper()
	const head = 2
	for y, line := range strings.Split(d.screen(), "\n") {
		if at := strings.Index(line, text); at >= 0 && y >= head {
			return d.send(tea.MouseMsg{X: len([]rune(line[:at])), Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
		}
	}
	d.t.Fatalf("%q is not on the screen:\n%s", text, d.screen())
	return d
}

// wheel turns the wheel by one notch.
func (d *hand) wheel(b tea.MouseButton) *hand {
	return d.send(tea.MouseMsg{X: 5, Y: 8, Button: b, Action: tea.MouseActionPress})
}

// On every screen a press chooses what it is on, the wheel goes on by one and back, and
// the footer's keys are pressed as they stand.
func TestMouseOnEveryScreen(t *testing.T) {
	for _, c := range []struct {
		name, keys    string
		press, chosen string // what is pressed, and how it looks when it is chosen
		footer, opens string // a key of the footer, and what comes of it
		wheels        string // what the wheel goes on to
	}{
		{"rack", "tab", "EL1    EL", "> EL1    EL", "a add", "timber length width", "> EL2    EL"},
		{"plan", "4 enter", "HB2/1  HB", "> HB2/1  HB", "s steps", "the order of work", "> EL1    EL"},
		{"findings", "5", "note, strip 8", "> note, strip 8", "i mm/inch", "in you want", "> note: glue-up width"},
		{"work", toWork, "clamps by force", ">clamps by force", "m minutes", "minutes", ">clamps by reach"},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := onDemo(t, 80, 24).keys(c.keys)
			h.click(c.press).shows(c.chosen)
			h.wheel(tea.MouseButtonWheelDown).shows(c.wheels)
			h.wheel(tea.MouseButtonWheelUp).shows(c.chosen)
			h.click(c.footer).shows(c.opens)
		})
	}
}

// A press on an entry of a list takes it, one beside the list closes that, and a batch is
// chosen by a press.
func TestMouseOnListsOverTheScreen(t *testing.T) {
	d := onDemo(t, 120, 24).keys("a").shows("find:")
	d.click("pear").shows("12 strips")
	d.keys("a").shows("find:").send(tea.MouseMsg{X: 0, Y: 0, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
	if d.app.overlay != nil {
		t.Errorf("a press beside the list leaves it open:\n%s", d.screen())
	}
	d.keys(toMade + " a").text("2026-11-01, 2 copies").keys("enter a").text("2026-11-02, 3 copies").keys("enter")
	d.click("2026-11-01").shows("> 1  2026-11-01").click("2026-11-02").shows("> 2  2026-11-02")
	d.keys("?").shows("All keys").click("Tab: Your first hour").keys("esc")
	if d.app.overlay != nil {
		t.Errorf("the help is still open:\n%s", d.screen())
	}
}
