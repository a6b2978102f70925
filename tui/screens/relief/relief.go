// Package relief is the screen that shows how the section of the panel stands in the dry and
// the humid season, face by face: to scale across, heights magnified, live as strips move.
//
// What it shows is worked out beside the screen and belongs to one state of the bench; until
// that of the present state has come, what was worked out before stays in view and says so.
package relief

import (
	"context"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/relief"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// A Screen is the relief of the panel on the bench. It lies over the bench, whose strips are
// chosen and moved on it too. The zero value has worked nothing out.
type Screen struct {
	running job.Job[Worked, Worked]
	works   bool
	asked   state
	shown   Worked
	face    relief.Face // that is drawn where there is room for one
	numbers bool        // in place of the drawing
	wetter  relief.Wetter
}

// A state is what a relief is of.
type state struct {
	stem          string
	pattern, shop int // revisions
	wetter        relief.Wetter
}

// Worked is what was worked out of one state. The zero value is nothing.
type Worked struct {
	have    bool
	of      state
	Pattern pattern.Pattern
	Panel   relief.Panel
	Seasons []relief.Season
	Turn    relief.Turn // that is worth its while; of strip 0: none
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return keymap.ReliefPlace }

// Shown returns what the screen shows, and Works whether more is to come.
func (s Screen) Shown() Worked { return s.shown }

// Works reports whether the relief of the present state is still to come.
func (s Screen) Works() bool { return s.works }

// Update has the relief of the bench worked out whenever that is another.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(s, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter, screen.Recomputed:
		return s.ask(ctx)
	case screen.Opened:
		s.running.Stop()
		return Screen{face: s.face, numbers: s.numbers}, nil
	case job.Progress[Worked]:
		if s.running.Sent(msg) {
			s.shown = msg.At
			return s, []screen.Request{screen.Run{Cmd: s.running.Next()}}
		}
	case job.Done[Worked]:
		if s.running.Ended(msg) {
			s.shown, s.works = msg.Result, false
		}
	}
	return s, nil
}

// longest is how long it may take to try all turns.
const longest = 20 * time.Second

// ask has the relief of the present state worked out, unless it is or was.
func (s Screen) ask(ctx screen.Context) (screen.Screen, []screen.Request) {
	now := state{ctx.Stamp.Stem, ctx.Stamp.Pattern, ctx.Stamp.Shop, s.wetter}
	if s.shown.have && s.shown.of == now || s.works && s.asked == now {
		return s, nil
	}
	s.running.Stop()
	work := Worked{have: true, of: now, Pattern: ctx.State.Pattern}
	physics, wetter := ctx.Physics, s.wetter
	var cmd tea.Cmd
	s.running, cmd = job.Start(longest, func(ctx context.Context, _ <-chan time.Time, report func(Worked)) Worked {
		work.Panel = relief.Of(physics, work.Pattern, wetter)
		work.Seasons = work.Panel.Seasons()
		report(work)
		if turn, ok := work.Panel.BestTurn(ctx); ok {
			work.Turn = turn
		}
		return work
	})
	s.works, s.asked = true, now
	return s, []screen.Request{screen.Run{Cmd: cmd}}
}

// current reports whether what is shown is of the present state.
func (s Screen) current() bool { return s.shown.have && !(s.works && s.shown.of != s.asked) }

// season returns the place of the season that is drawn where there is room for one.
func (s Screen) season(ctx screen.Context) int {
	switch ctx.Season {
	case screen.Dry:
		return 0
	case screen.Humid:
		return 1
	default:
		return relief.WorseFor(s.shown.Seasons, s.face)
	}
}

// take makes the turn that is worth its while.
func (s Screen) take(ctx screen.Context) []screen.Request {
	turn := s.shown.Turn
	if !s.current() || turn.Strip == 0 {
		return []screen.Request{screen.Say("no turn of one strip closes the gap by much")}
	}
	return screen.Apply(check.Remedy{Kind: check.Turn, Strip: turn.Strip, Text: turn.Text(ctx.Unit)}, ctx)
}

// flip shows the other face.
func (s Screen) flip(screen.Context) Screen {
	s.face = relief.Under - s.face
	return s
}

// number shows numbers in place of the drawing, or the drawing again.
func (s Screen) number(screen.Context) Screen {
	s.numbers = !s.numbers
	return s
}

// wet assumes that the next face is a point of moisture wetter: neither, the visible face,
// the underside.
func (s Screen) wet(ctx screen.Context) (screen.Screen, []screen.Request) {
	said := ""
	switch s.wetter {
	case relief.Wetter{}:
		s.wetter = relief.Wetter{Face: relief.Top, Points: 1}
	case relief.Wetter{Face: relief.Top, Points: 1}:
		s.wetter = relief.Wetter{Face: relief.Under, Points: 1}
	default:
		s.wetter, said = relief.Wetter{}, "both faces of one moisture"
	}
	if said == "" {
		said = "assumed: " + s.wetter.String()
	}
	next, asked := s.ask(ctx)
	return next, append(asked, screen.Say(said))
}
