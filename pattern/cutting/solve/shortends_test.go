package solve

import (
	"context"
	"math"
	"strings"
	"testing"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
)

func shortEnds(t *testing.T, job cutting.Job) cutting.ShortEnds {
	t.Helper()
	ends, err := cutting.ShortEndsOf(job, func(job cutting.Job) (cutting.Plan, error) {
		return Plan(context.Background(), job, Options{Workers: 2})
	})
	if err != nil {
		t.Fatal(err)
	}
	return ends
}

// Short ends outside come to the optimum that another program proved for strips whole or in
// their own length, never to more than whole ones; a pattern laid so is planned to the same.
// Of some examples strips in their own length alone would draw more: there it says that
// nothing is saved.
func TestShortEndsOfExamples(t *testing.T) {
	saved, worse := 0, 0
	for _, e := range jointExamples(t) {
		job := e.job()
		ends := shortEnds(t, job)
		if want := e.Optima["whole or short ends"]; ends.Then.Short != want.Short || math.Abs(ends.Then.DrawnCM3-want.Drawn) > 0.01 {
			t.Errorf("seed %d: %d short, %.4f cm3; want %+v", e.Seed, ends.Then.Short, ends.Then.DrawnCM3, want)
		}
		if ends.Then.Compare(ends.Now) > 0 || (len(ends.Laid) > 0) != (ends.Then.Compare(ends.Now) < 0) {
			t.Errorf("seed %d: %v to %v with %d strips laid anew", e.Seed, ends.Now.Counted(), ends.Then.Counted(), len(ends.Laid))
		}
		if own, whole := e.Optima["short ends"], e.Optima["whole"]; own.Short >= whole.Short && own.Drawn > whole.Drawn {
			worse++
		}
		text := ends.Saves(length.InMM)
		if len(ends.Laid) == 0 {
			if !strings.HasPrefix(text, "saves nothing: ") {
				t.Errorf("seed %d: %q", e.Seed, text)
			}
			continue
		}
		saved++
		if strings.Contains(text, "nothing") || !strings.Contains(text, " -> ") {
			t.Errorf("seed %d: %q", e.Seed, text)
		}
		for strip, text := range ends.Changes(job.Patterns[0].Pattern, job.Shop, length.InMM) {
			if strip < 1 || !strings.HasPrefix(text, "start 0 mm -> ") {
				t.Errorf("seed %d, strip %d: %q", e.Seed, strip, text)
			}
		}
		now, err := edit.New(job.Patterns[0].Pattern).Lay(ends.Laid)
		if err != nil {
			t.Fatal(err)
		}
		job.Patterns[0].Pattern = now.Pattern
		again, err := Plan(context.Background(), job, Options{Workers: 2})
		if err != nil || again.Compare(ends.Then) > 0 {
			t.Errorf("seed %d: laid so it counts %v, not %v: %v", e.Seed, again.Counted(), ends.Then.Counted(), err)
		}
	}
	if saved == 0 || worse == 0 {
		t.Errorf("%d examples save something, of %d strips in their own length draw more", saved, worse)
	}
}

// A rack without the timber saves nothing, and says that strips are missing.
func TestShortEndsOfNoTimber(t *testing.T) {
	job := jointExamples(t)[0].job()
	job.Rack.Pieces = nil
	if ends := shortEnds(t, job); len(ends.Laid) > 0 || !strings.Contains(ends.Saves(length.InMM), "missing either way") {
		t.Errorf("%d strips laid anew, %q", len(ends.Laid), ends.Saves(length.InMM))
	}
}
