package pileview

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// wanted makes other wants the wants, as one undo step, and has them saved.
func (s Screen) wanted(label string, wants []orders.Want, ctx screen.Context) (Screen, []screen.Request) {
	next := s.now
	next.wants = wants
	return s.do(label, next).keep(ctx)
}

// field shows a field for a want in place of one of the others, or behind them.
func (s Screen) field(title string, of orders.Want, place int, ctx screen.Context) []screen.Request {
	text, look := "", ctx.Lookup()
	if of.Thickness > 0 {
		text = of.Line(look.Called, ctx.Unit)
	}
	others := s.now.wants
	if place < len(others) {
		others = slices.Delete(slices.Clone(others), place, place+1)
	}
	field := ask.New(title, text, func(text string) (orders.Want, string, error) {
		w, err := orders.ParseLine(text, look, ctx.Unit)
		if err == nil {
			if w.ID = cmp.Or(w.ID, of.ID); w.ID == "" {
				w.ID = orders.FreeID(w, others)
			}
			err = fits(w, others, ctx)
		}
		if err != nil {
			return w, "", err
		}
		told := w.ID + ": " + w.Told(ctx.Name, ctx.Unit)
		if no := lacks(w, ctx); no != "" {
			told += "; " + no
		}
		return w, told, nil
	})
	return ask.Show(field, func(w orders.Want) tea.Msg {
		return screen.Then[Screen](func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			wants := slices.Clone(s.now.wants)
			label := "add want"
			if place < len(wants) {
				wants[place], label = w, "change want"
			} else {
				wants = append(wants, w)
			}
			s.want = place
			next, asked := s.wanted(label, wants, ctx)
			return next, asked
		})
	})
}

// lacks says which timbers of a want the rack has none of; nothing: it has all.
func lacks(w orders.Want, ctx screen.Context) string {
	var names []string
	for _, key := range w.Lacks(ctx.Rack) {
		names = append(names, ctx.Name(key))
	}
	if len(names) == 0 {
		return ""
	}
	return "the rack has no " + tell.List(names, "and no")
}

// fits says why a want cannot stand beside others, or be made of what the rack holds.
func fits(w orders.Want, others []orders.Want, ctx screen.Context) error {
	if err := store.CheckStem(w.ID); err != nil {
		return err
	}
	shop := ctx.Physics.Shop()
	for _, wrong := range slices.Concat(w.TooLong(shop.Cut), w.TooThick(ctx.Rack, shop)) {
		return fmt.Errorf("%s %s: %s", wrong.Key, wrong.Text, wrong.Hint)
	}
	for _, o := range others {
		switch {
		case o.ID == w.ID:
			return fmt.Errorf("another want is called %s already: write called and another name", w.ID)
		case o.Worth > 0 && w.Worth == 0:
			return errors.New("missing: what one is worth, as of the other wants; write it like 38 each")
		case o.Worth == 0 && w.Worth > 0:
			return errors.New("the other wants do not say what one is worth: leave it out here too")
		}
	}
	return nil
}

// add asks for one want more.
func (s Screen) add(ctx screen.Context) []screen.Request {
	if no := s.locked(ctx); no != nil {
		return no
	}
	if len(s.now.wants) >= orders.MostWants {
		return []screen.Request{screen.Refuse(fmt.Sprintf("there are %d wants: no more are taken", orders.MostWants))}
	}
	return s.field("a want: like "+orders.Example, orders.New(), len(s.now.wants), ctx)
}

// change asks for the chosen want's line.
func (s Screen) change(ctx screen.Context) []screen.Request {
	if len(s.now.wants) == 0 {
		return s.add(ctx)
	}
	w := s.now.wants[s.want]
	return s.field("change "+w.ID, w, s.want, ctx)
}

// remove takes the chosen want out.
func (s Screen) remove(ctx screen.Context) (screen.Screen, []screen.Request) {
	if len(s.now.wants) == 0 {
		return s, say("no wants yet: %s adds one", ctx.Keys.KeyOf(pileAdd))
	}
	id := s.now.wants[s.want].ID
	next, asked := s.wanted("remove want", slices.Delete(slices.Clone(s.now.wants), s.want, s.want+1), ctx)
	return next, append(asked, screen.Say("removed "+id))
}

// by asks for more or fewer of the chosen want. Where the rack gave fewer than may be made, one
// more is one that must be.
func by(n int) func(Screen, screen.Context) (screen.Screen, []screen.Request) {
	return func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if len(s.now.wants) == 0 {
			return s, say("no wants yet: %s adds one", ctx.Keys.KeyOf(pileAdd))
		}
		w := s.now.wants[s.want]
		made, known := s.now.found.made(w)
		switch {
		case n > 0 && known && (w.Most == 0 || made < w.Most):
			w.Least = min(max(w.Least, made)+1, orders.MostCopies)
			if w.Most > 0 {
				w.Most = max(w.Most, w.Least)
			}
		case n > 0 && w.Most == 0:
			w.Least = min(w.Least+1, orders.MostCopies)
		case n > 0:
			w.Most = min(w.Most+1, orders.MostCopies)
		case w.Most == 0 && made < 2, w.Most == 1:
			return s, say("%s is asked for once at most: %s removes it", w.ID, ctx.Keys.KeyOf("pile-remove"))
		case w.Most == 0:
			w.Most = made - 1
		default:
			w.Most--
		}
		if w.Most > 0 {
			w.Least = min(w.Least, w.Most)
		}
		wants := slices.Clone(s.now.wants)
		wants[s.want] = w
		label := map[bool]string{true: "more", false: "fewer"}[n > 0]
		next, asked := s.wanted(label, wants, ctx)
		return next, append(asked, screen.Say(w.ID+": "+howMany(w)))
	}
}

// saveAll saves every panel as a pattern, all or none.
func (s Screen) saveAll(ctx screen.Context) []screen.Request {
	if _, no := s.chosen(ctx); no != nil {
		return no
	}
	files, panels := ctx.Beside.Files, s.now.found.set.Panels
	return []screen.Request{screen.Run{Cmd: func() tea.Msg {
		all := make([]store.Saved, len(panels))
		for i, p := range panels {
			all[i] = store.Saved{Stem: p.Stem, Pattern: p.Pattern}
		}
		versions, err := files.SaveSet(all)
		return screen.Then[Screen](func(s Screen, _ screen.Context) (screen.Screen, []screen.Request) {
			if errors.Is(err, store.ErrChanged) {
				return s, []screen.Request{screen.Refuse("not saved: there are patterns of these names already")}
			}
			if err != nil {
				return s, []screen.Request{screen.Refuse(err.Error())}
			}
			saved := maps.Clone(s.saved)
			if saved == nil {
				saved = map[string]store.Version{}
			}
			filed := make(screen.Filed, len(panels))
			for i, p := range panels {
				saved[p.Stem] = versions[i]
				filed[i] = store.Saved{Stem: p.Stem, Pattern: p.Pattern, Version: versions[i]}
			}
			s.saved = saved
			return s, append([]screen.Request{filed}, say("saved %s, %s to %s", tell.Count(len(panels), "pattern"), panels[0].Stem, panels[len(panels)-1].Stem)...)
		})
	}}}
}
