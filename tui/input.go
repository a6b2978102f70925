package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// typed takes one key message. Several letters can arrive as one, when keys are
// pressed quicker than they are read; each is a key, in fields too: "up" typed in one
// go must not be taken for the key of that name.
func (a App) typed(k tea.KeyMsg) (App, tea.Cmd) {
	switch {
	case a.overlay != nil && (k.Type != tea.KeyRunes || k.Paste || len(k.Runes) == 1):
		return a.over(k)
	case k.Type != tea.KeyRunes || len(k.Runes) == 1 && !k.Paste:
		return a.key(k)
	case k.Paste:
		return a.say("paste works only in a text field"), nil
	}
	var cmds []tea.Cmd
	for i, r := range k.Runes {
		var cmd tea.Cmd
		a.again = i+1 < len(k.Runes) && k.Runes[i+1] == r && a.here() == keymap.Bench
		one := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: k.Alt}
		if a.overlay != nil {
			a, cmd = a.over(one)
		} else {
			a, cmd = a.key(one)
		}
		if !a.again {
			a = a.refreshed()
		}
		cmds = append(cmds, cmd)
	}
	return a, tea.Batch(cmds...)
}

// key takes one key where nothing lies over the screen.
func (a App) key(k tea.KeyMsg) (App, tea.Cmd) {
	a.notice = screen.Notice{}
	action, ok := a.keys.On(a.here(), k.String())
	if !ok {
		return a.nothingAt(k.String()), nil
	}
	return a.act(action.ID)
}

// nothingAt says of a key that does nothing here what it does on the bench, or where
// the keys are told. Esc only takes the last words away.
func (a App) nothingAt(key string) App {
	if key == "esc" {
		return a
	}
	text := keymap.Shown(key) + " does nothing here"
	if there, ok := a.keys.Bench(key); ok {
		text += "; on the bench: " + there.Name
	}
	return a.say(text + "; " + a.keys.KeyOf(keymap.Help) + " shows all keys")
}

// act makes an action; an undo step of it goes by its name.
func (a App) act(id keymap.ID) (App, tea.Cmd) {
	action, _ := a.keys.ByID(id)
	h, everywhere := a.handlers[id]
	i, onScreen := a.find(action.Place())
	if !everywhere && !onScreen {
		return a.refuse("nothing is done for " + string(id)), nil
	}
	failed := a.quitFailed
	a.action = action.Name
	var cmd tea.Cmd
	if everywhere {
		a, cmd = h(a)
	} else {
		a, cmd = a.tell(i, screen.Do{ID: id})
	}
	if failed && id != keymap.Quit {
		a.quitFailed = false
	}
	return a, cmd
}

// words puts a refusal into the maker's unit.
func (a App) words(err error) string { return screen.Words(err, a.unit) }

// do makes next the state of the bench.
func (a App) do(next edit.State) (App, tea.Cmd) {
	before := a.doc.History.Revision()
	a.doc.History = a.doc.History.Do(a.action, next)
	if a.doc.History.Revision() == before {
		return a.inView(), nil
	}
	return a.changed()
}

// changed computes the new state and has it kept in a second. Where the same key comes again
// at once on the bench, as when one is held down and the program is busy, only the last state
// is computed: nobody sees those before, and the bench's moves go by the strips alone.
func (a App) changed() (App, tea.Cmd) {
	a.doc.stale = true
	if !a.again {
		a = a.refreshed()
	}
	return a, a.keepLater()
}

// refreshed has the report be that of what lies on the bench.
func (a App) refreshed() App {
	if !a.doc.stale {
		return a
	}
	return a.checked().inView()
}

// mouse takes one event of the mouse.
func (a App) mouse(m tea.MouseEvent) (App, tea.Cmd) {
	if a.overlay != nil {
		if m.Button == tea.MouseButtonLeft && m.Action == tea.MouseActionPress {
			overlay, outcome := a.overlay.Press(m.X, m.Y, a.body(), a.context())
			return a.after(overlay, outcome)
		}
		return a, nil
	}
	switch {
	case m.Action == tea.MouseActionRelease:
		return a.tellAll(screen.Release{X: m.X, Y: m.Y})
	case m.Action != tea.MouseActionPress:
		return a, nil
	case m.Button == tea.MouseButtonLeft:
		return a.press(m)
	case m.Button == tea.MouseButtonWheelUp || m.Button == tea.MouseButtonWheelDown:
		a.notice = screen.Notice{}
		return a.tell(a.at, screen.Wheel{Up: m.Button == tea.MouseButtonWheelUp, Ctrl: m.Ctrl, Shift: m.Shift})
	}
	return a, nil
}

// press goes to the screen whose name was pressed, or tells the one that is shown.
func (a App) press(m tea.MouseEvent) (App, tea.Cmd) {
	a.notice = screen.Notice{}
	for _, t := range a.tabs() {
		if t.Rect.Contains(m.X, m.Y) {
			return a.goScreen(t.Screen)
		}
	}
	return a.tell(a.at, screen.Press{X: m.X, Y: m.Y})
}
