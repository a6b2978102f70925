package cli

import (
	"context"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/worksteps"
)

const planLong = `plan says how to cut the strips of patterns out of the rack: which ready strips
serve, which pieces to open, how each is crosscut, resawn and ripped, what goes
back, and the order of work with its words of caution. It seeks the fewest
strips short, then the least timber drawn, and says whether that is proved, or
how far from the least it may be. Nothing is written without --book
or --real.

Each PATTERN is made N times, once without =N. All come from one rack, so where
one cannot be read there is no plan: one without it would mislead. The rack and
the shop are the home's, or those of --rack and --shop; a rack in .csv is read
as CSV.

What is drawn counts an opened piece as [draw] of the shop has it: one to be
used first for less, and what goes back to the rack is taken off. Rings of a
thick piece are what is expected: look at its ends before you cut.

--book books what is printed as done: its pieces leave the rack, what goes back
lies on it with new ids, and each pattern says how many were made today. Rack
and patterns change together, and the files before are kept as .bak. A plan that
is proved comes out the same again; book one that is not when you print it.

--real writes what the pieces are into the patterns: strips without a reading or
with unknown rings get those of the timber that the plan cuts them from, for the
first copy of each. Check the pattern again then.

The exit is 1 where strips are short, for which the ways out are said, and where
a caution is at too much: the plan is printed all the same. --time bounds the
search; when it runs out the best plan so far is printed, with its bound, and it
can be cut.`

func (a *app) planCommand() *cobra.Command {
	var flags planFlags
	cmd := &cobra.Command{
		Use:         "plan PATTERN[=N]...",
		Short:       "say what to cut from the rack, with the proof that less will not do",
		Long:        planLong,
		Example:     "  oddments plan rookery-square\n  oddments plan rookery-square=4 candle-sill --rack ./pile.csv\n  oddments plan ./gifts/trivet.toml=2 --json --time 30\n  oddments plan rookery-square=4 --book",
		Annotations: jsonToo(),
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("name a saved pattern, or a file with a slash or .toml; =4 behind it makes it 4 times", "plan needs a PATTERN")
			}
			return nil
		},
		RunE:              func(cmd *cobra.Command, args []string) error { return a.plan(cmd.Context(), args, flags) },
		ValidArgsFunction: a.completePattern,
	}
	cmd.Flags().BoolVar(&flags.book, "book", false, "book what is printed as done")
	cmd.Flags().BoolVar(&flags.real, "real", false, "write moisture and rings of the pieces into the patterns")
	return cmd
}

// planFlags say what is written of a plan.
type planFlags struct{ book, real bool }

// maxCopies is the most that a pattern may be made at a time.
const maxCopies = 10_000

// withCopies takes =N off the end of a PATTERN where N is a whole number; without it
// there is one.
func withCopies(arg string) (name string, copies int, err error) {
	at := strings.LastIndexByte(arg, '=')
	if at < 0 || at == len(arg)-1 || strings.Trim(arg[at+1:], "0123456789") != "" {
		return arg, 1, nil
	}
	n, err := strconv.ParseUint(arg[at+1:], 10, 31)
	if err != nil || n < 1 || n > maxCopies {
		return "", 0, usage("PATTERN=4 is made four times", "%q: the number of copies must be 1 to %d", arg, maxCopies)
	}
	return arg[:at], int(n), nil
}

func (a *app) plan(ctx context.Context, args []string, flags planFlags) error {
	if flags.book || flags.real {
		a.hold()
	}
	began := time.Now()
	ctx, stop := a.bounded(ctx, began)
	defer stop()
	w, err := a.workshop()
	if err != nil {
		return err
	}
	job, saved, err := a.jobOf(w, args)
	if err != nil {
		return err
	}
	if flags.book {
		if err := a.mayBook(w, saved); err != nil || a.bookedBefore(w, saved) {
			return err
		}
	}
	plan, err := a.solve(ctx, w, job)
	if err != nil {
		return err
	}
	tooMuch := func(n worksteps.Note) bool { return n.Level == pattern.TooMuch }
	if plan.Short > 0 || slices.ContainsFunc(worksteps.Notes(job, plan, length.InMM), tooMuch) {
		a.worsen(exitMuch)
	}
	if a.json {
		_, _ = a.out.WriteString(jsonLine(w.planOf(job, plan, time.Since(began).Seconds())))
	} else {
		t := planText{app: a, workshop: w, job: job, saved: saved, plan: plan, details: worksteps.Details(job, plan), unit: a.unit(w.shop)}
		t.print(ctx)
	}
	if flags.real {
		if saved, err = a.writeReal(w, job, plan, saved); err != nil {
			return err
		}
	}
	if flags.book {
		return a.book(w, job, plan, saved)
	}
	return nil
}

// bounded returns a context that ends in time for what is still to be printed.
func (a *app) bounded(ctx context.Context, began time.Time) (context.Context, context.CancelFunc) {
	limit := a.flags.seconds.duration()
	return context.WithDeadline(ctx, began.Add(max(limit-printReserve, limit/2)))
}

// jobOf returns the job that args ask for, and its patterns as they were read. All that
// is wrong with the files is told of in one go.
func (a *app) jobOf(w workshop, args []string) (cutting.Job, []store.Saved, error) {
	job := cutting.Job{Shop: w.shop}
	names, copies := make([]string, len(args)), make([]int, len(args))
	var err error
	for i, arg := range args {
		if names[i], copies[i], err = withCopies(arg); err != nil {
			return job, nil, err
		}
	}
	all, err := openAll(w, names, "to make one several times name it once, with =4 behind it")
	if err != nil {
		return job, nil, err
	}
	var saved []store.Saved
	var wrong []error
	strips := 0
	for i, one := range all {
		if one.err != nil {
			wrong = append(wrong, one.err)
			continue
		}
		strips += copies[i] * len(one.saved.Pattern.Strips)
		saved = append(saved, one.saved)
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: one.saved.Stem, Pattern: one.saved.Pattern, Copies: copies[i]})
	}
	if strips > mostPlanned {
		return job, nil, usage("plan it in parts", "%d strips are too many for one plan: must be at most %d", strips, mostPlanned)
	}
	if job.Rack, err = a.readRack(w); err != nil {
		wrong = append(wrong, err)
	}
	return job, saved, errors.Join(wrong...)
}

// readRack reads the rack that the flags name, else the home's.
func (a *app) readRack(w workshop) (rack.Rack, error) {
	if a.flags.rack != "" {
		return store.OpenRack(a.flags.rack, w.known)
	}
	r, _, err := w.home.Rack(w.known)
	return r, err
}

const (
	planWorkers = 2       // timbers that are planned at a time
	mostPlanned = 100_000 // strips in one plan: each takes memory before any search begins

	// printReserve is kept of the time that a search may take, for what is printed after it.
	printReserve = 100 * time.Millisecond
)

// name returns the name of a timber, or its key.
func (w workshop) name(key string) string {
	if s, ok := w.table.Get(key); ok {
		return s.Name
	}
	return key
}

// The JSON of a plan; lengths in mm, volumes in cm3.
type (
	planJSON struct {
		Format        string        `json:"format"`
		Status        string        `json:"status"`
		Short         int           `json:"short"`
		DrawnCM3      float64       `json:"drawn_cm3"`
		GoneCM3       float64       `json:"gone_cm3"`
		LowerBoundCM3 float64       `json:"lower_bound_cm3"`
		Seconds       float64       `json:"seconds"`
		Missing       []missingJSON `json:"missing"`
		Ready         []readyJSON   `json:"ready"`
		Cuts          []cutJSON     `json:"cuts"`
		Steps         []string      `json:"steps"`
	}
	missingJSON struct {
		Pattern string `json:"pattern"`
		Copy    int    `json:"copy"`
		Strip   int    `json:"strip"`
		Species string `json:"species"`
	}
	readyJSON struct {
		ID          string `json:"id"`
		Copy        int    `json:"copy"`
		Pattern     string `json:"pattern"`
		PatternCopy int    `json:"pattern_copy"`
		Strip       int    `json:"strip"`
	}
	cutJSON struct {
		Piece    string        `json:"piece"`
		Copy     int           `json:"copy"`
		TailMM   float64       `json:"tail_mm"`
		Sections []sectionJSON `json:"sections"`
	}
	sectionJSON struct {
		LengthMM   float64     `json:"length_mm"`
		SideSliced bool        `json:"side_sliced"`
		SlabLeftMM float64     `json:"slab_left_mm"`
		Slices     []sliceJSON `json:"slices"`
	}
	sliceJSON struct {
		ThicknessMM float64   `json:"thickness_mm"`
		RipLeftMM   float64   `json:"rip_left_mm"`
		Strips      []refJSON `json:"strips"`
	}
	refJSON struct {
		Pattern string `json:"pattern"`
		Copy    int    `json:"copy"`
		Strip   int    `json:"strip"`
	}
)

// planOf returns the JSON of a plan of job.
func (w workshop) planOf(job cutting.Job, p cutting.Plan, seconds float64) planJSON {
	out := planJSON{
		Format: "oddments/plan 1", Status: p.Status.String(), Short: p.Short, DrawnCM3: p.DrawnCM3, GoneCM3: p.GoneCM3,
		LowerBoundCM3: p.LowerBoundCM3, Seconds: seconds,
		Missing: []missingJSON{}, Ready: []readyJSON{}, Cuts: []cutJSON{}, Steps: []string{},
	}
	for _, m := range p.Missing {
		out.Missing = append(out.Missing, missingJSON{m.Pattern, m.Copy, m.Strip, m.Species})
	}
	for _, r := range p.Ready {
		out.Ready = append(out.Ready, readyJSON{r.ID, r.Copy, r.For.Pattern, r.For.Copy, r.For.Strip})
	}
	for _, c := range p.Cuts {
		cut := cutJSON{Piece: c.Piece, Copy: c.Copy, TailMM: c.Tail.MM(), Sections: []sectionJSON{}}
		for _, s := range c.Sections {
			cut.Sections = append(cut.Sections, sectionOf(s))
		}
		out.Cuts = append(out.Cuts, cut)
	}
	out.Steps = append(out.Steps, worksteps.Steps(job, p, w.name, length.InMM)...)
	return out
}

func sectionOf(s cutting.Section) sectionJSON {
	out := sectionJSON{LengthMM: s.Length.MM(), SideSliced: s.Side, SlabLeftMM: s.SlabLeft.MM(), Slices: []sliceJSON{}}
	for _, sl := range s.Slices {
		slice := sliceJSON{ThicknessMM: sl.Thickness.MM(), RipLeftMM: sl.RipLeft.MM(), Strips: []refJSON{}}
		for _, r := range sl.Strips {
			slice.Strips = append(slice.Strips, refJSON{r.Pattern, r.Copy, r.Strip})
		}
		out.Slices = append(out.Slices, slice)
	}
	return out
}
