package screen

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
)

// MostCopies is how many copies of a pattern may be made at a time.
const MostCopies = 10_000

// A Batch is what is made together.
type Batch struct {
	Copies   int        // of the bench's pattern; 0 stands for 1
	With     []Together // planned together with it
	AnyRings bool       // timber serves whatever its rings
	Join     Join       // where strips may be parted
}

// A Join says where a plan may part strips. The zero value is Whole.
type Join int

// The rules for parting strips.
const (
	Whole    Join = iota // the strips as the patterns have them
	Bricks               // no neighbours in one gap
	AnyJoint             // in every gap
	InOne                // not at all; they are whole or as long as their products need
)

// Next returns the rule that a key goes on to.
func (j Join) Next() Join { return (j + 1) % (InOne + 1) }

// Says says what a plan does by the rule.
func (j Join) Says() string {
	switch j {
	case Bricks:
		return "strips in pieces where that draws less, joints as bricks"
	case AnyJoint:
		return "strips in pieces where that draws less, joints in any gap"
	case InOne:
		return "short ends outside: strips whole or as long as their products need"
	default:
		return "strips as the pattern has them"
	}
}

// of returns job with its strips to be parted so. Products that cannot be laid leave them
// whole.
func (j Join) of(job cutting.Job) cutting.Job {
	var err error
	joined := job
	switch j {
	case Bricks:
		joined, err = job.Joined(joints.Even, true)
	case AnyJoint:
		joined, err = job.Joined(joints.Anywhere, false)
	case InOne:
		joined, err = job.Joined(joints.Ends, false)
	}
	if err != nil {
		return job
	}
	return joined
}

// A Together is a saved pattern that is made in the same batch.
type Together struct {
	Saved  store.Saved
	Copies int
}

// Made returns how many copies of the bench's pattern are made: 1 or more.
func (b Batch) Made() int { return max(1, b.Copies) }

// More returns b with so many copies more of the bench's pattern, or an error in words
// where there may not be so many.
func (b Batch) More(by int) (Batch, error) {
	n := b.Made() + by
	if n < 1 || n > MostCopies {
		return b, fmt.Errorf("copies: from 1 to %d", MostCopies)
	}
	b.Copies = n
	return b, nil
}

// Unsaved returns how many of the others are in no file.
func (b Batch) Unsaved() (n int) {
	for _, w := range b.With {
		if w.Saved.Version == store.Absent {
			n++
		}
	}
	return n
}

// Saved returns b with what was saved under a stem since.
func (b Batch) Saved(stem string, p pattern.Pattern, v store.Version) Batch {
	b.With = slices.Clone(b.With)
	for i := range b.With {
		if b.With[i].Saved.Stem == stem {
			b.With[i].Saved.Pattern, b.With[i].Saved.Version = p, v
		}
	}
	return b
}

// A Stamp tells one state of what is planned from another.
type Stamp struct {
	Stem           string // that the bench's pattern goes by
	Pattern, Rack  int    // revisions
	Shop           int    // likewise
	Copies, Others int
	AnyRings       bool
	Join           Join
}

// Made returns the stamp of the same state made in batch b.
func (s Stamp) Made(b Batch) Stamp {
	others := 0
	for _, w := range b.With {
		others = others*31 + w.Copies
	}
	s.Copies, s.Others, s.AnyRings, s.Join = b.Made(), others*31+len(b.With), b.AnyRings, b.Join
	return s
}

// A Plan is a stock plan with the state that it is of.
type Plan struct {
	Have    bool
	Of      Stamp
	Job     cutting.Job // what it is for
	Plan    cutting.Plan
	Details []worksteps.Detail // of its cuts
	Looks   []booking.Look     // whose end grain to look at, by it
	Told    *mistake.Withdrawn // a claim of it that broke; nil: none did
}

// Planned reports whether there is a plan of the present state.
func (ctx Context) Planned() bool { return ctx.Plan.Have && ctx.Plan.Of == ctx.Stamp }

// PlanJob returns the job that a plan would be for now.
func (ctx Context) PlanJob() cutting.Job {
	j := cutting.Job{Rack: ctx.Rack, Shop: ctx.Physics.Shop(), Patterns: ctx.Demands()}
	if ctx.Batch.AnyRings {
		j = j.AnyRings()
	}
	return ctx.Batch.Join.of(j)
}

// Demands returns what is made together, as the patterns are.
func (ctx Context) Demands() []cutting.Demand {
	all := []cutting.Demand{{Stem: ctx.Stamp.Stem, Pattern: ctx.State.Pattern, Copies: ctx.Batch.Made()}}
	for _, w := range ctx.Batch.With {
		all = append(all, cutting.Demand{Stem: w.Saved.Stem, Pattern: w.Saved.Pattern, Copies: w.Copies})
	}
	return all
}

// WorkJob returns the job of the pattern on the bench: as many copies as are planned, its
// products laid as they lie, with what is held by hand where it is held. Where they cannot
// be laid it says why, and the rest of the job is good.
func (ctx Context) WorkJob(held []outline.Fixed) (work.Job, error) {
	return work.JobOn(ctx.Physics, ctx.State.Pattern, ctx.Batch.Made(), ctx.Report.Figures.Board, held)
}

// Gathered returns ctx with b made together.
func (ctx Context) Gathered(b Batch) Context {
	ctx.Batch = b
	ctx.Stamp = ctx.Stamp.Made(b)
	return ctx
}

// Made says what is made together, and how many times: of three or more that are made as often,
// that once.
func (ctx Context) Made() string {
	names, alike := []string{ctx.Title}, len(ctx.Batch.With) > 1
	for _, w := range ctx.Batch.With {
		names = append(names, w.Saved.Pattern.Name)
		alike = alike && w.Copies == ctx.Batch.Made()
	}
	if alike {
		return tell.Count(len(names), "pattern") + ", each made " + tell.Times(ctx.Batch.Made()) + ": " + tell.List(names, "and")
	}
	made := []string{times(ctx.Title, ctx.Batch.Made())}
	for _, w := range ctx.Batch.With {
		made = append(made, times(w.Saved.Pattern.Name, w.Copies))
	}
	return strings.Join(made, "   with   ")
}

func times(name string, copies int) string { return name + ", made " + tell.Times(copies) }
