// Package command is what every command works with: the flags that all have, the maker's
// files as the flags name them, and how results, failures and questions reach whoever asked.
//
// Results go to the standard output, messages to the standard error. Plain text is one fact a
// line, so that a screen reader and a script can follow it; at a terminal the same facts stand
// in tables, unless --plain is said. Text from arguments and files is printed with nothing in
// it that could act on a terminal.
package command

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"time"

	"github.com/charmbracelet/x/term"
	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/paint"
)

// An Env is everything that a command has of the world outside the maker's files.
// Every field but Bench, Version and Now must be set; System does so.
type Env struct {
	Stdin          io.Reader
	Stdout, Stderr io.Writer
	Getenv         func(string) string
	IsTerminal     func() bool                // somebody sits before both standard input and output
	TerminalSize   func() (columns, rows int) // 0 where it is not known
	Bench          func(context.Context, BenchOptions) error
	Version        string           // empty: what the build says
	Now            func() time.Time // nil: the clock's
	Solvers        Solvers
}

// BenchOptions is what the command line says about the bench.
type BenchOptions struct {
	Home    *store.Home
	Pattern string       // a saved stem, or a file with a slash or .toml; empty: none said
	Shop    string       // a file that stands in for the home's; empty: none
	Rack    string       // likewise
	Unit    *length.Unit // nil: the shop's
	Profile paint.Profile
	Version string
}

// System returns the Env of this process, without a bench.
func System() Env {
	return Env{
		Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr, Getenv: os.Getenv,
		IsTerminal: func() bool { return term.IsTerminal(os.Stdin.Fd()) && term.IsTerminal(os.Stdout.Fd()) },
		TerminalSize: func() (columns, rows int) {
			columns, rows, err := term.GetSize(os.Stdout.Fd())
			if err != nil {
				return 0, 0
			}
			return columns, rows
		},
	}
}

// The exits. Of several patterns the worst counts: 3, then 1, then 0.
const (
	exitDone   = 0
	ExitMuch   = 1
	exitUsage  = 2
	ExitFailed = 3
)

// An App is one run of the program.
type App struct {
	Env    Env
	args   []string
	Flags  Flags
	AsJSON bool          // results and errors are JSON; known before the flags are read
	in     *bufio.Reader // of answers
	Out    *bufio.Writer
	exit   int
	Rows   rows.Printer // prints to out
	Began  time.Time    // when the command was

	// What a command that writes to the maker's files has printed before it did; nil:
	// what is printed goes out as it comes.
	held  *bytes.Buffer
	saved bool // a file of the maker's was written
}

// Run does what args say, without the program's name, by the commands of root, and returns
// the exit.
func (a *App) Run(ctx context.Context, args []string, commands func() *cobra.Command) int {
	a.args, a.AsJSON = args, asksForJSON(args)
	root := commands()
	root.SetArgs(append([]string{}, args...)) // nil would have cobra read os.Args
	root.SetIn(a.Env.Stdin)
	root.SetOut(a.Out)
	root.SetErr(a.Env.Stderr)
	if runtime.GOOS == "windows" {
		// There cobra turns away whoever starts a program with the mouse; the bench is
		// for them too.
		cobra.MousetrapHelpText = ""
	}
	if err := a.caught(func() error { return root.ExecuteContext(ctx) }); err != nil {
		a.Report(err)
	}
	a.finish()
	return a.exit
}

// New returns a run of the program in env.
func New(env Env) *App {
	if env.Version == "" {
		env.Version = buildVersion()
	}
	env.Solvers = env.Solvers.filled()
	out := bufio.NewWriter(env.Stdout)
	return &App{Env: env, in: bufio.NewReader(env.Stdin), Out: out, Rows: rows.Printer{Out: out}}
}

// finish sends off what is still to be printed. A reader that has gone away (head,
// a pager) has seen enough: that is no failure. Nor is it one where the files were
// written before: whoever is told so does not do it again.
func (a *App) finish() {
	err := a.flush()
	if err == nil || readerIsGone(err) {
		return
	}
	a.Out.Reset(io.Discard)
	a.held = nil
	if a.saved {
		a.tell(failure.New(failure.CodeIO, "do not repeat it", "it is done and saved, but what there is to say of it could not be written: %v", err))
		return
	}
	a.Report(failure.New(failure.CodeIO, "", "the results could not be written: %v", err))
}

// flush sends off what was printed so far. An error stays with the writer, which gives
// it again.
func (a *App) flush() error {
	a.Rows.Flush()
	if a.held == nil {
		return a.Out.Flush()
	}
	_ = a.Out.Flush() // to memory
	a.Out.Reset(a.Env.Stdout)
	_, _ = a.held.WriteTo(a.Out) // an error stays with it
	a.held = nil
	return a.Out.Flush()
}

// Send sends off what was printed so far, unless it is held; finish meets an error again.
func (a *App) Send() {
	a.Rows.Flush()
	_ = a.Out.Flush()
}

// Hold keeps what is printed back until the end: the maker's files are written first,
// and a reader that goes away, or a full disk, does not come between.
func (a *App) Hold() {
	_ = a.Out.Flush() // nothing was printed yet
	a.held = new(bytes.Buffer)
	a.Out.Reset(a.held)
	a.Writes()
}

// Writes says that files of the maker's are about to be written. From then on a reader
// that has gone away is met as an error, which does not end the program.
func (a *App) Writes() { ignoreGoneReader() }

// Wrote takes note of what came of writing them.
func (a *App) Wrote(err error) error {
	a.saved = a.saved || err == nil
	return err
}

// Worsen raises the exit to code where that is worse.
func (a *App) Worsen(code int) { a.exit = max(a.exit, code) }

// buildVersion returns the version that the go command put into the program.
func buildVersion() string {
	info, ok := debug.ReadBuildInfo()
	if !ok || info.Main.Version == "" {
		return "(devel)"
	}
	return info.Main.Version
}
