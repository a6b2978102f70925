// Package tui is the program at the screen: it routes keys to hand moves, keeps the
// document and its history, and draws the screens.
//
// The root alone changes the document. Update reads and writes no file: whatever
// touches the disk runs as a command and comes back as a message. Every key answers
// at once; what a maker did is kept in a recovery copy a second later.
package tui

import (
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/findings"
	"example.com/oddments/tui/screens/rackview"
	"example.com/oddments/tui/term"
	_ "example.com/oddments/tui/term/quiet" // before bubbletea asks the terminal
)

// An App is the model of the program. Build one with New.
type App struct {
	files    *store.Home
	bench    benchFiles    // the same; tests have one that fails
	demo     []store.Saved // the demo's patterns; none where the home has its own
	reckoner movement.Reckoner
	racks    racks
	planner  planner
	gallery  gallery
	working  working
	made     records

	lastBooking booking

	keys     keymap.Map
	handlers map[keymap.ID]handler
	doc      document
	unit     length.Unit
	season   screen.Season
	notice   screen.Notice
	screen   int // of screens()
	findings findings.List
	overlay  screen.Overlay
	done     func(App, any) (App, tea.Cmd) // what the overlay's value is for
	waiting  []pending                     // that are asked when the overlay is closed
	making   string                        // the action being made, for undo
	again    bool                          // the same key comes next
	drag     int                           // strip being dragged, from 0; none: -1
	first    int                           // leftmost strip in view
	now      func() time.Time
	later    func(time.Duration, tea.Msg) tea.Cmd
	stopped  tea.Cmd
	leaving  bool // quit was asked for and the recovery copy failed
	parting  bool // quit was asked for while something is being saved

	width, height int
	canvas        *paint.Canvas // drawn anew by every View; no part of the state
	wood          *panel.Palette
}

// A document is the pattern on the bench with where it came from.
type document struct {
	serial  int             // each that comes onto the bench has the next
	saving  func() savedMsg // of a save under way, how it went; nil: there is none
	again   bool            // another save was asked for meanwhile
	stem    string          // empty: never saved
	file    string          // a file outside the home; empty: the stem's
	base    store.Version
	perhaps store.Version // what a save that failed may have left in the file
	history edit.History
	report  check.Report   // of the history's state
	stale   bool           // the report is of an older state
	kept    int            // the revision that the recovery copy holds
	copy    string         // what that goes by; empty: there is none
	keeping func() keptMsg // while it is being written, how that went; nil: it is not
	// What takes the document's place on the bench once it is kept; nil: nothing.
	after   func(App) (App, tea.Cmd)
	givenUp int      // one above the revision that could not be kept, and may go
	cut     outlined // what is cut out of it
	minutes int      // that all copies take; 0: by the last batch
}

// handler makes one action.
type handler func(App) (App, tea.Cmd)

// Setup is what an App starts with.
type Setup struct {
	Home     *store.Home
	Demo     []store.Saved // set on an empty home: what it is offered instead
	Reckoner movement.Reckoner
	Rack     rack.Rack
	RackFrom store.Version // of the home's rack; Absent where it has none
	RackFile string        // a file that stands in for it; nothing is saved then
	Open     store.Saved   // the pattern to start with
	Unit     length.Unit
	Profile  paint.Profile
	// The window's size where it is known already; it is told of every change.
	Width, Height int
	Kept          []store.Recovery // work that was not saved last time
	Mended        store.Mended     // what was finished at the start
	// Later gives msg after a time; nil: by the clock. Tests have a clock of their own.
	Later func(d time.Duration, msg tea.Msg) tea.Cmd
	Now   func() time.Time // nil: the clock's
	// Stopped waits for a stop that is asked for from outside; nil: there is none.
	Stopped tea.Cmd
}

// New gives the App at its start.
func New(s Setup) App {
	a := App{
		files: s.Home, bench: s.Home, demo: s.Demo, reckoner: s.Reckoner, unit: s.Unit,
		racks: newRacks(s),
		keys:  Keys(), handlers: handlers(), drag: -1,
		canvas: paint.New(0, 0, s.Profile), wood: &panel.Palette{}, later: s.Later, stopped: s.Stopped,
		width: min(s.Width, mostWidth), height: min(s.Height, mostHeight),
	}
	if a.now = s.Now; a.now == nil {
		a.now = time.Now
	}
	if a.later == nil {
		a.later = func(d time.Duration, msg tea.Msg) tea.Cmd {
			return tea.Tick(d, func(time.Time) tea.Msg { return msg })
		}
	}
	a = a.open(s.Open)
	if len(s.Demo) > 0 {
		a = a.say("Demo of an invented market: try it, your files stay as they are")
	}
	if !s.Mended.None() {
		a = a.say(s.Mended.String())
	}
	return a.offer(s.Kept)
}

// Init waits for nothing but a stop: what the first screen needs was read before.
func (a App) Init() tea.Cmd { return a.stopped }

// open puts a pattern on the bench.
func (a App) open(s store.Saved) App {
	a.doc = document{serial: a.doc.serial + 1, stem: s.Stem, base: s.Version, history: edit.NewHistory(edit.New(s.Pattern))}
	if s.Stem != "" && a.outside(s) {
		a.doc.file = s.File
	}
	a.first, a.drag, a.gallery.open = 0, -1, false
	a.gallery.running.Stop()
	return a.checked()
}

// outside reports whether a pattern came from a file that is none of the home's.
func (a App) outside(s store.Saved) bool {
	return !a.files.Owns(s)
}

// checked reckons the report of what lies on the bench.
func (a App) checked() App {
	a.doc.report, a.doc.stale = check.Of(a.reckoner, a.state().Pattern, a.unit), false
	return a.laid()
}

func (a App) state() edit.State { return a.doc.history.State() }

// Update takes one message.
func (a App) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		return a.sized(msg.Width, msg.Height), nil
	case tea.KeyMsg:
		return a.typed(msg)
	case tea.MouseMsg:
		return a.mouse(tea.MouseEvent(msg))
	case tea.ResumeMsg:
		return a, tea.EnableMouseCellMotion
	case term.StopMsg: // the terminal is given back, as the key for it does
		return a, tea.Batch(tea.Suspend, a.stopped)
	case keepMsg:
		return a.keepNow()
	case keptMsg:
		return a.kept(msg)
	case savedMsg:
		return a.saved(msg)
	case job.Progress[layProgress]:
		return a.layFound(msg)
	case job.Done[laying]:
		return a.layDone(msg)
	case job.Progress[cutting.Progress]:
		return a.planProgress(msg)
	case job.Done[planned]:
		return a.planDone(msg)
	case job.Done[foundWays]:
		return a.waysDone(msg)
	case togetherMsg:
		return a.askTogether(msg)
	case givesMsg:
		return a.gave(msg)
	case bookedMsg:
		return a.booked(msg)
	case rackSavedMsg:
		return a.rackSaved(msg)
	case rackReadMsg:
		return a.rackRead(msg)
	case listedMsg:
		return a.listed(msg)
	case exportedMsg:
		return a.exported(msg)
	case leftMsg:
		return a.left(msg)
	case term.StaysMsg:
		return a.refuse(msg.Err.Error()), nil
	case failedMsg:
		return a.fail(msg.err), nil
	default:
		return a, nil
	}
}

// inView keeps the picture's leftmost strip where the chosen one can be seen.
func (a App) inView() App {
	if a.doc.stale {
		return a // till it is reckoned
	}
	a.first = a.picture().First()
	return a
}

// context gives what screens are told.
func (a App) context() screen.Context {
	title := a.state().Pattern.Name
	switch {
	case title == "" && a.doc.stem != "":
		title = a.doc.stem
	case title == "":
		title = "new pattern"
	}
	_, canUndo := a.doc.history.NextUndo()
	if screens()[a.screen].place == rackview.Place {
		_, canUndo = a.racks.history.NextUndo()
	}
	return screen.Context{
		State: a.state(), Title: title, Dirty: a.doc.history.Dirty(), CanUndo: canUndo, Demo: a.onDemo(),
		Report: a.doc.report, Reckoner: a.reckoner, Allow: check.Allow(a.reckoner.Shop()), Rack: a.racks.history.Rack(),
		Unit: a.unit, Season: a.season, Keys: a.keys, Notice: a.notice, Wood: a.wood, First: a.first,
		Planning: a.planning(title), Laying: a.laying(),
	}
}

// onDemo reports whether what lies on the bench is the demo's and not the maker's.
func (a App) onDemo() bool {
	return slices.ContainsFunc(a.demo, func(s store.Saved) bool { return s.Stem == a.doc.stem }) && a.doc.base == store.Absent
}

func (a App) say(text string) App {
	a.notice = screen.Notice{Text: text, Role: paint.RoleUnknown}
	return a
}

func (a App) refuse(text string) App {
	a.notice = screen.Notice{Text: text, Role: paint.RoleError}
	return a
}
