package tui

import (
	"context"
	"errors"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screens/rackview"
)

// racks is the rack with its history and where it is saved. It is saved after every
// change: a pile is typed in one go, and undo has no limit.
type racks struct {
	history rack.History
	base    store.Version
	demo    bool      // the demo's: changes are tried and not saved
	file    string    // a file that stands in for the home's: nothing is saved
	saving  bool      // a save is under way; the next waits for its version
	sent    rack.Rack // what is being saved
	view    rackview.List
	last    string // the line typed last
	looks   []cutting.Look
	gives   gives
}

// gives is what the rack gives of what is made.
type gives struct {
	of       stamp // the state that it is of
	supplies []cutting.Supply
	yields   map[string]int
	stop     context.CancelFunc // of what is being reckoned; nil: nothing
}

func newRacks(s Setup) racks {
	return racks{history: rack.NewHistory(s.Rack), base: s.RackFrom, file: s.RackFile,
		demo: len(s.Demo) > 0 && s.RackFrom == store.Absent && s.RackFile == ""}
}

type rackSavedMsg struct {
	rack    rack.Rack
	version store.Version
	err     error
}

func (a App) rack() rack.Rack { return a.racks.history.Rack() }

// lookup finds timbers by what a maker says: those of the rack first, then those of
// the pattern.
func (a App) lookup() rack.Lookup {
	return screen.Context{State: a.state(), Reckoner: a.reckoner, Rack: a.rack()}.Lookup()
}

// changeRack makes next the rack, as one undo step, and saves it.
func (a App) changeRack(next rack.Rack) (App, tea.Cmd) {
	a.racks.history = a.racks.history.Do(a.making, next)
	return a.rackChanged()
}

// rackChanged saves the rack and has it reckoned what it gives now.
func (a App) rackChanged() (App, tea.Cmd) {
	a, save := a.saveRack()
	a, ask := a.askGives()
	return a, tea.Batch(save, ask)
}

// saveRack saves the rack where it is the maker's own, one save at a time.
func (a App) saveRack() (App, tea.Cmd) {
	switch {
	case a.racks.demo:
		return a.say("tried on the demo's rack, which is not saved; " + a.keys.KeyOf(keymap.RackAdd) + " begins your own"), nil
	case a.racks.file != "":
		return a.say("this rack stands in from " + a.racks.file + " and is not saved"), nil
	case a.racks.saving || !a.racks.history.Dirty():
		return a, nil
	}
	a.racks.saving, a.racks.sent = true, a.rack()
	files, r, base := a.files, a.rack(), a.racks.base
	return a, func() tea.Msg {
		version, err := files.SaveRack(r, base)
		return rackSavedMsg{r, version, err}
	}
}

func (a App) rackSaved(m rackSavedMsg) (App, tea.Cmd) {
	a.racks.saving = false
	if errors.Is(m.err, store.ErrChanged) {
		a.parting = false
		return a.askRackOver(), nil
	}
	if m.err != nil {
		return a.fail(m.err).part(nil, m.err)
	}
	a.racks.base = m.version
	a.racks.history = a.racks.history.MarkSaved(m.rack)
	a, cmd := a.saveRack()
	return a.part(cmd, nil)
}

// unsaved reports whether the maker's own rack has changes that are in no file.
func (r racks) unsaved() bool { return !r.demo && r.file == "" && (r.saving || r.history.Dirty()) }

// saveLast saves the rack when the screen is gone. A save that was under way may have
// been done or not: to save the same again is right either way.
func (r racks) saveLast(files *store.Home) error {
	if !r.unsaved() {
		return nil
	}
	base, err := r.base, error(nil)
	if r.saving {
		base, err = files.SaveRack(r.sent, base)
	}
	if err == nil {
		_, err = files.SaveRack(r.history.Rack(), base)
	}
	return err
}

// askRackOver asks which rack to keep when another program changed the file.
func (a App) askRackOver() App {
	const what = "another program changed rack.toml"
	list := choose.New(what, "", []choose.Item{
		{Name: "read the other one", Detail: "undo brings this one back", Value: underAnother},
		{Name: "save this one over it", Detail: "the other stays as .bak", Value: overTheirs},
	}).Answers()
	return a.askWhenFree(what, func(App) bool { return true }, list, func(a App, value any) (App, tea.Cmd) {
		if value == overTheirs {
			a.racks.base = store.Whatever
			return a.saveRack()
		}
		files, known := a.files, store.Known(a.reckoner.Table())
		return a, func() tea.Msg {
			r, version, err := files.Rack(known)
			return rackReadMsg{r, version, err}
		}
	})
}

// A rackReadMsg brings the rack as another program left it.
type rackReadMsg rackSavedMsg

func (a App) rackRead(m rackReadMsg) (App, tea.Cmd) {
	if m.err != nil {
		return a.fail(m.err), nil
	}
	a.racks.base = m.version
	a.racks.history = a.racks.history.Do("read again", m.rack).MarkSaved(m.rack)
	a, cmd := a.askGives()
	return a.say("read rack.toml again"), cmd
}

// rackAdd lets a pile be typed, one line a piece, until the field is closed.
func (a App) rackAdd() (App, tea.Cmd) {
	return a.askLine("a piece: timber, length, width, thickness, then what else there is to say", "",
		func(a App, e rack.Entry) (App, tea.Cmd) {
			if a.racks.demo { // the maker's own begins here
				a.racks.demo, a.racks.history = false, rack.NewHistory(rack.Rack{})
			}
			next, added, err := a.rack().Add(e, a.lookup())
			if err != nil {
				return a.refuse(err.Error()), nil
			}
			a.racks.last = rack.Line(rack.Again(added), a.lookup(), a.unit)
			a.racks.view.ID = added.ID
			a, cmd := a.changeRack(next)
			a = a.say("on the rack: " + rack.Shown(added, a.lookup(), a.unit))
			notice := a.notice
			a, _ = a.rackAdd()
			a.notice = notice
			return a, cmd
		})
}

// rackEdit lets the chosen entry's line be changed.
func (a App) rackEdit() (App, tea.Cmd) {
	e, ok := a.racks.view.Chosen(a.context())
	if !ok {
		return a.rackAdd()
	}
	return a.askLine("change "+e.ID, rack.Line(e, a.lookup(), a.unit), func(a App, changed rack.Entry) (App, tea.Cmd) {
		next, err := a.rack().Replace(e.ID, changed)
		if err != nil {
			return a.refuse(err.Error()), nil
		}
		return a.changeRack(next)
	})
}

// askLine shows a field for a line of the rack; what was understood stands beneath it
// while it is typed.
func (a App) askLine(title, text string, then func(App, rack.Entry) (App, tea.Cmd)) (App, tea.Cmd) {
	look, unit := a.lookup(), a.unit
	field := ask.New(title, text, func(s string) (any, string, error) {
		echo := rack.Understood(s, look, unit)
		switch {
		case echo.Err != nil:
			return nil, "", echo.Err
		case len(echo.Missing) > 0:
			return nil, "", errors.New(strings.TrimSpace(echo.Text + "   " + strings.Join(echo.Missing, " ")))
		default:
			return echo.Entry, echo.Text, nil
		}
	}).Recall(a.racks.last)
	return a.show(field, func(a App, value any) (App, tea.Cmd) { return then(a, value.(rack.Entry)) }), nil
}

// lookAtRack says whose end grain on the rack would settle most glue lines, by the plan
// where there is one, and has it reckoned what the rack gives.
func (a App) lookAtRack() (App, tea.Cmd) {
	if !a.planner.have || a.planner.of != a.stamp() {
		a.racks.looks = cutting.LookFirst(a.planJob(), nil, a.reckoner)
	} else {
		a.racks.looks = a.planner.looks
	}
	return a.askGives()
}

// givesMsg is what the rack gives of what was made at the time.
type givesMsg gives

// askGives has it reckoned what the rack gives, beside the screen.
func (a App) askGives() (App, tea.Cmd) {
	of := a.stamp()
	if a.racks.gives.of == of && a.racks.gives.yields != nil {
		return a, nil
	}
	if a.racks.gives.stop != nil {
		a.racks.gives.stop()
	}
	ctx, stop := context.WithTimeout(context.Background(), planFor)
	a.racks.gives = gives{of: of, stop: stop}
	task := a.planJob()
	return a, func() tea.Msg {
		defer stop()
		supplies, yields, err := cutting.Yields(ctx, task)
		if err != nil {
			return nil // the plan's screen says what is wrong with the job
		}
		done := givesMsg{of: of, supplies: supplies, yields: map[string]int{}}
		for _, y := range yields {
			done.yields[y.ID] = y.Strips
		}
		return done
	}
}

// gave takes what was reckoned, unless it is of an older state.
func (a App) gave(m givesMsg) (App, tea.Cmd) {
	if m.of == a.racks.gives.of {
		a.racks.gives.supplies, a.racks.gives.yields, a.racks.gives.stop = m.supplies, m.yields, nil
	}
	return a, nil
}

func rackGo(by int) handler {
	return func(a App) (App, tea.Cmd) {
		a.racks.view = a.racks.view.Go(by, a.context())
		return a, nil
	}
}

// onEntry makes a change to the chosen entry.
func onEntry(f func(App, rack.Entry) (rack.Rack, error)) handler {
	return func(a App) (App, tea.Cmd) {
		e, ok := a.racks.view.Chosen(a.context())
		if !ok {
			return a.say("the rack is empty"), nil
		}
		next, err := f(a, e)
		if err != nil {
			return a.refuse(err.Error()), nil
		}
		if _, still := next.Get(e.ID); !still {
			a.racks.view = a.racks.view.After(a.context())
		}
		return a.changeRack(next)
	}
}

func rackAgain(a App, e rack.Entry) (rack.Rack, error) {
	next, _, err := a.rack().Add(rack.Again(e), a.lookup())
	return next, err
}

func rackOne(a App, e rack.Entry) (rack.Rack, error) { return a.rack().UseOne(e.ID) }

func rackUsedUp(a App, e rack.Entry) (rack.Rack, error) { return a.rack().Remove(e.ID) }

func rackFirst(a App, e rack.Entry) (rack.Rack, error) {
	return a.rack().SetUseFirst(e.ID, !e.UseFirst)
}

func rackRings(a App, e rack.Entry) (rack.Rack, error) {
	next := map[string]pattern.Rings{"unknown": pattern.RingsFlat(), "flat": pattern.RingsRift(), "rift": pattern.RingsQuarter()}
	return a.rack().SetRings(e.ID, next[e.Rings.String()])
}

func (a App) rackOrder() (App, tea.Cmd) {
	all := rack.Orders()
	a.racks.view.Order = all[(int(a.racks.view.Order)+1)%len(all)]
	return a, nil
}

// rackWhich asks which pieces to show.
func (a App) rackWhich() (App, tea.Cmd) {
	look, unit := a.lookup(), a.unit
	field := ask.New("show only: timber, planed, first, ready, over a length", a.racks.view.Which, func(s string) (any, string, error) {
		_, err := rack.ParseFilter(s, look, unit)
		if strings.TrimSpace(s) == "" {
			return s, "everything", nil
		}
		return s, s, err
	})
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		text := strings.TrimSpace(value.(string))
		filter, err := rack.ParseFilter(text, look, unit)
		if err != nil {
			return a.refuse(err.Error()), nil
		}
		a.racks.view.Which, a.racks.view.Filter = text, filter
		return a, nil
	}), nil
}

func (a App) undoRack() (App, tea.Cmd) {
	history, label, ok := a.racks.history.Undo()
	if !ok {
		return a.say("there is nothing to undo on the rack"), nil
	}
	a.racks.history = history
	a, cmd := a.rackChanged()
	return a.say("taken back: " + label), cmd
}

func (a App) redoRack() (App, tea.Cmd) {
	history, label, ok := a.racks.history.Redo()
	if !ok {
		return a.say("there is nothing to redo on the rack"), nil
	}
	a.racks.history = history
	a, cmd := a.rackChanged()
	return a.say("made again: " + label), cmd
}

func drawRack(a App, c *paint.Canvas, r paint.Rect, ctx screen.Context) { a.racks.view.Draw(c, r, ctx) }

func rackPress(a App, m tea.MouseEvent) (App, tea.Cmd) {
	for _, p := range a.racks.view.Footer(a.body(), a.context()) {
		if p.Rect.Contains(m.X, m.Y) {
			return a.act(p.Action.ID)
		}
	}
	a.racks.view = a.racks.view.At(m.Y, a.body(), a.context())
	return a, nil
}

func rackWheel(a App, up bool) (App, tea.Cmd) {
	if up {
		return rackGo(-1)(a)
	}
	return rackGo(1)(a)
}

// rackHandlers makes the actions of the rack.
func rackHandlers() map[keymap.ID]handler {
	return map[keymap.ID]handler{
		keymap.RackUp:     rackGo(-1),
		keymap.RackDown:   rackGo(1),
		keymap.RackAdd:    App.rackAdd,
		keymap.RackEdit:   App.rackEdit,
		keymap.RackAgain:  onEntry(rackAgain),
		keymap.RackOne:    onEntry(rackOne),
		keymap.RackUsedUp: onEntry(rackUsedUp),
		keymap.RackFirst:  onEntry(rackFirst),
		keymap.RackRings:  onEntry(rackRings),
		keymap.RackOrder:  App.rackOrder,
		keymap.RackFilter: App.rackWhich,
	}
}
