package layouts

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
)

// A taste is what is wished of looks, timbers and pieces.
type taste struct {
	looks   []look.Look // one is held, all of them: one of each; none: the best that differ by strips
	apart   float64     // percent of the width on which layouts of looks differ at least
	vary    bool        // other timbers in each
	timbers [2]int      // fewest and most; 0: any number
	with    []string
	without []string
	atMost  []suggest.Share
	longest length.Length    // of rough pieces; 0: any
	within  [2]length.Length // least and most width; 0: by the tolerance
}

// usualTaste is one of each look.
func usualTaste() taste {
	return taste{looks: look.Looks(), apart: suggest.DefaultApart, vary: true}
}

// held returns the look that is held; false where none is.
func (t taste) held() (look.Look, bool) {
	if len(t.looks) == 1 {
		return t.looks[0], true
	}
	return look.Any, false
}

// ask has a request wish it.
func (t taste) ask(a *suggest.Request) {
	a.Looks = t.looks
	if len(t.looks) > 0 {
		a.ApartPct, a.Vary = t.apart, t.vary
	}
	a.Timbers, a.With, a.Without, a.AtMost, a.Longest = t.timbers, t.with, t.without, t.atMost, t.longest
	if t.within[1] > 0 {
		a.Within(t.within[0], t.within[1])
	}
}

// loosen returns the taste of a request that was loosened.
func (t taste) loosen(r suggest.Request) taste {
	t.timbers, t.with, t.without, t.atMost, t.longest, t.within = r.Timbers, r.With, r.Without, r.AtMost, r.Longest, r.Range
	return t
}

// hold asks which look to hold: that of the chosen layout comes first.
func (s Screen) hold(screen.Context) []screen.Request {
	if s.again {
		return say(keepsStrips)
	}
	type hold []look.Look
	items := []choose.Item{{Name: "one of each", Says: "the best layout of each look", Value: hold(look.Looks())}}
	for _, l := range look.Looks() {
		item := choose.Item{Name: l.String(), Says: l.Says(), Value: hold{l}}
		if len(s.wish.looks) != 1 && s.at < len(s.shown.Laid) && s.shown.Laid[s.at].Layout.Look == l {
			items = slices.Insert(items, 0, item)
		} else {
			items = append(items, item)
		}
	}
	items = append(items, choose.Item{Name: "no look", Says: "the best layouts that differ by strips", Value: hold{}})
	return []screen.Request{screen.Show{Overlay: choose.New("hold a look", "no such look", items).Digits(), Then: func(value any) tea.Msg {
		v, ok := value.(hold)
		if !ok {
			return nil
		}
		return screen.Then[Screen](func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			if s.wish.looks, s.wish.layouts = v, suggest.DefaultLayouts; len(v) > 1 {
				s.wish.layouts = len(v)
			}
			return s.askAnew(ctx)
		})
	}}}
}

// pickTimbers asks which timbers there may be.
func (s Screen) pickTimbers(ctx screen.Context) []screen.Request {
	if s.again {
		return say(keepsStrips)
	}
	return []screen.Request{screen.Show{Overlay: newTimberList(ctx.Rack, s.wish.taste), Then: func(value any) tea.Msg {
		l, ok := value.(timberList)
		if !ok {
			return nil
		}
		return screen.Then[Screen](func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			s.wish.taste = l.on(s.wish.taste)
			return s.askAnew(ctx)
		})
	}}}
}

// askTimbers asks how many different timbers a layout may have.
func (s Screen) askTimbers(screen.Context) []screen.Request {
	now := ""
	if s.wish.timbers[1] > 0 {
		now = fmt.Sprintf("%d-%d", s.wish.timbers[0], s.wish.timbers[1])
	}
	read := func(text string) ([2]int, string, error) {
		if strings.TrimSpace(text) == "" {
			return [2]int{}, "any number of timbers", nil
		}
		return span("timbers", 1, mostTimbers)(text)
	}
	return askWish(s, "how many different timbers, like 3 or 2-4; empty for any number", now, read, func(w *wish, v [2]int) { w.timbers = v })
}

// mostTimbers is how many timbers a layout may be asked to have.
const mostTimbers = 60

// askWithin asks for the least and the most width.
func (s Screen) askWithin(ctx screen.Context) []screen.Request {
	now := ""
	if s.wish.within[1] > 0 {
		now = ask.TypedLength(s.wish.within[0], ctx.Unit) + ".." + ask.TypedLength(s.wish.within[1], ctx.Unit)
	}
	return askWish(s, "width of the panel, from least to most, like 330..345; empty for the width set, give or take the tolerance", now,
		widthIn(ctx.Unit), func(w *wish, v [2]length.Length) { w.within = v })
}

// widthIn reads a range of widths in the maker's unit, or nothing.
func widthIn(u length.Unit) func(string) ([2]length.Length, string, error) {
	return func(s string) ([2]length.Length, string, error) {
		var out [2]length.Length
		if strings.TrimSpace(s) == "" {
			return out, "the width set, give or take the tolerance", nil
		}
		low, high, both := strings.Cut(s, "..")
		if !both {
			return out, "", fmt.Errorf("%q: must be two widths with two dots between, like 330..345", strings.TrimSpace(s))
		}
		texts, err := length.Together([]string{low, high}, u)
		if err != nil {
			return out, "", err
		}
		for i, text := range texts {
			if out[i], _, err = ask.Length(u)(text); err != nil {
				return out, "", err
			}
		}
		if out[0] <= 0 || out[1] < out[0] {
			return out, "", fmt.Errorf("%q: must be a range from less to more, like 330..345", strings.TrimSpace(s))
		}
		return out, fmt.Sprintf("%s to %s wide", out[0].With(u), out[1].With(u)), nil
	}
}

// askLongest asks how long a rough piece may be that is cut.
func (s Screen) askLongest(ctx screen.Context) []screen.Request {
	return askWish(s, "longest rough piece that is cut; empty for any", ask.TypedLength(s.wish.longest, ctx.Unit),
		ask.LengthOr("pieces of any length", ctx.Unit), func(w *wish, v length.Length) { w.longest = v })
}

// wishVary has each layout of other timbers than those before, or of any.
func wishVary(_ screen.Context, w *wish) string {
	if len(w.looks) == 0 {
		return "this counts where looks are asked for"
	}
	w.vary = !w.vary
	return ""
}

// wishMirror holds the look mirror, or lets go of it.
func wishMirror(_ screen.Context, w *wish) string {
	switch l, held := w.held(); {
	case len(w.looks) == 0:
		w.symmetric = !w.symmetric
	case held && l == look.Mirror:
		w.looks = look.Looks()
	default:
		w.looks = []look.Look{look.Mirror}
	}
	return ""
}

// apartStep is by how many percent one key has looks differ by more.
const apartStep = 5

// wishDiffer lets layouts differ by one strip more, or those of looks on more of the width.
func wishDiffer(by int) setting {
	return func(_ screen.Context, w *wish) string {
		switch {
		case len(w.looks) > 0:
			w.apart = min(100, max(0, w.apart+float64(by*apartStep)))
		case w.differ+by < 1:
			return "layouts differ by at least one strip"
		default:
			w.differ += by
		}
		return ""
	}
}
