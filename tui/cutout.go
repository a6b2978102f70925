package tui

import (
	"fmt"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/cutout"
	"example.com/oddments/tui/screens/planview"
)

// An outlined is what is cut out of the document's panel, as its screen shows it.
type outlined struct {
	view   cutout.View
	shown  cutout.Shown
	knot   length.Length  // the radius typed last
	held   []outline.Held // copies slid by hand, to try
	heldOf int            // the revision that they were slid in
}

// The steps of the cursor, in the maker's unit.
func cursorStep() step     { return step{10 * length.Millimetre, length.Inch / 2} }
func fineCursorStep() step { return step{length.Millimetre, length.Inch / 16} }

// cutHandlers gives what makes the actions where products are cut out.
func cutHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.CutLeft: cursorBy(-1, 0, cursorStep()), keymap.CutRight: cursorBy(1, 0, cursorStep()),
		keymap.CutUp: cursorBy(0, -1, cursorStep()), keymap.CutDown: cursorBy(0, 1, cursorStep()),
		keymap.CutLeftFine: cursorBy(-1, 0, fineCursorStep()), keymap.CutRightFine: cursorBy(1, 0, fineCursorStep()),
		keymap.CutUpFine: cursorBy(0, -1, fineCursorStep()), keymap.CutDownFine: cursorBy(0, 1, fineCursorStep()),
		keymap.CutNext: cutGo(1), keymap.CutLast: cutGo(-1),

		"add-product": App.addProduct, "set-product": App.changeProduct,
		"drop-product": App.dropProduct, "product-sooner": App.productSooner,
		keymap.CutMore: moreOf(1), keymap.CutFewer: moreOf(-1),
		keymap.CutCentre: App.askCentre, keymap.CutBevel: App.askBevel, keymap.CutSide: App.nextBevelSide,
		"add-avoid": App.addKnot, "set-avoid": App.askKnot, "drop-avoid": App.dropKnot,

		keymap.CutSlideFar: slideCopy(slideStep(), 1), keymap.CutSlideNear: slideCopy(slideStep(), -1),
		keymap.CutSlideFine: slideCopy(fineSlideStep(), 1), keymap.CutNearFine: slideCopy(fineSlideStep(), -1),
		keymap.CutKeep: App.keepSlid, keymap.CutSheet: App.markSheet,
		"short-ends": App.shortEnds, keymap.CutShort: App.shortEnds,
	}
}

// job gives the job of the pattern on the bench: as many copies as are planned, its
// products laid as they lie, with what is held by hand where it is held.
func (a App) job(held []outline.Held) (work.Job, error) {
	p, s := a.state().Pattern, a.reckoner.Shop()
	job := work.Job{Pattern: p, Copies: a.planner.made(), Products: p.Products, Minutes: work.Minutes(p, a.planner.made())}
	var err error
	job.Layout, err = outline.LayHeld(p, s.Allowance.Length, p.Products, p.Avoids, work.CutOf(s), held)
	return job, err
}

// laid has the screens of products reckoned for the present state, where one of them
// is shown.
func (a App) laid() App {
	switch screens()[a.screen].place {
	case keymap.CutOut:
		return a.cutLaid()
	case keymap.Work:
		return a.workLaid()
	case keymap.Made:
		return a.madeLaid()
	default:
		return a
	}
}

// cutLaid lays the products for their screen.
func (a App) cutLaid() App {
	cut := a.doc.cut
	if cut.heldOf != a.doc.history.Revision() {
		cut.held = nil
	}
	p, s := a.state().Pattern, a.reckoner.Shop()
	shown := cutout.Shown{Cut: work.CutOf(s), Held: cut.held}
	shown.Job, shown.Err = a.job(cut.held)
	if shown.Err != nil {
		shown.Job.Layout = outline.Layout{}
	}
	layout := shown.Job.Layout
	settings := work.SettingsOf(s)
	shown.Figures = work.Of(a.reckoner, shown.Job, settings)
	for _, c := range work.Cautions(a.reckoner, shown.Job, shown.Figures, settings, a.unit) {
		if c.Step == work.StepCut {
			shown.Cautions = append(shown.Cautions, c)
		}
	}
	shown.Mark = work.MarkOutOf(p, s.Allowance.Length, layout, s.Cut.Gap)
	if shown.Err == nil {
		shown.Still = outline.StillOut(p, s.Allowance.Length, p.Products, p.Avoids, shown.Cut, layout)
	}
	cut.shown = shown.Ready()
	a.doc.cut = cut
	return a
}

// toCutOut is done when the screen is gone to.
func (a App) toCutOut() (App, tea.Cmd) { return a.cutLaid(), nil }

func drawCutOut(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	a.doc.cut.view.Draw(c, r, a.doc.cut.shown, ctx)
}

func cutPress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	cut, ctx := a.doc.cut, a.context()
	if next, cmd, ok := a.pressFooter(cut.view.Footer(a.body(), cut.shown, ctx), m); ok {
		return next, cmd
	}
	a.doc.cut.view = cut.view.Press(m.X, m.Y, a.body(), cut.shown, ctx)
	return a, nil
}

// pressFooter does what the footer says where it was pressed, and reports whether it
// was.
func (a App) pressFooter(places []screen.FooterPlace, m tea.MouseEvent) (App, tea.Cmd, bool) {
	for _, p := range places {
		if p.Rect.Contains(m.X, m.Y) {
			next, cmd := a.act(p.Action.ID)
			return next, cmd, true
		}
	}
	return a, nil, false
}

// wheelOf lets the wheel go up and down a list.
func wheelOf(by func(int) handler) func(App, bool) (App, tea.Cmd) {
	return func(a App, up bool) (App, tea.Cmd) {
		if up {
			return by(-1)(a)
		}
		return by(1)(a)
	}
}

// cursorBy takes the cursor a step along or across.
func cursorBy(along, across length.Length, by step) handler {
	return func(a App) (App, tea.Cmd) {
		size := by.in(a.unit)
		a.doc.cut.view = a.doc.cut.view.Move(along*size, across*size, a.doc.cut.shown, a.context())
		return a, nil
	}
}

func cutGo(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a.doc.cut.view = a.doc.cut.view.Go(by, a.doc.cut.shown)
		return a, nil
	}
}

// mostSteps bounds how far a copy that is slid back looks for a place before a knot.
const mostSteps = 400

// slideCopy slides the chosen copy by a step, to try: no file keeps it.
func slideCopy(by step, sign length.Length) handler {
	return func(a App) (App, tea.Cmd) {
		at, ok := a.doc.cut.view.Copy(a.doc.cut.shown)
		if !ok {
			return a.say("no copy is chosen"), nil
		}
		// A step back may end in a knot, which the copy then has to be taken past.
		for i := length.Length(1); i <= mostSteps; i++ {
			next := a.hold(at, at.From+sign*i*by.in(a.unit))
			now, _ := next.doc.cut.view.Copy(next.doc.cut.shown)
			moved := (now.From - at.From) * sign
			if moved > 0 && !next.isHeld(now) {
				return next.say(label(now) + " lies at its earliest place again"), nil
			}
			if moved > 0 {
				return next.say(fmt.Sprintf("%s slid by hand to %s from the datum end, to try: %s keeps it", label(now),
					now.Along.With(a.unit), a.keys.KeyOf(keymap.CutKeep))), nil
			}
			if sign > 0 {
				return a.say("it can slide no further"), nil
			}
		}
		return a.say("it lies at its earliest place"), nil
	}
}

func label(at outline.Placed) string { return fmt.Sprintf("product %d, copy %d", at.Product, at.Copy) }

// hold has a copy lie from a place on.
func (a App) hold(at outline.Placed, from length.Length) App {
	cut := &a.doc.cut
	held := []outline.Held{{Product: at.Product, Copy: at.Copy, From: from}}
	if cut.heldOf == a.doc.history.Revision() {
		for _, h := range cut.held {
			if h.Product != at.Product || h.Copy != at.Copy {
				held = append(held, h)
			}
		}
	}
	cut.held, cut.heldOf = held, a.doc.history.Revision()
	return a.cutLaid().dropIdle()
}

// isHeld reports whether a hand holds a copy.
func (a App) isHeld(at outline.Placed) bool {
	return slices.ContainsFunc(a.doc.cut.held, func(h outline.Held) bool { return h.Product == at.Product && h.Copy == at.Copy })
}

// dropIdle lets go of what is held where it would lie anyway.
func (a App) dropIdle() App {
	plain, err := a.job(nil)
	if err != nil {
		return a
	}
	cut := &a.doc.cut
	var held []outline.Held
	for _, h := range cut.held {
		for _, at := range plain.Layout.Placed {
			if at.Product == h.Product && at.Copy == h.Copy && h.From > at.From {
				held = append(held, h)
			}
		}
	}
	cut.held, cut.shown.Held = held, held
	return a
}

// keepSlid keeps what was slid, as one undo step: a mark of no size at the near edge
// of each copy keeps it from lying nearer.
func (a App) keepSlid() (App, tea.Cmd) {
	cut := a.doc.cut
	if len(cut.shown.Held) == 0 {
		return a.say("nothing is slid: " + a.keys.KeyOf(keymap.CutSlideFar) + " slides a copy"), nil
	}
	want := cut.shown.Job.Layout.Placed
	next := a.state()
	for _, h := range cut.held {
		for _, at := range want {
			if at.Product != h.Product || at.Copy != h.Copy {
				continue
			}
			marked, err := edit.AddAvoid(next, pattern.Avoid{Along: at.From, Across: at.Across})
			if err != nil {
				return a.refuse(a.words(err)), nil
			}
			next = marked
		}
	}
	shop := a.reckoner.Shop()
	p := next.Pattern
	got, err := outline.Lay(p, shop.Allowance.Length, p.Products, p.Avoids, work.CutOf(shop))
	if err != nil || !stand(got.Placed, want) {
		return a.refuse("a mark does not keep it there, since there is room for it before the mark: mark the knot itself with " +
			a.keys.KeyOf("add-avoid")), nil
	}
	a, cmd := a.do(next)
	return a.say("kept: copies keep clear of the mark at its near edge; " + a.keys.KeyOf("drop-avoid") + " there takes it away"), cmd
}

// stand reports whether copies stand where they are wanted.
func stand(got, want []outline.Placed) bool {
	if len(got) != len(want) {
		return false
	}
	for i := range got {
		if got[i].From != want[i].From || got[i].Side != want[i].Side {
			return false
		}
	}
	return true
}

// shortEnds gives every strip the length that its products need, as one undo step.
func (a App) shortEnds() (App, tea.Cmd) {
	p, allowance := a.state().Pattern, a.reckoner.Shop().Allowance.Length
	if len(p.Products) == 0 {
		return a.say("no product is listed, so every strip needs its whole length; the cut out screen lists them"), nil
	}
	job, err := a.job(nil)
	switch {
	case err != nil:
		return a.refuse(err.Error()), nil
	case len(job.Layout.Placed) == 0:
		return a.refuse("no product fits: there is nothing that strips could be short for"), nil
	}
	if product := work.Staggered(job.Layout); product > 0 {
		return a.refuse(fmt.Sprintf("product %d stands in staggered rows, which need a panel without ragged ends: ask for no more copies than straight rows hold", product)), nil
	}
	short, saving := outline.ShortEnds(p, allowance, job.Layout)
	var ends []edit.End
	for _, own := range job.Layout.OwnLengths {
		s := short.Strips[own.Strip-1]
		ends = append(ends, edit.End{Strip: own.Strip - 1, Start: s.Start, Length: s.Length})
	}
	next, err := edit.ShortEnds(a.state(), ends, a.context().Allow)
	if err != nil {
		return a.refuse(a.words(err)), nil
	}
	a, cmd := a.do(next)
	return a.say("short ends outside: " + work.SavingText(saving, a.unit) + "; the plan cuts the strips so"), cmd
}

// mostLines bounds what a page on the screen has of a mark-out; commands print all.
const mostLines = 150

// markSheet shows the whole mark-out.
func (a App) markSheet() (App, tea.Cmd) {
	shown := a.doc.cut.shown
	if shown.Err != nil {
		return a.refuse(shown.Err.Error()), nil
	}
	lines := work.MarkLines(a.reckoner, shown.Job, a.unit)
	if n := len(lines) - mostLines; n > 0 {
		lines = append(lines[:mostLines], fmt.Sprintf("and %d more: oddments mark prints them all", n))
	}
	if len(shown.Job.Layout.OwnLengths) > 0 {
		lines = append(lines, work.ShortEndLines(a.reckoner, shown.Job, a.unit)...)
	}
	for _, t := range work.Tell(a.reckoner, shown.Job, shown.Figures, work.SettingsOf(a.reckoner.Shop()), a.unit) {
		switch {
		case t.Step != work.StepCut:
		case t.Caution:
			lines = append(lines, "caution, "+t.Level.String()+": "+t.Text)
		default:
			lines = append(lines, t.String())
		}
	}
	return a.show(planview.NewPage("the mark-out", append(lines, work.Manuals)), nil), nil
}
