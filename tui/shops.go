package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screens/settings"
	"example.com/oddments/tui/workshop"
)

// ownBegins has the maker's own workshop count in place of the demo's as soon as a piece or
// a pattern is theirs, and asks what makes it differ most from others.
func (a App) ownBegins() App {
	if !a.shop.Demo() || a.rack.Demo && a.onDemo() {
		return a
	}
	a, cmd := a.changeShop(a.shop.Own(), "", nil)
	ask := workshop.Questions(a.unit, a.keys.KeyOf(keymap.Settings))
	return a.asks(cmd).askWhenFree("your own workshop", func(a App) bool { return a.shop.New() }, ask, func(a App, value any) (App, tea.Cmd) {
		next, err := a.shop.Answered(value.([]string), a.unit)
		return a.changeShop(next, "your workshop is saved in shop.toml; the settings ("+a.keys.KeyOf(keymap.Settings)+") show all of it", err)
	})
}

// changeShop makes next the workshop, has it count everywhere and saves it; said is what was
// done, and err why it was not.
func (a App) changeShop(next workshop.File, said string, err error) (App, tea.Cmd) {
	if err != nil {
		return a.refuse(err.Error()), nil
	}
	a.shop = next
	before, now := a.physics.Shop(), next.Shop()
	a.physics = movement.New(a.physics.Table(), now)
	if before.Units != now.Units {
		a.unit = now.Units
	}
	a, told := a.checked().tellAll(next.Told())
	if said != "" {
		a = a.say(said)
	}
	var save tea.Cmd
	a.shop, save = a.shop.Save(a.files)
	return a, tea.Batch(told, save)
}

func (a App) shopSaved(m workshop.SavedMsg) (App, tea.Cmd) {
	var cmd tea.Cmd
	a.shop, cmd = a.shop.Took(m, a.files)
	switch {
	case m.Err != nil:
		a = a.fail(m.Err)
	case m.Read:
		a, cmd = a.changeShop(a.shop, "another program changed shop.toml: it is read again without what you set last; "+
			a.keys.KeyOf(keymap.Undo)+" brings that back", nil)
	}
	return a.resumeQuit(cmd, m.Err)
}

// toSettings goes to the settings, and from there back to where that was done.
func toSettings(a App) (App, tea.Cmd) {
	if a.here() == settings.Place {
		return a.goScreen(a.before)
	}
	i, _ := a.find(settings.Place)
	return a.goScreen(i)
}
