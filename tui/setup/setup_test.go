package setup_test

import (
	"path/filepath"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/store"
	"example.com/oddments/tui/setup"
)

func home(t *testing.T) *store.Home {
	t.Helper()
	h := store.OpenHome(t.TempDir())
	t.Cleanup(func() { _ = h.Close() })
	return h
}

// An empty home begins with the demo; one of its patterns may be asked for by name.
func TestDemo(t *testing.T) {
	for _, c := range []struct{ pattern, want string }{{"", "rookery-square"}, {"candle-sill", "candle-sill"}} {
		s, err := setup.Load(setup.Options{Home: home(t), Pattern: c.pattern})
		if err != nil || s.Open.Stem != c.want || len(s.Demo) == 0 || len(s.Rack.Pieces) == 0 || s.RackFrom != store.Absent {
			t.Errorf("%q opens %q: %v", c.pattern, s.Open.Stem, err)
		}
	}
}

// What the maker has goes before the demo, and what stands in for it before that.
func TestOwn(t *testing.T) {
	h := home(t)
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := h.SavePattern("mine", demo.Patterns[1].Pattern, store.Absent); err != nil {
		t.Fatal(err)
	}
	inches := length.InInches
	s, err := setup.Load(setup.Options{Home: h, Unit: &inches})
	if err != nil || s.Open.Stem != "mine" || len(s.Demo) > 0 || len(s.Rack.Pieces) > 0 || s.Unit != length.InInches {
		t.Errorf("opens %q, in %v, %d pieces: %v", s.Open.Stem, s.Unit, len(s.Rack.Pieces), err)
	}
	for _, o := range []setup.Options{
		{Home: h, Pattern: "nowhere"}, {Home: h, Rack: filepath.Join(h.Dir(), "none.toml")}, {Home: h, Shop: filepath.Join(h.Dir(), "none.toml")},
	} {
		if _, err := setup.Load(o); err == nil {
			t.Errorf("%+v is no error", o)
		}
	}
}
