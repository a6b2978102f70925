package head_test

import (
	"strings"
	"testing"

	"example.com/oddments/tui/head"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
)

// Tabs stand one clear of the next, closer where what is to stand behind them would not find
// room; the one that is shown is told by its name too.
func TestTabs(t *testing.T) {
	all := []head.Tab{{Name: "bench", Screen: 0}, {Name: "rack", Shown: true, Screen: 1}, {Name: "findings", Count: 3, Screen: 4}}
	for _, c := range []struct {
		free int
		want string
	}{
		{10, " bench  [RACK]  findings 3"},
		{20, " bench [RACK] findings 3"},
	} {
		tabs := head.Tabs(paint.Rect{X: 1, W: 40, H: 1}, all, c.free)
		got := screentest.Drawn(42, 1, func(cv *paint.Canvas, _ paint.Rect) { head.DrawTabs(cv, tabs) })
		if got = strings.TrimRight(got, " "); got != c.want {
			t.Errorf("with %d cells behind them: %q", c.free, got)
		}
		for i, tab := range tabs {
			if i > 0 && tabs[i-1].Rect.Right() >= tab.Rect.X || tab.Screen != all[i].Screen {
				t.Errorf("%+v after %+v", tab, tabs[max(0, i-1)])
			}
		}
	}
}
