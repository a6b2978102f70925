package bench

import (
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
)

// usualWidth is what the first strip of an empty panel starts with (common practice,
// no source: most boards are of strips about 25 mm wide).
const usualWidth = 25 * length.Millimetre

// timberItems lists the timbers to choose from, those of the rack first.
func timberItems(ctx screen.Context) []choose.Item {
	var onRack, others []choose.Item
	for _, s := range ctx.Reckoner.Table().All() {
		item := choose.Item{Name: s.Letters + " " + s.Name, Also: strings.Join(s.Also, " ") + " " + s.Botanical + " " + s.Key,
			Timber: s.Key, Value: s.Key}
		item.Detail, item.Brief = timberFigures(s, ctx)
		if have := ctx.Rack.VolumeCM3(s.Key); have > 0 {
			volume := length.Volume(have, ctx.Unit)
			item.Detail, item.Brief = "rack "+volume+"   "+item.Detail, volume+"  "+item.Brief
			onRack = append(onRack, item)
			continue
		}
		others = append(others, item)
	}
	return append(onRack, others...)
}

// timberFigures gives the figures by which timbers are told apart in the list, and the
// same on little room.
func timberFigures(s species.Species, ctx screen.Context) (detail, brief string) {
	if !s.Moves() {
		return "no figure for movement", "no movement"
	}
	contrast := ""
	if strip, ok := ctx.State.Strip(); ok {
		if other, ok := ctx.Reckoner.Table().Get(strip.Species); ok {
			contrast = fmt.Sprintf("contrast %2.0f", s.Contrast(other))
		}
	}
	const perPoint = 100 // the coefficients in percent of the size
	moves := fmt.Sprintf("%.2f-%.2f %%", perPoint*s.CR, perPoint*s.CT)
	return strings.TrimRight("moves "+moves+"   "+contrast, " "), strings.TrimRight(moves+"  "+contrast, " ")
}

func choosePutIn(ctx screen.Context) []screen.Request {
	list := choose.New("put in: movement a point, contrast with the strip", "no timber of that name", timberItems(ctx))
	width := usualWidth
	if beside, ok := ctx.State.Strip(); ok {
		width = beside.Width
	}
	return pick(list, func(timber string) func(edit.State) (edit.State, error) {
		return func(s edit.State) (edit.State, error) {
			return edit.PutIn(s, pattern.Strip{Species: timber, Width: width})
		}
	})
}

// pick shows a list; the value that is chosen makes a hand move.
func pick[T any](list choose.List, make func(T) func(edit.State) (edit.State, error)) []screen.Request {
	return []screen.Request{screen.Show{Overlay: list, Then: func(value any) tea.Msg { return screen.Edit{Make: make(value.(T))} }}}
}

func chooseTimber(ctx screen.Context) []screen.Request {
	if _, ok := ctx.State.Strip(); !ok {
		return choosePutIn(ctx)
	}
	list := choose.New(fmt.Sprintf("instead of strip %d: movement a point, contrast with it", ctx.State.Selected+1), "no timber of that name", timberItems(ctx))
	return pick(list, func(timber string) func(edit.State) (edit.State, error) {
		return func(s edit.State) (edit.State, error) { return edit.ChangeTimber(s, timber) }
	})
}

func chooseTray(ctx screen.Context) []screen.Request {
	tray := ctx.State.Tray
	if len(tray) == 0 {
		return say("nothing lies aside")
	}
	if len(tray) == 1 {
		return move(func(s edit.State) (edit.State, error) { return edit.BringBack(s, 0) })
	}
	items := make([]choose.Item, len(tray))
	for i, s := range tray {
		// The latest laid aside stands first: it is what is mostly wanted back.
		items[len(tray)-1-i] = choose.Item{
			Name:   ctx.Name(s.Species),
			Detail: fmt.Sprintf("%s wide, %s", s.Width.With(ctx.Unit), s.Rings),
			Timber: s.Species, Value: i,
		}
	}
	return pick(choose.New("bring back from the tray", "nothing of that name", items), func(i int) func(edit.State) (edit.State, error) {
		return func(s edit.State) (edit.State, error) { return edit.BringBack(s, i) }
	})
}
