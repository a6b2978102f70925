package cli

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strconv"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/tell"
)

const defaultAnswers = 5

type againFlags struct {
	level   pattern.Level
	answers int
	keep    keepFlags
}

func (a *app) againCommand() *cobra.Command {
	f := &againFlags{level: suggest.DefaultLevel, answers: defaultAnswers}
	cmd := a.command("again", task{json: "oddments/again 1", complete: a.completeOnePattern,
		takes: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil {
				return err
			}
			return f.keep.check(cmd, f.answers)
		},
		errand: func(ctx context.Context, w workshop, args []string) error { return w.again(ctx, args[0], f) }})
	to := cmd.Flags()
	to.SortFlags = false
	addLevel(cmd, &f.level)
	typed.Flag(to, &f.answers, "answers", "N", strconv.Itoa(f.answers), typed.Count(mostLayouts), "how many")
	f.keep.add(to, "answer")
	return cmd
}

func (w workshop) again(ctx context.Context, arg string, f *againFlags) error {
	if f.keep.name != "" {
		w.hold()
	}
	job, saved, err := w.jobOf([]string{arg})
	if err != nil {
		return err
	}
	if len(saved[0].Pattern.Strips) == 0 {
		return &failure.Problem{Code: failure.CodeBadFile, File: saved[0].File, Message: "a draft without strips: there is nothing to make again"}
	}
	ask := remake.Request{Pattern: saved[0].Pattern, Stem: saved[0].Stem, Copies: job.Patterns[0].Copies, Rack: job.Rack,
		Level: f.level, Answers: f.answers}
	answer, err := w.env.Solvers.Again(ctx, w.physics(), ask, suggest.Options{})
	if err != nil {
		return failure.Usage(helpOf("oddments again"), "%v", err)
	}
	if len(answer.Answers) == 0 {
		w.worsen(exitMuch)
	}
	w.tellBroken(w.home, answer.Broken, mistake.Answers, job)
	if w.asJSON {
		w.json(w.againJSON(ask, answer))
	} else {
		t := againText{w, saved[0], ask, answer}
		t.print()
		if answer.Status == suggest.Infeasible {
			w.send()
			t.loosen(ctx)
		}
	}
	var patterns []pattern.Pattern
	for _, s := range answer.Answers {
		patterns = append(patterns, s.Fresh())
	}
	return w.keep(f.keep, "answer", patterns)
}

func (w workshop) againJSON(ask remake.Request, answer remake.Result) result.Object {
	return result.Object{{"format", "oddments/again 1"}, {"status", statusJSON(answer.Status)},
		{"answers", result.Each(answer.Answers, func(s remake.Way) result.Object {
			return result.Object{{"away", s.ColourDistance}, {"timbers", s.Timbers}, {"level", s.Level}, {"smallest_contrast", s.SmallestContrast},
				{"plan", w.planJSON(ask.Job(w.physics(), s), s.Plan)}}
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
	t.sayPattern(t.saved)
	t.fact("panels", "%d", t.ask.Copies)
	t.fact("rules", "each timber becomes one of the rack, no two the same; glue lines at most %q; "+
		"neighbours of two timbers with a contrast of %g or more; nothing short", t.ask.Level, t.shop.Limits.Contrast)
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
		t.fact("answers", "none, and that is proved: no timbers of the rack do all this")
	case n == 0:
		t.fact("answers", "none was found, and it is not proved that there is none")
	case t.answer.Status == suggest.Optimal && n < t.ask.Answers:
		t.fact("answers", "%d, proved, and there is no other", n)
	case t.answer.Status == suggest.Optimal:
		t.fact("answers", "%d, the nearest first, proved", n)
	default:
		t.fact("answers", "%d, the nearest that were found first, not proved", n)
	}
	t.sayLate(t.answer.Stopped, t.answer.Status)
}

// loosen says what to loosen, as far as that is found out soon.
func (t againText) loosen(ctx context.Context) {
	soon, end := context.WithTimeout(ctx, suggest.LoosenFor)
	defer end()
	ways := remake.Loosen(soon, t.physics(), t.ask)
	if ways.Level != nil {
		t.fact("loosen", "glue lines up to %q would do", *ways.Level)
	}
	if ways.Copies > 0 {
		t.fact("loosen", "%s would do", tell.Count(ways.Copies, "panel"))
	}
	switch {
	case soon.Err() != nil && ctx.Err() == nil:
		t.fact("loosen", "looked for %g s only; more timber on the rack may bring one too", suggest.LoosenFor.Seconds())
	case ways.Level == nil && ways.Copies == 0:
		t.fact("loosen", "no other --level and no fewer panels alone would do; more timber on the rack may bring one")
	}
}

func (t againText) same(i int) {
	s := t.answer.Answers[i]
	answer := t.of("answer %d", i+1)
	answer.fact("", "%.1f away in colour in the mean of its width, %s", s.AwayEach(), t.changes(s))
	for _, was := range slices.Sorted(maps.Keys(s.Timbers)) {
		now := s.Timbers[was]
		answer.fact("timber", "%s %s", t.name(was), or(now == was, "stays", "becomes "+t.name(now)))
	}
	if len(s.Timbers) > 1 {
		answer.fact("contrast", "smallest %.2f", s.SmallestContrast)
	}
	if len(s.Pattern.Strips) > 1 {
		answer.worst(s.Level, t.physics().Worst(s.Pattern), t.unit)
	}
	answer.planInShort(t.ask.Job(t.physics(), s), s.Plan, false, t.unit)
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
		return "all of it as it was"
	}
	return fmt.Sprintf("%d of %s replaced", n, tell.Count(len(s.Timbers), "timber"))
}
