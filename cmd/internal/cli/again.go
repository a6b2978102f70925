package cli

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
)

const defaultAnswers = 5

type againFlags struct {
	level   pattern.Level
	answers int
	keep    command.KeepFlags
}

func (a *app) againCommand() *cobra.Command {
	f := &againFlags{level: suggest.DefaultLevel, answers: defaultAnswers}
	cmd := a.command("again", task{json: "oddments/again 1", complete: a.completeOnePattern,
		takes: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil {
				return err
			}
			return f.keep.Check(cmd, f.answers)
		},
		errand: func(ctx context.Context, w workshop, args []string) error { return w.again(ctx, args[0], f) }})
	to := cmd.Flags()
	to.SortFlags = false
	addLevel(cmd, &f.level)
	typed.Flag(to, &f.answers, "answers", "N", strconv.Itoa(f.answers), typed.Count(mostLayouts), "how many")
	f.keep.Add(to, "answer", mostLayouts)
	return cmd
}

func (w workshop) again(ctx context.Context, arg string, f *againFlags) error {
	if f.keep.Name != "" {
		w.Hold()
	}
	job, saved, err := w.JobOf([]string{arg})
	if err != nil {
		return err
	}
	if len(saved[0].Pattern.Strips) == 0 {
		return &failure.Problem{Code: failure.CodeBadFile, File: saved[0].File, Message: "a draft without strips: there is nothing to make again"}
	}
	ask := remake.Request{Pattern: saved[0].Pattern, Stem: saved[0].Stem, Copies: job.Patterns[0].Copies, Rack: job.Rack,
		Level: f.level, Answers: f.answers}
	answer, err := w.Env.Solvers.Again(ctx, w.Physics(), ask, suggest.Options{})
	if err != nil {
		return failure.Usage(helpOf("oddments again"), "%v", err)
	}
	if len(answer.Answers) == 0 {
		w.Worsen(command.ExitMuch)
	}
	w.TellBroken(w.Home, answer.Broken, mistake.Answers, job)
	if w.AsJSON {
		w.JSON(w.againJSON(ask, answer))
	} else {
		t := againText{w, saved[0], ask, answer}
		t.print()
		if len(answer.Answers) == 0 && !answer.Stopped {
			w.Send()
			t.loosen(ctx)
		}
	}
	var patterns []pattern.Pattern
	for _, s := range answer.Answers {
		patterns = append(patterns, s.Fresh())
	}
	return w.Keep(f.keep, "answer", patterns)
}

func (w workshop) againJSON(ask remake.Request, answer remake.Result) result.Object {
	return result.Object{{"format", "oddments/again 1"}, {"status", statusJSON(answer.Status)},
		{"answers", result.Each(answer.Answers, func(s remake.Way) result.Object {
			return result.Object{{"away", s.ColourDistance}, {"timbers", s.Timbers}, {"level", s.Level}, {"smallest_contrast", s.SmallestContrast},
				{"plan", w.planJSON(ask.Job(w.Physics(), s), s.Plan, worksteps.ByPiece)}}
		})}}
}

// againText prints the answers in plain words, one fact a row.
type againText struct {
	workshop
	saved  store.Saved
	ask    remake.Request
	answer remake.Result
}

func (t againText) print() {
	t.SayPattern(t.saved)
	t.Fact("panels", "%d", t.ask.Copies)
	t.Fact("rules", "each timber becomes one of the rack, no two the same; glue lines up to %q; "+
		"neighbours of two timbers with a contrast of %g or more; nothing short", t.ask.Level, t.Shop.Limits.Contrast)
	t.found()
	for i := range t.answer.Answers {
		t.same(i)
	}
}

// found says how many answers there are, and how sure that is.
func (t againText) found() {
	n := len(t.answer.Answers)
	switch {
	case n == 0 && t.answer.Status == suggest.Infeasible:
		t.Fact("answers", "none: no timbers of the rack can meet all of this (proved)")
	case n == 0:
		t.Fact("answers", "none found; not proved that there is none")
	case t.answer.Status == suggest.Optimal && n < t.ask.Answers:
		t.Fact("answers", "%d, proved, there is no other", n)
	case t.answer.Status == suggest.Optimal:
		t.Fact("answers", "%d, the closest first, proved", n)
	default:
		t.Fact("answers", "%d, the closest found first, not proved", n)
	}
	t.sayLate(t.answer.Stopped, t.answer.Status)
}

// loosen says what to loosen, as far as that is found out soon.
func (t againText) loosen(ctx context.Context) {
	soon, end := context.WithTimeout(ctx, suggest.LoosenFor)
	defer end()
	ways := remake.Loosen(soon, t.Physics(), t.ask, t.answer.Status == suggest.Infeasible)
	for _, way := range ways.Say() {
		t.Fact("loosen", "%s", way)
	}
	switch {
	case soon.Err() != nil && ctx.Err() == nil:
		t.Fact("loosen", "searched for %g s only; more timber on the rack may help too", suggest.LoosenFor.Seconds())
	case ways.Level == nil && ways.Copies == 0:
		t.Fact("loosen", "no other --level and no fewer panels alone are enough; more timber on the rack may help")
	}
}

func (t againText) same(i int) {
	s := t.answer.Answers[i]
	answer := t.Of("answer %d", i+1)
	answer.Fact("", "average colour difference %.1f, %s", s.AwayEach(), t.changes(s))
	for _, was := range slices.Sorted(maps.Keys(s.Timbers)) {
		now := s.Timbers[was]
		answer.Fact("timber", "%s %s", t.Name(was), command.Or(now == was, "stays", "becomes "+t.Name(now)))
	}
	if len(s.Timbers) > 1 {
		answer.Fact("contrast", "weakest %.1f", s.SmallestContrast)
	}
	if len(s.Pattern.Strips) > 1 {
		worst(answer, s.Level, t.Physics(), s.Pattern, t.Unit)
	}
	planInShort(answer, t.ask.Job(t.Physics(), s), s.Plan, false, t.Unit)
}

// changes says how many of the timbers are others.
func (t againText) changes(s remake.Way) string {
	n := 0
	for was, now := range s.Timbers {
		if was != now {
			n++
		}
	}
	if n == 0 {
		return "all timbers the same"
	}
	return fmt.Sprintf("%d of %s replaced", n, tell.Count(len(s.Timbers), "timber"))
}
