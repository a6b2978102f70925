package layouts

import (
	"fmt"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/page"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A Screen is what is laid out for the maker, and what was asked for it. It lies over the
// bench, and its search goes on when it does not. The zero value has asked for nothing.
type Screen struct {
	again   bool   // the bench's pattern again, in place of new layouts
	of      string // the document that the wishes are for
	wish    wish
	running job.Job[progress, answer]
	works   bool
	further bool     // running asks for more, unlike those shown
	asked   Question // what is running
	began   time.Time
	found   suggest.Progress
	shown   Shown
	at      int // the chosen layout, or way to loosen
	strip   int // the chosen strip of it, from 0; none: -1
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Works reports whether a search is at work, Shown returns what it found so far.
func (s Screen) Works() bool { return s.works }

// Shown returns the answer, or as much of one as there is yet.
func (s Screen) Shown() Shown { return s.shown }

// Stop ends the search with the best so far.
func (s Screen) Stop() { s.running.Stop() }

// Busy says how far the search is that goes on; nothing where none does.
func (s Screen) Busy() string {
	if !s.works {
		return ""
	}
	return fmt.Sprintf("searching, %d found", s.found.Layouts)
}

// Draw draws the gallery into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) { draw(c, r, s.scene(ctx)) }

// A scene is what the drawing goes by.
type scene struct {
	screen.Context
	s     Screen
	q     Question // what would be asked for now
	wrong string   // why nothing can be asked for
	stale bool     // the bench, the rack or the wishes have changed since
}

// scene returns what the drawing goes by.
func (s Screen) scene(ctx screen.Context) scene {
	q, wrong := s.Question(ctx)
	return scene{ctx, s, q, wrong, s.shown.Have && !s.shown.Of.Alike(q)}
}

// Question returns what would be asked for now, or why nothing can be.
func (s Screen) Question(ctx screen.Context) (Question, string) {
	p := ctx.State.Pattern
	q := Question{Again: s.again, Rack: ctx.Stamp.Rack}
	if s.again {
		q.Same = remake.Request{Pattern: p, Stem: ctx.Stamp.Stem, Copies: ctx.Batch.Made(), Rack: ctx.Rack, Level: s.wish.level, Answers: s.wish.ways}
		if len(p.Strips) == 0 {
			return q, "there is no strip on the bench: open the pattern that is to be made again"
		}
		return q, ""
	}
	q.Ask = s.wish.ask(p, ctx.Report.Figures.Width)
	q.Ask.Rack = ctx.Rack
	switch key := ctx.Keys.KeyOf; {
	case q.Ask.Width <= 0:
		return q, "set how wide the panel should be first: " + key("set-panel-width") + " on the bench"
	case q.Ask.Length <= 0 || q.Ask.Thickness <= 0:
		return q, "set how long and thick the panel should be first: " + key("set-panel-length") + " and " + key("set-thickness") + " on the bench"
	case len(q.Ask.Rack.Pieces)+len(q.Ask.Rack.Strips) == 0:
		return q, "the rack is empty: " + key(keymap.RackAdd) + " on the rack adds timber"
	}
	if c := q.Ask.Clash(ctx.Physics); c != nil {
		return q, c.Wrong + ": " + c.Hint
	}
	return q, ""
}

func say(text string) []screen.Request { return []screen.Request{screen.Say(text)} }

// Update asks, goes through what was found, and has the chosen layout laid on the bench.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	switch msg := msg.(type) {
	case screen.LayOut:
		return s.open(msg.Again, ctx)
	case screen.Do:
		if ctx.Window.At != Place { // it is opened first
			return s.open(s.again, ctx)
		}
		return table().Do(s, ctx, msg.ID)
	case screen.Opened:
		s.running.Stop()
	case screen.Press:
		if id, ok := actionAt(msg.X, msg.Y, ctx.Window.Body, s.scene(ctx)); ok {
			return s, []screen.Request{screen.Act{ID: id}}
		}
		if at, ok := layoutAt(msg.X, msg.Y, ctx.Window.Body, s.scene(ctx)); ok {
			s.at, s.strip = at, -1
		}
	case screen.Wheel:
		return s.goBy(msg.By(), ctx), nil
	case screen.Then[Screen]:
		return msg(s, ctx)
	case job.Progress[progress]:
		return s.foundSoFar(msg, ctx)
	case job.Done[answer]:
		return s.done(msg, ctx)
	}
	return s, nil
}

// open opens the gallery on new layouts, or on ways to make the bench's pattern again.
func (s Screen) open(again bool, ctx screen.Context) (screen.Screen, []screen.Request) {
	if s.of != ctx.Stamp.Stem || s.wish.layouts == 0 {
		s.running.Stop()
		s = Screen{of: ctx.Stamp.Stem, wish: usualWish(ctx)}
	}
	if s.again != again {
		s.running.Stop()
		s.works, s.again, s.shown, s.at = false, again, Shown{}, 0
	}
	s.strip = -1
	there := []screen.Request{screen.Go{To: Place}}
	q, wrong := s.Question(ctx)
	if wrong != "" || s.works && s.asked.Alike(q) || s.shown.Have && !s.shown.Part && s.shown.Of.Alike(q) {
		return s, there
	}
	next, asked := s.askAnew(ctx)
	return next, append(there, asked...)
}

// close goes back to the bench; a search goes on.
func (s Screen) close(ctx screen.Context) []screen.Request {
	back := []screen.Request{screen.Go{To: keymap.Bench}}
	if s.works {
		back = append(back, screen.Say("the search continues: "+ctx.Keys.KeyOf(keymap.LayOut)+" shows it again"))
	}
	return back
}

// goBy chooses another layout, or way to loosen.
func (s Screen) goBy(by int, _ screen.Context) Screen {
	n := len(s.shown.Laid)
	if n == 0 {
		n = len(s.shown.loosen)
	}
	s.at, s.strip = max(0, min(s.at+by, n-1)), -1
	return s
}

// goStrip chooses another strip of the chosen layout.
func (s Screen) goStrip(by int, _ screen.Context) Screen {
	if s.at >= len(s.shown.Laid) {
		return s
	}
	n := len(s.shown.Laid[s.at].Pattern.Strips)
	if s.strip < 0 && by < 0 {
		s.strip = n - 1
	} else {
		s.strip = max(0, min(s.strip+by, n-1))
	}
	return s
}

// take puts the chosen layout on the bench as one undo step, or loosens the condition
// that is chosen where there is none.
func (s Screen) take(ctx screen.Context) (screen.Screen, []screen.Request) {
	q, wrong := s.Question(ctx)
	switch {
	case wrong != "":
		return s, []screen.Request{screen.Refuse(wrong)}
	case s.shown.Have && !s.shown.Of.Alike(q):
		return s, say("these are out of date: " + ctx.Keys.KeyOf(layAsk) + " searches again")
	case len(s.shown.Laid) == 0 && s.at < len(s.shown.loosen):
		return s.loosen(ctx)
	case s.at >= len(s.shown.Laid):
		return s, say("there is no layout to take yet")
	}
	chosen := s.shown.Laid[s.at]
	next := ctx.State
	if s.again {
		next.Pattern.Strips = chosen.Pattern.Strips
	} else {
		next.Pattern = s.shown.Of.Ask.Take(next.Pattern, chosen.Layout)
	}
	next.Selected = max(0, min(next.Selected, len(next.Pattern.Strips)-1))
	if next.Alike(ctx.State) {
		return s, say("the bench has that layout already")
	}
	s.wish.pins = nil // they are on the bench now
	return s, []screen.Request{
		screen.Go{To: keymap.Bench},
		screen.Edit{Make: func(edit.State) (edit.State, error) { return next, nil }},
		screen.Say("laid out as " + Name(s.at) + "; " + ctx.Keys.KeyOf(keymap.Undo) + " brings yours back"),
	}
}

// loosen makes the chosen condition less strict, and asks anew.
func (s Screen) loosen(ctx screen.Context) (screen.Screen, []screen.Request) {
	s.wish = s.shown.loosen[s.at].wish
	n := s.wish.copies
	if n == 0 {
		return s.askAnew(ctx)
	}
	s.wish.copies = 0
	b := ctx.Batch
	b.Copies = n
	return s.gather(b, ctx)
}

// tell tells all of the chosen layout.
func (s Screen) tell(ctx screen.Context) []screen.Request {
	lines := sentences(s.scene(ctx))
	if lines == nil {
		return say("there is no layout yet")
	}
	l := s.shown.Laid[s.at]
	switch {
	case s.again:
		lines = append(lines, worksteps.Lines(s.shown.Of.Same.Job(ctx.Physics, l.Same), l.Same.Plan, ctx.Name, ctx.Unit)...)
	case l.Layout.Plan != nil:
		lines = append(lines, worksteps.Lines(s.shown.Of.Ask.Job(ctx.Physics, l.Layout), *l.Layout.Plan, ctx.Name, ctx.Unit)...)
	}
	return []screen.Request{screen.Show{Overlay: page.New("layout "+Name(s.at), lines)}}
}
