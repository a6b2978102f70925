package bench

import (
	"cmp"
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/tui/board"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A Screen is the bench. The zero value shows the panel standing, from its left edge.
type Screen struct {
	first  int        // the first strip in view
	drag   int        // strip being dragged, from 1; none: 0
	lies   bool       // the panel lies along the screen
	board  bool       // the board is seen that second glue-ups give, in the panel's place
	turned paint.Rect // the room in which it was turned by hand
}

// Lies reports whether the panel lies along the screen.
func (s Screen) Lies() bool { return s.lies }

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return keymap.Bench }

// Picture returns the layout of the panel's picture, for the mouse and to keep its place
// from frame to frame.
func (s Screen) Picture(ctx screen.Context) panel.Layout {
	return panel.Lay(s.view(ctx), Lay(ctx.Window.Body).Picture)
}

// settled returns the screen with the panel lying or standing, as it was turned by hand or is
// seen better, and the first strip in view where the chosen one can be seen.
func (s Screen) settled(ctx screen.Context) Screen {
	if room := Lay(ctx.Window.Body).Picture; s.turned != room {
		s.turned, s.lies = paint.Rect{}, panel.Lies(s.view(ctx), room)
	}
	s.first = s.Picture(ctx).First()
	return s
}

// turn turns the panel by hand.
func (s Screen) turn(ctx screen.Context) (screen.Screen, []screen.Request) {
	s.turned, s.lies = Lay(ctx.Window.Body).Picture, !s.lies
	s.first = s.Picture(ctx).First()
	return s, say(s.stance())
}

// stance says how the panel is drawn.
func (s Screen) stance() string {
	if s.lies {
		return "the panel lies along the screen: datum end at the left, strip 1 at the top"
	}
	return "the panel stands: datum end at the bottom, strip 1 at the left"
}

// showBoard shows the board, or the panel again.
func (s Screen) showBoard(ctx screen.Context) (screen.Screen, []screen.Request) {
	if ctx.Report.Figures.Board == nil {
		s.board = false
		return s, []screen.Request{screen.Refuse("there is no second glue-up: " + ctx.Keys.KeyOf("glue-again") + " cuts the panel into bars and glues them again")}
	}
	switch s.board = !s.board; {
	case s.board && board.Stands(boardView(ctx), Lay(ctx.Window.Body).Picture):
		return s, say("the board: datum end at the bottom, edge A at the left, bars numbered")
	case s.board:
		return s, say("the board: datum end at the left, edge A at the top, bars numbered")
	}
	return s, say("the panel")
}

// Update makes the hand moves, by keys and by the mouse.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	switch msg := msg.(type) {
	case screen.Do:
		if msg.ID == keymap.ShowBoard {
			return s.showBoard(ctx)
		}
		if msg.ID == keymap.TurnPanel {
			return s.turn(ctx)
		}
		return s, s.do(msg.ID, ctx)
	case screen.Opened:
		return Screen{}, nil
	case screen.Chosen, screen.Recomputed:
		return s.settled(ctx), nil
	}
	switch msg := msg.(type) {
	case screen.Press:
		return s.press(msg, ctx)
	case screen.Release:
		return s.drop(msg, ctx)
	case screen.Wheel:
		return s, wheel(msg)
	case screen.PutRow:
		return s, askRow(msg.Text, ctx)
	case screen.Then[Screen]:
		return msg(s, ctx)
	}
	return s, nil
}

func say(text string) []screen.Request { return []screen.Request{screen.Say(text)} }

// move returns the request for a hand move.
func move(f func(edit.State) (edit.State, error)) []screen.Request {
	return []screen.Request{screen.Edit{Make: f}}
}

// do makes an action of the bench: by the table of moves where it is one of them.
func (s Screen) do(id keymap.ID, ctx screen.Context) []screen.Request {
	switch id {
	case keymap.Advice:
		return s.takeAdvice(ctx)
	case keymap.NextCare:
		return toCare(1, ctx)
	case keymap.PreviousCare:
		return toCare(-1, ctx)
	case keymap.LayOut, keymap.LayAgain:
		return []screen.Request{screen.Tell{Msg: screen.LayOut{Again: id == keymap.LayAgain}}}
	case keymap.Relief:
		return []screen.Request{screen.Go{To: keymap.ReliefPlace}}
	case "short-ends": // what products need is known where they are cut out
		return []screen.Request{screen.Act{ID: keymap.ShortEnds}}
	}
	if a, ok := ctx.Keys.ByID(id); ok && a.Move != nil {
		return hand(*a.Move, id, ctx)
	}
	return nil
}

// takeAdvice makes the change that the bench offers, for the chosen strip or for the board.
func (s Screen) takeAdvice(ctx screen.Context) []screen.Request {
	if remedy, ok := s.Advise(ctx); ok {
		return screen.Apply(remedy, ctx)
	}
	return say("no change to suggest here")
}

// toCare goes to the next glue line, in a direction, that asks for care or whose
// rings are not checked, and chooses the strip left of it.
func toCare(by int, ctx screen.Context) []screen.Request {
	lines := ctx.Report.Figures.Lines
	n := len(lines)
	if n == 0 {
		return say("there is no glue line yet")
	}
	for i := 1; i <= n; i++ {
		at := ((ctx.State.Selected+by*i)%n + n) % n
		if l := lines[at]; l.Level > pattern.Fine || !l.Settled || !l.Known {
			return []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) { return edit.Select(s, at) }, Then: telling(l)}}
		}
	}
	return say("every glue line is fine")
}

// telling has it told what a glue line asks for that was gone to.
func telling(l movement.Line) screen.Then[Screen] {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) { return s, say(lineWords(ctx, l)) }
}

// lineWords says what a glue line asks for.
func lineWords(ctx screen.Context, l movement.Line) string {
	if all := ctx.Report.At(l.Line); len(all) > 0 {
		f := slices.MaxFunc(all, func(a, b check.Finding) int { return cmp.Compare(a.Level, b.Level) })
		return fmt.Sprintf("%d|%d %s: %s", l.Line, l.Line+1, f.Level.Heading(), f.Message)
	}
	return fmt.Sprintf("%d|%d: rings not checked", l.Line, l.Line+1)
}

// press chooses a strip and begins to drag it, or does what the footer says.
func (s Screen) press(m screen.Press, ctx screen.Context) (screen.Screen, []screen.Request) {
	if id, ok := screen.Pressed(Footer(ctx.Window.Body, ctx), m.X, m.Y); ok {
		return s, []screen.Request{screen.Act{ID: id}}
	}
	if s.showsBoard(ctx) { // there a strip is chosen by any of its cells; they are carried on the panel
		v := boardView(ctx)
		cell, ok := board.At(v, Lay(ctx.Window.Body).Picture, m.X, m.Y)
		if !ok {
			return s, nil
		}
		return s, move(func(st edit.State) (edit.State, error) { return edit.Select(st, v.Up.Cells[cell].Strip-1) })
	}
	i, ok := s.Picture(ctx).StripAt(m.X, m.Y)
	if !ok {
		return s, nil
	}
	s.drag = i + 1
	return s, move(func(st edit.State) (edit.State, error) { return edit.Select(st, i) })
}

// drop carries the dragged strip to where the button was let go.
func (s Screen) drop(m screen.Release, ctx screen.Context) (screen.Screen, []screen.Request) {
	from := s.drag - 1
	s.drag = 0
	if from < 0 || ctx.Window.At != keymap.Bench {
		return s, nil
	}
	to, ok := s.Picture(ctx).StripAt(m.X, m.Y)
	if !ok || to == from {
		return s, nil
	}
	return s, []screen.Request{screen.Edit{Label: "carry", Make: func(st edit.State) (edit.State, error) {
		st, err := edit.Select(st, from)
		if err != nil {
			return st, err
		}
		return edit.CarryTo(st, to)
	}}}
}

// wheel goes left and right, or with a key held changes the strip.
func wheel(m screen.Wheel) []screen.Request {
	up, down := keymap.ID("select-left"), keymap.ID("select-right")
	switch {
	case m.Ctrl:
		up, down = "widen", "narrow"
	case m.Shift:
		up, down = "slide-far", "slide-near"
	}
	if m.Up {
		return []screen.Request{screen.Act{ID: up}}
	}
	return []screen.Request{screen.Act{ID: down}}
}
