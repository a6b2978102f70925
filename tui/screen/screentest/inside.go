package screentest

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/x/ansi"

	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// Inside fails where a screen draws outside of the rectangle that it is given, or not the
// same twice, at windows of sizes from the least on, while random actions of its own, presses and turns
// of the wheel come. Nothing that it asks for is done; actions that begin a job are to be
// left out.
func Inside(t *testing.T, s screen.Screen, ctx screen.Context, leftOut ...keymap.ID) {
	t.Helper()
	var ids []keymap.ID
	for _, a := range s.Keys() {
		if !slices.Contains(leftOut, a.ID) {
			ids = append(ids, a.ID)
		}
	}
	rng := rand.New(rand.NewPCG(5, 8))
	ctx.Window.At = s.Title()
	s, _ = s.Update(ctx, screen.Enter{})
	drawn := map[string]bool{}
	sizes := [][2]int{{60, 10}, {60, 14}, {76, 20}, {80, 21}, {100, 30}, {200, 60}, {240, 12}}
	for _, size := range sizes {
		ctx.Window.Body = paint.Rect{X: 3, Y: 2, W: size[0], H: size[1]}
		for range 25 {
			msg := tea.Msg(screen.Press{X: 3 + rng.IntN(size[0]+1), Y: 2 + rng.IntN(size[1]+1)})
			switch rng.IntN(4) {
			case 0:
				msg = screen.Wheel{Up: rng.IntN(2) == 0, Ctrl: rng.IntN(4) == 0, Shift: rng.IntN(4) == 0}
			case 1, 2:
				if len(ids) > 0 {
					msg = screen.Do{ID: ids[rng.IntN(len(ids))]}
				}
			}
			s, _ = s.Update(ctx, msg)
			frame := framed(t, s, ctx)
			if again := framed(t, s, ctx); again != frame {
				t.Fatalf("after %+v it is drawn twice and differs:\n%s\n%s", msg, frame, again)
			}
			drawn[frame] = true
		}
	}
	if len(drawn) < len(sizes) {
		t.Errorf("only %d frames differ: they are empty", len(drawn))
	}
}

// framed draws the screen into its rectangle with a margin about it, and fails where the
// margin is drawn on.
func framed(t *testing.T, s screen.Screen, ctx screen.Context) string {
	t.Helper()
	const blank = '~'
	r := ctx.Window.Body
	c := paint.New(r.X+r.W+4, r.Y+r.H+3, paint.None)
	c.Fill(c.Bounds(), blank, paint.Style{})
	c.Fill(r, ' ', paint.Style{})
	s.Draw(c, r, ctx)
	text := ansi.Strip(c.String())
	for y, line := range strings.Split(text, "\n") {
		cells := []rune(line)
		for x, cell := range cells {
			if out := x < r.X || x >= len(cells)-4 || y < r.Y || y >= r.Y+r.H; out && cell != blank {
				t.Fatalf("at %d by %d cells it draws at column %d of row %d outside of them:\n%s", r.W, r.H, x, y, text)
			}
		}
	}
	return text
}
