package planview

import (
	"context"
	"fmt"
	"runtime"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/fill"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/waysout"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/screen"
)

// planFor is how long a plan is worked on before the best so far is taken.
const planFor = 10 * time.Second

// planWorkers is how many timbers are planned at a time: one core is left for the keys.
func planWorkers() int { return max(1, runtime.NumCPU()-1) }

// A Screen is the stock plan: which cut is chosen, and what is being worked on. The zero
// value stands at the first cut and works on nothing.
type Screen struct {
	at       int
	running  job.Job[progress, planned]
	works    bool         // running is at work
	asked    screen.Stamp // the state that it plans
	progress cutting.Progress
	began    time.Time
	again    string // what was noted of the batch that is made again
	sheet    string // the file of the sheet that waits for the plan; empty: none
	ways     ways
	fill     fill.Widths // that slices are filled with
}

// A progress is how far a plan is.
type progress cutting.Progress

// A planned is what a planning job comes to.
type planned struct {
	plan screen.Plan
	told *mistake.Withdrawn // a claim that broke, where no plan is shown
	err  error
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Works reports whether a plan is being worked on, or ways out of one that is short.
func (l Screen) Works() (plan, ways bool) { return l.works, l.ways.works }

// WaysOut returns the ways out that were found, and whether there are any.
func (l Screen) WaysOut() (waysout.Ways, bool) { return l.ways.found.all, l.ways.found.have }

// Awaits returns the file of the sheet that waits for the plan; empty: none does.
func (l Screen) Awaits() string { return l.sheet }

// Stop ends what is being worked on with the best so far.
func (l Screen) Stop() {
	l.running.Stop()
	l.ways.running.Stop()
}

// Update plans, goes through the plan and makes what follows from it.
func (l Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(l, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter: // plan at once, unless there is a plan of this state
		if l.works || ctx.Planned() {
			return l, nil
		}
		return l.start(ctx)
	case screen.Press:
		return l.At(msg.Y, ctx.Window.Body, ctx), nil
	case screen.MadeAgain:
		l.again = "; " + msg.Words
		b := ctx.Batch
		b.Copies = msg.Copies
		return l, []screen.Request{screen.Gather(b), screen.Planned{}, screen.Go{To: Place}, screen.Say(msg.Words)}
	case screen.WantSheet:
		return l.sheetOnce(msg.File, ctx)
	default:
		return l.worked(ctx, msg)
	}
}

// worked takes what jobs report and come to.
func (l Screen) worked(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	switch msg := msg.(type) {
	case job.Progress[progress]:
		if l.running.Sent(msg) { // not of an older job
			l.progress = cutting.Progress(msg.At)
			return l, []screen.Request{screen.Run{Cmd: l.running.Next()}}
		}
	case job.Done[planned]:
		if l.running.Ended(msg) {
			return l.done(msg.Result, ctx)
		}
	case job.Done[foundWays]:
		return l.waysDone(msg, ctx)
	}
	return l, nil
}

// startOrStop stops what is being worked on, or plans again.
func (l Screen) startOrStop(ctx screen.Context) (screen.Screen, []screen.Request) {
	switch {
	case l.works:
		l.running.Stop()
		return l, []screen.Request{screen.Say("stopped, the best so far is kept")}
	case l.ways.works:
		l.ways.running.Stop()
		return l, []screen.Request{screen.Say("stopped, the ways out found are kept")}
	}
	return l.start(ctx)
}

// start plans the present state.
func (l Screen) start(ctx screen.Context) (screen.Screen, []screen.Request) {
	l.running.Stop()
	l.ways.running.Stop() // those of a plan that is to be another
	l.ways = ways{}
	task, of, physics, beside := ctx.PlanJob(), ctx.Stamp, ctx.Physics, ctx.Beside
	l.works, l.asked, l.began, l.progress = true, of, ctx.Now, cutting.Progress{}
	var cmd tea.Cmd
	l.running, cmd = job.Start(planFor, func(ctx context.Context, tick <-chan time.Time, report func(progress)) planned {
		plan, err := beside.Solve.Plan(ctx, task, solve.Options{Workers: planWorkers(), Tick: tick,
			Progress: func(p cutting.Progress) { report(progress(p)) }})
		if err != nil {
			told, err := beside.Unfit(err, mistake.None, task)
			return planned{told: told, err: err}
		}
		return planned{plan: screen.Plan{Have: true, Of: of, Job: task, Plan: plan, Details: worksteps.Details(task, plan),
			Looks: booking.LookFirst(task, &plan, physics), Told: beside.Tell(plan.Broken, mistake.Plan, task, "")}}
	})
	return l, []screen.Request{screen.Run{Cmd: cmd}}
}

// done takes a plan over, and writes the sheet that was waiting for it.
func (l Screen) done(p planned, ctx screen.Context) (screen.Screen, []screen.Request) {
	l.works = false
	if p.err != nil {
		l.sheet = ""
		return l, []screen.Request{screen.Refuse(p.err.Error())}
	}
	if p.told != nil {
		l.sheet = ""
		return l, []screen.Request{screen.Withdrawn{Told: p.told}}
	}
	said := "planned " + tell.Took(ctx.Now.Sub(l.began)) + l.again
	l.again = ""
	out := []screen.Request{screen.Planned(p.plan), screen.Say(said), screen.Withdrawn{Told: p.plan.Told}}
	if l.fill != fill.Off {
		out = append(out, l.offer(false)...)
	}
	switch {
	case l.sheet == "":
		return l, out
	case p.plan.Of != ctx.Stamp: // the bench has gone on meanwhile: it is planned anew first
		next, asked := l.start(ctx)
		return next, append(out, asked...)
	}
	out = append(out, screen.WriteSheet{File: l.sheet})
	l.sheet = ""
	return l, out
}

// sheetOnce has the sheet written, once there is a plan of the present state.
func (l Screen) sheetOnce(file string, ctx screen.Context) (screen.Screen, []screen.Request) {
	if ctx.Planned() && !l.works {
		return l, []screen.Request{screen.Say("writing the sheet"), screen.WriteSheet{File: file}}
	}
	l.sheet = file
	if l.works && l.asked == ctx.Stamp {
		return l, []screen.Request{screen.Say("the sheet follows when the plan is done")}
	}
	next, asked := l.start(ctx)
	return next, append(asked, screen.Say("planning first, the sheet follows"))
}

// anyRings plans with timber whatever its rings, or with the rings asked for again.
func (l Screen) anyRings(ctx screen.Context) (screen.Screen, []screen.Request) {
	b := ctx.Batch
	b.AnyRings = !b.AnyRings
	said := screen.Say("planned with the rings that the patterns ask for")
	if b.AnyRings {
		said = "planned whatever the rings: r copies the rings of the pieces into the pattern"
	}
	next, asked := l.gather(b, ctx)
	return next, append(asked, said)
}

// join plans with strips made of several pieces, in the next of the ways to part them.
func (l Screen) join(ctx screen.Context) (screen.Screen, []screen.Request) {
	b := ctx.Batch
	b.Join = b.Join.Next()
	next, asked := l.gather(b, ctx)
	return next, append(asked, screen.Say(b.Join.Says()))
}

// adopt lays the strips on the bench from the pieces that the plan chose, as one undo step.
func (l Screen) adopt(ctx screen.Context) []screen.Request {
	if why := l.stale(ctx); why != "" {
		return []screen.Request{screen.Say(why)}
	}
	laid, err := cutting.Adopted(ctx.Plan.Job, ctx.Plan.Plan, ctx.Stamp.Stem)
	switch {
	case err != nil:
		return []screen.Request{screen.Refuse(err.Error())}
	case len(laid) == 0:
		return []screen.Request{screen.Say("the strips are laid so already")}
	}
	return []screen.Request{screen.Edit{
		Make: func(s edit.State) (edit.State, error) { return s.Lay(laid) },
		Then: screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			return l, []screen.Request{screen.Say(fmt.Sprintf("%s in new pieces, %s; undo takes it back", tell.Count(len(laid), "strip"), tell.Count(ctx.State.Pattern.Joints(), "joint")))}
		}),
	}}
}

// alone plans the bench's pattern alone again.
func (l Screen) alone(ctx screen.Context) (screen.Screen, []screen.Request) {
	return l.gather(screen.Batch{Copies: ctx.Batch.Copies, Join: ctx.Batch.Join}, ctx)
}

// readSaved has the patterns read that can be planned together with the bench's.
func (l Screen) readSaved(screen.Context) []screen.Request {
	return []screen.Request{screen.Saved{Then: func(all []store.Saved) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) { return l, askTogether(all, ctx) })
	}}}
}

// gather has b made together, and plans it.
func (l Screen) gather(b screen.Batch, ctx screen.Context) (screen.Screen, []screen.Request) {
	next, asked := l.start(ctx.Gathered(b))
	return next, append([]screen.Request{screen.Gather(b)}, asked...)
}

// askTogether offers the patterns that can be planned together with the bench's.
func askTogether(all []store.Saved, ctx screen.Context) []screen.Request {
	var items []choose.Item
	for _, s := range all {
		items = append(items, choose.Item{Name: s.Pattern.Name, Also: s.Stem, Detail: screen.Size(s.Pattern, ctx.Unit), Value: s})
	}
	list := choose.New("add to this plan (choose it again for one more)", "no other pattern", items)
	return []screen.Request{screen.Show{Overlay: list, Then: func(value any) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			return l.together(value.(store.Saved), ctx)
		})
	}}}
}

// together plans a saved pattern together with the bench's, or one copy more of it.
func (l Screen) together(saved store.Saved, ctx screen.Context) (screen.Screen, []screen.Request) {
	b := ctx.Batch
	b.With = slices.Clone(b.With)
	if i := slices.IndexFunc(b.With, func(w screen.Together) bool { return w.Saved.Stem == saved.Stem }); i >= 0 {
		b.With[i].Copies++
	} else {
		b.With = append(b.With, screen.Together{Saved: saved, Copies: 1})
	}
	return l.gather(b, ctx)
}

// stale says why there is no plan of the present state; nothing where there is one.
func (l Screen) stale(ctx screen.Context) string {
	switch {
	case l.works:
		return "still planning: wait for the plan"
	case !ctx.Plan.Have:
		return "there is no plan yet: " + ctx.Keys.KeyOf(planRun) + " makes one"
	case !ctx.Planned():
		return "the plan is out of date: " + ctx.Keys.KeyOf(planRun) + " plans again"
	default:
		return ""
	}
}

// realPieces returns the strips on the bench the moisture and the rings of the pieces that
// the plan cuts them from, as one undo step.
func (l Screen) realPieces(ctx screen.Context) []screen.Request {
	if why := l.stale(ctx); why != "" {
		return []screen.Request{screen.Say(why)}
	}
	p, changed := booking.Real(ctx.Plan.Job, ctx.Plan.Plan, ctx.Stamp.Stem, 1)
	if len(changed) == 0 {
		return []screen.Request{screen.Say("the strips have readings, rings and colours already, or their pieces have none")}
	}
	words := make([]string, len(changed))
	for i, c := range changed {
		words[i] = c.String()
	}
	before := ctx.Report.Level
	return []screen.Request{screen.Edit{
		Make: func(s edit.State) (edit.State, error) { s.Pattern = p; return s, nil },
		Then: screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			return l, []screen.Request{screen.Say(fmt.Sprintf("%s. The panel was %s, now %s", strings.Join(words, "; "), before, ctx.Report.Level))}
		}),
	}}
}

// book books the plan as done.
func (l Screen) book(ctx screen.Context) []screen.Request {
	if why := l.stale(ctx); why != "" {
		return []screen.Request{screen.Say(why)}
	}
	if ctx.Plan.Plan.Short > 0 {
		return []screen.Request{screen.Refuse("not booked: strips are missing (" + ctx.Keys.KeyOf(planWays) + ": ways out)")}
	}
	return []screen.Request{screen.Book{}}
}

// steps shows the order of work, with what is done of it.
func (Screen) steps(ctx screen.Context) []screen.Request {
	if !ctx.Plan.Have {
		return []screen.Request{screen.Say("there is no plan yet")}
	}
	p := ctx.Plan
	known := worksteps.KnownBy(p.Job, p.Plan)
	return []screen.Request{screen.StepsDone{Plan: known, Then: func(done []int) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			if ctx.Window.Covered {
				return l, nil // something else was asked for meanwhile
			}
			return l, []screen.Request{screen.Show{Overlay: checklist(p, ctx, done), Then: func(value any) tea.Msg {
				return screen.Tick{Plan: known, Done: value.([]int)}
			}}}
		})
	}}}
}

// checklist returns the steps of a plan to be ticked.
func checklist(p screen.Plan, ctx screen.Context, done []int) page.Checklist {
	var before []string
	for _, c := range worksteps.Cares(p.Job, p.Plan) {
		before = append(before, c.Level.Heading()+", "+c.String())
	}
	var tasks []page.Task
	for _, s := range worksteps.WithManuals(worksteps.Order(worksteps.ByMachine, p.Job, p.Plan, ctx.Name, ctx.Unit)) {
		task := page.Task{Text: s.String()}
		for _, n := range s.Notes {
			task.Notes = append(task.Notes, n.String())
		}
		tasks = append(tasks, task)
	}
	after := []string{"chalk on the strips as they come off the saw:"}
	return page.NewChecklist("the order of work", before, tasks, append(after, worksteps.Chalk(p.Job, p.Plan)...), done)
}
