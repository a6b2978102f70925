package rack_test

import (
	"errors"
	"testing"

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
		{"three cherries", "cherry", nil, "", 3}, // black, European, and jatoba as Brazilian cherry
		{"the cherry of the rack", "cherry", [][]string{{"wild_cherry"}}, "wild_cherry", 0},
		{"two on the rack", "cherry", [][]string{{"wild_cherry", "black_cherry"}}, "", 2},
		{"the rack before the pattern", "cherry", [][]string{{"wild_cherry"}, {"black_cherry"}}, "wild_cherry", 0},
		{"not on the rack", "sapele", [][]string{{"wild_cherry"}, nil}, "sapele", 0},
		{"beginnings in order", "am wal", nil, "black_walnut", 0}, // also called American walnut
		{"beginnings out of order", "wal am", nil, "", 0},
		{"no timber", "plastic wood", nil, "", 0},
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
