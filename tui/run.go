package tui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	xterm "github.com/charmbracelet/x/term"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/term"
	"example.com/oddments/tui/term/frames"
)

// Options say what to open and how to show it.
type Options struct {
	Home    *store.Home
	Pattern string       // a saved stem or a file; empty: the first saved one, else the demo's
	Shop    string       // a file that stands in for the home's; empty: none
	Rack    string       // likewise
	Unit    *length.Unit // nil: the workshop's
	Profile paint.Profile
	Out     io.Writer // where to say, after the screen is gone, what was kept
}

// libraryFrames is how often a second the screen library looks for a frame: as seldom
// as it can, for frames go their own way.
const libraryFrames = 1

// Run opens the screens and comes back when they are left. Whatever ends them, work
// that was not saved is kept, and Run says so.
func Run(ctx context.Context, o Options) error {
	setup, err := load(o)
	if err != nil {
		return err
	}
	// Every signal that ends a program is heard until the work is kept: the second of two
	// that come together must not end it in the midst of that.
	ctx, stop := signal.NotifyContext(ctx, syscall.SIGHUP, syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	ctx, end := context.WithCancel(ctx)
	defer end()
	// With the size known the first frame is whole, and need not wait for the second.
	if w, h, err := xterm.GetSize(os.Stdout.Fd()); err == nil {
		setup.Width, setup.Height = w, h
	}
	var options []tea.ProgramOption
	setup.Stopped, options = term.Stops()
	terminal := frames.New(os.Stdout)
	options = append(options, tea.WithContext(ctx), tea.WithoutSignalHandler(), tea.WithOutput(terminal), tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFPS(libraryFrames))
	options = append(options, term.Typing(os.Stdin)...)
	app := New(setup)
	g := newGuard(frames.On(terminal, app), end)
	_, err = tea.NewProgram(g, options...).Run()
	terminal.Flush(partingWait)
	if shown, ok := g.fault.last.(frames.Model); ok {
		app = shown.Model.(App)
	}
	return errors.Join(ended(err), app.keepLast(o.Out), g.fault.report(o.Home, app.now()), o.Home.Close())
}

// partingWait is how long a terminal that takes nothing is waited for at the end. What it
// does not take then is lost, and the work is not.
const partingWait = time.Second

// ended drops the errors that only say that the program was told to end.
func ended(err error) error {
	if errors.Is(err, tea.ErrProgramPanic) {
		return err
	}
	if errors.Is(err, tea.ErrProgramKilled) || errors.Is(err, tea.ErrInterrupted) || errors.Is(err, context.Canceled) {
		return nil
	}
	return err
}

// keepLast keeps what is not saved when the screen is gone, however it went: the rack in
// its file, the bench as a recovery copy.
func (a App) keepLast(out io.Writer) error {
	return errors.Join(
		kept(func() error { return a.racks.saveLast(a.files) }),
		kept(func() error { return a.keepBench(out) }))
}

func (a App) keepBench(out io.Writer) (err error) {
	a.doc = a.doc.settled()
	if !a.doc.upToDate() {
		if a.doc.copy, err = a.doc.keepIn(a.bench); err != nil {
			return err
		}
	}
	if a.doc.unsaved() && out != nil {
		tell(out, fmt.Sprintf("oddments: %s has changes that are not saved; they are kept in %s, and offered at the next start\n",
			paint.Fit(a.context().Title, leastWidth), paint.Fit(a.files.RecoveryFile(a.doc.copy), longestPath)))
	}
	return nil
}

// longestPath is the most of a file's path that is shown at the end.
const longestPath = 4096

// tell writes text, and waits no longer for a terminal that takes nothing than the end may.
func tell(out io.Writer, text string) {
	told := make(chan struct{})
	job.Beside(func() {
		defer close(told)
		_, _ = io.WriteString(out, text)
	})
	limit := time.NewTimer(partingWait)
	defer limit.Stop()
	select {
	case <-told:
	case <-limit.C:
	}
}

// settled gives the document once what was being saved and kept of it has ended. Where
// that panics the document counts as neither, and is kept anew.
func (d document) settled() (after document) {
	saving, keeping := d.saving, d.keeping
	d.saving, d.keeping = nil, nil
	after = d
	defer func() { _ = recover() }()
	if saving != nil {
		after = after.tookSave(saving())
	}
	if keeping != nil {
		after = after.took(keeping())
	}
	return after
}

// load reads what the first screen needs.
func load(o Options) (Setup, error) {
	s := Setup{Home: o.Home, Profile: o.Profile}
	var err error
	if s.Mended, err = o.Home.Mend(); err != nil {
		return s, err
	}
	table, err := o.Home.Species()
	if err != nil {
		return s, err
	}
	known := store.Known(table)
	workshop, ownShop, err := readShop(o)
	if err != nil {
		return s, err
	}
	if s.Rack, s.RackFrom, err = readRack(o, known); err != nil {
		return s, err
	}
	s.RackFile = o.Rack
	if s.Kept, err = o.Home.Recoveries(known); err != nil {
		return s, err
	}
	list, err := o.Home.Patterns(known)
	if err != nil {
		return s, err
	}
	if len(list) == 0 {
		demo, err := store.ReadDemo()
		if err != nil {
			return s, err
		}
		s.Demo, s.Open = demo.Patterns, demo.Patterns[0]
		if !ownShop {
			workshop = demo.Shop
		}
		if s.RackFrom == store.Absent && o.Rack == "" {
			s.Rack = demo.Rack
		}
	}
	s.Reckoner = movement.New(table, workshop)
	s.Unit = workshop.Units
	if o.Unit != nil {
		s.Unit = *o.Unit
	}
	if s.Open, err = choosePattern(o, s, list, table); err != nil {
		return s, err
	}
	return s, nil
}

// choosePattern gives the pattern to start with.
func choosePattern(o Options, s Setup, list []store.Listed, table *species.Table) (store.Saved, error) {
	if o.Pattern != "" {
		for _, d := range s.Demo {
			if d.Stem == o.Pattern {
				return d, nil
			}
		}
		return o.Home.OpenPattern(o.Pattern, store.Known(table))
	}
	for _, l := range list {
		if l.Err == nil {
			return l.Saved, nil
		}
	}
	return s.Open, nil
}

func readShop(o Options) (s shop.Shop, own bool, err error) {
	if o.Shop != "" {
		s, err = store.OpenShop(o.Shop)
		return s, true, err
	}
	s, version, err := o.Home.Shop()
	return s, version != store.Absent, err
}

func readRack(o Options, known func(string) bool) (rack.Rack, store.Version, error) {
	if o.Rack != "" {
		r, err := store.OpenRack(o.Rack, known)
		return r, store.Absent, err
	}
	return o.Home.Rack(known)
}
