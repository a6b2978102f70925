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

	"example.com/oddments/tui/guard"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/setup"
	"example.com/oddments/tui/term"
	"example.com/oddments/tui/term/frames"
)

// libraryFrames is how often a second the screen library looks for a frame: as seldom
// as it can, for frames go their own way.
const libraryFrames = 1

// Run opens the screens and comes back when they are left. Whatever ends them, work
// that was not saved is kept, and Run says so.
func Run(ctx context.Context, o Options) error {
	from, err := setup.Load(o)
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
		from.Width, from.Height = w, h
	}
	var options []tea.ProgramOption
	from.Stopped, options = term.Stops()
	terminal := frames.New(os.Stdout)
	options = append(options, tea.WithContext(ctx), tea.WithoutSignalHandler(), tea.WithOutput(terminal), tea.WithAltScreen(), tea.WithMouseCellMotion(), tea.WithFPS(libraryFrames))
	options = append(options, term.Typing(os.Stdin)...)
	app := New(from)
	g := guard.On(frames.On(terminal, app), end)
	_, err = tea.NewProgram(g, options...).Run()
	terminal.Flush(lastWait)
	if shown, ok := g.Last().(frames.Model); ok {
		app = shown.Model.(App)
	}
	return errors.Join(guard.Ended(err), app.keepLast(o.Out), g.Report(o.Home, app.now()), o.Home.Close())
}

// lastWait is how long a terminal that takes nothing is waited for at the end. What it
// does not take then is lost, and the work is not.
const lastWait = time.Second

// keepLast keeps what is not saved when the screen is gone, however it went: rack, shop and
// what screens save in their files, the bench as a recovery copy.
func (a App) keepLast(out io.Writer) error {
	return errors.Join(
		guard.Kept(func() error { return a.rack.SaveLast(a.files) }),
		guard.Kept(func() error { return a.shop.SaveLast(a.files) }),
		guard.Kept(func() error { return a.keepers().SaveLast(a.files) }),
		guard.Kept(func() error { return a.keepBench(out) }),
		guard.Kept(func() error { return a.ticking.Last(a.files) }))
}

func (a App) keepBench(out io.Writer) (err error) {
	a.doc.Document, err = a.doc.Settled().KeptLast(a.bench, a.files.KeepBeside)
	if err != nil {
		return err
	}
	if a.doc.Unsaved() && out != nil {
		text := fmt.Sprintf("oddments: %s has changes that are not saved; they are kept in %s, and offered at the next start\n",
			paint.Fit(a.context().Title, leastWidth), paint.Fit(a.files.RecoveryFile(a.doc.Copy), longestPath))
		job.Within(lastWait, func() { _, _ = io.WriteString(out, text) })
	}
	return nil
}

// longestPath is the most of a file's path that is shown at the end.
const longestPath = 4096
