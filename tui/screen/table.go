package screen

import (
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
)

// An Entry is one thing that can be done on a screen: its keys and words, what does it, and
// when the footer offers it.
type Entry[S Screen] struct {
	keymap.Action
	do   func(S, Context) (Screen, []Request)
	when func(S, Context) bool // nil: always
}

// Does returns the entry of an action that changes the screen and asks for something.
func Does[S Screen](a keymap.Action, do func(S, Context) (Screen, []Request)) Entry[S] {
	return Entry[S]{Action: a, do: do}
}

// Asks returns the entry of an action that leaves the screen as it is.
func Asks[S Screen](a keymap.Action, ask func(S, Context) []Request) Entry[S] {
	return Does(a, func(s S, ctx Context) (Screen, []Request) { return s, ask(s, ctx) })
}

// Goes returns the entry of an action that changes the screen alone.
func Goes[S Screen](a keymap.Action, change func(S, Context) S) Entry[S] {
	return Does(a, func(s S, ctx Context) (Screen, []Request) { return change(s, ctx), nil })
}

// Steps returns the entry of an action that goes so many steps on, by how the screen goes.
func Steps[S Screen](a keymap.Action, by int, goes func(S, int, Context) S) Entry[S] {
	return Goes(a, func(s S, ctx Context) S { return goes(s, by, ctx) })
}

// Copies returns what makes so many copies more of the bench's pattern, where there may be
// so many; gather has the screen go on with them.
func Copies[S Screen](by int, gather func(S, Batch, Context) (Screen, []Request)) func(S, Context) (Screen, []Request) {
	return func(s S, ctx Context) (Screen, []Request) {
		b, err := ctx.Batch.More(by)
		if err != nil {
			return s, []Request{Say(err.Error())}
		}
		return gather(s, b, ctx)
	}
}

// When returns the entry as one that the footer offers only where matters says so.
func (e Entry[S]) When(matters func(S, Context) bool) Entry[S] {
	e.when = matters
	return e
}

// A Then goes on where something that a screen asked for has come: a value that was typed or
// chosen, a change that was made, what was read. It is told to the screen as a message.
type Then[S Screen] func(S, Context) (Screen, []Request)

// A Table is all that can be done on a screen.
type Table[S Screen] struct {
	Entries []Entry[S]
	// Offers lists those of undo, save and season that the footer offers too.
	Offers []keymap.ID
	// Wheel goes down the screen's list; nil: the screen is told of the wheel itself.
	Wheel func(S, int, Context) S
}

// Actions lists the table's actions.
func (t Table[S]) Actions() []keymap.Action {
	all := make([]keymap.Action, len(t.Entries))
	for i, e := range t.Entries {
		all[i] = e.Action
	}
	return all
}

// Footer returns the keys that matter now, and where they stand at the bottom of r.
func (t Table[S]) Footer(s S, r paint.Rect, ctx Context) []KeyPlace {
	return Footer(r, ctx.Keys, s.Title(), func(id keymap.ID) bool {
		if i := t.index(id); i >= 0 {
			when := t.Entries[i].when
			return when == nil || when(s, ctx)
		}
		switch offered := slices.Contains(t.Offers, id); id {
		case keymap.Undo:
			return offered && ctx.CanUndo
		case keymap.Save:
			return offered && ctx.Dirty
		case keymap.Season:
			return offered
		default:
			return true
		}
	})
}

func (t Table[S]) index(id keymap.ID) int {
	return slices.IndexFunc(t.Entries, func(e Entry[S]) bool { return e.ID == id })
}

// Do does an action of the table; any other is left alone.
func (t Table[S]) Do(s S, ctx Context, id keymap.ID) (Screen, []Request) {
	if i := t.index(id); i >= 0 {
		return t.Entries[i].do(s, ctx)
	}
	return s, nil
}

// Take does what a message asks for: an action of the table, what was pressed in the
// footer, a turn of the wheel, or what is to follow something. It returns false where the message is another.
func (t Table[S]) Take(s S, ctx Context, msg tea.Msg) (next Screen, asked []Request, taken bool) {
	switch msg := msg.(type) {
	case Do:
		next, asked = t.Do(s, ctx, msg.ID)
		return next, asked, true
	case Press:
		if id, ok := Pressed(t.Footer(s, ctx.Window.Body, ctx), msg.X, msg.Y); ok {
			return s, []Request{Act{ID: id}}, true
		}
	case Then[S]:
		next, asked = msg(s, ctx)
		return next, asked, true
	case Wheel:
		if t.Wheel != nil {
			return t.Wheel(s, msg.By(), ctx), nil, true
		}
	}
	return s, nil, false
}
