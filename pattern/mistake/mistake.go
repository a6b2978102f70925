// Package mistake tells a maker of a mistake in the program: a panic, or a claim that its
// own check has refuted. What a maker can do nothing with goes to a report beside the
// recovery copies, with the job, so that the case can be run again.
//
// Nothing here lets a mistake pass as a result: what is told is an error.
package mistake

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"reflect"
	"runtime"
	"runtime/debug"
	"strings"
	"time"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/store"
)

// A Teller writes reports.
type Teller struct {
	Home    *store.Home
	Version string // of the program; empty: what the build says
	At      time.Time
}

// A Panic is the error of work that a panic ended.
type Panic struct {
	What   string // the panic
	Report string // the file that says more; empty: none could be written
}

// Error says what happened, and where more is written down.
func (p *Panic) Error() string {
	text := "a mistake in oddments ended it: " + p.What
	if p.Report != "" {
		text += "; more about it is written in " + p.Report
	}
	return text
}

// Unreported returns the error of a panic of which no report can be written.
func Unreported(value any) *Panic {
	value, _ = origin(value, nil)
	return &Panic{What: strings.TrimSpace(fmt.Sprint(value))}
}

// origin returns what a panic was, and the stack it began on where it was handed on, once
// or several times.
func origin(value any, stack []byte) (any, []byte) {
	for {
		p, ok := value.(interface{ Panicked() (any, []byte) })
		if !ok {
			return value, stack
		}
		value, stack = p.Panicked()
	}
}

// Panic writes down what a panic was and where, and gives the error that tells of it. One
// that a goroutine has handed on counts with the stack that it began on.
func (t Teller) Panic(value any, stack []byte) error {
	value, stack = origin(value, stack)
	told := Unreported(value)
	path, err := t.Home.SaveReport(t.At, t.head()+told.What+"\n\n"+string(stack))
	told.Report = path
	return errors.Join(told, err)
}

// head returns the first line of a report, and a blank one.
func (t Teller) head() string {
	version := t.Version
	if version == "" {
		version = "of an unknown build"
		if info, ok := debug.ReadBuildInfo(); ok {
			version = info.Main.Version
		}
	}
	return fmt.Sprintf("oddments %s, %s, %s/%s, %s\n\n", version, runtime.Version(), runtime.GOOS, runtime.GOARCH, t.At.Format(time.RFC3339))
}

// A Shown says what the maker is shown in spite of a claim that broke.
type Shown int

// What may be shown.
const (
	None    Shown = iota // nothing: what was found failed its check
	Plan                 // a plan
	Ways                 // ways out of one
	Layouts              // layouts with their plans
	Answers              // ways to make a pattern again, with their plans
	Counts               // how many strips the rack gives
)

// A Withdrawn claim is the error that a claim is not made, since a check refuted it.
type Withdrawn struct {
	Shown  Shown
	Cause  error  // what broke
	Report string // the file with the job; empty: none could be written
	Failed error  // why there is none
}

// Unwrap returns what broke.
func (w *Withdrawn) Unwrap() error { return w.Cause }

// Error says that the claim is not made, and what is so all the same.
func (w *Withdrawn) Error() string {
	const why = ": a check of the search failed, which is a mistake in oddments"
	switch w.Shown {
	case Plan:
		return "this plan is not called the best" + why + "; the plan itself was checked and can be cut"
	case Ways:
		return "these ways out are not called complete" + why + "; each was checked and can be cut"
	case Layouts:
		return "no layout is called proved" + why + "; every plan shown was checked and can be cut"
	case Answers:
		return "no answer is called proved" + why + "; every plan shown was checked and can be cut"
	case Counts:
		return "no number of strips is called exact" + why + "; the rack gives so many at least"
	default:
		return "no plan is shown" + why
	}
}

// Row says it in one row of a screen, with the report under the home's folder; nothing
// where w is nil.
func (w *Withdrawn) Row() string {
	if w == nil {
		return ""
	}
	text := "a check failed, so nothing is proved"
	if w.Shown == None {
		text = "a check failed, so there is no plan"
	}
	if w.Report == "" {
		return text
	}
	return text + ": see " + filepath.Join(filepath.Base(filepath.Dir(w.Report)), filepath.Base(w.Report))
}

// Where says where the report is, or why there is none.
func (w *Withdrawn) Where() string {
	if w.Report == "" {
		return fmt.Sprintf("the report could not be saved: %v", w.Failed)
	}
	return "the report, with rack, shop and patterns, is in " + w.Report
}

// Claim writes down which claim broke, and gives the error that tells of it. job is what
// was asked for, and asked says what was asked for beside; the job that the search was at
// stands in the report too where it is another.
func (t Teller) Claim(broken error, shown Shown, job cutting.Job, asked string) *Withdrawn {
	w := &Withdrawn{Shown: shown, Cause: broken}
	var text bytes.Buffer
	fmt.Fprintf(&text, "%sclaimed and found: %v\n\ntold: %v\n", t.head(), broken, w)
	if asked != "" {
		fmt.Fprintf(&text, "\nasked for: %s\n", asked)
	}
	err := t.timbers(&text)
	err = errors.Join(err, write(&text, "asked for", job))
	var at *cutting.Broken
	if errors.As(broken, &at) && !reflect.DeepEqual(at.Job, job) {
		err = errors.Join(err, write(&text, "at work", at.Job))
	}
	if err != nil { // the rest of it is still worth having
		fmt.Fprintf(&text, "%scould not be written\n%v\n", part, err)
	}
	w.Report, w.Failed = t.Home.SaveReport(t.At, text.String())
	return w
}

// part begins the line above each file in a report.
const part = "\n==== "

// timbers writes the maker's own timbers, where there are any.
func (t Teller) timbers(out io.Writer) error {
	own, _, err := t.Home.Timbers()
	if err != nil || len(own) == 0 {
		return err
	}
	_, _ = fmt.Fprintf(out, "%sspecies.toml\n", part) // to memory
	return store.WriteSpecies(out, own)
}

// write writes a job as the files that it is read from.
func write(out io.Writer, what string, job cutting.Job) error {
	head := func(format string, args ...any) {
		_, _ = fmt.Fprintf(out, part+what+": "+format+"\n", args...) // to memory
	}
	head("shop.toml")
	err := store.WriteShop(out, job.Shop)
	head("rack.toml")
	err = errors.Join(err, store.WriteRack(out, job.Rack))
	for _, d := range job.Patterns {
		head("patterns/%s.toml, copies %d", d.Stem, d.Copies)
		err = errors.Join(err, store.WritePattern(out, d.Pattern))
	}
	return err
}
