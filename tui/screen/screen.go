// Package screen is what the root and its screens share: what a screen is and is told,
// and what it asks for.
//
// A screen is a value. It holds its own state, draws what it is told into the rectangle
// it is given, and holds nothing of the document; the root alone changes that. Screens
// never import one another.
package screen

import (
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
)

// A Context is what a screen is told: the document and what was computed of it, the rack,
// what is made together, and where on the terminal it stands.
type Context struct {
	State    edit.State
	Title    string // the pattern's name, or its stem
	Dirty    bool   // there is something to save
	CanUndo  bool
	Demo     bool // the built-in demo, since the home is empty
	Report   check.Report
	Physics  movement.Physics
	Allow    edit.Allowances
	Rack     rack.Rack
	RackDemo bool // the rack is the demo's: the maker's own begins with what is added first
	Unit     length.Unit
	Season   Season
	Keys     keymap.Map
	Wood     *panel.Palette // shades of timbers, kept from frame to frame
	Stamp    Stamp          // of the present state
	Batch    Batch
	Plan     Plan // the last one
	Window   Window
	Now      time.Time
	Beside   Beside // what its jobs go by
}

// A Window is where the screens stand, and which of them is seen.
type Window struct {
	Body    paint.Rect   // what a screen draws into
	At      keymap.Place // of the screen that is shown
	Covered bool         // something lies over it
}

// Lookup finds timbers by what a maker says: those of the groups first, then those of the
// rack, then those of the pattern.
func (ctx Context) Lookup(first ...[]string) rack.Lookup {
	var ofPattern []string
	for _, s := range ctx.State.Pattern.Strips {
		ofPattern = append(ofPattern, s.Species)
	}
	return rack.NewLookup(ctx.Physics.Table(), append(slices.Clip(first), ctx.Rack.Species(), ofPattern)...)
}

// A Notice is one line that says what was done, or why it was not.
type Notice struct {
	Text string
	Role paint.Role
}

// A Season is what the figures on the screen are of.
type Season int

// The choices, in the order in which one key goes through them.
const (
	Worse Season = iota // of the two, by glue line
	Dry
	Humid
	seasonCount
)

// Next returns the choice after s.
func (s Season) Next() Season { return (s + 1) % seasonCount }

// String returns the choice in words.
func (s Season) String() string {
	names := [seasonCount]string{"worse season", "dry season", "humid season"}
	if s < 0 || s >= seasonCount {
		return fmt.Sprintf("season(%d)", int(s))
	}
	return names[s]
}

// LineFigures are those of a glue line in a season, with the levels of how it moves
// and of its moisture gap, and the worse of the two.
type LineFigures struct {
	StepUM, StrainPct float64
	Season            movement.Season
	Moves, Gap, Level pattern.Level
}

// Of returns the figures of a glue line in the chosen season.
func (ctx Context) Of(l movement.Line) LineFigures {
	f := LineFigures{StepUM: l.StepUM, StrainPct: l.StrainPct, Season: l.Season}
	if ctx.Season != Worse {
		f.Season = map[Season]movement.Season{Dry: movement.Dry, Humid: movement.Humid}[ctx.Season]
		f.StepUM, f.StrainPct = l.In[f.Season].StepUM, l.In[f.Season].StrainPct
	}
	f.Moves, f.Gap = ctx.Physics.Levels(f.StepUM, f.StrainPct, l.GapPct)
	f.Level = max(f.Moves, f.Gap)
	return f
}

// Letters returns the two letters of a timber, or ?? where the table lacks it.
func (ctx Context) Letters(key string) string {
	if s, ok := ctx.Physics.Table().Get(key); ok && s.Letters != "" {
		return s.Letters
	}
	return "??"
}

// Name returns the name of a timber, or its key.
func (ctx Context) Name(key string) string {
	if s, ok := ctx.Physics.Table().Get(key); ok {
		return s.Name
	}
	return key
}

// Looks names the strips whose end grain to look at, the most useful first; it is empty
// where there are none.
func (ctx Context) Looks() string {
	if len(ctx.Report.Figures.Look) == 0 {
		return ""
	}
	var strips []int
	for _, l := range ctx.Report.Figures.Look {
		strips = append(strips, l.Strip)
	}
	return tell.Numbered("strip", strips)
}

// Role returns the look of a level.
func Role(l pattern.Level) paint.Role {
	switch l {
	case pattern.TakeCare:
		return paint.RoleCare
	case pattern.TooMuch:
		return paint.RoleMuch
	default:
		return paint.RoleFine
	}
}

// Mark returns the mark of a glue line of level l: `,` fine, `!` take care, `X` too
// much, `?` where unknown rings leave it open, `-` where there is no figure.
func Mark(l movement.Line, level pattern.Level) panel.Mark {
	m := panel.Mark{Rune: ',', Role: Role(level)}
	switch {
	case !l.Known:
		m.Rune = '-'
	case !l.Settled:
		m.Rune = '?'
	case level == pattern.TakeCare:
		m.Rune = '!'
	case level == pattern.TooMuch:
		m.Rune = 'X'
	}
	return m
}

// An Overlay lies over the screen until it is done: a list, a field, the help.
type Overlay interface {
	// Draw draws the overlay over r.
	Draw(c *paint.Canvas, r paint.Rect, ctx Context)
	// Key takes one key and returns the overlay after it, and what came of it.
	Key(k tea.KeyMsg, ctx Context) (Overlay, Outcome)
	// Press takes a press of the mouse at a cell, likewise; r is where it was drawn.
	Press(x, y int, r paint.Rect, ctx Context) (Overlay, Outcome)
}

// An Outcome says what came of a key in an overlay.
type Outcome struct {
	Closed    bool // it is done
	Value     any  // what was chosen or typed; nil where it was closed without
	Meanwhile any  // a value of one that is not done; nil: there is none
}
