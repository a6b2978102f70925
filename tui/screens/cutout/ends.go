package cutout

import (
	"context"
	"fmt"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/work"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/screen"
)

// planFor is how long strips are planned in their own length, and as they are.
const planFor = 10 * time.Second

// ends are the short ends outside that are being looked for.
type ends struct {
	running job.Job[struct{}, foundEnds]
	works   bool
}

// A foundEnds is what a job that looks for short ends comes to.
type foundEnds struct {
	of   screen.Stamp // the state that they are of
	all  cutting.ShortEnds
	told *mistake.Withdrawn
	err  error
}

// stampOf returns what of the present state short ends go by.
func stampOf(ctx screen.Context) screen.Stamp {
	return screen.Stamp{Stem: ctx.Stamp.Stem, Pattern: ctx.Stamp.Pattern, Rack: ctx.Stamp.Rack, Shop: ctx.Stamp.Shop}
}

// Stop ends what is being looked for.
func (s Screen) Stop() { s.ends.running.Stop() }

// shortEnds plans which strips draw less in their own length, beside the screen.
func (s Screen) shortEnds(ctx screen.Context) (screen.Screen, []screen.Request) {
	if board(ctx) != nil {
		return s, []screen.Request{screen.Refuse("bars are cut across all strips: with a second glue-up every strip needs its whole length")}
	}
	if len(ctx.State.Pattern.Products) == 0 {
		return s, []screen.Request{screen.Say("no product listed, so every strip needs its whole length: add products on the cut out screen")}
	}
	laid, err := ctx.WorkJob(nil)
	switch {
	case err != nil:
		return s, []screen.Request{screen.Refuse(err.Error())}
	case len(laid.Layout.Placed) == 0:
		return s, []screen.Request{screen.Refuse("no product fits, so no strip can be shortened")}
	case work.Staggered(laid.Layout) > 0:
		return s, []screen.Request{screen.Refuse(fmt.Sprintf("product %d is in staggered rows, which need straight ends: ask for no more copies than straight rows hold",
			work.Staggered(laid.Layout)))}
	}
	s.ends.running.Stop()
	of, beside := stampOf(ctx), ctx.Beside
	task := cutting.Job{Rack: ctx.Rack, Shop: ctx.Physics.Shop(), Patterns: []cutting.Demand{{Stem: ctx.Stamp.Stem, Pattern: ctx.State.Pattern}}}
	run, cmd := job.Start(planFor, func(ctx context.Context, _ <-chan time.Time, _ func(struct{})) foundEnds {
		found := foundEnds{of: of}
		found.all, found.err = cutting.ShortEndsOf(task, func(job cutting.Job) (cutting.Plan, error) {
			plan, err := beside.Solve.Plan(ctx, job, solve.Options{Workers: 1})
			if err == nil && found.told == nil {
				found.told = beside.Tell(plan.Broken, mistake.Plan, job, "")
			}
			return plan, err
		})
		if found.err != nil {
			found.told, found.err = beside.Unfit(found.err, mistake.None, task)
		}
		return found
	})
	s.ends = ends{running: run, works: true}
	return s, []screen.Request{screen.Say("planning short ends: strips in their own length or whole"), screen.Run{Cmd: cmd}}
}

// endsDone lays the strips so, as one undo step, and says what that saves.
func (s Screen) endsDone(m job.Done[foundEnds], ctx screen.Context) (screen.Screen, []screen.Request) {
	if !s.ends.running.Ended(m) || !s.ends.works {
		return s, nil
	}
	found := m.Result
	s.ends = ends{}
	said := screen.Say("short ends outside: " + found.all.Saves(ctx.Unit))
	switch {
	case found.err != nil:
		return s, []screen.Request{screen.Refuse(found.err.Error())}
	case found.told != nil:
		return s, []screen.Request{screen.Withdrawn{Told: found.told}}
	case found.of != stampOf(ctx):
		return s, []screen.Request{screen.Say("short ends: bench, rack or workshop changed meanwhile; ask again")}
	case len(found.all.Laid) == 0:
		return s, []screen.Request{said}
	}
	return s, []screen.Request{
		screen.Edit{Label: "short ends", Make: func(s edit.State) (edit.State, error) { return s.Lay(found.all.Laid) }},
		said,
	}
}
