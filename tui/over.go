package tui

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/screen"
)

// over returns a key to the overlay.
func (a App) over(k tea.KeyMsg) (App, tea.Cmd) {
	overlay, outcome := a.overlay.Key(k, a.context())
	return a.after(overlay, outcome)
}

// after goes on with what came of a key or a press in the overlay.
func (a App) after(overlay screen.Overlay, outcome screen.Outcome) (App, tea.Cmd) {
	a.overlay = overlay
	done := a.done
	if !outcome.Closed {
		if outcome.Meanwhile != nil && done != nil {
			return done(a, outcome.Meanwhile)
		}
		return a, nil
	}
	a.overlay, a.done = nil, nil
	var cmd tea.Cmd
	if outcome.Value != nil && done != nil {
		a, cmd = done(a, outcome.Value)
	}
	return a.nextPending(), cmd
}

// overlays is what lies over the screen, and what waits to.
type overlays struct {
	overlay screen.Overlay
	done    func(App, any) (App, tea.Cmd) // what its value is for
	waiting []pending                     // that are asked when it is closed
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
