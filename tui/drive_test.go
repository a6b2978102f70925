package tui

import (
	"context"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/layouts"
)

// A hand drives an App by keys, without a terminal and without waiting: commands are
// run at once, and what is to come later comes when the test says so.
type hand struct {
	t     *testing.T
	app   App
	later []tea.Msg
	quit  bool
}

// of returns a screen of the program.
func of[S screen.Screen](a App) S {
	for _, s := range a.screens {
		if found, ok := s.Screen.(S); ok {
			return found
		}
	}
	panic("there is no such screen")
}

// question returns what the gallery would ask for now.
func (d *hand) question() (layouts.Question, string) {
	return of[layouts.Screen](d.app).Question(d.app.context())
}

// onDemo starts on the demo in an empty home of its own.
func onDemo(t *testing.T, w, h int) *hand { return start(t, demoSetup(t), w, h) }

func demoSetup(t testing.TB) Setup {
	t.Helper()
	demo, timbers := screentest.Read(t)
	home := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = home.Close() })
	return Setup{
		Home: home, Demo: slices.Clone(demo.Patterns), Open: demo.Patterns[0], Rack: demo.Rack,
		Physics: movement.New(timbers, demo.Shop), Profile: paint.None,
		Now: func() time.Time { return time.Date(2026, 11, 25, 10, 0, 0, 0, time.UTC) },
	}
}

func start(t *testing.T, s Setup, w, h int) *hand {
	t.Helper()
	return startWith(t, s, screens(), w, h)
}

// startWith is start with other screens.
func startWith(t *testing.T, s Setup, all []shown, w, h int) *hand {
	t.Helper()
	d := &hand{t: t}
	s.Later = func(_ time.Duration, msg tea.Msg) tea.Cmd {
		d.later = append(d.later, msg)
		return nil
	}
	d.app = newWith(s, all)
	d.app.solve.Set = func(ctx context.Context, r sets.Request, opt sets.Options) (sets.Set, error) {
		opt.Rounds = 2 // a search to its usual end takes seconds
		return sets.Find(ctx, r, opt)
	}
	d.send(tea.WindowSizeMsg{Width: w, Height: h})
	return d
}

// send returns a message to the App and runs what it asks for.
func (d *hand) send(msg tea.Msg) *hand {
	d.t.Helper()
	model, cmd := d.app.Update(msg)
	d.app = model.(App)
	d.run(cmd)
	return d
}

func (d *hand) run(cmd tea.Cmd) {
	d.t.Helper()
	if cmd == nil {
		return
	}
	msg := cmd()
	switch msg := msg.(type) {
	case nil:
	case tea.QuitMsg:
		d.quit = true
	default:
		// Batches and sequences are lists of commands; the latter's type has no name here.
		if v := reflect.ValueOf(msg); v.Kind() == reflect.Slice && v.Type().Elem() == reflect.TypeFor[tea.Cmd]() {
			for i := range v.Len() {
				d.run(v.Index(i).Interface().(tea.Cmd))
			}
			return
		}
		d.send(msg)
	}
}

// aSecond lets come what was to come later.
func (d *hand) aSecond() *hand {
	d.t.Helper()
	later := d.later
	d.later = nil
	for _, msg := range later {
		d.send(msg)
	}
	return d
}

// keys presses keys, named as bubbletea names them, parted by blanks.
func (d *hand) keys(names string) *hand {
	d.t.Helper()
	for name := range strings.FieldsSeq(names) {
		d.send(key(name))
	}
	return d
}

// text types text into a field.
func (d *hand) text(s string) *hand {
	d.t.Helper()
	for _, r := range s {
		d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
	return d
}

// key makes the message of a key from its name.
func key(name string) tea.KeyMsg {
	if name == "space" {
		return tea.KeyMsg{Type: tea.KeySpace, Runes: []rune{' '}}
	}
	for k := tea.KeyType(-100); k < 200; k++ {
		if msg := (tea.KeyMsg{Type: k}); k != tea.KeyRunes && msg.String() == name {
			return msg
		}
	}
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(name)}
}

// screen returns the frame without escapes.
func (d *hand) screen() string { return ansi.Strip(d.app.View()) }

// shows fails unless the frame shows all of the texts.
func (d *hand) shows(texts ...string) *hand {
	d.t.Helper()
	frame := d.screen()
	for _, text := range texts {
		if !strings.Contains(frame, text) {
			d.t.Errorf("the screen does not show %q:\n%s", text, frame)
		}
	}
	return d
}
