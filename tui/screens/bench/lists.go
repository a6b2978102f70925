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
	for _, s := range ctx.Physics.Table().All() {
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

// timberFigures returns the figures by which timbers are told apart in the list, and the
// same on little room.
func timberFigures(s species.Species, ctx screen.Context) (detail, brief string) {
	if !s.Moves() {
		return "no figure for movement", "no figure"
	}
	contrast := ""
	if strip, ok := ctx.State.Strip(); ok {
		if other, ok := ctx.Physics.Table().Get(strip.Species); ok {
			contrast = fmt.Sprintf("contrast %2.0f", s.As(ctx.Rack.Colour(s.Key)).Contrast(other.As(strip.Colour)))
		}
	}
	const perPoint = 100 // the coefficients in percent of the size
	moves := fmt.Sprintf("%.2f-%.2f %%", perPoint*s.CR, perPoint*s.CT)
	return strings.TrimRight("moves "+moves+"   "+contrast, " "), strings.TrimRight(moves+"  "+contrast, " ")
}

// chooseTimber lists the timbers for a move that is told one. A strip that is put in is as
// wide as the chosen one; where there is none to change, one is put in.
func chooseTimber(m edit.Move, arg edit.Arg, ctx screen.Context) []screen.Request {
	told := edit.Args{Length: usualWidth}
	strip, ok := ctx.State.Strip()
	if ok {
		told.Length = strip.Width
	}
	title := arg.What
	switch putIn, _ := ctx.Keys.ByID("put-in"); {
	case m.On() && ok:
		title = fmt.Sprintf("timber for strip %d (%s)", ctx.State.Selected+1, title)
	case m.On():
		return hand(*putIn.Move, putIn.ID, ctx)
	}
	return pick(choose.New(title, "no timber of that name", timberItems(ctx)), m, told, func(t *edit.Args, timber string) { t.Timber, t.Colour = timber, ctx.Rack.Colour(timber) })
}

// chooseBark lists the sides that the bark may lie on with the rings of the chosen strip,
// each by its digit.
func chooseBark(m edit.Move, arg edit.Arg, ctx screen.Context) []screen.Request {
	strip, ok := ctx.State.Strip()
	switch {
	case !ok:
		return []screen.Request{screen.Refuse("there is no strip yet: put one in first")}
	case !strip.Rings.Known():
		return []screen.Request{screen.Refuse(fmt.Sprintf("set the rings of strip %d first: %s, or %s for an angle",
			ctx.State.Selected+1, ctx.Keys.KeyOf("next-rings"), ctx.Keys.KeyOf("set-rings")))}
	}
	var items []choose.Item
	for _, side := range append(strip.Rings.BarkSides(), pattern.Bark{}) {
		name := side.String()
		if !side.Known() {
			name = "not checked"
		}
		if side == strip.Bark {
			name += ", as it is now"
		}
		items = append(items, choose.Item{Name: string(side.Mark()) + " " + name, Value: side})
	}
	title := fmt.Sprintf("%s of strip %d, %s, on its end grain at the datum end", arg.What, ctx.State.Selected+1, ctx.Name(strip.Species))
	return pick(choose.New(title, "", items).Answers().Digits(), m, edit.Args{}, func(t *edit.Args, side pattern.Bark) { t.Bark = side })
}

// pick shows a list; set hands the value that is chosen to the move.
func pick[T any](list choose.List, m edit.Move, told edit.Args, set func(*edit.Args, T)) []screen.Request {
	return []screen.Request{screen.Show{Overlay: list, Then: func(value any) tea.Msg {
		set(&told, value.(T))
		return screen.Edit{Make: with(m, told)}
	}}}
}

// chooseTray lists the strips that lie aside; where it is one, there is nothing to choose.
func chooseTray(m edit.Move, arg edit.Arg, ctx screen.Context) []screen.Request {
	tray := ctx.State.Tray
	switch len(tray) {
	case 0:
		return say("no strip is laid aside")
	case 1:
		return move(with(m, edit.Args{}))
	}
	items := make([]choose.Item, len(tray))
	for i, s := range tray {
		// The latest laid aside stands first: it is what is mostly wanted back.
		items[len(tray)-1-i] = choose.Item{
			Name:   ctx.Name(s.Species),
			Detail: strings.Join(append([]string{s.Width.With(ctx.Unit) + " wide", s.Rings.String()}, s.Grain().Words(ctx.Unit)...), ", "),
			Timber: s.Species, Value: i,
		}
	}
	return pick(choose.New(arg.What, "nothing of that name", items), m, edit.Args{}, func(t *edit.Args, i int) { t.Number = i })
}
