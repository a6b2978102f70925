package tui

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/suggest/search"
	"example.com/oddments/pattern/waysout"
	"example.com/oddments/tui/guard"
	"example.com/oddments/tui/job"
)

func brokenClaim(kind cutting.Contradiction, job cutting.Job) *cutting.Broken {
	return &cutting.Broken{Kind: kind, Species: "hornbeam", Claimed: 812.5, Found: 790.25, Err: errors.New("too wide"), Job: job}
}

// brokenPlan plans, and finds afterwards that it has contradicted itself.
func brokenPlan(ctx context.Context, job cutting.Job, opt solve.Options) (cutting.Plan, error) {
	plan, err := solve.Plan(ctx, job, opt)
	plan.Status, plan.LowerBoundCM3, plan.Broken = cutting.Feasible, 0, brokenClaim(cutting.Undercut, job)
	return plan, err
}

// reported returns the one report in the home.
func (d *hand) reported() string {
	d.t.Helper()
	files, err := filepath.Glob(filepath.Join(d.app.files.Dir(), "recovery", "fault-*.txt"))
	if err != nil || len(files) != 1 {
		d.t.Fatalf("reports: %v, %v\n%s", files, err, d.screen())
	}
	text, err := os.ReadFile(files[0])
	if err = errors.Join(err, os.Remove(files[0])); err != nil {
		d.t.Fatal(err)
	}
	return string(text)
}

// hides fails where the frame shows one of the texts.
func (d *hand) hides(texts ...string) *hand {
	d.t.Helper()
	for _, text := range texts {
		if frame := d.screen(); strings.Contains(frame, text) {
			d.t.Errorf("the screen shows %q:\n%s", text, frame)
		}
	}
	return d
}

func contains(t *testing.T, text string, parts ...string) {
	t.Helper()
	for _, part := range parts {
		if !strings.Contains(text, part) {
			t.Errorf("%q is not in %.1500s", part, text)
		}
	}
}

// A plan whose claim broke is shown without one, and stays marked; the report has the
// job. The next plan has its own claims.
func TestBrokenPlan(t *testing.T) {
	const row = "a check failed, so nothing is proved: see recovery/fault-20261125-100000.txt"
	d := start(t, owned(t), 100, 40)
	d.app.solve.Plan = brokenPlan
	d.keys("4").shows("a check failed", "not called the best", "can be cut", "fault-20261125-100000.txt")
	d.keys("esc").shows("11 of 11 strips", "not proved the best plan", row).hides("no better plan exists (proved)")
	contains(t, d.reported(), "812.5", "asked for: patterns/rookery-square.toml, copies 1", "[[piece]]", "[[strip]]", "[kerf]")
	d.keys("down").shows(row)
	small := start(t, owned(t), 80, 24)
	small.app.solve.Plan = brokenPlan
	small.keys("4 esc").shows(row)
	d.app.solve.Plan = solve.Plan
	d.keys("+").shows("no better plan exists (proved)").hides("a check failed")
}

// A plan that cannot be cut is not shown, nor booked.
func TestUnfitPlan(t *testing.T) {
	d := start(t, owned(t), 100, 40)
	d.app.solve.Plan = func(_ context.Context, job cutting.Job, _ solve.Options) (cutting.Plan, error) {
		return cutting.Plan{}, brokenClaim(cutting.Unfit, job)
	}
	rack := saved(t, d, "rack.toml")
	d.keys("4").shows("no plan is shown", "fault-").keys("esc").hides("11 of 11 strips")
	contains(t, d.reported(), "too wide", "copies 1")
	if d.keys("d"); d.app.plan.Have || saved(t, d, "rack.toml") != rack {
		t.Error("it is booked")
	}
}

// What comes while something is typed waits until that is done.
func TestBrokenPlanDoesNotInterrupt(t *testing.T) {
	d := start(t, owned(t), 100, 40)
	d.app.solve.Plan = brokenPlan
	a, cmd := d.app.act("plan-run")
	d.app = a
	d.keys("/").text("roll").run(cmd)
	d.shows("find: roll").keys("esc").shows("not called the best")
}

// Layouts, ways to make a pattern again, ways out and what the rack gives are likewise
// not called proved.
func TestBrokenAnswers(t *testing.T) {
	const mark = "nothing is proved: see recovery/"
	d := start(t, laySetup(t), 100, 40)
	d.app.solve.Suggest = func(ctx context.Context, r movement.Physics, a suggest.Request, o suggest.Options) (suggest.Result, error) {
		answer, err := search.Solve(ctx, r, a, o)
		for i := range answer.Layouts {
			answer.Layouts[i].Proved = false
		}
		answer.Status, answer.PlansProved, answer.Broken = suggest.Feasible, false, brokenClaim(cutting.Fewer, cutting.Job{})
		return answer, err
	}
	d.app.solve.Again = func(ctx context.Context, r movement.Physics, a remake.Request, o suggest.Options) (remake.Result, error) {
		answer, err := remake.Again(ctx, r, a, o)
		answer.Status, answer.Broken = suggest.Feasible, brokenClaim(cutting.Fewer, cutting.Job{})
		return answer, err
	}
	d.keys("v").shows("no layout is called proved").keys("esc").shows(mark, "Not proved the best").hides("all proved")
	contains(t, d.reported(), "patterns/layout-1.toml", "[[piece]]", "asked for: layouts")
	d.keys("esc V").shows("no answer is called proved").keys("esc").shows(mark).hides("all proved", "nothing on the rack comes nearer")
	contains(t, d.reported(), "the pattern again", "[[strip]]")

	d = onShort(t)
	d.app.solve.Ways = func(ctx context.Context, job cutting.Job, plan cutting.Plan, r movement.Physics) (waysout.Ways, error) {
		ways, err := waysout.Find(ctx, job, plan, r)
		ways.Sure, ways.Broken = false, brokenClaim(cutting.Fewer, job)
		return ways, err
	}
	d.keys("w").shows("there is timber for").keys("esc").shows("ways out are not called complete")
	contains(t, d.reported(), "asked for: patterns/rookery-square.toml, copies")

	d = start(t, owned(t), 100, 40)
	d.app.solve.Yields = func(ctx context.Context, job cutting.Job) ([]solve.Supply, []solve.Yield, error) {
		supplies, yields, _ := solve.Yields(ctx, job)
		return supplies, yields, brokenClaim(cutting.Fewer, job)
	}
	d.keys("tab").shows("no number of strips is called exact").keys("esc").shows("HB 6/11")
	contains(t, d.reported(), "copies 1")
}

// A panic that a worker of the planner has handed on, and a job after it, is reported with
// the stack it began on.
func TestFaultHasTheInnerStack(t *testing.T) {
	d := onDemo(t, 80, 24)
	g := guard.On(panicking{job.Panic{Value: solve.Panic{Value: "injected", Stack: []byte("where it began")}, Stack: []byte("where it was waited for")}}, func() {})
	_ = g.View()
	var told *mistake.Panic
	if err := g.Report(d.app.files, d.app.now()); !errors.As(err, &told) || told.What != "injected" {
		t.Fatalf("%v", err)
	}
	text := d.reported()
	contains(t, text, "injected", "where it began")
	if strings.Contains(text, "where it was waited for") {
		t.Errorf("%.600s", text)
	}
}

// panicking is a model that cannot be drawn.
type panicking struct{ what any }

func (panicking) Init() tea.Cmd                         { return nil }
func (p panicking) Update(tea.Msg) (tea.Model, tea.Cmd) { return p, nil }
func (p panicking) View() string                        { panic(p.what) }
