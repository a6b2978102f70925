package workview

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Screen is the working figures with what they are asked for, besides the pattern. The
// zero value has been told nothing.
type Screen struct {
	view      View
	shown     Shown
	asked     float64      // price of a piece; 0: not said
	clamps    int          // 0: not said
	due       pattern.Date // zero: not said
	dryingOil bool
	minutes   int // that all copies take; 0: by the last batch
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Shown returns what the screen shows.
func (s Screen) Shown() Shown { return s.shown }

// Draw draws the figures into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	s.view.Draw(c, r, s.shown, ctx)
}

// A told is what the maker said of the work.
type told func(*Screen)

// Update scrolls the figures and has them computed anew by what it is told.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	switch msg := msg.(type) {
	case screen.Do:
		return s.do(msg.ID, ctx)
	case screen.Enter, screen.Recomputed:
		return s.reckoned(ctx), nil
	case screen.Opened:
		s.minutes = 0
	case screen.Press:
		if id, ok := screen.Pressed(s.view.Footer(ctx.Window.Body, s.shown, ctx), msg.X, msg.Y); ok {
			return s, []screen.Request{screen.Act{ID: id}}
		}
		s.view = s.view.At(msg.Y, ctx.Window.Body, s.shown)
	case screen.Wheel:
		s.view = s.view.Go(msg.By(), s.shown)
	case told:
		msg(&s)
		return s.reckoned(ctx), nil
	}
	return s, nil
}

func (s Screen) do(id keymap.ID, ctx screen.Context) (screen.Screen, []screen.Request) {
	switch id {
	case workUp:
		s.view = s.view.Go(-1, s.shown)
	case workDown:
		s.view = s.view.Go(1, s.shown)
	case workPageUp:
		s.view = s.view.Step(-1, s.shown)
	case workPageDn:
		s.view = s.view.Step(1, s.shown)
	case workMore:
		return s.copies(1, ctx)
	case workFewer:
		return s.copies(-1, ctx)
	case workOil:
		return s.otherOil(ctx)
	default:
		return s, s.asking(id)
	}
	return s, nil
}

// computed has the figures computed.
func (s Screen) reckoned(ctx screen.Context) Screen {
	job, err := ctx.WorkJob(nil)
	if err != nil {
		job.Layout = outline.Layout{}
	}
	if s.minutes > 0 {
		job.Minutes = s.minutes
	}
	job.Asked, job.Clamps, job.Due, job.DryingOil = s.asked, s.clamps, s.due, s.dryingOil
	job.Label = work.Labels(ctx.Physics.Table(), job, ctx.Unit)[0]
	s.shown = Shown{Job: job, Err: err, Lines: work.Report(ctx.Physics, job, work.Of(ctx.Physics, job), ctx.Unit)}
	return s
}

// copies makes more or fewer copies, here and in the plan.
func (s Screen) copies(by int, ctx screen.Context) (screen.Screen, []screen.Request) {
	b, err := ctx.Batch.More(by)
	if err != nil {
		return s, []screen.Request{screen.Say(err.Error())}
	}
	return s.reckoned(ctx.Gathered(b)), []screen.Request{screen.Gather(b)}
}

// otherOil changes between an oil that stays oil and one that hardens.
func (s Screen) otherOil(ctx screen.Context) (screen.Screen, []screen.Request) {
	s.dryingOil = !s.dryingOil
	text := screen.Say("mineral oil, or another that does not harden")
	if s.dryingOil {
		text = "a drying oil: linseed, tung, walnut or another that hardens; mind the rags"
	}
	return s.reckoned(ctx), []screen.Request{text}
}

// mostClamps is more than any workshop has.
const mostClamps = 10_000

// asking shows the field for one thing that the figures need to be told.
func (s Screen) asking(id keymap.ID) []screen.Request {
	switch id {
	case workMinutes:
		return field("minutes that all copies take together", typedCount(s.shown.Job.Minutes),
			readCount(pattern.MaxMinutes, "by the last batch that says how long it took", "minutes"), func(s *Screen, n int) { s.minutes = n })
	case workClamps:
		return field("clamps that you have", typedCount(s.clamps), readCount(mostClamps, "not said", "clamps"),
			func(s *Screen, n int) { s.clamps = n })
	case workAsked:
		text := ""
		if s.asked > 0 {
			text = strconv.FormatFloat(s.asked, 'f', -1, 64)
		}
		return field("price that you ask for one product, in your own money", text, readPrice, func(s *Screen, amount float64) { s.asked = amount })
	case workBefore:
		text := ""
		if s.due != (pattern.Date{}) {
			text = s.due.String()
		}
		return field("day that the products are to be ready before, like 2026-12-05", text, readDay, func(s *Screen, day pattern.Date) { s.due = day })
	default:
		return nil
	}
}

// field shows a field whose value set takes over.
func field[T any](title, text string, read func(string) (T, string, error), set func(*Screen, T)) []screen.Request {
	return []screen.Request{ask.Show(ask.New(title, text, ask.Read(read)).Value(), func(v T) tea.Msg {
		return told(func(s *Screen) { set(s, v) })
	})}
}

func readPrice(s string) (float64, string, error) {
	if strings.TrimSpace(s) == "" {
		return 0, "not said", nil
	}
	amount, err := work.ParseAmount(s)
	return amount, fmt.Sprintf("%.2f for a piece", amount), err
}

func readDay(s string) (pattern.Date, string, error) {
	if strings.TrimSpace(s) == "" {
		return pattern.Date{}, "no day", nil
	}
	day, err := pattern.ParseDate(s)
	return day, "ready before " + day.String(), err
}

// readCount reads a whole number up to most, or nothing, which means what instead
// says.
func readCount(most int, instead, what string) func(string) (int, string, error) {
	return func(s string) (int, string, error) {
		text := strings.TrimSpace(s)
		if text == "" {
			return 0, instead, nil
		}
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > most {
			return 0, "", fmt.Errorf("%q: must be a whole number from 1 to %d", text, most)
		}
		return n, fmt.Sprintf("%d %s", n, what), nil
	}
}

// typedCount returns a number as a field starts with it.
func typedCount(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}
