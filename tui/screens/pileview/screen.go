// Package pileview is the screen of the whole pile: what would sell above, the panels that the
// rack can become for it below, and what each timber of the rack is used for.
package pileview

import (
	"fmt"
	"slices"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/pile/sets"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/job"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/screen"
)

// searchFor is how long a set is sought before the best so far is taken.
const searchFor = 30 * time.Second

// A state is all that undo brings back.
type state struct {
	wants []orders.Want
	found found
	held  []string     // stems of the panels that stay
	open  *screen.Open // what it put on the bench; nil: nothing
}

// A step is one change, with what was before it, or after it where it was undone.
type step struct {
	label string
	state state
}

// A Screen is the pile. The zero value has not read its wants yet.
type Screen struct {
	now          state
	past, future []step
	want, panel  int // the chosen ones
	kept         keeping
	saved        map[string]store.Version // of the panels that were saved as patterns, by stem; never written to
	running      job.Job[found, answer]
	works        bool
	began, ahead int                                           // how many steps there were when it began to search, and how many were undone
	then         func(Screen, screen.Context) []screen.Request // what waits for the plan of the set; nil: it searches
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// CanUndo reports whether a change can be taken back.
func (s Screen) CanUndo() bool { return len(s.past) > 0 }

// Busy says what is found by the search that goes on; nothing where none does.
func (s Screen) Busy() string {
	if !s.works {
		return ""
	}
	if s.then != nil {
		return "planning the set, " + tell.Count(len(s.now.found.set.Panels), "panel")
	}
	return "searching the pile, " + tell.Count(len(s.now.found.set.Panels), "panel")
}

// Stop stops the search; its best so far comes all the same.
func (s Screen) Stop() { s.running.Stop() }

func say(format string, args ...any) []screen.Request {
	return []screen.Request{screen.Say(fmt.Sprintf(format, args...))}
}

// Update takes keys, and what was read and found.
func (s Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(s, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter:
		return s, s.read(ctx)
	case screen.Undone:
		if n := len(s.past); msg.Bench && (n == 0 || s.past[n-1].state.open == s.now.open) {
			return s.back()
		}
		return s.undone(msg.Redo, ctx)
	case stored:
		return s.stored(msg, ctx)
	case screen.SaveNow:
		s, asked := s.keep(ctx)
		return s, asked
	case screen.Press:
		return s.press(msg, ctx), nil
	case job.Progress[found]:
		if s.running.Sent(msg) {
			s = s.finds(msg.At)
			return s, []screen.Request{screen.Run{Cmd: s.running.Next()}}
		}
	case job.Done[answer]:
		if s.running.Ended(msg) {
			return s.done(msg.Result, ctx)
		}
	}
	return s, nil
}

// finds shows what the search has found: it is the set of all steps since it began.
func (s Screen) finds(f found) Screen {
	s.now.found = f
	s.past, s.future = slices.Clone(s.past), slices.Clone(s.future)
	for i := s.began; i < len(s.past); i++ {
		s.past[i].state.found = f
	}
	for i := s.ahead; i < len(s.future); i++ {
		s.future[i].state.found = f
	}
	return s.among()
}

// do makes a change as one undo step.
func (s Screen) do(label string, next state) Screen {
	s.past = append(slices.Clip(s.past), step{label, s.now})
	s.now, s.future = next, nil
	return s.among()
}

// among keeps the chosen ones among those that there are.
func (s Screen) among() Screen {
	s.want = screen.Among(s.want, len(s.now.wants))
	s.panel = screen.Among(s.panel, len(s.now.found.set.Panels))
	return s
}

// undone takes the last change back, or makes it again.
func (s Screen) undone(redo bool, ctx screen.Context) (screen.Screen, []screen.Request) {
	from, into, does := &s.past, &s.future, "undo"
	if redo {
		from, into, does = into, from, "redo"
	}
	n := len(*from)
	if n == 0 {
		return s, say("nothing to %s on the pile", does)
	}
	if s.works && (!redo && n == s.began || redo && n <= s.ahead) { // the search itself, or what it is not for
		s.running.Stop()
		s.works, s.running, s.now.found.late = false, job.Job[found, answer]{}, true
	}
	last, was := (*from)[n-1], s.now.open
	*into = append(slices.Clip(*into), step{last.label, s.now})
	*from, s.now = (*from)[:n-1], last.state
	s, keep := s.among().keep(ctx)
	return s, append(append(s.bench(was), keep...), screen.Say(does+"ne: "+last.label))
}

// bench has lie on the bench what did in the present state, where that was another.
func (s Screen) bench(was *screen.Open) []screen.Request {
	switch is := s.now.open; is {
	case was:
		return nil
	case nil:
		return []screen.Request{screen.Open{Back: true}}
	default:
		again := *is
		again.To = ""
		return []screen.Request{again}
	}
}

// back brings back what lay on the bench, where more was done on the pile since.
func (s Screen) back() (screen.Screen, []screen.Request) {
	next := s.now
	next.open = nil
	return s.do("bring back the bench", next), append(say("undone: what was on the bench before is back"), screen.Open{Back: true})
}

func (s Screen) goWant(by int, _ screen.Context) Screen {
	s.want += by
	return s.among()
}

func (s Screen) goPanel(by int, _ screen.Context) Screen {
	s.panel += by
	return s.among()
}

// search seeks the set that is worth most, with the panels that are held.
func (s Screen) search(ctx screen.Context) (screen.Screen, []screen.Request) {
	switch {
	case s.works:
		return s, say("the search is still running: %s stops it with the best so far", ctx.Keys.KeyOf(pileStop))
	case !s.kept.read && s.kept.wrong == nil && ctx.Beside.Files != nil:
		s.kept.seek = true
		return s, nil // a moment later it searches
	case len(s.now.wants) == 0:
		return s, say("nothing is wanted yet: %s adds a want", ctx.Keys.KeyOf(pileAdd))
	case len(ctx.Rack.Entries()) == 0:
		return s, []screen.Request{screen.Refuse("the rack is empty: " + ctx.Keys.KeyOf(keymap.RackAdd) + " on the rack adds timber")}
	}
	next := s.now
	ask := sets.Request{Wants: next.wants, Rack: ctx.Rack, Physics: ctx.Physics}
	ask.Hold, next.held = s.holds(ctx)
	next.found = found{wants: next.wants, rack: ctx.Stamp.Rack, shop: ctx.Stamp.Shop}
	s = s.do("search", next)
	var cmd tea.Cmd
	s.works, s.began, s.ahead, s.then = true, len(s.past), 0, nil
	s.running, cmd = job.Start(searchFor, seeking{ask, next.found, false, ctx.Beside}.run)
	asked := []screen.Request{screen.Run{Cmd: cmd}}
	if n := len(s.past[len(s.past)-1].state.held) - len(next.held); n > 0 {
		asked = append(asked, screen.Say(tell.Count(n, "panel")+" no longer held: the want or the rack has changed"))
	}
	return s, asked
}

// holds returns the panels that stay in the next search, and their stems. A want that has
// changed, or another rack, lets them go.
func (s Screen) holds(ctx screen.Context) (hold []sets.Panel, stems []string) {
	f := s.now.found
	if f.rack != ctx.Stamp.Rack || f.shop != ctx.Stamp.Shop {
		return nil, nil
	}
	for _, p := range f.set.Panels {
		was := f.wants[p.Want]
		i := slices.IndexFunc(s.now.wants, func(w orders.Want) bool {
			return w.ID == was.ID && w.Product == was.Product && w.Thickness == was.Thickness
		})
		if i >= 0 && slices.Contains(s.now.held, p.Stem) {
			p.Want = i
			hold, stems = append(hold, p), append(stems, p.Stem)
		}
	}
	return hold, stems
}

// stop ends the search with the best so far.
func (s Screen) stop(screen.Context) []screen.Request {
	if !s.works {
		return say("no search is running")
	}
	s.running.Stop()
	return say("stopped with the best so far")
}

// planned has a set planned that has no plan since a panel was dropped, and then does what needs it.
func (s Screen) planned(then func(Screen, screen.Context) []screen.Request, ctx screen.Context) (screen.Screen, []screen.Request) {
	f := s.now.found
	ask := sets.Request{Wants: f.wants, Rack: ctx.Rack, Physics: ctx.Physics, Hold: f.set.Panels}
	var cmd tea.Cmd
	s.works, s.began, s.ahead, s.then = true, len(s.past), len(s.future), then
	s.running, cmd = job.Start(searchFor, seeking{ask, f, true, ctx.Beside}.run)
	return s, append(say("planning the %s that are left", tell.Count(len(f.set.Panels), "panel")), screen.Run{Cmd: cmd})
}

// done takes what a search came to.
func (s Screen) done(a answer, ctx screen.Context) (screen.Screen, []screen.Request) {
	then := s.then
	s.works, s.then = false, nil
	asked := []screen.Request{screen.Withdrawn{Told: a.told}}
	if a.err != nil {
		return s, append(asked, screen.Refuse(a.err.Error()))
	}
	if a.told != nil && !a.found.have {
		return s, asked
	}
	s = s.finds(a.found)
	if ctx.Window.At == Place {
		if then != nil && s.now.found.whole {
			asked = append(asked, then(s, ctx)...)
		}
		return s, asked
	}
	return s, append(asked, screen.Say("the pile: "+tell.Count(len(a.found.set.Panels), "panel")+" found"))
}

// chosen returns the chosen panel, or why there is none.
func (s Screen) chosen(ctx screen.Context) (sets.Panel, []screen.Request) {
	panels := s.now.found.set.Panels
	switch {
	case s.works:
		return sets.Panel{}, say("the search is still running: %s stops it with the best so far", ctx.Keys.KeyOf(pileStop))
	case len(panels) == 0:
		return sets.Panel{}, say("no panels yet: %s searches for them", ctx.Keys.KeyOf(pileSearch))
	}
	return panels[s.panel], nil
}

// hold has the chosen panel stay in the next search, or lets it go.
func (s Screen) hold(ctx screen.Context) (screen.Screen, []screen.Request) {
	p, no := s.chosen(ctx)
	if no != nil {
		return s, no
	}
	next := s.now
	if i := slices.Index(next.held, p.Stem); i >= 0 {
		next.held = slices.Delete(slices.Clone(next.held), i, i+1)
		return s.do("let go", next), say("%s is no longer held", p.Stem)
	}
	next.held = append(slices.Clip(next.held), p.Stem)
	return s.do("hold", next), say("%s stays as it is: %s searches for the rest again", p.Stem, ctx.Keys.KeyOf(pileSearch))
}

// drop takes the chosen panel out of the set.
func (s Screen) drop(ctx screen.Context) (screen.Screen, []screen.Request) {
	p, no := s.chosen(ctx)
	if no != nil {
		return s, no
	}
	next := s.now
	next.found = next.found.without(s.panel, ctx)
	next.held = slices.DeleteFunc(slices.Clone(next.held), func(stem string) bool { return stem == p.Stem })
	return s.do("drop", next), say("dropped %s; %s brings it back", p.Stem, ctx.Keys.KeyOf(keymap.Undo))
}

// look puts the chosen panel on the bench.
func (s Screen) look(ctx screen.Context) (screen.Screen, []screen.Request) {
	p, no := s.chosen(ctx)
	if no != nil {
		return s, no
	}
	return s.opens("look", screen.Open{Saved: s.pattern(p), To: keymap.Bench},
		fmt.Sprintf("%s is on the bench; %s brings back what was there", p.Stem, ctx.Keys.KeyOf(keymap.Undo)))
}

// take has all panels planned together, the first of them on the bench.
func (s Screen) take(ctx screen.Context) (screen.Screen, []screen.Request) {
	if _, no := s.chosen(ctx); no != nil {
		return s, no
	}
	if why := s.stale(ctx); why != "" {
		return s, []screen.Request{screen.Refuse(why)}
	}
	var all []screen.Together
	for _, p := range s.now.found.set.Panels {
		all = append(all, screen.Together{Saved: s.pattern(p), Copies: 1})
	}
	return s.opens("take all", screen.Open{Saved: all[0].Saved, With: all[1:], To: "plan"},
		fmt.Sprintf("%s planned together; %s brings back what was on the bench", tell.Count(len(all), "panel"), ctx.Keys.KeyOf(keymap.Undo)))
}

// pattern returns a panel as the pattern that it is, or was saved as.
func (s Screen) pattern(p sets.Panel) store.Saved {
	return store.Saved{Stem: p.Stem, Pattern: p.Pattern, Version: s.saved[p.Stem]}
}

// opens puts panels on the bench, as one undo step.
func (s Screen) opens(label string, open screen.Open, told string) (screen.Screen, []screen.Request) {
	next := s.now
	next.open = &open
	return s.do(label, next), []screen.Request{open, screen.Say(told)}
}

// stale says why the set is not of what is wanted and lies on the rack now; nothing where it is.
func (s Screen) stale(ctx screen.Context) string {
	f := s.now.found
	what := ""
	switch {
	case !f.have || s.works:
		return ""
	case f.rack != ctx.Stamp.Rack:
		what = "the rack has changed"
	case f.shop != ctx.Stamp.Shop:
		what = "the workshop has changed"
	case !slices.EqualFunc(f.wants, s.now.wants, alike):
		what = "the wants have changed"
	default:
		return ""
	}
	return what + ": " + ctx.Keys.KeyOf(pileSearch) + " searches again"
}

// close goes back to the rack.
func (s Screen) close(ctx screen.Context) (screen.Screen, []screen.Request) {
	back := []screen.Request{screen.Go{To: "rack"}}
	if s.works {
		back = append(back, screen.Say("the search continues: "+ctx.Keys.KeyOf("rack-pile")+" shows it again"))
	}
	return s, back
}
