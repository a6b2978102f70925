package screen

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
)

// A Screen is one of the program's screens.
type Screen interface {
	// Title returns its name, as the line at the bottom has it: where its keys hold.
	Title() keymap.Place
	// Keys lists what can be done on it.
	Keys() []keymap.Action
	// Update takes what the screen is told, and returns the screen after it with what it
	// asks for. It is told what stands below, and whatever comes of what it asked for;
	// what it does not know it leaves alone.
	Update(ctx Context, msg tea.Msg) (Screen, []Request)
	// Draw draws it into r.
	Draw(c *paint.Canvas, r paint.Rect, ctx Context)
}

// A Busy screen says what it goes on with while another is shown; nothing: with nothing.
type Busy interface{ Busy() string }

// An Undoer is a screen with steps of its own: while it is shown, undo and redo go through
// them.
type Undoer interface{ CanUndo() bool }

// A Counter counts what there is to see on its screen: the line at the bottom says it
// behind the name.
type Counter interface{ Count(check.Report) int }

// What a screen is told. Do, Enter, Press and Wheel are for the screen that is meant;
// Chosen and Recomputed for the bench and the one that is shown; the others for every screen.
type (
	// Do asks for an action of its keys, by key or by search.
	Do struct{ ID keymap.ID }
	// Enter says that the screen is gone to.
	Enter struct{}
	// Press is a press of the mouse at a cell.
	Press struct{ X, Y int }
	// Wheel is a turn of the mouse's wheel.
	Wheel struct{ Up, Ctrl, Shift bool }

	// Release says that the mouse was let go at a cell.
	Release struct{ X, Y int }
	// Chosen says that another strip is chosen, or that the window has another size.
	Chosen struct{}
	// Recomputed says that what lies on the bench was computed anew.
	Recomputed struct{}
	// Opened says that another pattern lies on the bench.
	Opened struct{}
	// RackChanged says that the rack is another.
	RackChanged struct{}
	// Workshop gives the settings of the workshop that counts, at the start and when they
	// are others.
	Workshop struct {
		Settings []store.Setting
		Demo     bool // the demo's: the maker's own begins with the first piece, pattern or setting
	}
	// LayOut asks for layouts of what the rack holds: new ones, or ways to make the bench's
	// pattern again.
	LayOut struct{ Again bool }
	// MadeAgain says that as many copies as in a batch before are to be planned, and in
	// words which that was.
	MadeAgain struct {
		Copies int
		Words  string
	}
	// PutRow asks the bench for a line of strips; Text is what it begins with.
	PutRow struct{ Text string }
	// ReadPhoto asks for the colours of entries of the rack in a photo.
	ReadPhoto struct {
		File string
		IDs  []string
	}
	// Undone asks a screen with steps of its own to take the last one back, or to make it again;
	// Bench: to bring back what lay on the bench before the screen opened another.
	Undone struct{ Redo, Bench bool }
	// SaveNow asks Keepers to save what is in no file.
	SaveNow struct{}
	// WantSheet asks for the sheet for the bench, once there is a plan of the present state.
	WantSheet struct{ File string }
)

// By returns which way the wheel goes down a list: -1 up, 1 down.
func (w Wheel) By() int {
	if w.Up {
		return -1
	}
	return 1
}
