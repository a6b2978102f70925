// Package tui is the program at the screen: it routes keys to hand moves, keeps the
// document and its history, and draws the screens.
//
// The root alone changes the document. Update reads and writes no file: whatever
// touches the disk runs as a command and comes back as a message. Every key answers
// at once; what a maker did is kept in a recovery copy a second later.
package tui

import (
	"cmp"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/document"
	"example.com/oddments/tui/exporting"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/opening"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/reporting"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/rackview"
	"example.com/oddments/tui/screens/settings"
	"example.com/oddments/tui/setup"
	"example.com/oddments/tui/term"
	_ "example.com/oddments/tui/term/quiet" // before bubbletea asks the terminal
	"example.com/oddments/tui/workshop"
)

// An App is the model of the program. Build one with New.
type App struct {
	home
	physics movement.Physics
	doc     benched
	rack    document.Rack
	shop    workshop.File
	making
	seeing
	overlays
	clock
	frame
	screens []shown
	at      int       // which of the screens is shown
	before  int       // which was, before one that lies aside
	soon    []tea.Cmd // what screens asked for when they were told how the pattern is

	keys     keymap.Map
	handlers map[keymap.ID]handler // of what holds everywhere
	action   string                // the name of what the present key does, for undo
	again    bool                  // the same key comes next

	quitFailed  bool // quit was asked for and the recovery copy failed
	quitPending bool // quit was asked for while something is being saved
}

// home is where everything is saved.
type home struct {
	files *store.Home
	bench document.Files // the same; tests have one that fails
	demo  []store.Saved  // the demo's patterns; none where the home has its own
}

// making is what is made together, the last plan for it, what was booked, and what
// searches.
type making struct {
	batch    screen.Batch
	plan     screen.Plan
	bookings []document.Booking // what takes them back, the last one last
	ticking  document.Ticking   // what is done of its steps
	replaced *document.Replaced // by the last screen.Open; nil: nothing
	solve    screen.Solvers
}

// seeing is how everything is shown.
type seeing struct {
	unit   length.Unit
	season screen.Season
	notice screen.Notice
}

// clock is what comes by itself.
type clock struct {
	now     func() time.Time
	later   func(time.Duration, tea.Msg) tea.Cmd
	stopped tea.Cmd
}

// frame is the window, and what is drawn into it.
type frame struct {
	width, height int
	canvas        *paint.Canvas // drawn anew by every View; no part of the state
	wood          *panel.Palette
}

// A benched document is the one on the bench, with what was computed of it.
type benched struct {
	document.Document
	again  bool         // another save was asked for meanwhile
	report check.Report // of the history's state
	stale  bool         // the report is of an older state
	late   reporting.Late
	// What takes the document's place on the bench once it is kept; nil: nothing.
	after   func(App) (App, tea.Cmd)
	givenUp int    // one above the revision that could not be kept, and may go
	waits   bool   // what could not be kept is tried again in a while
	notKept string // what was said of that; empty: it is kept
}

// handler makes one action.
type handler func(App) (App, tea.Cmd)

// What an App starts with, and what to open: see package setup.
type (
	Setup   = setup.Setup
	Options = setup.Options
)

// New returns the App at its start.
func New(s Setup) App { return newWith(s, screens()) }

// newWith is New with other screens.
func newWith(s Setup, all []shown) App {
	a := App{
		home: home{files: s.Home, bench: s.Home, demo: s.Demo}, physics: s.Physics, rack: newRack(s), shop: workshop.New(s.Shop),
		making: making{solve: screen.Searching()}, seeing: seeing{unit: s.Unit}, keys: keysOf(all), handlers: handlers(), screens: all,
		clock: clock{now: s.Now, later: s.Later, stopped: s.Stopped},
		frame: frame{canvas: paint.New(0, 0, s.Profile), wood: &panel.Palette{}, width: min(s.Width, mostWidth), height: min(s.Height, mostHeight)},
	}
	for i := range all {
		all[i].title = all[i].Title()
		if all[i].listed() {
			a.handlers[keymap.To(all[i].title, i).ID] = goTo(all[i].title)
		}
	}
	if a.now == nil {
		a.now = time.Now
	}
	if a.later == nil {
		a.later = func(d time.Duration, msg tea.Msg) tea.Cmd {
			return tea.Tick(d, func(time.Time) tea.Msg { return msg })
		}
	}
	a, _ = a.open(s.Open).tellAll(a.shop.Told())
	if len(s.Demo) > 0 {
		a = a.say("Demo market (" + a.keys.KeyOf(keymap.To(keymap.PilePlace, 0).ID) + ": its whole pile). Only " + a.keys.KeyOf(keymap.Save) + " and your first rack piece write")
	}
	if !s.Mended.None() {
		a = a.say(s.Mended.String())
	}
	return a.offer(opening.Found{Patterns: s.Saved, Kept: s.Kept})
}

// Init waits for nothing but a stop: what the first screen needs was read before.
func (a App) Init() tea.Cmd { return a.stopped }

// open puts a pattern on the bench.
func (a App) open(s store.Saved) App {
	a.doc = benched{late: a.doc.late, Document: document.Document{Serial: a.doc.Serial + 1, Stem: s.Stem, Base: s.Version, History: edit.NewHistory(edit.New(s.Pattern))}}
	if s.Stem != "" && !a.files.Owns(s) {
		a.doc.File = s.File
	}
	a.at = a.tab()
	a, cmd := a.tellAll(screen.Opened{})
	return a.asks(cmd).checked()
}

// checked computes the report of what lies on the bench.
func (a App) checked() App {
	report, late, cmd := a.doc.late.Again(a.physics, a.state().Pattern, a.unit)
	a.doc.report, a.doc.late, a.doc.stale = report, late, false
	return a.asks(cmd).seen(screen.Recomputed{})
}

func (a App) state() edit.State { return a.doc.State() }

// Update takes one message.
func (a App) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	a, cmd := a.route(msg)
	a = a.ownBegins()
	if len(a.soon) > 0 {
		cmd, a.soon = tea.Batch(append(a.soon, cmd)...), nil
	}
	return a, cmd
}

// route brings a message to what it is for.
func (a App) route(msg tea.Msg) (App, tea.Cmd) {
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
		return a.keepNow(msg.again)
	case document.KeptMsg:
		return a.kept(msg)
	case document.SavedMsg:
		return a.saved(msg)
	case document.Booking:
		return a.booked(msg)
	case document.RackSavedMsg:
		return a.rackSaved(msg)
	case workshop.SavedMsg:
		return a.shopSaved(msg)
	case document.RackReadMsg:
		return a.rackRead(msg)
	case opening.Found:
		return a.listed(msg)
	case document.TickedMsg:
		if msg.Err != nil {
			a = a.fail(msg.Err)
		}
		next, write := a.ticking.Took(a.files, msg)
		a.ticking = next
		return a, beside(write)
	case exporting.WrittenMsg:
		if msg.Err != nil {
			return a.fail(msg.Err), nil
		}
		return a.say(msg.String()), nil
	case benchKeptMsg:
		return a.benchKept(msg)
	case term.StaysMsg:
		return a.refuse(msg.Err.Error()), nil
	case reporting.Done:
		if a.doc.late.Ended(msg) && !a.doc.stale {
			a.doc.report = msg.Result
			a = a.seen(screen.Recomputed{})
		}
		return a, nil
	case failedMsg:
		return a.fail(msg.err), nil
	default:
		return a.tellAll(msg)
	}
}

// inView tells that another strip is chosen, or the window another, unless the pattern is
// still to be computed.
func (a App) inView() App {
	if a.doc.stale {
		return a
	}
	return a.seen(screen.Chosen{})
}

// context returns what screens are told.
func (a App) context() screen.Context {
	title := cmp.Or(a.state().Pattern.Name, a.doc.Stem, "new pattern")
	_, canUndo := a.doc.History.NextUndo()
	canUndo = canUndo || a.replaced.Of(a.doc.Document) != nil
	switch own, has := a.screens[a.at].Screen.(screen.Undoer); {
	case has:
		canUndo = own.CanUndo()
	case a.here() == rackview.Place:
		_, canUndo = a.rack.History.NextUndo()
	case a.here() == settings.Place:
		canUndo = a.shop.CanUndo()
	}
	return screen.Context{
		State: a.state(), Title: title, Dirty: a.doc.History.Dirty(), CanUndo: canUndo, Demo: a.onDemo(),
		Report: a.doc.report, Physics: a.physics, Allow: check.Allowances(a.physics.Shop()), Rack: a.rack.History.Now(), RackDemo: a.rack.Demo,
		Unit: a.unit, Season: a.season, Keys: a.keys, Wood: a.wood, Stamp: a.stamp(), Batch: a.batch, Plan: a.plan,
		Window: screen.Window{Body: a.body(), At: a.here(), Covered: a.overlay != nil}, Now: a.now(),
		Beside: screen.Beside{Solve: a.solve, Teller: screen.Teller{Files: a.files, Clock: a.now}},
	}
}

// stamp returns the stamp of the present state.
func (a App) stamp() screen.Stamp {
	of := screen.Stamp{Stem: a.doc.RecoveryStem(), Pattern: a.doc.History.Revision(), Rack: a.rack.History.Revision(), Shop: a.shop.Turns()}
	return of.Made(a.batch)
}

// onDemo reports whether what lies on the bench is the demo's and not the maker's.
func (a App) onDemo() bool {
	return slices.ContainsFunc(a.demo, func(s store.Saved) bool { return s.Stem == a.doc.Stem }) && a.doc.Base == store.Absent
}

func (a App) say(text string) App {
	a.notice = screen.Notice{Text: text, Role: paint.RoleUnknown}
	return a
}

func (a App) refuse(text string) App {
	a.notice = screen.Notice{Text: text, Role: paint.RoleError}
	return a
}
