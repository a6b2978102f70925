package cutout

import (
	"fmt"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Screen is what is cut out of the document's panel. The zero value stands at the first
// copy.
type Screen struct {
	view   View
	shown  Shown
	knot   length.Length   // the radius typed last
	held   []outline.Fixed // copies slid by hand, to try
	heldOf screen.Stamp    // the state that they were slid in
}

// The steps of the cursor, in the maker's unit.
func cursorStep() screen.Step {
	return screen.Step{MM: 10 * length.Millimetre, Inches: length.Inch / 2}
}
func fineCursorStep() screen.Step {
	return screen.Step{MM: length.Millimetre, Inches: length.Inch / 16}
}

// then is what the screen does once a change of the bench is made, or a value is typed.
type then func(Screen, screen.Context) (screen.Screen, []screen.Request)

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Shown returns what the screen shows, and View where it stands.
func (s Screen) Shown() Shown { return s.shown }

// View returns which line is chosen, and where the cursor is.
func (s Screen) View() View { return s.view }

// Draw draws the panel with its products into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	s.view.Draw(c, r, s.shown, ctx)
}

// Update takes the cursor about and changes what is cut out.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	switch msg := msg.(type) {
	case screen.Do:
		if next, ok := s.move(msg.ID, ctx); ok {
			return next, nil
		}
		return s.do(msg.ID, ctx)
	case screen.Enter, screen.Recomputed:
		return s.laid(ctx), nil
	case screen.Opened:
		return Screen{}, nil
	case screen.Press:
		if id, ok := screen.Pressed(s.view.Footer(ctx.Window.Body, s.shown, ctx), msg.X, msg.Y); ok {
			return s, []screen.Request{screen.Act{ID: id}}
		}
		s.view = s.view.Press(msg.X, msg.Y, ctx.Window.Body, s.shown, ctx)
	case screen.Wheel:
		s.view = s.view.Go(msg.By(), s.shown)
	case then:
		return msg(s, ctx)
	}
	return s, nil
}

// move takes the cursor a step on or chooses another copy, and reports whether the action
// was one of these.
func (s Screen) move(id keymap.ID, ctx screen.Context) (Screen, bool) {
	by := cursorStep()
	var along, across length.Length
	switch id {
	case cutLeftFine, cutRightFine, cutUpFine, cutDownFine:
		by = fineCursorStep()
	}
	switch id {
	case cutLeft, cutLeftFine:
		along = -1
	case cutRight, cutRightFine:
		along = 1
	case cutUp, cutUpFine:
		across = -1
	case cutDown, cutDownFine:
		across = 1
	case cutNext:
		s.view = s.view.Go(1, s.shown)
		return s, true
	case cutLast:
		s.view = s.view.Go(-1, s.shown)
		return s, true
	default:
		return s, false
	}
	size := by.In(ctx.Unit)
	s.view = s.view.Move(along*size, across*size, s.shown, ctx)
	return s, true
}

func (s Screen) do(id keymap.ID, ctx screen.Context) (screen.Screen, []screen.Request) {
	switch id {
	case cutSlideFar:
		return s.slide(screen.SlideStep(), 1, ctx)
	case cutSlideNear:
		return s.slide(screen.SlideStep(), -1, ctx)
	case cutSlideFine:
		return s.slide(screen.FineSlideStep(), 1, ctx)
	case cutNearFine:
		return s.slide(screen.FineSlideStep(), -1, ctx)
	case cutKeep:
		return s, s.keepSlid(ctx)
	case cutSheet:
		return s, s.markSheet(ctx)
	case keymap.ShortEnds:
		return s, shortEnds(ctx)
	case "add-avoid":
		return s, s.addKnot(ctx)
	case "set-avoid":
		return s, s.askKnot(ctx)
	case "drop-avoid":
		return s, s.dropKnot(ctx)
	default:
		return s, s.product(id, ctx)
	}
}

// laid lays the products.
func (s Screen) laid(ctx screen.Context) Screen {
	if s.heldOf != of(ctx) {
		s.held = nil
	}
	p, shop := ctx.State.Pattern, ctx.Physics.Shop()
	shown := Shown{Cut: shop.Cut, Held: s.held}
	shown.Job, shown.Err = ctx.WorkJob(s.held)
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
	shown.Mark = work.MarkOutOf(p, shop.Allowance.Length, layout, shop.Cut.Gap)
	if shown.Err == nil {
		shown.Still = outline.RemainingCopies(p, shop.Allowance.Length, p.Products, p.Avoids, shown.Cut, layout)
	}
	s.shown = shown.Ready()
	return s
}

// of returns what of the present state a copy that is held belongs to: the pattern alone.
func of(ctx screen.Context) screen.Stamp {
	return screen.Stamp{Stem: ctx.Stamp.Stem, Pattern: ctx.Stamp.Pattern}
}

// shortEnds returns every strip the length that its products need, as one undo step.
func shortEnds(ctx screen.Context) []screen.Request {
	p, allowance := ctx.State.Pattern, ctx.Physics.Shop().Allowance.Length
	if len(p.Products) == 0 {
		return []screen.Request{screen.Say("no product is listed, so every strip needs its whole length; the cut out screen lists them")}
	}
	job, err := ctx.WorkJob(nil)
	switch {
	case err != nil:
		return []screen.Request{screen.Refuse(err.Error())}
	case len(job.Layout.Placed) == 0:
		return []screen.Request{screen.Refuse("no product fits: there is nothing that strips could be short for")}
	}
	if product := work.Staggered(job.Layout); product > 0 {
		return []screen.Request{screen.Refuse(fmt.Sprintf("product %d stands in staggered rows, which need a panel without ragged ends: ask for no more copies than straight rows hold", product))}
	}
	short, saving := outline.ShortEnds(p, allowance, job.Layout)
	var ends []edit.End
	for _, own := range job.Layout.OwnLengths {
		s := short.Strips[own.Strip-1]
		ends = append(ends, edit.End{Strip: own.Strip - 1, Start: s.Start, Length: s.Length})
	}
	return []screen.Request{
		screen.Edit{Make: func(s edit.State) (edit.State, error) { return edit.ShortEnds(s, ends, ctx.Allow) }},
		screen.Say("short ends outside: " + work.SavingText(saving, ctx.Unit) + "; the plan cuts the strips so"),
	}
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
	if len(shown.Job.Layout.OwnLengths) > 0 {
		lines = append(lines, work.Texts(work.ShortEndLines(ctx.Physics, shown.Job, ctx.Unit))...)
	}
	for _, t := range work.Report(ctx.Physics, shown.Job, shown.Figures, ctx.Unit) {
		switch {
		case t.Step != work.StepCut:
		case t.Caution:
			lines = append(lines, "caution, "+t.Level.String()+": "+t.Text)
		default:
			lines = append(lines, t.String())
		}
	}
	return []screen.Request{screen.Show{Overlay: page.New("the mark-out", append(lines, work.Manuals))}}
}
