package rackview

import (
	"context"
	"errors"
	"slices"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/mistake"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/overlay/choose"
	"example.com/oddments/tui/screen"
)

// yieldsFor is how long it is computed what the rack yields.
const yieldsFor = 10 * time.Second

// yields is what the rack yields of what is made.
type yields struct {
	of       screen.Stamp // the state that it is of
	supplies []solve.Supply
	strips   map[string]int     // by entry, how many it yields
	told     *mistake.Withdrawn // a claim that broke
	stop     context.CancelFunc // of what is being computed; nil: nothing
}

// Title returns the screen's name.
func (Screen) Title() keymap.Place { return Place }

// Update goes through the rack and changes what lies on it.
func (l Screen) Update(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	next, asked := l.told(ctx, msg)
	if s, ok := next.(Screen); ok && (s.listed.have || ctx.Window.At == Place) {
		next = s.keep(ctx)
	}
	return next, asked
}

// told is Update, and leaves it open which entries are shown.
func (l Screen) told(ctx screen.Context, msg tea.Msg) (screen.Screen, []screen.Request) {
	if next, asked, ok := table().Take(l, ctx, msg); ok {
		return next, asked
	}
	switch msg := msg.(type) {
	case screen.Enter:
		return l.lookAt(ctx)
	case screen.RackChanged:
		if ctx.Window.At == Place { // no piece is named that has gone
			return l.lookAt(ctx)
		}
		return l.askYields(ctx)
	case screen.Press:
		return l.At(msg.Y, ctx.Window.Body, ctx), nil
	case yields:
		if msg.of == l.yields.of { // else of an older state
			l.yields = yields{of: msg.of, supplies: msg.supplies, strips: msg.strips}
		}
		return l, []screen.Request{screen.Withdrawn{Told: msg.told}}
	}
	return l, nil
}

// nextOrder goes on to the next order.
func (l Screen) nextOrder(screen.Context) Screen {
	all := rack.Orders()
	l.Order = all[(int(l.Order)+1)%len(all)]
	return l
}

// add lets a pile be typed, one line a piece, until the field is closed.
func (l Screen) add(ctx screen.Context) []screen.Request {
	return l.askLine("timber length width thickness, then: flat 9.1% split 0-40 x3 first", "", "", ctx)
}

// edit lets the chosen entry's line be changed.
func (l Screen) edit(ctx screen.Context) []screen.Request {
	e, ok := l.Chosen(ctx)
	if !ok {
		return l.add(ctx)
	}
	return l.askLine("change "+e.ID, rack.Line(e, ctx.Lookup(), ctx.Unit), e.ID, ctx)
}

// lookup finds timbers by what a maker types of a pile: where a word may mean several, the
// one that was typed last is meant, then that of the rack. The demo's are nobody's.
func (l Screen) lookup(ctx screen.Context) rack.Lookup {
	if ctx.RackDemo {
		ctx.Rack, ctx.State.Pattern.Strips = rack.Rack{}, nil
	}
	return ctx.Lookup(l.said...)
}

// A typedLine is what a line says, or that its timber may be several.
type typedLine struct {
	text    string
	entry   rack.Entry
	unclear *rack.Unclear
}

// askLine shows a field for a line of the rack; what was understood stands beneath it
// while it is typed.
func (l Screen) askLine(title, text, of string, ctx screen.Context) []screen.Request {
	look := l.lookup(ctx)
	field := ask.New(title, text, func(s string) (typedLine, string, error) {
		echo := rack.Understood(s, look, ctx.Unit)
		text, unclear := echo.Text, rack.UnclearTimber(s, look, ctx.Unit)
		if unclear != nil && len(unclear.Lines) <= choose.MostDigits {
			text = unclear.Words + ", which is asked next: " + text
			echo = rack.Understood(unclear.Lines[0], look, ctx.Unit)
		}
		switch {
		case echo.Err != nil:
			return typedLine{}, "", echo.Err
		case len(echo.Missing) > 0:
			return typedLine{}, "", errors.New(strings.TrimSpace(text + "   " + strings.Join(echo.Missing, " ")))
		default:
			return typedLine{s, echo.Entry, unclear}, text, nil
		}
	}).Recall(l.last)
	return ask.Show(field, func(t typedLine) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			if t.unclear == nil {
				return l.typed(t.entry, of, ctx)
			}
			l.last = t.text // closed without an answer, the line is not lost
			return l, l.askTimber(t, of, ctx)
		})
	})
}

// askTimber asks which timber a line means that may mean several.
func (l Screen) askTimber(t typedLine, of string, ctx screen.Context) []screen.Request {
	look := l.lookup(ctx)
	var items []choose.Item
	for i, line := range t.unclear.Lines {
		if e, err := rack.ParseLine(line, look, ctx.Unit); err == nil {
			items = append(items, choose.Item{Name: ctx.Name(e.Species), Also: t.unclear.Names[i], Timber: e.Species, Value: e})
		}
	}
	list := choose.New("which "+t.unclear.Words+" is it?", "", items).Answers().Digits()
	return []screen.Request{screen.Show{Overlay: list, Then: func(value any) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			return l.typed(value.(rack.Entry), of, ctx)
		})
	}}}
}

// typed takes the line of an entry, or where of is empty of a new one, which the next may
// follow.
func (l Screen) typed(e rack.Entry, of string, ctx screen.Context) (screen.Screen, []screen.Request) {
	l.said = slices.DeleteFunc(slices.Clone(l.said), func(keys []string) bool { return keys[0] == e.Species })
	l.said = slices.Insert(l.said, 0, []string{e.Species})
	if of != "" {
		old, _ := ctx.Rack.Get(of)
		return l.changed(ctx.Rack.Replace(of, e.Keeping(old)))
	}
	if ctx.RackDemo { // the maker's own begins here
		ctx.Rack = rack.Rack{}
	}
	next, added, err := ctx.Rack.Add(e, ctx.Lookup())
	if err != nil {
		return l, []screen.Request{screen.Refuse(err.Error())}
	}
	l.last = rack.Line(rack.Again(added), ctx.Lookup(), ctx.Unit)
	ctx.Rack = next
	l.ID = added.ID
	out := []screen.Request{screen.EditRack{Next: next, Own: true}, screen.Say("on the rack: " + rack.Shown(added, ctx.Lookup(), ctx.Unit))}
	return l, append(out, l.add(ctx)...)
}

// changed makes next the rack, unless the change was refused.
func (l Screen) changed(next rack.Rack, err error) (screen.Screen, []screen.Request) {
	if err != nil {
		return l, []screen.Request{screen.Refuse(err.Error())}
	}
	return l, []screen.Request{screen.EditRack{Next: next}}
}

// askWhich asks which pieces to show.
func (l Screen) askWhich(ctx screen.Context) []screen.Request {
	look := ctx.Lookup()
	field := ask.New("show only: timber, planed, first, ready, over a length", l.Which, func(s string) (string, string, error) {
		_, err := rack.ParseFilter(s, look, ctx.Unit)
		if strings.TrimSpace(s) == "" {
			return s, "all pieces", nil
		}
		return s, s, err
	})
	return ask.Show(field, func(s string) tea.Msg { return showOnly(strings.TrimSpace(s)) })
}

// showOnly shows the entries that words say.
func showOnly(text string) screen.Then[Screen] {
	return func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		filter, err := rack.ParseFilter(text, ctx.Lookup(), ctx.Unit)
		if err != nil {
			return l, []screen.Request{screen.Refuse(err.Error())}
		}
		l.Which, l.Filter, l.listed = text, filter, listed{}
		return l, nil
	}
}

// askPhoto asks for the photo of the chosen entry and those below it, which its screen reads.
func (l Screen) askPhoto(ctx screen.Context) []screen.Request {
	if _, ok := l.Chosen(ctx); !ok {
		return []screen.Request{screen.Say(noPiece(ctx))}
	}
	field := ask.New("photo of the timber next to white paper: a JPEG or PNG file", l.photo, func(s string) (string, string, error) {
		file := strings.TrimSpace(s)
		if file == "" {
			return "", "", errors.New("write the file's name, like ~/photos/timber.jpg")
		}
		return file, screen.WholePath(file), nil
	})
	return ask.Show(field, func(file string) tea.Msg {
		return screen.Then[Screen](func(l Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			l.photo = file
			var ids []string
			entries := l.Entries(ctx)
			for _, e := range entries[min(l.at(entries), len(entries)):] {
				ids = append(ids, e.ID)
			}
			return l, []screen.Request{screen.Tell{Msg: screen.ReadPhoto{File: screen.WholePath(file), IDs: ids}}, screen.Go{To: "colour"}}
		})
	})
}

// lookAt says whose end grain on the rack would settle most glue lines, by the plan where
// there is one, and has it computed what the rack yields.
func (l Screen) lookAt(ctx screen.Context) (screen.Screen, []screen.Request) {
	if l.looks = ctx.Plan.Looks; !ctx.Planned() {
		l.looks = booking.LookFirst(ctx.PlanJob(), nil, ctx.Physics)
	}
	return l.askYields(ctx)
}

// askYields has it computed what the rack yields, beside the screen.
func (l Screen) askYields(ctx screen.Context) (screen.Screen, []screen.Request) {
	of := ctx.Stamp
	if l.yields.of == of && l.yields.strips != nil {
		return l, nil
	}
	if l.yields.stop != nil {
		l.yields.stop()
	}
	limited, stop := context.WithTimeout(context.Background(), yieldsFor)
	l.yields = yields{of: of, stop: stop}
	task, beside := ctx.PlanJob(), ctx.Beside
	return l, []screen.Request{screen.Run{Cmd: func() tea.Msg {
		defer stop()
		supplies, each, err := beside.Solve.Yields(limited, task)
		told, err := beside.Unfit(err, mistake.Counts, task)
		if err != nil {
			return nil // the plan's screen says what is wrong with the job
		}
		done := yields{of: of, supplies: supplies, strips: map[string]int{}, told: told}
		for _, y := range each {
			done.strips[y.ID] = y.Strips
		}
		return done
	}}}
}

// given returns what the rack yields of the present state, as far as it was computed.
func (l Screen) given(ctx screen.Context) yields {
	if l.yields.of != ctx.Stamp {
		return yields{}
	}
	return l.yields
}
