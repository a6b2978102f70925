package screen_test

import (
	"slices"
	"testing"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// A counter is a screen that counts.
type counter int

const counting keymap.Place = "counting"

func counterTable() screen.Table[counter] {
	on := keymap.Group{Heading: "on the counter", At: counting}
	add := func(s counter, by int, _ screen.Context) counter { return s + counter(by) }
	return screen.Table[counter]{Offers: []keymap.ID{keymap.Undo}, Wheel: add, Entries: []screen.Entry[counter]{
		screen.Steps(on.Bind("more", "more", "count one more", 1, "+"), 1, add),
		screen.Asks(on.Bind("say", "say", "say the count", 2, "s"), func(s counter, _ screen.Context) []screen.Request {
			return []screen.Request{screen.Say("so many")}
		}),
		screen.Goes(on.Bind("none", "none", "count from none", 3, "0"), func(counter, screen.Context) counter { return 0 }).When(
			func(s counter, _ screen.Context) bool { return s > 0 }),
		screen.Does(on.Bind("copies", "copies", "make a copy more", 0, "c"), screen.Copies(1,
			func(s counter, b screen.Batch, _ screen.Context) (screen.Screen, []screen.Request) {
				return counter(b.Made()), []screen.Request{screen.Gather(b)}
			})),
	}}
}

func (counter) Title() keymap.Place   { return counting }
func (counter) Keys() []keymap.Action { return counterTable().Actions() }
func (s counter) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	next, asked, _ := counterTable().Take(s, ctx, msg)
	return next, asked
}
func (s counter) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	screen.DrawFooter(c, counterTable().Footer(s, r, ctx))
}

// The table does its actions and the wheel, and a press on the footer asks for the action
// whose key stands there.
func TestTable(t *testing.T) {
	ctx := screentest.Demo(t, counter(0).Keys()...)
	ctx.Window.Body = paint.Rect{W: 80, H: 20}
	for _, c := range []struct {
		msg   tea.Msg
		want  counter
		asked screen.Request
		taken bool
	}{
		{screen.Do{ID: "more"}, 6, nil, true},
		{screen.Do{ID: "say"}, 5, screen.Say("so many"), true},
		{screen.Do{ID: "none"}, 0, nil, true},
		{screen.Do{ID: "of another screen"}, 5, nil, true},
		{screen.Wheel{Up: true}, 4, nil, true},
		{screen.Wheel{}, 6, nil, true},
		{screen.Press{X: 1, Y: 18}, 5, screen.Act{ID: "more"}, true},
		{screen.Press{X: 1, Y: 3}, 5, nil, false},
		{screen.Enter{}, 5, nil, false},
	} {
		next, asked, taken := counterTable().Take(5, ctx, c.msg)
		if next != c.want || taken != c.taken || len(asked) > 1 || len(asked) == 1 && asked[0] != c.asked || len(asked) == 0 && c.asked != nil {
			t.Errorf("%+v: %v, %v, taken: %v", c.msg, next, asked, taken)
		}
	}
}

// Copies are made up to the most that may be.
func TestCopies(t *testing.T) {
	ctx := screentest.Demo(t)
	ctx.Batch.Copies = screen.MostCopies - 1
	next, asked, _ := counterTable().Take(5, ctx, screen.Do{ID: "copies"})
	if next != counter(screen.MostCopies) || len(asked) != 1 {
		t.Errorf("one more: %v, %v", next, asked)
	}
	ctx.Batch.Copies = screen.MostCopies
	if next, asked, _ := counterTable().Take(5, ctx, screen.Do{ID: "copies"}); next != counter(5) || len(asked) != 1 {
		t.Errorf("one too many: %v, %v", next, asked)
	}
}

// The footer offers what matters, and of what holds everywhere what the table lets it.
func TestFooterOfATable(t *testing.T) {
	ctx := screentest.Demo(t, counter(0).Keys()...)
	for _, c := range []struct {
		count counter
		undo  bool
		want  []keymap.ID
	}{
		{0, false, []keymap.ID{"more", "say", keymap.Unit, keymap.Search, keymap.Quit}},
		{1, false, []keymap.ID{"more", "say", "none", keymap.Unit, keymap.Search, keymap.Quit}},
		{1, true, []keymap.ID{"more", "say", "none", keymap.Undo, keymap.Unit, keymap.Search, keymap.Quit}},
	} {
		ctx.CanUndo, ctx.Dirty = c.undo, true
		var got []keymap.ID
		for _, p := range counterTable().Footer(c.count, paint.Rect{W: 120, H: 20}, ctx) {
			got = append(got, p.ID)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%+v: %v", c, got)
		}
	}
}
