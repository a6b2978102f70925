package workview

import (
	"fmt"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// A Screen is the working figures with what they are asked for, besides the pattern. The
// zero value has been told nothing.
type Screen struct {
	at        int // the chosen line
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

// Update scrolls the figures and has them computed anew by what it is told.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(s, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter, screen.Recomputed:
		return s.computed(ctx), nil
	case screen.Opened:
		s.minutes = 0
	case screen.Press:
		return s.At(msg.Y, ctx.Window.Body), nil
	}
	return s, nil
}

// computed has the figures computed.
func (s Screen) computed(ctx screen.Context) Screen {
	job, err := ctx.WorkJob(nil)
	if err != nil {
		job.Layout = outline.Layout{}
	}
	if s.minutes > 0 {
		job.Minutes = s.minutes
	}
	if s.clamps > 0 {
		job.Clamps = s.clamps
	}
	job.Asked, job.Due, job.DryingOil = s.asked, s.due, s.dryingOil
	job.Label = work.Labels(ctx.Physics.Table(), job, ctx.Unit)[0]
	s.shown = Shown{Job: job, Err: err, Lines: work.Report(ctx.Physics, job, work.Of(ctx.Physics, job), ctx.Unit)}
	return s
}

// gather has b made together, here and in the plan.
func (s Screen) gather(b screen.Batch, ctx screen.Context) (screen.Screen, []screen.Request) {
	return s.computed(ctx.Gathered(b)), []screen.Request{screen.Gather(b)}
}

// otherOil changes between an oil that stays oil and one that hardens.
func (s Screen) otherOil(ctx screen.Context) (screen.Screen, []screen.Request) {
	s.dryingOil = !s.dryingOil
	text := screen.Say("mineral oil, or another that does not harden")
	if s.dryingOil {
		text = "a drying oil: linseed, tung, walnut or another that hardens; mind the rags"
	}
	return s.computed(ctx), []screen.Request{text}
}

// Each of these asks for one thing that the figures need to be told.

func (s Screen) askMinutes(screen.Context) []screen.Request {
	return field("minutes that all copies take together, second glue-ups too", typedCount(s.shown.Job.Minutes),
		readCount(pattern.MaxMinutes, "like the last batch that has its minutes", "minutes"), func(s *Screen, n int) { s.minutes = n })
}

func (s Screen) askClamps(screen.Context) []screen.Request {
	return field("clamps that you have", typedCount(s.shown.Job.Clamps), readCount(shop.MostClamps, "as the workshop says", "clamps"),
		func(s *Screen, n int) { s.clamps = n })
}

func (s Screen) askPrice(screen.Context) []screen.Request {
	text := ""
	if s.asked > 0 {
		text = strconv.FormatFloat(s.asked, 'f', -1, 64)
	}
	return field("price that you ask for one product, in your own money", text, readPrice, func(s *Screen, amount float64) { s.asked = amount })
}

func (s Screen) askDay(screen.Context) []screen.Request {
	text := ""
	if s.due != (pattern.Date{}) {
		text = s.due.String()
	}
	return field("day before which the products must be ready, like 2026-12-05", text, readDay, func(s *Screen, day pattern.Date) { s.due = day })
}

// field shows a field whose value set takes over.
func field[T any](title, text string, read func(string) (T, string, error), set func(*Screen, T)) []screen.Request {
	return ask.Show(ask.New(title, text, read).Value(), func(v T) tea.Msg {
		return screen.Then[Screen](func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			set(&s, v)
			return s.computed(ctx), nil
		})
	})
}

func readPrice(s string) (float64, string, error) {
	if strings.TrimSpace(s) == "" {
		return 0, "not set", nil
	}
	amount, err := work.ParseAmount(s)
	return amount, fmt.Sprintf("%.2f for one product", amount), err
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
