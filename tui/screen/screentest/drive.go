package screentest

import (
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Driver has a screen do things and does what it asks for, as the program would: it edits the
// bench and the rack, answers what is asked, and writes down the rest.
type Driver struct {
	T      testing.TB
	Screen screen.Screen
	Ctx    screen.Context
	Said   string           // last
	Refuse string           // why something was not done, last
	Asked  []screen.Request // that is neither of these, all of them
	before []edit.State     // of the edits that were made
	runs   []tea.Cmd        // what is to run beside the screen
	shows  []screen.Show
}

// Drive enters a screen.
func Drive(t testing.TB, s screen.Screen, ctx screen.Context) *Driver {
	t.Helper()
	ctx.Window.At = s.Title()
	if ctx.Window.Body == (paint.Rect{}) {
		ctx.Window.Body = paint.Rect{W: 80, H: 20}
	}
	d := &Driver{T: t, Screen: s, Ctx: ctx}
	d.Tell(screen.Enter{})
	return d
}

// Tell tells the screen something, and does what it asks for.
func (d *Driver) Tell(msg tea.Msg) {
	d.T.Helper()
	next, asked := d.Screen.Update(d.Ctx, msg)
	d.Screen = next
	for _, r := range asked {
		if !d.meet(r) {
			return
		}
	}
}

// Do does actions by their keys.
func (d *Driver) Do(keys ...string) {
	d.T.Helper()
	for _, key := range keys {
		d.Said, d.Refuse = "", ""
		i := slices.IndexFunc(d.Screen.Keys(), func(a keymap.Action) bool { return slices.Contains(a.Keys, key) })
		if i < 0 {
			d.T.Fatalf("nothing is done by %q", key)
		}
		d.Tell(screen.Do{ID: d.Screen.Keys()[i].ID})
	}
}

// meet does one thing that was asked for; false where a change was refused.
func (d *Driver) meet(r screen.Request) bool {
	d.T.Helper()
	switch r := r.(type) {
	case screen.Say:
		d.Said = string(r)
	case screen.Refuse:
		d.Refuse = string(r)
	case screen.Edit:
		next, err := r.Make(d.Ctx.State)
		if err != nil {
			d.Refuse = err.Error()
			return false
		}
		d.before = append(d.before, d.Ctx.State)
		d.state(next)
		if r.Then != nil {
			d.Tell(r.Then)
		}
	case screen.EditRack:
		d.Ctx.Rack = r.Next
		d.Ctx.RackDemo = d.Ctx.RackDemo && !r.Own
		d.Ctx.Stamp.Rack++
		d.Tell(screen.Recomputed{})
	case screen.Gather:
		d.Ctx.Batch = screen.Batch(r)
		d.Ctx.Stamp = d.Ctx.Stamp.Made(d.Ctx.Batch)
	case screen.Planned:
		d.Ctx.Plan = screen.Plan(r)
	case screen.Show:
		d.shows = append(d.shows, r)
	case screen.Run:
		d.runs = append(d.runs, r.Cmd)
	default:
		d.Asked = append(d.Asked, r)
	}
	return true
}

// state puts another state on the bench, and tells the screen.
func (d *Driver) state(next edit.State) {
	d.Ctx.State = next
	d.Ctx.Report = check.Of(d.Ctx.Physics, next.Pattern, d.Ctx.Unit)
	d.Ctx.Stamp.Pattern++
	d.Tell(screen.Recomputed{})
}

// Work runs what the screen has running beside it, to its end.
func (d *Driver) Work() {
	d.T.Helper()
	for len(d.runs) > 0 {
		cmd := d.runs[0]
		d.runs = d.runs[1:]
		if cmd == nil {
			continue
		}
		if msg := cmd(); msg != nil {
			d.Tell(msg)
		}
	}
}

// Works reports whether something is to run beside the screen.
func (d *Driver) Works() bool { return len(d.runs) > 0 }

// Undo takes the last edit back.
func (d *Driver) Undo() {
	d.T.Helper()
	if len(d.before) == 0 {
		d.T.Fatal("there is nothing to take back")
	}
	last := d.before[len(d.before)-1]
	d.before = d.before[:len(d.before)-1]
	d.state(last)
}

// Edits returns how many changes were made and not taken back.
func (d *Driver) Edits() int { return len(d.before) }

// Over returns what lies over the screen, as it is drawn; empty where nothing does.
func (d *Driver) Over() string {
	if len(d.shows) == 0 {
		return ""
	}
	return Drawn(80, 22, func(c *paint.Canvas, r paint.Rect) { d.shows[len(d.shows)-1].Overlay.Draw(c, r, d.Ctx) })
}

// Type types a text into what lies over the screen, in place of what stands there, and Enter.
func (d *Driver) Type(text string) {
	d.T.Helper()
	d.Press(tea.KeyMsg{Type: tea.KeyCtrlU})
	for _, r := range text {
		d.Press(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
	d.Press(tea.KeyMsg{Type: tea.KeyEnter})
}

// Press gives what lies over the screen one key.
func (d *Driver) Press(k tea.KeyMsg) {
	d.T.Helper()
	if len(d.shows) == 0 {
		d.T.Fatalf("nothing lies over the screen for %v; it said %q and refused %q", k, d.Said, d.Refuse)
	}
	at := len(d.shows) - 1
	show := d.shows[at]
	next, outcome := show.Overlay.Key(k, d.Ctx)
	value := outcome.Meanwhile
	if d.shows[at].Overlay = next; outcome.Closed {
		d.shows, value = d.shows[:at], outcome.Value
	}
	if value == nil || show.Then == nil {
		return
	}
	switch msg := show.Then(value).(type) {
	case nil:
	case screen.Request:
		d.meet(msg)
	default:
		d.Tell(msg)
	}
}

// Draw returns the screen in so many cells, without colours.
func (d *Driver) Draw(w, h int) string {
	d.Ctx.Window.Body = paint.Rect{W: w, H: h}
	return Drawn(w, h, func(c *paint.Canvas, r paint.Rect) { d.Screen.Draw(c, r, d.Ctx) })
}

// Shows fails where the screen does not show all texts at 80 columns.
func (d *Driver) Shows(texts ...string) {
	d.T.Helper()
	drawn := d.Draw(80, 22)
	for _, text := range texts {
		if !strings.Contains(drawn, text) {
			d.T.Errorf("no %q on\n%s", text, drawn)
		}
	}
}
