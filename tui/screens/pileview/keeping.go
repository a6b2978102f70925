package pileview

import (
	"errors"
	"reflect"
	"slices"
	"sync"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/screen"
)

// A keeping is how the wants stand to their file.
type keeping struct {
	read    bool
	seek    bool  // a search was asked for before they were read
	wrong   error // why the file cannot be read; nothing is saved over it
	version store.Version
	saved   []orders.Want
	demo    bool          // they are the demo's, and are not saved
	saving  func() stored // of a save under way, how it went; nil: there is none
}

// A stored says how a save of the wants went.
type stored struct {
	wants   []orders.Want
	version store.Version
	err     error
}

func alike(a, b orders.Want) bool { return reflect.DeepEqual(a, b) }

// read has the wants read, where they are not those that are shown.
func (s Screen) read(ctx screen.Context) []screen.Request {
	if s.kept.saving != nil || ctx.Beside.Files == nil {
		return nil
	}
	files, against, demo, base := ctx.Beside.Files, store.Against{Known: ctx.Physics.Table()}, ctx.RackDemo, s.kept.version
	return []screen.Request{screen.Run{Cmd: func() tea.Msg {
		wants, version, err := files.Orders(against)
		demo := demo && version == store.Absent
		if err == nil && demo {
			var d store.Demo
			d, err = store.ReadDemo()
			wants = d.Orders
		}
		return screen.Then[Screen](func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			if s.kept.saving != nil || s.kept.version != base { // saved since
				return s, nil
			}
			return s.with(wants, version, demo, err, ctx)
		})
	}}}
}

// with takes the wants that were read, and then searches where that was asked for before.
func (s Screen) with(wants []orders.Want, version store.Version, demo bool, err error, ctx screen.Context) (screen.Screen, []screen.Request) {
	before := s.kept
	s.kept.seek = false
	if s.kept.wrong = err; err != nil {
		return s, []screen.Request{screen.Refuse(err.Error())}
	}
	if before.read && before.version == version && before.demo == demo {
		return s, nil
	}
	s.kept = keeping{read: true, version: version, saved: wants, demo: demo}
	next := s.now
	if next.wants = wants; before.read {
		return s.do("read the wants again", next), nil
	}
	s.now = next
	if before.seek {
		return s.among().search(ctx)
	}
	return s.among(), nil
}

// locked says why no want can be changed now; nothing: they can.
func (s Screen) locked(ctx screen.Context) []screen.Request {
	switch {
	case s.kept.wrong != nil:
		return []screen.Request{screen.Refuse("mend orders.toml first: " + s.kept.wrong.Error())}
	case !s.kept.read && ctx.Beside.Files != nil:
		return say("orders.toml is still being read: press the key again")
	}
	return nil
}

// keep has the wants saved, one save at a time. Those of the demo are not.
func (s Screen) keep(ctx screen.Context) (Screen, []screen.Request) {
	switch {
	case slices.EqualFunc(s.now.wants, s.kept.saved, alike) || s.kept.saving != nil:
		return s, nil
	case s.kept.demo:
		return s, say("changed for the demo's market only (not saved): yours begins with your first rack piece")
	case ctx.Beside.Files == nil:
		return s, nil
	}
	files, wants, base := ctx.Beside.Files, s.now.wants, s.kept.version
	saving := sync.OnceValue(func() stored {
		version, err := files.SaveOrders(wants, base)
		return stored{wants, version, err}
	})
	s.kept.saving = saving
	return s, []screen.Request{screen.Run{Cmd: func() tea.Msg { return saving() }}}
}

// took takes note of how a save went.
func (s Screen) took(m stored) Screen {
	if s.kept.saving = nil; m.err == nil {
		s.kept.version, s.kept.saved = m.version, m.wants
	}
	return s
}

// stored goes on after a save.
func (s Screen) stored(m stored, ctx screen.Context) (screen.Screen, []screen.Request) {
	s = s.took(m)
	if errors.Is(m.err, store.ErrChanged) {
		told := errors.New("orders.toml was changed elsewhere: it is read again, and undo brings yours back")
		return s, append(s.read(ctx), screen.Stored{Err: told})
	}
	if m.err != nil {
		return s, []screen.Request{screen.Stored{Err: m.err}}
	}
	s, asked := s.keep(ctx)
	return s, append(asked, screen.Stored{})
}

// Unsaved reports whether wants are in no file.
func (s Screen) Unsaved() bool {
	return !s.kept.demo && (s.kept.saving != nil || !slices.EqualFunc(s.now.wants, s.kept.saved, alike))
}

// Saved returns the wants, and whether they count as saved in their file.
func (s Screen) Saved() ([]orders.Want, bool) {
	return s.now.wants, s.kept.read && !s.kept.demo && !s.Unsaved()
}

// Saving reports whether a save of the wants is under way.
func (s Screen) Saving() bool { return s.kept.saving != nil }

// SaveLast saves the wants when the screen is gone, after what was being saved.
func (s Screen) SaveLast(files *store.Home) error {
	if s.kept.saving != nil {
		s = s.took(s.kept.saving())
	}
	if !s.Unsaved() {
		return nil
	}
	if _, err := files.SaveOrders(s.now.wants, s.kept.version); err != nil {
		return errors.Join(errors.New("changes of what you would sell were not saved and are lost"), err)
	}
	return nil
}
