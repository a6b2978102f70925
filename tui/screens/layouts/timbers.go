package layouts

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/panel"
	"example.com/oddments/tui/screen"
)

// A part is what a timber may have in layouts.
type part int

// The parts, in the order in which one key goes through them.
const (
	may part = iota
	must
	out
	parts // how many there are
)

// A timber is one of the rack with what is wished of it.
type timber struct {
	key  string
	part part
	pct  float64 // of the width at most; 0: any share
}

// timberList is the list of the rack's timbers, each of which is taken in or out. Its value
// is the list when enter sets it.
type timberList struct {
	all []timber
	at  int
}

// newTimberList returns the list as it is wished now.
func newTimberList(r rack.Rack, t taste) timberList {
	var l timberList
	for _, key := range r.Species() {
		one := timber{key: key}
		switch {
		case slices.Contains(t.with, key):
			one.part = must
		case slices.Contains(t.without, key):
			one.part = out
		}
		for _, s := range t.atMost {
			if s.Species == key {
				one.pct = s.Pct
			}
		}
		l.all = append(l.all, one)
	}
	return l
}

// on returns what is wished with the list as it was set.
func (l timberList) on(t taste) taste {
	t.with, t.without, t.atMost = nil, nil, nil
	for _, one := range l.all {
		switch {
		case one.part == out:
			t.without = append(t.without, one.key)
			continue
		case one.part == must:
			t.with = append(t.with, one.key)
		}
		if one.pct > 0 {
			t.atMost = append(t.atMost, suggest.Share{Species: one.key, Pct: one.pct})
		}
	}
	return t
}

// Key goes through the timbers; space takes one in or out, a digit says how much of it there
// may be at most.
func (l timberList) Key(k tea.KeyMsg, ctx screen.Context) (screen.Overlay, screen.Outcome) {
	const page, tenths = 5, 10
	a, _ := ctx.Keys.List(k.String())
	switch {
	case a.ID == keymap.Close:
		return l, screen.Outcome{Closed: true}
	case a.ID == keymap.Accept:
		return l, screen.Outcome{Closed: true, Value: l}
	case len(l.all) == 0:
		return l, screen.Outcome{}
	}
	l.at = max(0, min(l.at+a.ID.Steps(page), len(l.all)-1))
	l.all = slices.Clone(l.all)
	one := &l.all[l.at]
	if key := k.String(); k.Type == tea.KeySpace {
		one.part = (one.part + 1) % parts
	} else if len(key) == 1 && key[0] >= '0' && key[0] <= '9' {
		one.pct = float64(tenths * int(key[0]-'0'))
	}
	return l, screen.Outcome{}
}

// Press chooses the timber at a row, and takes it in or out where it is chosen already.
func (l timberList) Press(_, y int, r paint.Rect, _ screen.Context) (screen.Overlay, screen.Outcome) {
	at := l.top(r) + y - r.Y - 1
	switch {
	case y <= r.Y || y >= r.Bottom()-1 || at >= len(l.all):
	case at == l.at:
		l.all = slices.Clone(l.all)
		l.all[at].part = (l.all[at].part + 1) % parts
	default:
		l.at = at
	}
	return l, screen.Outcome{}
}

// top returns the first timber in view.
func (l timberList) top(r paint.Rect) int { return screen.Top(l.at, len(l.all), r.H-2) }

// says is what is wished of a timber, in a few cells.
func (t timber) says() string {
	words := [parts]string{"in", "must", "out"}
	if t.pct > 0 && t.part != out {
		return fmt.Sprintf("%s, %g %% at most", words[t.part], t.pct)
	}
	return words[t.part]
}

// Draw draws the list over r: what is wished, colour, letters, name, and how much there is.
func (l timberList) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	const swatch, wished = 4, 18
	screen.DrawPage(c, r, "Timbers", "Space in, must, out   1-9 at most 10-90 %, 0 any   Enter sets", len(l.all), l.top(r), func(i int, row paint.Rect) {
		one := l.all[i]
		mark, style := screen.Marked(c, i == l.at)
		if one.part == out && i != l.at {
			style = c.Role(paint.RoleFaint)
		}
		c.Fill(row, ' ', style)
		c.TextFit(row, mark+one.says(), style)
		_, rest := row.SplitLeft(2 + wished)
		if s, ok := ctx.Physics.Table().Get(one.key); ok && rest.W > swatch {
			wood, _ := rest.SplitLeft(swatch)
			panel.Swatch(c, wood, s, ctx.Wood)
		}
		_, rest = rest.SplitLeft(swatch + 1)
		detail := amount(ctx.Rack, one.key)
		right, left := rest.SplitRight(min(paint.Width(detail), max(0, rest.W-12)))
		c.TextFit(left, ctx.Letters(one.key)+" "+ctx.Name(one.key), style)
		c.TextFit(right, detail, style)
	})
}

// amount says how much the rack has of a timber.
func amount(r rack.Rack, species string) string {
	pieces, ready, cm3 := rack.Totals(slices.DeleteFunc(r.Entries(), func(e rack.Entry) bool { return e.Species != species }))
	var parts []string
	if pieces > 0 {
		parts = append(parts, tell.Count(pieces, "piece"))
	}
	if ready > 0 {
		parts = append(parts, tell.Count(ready, "ready strip"))
	}
	return strings.Join(append(parts, fmt.Sprintf("%.1f dm3", cm3/1000)), ", ")
}
