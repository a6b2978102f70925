package rack_test

import (
	"errors"
	"testing"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/species"
)

func TestLookup(t *testing.T) {
	table := species.Builtin()
	for _, c := range []struct {
		name, words string
		prefer      [][]string
		want        string // key, or empty: more than one or none
		could       int
	}{
		{"key", "teak", nil, "teak", 0},
		{"a key goes before what lies nearer", "mahogany", [][]string{{"khaya"}}, "mahogany", 0},
		{"name", "European cherry", nil, "wild_cherry", 0},
		{"name, hyphens alike", "yellow poplar", nil, "yellow_poplar", 0},
		{"also called", "gean", nil, "wild_cherry", 0},
		{"a name goes before what is also called so", "soft maple", nil, "soft_maple", 0},
		{"letters", "wA", nil, "black_walnut", 0},
		{"one begins so", "zebr", nil, "zebrano", 0},
		{"two cherries", "cherry", nil, "", 2}, // black, European; jatoba is only called Brazilian cherry
		{"two walnuts", "walnut", nil, "", 2},  // and not ipe, which is called Brazilian walnut
		{"walnuts where ipe is on the rack", "walnut", [][]string{{"ipe"}}, "", 2},
		{"a name that only ends so", "padauk wood", nil, "", 0},
		{"nothing else that ends so", "d'arc", nil, "osage_orange", 0}, // bois d'arc
		{"a name of the trade from its beginning", "braz wal", nil, "ipe", 0},
		{"the cherry of the rack", "cherry", [][]string{{"wild_cherry"}}, "wild_cherry", 0},
		{"two on the rack", "cherry", [][]string{{"wild_cherry", "black_cherry"}}, "", 2},
		{"the rack before the pattern", "cherry", [][]string{{"wild_cherry"}, {"black_cherry"}}, "wild_cherry", 0},
		{"not on the rack", "sapele", [][]string{{"wild_cherry"}, nil}, "sapele", 0},
		{"beginnings in order", "am wal", nil, "black_walnut", 0}, // also called American walnut
		{"beginnings out of order", "wal am", nil, "", 0},
		{"not a timber I know", "plastic wood", nil, "", 0},
		{"nothing", " ", nil, "", 0},
		{"a key the table has not", "teak", [][]string{{"nothing_such"}}, "teak", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := rack.NewLookup(table, c.prefer...).Find(c.words)
			if got.Key != c.want || (err == nil) != (c.want != "") {
				t.Fatalf("%q is %q, %v; want %q", c.words, got.Key, err, c.want)
			}
			var e *rack.TimberError
			if err != nil && (!errors.As(err, &e) || len(e.Could) != c.could) {
				t.Errorf("%v, want %d that it could be", err, c.could)
			}
		})
	}
	if _, err := (rack.Lookup{}).Find("teak"); err == nil {
		t.Error("the zero Lookup knows teak")
	}
}

// Every timber is found by its key and its letters, whatever lies on the rack.
func TestLookupFindsEveryTimber(t *testing.T) {
	table := species.Builtin()
	look := rack.NewLookup(table)
	for _, s := range table.All() {
		for _, words := range []string{s.Key, s.Name} {
			if got, err := look.Find(words); err != nil || got.Key != s.Key {
				t.Errorf("%q is %q, %v; want %s", words, got.Key, err, s.Key)
			}
		}
		if got, err := rack.NewLookup(table, []string{s.Key}).Find(s.Letters); err != nil || got.Key != s.Key {
			t.Errorf("%q is %q, %v; want %s", s.Letters, got.Key, err, s.Key)
		}
		if look.Letters(s.Key) != s.Letters || look.Name(s.Key) != s.Name {
			t.Errorf("%s is %s, %s", s.Key, look.Letters(s.Key), look.Name(s.Key))
		}
	}
}

// Every timber is called by a name that is found to be it, whichever timbers go before
// the others.
func TestCalledIsFoundAgain(t *testing.T) {
	table := species.Builtin()
	byKey := 0
	for _, s := range table.All() {
		name := rack.NewLookup(table).Called(s.Key)
		if name == s.Key && name != s.Name {
			byKey++
			t.Logf("%s goes by its key", s.Key)
		}
		for _, other := range table.All() {
			look := rack.NewLookup(table, []string{other.Key})
			if got, err := look.Find(name); err != nil || got.Key != s.Key {
				t.Fatalf("%s is called %q, which is %q, %v where %s goes first", s.Key, name, got.Key, err, other.Key)
			}
			if again := look.Called(s.Key); again != name {
				t.Fatalf("%s is called %q, and %q where %s goes first", s.Key, name, again, other.Key)
			}
		}
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			e := cherry(func(e *rack.Entry) { e.Species = s.Key })
			text := rack.Line(e, rack.NewLookup(table), u)
			if got, err := rack.ParseLine(text, rack.NewLookup(table), u); err != nil || !got.Equal(e) {
				t.Errorf("%q reads as %+v, %v", text, got, err)
			}
		}
	}
	if byKey*10 > table.Len() {
		t.Errorf("%d of %d timbers go by their keys", byKey, table.Len())
	}
	if got := rack.NewLookup(table).Called("black_locust"); got != "robinia" {
		t.Errorf("black_locust is called %q", got)
	}
	if got := (rack.Lookup{}).Called("x_y"); got != "x_y" {
		t.Errorf("without a table a timber is called %q", got)
	}
}
