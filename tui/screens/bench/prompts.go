package bench

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// A prompt asks for what a hand move needs to be told.
type prompt func(screen.Context) []screen.Request

// prompts gives the hand moves that need to be told something, by what asks for it.
func prompts() map[keymap.ID]prompt {
	return map[keymap.ID]prompt{
		"select": askNumber, "carry-to": askCarry, "swap": askSwap, "put-in": choosePutIn, "change-timber": chooseTimber, "bring-back": chooseTray,
		"set-width": askWidth, "set-length": askLength, "set-start": askStart, "set-rings": askRings, "set-moisture": askMoisture,
		"another-width": askAnotherWidth, "set-panel-length": askPanelLength, "set-thickness": askThickness, "set-panel-width": askPanelWidth,
		"set-panel-moisture": askPanelMoisture, "set-flattened": askFlattened, "set-name": askName, "set-notes": askNotes,
	}
}

// askFor shows a field for one value; what is read from it makes a hand move.
func askFor[T any](title, text string, read func(string) (T, string, error), set func(edit.State, T) (edit.State, error)) []screen.Request {
	return askIn(ask.New(title, text, ask.Read(read)).Value(), set)
}

// askText is askFor about a text that is gone on with.
func askText[T any](title, text string, read func(string) (T, string, error), set func(edit.State, T) (edit.State, error)) []screen.Request {
	return askIn(ask.New(title, text, ask.Read(read)), set)
}

// askIn shows a field whose value makes a hand move.
func askIn[T any](field ask.Field, set func(edit.State, T) (edit.State, error)) []screen.Request {
	return []screen.Request{ask.Show(field, func(v T) tea.Msg {
		return screen.Edit{Make: func(s edit.State) (edit.State, error) { return set(s, v) }}
	})}
}

// onStrip is askFor about the chosen strip, named in the title.
func onStrip[T any](ctx screen.Context, what string, text func(pattern.Strip) string, read func(string) (T, string, error), set func(edit.State, T) (edit.State, error)) []screen.Request {
	strip, ok := ctx.State.Strip()
	if !ok {
		return []screen.Request{screen.Refuse("there is no strip yet: put one in first")}
	}
	title := fmt.Sprintf("%s of strip %d, %s", what, ctx.State.Selected+1, ctx.Name(strip.Species))
	return askFor(title, text(strip), read, set)
}

func askWidth(ctx screen.Context) []screen.Request {
	return onStrip(ctx, "width", func(s pattern.Strip) string { return ask.TypedLength(s.Width, ctx.Unit) }, ask.Length(ctx.Unit), edit.SetWidth)
}

func askLength(ctx screen.Context) []screen.Request {
	return onStrip(ctx, "own length", func(s pattern.Strip) string { return ask.TypedLength(s.Length, ctx.Unit) },
		ask.LengthOr("none of its own: as long as the panel", ctx.Unit), edit.SetLength)
}

func askStart(ctx screen.Context) []screen.Request {
	return onStrip(ctx, "start, from the datum end,", func(s pattern.Strip) string { return ask.TypedLength(s.Start, ctx.Unit) },
		ask.LengthOr("at the datum end", ctx.Unit), edit.SetStart)
}

func askRings(ctx screen.Context) []screen.Request {
	read := func(s string) (pattern.Rings, string, error) {
		r, err := pattern.ParseRings(strings.TrimSpace(s))
		return r, r.String(), err
	}
	return onStrip(ctx, "rings (flat, rift, quarter, unknown or degrees)", func(s pattern.Strip) string { return s.Rings.String() },
		read, edit.SetRings)
}

func askMoisture(ctx screen.Context) []screen.Request {
	return onStrip(ctx, "moisture reading", func(s pattern.Strip) string { return ask.TypedReading(s.Moisture) },
		ask.ReadingOr("no reading: as the panel"), edit.SetMoisture)
}

func askPanelLength(ctx screen.Context) []screen.Request {
	return askFor("length of the finished panel", ask.TypedLength(ctx.State.Pattern.Panel.Length, ctx.Unit), ask.Length(ctx.Unit), edit.SetPanelLength)
}

func askThickness(ctx screen.Context) []screen.Request {
	return askFor("thickness of the finished panel", ask.TypedLength(ctx.State.Pattern.Panel.Thickness, ctx.Unit), ask.Length(ctx.Unit), edit.SetThickness)
}

func askPanelWidth(ctx screen.Context) []screen.Request {
	return askFor("wanted width of the finished panel", ask.TypedLength(ctx.State.Pattern.Panel.Width, ctx.Unit),
		ask.LengthOr("no width wanted", ctx.Unit), edit.SetPanelWidth)
}

// askAnotherWidth asks for the width of another order. Strip widths go by the step of
// the keys, and the tolerance is that of laying out.
func askAnotherWidth(ctx screen.Context) []screen.Request {
	return askFor("glue-up width of the other order", "", ask.Length(ctx.Unit), func(s edit.State, width length.Length) (edit.State, error) {
		return edit.AnotherWidth(s, edit.Size{Width: width, Tolerance: suggest.DefaultTolerance, Step: widthStep().In(ctx.Unit)})
	})
}

func askPanelMoisture(ctx screen.Context) []screen.Request {
	return askFor("moisture at glue-up, for strips without a reading", ask.TypedReading(ctx.State.Pattern.Panel.Moisture),
		ask.ReadingOr("that of the workshop's air"), edit.SetPanelMoisture)
}

func askFlattened(ctx screen.Context) []screen.Request {
	return askFor("moisture when the panel is made flush", ask.TypedReading(ctx.State.Pattern.Panel.Flattened),
		ask.ReadingOr("each strip's own at glue-up"), edit.SetFlattened)
}

func askName(ctx screen.Context) []screen.Request {
	return askText("name of the pattern", ctx.State.Pattern.Name, ask.Name, edit.SetName)
}

func askNotes(ctx screen.Context) []screen.Request {
	return askText("notes on the pattern", ctx.State.Pattern.Notes, ask.Text, edit.SetNotes)
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

func askNumber(ctx screen.Context) []screen.Request {
	return askFor("choose strip number", "", number(ctx), func(s edit.State, n int) (edit.State, error) { return edit.Select(s, n-1) })
}

func askCarry(ctx screen.Context) []screen.Request {
	return onStrip(ctx, "number of the place to carry it to, for", func(pattern.Strip) string { return "" }, number(ctx),
		func(s edit.State, n int) (edit.State, error) { return edit.CarryTo(s, n-1) })
}

func askSwap(ctx screen.Context) []screen.Request {
	return onStrip(ctx, "number of the strip to change places with,", func(pattern.Strip) string { return "" }, number(ctx),
		func(s edit.State, n int) (edit.State, error) { return edit.Swap(s, n-1) })
}
