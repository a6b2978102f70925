package mistake_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
)

func at() time.Time { return time.Date(2026, 11, 29, 9, 15, 0, 0, time.UTC) }

// demoJob is two of the demo's patterns from its rack.
func demoJob(t *testing.T) cutting.Job {
	t.Helper()
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	job := cutting.Job{Rack: demo.Rack, Shop: demo.Shop}
	for i, p := range demo.Patterns[:2] {
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: p.Stem, Pattern: p.Pattern, Copies: 2 - i})
	}
	return job
}

// parts takes a report apart: what stands under each heading.
func parts(t *testing.T, file string) map[string]string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for i, text := range strings.Split(string(data), "\n==== ") {
		head, rest, _ := strings.Cut(text, "\n")
		if i == 0 {
			head, rest = "", text
		}
		out[head] = rest
	}
	return out
}

// jobIn reads a job from the parts of a report.
func jobIn(t *testing.T, all map[string]string, what string) cutting.Job {
	t.Helper()
	var job cutting.Job
	var errs [3]error
	job.Shop, errs[0] = store.ReadShop(strings.NewReader(all[what+": shop.toml"]), "shop.toml")
	job.Rack, errs[1] = store.ReadRack(strings.NewReader(all[what+": rack.toml"]), "rack.toml", nil)
	for _, stem := range []string{"rookery-square", "saltings-round", "candle-sill"} {
		for copies := range 3 {
			text, ok := all[fmt.Sprintf("%s: patterns/%s.toml, copies %d", what, stem, copies)]
			if !ok {
				continue
			}
			p, err := store.ReadPattern(strings.NewReader(text), stem+".toml", nil)
			errs[2] = errors.Join(errs[2], err)
			job.Patterns = append(job.Patterns, cutting.Demand{Stem: stem, Pattern: p, Copies: copies})
		}
	}
	if err := errors.Join(errs[:]...); err != nil {
		t.Fatal(err)
	}
	return job
}

// A report has all that the case takes: read again, its job comes to the same plan.
func TestReportRunsAgain(t *testing.T) {
	home := store.OpenHome(t.TempDir())
	own, _ := species.Builtin().Get("hornbeam")
	own.Key, own.Name, own.Letters, own.Also = "hedge_hornbeam", "hedge hornbeam", "HH", nil
	if _, err := home.SaveTimbers([]species.Species{own}, store.Absent); err != nil {
		t.Fatal(err)
	}
	job := demoJob(t)
	inner := job
	inner.Patterns = job.Patterns[:1]
	broken := &cutting.Broken{Kind: cutting.Undercut, Species: "hornbeam", Claimed: 812.5, Found: 790.25, Job: inner}
	told := mistake.Teller{Home: home, Version: "v1.2.3", At: at()}.Claim(broken, mistake.Plan, job, "two patterns")
	if told.Report != filepath.Join(home.Dir(), "recovery", "fault-20261129-091500.txt") || !errors.Is(told, error(broken)) {
		t.Fatalf("%+v", told)
	}
	for _, text := range []string{"not called the best", "checked and can be cut"} {
		if !strings.Contains(told.Error(), text) {
			t.Errorf("%q is not said in %q", text, told)
		}
	}
	if !strings.Contains(told.Where(), told.Report) {
		t.Errorf("%q does not name the report", told.Where())
	}
	all := parts(t, told.Report)
	for _, text := range []string{"oddments v1.2.3", "812.5", "790.25", "hornbeam", "two patterns", told.Error(), "2026-11-29T09:15"} {
		if !strings.Contains(all[""], text) {
			t.Errorf("%q is not in %q", text, all[""])
		}
	}
	if list, err := store.ReadSpecies(strings.NewReader(all["species.toml"]), "species.toml"); err != nil || len(list) != 1 || list[0].Key != own.Key {
		t.Errorf("%v, %v", list, err)
	}
	for what, want := range map[string]cutting.Job{"asked for": job, "at work": inner} {
		again := jobIn(t, all, what)
		if len(again.Patterns) != len(want.Patterns) {
			t.Fatalf("%s: %d patterns in %v", what, len(again.Patterns), reflect.ValueOf(all).MapKeys())
		}
		plan, err := solve.Plan(t.Context(), again, solve.Options{})
		first, err2 := solve.Plan(t.Context(), want, solve.Options{})
		if err != nil || err2 != nil || plan.DrawnCM3 != first.DrawnCM3 || !reflect.DeepEqual(plan.Cuts, first.Cuts) {
			t.Errorf("%s: %v cm3, was %v; %v, %v", what, plan.DrawnCM3, first.DrawnCM3, err, err2)
		}
	}
	// The job that is asked for is written once.
	broken.Job = job
	told = mistake.Teller{Home: home, At: at()}.Claim(broken, mistake.None, job, "")
	if all := parts(t, told.Report); all["at work: rack.toml"] != "" || !strings.Contains(told.Error(), "no plan is shown") {
		t.Errorf("%v: %v", told, reflect.ValueOf(all).MapKeys())
	}
}

// Whatever is shown, the error says what is not claimed; without a report it says so.
func TestWithdrawnInWords(t *testing.T) {
	seen := map[string]bool{}
	for _, shown := range []mistake.Shown{mistake.None, mistake.Plan, mistake.Ways, mistake.Layouts, mistake.Answers, mistake.Counts} {
		text := (&mistake.Withdrawn{Shown: shown}).Error()
		if seen[text] || !strings.Contains(text, "mistake in oddments") {
			t.Errorf("%d: %q", shown, text)
		}
		seen[text] = true
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o644); err != nil {
		t.Fatal(err)
	}
	told := mistake.Teller{Home: store.OpenHome(file), At: at()}.Claim(errors.New("x"), mistake.Plan, cutting.Job{}, "")
	if told.Report != "" || told.Failed == nil || !strings.Contains(told.Where(), "could not be saved") {
		t.Errorf("%+v: %s", told, told.Where())
	}
}

// A panic that was handed on is reported with the stack that it began on.
func TestPanic(t *testing.T) {
	home := store.OpenHome(t.TempDir())
	err := mistake.Teller{Home: home, At: at()}.Panic(solve.Panic{Value: "injected", Stack: []byte("inner stack")}, []byte("outer stack"))
	var told *mistake.Panic
	if !errors.As(err, &told) || told.What != "injected" || !strings.Contains(told.Error(), told.Report) {
		t.Fatalf("%v", err)
	}
	if text := parts(t, told.Report)[""]; !strings.Contains(text, "inner stack") || strings.Contains(text, "outer stack") {
		t.Errorf("%q", text)
	}
	err = mistake.Teller{Home: home, At: at()}.Panic("plain", []byte("its stack"))
	if !errors.As(err, &told) || !strings.Contains(parts(t, told.Report)[""], "its stack") || !strings.HasSuffix(told.Report, "-2.txt") {
		t.Errorf("%v", err)
	}
}
