package tui

import (
	"context"
	"fmt"
	"runtime"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/planview"
)

// planFor is how long a plan is worked on before the best so far is taken.
const planFor = 10 * time.Second

// planWorkers is how many timbers are planned at a time: one core is left for the keys.
func planWorkers() int { return max(1, runtime.NumCPU()-1) }

// planner is what is made together, and the plan for it.
type planner struct {
	copies   int         // of the bench's pattern; 0 stands for 1
	with     []together  // planned together with it
	job      cutting.Job // what the plan is for
	plan     cutting.Plan
	details  []cutting.Detail
	looks    []cutting.Look
	have     bool
	of       stamp // the state that the plan is of
	running  job.Job[cutting.Progress, planned]
	works    bool // running is at work
	asked    stamp
	progress cutting.Progress
	began    time.Time
	again    string // what was noted of the batch that is made again
	sheet    string // the file of the sheet that waits for the plan; empty: none
	view     planview.List
	ways     ways
}

// A together is a saved pattern that is made in the same batch.
type together struct {
	saved  store.Saved
	copies int
}

// A stamp tells one state of what is planned from another.
type stamp struct {
	stem           string
	pattern, rack  int // revisions
	copies, others int
}

func (a App) stamp() stamp {
	others := 0
	for _, w := range a.planner.with {
		others = others*31 + w.copies
	}
	return stamp{a.doc.recoveryStem(), a.doc.history.Revision(), a.racks.history.Revision(), a.planner.made(), others*31 + len(a.planner.with)}
}

func (p planner) made() int { return max(1, p.copies) }

// planning gives what the plan's screen is told.
func (a App) planning(title string) screen.Planning {
	p := a.planner
	out := screen.Planning{
		Making: []screen.Making{{Name: title, Copies: p.made()}},
		Have:   p.have, Stale: p.have && p.of != a.stamp(), Running: p.works, Progress: p.progress, Seeking: p.ways.works,
		Job: p.job, Plan: p.plan, Details: p.details, Looks: p.looks, RackLooks: a.racks.looks,
	}
	if a.racks.gives.of == a.stamp() {
		out.Supplies, out.Yields = a.racks.gives.supplies, a.racks.gives.yields
	}
	for _, w := range p.with {
		out.Making = append(out.Making, screen.Making{Name: w.saved.Pattern.Name, Copies: w.copies})
	}
	return out
}

// planJob gives the job that is asked for now.
func (a App) planJob() cutting.Job {
	j := cutting.Job{Rack: a.rack(), Shop: a.reckoner.Shop()}
	j.Patterns = append(j.Patterns, cutting.Demand{Stem: a.doc.recoveryStem(), Pattern: a.state().Pattern, Copies: a.planner.made()})
	for _, w := range a.planner.with {
		j.Patterns = append(j.Patterns, cutting.Demand{Stem: w.saved.Stem, Pattern: w.saved.Pattern, Copies: w.copies})
	}
	return j
}

// planAtOnce plans when the screen is gone to, unless there is a plan of this state.
func (a App) planAtOnce() (App, tea.Cmd) {
	if a.planner.works || a.planner.have && a.planner.of == a.stamp() {
		return a, nil
	}
	return a.startPlan()
}

// planOrStop stops what is being worked on, or plans anew.
func (a App) planOrStop() (App, tea.Cmd) {
	switch {
	case a.planner.works:
		a.planner.running.Stop()
		return a.say("stopped with the best so far"), nil
	case a.planner.ways.works:
		a.planner.ways.running.Stop()
		return a.say("stopped with the ways out that are found"), nil
	}
	return a.startPlan()
}

// A planned is what a planning job comes to.
type planned struct {
	job     cutting.Job
	plan    cutting.Plan
	details []cutting.Detail
	looks   []cutting.Look
	of      stamp
	err     error
}

func (a App) startPlan() (App, tea.Cmd) {
	a.planner.running.Stop()
	a = a.dropWays()
	task, of, reckoner := a.planJob(), a.stamp(), a.reckoner
	a.planner.works, a.planner.asked, a.planner.began = true, of, a.now()
	a.planner.progress = cutting.Progress{}
	var cmd tea.Cmd
	a.planner.running, cmd = job.Start(planFor, func(ctx context.Context, tick <-chan time.Time, report func(cutting.Progress)) planned {
		plan, err := cutting.Solve(ctx, task, cutting.Options{Workers: planWorkers(), Tick: tick,
			Progress: report})
		if err != nil {
			return planned{err: err}
		}
		return planned{job: task, plan: plan, of: of, details: cutting.Details(task, plan), looks: cutting.LookFirst(task, &plan, reckoner)}
	})
	return a, cmd
}

func (a App) planProgress(m job.Progress[cutting.Progress]) (App, tea.Cmd) {
	if !a.planner.running.Sent(m) {
		return a, nil // of an older job
	}
	a.planner.progress = m.At
	return a, a.planner.running.Next()
}

func (a App) planDone(m job.Done[planned]) (App, tea.Cmd) {
	done := m.Result
	if !a.planner.running.Ended(m) {
		return a, nil
	}
	a.planner.works = false
	if done.err != nil {
		a.planner.sheet = ""
		return a.refuse(done.err.Error()), nil
	}
	p := &a.planner
	p.job, p.plan, p.details, p.looks, p.of, p.have = done.job, done.plan, done.details, done.looks, done.of, true
	again := p.again
	p.again = ""
	return a.say(fmt.Sprintf("planned in %.1f s%s", a.now().Sub(p.began).Seconds(), again)).sheetAfterPlan()
}

func planGo(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a.planner.view = a.planner.view.Go(by, a.context())
		return a, nil
	}
}

// planCopies makes more or fewer copies of the bench's pattern, and plans anew.
func planCopies(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a, ok := a.countCopies(by)
		if !ok {
			return a, nil
		}
		return a.startPlan()
	}
}

// countCopies counts so many copies more, and reports whether it may.
func (a App) countCopies(by int) (App, bool) {
	n := a.planner.made() + by
	if n < 1 || n > maxCopies {
		return a.say(fmt.Sprintf("copies: from 1 to %d", maxCopies)), false
	}
	a.planner.copies = n
	return a, true
}

const maxCopies = 10_000

// planWith plans another saved pattern, or the demo's, together with the bench's.
func (a App) planWith() (App, tea.Cmd) {
	files, known := a.files, store.Known(a.reckoner.Table())
	demo, own := a.demo, a.doc.stem
	return a, func() tea.Msg {
		list, err := files.Patterns(known)
		if err != nil {
			return failedMsg{err}
		}
		var saved []store.Saved
		for _, l := range list {
			if l.Err == nil && l.Stem != own {
				saved = append(saved, l.Saved)
			}
		}
		for _, d := range demo {
			if d.Stem != own {
				saved = append(saved, d)
			}
		}
		return togetherMsg{saved}
	}
}

type togetherMsg struct{ saved []store.Saved }

// askTogether offers the patterns that can be planned together with the bench's.
func (a App) askTogether(m togetherMsg) (App, tea.Cmd) {
	var items []choose.Item
	for _, s := range m.saved {
		items = append(items, choose.Item{Name: s.Pattern.Name, Also: s.Stem, Detail: a.size(s.Pattern), Value: s})
	}
	return a.show(choose.New("plan together with: again for one copy more", "no other pattern", items), func(a App, value any) (App, tea.Cmd) {
		saved := value.(store.Saved)
		with := append([]together(nil), a.planner.with...)
		for i := range with {
			if with[i].saved.Stem == saved.Stem {
				with[i].copies++
				a.planner.with = with
				return a.startPlan()
			}
		}
		a.planner.with = append(with, together{saved, 1})
		return a.startPlan()
	}), nil
}

func (a App) planAlone() (App, tea.Cmd) {
	a.planner.with = nil
	return a.startPlan()
}

// fresh reports whether there is a plan of the present state, and says so where not.
func (a App) fresh() (App, bool) {
	switch {
	case a.planner.works:
		return a.say("the plan is still being worked on"), false
	case !a.planner.have:
		return a.say("there is no plan yet: " + a.keys.KeyOf(keymap.PlanRun) + " makes one"), false
	case a.planner.of != a.stamp():
		return a.say("the plan is of an older state: " + a.keys.KeyOf(keymap.PlanRun) + " plans anew"), false
	default:
		return a, true
	}
}

// planReal gives the strips on the bench the moisture and the rings of the pieces that
// the plan cuts them from, as one undo step.
func (a App) planReal() (App, tea.Cmd) {
	a, ok := a.fresh()
	if !ok {
		return a, nil
	}
	real, changed := cutting.Real(a.planner.job, a.planner.plan, a.doc.recoveryStem(), 1)
	if len(changed) == 0 {
		return a.say("the strips have readings and rings already, or their pieces have none"), nil
	}
	before := a.doc.report.Level
	next := a.state()
	next.Pattern = real
	a, cmd := a.do(next)
	words := make([]string, len(changed))
	for i, c := range changed {
		words[i] = c.String()
	}
	return a.say(fmt.Sprintf("%s. The panel was %s, now %s", strings.Join(words, "; "), before, a.doc.report.Level)), cmd
}

// planSteps shows the order of work.
func (a App) planSteps() (App, tea.Cmd) {
	if !a.planner.have {
		return a.say("there is no plan yet"), nil
	}
	lines := cutting.Steps(a.planner.job, a.planner.plan, a.context().Name, a.unit)
	lines = append(lines, "chalk on the strips as they come off the saw: "+strings.Join(cutting.Chalk(a.planner.job, a.planner.plan), "; "))
	return a.show(page.Steps("the order of work", lines), nil), nil
}

func drawPlan(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	a.planner.view.Draw(c, r, ctx)
}

func planPress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	for _, p := range a.planner.view.Footer(a.body(), a.context()) {
		if p.Rect.Contains(m.X, m.Y) {
			return a.act(p.Action.ID)
		}
	}
	a.planner.view = a.planner.view.At(m.Y, a.body(), a.context())
	return a, nil
}

func planWheel(a App, up bool) (App, tea.Cmd) {
	if up {
		return planGo(-1)(a)
	}
	return planGo(1)(a)
}

// planHandlers makes the actions of the plan.
func planHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.PlanUp:    planGo(-1),
		keymap.PlanDown:  planGo(1),
		keymap.PlanMore:  planCopies(1),
		keymap.PlanFewer: planCopies(-1),
		keymap.PlanWith:  App.planWith,
		keymap.PlanAlone: App.planAlone,
		keymap.PlanRun:   App.planOrStop,
		keymap.PlanSteps: App.planSteps,
		keymap.PlanWays:  App.planWays,
		keymap.PlanReal:  App.planReal,
		keymap.PlanBook:  App.planBook,
	}
}
