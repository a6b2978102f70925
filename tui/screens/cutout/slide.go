package cutout

import (
	"fmt"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/second"
	"example.com/oddments/tui/screen"
)

// mostSteps bounds how far a copy that is slid back looks for a place before a knot.
const mostSteps = 400

// slide slides the chosen copy by a step, forward or back by sign, to try: no file keeps it.
func slide(sign length.Length, step screen.Step) func(Screen, screen.Context) (screen.Screen, []screen.Request) {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		next, text := s.slid(sign*step.In(ctx.Unit), ctx)
		return next, []screen.Request{screen.Say(text)}
	}
}

// slid returns the screen with the chosen copy slid so far, and what to say of it.
func (s Screen) slid(by length.Length, ctx screen.Context) (Screen, string) {
	at, ok := s.Copy()
	if !ok {
		return s, "no copy chosen"
	}
	// A step back may end in a knot, which the copy then has to be taken past.
	for i := length.Length(1); i <= mostSteps; i++ {
		next := s.hold(at, at.From+i*by, ctx)
		now, _ := next.Copy()
		switch moved := now.From != at.From && now.From > at.From == (by > 0); {
		case moved && !next.shown.held(now):
			return next, label(now) + " is at its earliest place again"
		case moved:
			return next, fmt.Sprintf("%s moved to %s from the datum end (trial): %s keeps it", label(now),
				now.Along.With(ctx.Unit), ctx.Keys.KeyOf(cutKeep))
		case by > 0:
			return s, "the copy cannot move further"
		}
	}
	return s, "the copy is at its earliest place"
}

func label(at outline.Placed) string { return fmt.Sprintf("product %d, copy %d", at.Product, at.Copy) }

// hold has a copy lie from a place on.
func (s Screen) hold(at outline.Placed, from length.Length, ctx screen.Context) Screen {
	held := []outline.Fixed{{Product: at.Product, Copy: at.Copy, From: from}}
	if s.heldOf == of(ctx) {
		for _, h := range s.shown.Held {
			if h.Product != at.Product || h.Copy != at.Copy {
				held = append(held, h)
			}
		}
	}
	s.shown.Held, s.heldOf = held, of(ctx)
	return s.computed(ctx).dropIdle(ctx)
}

// dropIdle lets go of what is held where it would lie anyway.
func (s Screen) dropIdle(ctx screen.Context) Screen {
	plain, err := ctx.WorkJob(nil)
	if err != nil {
		return s
	}
	var held []outline.Fixed
	for _, h := range s.shown.Held {
		for _, at := range plain.Layout.Placed {
			if at.Product == h.Product && at.Copy == h.Copy && h.From > at.From {
				held = append(held, h)
			}
		}
	}
	s.shown.Held = held
	return s
}

// keepSlid keeps what was slid, as one undo step: a mark of no size at the near edge
// of each copy keeps it from lying nearer.
func (s Screen) keepSlid(ctx screen.Context) []screen.Request {
	if len(s.shown.Held) == 0 {
		return []screen.Request{screen.Say("no copy is moved: " + ctx.Keys.KeyOf(cutSlideFar) + " moves a copy")}
	}
	want := s.shown.Job.Layout.Placed
	next, err := s.marked(ctx.State, want)
	if err != nil {
		return refused(err)
	}
	shop := ctx.Physics.Shop()
	p := next.Pattern
	if b := board(ctx); b != nil {
		p = second.Ground(p, b.Ups)
	}
	got, err := outline.Lay(p, shop.Allowance.Length, p.Products, p.Avoids, shop.Cut)
	if err != nil || !stand(got.Placed, want) {
		return []screen.Request{screen.Refuse("a keep-clear mark cannot hold the copy, since it fits before the mark: mark the knot itself with " +
			ctx.Keys.KeyOf("add-avoid"))}
	}
	return []screen.Request{
		screen.Edit{Make: func(edit.State) (edit.State, error) { return next, nil }},
		screen.Say("kept by a keep-clear mark at its near edge; " + ctx.Keys.KeyOf("drop-avoid") + " on the mark removes it"),
	}
}

// marked returns the bench with a mark at the near edge of each copy that is held.
func (s Screen) marked(next edit.State, want []outline.Placed) (edit.State, error) {
	for _, h := range s.shown.Held {
		for _, at := range want {
			if at.Product != h.Product || at.Copy != h.Copy {
				continue
			}
			marked, err := edit.AddAvoid(next, pattern.Avoid{Along: at.From, Across: at.Across})
			if err != nil {
				return next, err
			}
			next = marked
		}
	}
	return next, nil
}

// refused has it said why a change was refused.
func refused(err error) []screen.Request {
	return []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) { return s, err }}}
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
