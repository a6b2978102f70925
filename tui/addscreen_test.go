package tui

import (
	"fmt"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// A tally is a screen such as a package under tui/screens might bring: it counts what it is
// told, changes the bench, asks for a name and runs something beside the screen.
type tally struct {
	count int
	named string
	ran   bool
}

type (
	taken string   // what was typed
	back  struct{} // what ran beside the screen
)

func (tally) Title() keymap.Place { return "tally" }

func tallies() screen.Table[tally] {
	on := keymap.Group{Heading: "on the tally", At: "tally"}
	wheel := func(s tally, by int, _ screen.Context) tally {
		s.count += by
		return s
	}
	return screen.Table[tally]{Wheel: wheel, Entries: []screen.Entry[tally]{
		screen.Does(on.Bind("tally-more", "more", "count one more", 1, "+"), func(s tally, _ screen.Context) (screen.Screen, []screen.Request) {
			s.count++
			return s, []screen.Request{screen.Say("one more")}
		}),
		screen.Asks(on.Bind("tally-twin", "twin", "put in a twin of the strip", 2, "t"), func(tally, screen.Context) []screen.Request {
			return []screen.Request{screen.Edit{Make: edit.Twin}}
		}),
		screen.Asks(on.Bind("tally-name", "name", "call the tally so", 3, "n"), func(tally, screen.Context) []screen.Request {
			return ask.Show(ask.New("call it", "", ask.Name), func(v string) tea.Msg { return taken(v) })
		}),
		screen.Asks(on.Bind("tally-run", "run", "run something beside the screen", 4, "r"), func(tally, screen.Context) []screen.Request {
			return []screen.Request{screen.Run{Cmd: func() tea.Msg { return back{} }}}
		}),
	}}
}

func (tally) Keys() []keymap.Action { return tallies().Actions() }

func (s tally) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := tallies().Take(s, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter:
		s.count = 100
	case taken:
		s.named = string(msg)
	case back:
		s.ran = true
	}
	return s, nil
}

func (s tally) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	c.Text(r.Row(0), fmt.Sprintf("counted %d of %q, ran: %v", s.count, s.named, s.ran), paint.Style{})
	screen.DrawFooter(c, tallies().Footer(s, r, ctx))
}

// A screen is one package and one line: added to the list it has its name at the bottom,
// its keys, help, search and footer, may change the bench as undo steps, ask, and run jobs.
func TestAScreenIsOneLine(t *testing.T) {
	d := startWith(t, demoSetup(t), append(screens(), shown{Screen: tally{}}), 120, 40)
	d.keys("shift+tab").shows("[TALLY]", "made", `counted 100 of ""`, "+ more", "t twin")
	d.keys("+").shows("one more", "counted 101")
	strips := len(d.app.state().Pattern.Strips)
	if d.keys("t"); len(d.app.state().Pattern.Strips) != strips+1 {
		t.Error("it changes nothing on the bench")
	}
	if d.keys("u").shows("undone: twin"); len(d.app.state().Pattern.Strips) != strips {
		t.Error("its change is no undo step")
	}
	d.keys("n").shows("call it").text("beans").keys("enter").shows(`of "beans"`)
	d.keys("r").shows("ran: true")
	d.keys("?").shows("on the tally", "count one more").keys("esc")
	d.keys("tab /").text("count one more").keys("down enter").shows("[TALLY]", "one more")
	d.send(tea.MouseMsg{X: 1, Y: 1, Button: tea.MouseButtonWheelUp, Action: tea.MouseActionPress}).shows("counted 100")
	for y, line := range strings.Split(d.screen(), "\n") {
		if x := strings.Index(line, "+ more"); x >= 0 {
			d.send(tea.MouseMsg{X: x, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress}).shows("counted 101", "one more")
			break
		}
	}
	d.keys("v").shows("v does nothing here; on the bench: layouts")
}
