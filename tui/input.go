package tui

import (
	"errors"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/bench"
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
		return a.say("a paste is taken in fields only"), nil
	}
	var cmds []tea.Cmd
	for i, r := range k.Runes {
		var cmd tea.Cmd
		a.again = i+1 < len(k.Runes) && k.Runes[i+1] == r && a.here().place == keymap.Bench
		one := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: k.Alt}
		if a.overlay != nil {
			a, cmd = a.over(one)
		} else {
			a, cmd = a.key(one)
		}
		if !a.again {
			a = a.reckoned()
		}
		cmds = append(cmds, cmd)
	}
	return a, tea.Batch(cmds...)
}

// over gives a key to the overlay.
func (a App) over(k tea.KeyMsg) (App, tea.Cmd) {
	overlay, outcome := a.overlay.Key(k, a.context())
	return a.after(overlay, outcome)
}

// after goes on with what came of a key or a press in the overlay.
func (a App) after(overlay screen.Overlay, outcome screen.Outcome) (App, tea.Cmd) {
	a.overlay = overlay
	if !outcome.Closed {
		return a, nil
	}
	done := a.done
	a.overlay, a.done = nil, nil
	var cmd tea.Cmd
	if outcome.Value != nil && done != nil {
		a, cmd = done(a, outcome.Value)
	}
	return a.nextPending(), cmd
}

// show lays an overlay over the screen; done is given its value.
func (a App) show(o screen.Overlay, done func(App, any) (App, tea.Cmd)) App {
	a.overlay, a.done = o, done
	return a
}

// A pending question is one that no key has asked for.
type pending struct {
	what    string
	still   func(App) bool // it is still to be asked
	overlay screen.Overlay
	done    func(App, any) (App, tea.Cmd)
}

// askWhenFree asks what must be asked, now or when what lies over the screen is closed: a
// key that is meant for a field must not answer it.
func (a App) askWhenFree(what string, still func(App) bool, o screen.Overlay, done func(App, any) (App, tea.Cmd)) App {
	if a.overlay == nil {
		return a.show(o, done)
	}
	if !slices.ContainsFunc(a.waiting, func(q pending) bool { return q.what == what }) {
		a.waiting = append(slices.Clone(a.waiting), pending{what, still, o, done})
	}
	return a
}

// nextPending asks what waits, where nothing lies over the screen.
func (a App) nextPending() App {
	for a.overlay == nil && len(a.waiting) > 0 {
		q := a.waiting[0]
		a.waiting = a.waiting[1:]
		if q.still(a) {
			a = a.show(q.overlay, q.done)
		}
	}
	return a
}

// key takes one key where nothing lies over the screen.
func (a App) key(k tea.KeyMsg) (App, tea.Cmd) {
	a.notice = screen.Notice{}
	action, ok := a.keys.On(a.here().place, k.String())
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
	shown := keymap.Shown(key)
	if key == " " {
		shown = "the space bar"
	}
	text := shown + " does nothing here"
	if there, ok := a.keys.Bench(key); ok {
		text += "; on the bench: " + there.Name
	}
	return a.say(text + "; " + a.keys.KeyOf(keymap.Help) + " shows all keys")
}

// act makes an action; an undo step of it goes by its name.
func (a App) act(id keymap.ID) (App, tea.Cmd) {
	action, _ := a.keys.ByID(id)
	h, ok := a.handlers[id]
	if !ok {
		return a.refuse("nothing is done for " + string(id)), nil
	}
	leaving := a.leaving
	a.making = action.Name
	a, cmd := h(a)
	if leaving && id != keymap.Quit {
		a.leaving = false
	}
	return a, cmd
}

// move makes a hand move as one undo step.
func (a App) move(f func(edit.State) (edit.State, error)) (App, tea.Cmd) {
	next, err := f(a.state())
	if err != nil {
		return a.refuse(a.words(err)), nil
	}
	return a.do(next)
}

// words puts a refusal into the maker's unit.
func (a App) words(err error) string {
	var refusal *edit.Refusal
	if errors.As(err, &refusal) {
		return refusal.In(a.unit)
	}
	return err.Error()
}

// do makes next the state of the bench.
func (a App) do(next edit.State) (App, tea.Cmd) {
	before := a.doc.history.Revision()
	a.doc.history = a.doc.history.Do(a.making, next)
	if a.doc.history.Revision() == before {
		return a.inView(), nil
	}
	return a.changed()
}

// changed reckons the new state and has it kept in a second. Where the same key comes again
// at once on the bench, as when one is held down and the program is busy, only the last state
// is reckoned: nobody sees those before, and the bench's moves go by the strips alone.
func (a App) changed() (App, tea.Cmd) {
	a.doc.stale = true
	if !a.again {
		a = a.reckoned()
	}
	return a, a.keepLater()
}

// reckoned has the report be that of what lies on the bench.
func (a App) reckoned() App {
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
		return a.drop(m)
	case m.Action != tea.MouseActionPress:
		return a, nil
	case m.Button == tea.MouseButtonLeft:
		return a.press(m)
	case m.Button == tea.MouseButtonWheelUp || m.Button == tea.MouseButtonWheelDown:
		return a.wheel(m)
	}
	return a, nil
}

// press chooses a strip and begins to drag it, or does what the footer or the line
// of screens says.
func (a App) press(m tea.MouseEvent) (App, tea.Cmd) {
	a.notice = screen.Notice{}
	for i, t := range a.tabs() {
		if t.rect.Contains(m.X, m.Y) {
			return a.goScreen(i)
		}
	}
	s := a.here()
	if s.press != nil {
		return s.press(a, m)
	}
	for _, p := range bench.Footer(a.body(), a.context()) {
		if p.Rect.Contains(m.X, m.Y) {
			return a.act(p.Action.ID)
		}
	}
	if i, ok := a.picture().StripAt(m.X, m.Y); ok {
		a.drag = i
		return a.move(func(s edit.State) (edit.State, error) { return edit.Select(s, i) })
	}
	return a, nil
}

// drop carries the dragged strip to where the button was let go.
func (a App) drop(m tea.MouseEvent) (App, tea.Cmd) {
	from := a.drag
	a.drag = -1
	if from < 0 || a.screen != 0 {
		return a, nil
	}
	to, ok := a.picture().StripAt(m.X, m.Y)
	if !ok || to == from {
		return a, nil
	}
	a.making = "carry"
	return a.move(func(s edit.State) (edit.State, error) {
		s, err := edit.Select(s, from)
		if err != nil {
			return s, err
		}
		return edit.CarryTo(s, to)
	})
}

// wheel goes left and right, or with a key held changes the strip.
func (a App) wheel(m tea.MouseEvent) (App, tea.Cmd) {
	up := m.Button == tea.MouseButtonWheelUp
	pick := func(whenUp, whenDown keymap.ID) (App, tea.Cmd) {
		if up {
			return a.act(whenUp)
		}
		return a.act(whenDown)
	}
	a.notice = screen.Notice{}
	if s := a.here(); s.wheel != nil {
		return s.wheel(a, up)
	}
	switch {
	case m.Ctrl:
		return pick("widen", "narrow")
	case m.Shift:
		return pick("slide-far", "slide-near")
	default:
		return pick("select-left", "select-right")
	}
}

// picture gives the layout of the panel on the bench.
func (a App) picture() panel.Layout { return bench.Picture(a.body(), a.context()) }
