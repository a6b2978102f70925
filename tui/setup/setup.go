// Package setup reads what the first screen needs, before there is a screen: the workshop,
// the rack, the pattern to open, and work that was kept.
package setup

import (
	"io"
	"time"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// Options say what to open and how to show it.
type Options struct {
	Home    *store.Home
	Pattern string       // a saved stem or a file; empty: the first saved one, else the demo's
	Shop    string       // a file that stands in for the home's; empty: none
	Rack    string       // likewise
	Unit    *length.Unit // nil: the workshop's
	Profile paint.Profile
	Out     io.Writer // where to say, after the screen is gone, what was kept
}

// Setup is what the screens start with.
type Setup struct {
	Home     *store.Home
	Demo     []store.Saved // set on an empty home: what it is offered instead
	Physics  movement.Physics
	Shop     Shop // that Physics goes by
	Rack     rack.Rack
	RackFrom store.Version // of the home's rack; Absent where it has none
	RackFile string        // a file that stands in for it; nothing is saved then
	Open     store.Saved   // the pattern to start with
	Unit     length.Unit
	Profile  paint.Profile
	// The window's size where it is known already; it is told of every change.
	Width, Height int
	Saved         []store.Listed   // the home's patterns
	Kept          []store.Recovery // work that was not saved last time
	Mended        store.Mended     // what was finished at the start
	// Later returns msg after a time; nil: by the clock. Tests have a clock of their own.
	Later func(d time.Duration, msg tea.Msg) tea.Cmd
	Now   func() time.Time // nil: the clock's
	// Stopped waits for a stop that is asked for from outside; nil: there is none.
	Stopped tea.Cmd
}

// A Shop is where the workshop comes from.
type Shop struct {
	File     store.ShopFile
	From     store.Version // of the home's file; Absent where there is none
	StandsIn string        // a file that stands in for it; nothing is saved then
	Demo     bool          // it is the demo's: there is nothing of the maker's own yet
}

// Load reads what the first screen needs.
func Load(o Options) (Setup, error) {
	s := Setup{Home: o.Home, Profile: o.Profile}
	var err error
	if s.Mended, err = o.Home.Mend(); err != nil {
		return s, err
	}
	table, err := o.Home.Species()
	if err != nil {
		return s, err
	}
	known := table
	if s.Shop, err = readShop(o); err != nil {
		return s, err
	}
	if s.Rack, s.RackFrom, err = readRack(o, known); err != nil {
		return s, err
	}
	s.RackFile = o.Rack
	if s.Kept, err = o.Home.Recoveries(known); err != nil {
		return s, err
	}
	if s.Saved, err = o.Home.Patterns(known); err != nil {
		return s, err
	}
	if len(s.Saved) == 0 {
		demo, err := store.ReadDemo()
		if err != nil {
			return s, err
		}
		s.Demo, s.Open = demo.Patterns, demo.Patterns[0]
		if s.RackFrom == store.Absent && o.Rack == "" {
			s.Rack = demo.Rack
			s.Shop.Demo = s.Shop.From == store.Absent && s.Shop.StandsIn == ""
		}
		if s.Open, err = choosePattern(o, s, table); err != nil {
			return s, err
		}
		if s.Shop.Demo = s.Shop.Demo && s.Open.File == ""; s.Shop.Demo {
			s.Shop.File = demo.ShopFile
		}
	} else if s.Open, err = choosePattern(o, s, table); err != nil {
		return s, err
	}
	workshop := s.Shop.File.Shop()
	s.Physics = movement.New(table, workshop)
	s.Unit = workshop.Units
	if o.Unit != nil {
		s.Unit = *o.Unit
	}
	return s, nil
}

// choosePattern returns the pattern to start with.
func choosePattern(o Options, s Setup, table *species.Table) (store.Saved, error) {
	if o.Pattern != "" {
		for _, d := range s.Demo {
			if d.Stem == o.Pattern {
				return d, nil
			}
		}
		return o.Home.OpenPattern(o.Pattern, table)
	}
	for _, l := range s.Saved {
		if l.Err == nil {
			return l.Saved, nil
		}
	}
	return s.Open, nil
}

func readShop(o Options) (s Shop, err error) {
	if o.Shop != "" {
		s.StandsIn = o.Shop
		s.File, err = store.OpenShopFile(o.Shop)
		return s, err
	}
	s.File, s.From, err = o.Home.ShopFile()
	return s, err
}

func readRack(o Options, known *species.Table) (rack.Rack, store.Version, error) {
	if o.Rack != "" {
		r, err := store.OpenRack(o.Rack, known)
		return r, store.Absent, err
	}
	return o.Home.Rack(known)
}
