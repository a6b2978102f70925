package layouts

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/pattern/suggest/remake"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// A wish is what a maker may change of what is asked for; the rest comes from the bench
// and the rack.
type wish struct {
	taste
	tolerance          length.Length
	level              pattern.Level
	aim                suggest.Aim
	leastContrast      float64
	symmetric, noTwins bool
	strips             [2]int
	layouts, differ    int
	ways               int // to make a pattern again
	widths             []length.Length
	pieces             bool          // strips may be cut from pieces
	pins               []suggest.Pin // besides those of the bench
	copies             int           // of a pattern that is made again, where loosening asks for fewer; else 0
	join               joints.How    // how strips may be in pieces: Even, Anywhere, or AsTheyAre, whole
}

// usualWish is what is asked for as long as the maker wishes nothing else.
func usualWish(ctx screen.Context) wish {
	w := wish{
		tolerance: suggest.DefaultTolerance, level: suggest.DefaultLevel, aim: suggest.Contrast, leastContrast: suggest.DefaultLeastContrast,
		taste: usualTaste(), layouts: len(look.Looks()), ways: suggest.DefaultLayouts, differ: suggest.DefaultDiffer,
		widths: suggest.UsualWidths(ctx.State.Pattern, ctx.Rack, ctx.Physics.Shop().Standing, ctx.Unit), pieces: len(ctx.Rack.Pieces) > 0,
	}
	if suggest.MarkedFirst(ctx.Rack) {
		w.aim = suggest.UseUp
	}
	a := w.ask(ctx.State.Pattern, ctx.Report.Figures.Width)
	a.Rack = ctx.Rack
	w.strips = a.StartStrips(ctx.Physics.Shop())
	for _, pin := range a.Pinned {
		w.strips[1] = max(w.strips[1], pin.Place)
	}
	return w
}

// ask returns the ask for the panel of p, or where it wants no width, one as wide as it
// is.
func (w wish) ask(p pattern.Pattern, width length.Length) suggest.Request {
	if p.Panel.Width > 0 {
		width = p.Panel.Width
	}
	a := suggest.New(width, p.Panel.Thickness, p.Panel.Length)
	a.Make, a.Moisture, a.Flattened = p.Panel.Make, p.Panel.Moisture, p.Panel.Flattened
	a.Tolerance, a.Level, a.Aim, a.LeastContrast = w.tolerance, w.level, w.aim, w.leastContrast
	a.Symmetric, a.NoTwins, a.Strips, a.Layouts, a.Differ = w.symmetric, w.noTwins, w.strips, w.layouts, w.differ
	a.Pinned = suggest.Pins(p)
	for _, pin := range w.pins {
		if !slices.ContainsFunc(a.Pinned, func(p suggest.Pin) bool { return p.Place == pin.Place }) {
			a.Pinned = append(a.Pinned, pin)
		}
	}
	slices.SortFunc(a.Pinned, func(x, y suggest.Pin) int { return cmp.Compare(x.Place, y.Place) })
	if w.pieces {
		a.Widths = w.widths
	}
	a.Join = w.joining(p)
	w.taste.ask(&a)
	return a
}

// loosen returns the wishes that would do, one condition of each made less strict.
func (w wish) loosen(l *suggest.Relaxation) []loosening {
	if l == nil {
		return nil
	}
	var out []loosening
	for _, way := range l.Ways {
		with, r := w, way.Request
		with.tolerance, with.level, with.leastContrast, with.symmetric, with.noTwins = r.Tolerance, r.Level, r.LeastContrast, r.Symmetric, r.NoTwins
		with.taste, with.strips = w.taste.loosen(r), r.Strips
		if r.Range != [2]length.Length{} {
			with.tolerance = w.tolerance
		}
		out = append(out, loosening{func(u length.Unit) string { return way.Say(u, l.Proved) }, with})
	}
	return out
}

// loosenAgain is loosen for a pattern that is made again.
func (w wish) loosenAgain(l remake.Relaxation) []loosening {
	said := func(text string) func(length.Unit) string { return func(length.Unit) string { return text } }
	var out []loosening
	if l.Level != nil {
		with := w
		with.level = *l.Level
		out = append(out, loosening{said(l.SayLevel()), with})
	}
	if l.Copies > 0 {
		with := w
		with.copies = l.Copies
		out = append(out, loosening{said(l.SayCopies()), with})
	}
	return out
}

// A setting changes a wish, and says why it cannot be changed, or nothing.
type setting func(screen.Context, *wish) string

// does is what the table has a key do.
type does = func(Screen, screen.Context) (screen.Screen, []screen.Request)

// forBoth changes a wish and asks anew.
func forBoth(of setting) does {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if why := of(ctx, &s.wish); why != "" {
			return s, say(why)
		}
		return s.askAnew(ctx)
	}
}

// keepsStrips is said where a wish has no use.
const keepsStrips = "a pattern made again keeps its strips: nothing to set here"

// forNew is forBoth for a wish that has no use where a pattern is made again.
func forNew(of setting) does {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if s.again {
			return s, say(keepsStrips)
		}
		return forBoth(of)(s, ctx)
	}
}

// tolerances are what the keys go through, in the maker's unit.
func tolerances(u length.Unit) []length.Length {
	const mm, inch = length.Millimetre, length.Inch
	if u == length.InInches {
		return []length.Length{0, inch / 64, inch / 32, inch / 16, inch / 8, 3 * inch / 16, inch / 4, 3 * inch / 8, inch / 2, 3 * inch / 4, inch, 2 * inch}
	}
	return []length.Length{0, mm / 2, mm, 2 * mm, 3 * mm, 4 * mm, 6 * mm, 8 * mm, 10 * mm, 15 * mm, 20 * mm, 30 * mm, 50 * mm}
}

// wishTolerance goes to the next tolerance, up or down.
func wishTolerance(by int) setting {
	return func(ctx screen.Context, w *wish) string {
		all := tolerances(ctx.Unit)
		i, there := slices.BinarySearch(all, w.tolerance)
		switch {
		case by < 0:
			i--
		case there:
			i++
		}
		switch {
		case i < 0:
			return "the tolerance is 0 already"
		case i == len(all):
			return "the width may differ by that much already"
		}
		w.tolerance = all[i]
		return ""
	}
}

func wishLevel(_ screen.Context, w *wish) string {
	all := pattern.Levels()
	w.level = all[(slices.Index(all, w.level)+1)%len(all)]
	return ""
}

func wishAim(_ screen.Context, w *wish) string {
	if w.aim == suggest.UseUp {
		w.aim = suggest.Contrast
	} else {
		w.aim = suggest.UseUp
	}
	return ""
}

// wishContrast asks for so much more contrast between neighbours.
func wishContrast(by float64) setting {
	return func(_ screen.Context, w *wish) string {
		if w.aim != suggest.UseUp {
			return "this counts only where the aim is use-first wood; the other aim is contrast itself"
		}
		w.leastContrast = min(100, max(0, w.leastContrast+by))
		return ""
	}
}

func wishTwins(_ screen.Context, w *wish) string {
	w.noTwins = !w.noTwins
	return ""
}

const mostLayouts = 30

// showBy asks for so many layouts more, or ways to make a pattern again.
func showBy(by int) does {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		n := &s.wish.layouts
		if s.again {
			n = &s.wish.ways
		}
		if *n+by < 1 || *n+by > mostLayouts {
			return s, say(fmt.Sprintf("layouts: from 1 to %d", mostLayouts))
		}
		*n += by
		return s.askAnew(ctx)
	}
}

func wishFrom(ctx screen.Context, w *wish) string {
	if !w.pieces && len(ctx.Rack.Pieces) == 0 {
		return "there is no piece on the rack to cut strips from"
	}
	w.pieces = !w.pieces
	return ""
}

// copies makes so many copies more of a pattern that is made again.
func copies(by int) does {
	more := screen.Copies(by, Screen.gather)
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if !s.again {
			return s, say("copies count where a pattern is made again: " + ctx.Keys.KeyOf(keymap.LayAgain) + " on the bench")
		}
		return more(s, ctx)
	}
}

// gather has b made together, and asks anew.
func (s Screen) gather(b screen.Batch, ctx screen.Context) (screen.Screen, []screen.Request) {
	next, asked := s.askAnew(ctx.Gathered(b))
	return next, append([]screen.Request{screen.Gather(b)}, asked...)
}

// pin pins the chosen strip at its place for the next ask, or takes its pin out.
func (s Screen) pin(ctx screen.Context) (screen.Screen, []screen.Request) {
	switch {
	case s.again:
		return s, say("a pattern made again keeps its strips: nothing to pin")
	case s.at >= len(s.shown.Laid):
		return s, say("there is no layout yet")
	case s.strip < 0:
		return s, say("choose a strip first: " + ctx.Keys.KeyOf(layLeft) + " and " + ctx.Keys.KeyOf(layRight))
	}
	place := s.strip + 1
	at := func(p suggest.Pin) bool { return p.Place == place }
	if slices.ContainsFunc(suggest.Pins(ctx.State.Pattern), at) {
		return s, say("strip " + strconv.Itoa(place) + " is pinned on the bench: " + ctx.Keys.KeyOf("pin") + " there takes the pin out")
	}
	pins := slices.DeleteFunc(slices.Clone(s.wish.pins), at)
	word := "unpinned"
	if len(pins) == len(s.wish.pins) {
		strip := s.shown.Laid[s.at].Pattern.Strips[s.strip]
		pins = append(pins, suggest.Pin{Place: place, Strip: pattern.Strip{Species: strip.Species, Width: strip.Width, Rings: strip.Rings, Moisture: strip.Moisture}})
		word = "pinned"
	}
	s.wish.pins = pins
	return s, say(fmt.Sprintf("strip %d %s: %s searches again", place, word, ctx.Keys.KeyOf(layAsk)))
}

// askStrips asks how many strips a layout may have.
func (s Screen) askStrips(screen.Context) []screen.Request {
	now := s.wish.strips
	return askWish(s, "how many strips, like 11 or 9-13", fmt.Sprintf("%d-%d", now[0], now[1]), span("strips", 2, pattern.MaxStrips), func(w *wish, v [2]int) { w.strips = v })
}

// askWidths asks what widths strips may have.
func (s Screen) askWidths(ctx screen.Context) []screen.Request {
	var now []string
	for _, w := range s.wish.widths {
		now = append(now, ask.TypedLength(w, ctx.Unit))
	}
	return askWish(s, "widths that strips may have, separated by commas", strings.Join(now, ", "), widthsIn(ctx.Unit), func(w *wish, v []length.Length) {
		w.widths, w.pieces = v, true
	})
}

// askWish shows a field over the gallery; what is read from it is wished.
func askWish[T any](s Screen, title, text string, read func(string) (T, string, error), set func(*wish, T)) []screen.Request {
	if s.again {
		return say(keepsStrips)
	}
	return ask.Show(ask.New(title, text, read).Value(), func(v T) tea.Msg {
		return screen.Then[Screen](func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			set(&s.wish, v)
			return s.askAnew(ctx)
		})
	})
}

// span reads a number of something, or a range of it.
func span(what string, least, most int) func(string) ([2]int, string, error) {
	return func(s string) ([2]int, string, error) {
		low, high, ranged := strings.Cut(strings.ReplaceAll(s, " ", ""), "-")
		if !ranged {
			high = low
		}
		from, err1 := strconv.Atoi(low)
		to, err2 := strconv.Atoi(high)
		if err1 != nil || err2 != nil || from < least || to < from || to > most {
			return [2]int{}, "", fmt.Errorf("%q: must be a number of %s from %d to %d, or a range like 3-5", strings.TrimSpace(s), what, least, most)
		}
		if from == to {
			return [2]int{from, to}, fmt.Sprintf("%d %s", from, what), nil
		}
		return [2]int{from, to}, fmt.Sprintf("%d to %d %s", from, to, what), nil
	}
}

// widthsIn reads widths of strips, parted by commas, a unit behind the last for all.
func widthsIn(u length.Unit) func(string) ([]length.Length, string, error) {
	return func(s string) ([]length.Length, string, error) {
		var widths []length.Length
		var words []string
		texts, err := length.Together(strings.Split(s, ","), u)
		if err != nil {
			return nil, "", err
		}
		for _, text := range texts {
			w, err := length.ParseIn(text, u)
			if err != nil {
				return nil, "", err
			}
			if w <= 0 || w > pattern.MaxAcross {
				return nil, "", fmt.Errorf("strip width %s: must be above 0 and at most %s", w.With(u), pattern.MaxAcross.With(u))
			}
			if !slices.Contains(widths, w) {
				widths, words = append(widths, w), append(words, w.With(u))
			}
		}
		if len(widths) > shop.StandingMost {
			return nil, "", fmt.Errorf("%d widths: at most %d, since each makes the search longer", len(widths), shop.StandingMost)
		}
		return widths, strings.Join(words, ", "), nil
	}
}
