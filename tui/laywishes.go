package tui

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
)

// A wish is what a maker may change of what is asked for; the rest comes from the bench
// and the rack.
type wish struct {
	tolerance          length.Length
	level              pattern.Level
	aim                suggest.Aim
	leastContrast      float64
	symmetric, noTwins bool
	strips             [2]int
	layouts, differ    int
	widths             []length.Length
	pieces             bool          // strips may be cut from pieces
	pins               []suggest.Pin // besides those of the bench
	copies             int           // of a pattern that is made again, where loosening asks for fewer; else 0
}

// usualWish is what is asked for as long as the maker wishes nothing else.
func (a App) usualWish() wish {
	w := wish{
		tolerance: suggest.DefaultTolerance, level: suggest.DefaultLevel, aim: suggest.Contrast, leastContrast: suggest.DefaultLeastContrast,
		strips: [2]int{suggest.DefaultFewest, suggest.DefaultMost}, layouts: suggest.DefaultLayouts, differ: suggest.DefaultDiffer,
		widths: suggest.UsualWidths(a.state().Pattern, a.rack(), a.reckoner.Shop().Standing), pieces: len(a.rack().Pieces) > 0,
	}
	if suggest.MarkedFirst(a.rack()) {
		w.aim = suggest.UseUp
	}
	return w
}

// ask gives the ask for the panel of p, or where it wants no width, one as wide as it
// is.
func (w wish) ask(p pattern.Pattern, width length.Length) suggest.Ask {
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
	return a
}

// loosen gives the wishes that would do, one condition of each made less strict.
func (w wish) loosen(l *suggest.Loosen) []loosening {
	if l == nil {
		return nil
	}
	var wishes []wish
	add := func(change func(*wish)) {
		with := w
		change(&with)
		wishes = append(wishes, with)
	}
	if l.Tolerance != nil {
		add(func(w *wish) { w.tolerance = *l.Tolerance })
	}
	if l.Level != nil {
		add(func(w *wish) { w.level = *l.Level })
	}
	if l.LeastContrast != nil {
		add(func(w *wish) { w.leastContrast = *l.LeastContrast })
	}
	if l.Symmetric {
		add(func(w *wish) { w.symmetric = false })
	}
	if l.NoTwins {
		add(func(w *wish) { w.noTwins = false })
	}
	var out []loosening
	for i, with := range wishes {
		out = append(out, loosening{func(u length.Unit) string { return l.Say(u)[i] }, with}) // one for each, in the same order
	}
	return out
}

// loosenAgain is loosen for a pattern that is made again.
func (w wish) loosenAgain(l suggest.AgainLoosen) []loosening {
	said := func(text string) func(length.Unit) string { return func(length.Unit) string { return text } }
	var out []loosening
	if l.Level != nil {
		with := w
		with.level = *l.Level
		out = append(out, loosening{said(fmt.Sprintf("glue lines up to %q would do, the mildest level that does", with.level)), with})
	}
	if l.Copies > 0 {
		with := w
		with.copies = l.Copies
		out = append(out, loosening{said(fmt.Sprintf("making %d would do, the most that can be made", l.Copies)), with})
	}
	return out
}

// wished changes a wish and asks anew. A change gives why it cannot be made, or
// nothing.
func wished(change func(a App, w *wish) string) handler {
	return inGallery(func(a App) (App, tea.Cmd) {
		if why := change(a, &a.gallery.wish); why != "" {
			return a.say(why), nil
		}
		return a.layAsk()
	})
}

// ofLayouts is wished for what a pattern that is made again has no use for.
func ofLayouts(change func(a App, w *wish) string) handler {
	return wished(func(a App, w *wish) string {
		if a.gallery.again {
			return "a pattern that is made again keeps its strips: there is nothing to say here"
		}
		return change(a, w)
	})
}

// tolerances are what the keys go through, in the maker's unit.
func tolerances(u length.Unit) []length.Length {
	const mm, inch = length.Millimetre, length.Inch
	if u == length.InInches {
		return []length.Length{0, inch / 64, inch / 32, inch / 16, inch / 8, 3 * inch / 16, inch / 4, 3 * inch / 8, inch / 2, 3 * inch / 4, inch, 2 * inch}
	}
	return []length.Length{0, mm / 2, mm, 2 * mm, 3 * mm, 4 * mm, 6 * mm, 8 * mm, 10 * mm, 15 * mm, 20 * mm, 30 * mm, 50 * mm}
}

func wishLooser(a App, w *wish) string {
	for _, t := range tolerances(a.unit) {
		if t > w.tolerance {
			w.tolerance = t
			return ""
		}
	}
	return "the width may differ by that much already"
}

func wishTighter(a App, w *wish) string {
	for _, t := range slices.Backward(tolerances(a.unit)) {
		if t < w.tolerance {
			w.tolerance = t
			return ""
		}
	}
	return "the width must be right to the hair already"
}

func wishLevel(_ App, w *wish) string {
	all := pattern.Levels()
	w.level = all[(slices.Index(all, w.level)+1)%len(all)]
	return ""
}

func wishAim(_ App, w *wish) string {
	if w.aim == suggest.UseUp {
		w.aim = suggest.Contrast
	} else {
		w.aim = suggest.UseUp
	}
	return ""
}

// wishContrast asks for so much more contrast between neighbours.
func wishContrast(by float64) func(App, *wish) string {
	return func(_ App, w *wish) string {
		if w.aim != suggest.UseUp {
			return "that counts where the aim is to use up; the other aim is the greatest contrast anyway"
		}
		w.leastContrast = min(100, max(0, w.leastContrast+by))
		return ""
	}
}

func wishSymmetric(_ App, w *wish) string {
	w.symmetric = !w.symmetric
	return ""
}

func wishTwins(_ App, w *wish) string {
	w.noTwins = !w.noTwins
	return ""
}

const mostLayouts = 30

// wishLayouts asks for so many layouts more.
func wishLayouts(by int) func(App, *wish) string {
	return func(_ App, w *wish) string {
		if n := w.layouts + by; n < 1 || n > mostLayouts {
			return fmt.Sprintf("layouts: from 1 to %d", mostLayouts)
		}
		w.layouts += by
		return ""
	}
}

// wishDiffer lets layouts differ by so many strips more.
func wishDiffer(by int) func(App, *wish) string {
	return func(_ App, w *wish) string {
		if w.differ+by < 1 {
			return "layouts differ by one strip at least"
		}
		w.differ += by
		return ""
	}
}

func wishFrom(a App, w *wish) string {
	if !w.pieces && len(a.rack().Pieces) == 0 {
		return "there is no piece on the rack to cut strips from"
	}
	w.pieces = !w.pieces
	return ""
}

// layCopies makes so many copies more of a pattern that is made again.
func layCopies(by int) handler {
	return inGallery(func(a App) (App, tea.Cmd) {
		n := a.planner.made() + by
		switch {
		case !a.gallery.again:
			return a.say("copies count where a pattern is made again: " + a.keys.KeyOf(keymap.LayAgain) + " on the bench"), nil
		case n < 1 || n > maxCopies:
			return a.say(fmt.Sprintf("copies: from 1 to %d", maxCopies)), nil
		}
		a.planner.copies = n
		return a.layAsk()
	})
}

// layPin pins the chosen strip at its place for the next ask, or takes its pin out.
func (a App) layPin() (App, tea.Cmd) {
	g := a.gallery
	switch {
	case g.again:
		return a.say("a pattern that is made again keeps its strips: there is nothing to pin"), nil
	case g.at >= len(g.shown.laid):
		return a.say("there is no layout yet"), nil
	case g.strip < 0:
		return a.say("choose a strip first: " + a.keys.KeyOf(keymap.LayLeft) + " and " + a.keys.KeyOf(keymap.LayRight)), nil
	}
	place := g.strip + 1
	at := func(p suggest.Pin) bool { return p.Place == place }
	if slices.ContainsFunc(suggest.Pins(a.state().Pattern), at) {
		return a.say("strip " + strconv.Itoa(place) + " is pinned on the bench: " + a.keys.KeyOf("pin") + " there takes the pin out"), nil
	}
	pins := slices.DeleteFunc(slices.Clone(g.wish.pins), at)
	word := "unpinned"
	if len(pins) == len(g.wish.pins) {
		strip := g.shown.laid[g.at].Pattern.Strips[g.strip]
		pins = append(pins, suggest.Pin{Place: place, Strip: pattern.Strip{Species: strip.Species, Width: strip.Width, Rings: strip.Rings, Moisture: strip.Moisture}})
		word = "pinned"
	}
	a.gallery.wish.pins = pins
	return a.say(fmt.Sprintf("strip %d %s: %s asks again", place, word, a.keys.KeyOf(keymap.LayAsk))), nil
}

// layStrips asks how many strips a layout may have.
func (a App) layStrips() (App, tea.Cmd) {
	now := a.gallery.wish.strips
	return a.askWish("how many strips, as 11 or 9-13", fmt.Sprintf("%d-%d", now[0], now[1]), readRange, func(w *wish, v any) { w.strips = v.([2]int) })
}

// layWidths asks what widths strips may have.
func (a App) layWidths() (App, tea.Cmd) {
	var now []string
	for _, w := range a.gallery.wish.widths {
		now = append(now, a.typedLength(w))
	}
	return a.askWish("widths that strips may have, parted by commas", strings.Join(now, ", "), a.readWidths, func(w *wish, v any) {
		w.widths, w.pieces = v.([]length.Length), true
	})
}

// askWish shows a field over the gallery; what is read from it is wished.
func (a App) askWish(title, text string, read func(string) (any, string, error), set func(*wish, any)) (App, tea.Cmd) {
	if a.gallery.again {
		return a.say("a pattern that is made again keeps its strips: there is nothing to say here"), nil
	}
	return a.show(ask.New(title, text, read).Value(), func(a App, value any) (App, tea.Cmd) {
		set(&a.gallery.wish, value)
		return a.layAsk()
	}), nil
}

// readRange reads a number of strips, or a range of them.
func readRange(s string) (any, string, error) {
	low, high, ranged := strings.Cut(strings.ReplaceAll(s, " ", ""), "-")
	if !ranged {
		high = low
	}
	from, err1 := strconv.Atoi(low)
	to, err2 := strconv.Atoi(high)
	if err1 != nil || err2 != nil || from < 2 || to < from || to > pattern.MaxStrips {
		return nil, "", fmt.Errorf("%q: must be a number of strips from 2 on, or a range as 9-13", strings.TrimSpace(s))
	}
	if from == to {
		return [2]int{from, to}, fmt.Sprintf("%d strips", from), nil
	}
	return [2]int{from, to}, fmt.Sprintf("%d to %d strips", from, to), nil
}

// readWidths reads widths of strips, parted by commas, a unit behind the last for all.
func (a App) readWidths(s string) (any, string, error) {
	var widths []length.Length
	var words []string
	texts, err := length.Together(strings.Split(s, ","), a.unit)
	if err != nil {
		return nil, "", err
	}
	for _, text := range texts {
		w, err := length.ParseIn(text, a.unit)
		if err != nil {
			return nil, "", err
		}
		if w <= 0 || w > pattern.MaxAcross {
			return nil, "", fmt.Errorf("strip width %s: must be above 0 and at most %s", w.With(a.unit), pattern.MaxAcross.With(a.unit))
		}
		if !slices.Contains(widths, w) {
			widths, words = append(widths, w), append(words, w.With(a.unit))
		}
	}
	if len(widths) > shop.StandingMost {
		return nil, "", fmt.Errorf("%d widths: at most %d, since each makes the search longer", len(widths), shop.StandingMost)
	}
	return widths, strings.Join(words, ", "), nil
}
