package tui

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/screens/planview"
)

// ways are the ways out of a plan that is short.
type ways struct {
	running job.Job[struct{}, foundWays]
	works   bool
	foundWays
}

// A foundWays is what a job that looks for ways out comes to.
type foundWays struct {
	have bool
	of   stamp // the state that they are of
	job  cutting.Job
	all  cutting.Ways
	err  error
}

// planWays looks for ways out where the rack runs short, or shows those that are known.
func (a App) planWays() (App, tea.Cmd) {
	a, ok := a.fresh()
	w := &a.planner.ways
	switch {
	case !ok:
		return a, nil
	case a.planner.plan.Short == 0:
		return a.say("nothing is short"), nil
	case w.works:
		return a.say("still looking for ways out; " + a.keys.KeyOf(keymap.PlanRun) + " stops with those that are found"), nil
	case w.have && w.of == a.stamp():
		return a.showWays(), nil
	}
	task, plan, of, reckoner := a.planner.job, a.planner.plan, a.stamp(), a.reckoner
	var cmd tea.Cmd
	w.running, cmd = job.Start(planFor, func(ctx context.Context, _ <-chan time.Time, _ func(struct{})) foundWays {
		all, err := cutting.WaysOut(ctx, task, plan, reckoner)
		return foundWays{have: err == nil, of: of, job: task, all: all, err: err}
	})
	w.works, w.foundWays = true, foundWays{}
	return a, cmd
}

// waysDone takes the ways out. They are shown where they were asked for; elsewhere, and
// while something is typed, it is only said that they are there.
func (a App) waysDone(m job.Done[foundWays]) (App, tea.Cmd) {
	w, found := &a.planner.ways, m.Result
	if !w.running.Ended(m) || !w.works {
		return a, nil // of an older plan
	}
	w.works = false
	if found.err != nil {
		return a.refuse(found.err.Error()), nil
	}
	w.foundWays = found
	switch {
	case found.of != a.stamp():
		return a, nil
	case a.overlay == nil && a.here().place == planview.Place:
		return a.showWays(), nil
	default:
		return a.say("ways out are found: " + a.keys.KeyOf(keymap.PlanWays) + " on the plan shows them"), nil
	}
}

func (a App) showWays() App {
	w := a.planner.ways
	return a.show(page.New("ways out", w.all.Say(w.job, a.context().Name, a.unit)), nil)
}

// dropWays stops what looks for ways out of a plan that is to be another.
func (a App) dropWays() App {
	a.planner.ways.running.Stop()
	a.planner.ways = ways{}
	return a
}
