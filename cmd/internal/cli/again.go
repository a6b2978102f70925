package cli

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/tell"
)

const againLong = `again makes last year's pattern from this year's pile: each timber of it gets
one timber of the rack, no two the same, as near to the old look as there is.
Strips keep their place, width and rings. The answers come in order, the one
that is least away first: away is the width of each strip times the difference
of the oiled colours, was and now, added up.

Every answer has its stock plan for N panels, nothing short. No glue line is
worse than --level, and neighbours of two timbers differ by at least the
contrast in [limits] of the shop. A strip takes the moisture of its new timber,
the mean of its readings on the rack.

--save writes the first answer down as a new pattern, or the one that --take
says; the old pattern stays as it is, and a name that is taken gets a number.

The exit is 1 where there is no answer; then it is said what to loosen, as far
as that is found out in 2 s. When --time runs out the answers so far are
printed, and what is not proved says so.`

const defaultAnswers = 5

type againFlags struct {
	level   levelFlag
	answers int
	keep    keepFlags
}

func (a *app) againCommand() *cobra.Command {
	f := &againFlags{level: levelFlag(suggest.DefaultLevel), answers: defaultAnswers}
	cmd := &cobra.Command{
		Use:         "again PATTERN[=N]",
		Short:       "make a pattern again from the timber of this rack",
		Long:        againLong,
		Example:     "  oddments again rookery-square\n  oddments again saltings-round=4 --level fine --json\n  oddments again ./gifts/trivet.toml --rack ./pile.csv --save \"Trivet of this year\" --take 2",
		Annotations: jsonToo(),
		Args: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil {
				return err
			}
			return f.keep.check(cmd, f.answers)
		},
		RunE:              func(cmd *cobra.Command, args []string) error { return a.again(cmd, args[0], f) },
		ValidArgsFunction: a.completeOnePattern,
	}
	to := cmd.Flags()
	to.SortFlags = false
	to.Var(&f.level, "level", "worst level of a glue line: fine, take care or too much")
	to.Var(&countFlag{&f.answers, mostLayouts}, "answers", "how many")
	f.keep.add(to, "answer")
	completeValues(cmd, "level", levels())
	return cmd
}

func (a *app) again(cmd *cobra.Command, arg string, f *againFlags) error {
	if f.keep.name != "" {
		a.hold()
	}
	began := time.Now()
	ctx, stop := a.bounded(cmd.Context(), began)
	defer stop()
	w, err := a.workshop()
	if err != nil {
		return err
	}
	job, saved, err := a.jobOf(w, []string{arg})
	if err != nil {
		return err
	}
	if len(saved[0].Pattern.Strips) == 0 {
		return &problem{Code: codeBadFile, File: saved[0].File, Message: "a draft without strips: there is nothing to make again"}
	}
	ask := remake.Request{Pattern: saved[0].Pattern, Stem: saved[0].Stem, Copies: job.Patterns[0].Copies, Rack: job.Rack,
		Level: pattern.Level(f.level), Answers: f.answers}
	answer, err := a.env.Solvers.Again(ctx, w.physics(), ask, suggest.Options{})
	if err != nil {
		return usage(helpHint(cmd), "%v", err)
	}
	if len(answer.Answers) == 0 {
		a.worsen(exitMuch)
	}
	a.tellBroken(w.home, answer.Broken, mistake.Answers, job)
	if a.json {
		_, _ = a.out.WriteString(jsonLine(againOf(w, ask, answer, time.Since(began).Seconds())))
	} else {
		t := againText{app: a, workshop: w, saved: saved[0], ask: ask, answer: answer, unit: a.unit(w.shop), late: answer.Stopped}
		t.print()
		if answer.Status == suggest.Infeasible {
			_ = a.out.Flush() // what fails here fails again at the end
			t.loosen(ctx)
		}
	}
	var patterns []pattern.Pattern
	for _, s := range answer.Answers {
		patterns = append(patterns, s.Fresh())
	}
	return a.keep(w, f.keep, "answer", patterns)
}

// The JSON of the ways to make a pattern again.
type (
	againJSON struct {
		Format  string     `json:"format"`
		Status  string     `json:"status"`
		Answers []sameJSON `json:"answers"`
	}
	sameJSON struct {
		Away             float64           `json:"away"`
		Timbers          map[string]string `json:"timbers"`
		Level            string            `json:"level"`
		SmallestContrast float64           `json:"smallest_contrast"`
		Plan             planJSON          `json:"plan"`
	}
)

func againOf(w workshop, ask remake.Request, answer remake.Result, seconds float64) againJSON {
	out := againJSON{Format: "oddments/again 1", Status: statusJSON(answer.Status), Answers: []sameJSON{}}
	for _, s := range answer.Answers {
		out.Answers = append(out.Answers, sameJSON{s.ColourDistance, s.Timbers, s.Level.String(), s.SmallestContrast,
			w.planOf(ask.Job(w.physics(), s), s.Plan, seconds)})
	}
	return out
}

// againText prints the answers in plain words, one fact a line.
type againText struct {
	*app
	workshop workshop
	saved    store.Saved
	ask      remake.Request
	answer   remake.Result
	unit     length.Unit
	late     bool // the time ran out
}

func (t againText) print() {
	t.sayPattern(t.saved)
	t.say("panels: %d", t.ask.Copies)
	t.say("rules: each timber becomes one of the rack, no two the same; glue lines at most %q; neighbours of two timbers with a contrast of %g or more; nothing short",
		t.ask.Level, t.workshop.shop.Limits.Contrast)
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
		t.say("answers: none, and that is proved: no timbers of the rack do all this")
	case n == 0:
		t.say("answers: none was found, and it is not proved that there is none")
	case t.answer.Status == suggest.Optimal && n < t.ask.Answers:
		t.say("answers: %d, proved, and there is no other", n)
	case t.answer.Status == suggest.Optimal:
		t.say("answers: %d, the nearest first, proved", n)
	default:
		t.say("answers: %d, the nearest that were found first, not proved", n)
	}
	t.sayLate(t.late, t.answer.Status)
}

// loosen says what to loosen, as far as that is found out soon.
func (t againText) loosen(ctx context.Context) {
	soon, end := context.WithTimeout(ctx, suggest.LoosenFor)
	defer end()
	ways := remake.Loosen(soon, t.workshop.physics(), t.ask)
	if ways.Level != nil {
		t.say("loosen: glue lines up to %q would do", *ways.Level)
	}
	if ways.Copies > 0 {
		t.say("loosen: %s would do", tell.Count(ways.Copies, "panel"))
	}
	switch {
	case soon.Err() != nil && ctx.Err() == nil:
		t.say("loosen: looked for %g s only; more timber on the rack may bring one too", suggest.LoosenFor.Seconds())
	case ways.Level == nil && ways.Copies == 0:
		t.say("loosen: no other --level and no fewer panels alone would do; more timber on the rack may bring one")
	}
}

func (t againText) same(i int) {
	s := t.answer.Answers[i]
	t.say("answer %d: %.1f away in colour in the mean of its width, %s", i+1, s.AwayEach(), t.changes(s))
	for _, was := range slices.Sorted(maps.Keys(s.Timbers)) {
		if now := s.Timbers[was]; now != was {
			t.say("answer %d, timber: %s becomes %s", i+1, t.workshop.name(was), t.workshop.name(now))
		} else {
			t.say("answer %d, timber: %s stays", i+1, t.workshop.name(was))
		}
	}
	if len(s.Timbers) > 1 {
		t.say("answer %d, contrast: smallest %.2f", i+1, s.SmallestContrast)
	}
	if len(s.Pattern.Strips) > 1 {
		line := t.workshop.physics().Worst(s.Pattern)
		t.say("answer %d, %s", i+1, worstText(s.Level, line, t.unit))
	}
	for _, text := range planInShort(t.ask.Job(t.workshop.physics(), s), s.Plan, false, t.unit) {
		t.say("answer %d, %s", i+1, text)
	}
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
