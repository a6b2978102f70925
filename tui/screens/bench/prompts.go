package bench

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/second"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// The steps of the keys that widen and narrow.
func widthStep() screen.Step { return screen.Step{MM: length.Millimetre, Inches: length.Inch / 16} }

func fineWidthStep() screen.Step {
	return screen.Step{MM: 100 * length.Micrometre, Inches: length.Inch / 64}
}

// stepOf returns how far an action goes that makes its move by a step.
func stepOf(id keymap.ID) screen.Step {
	switch id {
	case keymap.WidenFine, keymap.NarrowFine:
		return fineWidthStep()
	case "slide-far", "slide-near":
		return screen.SlideStep()
	case keymap.SlideFarFine, keymap.SlideNearFine:
		return screen.FineSlideStep()
	default:
		return widthStep()
	}
}

// hand makes a hand move, and asks first for what it must be told.
func hand(m edit.Move, id keymap.ID, ctx screen.Context) []screen.Request {
	told := edit.Args{Allow: ctx.Allow}
	asks := m.Asks()
	if len(asks) == 0 {
		if !m.Step {
			if _, err := m.Do(ctx.State, told); err != nil {
				return nil // there is no other strip: it stays
			}
		}
		return move(with(m, told))
	}
	arg := asks[0]
	switch arg.Kind {
	case edit.ByStep:
		told.Length = stepOf(id).In(ctx.Unit)
		return move(with(m, told))
	case edit.OfMake:
		told.Make = other(arg.Now(ctx.State).Make)
		return move(with(m, told))
	case edit.OfTimber:
		return chooseTimber(m, arg, ctx)
	case edit.OfBark:
		return chooseBark(m, arg, ctx)
	case edit.OnTray:
		return chooseTray(m, arg, ctx)
	}
	return askFor(m, arg, told, ctx)
}

// with returns a move with what it is told.
func with(m edit.Move, told edit.Args) func(edit.State) (edit.State, error) {
	return func(s edit.State) (edit.State, error) { return m.Do(s, told) }
}

func other(m pattern.Make) pattern.Make {
	if m == pattern.MakeFlat {
		return pattern.MakeEdge
	}
	return pattern.MakeFlat
}

// askFor shows the field for an argument of a move, which is made with what is read.
func askFor(m edit.Move, arg edit.Arg, told edit.Args, ctx screen.Context) []screen.Request {
	title := arg.What
	if m.On() {
		strip, ok := ctx.State.Strip()
		if !ok {
			return []screen.Request{screen.Refuse("there is no strip yet: put one in first")}
		}
		of := fmt.Sprintf("strip %d, %s", ctx.State.Selected+1, ctx.Name(strip.Species))
		title = arg.What + " of " + of
		if arg.Then != "" {
			title = arg.What + " " + of + ", " + arg.Then
		}
	}
	var now edit.Args
	if arg.Now != nil {
		now = arg.Now(ctx.State)
	}
	switch arg.Kind {
	case edit.AtStrip:
		return field(m, title, "", number(ctx), told, func(t *edit.Args, n int) { t.Number = n - 1 }, ctx)
	case edit.OfLength:
		return field(m, title, ask.TypedLength(now.Length, ctx.Unit), lengthOr(arg.None, ctx.Unit), told, func(t *edit.Args, l length.Length) { t.Length = l }, ctx)
	case edit.ForWidth: // strip widths use the step of the keys, and the tolerance that of layouts
		return field(m, title, "", ask.Length(ctx.Unit), told, func(t *edit.Args, width length.Length) {
			t.Size = edit.Size{Width: width, Tolerance: suggest.DefaultTolerance, Step: widthStep().In(ctx.Unit)}
		}, ctx)
	case edit.OfRings:
		return field(m, title, now.Rings.String(), readRings, told, func(t *edit.Args, r pattern.Rings) { t.Rings = r }, ctx)
	case edit.OfReading:
		return field(m, title, ask.TypedReading(now.Reading), ask.ReadingOr(arg.None), told, func(t *edit.Args, r pattern.Reading) { t.Reading = r }, ctx)
	case edit.OfName:
		return textField(m, title, now.Text, ask.Name, told, ctx)
	case edit.OfText:
		return textField(m, title, now.Text, ask.Text, told, ctx)
	case edit.OfJoints:
		return field(m, title, now.Joints.String(), readJoints(arg.None, ctx.Unit), told, func(t *edit.Args, j pattern.Joints) { t.Joints = j }, ctx)
	case edit.OfAgain:
		return field(m, title, "", func(s string) (edit.Again, string, error) {
			a, err := edit.ParseAgain(s, ctx.Unit)
			return a, again(m, a, err, ctx), err
		}, told, func(t *edit.Args, a edit.Again) { t.Again = a }, ctx)
	case edit.OfBoard:
		return field(m, title, "", func(s string) (edit.BoardSize, string, error) {
			b, err := edit.ParseBoardSize(s, ctx.Unit)
			return b, "", err
		}, told, func(t *edit.Args, b edit.BoardSize) { t.Board = b }, ctx)
	case edit.OfStrips:
		return askRow("", ctx)
	default:
		return []screen.Request{screen.Refuse("nothing asks for what " + m.ID + " must be told")}
	}
}

// again says what board would come of a second glue-up that is typed.
func again(m edit.Move, a edit.Again, err error, ctx screen.Context) string {
	if err != nil {
		return ""
	}
	next, err := m.Do(ctx.State, edit.Args{Again: a, Allow: ctx.Allow})
	if err != nil {
		return ""
	}
	g, ok := second.Last(second.Of(next.Pattern, ctx.Allow.Takes))
	switch {
	case !ok:
		return "no second glue-up"
	case g.Size.Length == 0:
		return "no board comes out"
	}
	return tell.Count(g.Bars, "bar") + ", board " + tell.Size(ctx.Unit, g.Size.Length, g.Size.Width, g.Size.Thickness)
}

// field shows a field for one value, which set hands to the move. What the move would refuse
// is refused while it is typed.
func field[T any](m edit.Move, title, text string, read func(string) (T, string, error), told edit.Args, set func(*edit.Args, T), ctx screen.Context) []screen.Request {
	tried := func(s string) (T, string, error) {
		v, understood, err := read(s)
		if err == nil && m.Takes[len(m.Takes)-1].Kind != edit.ForWidth { // that is a search
			args := told
			set(&args, v)
			if _, err := m.Do(ctx.State, args); err != nil {
				return v, "", errors.New(screen.Words(err, ctx.Unit))
			}
		}
		return v, understood, err
	}
	return ask.Show(ask.New(title, text, tried).Value(), func(v T) tea.Msg {
		set(&told, v)
		return screen.Edit{Make: with(m, told)}
	})
}

// textField is field about a text that is gone on with.
func textField(m edit.Move, title, text string, read func(string) (string, string, error), told edit.Args, ctx screen.Context) []screen.Request {
	return ask.Show(ask.New(title, text, read), func(v string) tea.Msg {
		told.Text = v
		return screen.Edit{Make: with(m, told)}
	})
}

// lengthOr reads a length, or where none may be said nothing too.
func lengthOr(none string, u length.Unit) func(string) (length.Length, string, error) {
	if none == "" {
		return ask.Length(u)
	}
	return ask.LengthOr(none, u)
}

func readRings(s string) (pattern.Rings, string, error) {
	r, err := pattern.ParseRings(strings.TrimSpace(s))
	return r, r.String(), err
}

// readJoints reads joints, or none; numbers without a unit are in u.
func readJoints(none string, u length.Unit) func(string) (pattern.Joints, string, error) {
	return func(s string) (pattern.Joints, string, error) {
		j, err := pattern.ParseJointsIn(s, u)
		if err == nil && j.Len() == 0 {
			return j, none, nil
		}
		return j, tell.Count(j.Len()+1, "piece") + ": " + j.String(), err
	}
}

// number reads the number of a strip.
func number(ctx screen.Context) func(string) (int, string, error) {
	return func(s string) (int, string, error) {
		n, err := strconv.Atoi(strings.TrimSpace(s))
		strips := ctx.State.Pattern.Strips
		if err != nil || n < 1 || n > len(strips) {
			return 0, "", fmt.Errorf("strip %q: must be a number from 1 to %d", strings.TrimSpace(s), len(strips))
		}
		return n, fmt.Sprintf("strip %d, %s", n, ctx.Name(strips[n-1].Species)), nil
	}
}
