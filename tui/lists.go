package tui

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/species"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screens/layouts"
)

// usualWidth is what the first strip of an empty panel starts with (common practice,
// no source: most boards are of strips about 25 mm wide).
const usualWidth = 25 * length.Millimetre

// timbers lists the timbers to choose from, those of the rack first.
func (a App) timbers() []choose.Item {
	var onRack, others []choose.Item
	for _, s := range a.reckoner.Table().All() {
		item := choose.Item{Name: s.Letters + " " + s.Name, Also: strings.Join(s.Also, " ") + " " + s.Botanical + " " + s.Key,
			Timber: s.Key, Value: s.Key}
		item.Detail, item.Brief = a.timberFigures(s)
		if have := a.rack().VolumeCM3(s.Key); have > 0 {
			volume := length.Volume(have, a.unit)
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
func (a App) timberFigures(s species.Species) (detail, brief string) {
	if !s.Moves() {
		return "no figure for movement", "no movement"
	}
	contrast := ""
	if strip, ok := a.state().Strip(); ok {
		if other, ok := a.reckoner.Table().Get(strip.Species); ok {
			contrast = fmt.Sprintf("contrast %2.0f", s.Contrast(other))
		}
	}
	const perPoint = 100 // the coefficients in percent of the size
	moves := fmt.Sprintf("%.2f-%.2f %%", perPoint*s.CR, perPoint*s.CT)
	return strings.TrimRight("moves "+moves+"   "+contrast, " "), strings.TrimRight(moves+"  "+contrast, " ")
}

func (a App) choosePutIn() (App, tea.Cmd) {
	list := choose.New("put in: movement a point, contrast with the strip", "no timber of that name", a.timbers())
	return a.show(list, func(a App, value any) (App, tea.Cmd) {
		strip := pattern.Strip{Species: value.(string), Width: usualWidth}
		if beside, ok := a.state().Strip(); ok {
			strip.Width = beside.Width
		}
		return a.move(func(s edit.State) (edit.State, error) { return edit.PutIn(s, strip) })
	}), nil
}

func (a App) chooseTimber() (App, tea.Cmd) {
	if _, ok := a.state().Strip(); !ok {
		return a.choosePutIn()
	}
	list := choose.New(fmt.Sprintf("instead of strip %d: movement a point, contrast with it", a.state().Selected+1), "no timber of that name", a.timbers())
	return a.show(list, func(a App, value any) (App, tea.Cmd) {
		return a.move(func(s edit.State) (edit.State, error) { return edit.ChangeTimber(s, value.(string)) })
	}), nil
}

func (a App) chooseTray() (App, tea.Cmd) {
	tray := a.state().Tray
	if len(tray) == 0 {
		return a.say("nothing lies aside"), nil
	}
	if len(tray) == 1 {
		return a.move(func(s edit.State) (edit.State, error) { return edit.BringBack(s, 0) })
	}
	items := make([]choose.Item, len(tray))
	for i, s := range tray {
		// The latest laid aside stands first: it is what is mostly wanted back.
		items[len(tray)-1-i] = choose.Item{
			Name:   a.context().Name(s.Species),
			Detail: fmt.Sprintf("%s wide, %s", s.Width.With(a.unit), s.Rings),
			Timber: s.Species, Value: i,
		}
	}
	return a.show(choose.New("bring back from the tray", "nothing of that name", items), func(a App, value any) (App, tea.Cmd) {
		return a.move(func(s edit.State) (edit.State, error) { return edit.BringBack(s, value.(int)) })
	}), nil
}

// searchActions lists what can be done: here first, then everywhere, then on the other
// screens, which are gone to when one of theirs is taken.
func (a App) searchActions() (App, tea.Cmd) {
	at := a.here().place
	var here, everywhere, elsewhere []choose.Item
	for _, action := range a.keys.Actions() {
		item := choose.Item{Name: action.Name + ": " + action.Does, Detail: action.Key(), Value: action.ID}
		switch p := action.Place(); {
		case p == keymap.InLists || p == layouts.Place && p != at:
			// Fields and lists tell their own keys; the layouts lie over the bench only
			// while they are asked for.
		case p == at:
			here = append(here, item)
		case p == keymap.Everywhere:
			everywhere = append(everywhere, item)
		default:
			item.Detail = string(p) + "  " + item.Detail
			elsewhere = append(elsewhere, item)
		}
	}
	return a.show(choose.New("what can be done", "nothing of that name", slices.Concat(here, everywhere, elsewhere)), func(a App, value any) (App, tea.Cmd) {
		return a.actThere(value.(keymap.ID))
	}), nil
}

// actThere makes an action on the screen that it belongs to.
func (a App) actThere(id keymap.ID) (App, tea.Cmd) {
	action, _ := a.keys.ByID(id)
	p := action.Place()
	if p == keymap.Everywhere || p == a.here().place {
		return a.act(id)
	}
	for i, s := range screens() {
		if s.place == p {
			a, going := a.goScreen(i)
			a, doing := a.act(id)
			return a, tea.Batch(going, doing)
		}
	}
	return a.act(id)
}
