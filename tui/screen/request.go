package screen

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
)

// A Request is what a screen asks of the program. Requests are met at once and in their
// order; whatever a screen is told by them comes to it before the next.
type Request interface{ request() }

type (
	// Say says what was done.
	Say string
	// Refuse says why something was not done.
	Refuse string

	// Edit makes a change of the bench as one undo step. Where it is refused, that is said
	// and the requests behind it are dropped.
	Edit struct {
		Make  func(edit.State) (edit.State, error)
		Then  tea.Msg // told to the screen when it is made; nil: nothing
		Label string  // of the undo step; empty: the name of the action
	}
	// EditRack makes next the rack, as one undo step.
	EditRack struct {
		Next rack.Rack
		Own  bool // it is the maker's, where the rack is the demo's
	}
	// SetShop sets a key of the maker's workshop, as it was typed or to what is built in, as
	// one undo step.
	SetShop struct {
		Setting store.Setting
		Typed   string
		BuiltIn bool
	}
	// Gather has what is made together be this.
	Gather Batch
	// Planned gives the plan that was made, or takes it back where there is none.
	Planned Plan
	// Book books the plan that there is as done: rack and patterns are saved together.
	Book struct{}

	// Show lays an overlay over the screen; what Then makes of its value is told to the
	// screen, or met where it is a request. Then is not asked where it was closed without a
	// value; nil: nothing is told.
	Show struct {
		Overlay Overlay
		Then    func(value any) tea.Msg
	}
	// Withdrawn tells of a claim that broke and is not made; nil: of none.
	Withdrawn struct{ Told *mistake.Withdrawn }
	// Go goes to a screen.
	Go struct{ To keymap.Place }
	// Act makes an action as if its key were pressed.
	Act struct{ ID keymap.ID }
	// Tell tells every screen.
	Tell struct{ Msg tea.Msg }
	// Run runs something beside the screen; what comes of it is told to every screen.
	Run struct{ Cmd tea.Cmd }
	// Saved reads the saved patterns and the demo's, but for the one on the bench; what
	// Then makes of them is told to every screen.
	Saved struct{ Then func([]store.Saved) tea.Msg }
	// Open puts patterns that are not saved yet in the place of what lies on the bench, which is
	// kept: one on the bench, and those that are planned together with it. Then it goes to a
	// screen. Undo on the bench comes to the screen that asked, as Undone.
	Open struct {
		Saved store.Saved
		With  []Together
		To    keymap.Place // empty: where it is
		Back  bool         // what lay there before is brought back instead
	}
	// Filed tells of patterns that the screen has saved.
	Filed []store.Saved
	// Stored tells how a save of the screen's own went: the program may wait for it to leave.
	Stored struct{ Err error }
	// StepsDone reads which steps of a plan, which is known by Plan, are done; what Then makes
	// of their numbers is told to every screen.
	StepsDone struct {
		Plan string
		Then func(done []int) tea.Msg
	}
	// Tick keeps which steps of a plan are done.
	Tick store.Ticks
	// WriteSheet writes the sheet for the bench with the plan that there is.
	WriteSheet struct{ File string }
	// ExportSet asks for a file, and writes the sheet of all patterns of a job to it.
	ExportSet struct {
		Job   cutting.Job
		Plan  cutting.Plan
		Wants []orders.Want // that say what boards are worth
	}
)

func (Say) request()        {}
func (Refuse) request()     {}
func (Edit) request()       {}
func (EditRack) request()   {}
func (SetShop) request()    {}
func (Gather) request()     {}
func (Planned) request()    {}
func (Book) request()       {}
func (Show) request()       {}
func (Withdrawn) request()  {}
func (Go) request()         {}
func (Act) request()        {}
func (Tell) request()       {}
func (Run) request()        {}
func (Saved) request()      {}
func (Open) request()       {}
func (Filed) request()      {}
func (Stored) request()     {}
func (StepsDone) request()  {}
func (Tick) request()       {}
func (WriteSheet) request() {}
func (ExportSet) request()  {}
