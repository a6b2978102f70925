package cli_test

import (
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/suggest/search"
	"example.com/oddments/pattern/waysout"
	"example.com/oddments/species"
)

// demoStage is a home that holds the demo.
func demoStage(t *testing.T) stage {
	t.Helper()
	s := stage{home: t.TempDir()}
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	home := store.OpenHome(s.home)
	_, rackErr := home.SaveRack(demo.Rack, store.Absent)
	_, shopErr := home.SaveShop(demo.Shop, store.Absent)
	for _, p := range demo.Patterns {
		_, err := home.SavePattern(p.Stem, p.Pattern, store.Absent)
		rackErr = errors.Join(rackErr, err)
	}
	if err := errors.Join(rackErr, shopErr, home.Close()); err != nil {
		t.Fatal(err)
	}
	return s
}

// brokenClaim is a claim that broke.
func brokenClaim(kind cutting.Contradiction, job cutting.Job) *cutting.Broken {
	return &cutting.Broken{Kind: kind, Species: "hornbeam", Claimed: 812.5, Found: 790.25, Err: errors.New("too wide"), Job: job}
}

// brokenPlan plans, and finds afterwards that it has contradicted itself.
func brokenPlan(ctx context.Context, job cutting.Job, opt solve.Options) (cutting.Plan, error) {
	plan, err := solve.Plan(ctx, job, opt)
	plan.Status, plan.LowerBoundCM3, plan.Broken = cutting.Feasible, 0, brokenClaim(cutting.Undercut, job)
	return plan, err
}

// unfitPlan makes a plan that cannot be cut.
func unfitPlan(_ context.Context, job cutting.Job, _ solve.Options) (cutting.Plan, error) {
	return cutting.Plan{}, brokenClaim(cutting.Unfit, job)
}

// report returns the one report in a home, which must be named in what was said.
func report(t *testing.T, s stage, said string) string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(s.home, "recovery", "fault-*.txt"))
	if err != nil || len(files) != 1 {
		t.Fatalf("reports: %v, %v; said %q", files, err, said)
	}
	text, err := os.ReadFile(files[0])
	if err != nil || !strings.Contains(said, files[0]) {
		t.Errorf("%v; %s is not named in %q", err, files[0], said)
	}
	if err := os.Remove(files[0]); err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A claim that broke is told, logged with the job, and nowhere printed as a proof; what
// was checked is printed, with the exit that it had before.
func TestBrokenClaims(t *testing.T) {
	s := demoStage(t)
	s.solvers = command.Solvers{
		Plan: brokenPlan,
		Ways: func(ctx context.Context, job cutting.Job, plan cutting.Plan, r movement.Physics) (waysout.Ways, error) {
			ways, err := waysout.Find(ctx, job, plan, r)
			ways.Sure = false
			if plan.Broken == nil {
				ways.Broken = brokenClaim(cutting.Fewer, job)
			}
			return ways, err
		},
		Yields: func(ctx context.Context, job cutting.Job) ([]solve.Supply, []solve.Yield, error) {
			supplies, yields, err := solve.Yields(ctx, job)
			return supplies, yields, errors.Join(err, brokenClaim(cutting.Fewer, job))
		},
		Suggest: func(ctx context.Context, r movement.Physics, a suggest.Request, o suggest.Options) (suggest.Result, error) {
			answer, err := search.Solve(ctx, r, a, o)
			for i := range answer.Layouts {
				answer.Layouts[i].Proved = false
			}
			answer.Status, answer.Bound, answer.PlansProved, answer.Broken = suggest.Feasible, nil, false, brokenClaim(cutting.Fewer, cutting.Job{Rack: a.Rack})
			return answer, err
		},
		Again: func(ctx context.Context, r movement.Physics, a remake.Request, o suggest.Options) (remake.Result, error) {
			answer, err := remake.Again(ctx, r, a, o)
			answer.Status, answer.Broken = suggest.Feasible, brokenClaim(cutting.Fewer, cutting.Job{Rack: a.Rack})
			return answer, err
		},
	}
	sheet := filepath.Join(t.TempDir(), "sheet.html")
	for _, c := range []struct {
		args   []string
		told   []string
		stands string // in what is printed
		report []string
	}{
		{[]string{"plan", "rookery-square"}, []string{"not called the least", "can be cut"}, "nothing is proved of the least",
			[]string{"asked for: patterns/rookery-square.toml, copies 1", "oddments plan rookery-square", "[[piece]]", "[kerf]", "812.5"}},
		{[]string{"plan", "rookery-square=2", "candle-sill", "--json"}, []string{`"code":"io"`, "not called the least"}, `"status":"feasible"`,
			[]string{"patterns/rookery-square.toml, copies 2", "patterns/candle-sill.toml, copies 1"}},
		{[]string{"sheet", "rookery-square", "-o", sheet}, []string{"not called the least"}, "", []string{"[[strip]]"}},
		{[]string{"rack", "list", "--for", "rookery-square"}, []string{"no number of strips is called exact"}, "", []string{"[[piece]]"}},
		{[]string{"suggest", "--width", "150", "--thickness", "19", "--length", "280", "--widths", "20,25", "--layouts", "2", "--time", "5"},
			[]string{"no layout is called proved"}, "not proved", []string{"patterns/layout-1.toml", "--widths 20,25", "[[piece]]"}},
		{[]string{"again", "rookery-square", "--answers", "1"}, []string{"no answer is called proved"}, "", []string{"patterns/rookery-square.toml"}},
	} {
		_, _, honest := stage{home: s.home}.run(t, c.args...)
		out, messages, exit := s.run(t, c.args...)
		if exit != honest {
			t.Errorf("%v: exit %d, stderr %s", c.args, exit, messages)
		}
		for _, text := range c.told {
			if !strings.Contains(messages, text) {
				t.Errorf("%v: %q is not told in %q", c.args, text, messages)
			}
		}
		if !strings.Contains(out, c.stands) {
			t.Errorf("%v: %q is not in %.1000s", c.args, c.stands, out)
		}
		proofs := []string{"the best, proved", `"optimal"`, "nearest first, proved"}
		if c.args[0] == "plan" { // those of layouts were checked each by itself
			proofs = append(proofs, "the least, proved")
		}
		for _, proof := range proofs {
			if strings.Contains(out, proof) {
				t.Errorf("%v: %q is claimed: %.1000s", c.args, proof, out)
			}
		}
		text := report(t, s, messages)
		for _, part := range c.report {
			if !strings.Contains(text, part) {
				t.Errorf("%v: %q is not in the report %.600s", c.args, part, text)
			}
		}
	}
	if page, err := os.ReadFile(sheet); err != nil || strings.Contains(string(page), "the least (proved)") || !strings.Contains(string(page), "not proved the least") {
		t.Errorf("the sheet, %v, does not say that nothing is proved", err)
	}
	// Ways out of a plan that is short.
	s.solvers.Plan = nil
	_, messages, exit := s.run(t, "plan", "rookery-square=9")
	if exit != 1 || !strings.Contains(messages, "ways out are not called complete") {
		t.Errorf("exit %d, %s", exit, messages)
	}
	if text := report(t, s, messages); !strings.Contains(text, "patterns/rookery-square.toml, copies 9") {
		t.Errorf("%.600s", text)
	}
}

// A plan that failed its check is not printed, nor booked, nor put on a sheet.
func TestUnfitPlanIsNotShown(t *testing.T) {
	s := demoStage(t)
	s.solvers.Plan = unfitPlan
	rack := filepath.Join(s.home, "rack.toml")
	before, err := os.ReadFile(rack)
	if err != nil {
		t.Fatal(err)
	}
	sheet := filepath.Join(t.TempDir(), "sheet.html")
	for _, args := range [][]string{{"plan", "rookery-square"}, {"plan", "rookery-square", "--book"}, {"plan", "rookery-square", "--json"}, {"sheet", "rookery-square", "-o", sheet}} {
		out, messages, exit := s.run(t, args...)
		if exit != 3 || out != "" || !strings.Contains(messages, "no plan is shown") {
			t.Errorf("%v: exit %d, %q, %s", args, exit, out, messages)
		}
		if args[len(args)-1] == "--json" {
			var told struct{ Format, Code, Message, Hint string }
			if err := json.Unmarshal([]byte(messages), &told); err != nil || told.Format != "oddments/error 1" || told.Code != "io" {
				t.Errorf("%v: %s", err, messages)
			}
		}
		if text := report(t, s, messages); !strings.Contains(text, "too wide") || !strings.Contains(text, "patterns/rookery-square.toml, copies 1") {
			t.Errorf("%.600s", text)
		}
	}
	if after, err := os.ReadFile(rack); err != nil || string(after) != string(before) {
		t.Errorf("the rack was booked: %v", err)
	}
	if _, err := os.Stat(sheet); err == nil {
		t.Error("a sheet was written")
	}
}

// injected panics, to be looked for in a report.
func injected() { panic("injected in a command") }

// A panic in a command is told in a line, its stack written where there is a home.
func TestPanicOfACommand(t *testing.T) {
	s := demoStage(t)
	s.solvers.Plan = func(context.Context, cutting.Job, solve.Options) (cutting.Plan, error) {
		injected()
		return cutting.Plan{}, nil
	}
	out, messages, exit := s.run(t, "plan", "rookery-square")
	if exit != 3 || out != "" || !strings.Contains(messages, "injected in a command") || strings.Contains(messages, "goroutine") || strings.Contains(messages, ".go:") {
		t.Errorf("exit %d, %q, %s", exit, out, messages)
	}
	if text := report(t, s, messages); !strings.Contains(text, "cli_test.injected") || !strings.Contains(text, "v1.2.3") {
		t.Errorf("%.600s", text)
	}
	// One that the planner has handed on stands there with the stack it began on.
	s.solvers.Plan = func(context.Context, cutting.Job, solve.Options) (cutting.Plan, error) {
		panic(solve.Panic{Value: "handed on", Stack: []byte("inner stack")})
	}
	_, messages, _ = s.run(t, "plan", "rookery-square")
	if text := report(t, s, messages); !strings.Contains(text, "inner stack") || strings.Contains(messages, "inner stack") {
		t.Errorf("%s: %.600s", messages, text)
	}
	// Without a home nothing is written.
	none := stage{home: filepath.Join(t.TempDir(), "none"), solvers: s.solvers}
	_, messages, exit = none.run(t, "plan", filepath.Join(s.home, "patterns", "rookery-square.toml"), "--rack", filepath.Join(s.home, "rack.toml"))
	if _, err := os.Stat(none.home); err == nil || exit != 3 || !strings.Contains(messages, "handed on") {
		t.Errorf("%v, exit %d, %s", err, exit, messages)
	}
}

// A report of a claim that broke holds the files as they are read.
func TestReportIsRead(t *testing.T) {
	s := demoStage(t)
	s.solvers.Plan = brokenPlan
	_, messages, _ := s.run(t, "plan", "rookery-square")
	_, text, found := strings.Cut(report(t, s, messages), "==== asked for: rack.toml\n")
	text, _, _ = strings.Cut(text, "\n==== ")
	got, err := store.ReadRack(strings.NewReader(text), "rack.toml", species.Builtin())
	want, _, err2 := store.OpenHome(s.home).Rack(species.Builtin())
	if !found || err != nil || err2 != nil || !got.Equal(want) {
		t.Errorf("%v, %v, %v", found, err, err2)
	}
}
