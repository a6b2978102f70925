package tui

import (
	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/movement"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/workshop"
)

// ownBegins has the maker's own workshop count in place of the demo's as soon as a piece or
// a pattern is theirs, and asks what makes it differ most from others.
func (a App) ownBegins() App {
	if !a.shop.Demo() || a.racks.demo && a.onDemo() {
		return a
	}
	a.shop = a.shop.Own()
	a = a.withShop()
	ask := workshop.Questions(a.unit, a.keys.KeyOf(keymap.Settings))
	return a.askWhenFree("your own workshop", func(a App) bool { return a.shop.New() }, ask, func(a App, value any) (App, tea.Cmd) {
		next, err := a.shop.Answered(value.([]string), a.unit)
		if err != nil {
			return a.refuse(err.Error()), nil
		}
		return a.changeShop(next, "your workshop is saved in shop.toml; the settings ("+a.keys.KeyOf(keymap.Settings)+") show all of it")
	})
}

// withShop has the workshop that there is now count everywhere.
func (a App) withShop() App {
	before, now := a.physics.Shop(), a.shop.Shop()
	a.physics = movement.New(a.physics.Table(), now)
	if before.Units != now.Units {
		a.unit = now.Units
	}
	a, cmd := a.checked().tellAll(a.shop.Told())
	return a.asks(cmd)
}

// changeShop makes next the workshop, and saves it.
func (a App) changeShop(next workshop.File, said string) (App, tea.Cmd) {
	a.shop = next
	a = a.withShop().say(said)
	var cmd tea.Cmd
	a.shop, cmd = a.shop.Save(a.files)
	return a, cmd
}

// setShop sets a key of the workshop.
func (a App) setShop(r screen.SetShop) (App, tea.Cmd) {
	next, said, err := a.shop.Set(r, a.unit)
	if err != nil {
		return a.refuse(err.Error()), nil
	}
	return a.changeShop(next, said)
}

// stepShop goes a step of the workshop's history.
func (a App) stepShop(step func() (workshop.File, string, bool), what, did string) (App, tea.Cmd) {
	next, label, ok := step()
	if !ok {
		return a.say("there is nothing to " + what + " of the settings"), nil
	}
	return a.changeShop(next, did+label)
}

func (a App) shopSaved(m workshop.SavedMsg) (App, tea.Cmd) {
	var cmd tea.Cmd
	a.shop, cmd = a.shop.Took(m, a.files)
	switch {
	case m.Err != nil:
		a = a.fail(m.Err)
	case m.Read:
		a = a.withShop().say("another program changed shop.toml: it is read again without what you set last; " +
			a.keys.KeyOf(keymap.Undo) + " brings that back")
	}
	return a.part(cmd, m.Err)
}
