package planview

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/waysout"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/screen"
)

// ways are the ways out of a plan that is short.
type ways struct {
	running job.Job[struct{}, foundWays]
	works   bool
	found   foundWays
}

// A foundWays is what a job that looks for ways out comes to.
type foundWays struct {
	have bool
	of   screen.Stamp // the state that they are of
	job  cutting.Job
	all  waysout.Ways
	told *mistake.Withdrawn
	err  error
}

// findWays looks for ways out where the rack runs short, or shows those that are known.
func (l Screen) findWays(ctx screen.Context) (screen.Screen, []screen.Request) {
	w := &l.ways
	why := l.stale(ctx)
	switch {
	case why != "":
		return l, []screen.Request{screen.Say(why)}
	case ctx.Plan.Plan.Short == 0:
		return l, []screen.Request{screen.Say("nothing is missing")}
	case w.works:
		return l, []screen.Request{screen.Say("still looking for ways out; " + ctx.Keys.KeyOf(planRun) + " stops and keeps those found")}
	case w.found.have && w.found.of == ctx.Stamp:
		return l, l.showWays(ctx)
	}
	task, plan, of, physics, beside := ctx.Plan.Job, ctx.Plan.Plan, ctx.Stamp, ctx.Physics, ctx.Beside
	var cmd tea.Cmd
	w.running, cmd = job.Start(planFor, func(ctx context.Context, _ <-chan time.Time, _ func(struct{})) foundWays {
		all, err := beside.Solve.Ways(ctx, task, plan, physics)
		return foundWays{have: err == nil, of: of, job: task, all: all, told: beside.Tell(all.Broken, mistake.Ways, task, ""), err: err}
	})
	w.works, w.found = true, foundWays{}
	return l, []screen.Request{screen.Run{Cmd: cmd}}
}

// waysDone takes the ways out. They are shown where they were asked for; elsewhere, and
// while something is typed, it is only said that they are there.
func (l Screen) waysDone(m job.Done[foundWays], ctx screen.Context) (screen.Screen, []screen.Request) {
	w := &l.ways
	if !w.running.Ended(m) || !w.works {
		return l, nil // of an older plan
	}
	w.works = false
	if m.Result.err != nil {
		return l, []screen.Request{screen.Refuse(m.Result.err.Error())}
	}
	w.found = m.Result
	var out []screen.Request
	switch {
	case w.found.of != ctx.Stamp:
	case !ctx.Window.Covered && ctx.Window.At == Place:
		out = l.showWays(ctx)
	default:
		out = []screen.Request{screen.Say("ways out found: " + ctx.Keys.KeyOf(planWays) + " on the plan shows them")}
	}
	return l, append(out, screen.Withdrawn{Told: w.found.told})
}

func (l Screen) showWays(ctx screen.Context) []screen.Request {
	f := l.ways.found
	return []screen.Request{screen.Show{Overlay: page.New("ways out", f.all.Say(f.job, ctx.Name, ctx.Unit))}}
}
