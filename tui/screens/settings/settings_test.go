package settings_test

import (
	"testing"

	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/settings"
)

func told(t *testing.T, ctx screen.Context) screen.Screen {
	t.Helper()
	s, _ := settings.Screen{}.Update(ctx, screen.Workshop{Settings: (store.ShopFile{}).Settings()})
	return s
}

// Whatever is done on it, it is drawn within its rectangle; so it is before it is told of
// the workshop.
func TestInside(t *testing.T) {
	ctx := screentest.Demo(t, settings.Screen{}.Keys()...)
	screentest.Inside(t, told(t, ctx), ctx)
	screentest.Drawn(80, 21, func(c *paint.Canvas, r paint.Rect) { settings.Screen{}.Draw(c, r, ctx) })
}

// A press chooses the setting that it is on.
func TestPress(t *testing.T) {
	ctx := screentest.Demo(t, settings.Screen{}.Keys()...)
	ctx.Window.Body = paint.Rect{W: 80, H: 21}
	s := told(t, ctx)
	draw := func() string {
		return screentest.Drawn(80, 21, func(c *paint.Canvas, r paint.Rect) { s.Draw(c, r, ctx) })
	}
	s, _ = s.Update(ctx, screen.Press{X: 5, Y: screentest.RowOf(t, draw(), "crosscut")})
	screentest.RowOf(t, draw(), "kerf.crosscut: width of the saw cut across the grain")
}
