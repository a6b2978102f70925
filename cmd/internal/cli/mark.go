package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
)

type markFlags struct {
	shortEnds, apply bool
	edits            markEdits
}

func (a *app) markCommand() *cobra.Command {
	var flags markFlags
	cmd := a.command("mark", task{json: "oddments/mark 1", complete: a.completeOnePattern,
		takes: func(cmd *cobra.Command, args []string) error {
			if err := onePattern(cmd, args); err != nil || !flags.apply || flags.shortEnds {
				return err
			}
			return failure.Usage("write --short-ends --apply", "--apply has no effect without --short-ends")
		},
		errand: func(ctx context.Context, w workshop, args []string) error { return w.mark(ctx, args[0], flags) }})
	cmd.Flags().BoolVar(&flags.shortEnds, "short-ends", false, "plan which strips draw less as short as their products need")
	cmd.Flags().BoolVar(&flags.apply, "apply", false, "with --short-ends: save them in the pattern")
	flags.edits.flags(cmd.Flags())
	return cmd
}

// A marking is what mark prints.
type marking struct {
	workshop
	saved store.Saved
	job   work.Job
	ends  cutting.ShortEnds // where they are asked for
}

func (w workshop) mark(ctx context.Context, arg string, flags markFlags) error {
	if flags.apply {
		w.Hold()
	}
	saved, err := w.Open(arg)
	if err != nil {
		return err
	}
	if flags.edits.any() {
		if saved, err = w.markEdited(arg, saved, flags.edits); err != nil {
			return err
		}
	}
	job, err := w.Job(saved, 1)
	if err != nil {
		return err
	}
	m := marking{workshop: w, saved: saved, job: job}
	if flags.apply {
		if err := m.refuseToApply(); err != nil {
			return err
		}
	}
	if flags.shortEnds {
		if m.ends, err = m.ShortEnds(ctx, saved); err != nil {
			return err
		}
	}
	if len(work.Misfits(job, m.Unit)) > 0 {
		w.Worsen(command.ExitMuch)
	}
	if w.AsJSON {
		w.JSON(result.Mark(m.Physics(), m.saved.Stem, m.job))
	} else {
		m.print(flags.shortEnds)
	}
	if flags.apply {
		return m.applyShortEnds()
	}
	return nil
}

func (m marking) print(shortEnds bool) {
	m.SayPattern(m.saved)
	lines := work.MarkLines(m.Physics(), m.job, m.Unit)
	if len(m.job.Products) == 0 {
		lines = append(lines, work.Line{What: "to list one", Text: fmt.Sprintf("oddments mark %s --add \"round 290 x2 bevel 8\"", m.saved.Stem)})
	}
	if shortEnds {
		for strip, text := range m.ends.Changes(m.saved.Pattern, m.Shop, m.Unit) {
			lines = append(lines, work.Line{Of: "short ends", What: fmt.Sprintf("strip %d", strip), Text: text})
		}
		lines = append(lines, work.Line{What: "short ends", Text: m.ends.Saves(m.Unit)})
		if product := work.Staggered(m.job.Layout); product > 0 {
			lines = append(lines, work.Line{What: "short ends", Text: fmt.Sprintf("product %d is in staggered rows, which need straight ends: do not shorten the strips", product)})
		}
	}
	for _, line := range lines {
		if line.Of == "" {
			line.Of, line.What = line.What, ""
		}
		m.Of("%s", line.Of).Fact(line.What, "%s", line.Text)
	}
}

// refuseToApply says why the short ends must not go into the pattern.
func (m marking) refuseToApply() error {
	if product := work.Staggered(m.job.Layout); product > 0 {
		return failure.Usage("ask for no more copies than straight rows hold",
			"--apply: product %d is in staggered rows, which need straight ends", product)
	}
	return nil
}

// applyShortEnds saves the pattern with those strips shorter that draw less so.
func (m marking) applyShortEnds() error {
	if len(m.ends.Laid) == 0 {
		m.Fact("saved", "nothing, the strips stay as they are")
		return nil
	}
	now, err := edit.New(m.saved.Pattern).Lay(m.ends.Laid)
	if err != nil {
		return err
	}
	return m.KeepPattern(m.saved, now.Pattern)
}

// markEdits are the changes to what is cut out of a panel, in the order of the flags
// below: what goes first, so that the numbers are those that were printed before.
type markEdits struct {
	dropKnot, drop int
	knots, add     []string
}

func (e *markEdits) flags(to *pflag.FlagSet) {
	to.StringArrayVar(&e.add, "add", nil, "add the product of `LINE`, again for others")
	to.IntVar(&e.drop, "drop", 0, "remove product `N`")
	to.StringArrayVar(&e.knots, "knot", nil, "keep products clear of a `KNOT`, like \"210, 96, 8\"; again for others")
	to.IntVar(&e.dropKnot, "drop-knot", 0, "remove knot `N`")
}

func (e *markEdits) any() bool { return e.drop != 0 || e.dropKnot != 0 || len(e.add)+len(e.knots) > 0 }

// A change is one hand move.
type change func(edit.State) (edit.State, error)

// make makes the changes, and refuses them all where one cannot be.
func (e *markEdits) make(s edit.State) (edit.State, error) {
	var err error
	step := func(flag string, do change) {
		if err != nil {
			return
		}
		next, wrong := do(s)
		if wrong != nil {
			err = failure.Usage(command.UnchangedPattern, "--%s: %v", flag, wrong)
			return
		}
		s = next
	}
	if e.dropKnot != 0 {
		step("drop-knot", func(s edit.State) (edit.State, error) { return edit.DropAvoid(s, e.dropKnot-1) })
	}
	if e.drop != 0 {
		step("drop", func(s edit.State) (edit.State, error) { return edit.DropProduct(s, e.drop-1) })
	}
	for _, line := range e.knots {
		step("knot", added(line, outline.ParseKnot, edit.AddAvoid))
	}
	for _, line := range e.add {
		step("add", added(line, outline.ParseLine, edit.AddProduct))
	}
	return s, err
}

// added returns the change that adds what a line says, which parse takes apart.
func added[T any](line string, parse func(string, length.Unit) (T, error), add func(edit.State, T) (edit.State, error)) change {
	return func(s edit.State) (edit.State, error) {
		if err := command.OneLine(line); err != nil {
			return s, fmt.Errorf("%q: %w", line, err)
		}
		what, err := parse(line, length.InMM)
		if err != nil {
			return s, err
		}
		return add(s, what)
	}
}

// markEdited makes and saves the changes to saved, and reads it again.
func (w workshop) markEdited(arg string, saved store.Saved, e markEdits) (store.Saved, error) {
	next, err := e.make(edit.State{Pattern: saved.Pattern})
	if err != nil {
		return saved, err
	}
	if err := w.KeepPattern(saved, next.Pattern); err != nil {
		return saved, err
	}
	again, err := w.Home.OpenPattern(arg, w.Table)
	if err != nil {
		return saved, fmt.Errorf("read again: %w", err)
	}
	return again, nil
}
