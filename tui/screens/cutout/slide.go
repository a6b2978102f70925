package cutout

import (
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/tui/screen"
)

// mostSteps bounds how far a copy that is slid back looks for a place before a knot.
const mostSteps = 400

// slide slides the chosen copy by a step, to try: no file keeps it.
func (s Screen) slide(by screen.Step, sign length.Length, ctx screen.Context) (screen.Screen, []screen.Request) {
	at, ok := s.view.Copy(s.shown)
	if !ok {
		return s, []screen.Request{screen.Say("no copy is chosen")}
	}
	// A step back may end in a knot, which the copy then has to be taken past.
	for i := length.Length(1); i <= mostSteps; i++ {
		next := s.hold(at, at.From+sign*i*by.In(ctx.Unit), ctx)
		now, _ := next.view.Copy(next.shown)
		moved := (now.From - at.From) * sign
		if moved > 0 && !next.isHeld(now) {
			return next, []screen.Request{screen.Say(label(now) + " lies at its earliest place again")}
		}
		if moved > 0 {
			return next, []screen.Request{screen.Say(fmt.Sprintf("%s slid by hand to %s from the datum end, to try: %s keeps it", label(now),
				now.Along.With(ctx.Unit), ctx.Keys.KeyOf(cutKeep)))}
		}
		if sign > 0 {
			return s, []screen.Request{screen.Say("it can slide no further")}
		}
	}
	return s, []screen.Request{screen.Say("it lies at its earliest place")}
}

func label(at outline.Placed) string { return fmt.Sprintf("product %d, copy %d", at.Product, at.Copy) }

// hold has a copy lie from a place on.
func (s Screen) hold(at outline.Placed, from length.Length, ctx screen.Context) Screen {
	held := []outline.Fixed{{Product: at.Product, Copy: at.Copy, From: from}}
	if s.heldOf == of(ctx) {
		for _, h := range s.held {
			if h.Product != at.Product || h.Copy != at.Copy {
				held = append(held, h)
			}
		}
	}
	s.held, s.heldOf = held, of(ctx)
	return s.laid(ctx).dropIdle(ctx)
}

// isHeld reports whether a hand holds a copy.
func (s Screen) isHeld(at outline.Placed) bool {
	return slices.ContainsFunc(s.held, func(h outline.Fixed) bool { return h.Product == at.Product && h.Copy == at.Copy })
}

// dropIdle lets go of what is held where it would lie anyway.
func (s Screen) dropIdle(ctx screen.Context) Screen {
	plain, err := ctx.WorkJob(nil)
	if err != nil {
		return s
	}
	var held []outline.Fixed
	for _, h := range s.held {
		for _, at := range plain.Layout.Placed {
			if at.Product == h.Product && at.Copy == h.Copy && h.From > at.From {
				held = append(held, h)
			}
		}
	}
	s.held, s.shown.Held = held, held
	return s
}

// keepSlid keeps what was slid, as one undo step: a mark of no size at the near edge
// of each copy keeps it from lying nearer.
func (s Screen) keepSlid(ctx screen.Context) []screen.Request {
	if len(s.shown.Held) == 0 {
		return []screen.Request{screen.Say("nothing is slid: " + ctx.Keys.KeyOf(cutSlideFar) + " slides a copy")}
	}
	want := s.shown.Job.Layout.Placed
	next, err := s.marked(ctx.State, want)
	if err != nil {
		return refused(err)
	}
	shop := ctx.Physics.Shop()
	p := next.Pattern
	got, err := outline.Lay(p, shop.Allowance.Length, p.Products, p.Avoids, shop.Cut)
	if err != nil || !stand(got.Placed, want) {
		return []screen.Request{screen.Refuse("a mark does not keep it there, since there is room for it before the mark: mark the knot itself with " +
			ctx.Keys.KeyOf("add-avoid"))}
	}
	return []screen.Request{
		screen.Edit{Make: func(edit.State) (edit.State, error) { return next, nil }},
		screen.Say("kept: copies keep clear of the mark at its near edge; " + ctx.Keys.KeyOf("drop-avoid") + " there takes it away"),
	}
}

// marked returns the bench with a mark at the near edge of each copy that is held.
func (s Screen) marked(next edit.State, want []outline.Placed) (edit.State, error) {
	for _, h := range s.held {
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
