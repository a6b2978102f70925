package cli_test

import (
	"context"
	"strings"
	"testing"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
)

// That the time ran out is said where the search says so, though the command's own time,
// of which some is kept for the plans, has not ended yet; and nowhere else.
func TestLate(t *testing.T) {
	for _, stopped := range []bool{true, false} {
		s := demoStage(t)
		s.solvers = command.Solvers{
			Suggest: func(context.Context, movement.Physics, suggest.Request, suggest.Options) (suggest.Result, error) {
				return suggest.Result{Status: suggest.Open, Stopped: stopped}, nil
			},
			Again: func(context.Context, movement.Physics, remake.Request, suggest.Options) (remake.Result, error) {
				return remake.Result{Status: suggest.Open, Stopped: stopped}, nil
			},
		}
		for _, args := range [][]string{
			{"suggest", "--width", "300", "--thickness", "19", "--length", "255", "--time", "2"},
			{"again", "rookery-square", "--time", "2"},
		} {
			out, messages, exit := s.run(t, args...)
			if said := strings.Contains(out, "time: the 2 s ran out"); exit != 1 || said != stopped {
				t.Errorf("%s, stopped %v: exit %d\n%s%s", args[0], stopped, exit, out, messages)
			}
		}
	}
}

// Where the time ran out before enough strips were found, rack list exits as plan does
// with strips short; where enough were found, more time would not change that.
func TestLateCountsAreNotEnough(t *testing.T) {
	for have, want := range map[int]int{0: 1, 7: 1, 8: 0} {
		s := demoStage(t)
		s.solvers = command.Solvers{Yields: func(context.Context, cutting.Job) ([]solve.Supply, []solve.Yield, error) {
			return []solve.Supply{{Species: "hornbeam", Need: 8, Have: have, AtLeast: true}}, nil, nil
		}}
		if out, messages, exit := s.run(t, "rack", "list", "--for", "rookery-square"); exit != want || !strings.Contains(out, "hornbeam: 8 strips needed") {
			t.Errorf("%d of 8: exit %d\n%s%s", have, exit, out, messages)
		}
	}
}
