package cutout

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A Screen is what is cut out of the document's panel. The zero value stands at the first
// copy.
type Screen struct {
	at     int // the chosen line of the list
	point  panel.Point
	moved  bool // the cursor was moved off the chosen copy, to the point
	shown  Shown
	knot   length.Length // the radius typed last
	heldOf screen.Stamp  // the state in which copies were slid by hand, to try
	ends   ends
}

// then is what the screen does once a change of the bench is made, or a value is typed.
type then = screen.Then[Screen]

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Shown returns what the screen shows.
func (s Screen) Shown() Shown { return s.shown }

// Update takes the cursor about and changes what is cut out.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(s, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter, screen.Recomputed:
		return s.computed(ctx), nil
	case screen.Opened:
		s.Stop()
		return Screen{}, nil
	case screen.Press:
		return s.press(msg, ctx), nil
	case job.Done[foundEnds]:
		return s.endsDone(msg, ctx)
	}
	return s, nil
}

// computed lays the products.
func (s Screen) computed(ctx screen.Context) Screen {
	shop := ctx.Physics.Shop()
	shown := Shown{Cut: shop.Cut}
	if s.heldOf == of(ctx) {
		shown.Held = s.shown.Held
	}
	shown.Job, shown.Err = ctx.WorkJob(shown.Held)
	if shown.Err != nil {
		shown.Job.Layout = outline.Layout{}
	}
	layout := shown.Job.Layout
	shown.Figures = work.Of(ctx.Physics, shown.Job)
	for _, c := range work.Cautions(ctx.Physics, shown.Job, shown.Figures, ctx.Unit) {
		if c.Step == work.StepCut {
			shown.Cautions = append(shown.Cautions, c)
		}
	}
	p := shown.Job.Ground()
	shown.Mark = work.MarkOutOf(p, shop.Allowance.Length, layout, shop.Cut.Gap)
	if shown.Err == nil {
		shown.Remaining = outline.RemainingCopies(p, shop.Allowance.Length, p.Products, p.Avoids, shown.Cut, layout)
	}
	s.shown = shown.listed()
	return s
}

// of returns what of the present state a copy that is held belongs to: the pattern alone.
func of(ctx screen.Context) screen.Stamp {
	return screen.Stamp{Stem: ctx.Stamp.Stem, Pattern: ctx.Stamp.Pattern}
}

// mostLines bounds what a page on the screen has of a mark-out; commands print all.
const mostLines = 150

// markSheet shows the whole mark-out.
func (s Screen) markSheet(ctx screen.Context) []screen.Request {
	shown := s.shown
	if shown.Err != nil {
		return []screen.Request{screen.Refuse(shown.Err.Error())}
	}
	lines := work.Texts(work.MarkLines(ctx.Physics, shown.Job, ctx.Unit))
	if n := len(lines) - mostLines; n > 0 {
		lines = append(lines[:mostLines], fmt.Sprintf("and %d more: oddments mark prints them all", n))
	}
	for _, t := range work.Report(ctx.Physics, shown.Job, shown.Figures, ctx.Unit) {
		switch {
		case t.Step != work.StepCut:
		case t.Caution:
			lines = append(lines, "caution, "+t.Level.Heading()+": "+t.Text)
		default:
			lines = append(lines, t.String())
		}
	}
	return []screen.Request{screen.Show{Overlay: page.New("the mark-out", append(lines, work.Manuals))}}
}
