package rack_test

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// shelf is a small rack: C1 twice with a fault, W3, and the ready strips M1 (14) and
// C10.
func shelf() rack.Rack {
	return rack.Rack{
		Pieces: []rack.Piece{
			{ID: "C1", Species: "black_cherry", Length: 620 * mm, Width: 85 * mm, Thickness: 77 * mm, Quantity: 2,
				Faults: []rack.Fault{{To: 40 * mm}}, Rings: pattern.RingsFlat()},
			{ID: "W3", Species: "black_walnut", Length: 900 * mm, Width: 60 * mm, Thickness: 22 * mm, Quantity: 1, Planed: true, UseFirst: true},
		},
		Strips: []rack.Strip{
			{ID: "M1", Species: "hard_maple", Length: 470 * mm, Width: 25 * mm, Thickness: 24 * mm, Quantity: 14, UseFirst: true},
			{ID: "C10", Species: "black_cherry", Length: 505 * mm, Width: 22 * mm, Thickness: 24 * mm, Quantity: 1},
		},
	}
}

func ids(r rack.Rack) string {
	var all []string
	for _, e := range r.Entries() {
		all = append(all, e.ID)
	}
	return strings.Join(all, " ")
}

// edits lists every edit with how the shelf lies after it, as ids, and what the entry
// of an id then is. An edit that is refused says why.
func edits() []struct {
	name string
	do   func(rack.Rack) (rack.Rack, error)
	ids  string
	says string
	look func(rack.Rack) bool
} {
	entry := func(id string, ok func(rack.Entry) bool) func(rack.Rack) bool {
		return func(r rack.Rack) bool { e, found := r.Get(id); return found && ok(e) }
	}
	add := func(e rack.Entry) func(rack.Rack) (rack.Rack, error) {
		return func(r rack.Rack) (rack.Rack, error) { r, _, err := r.Add(e, lookup()); return r, err }
	}
	strip := rack.EntryOf(rack.Strip{Species: "sapele", Length: 400 * mm, Width: 20 * mm, Thickness: 24 * mm, Quantity: 1})
	replace := func(id string, e rack.Entry) func(rack.Rack) (rack.Rack, error) {
		return func(r rack.Rack) (rack.Rack, error) { return r.Replace(id, e) }
	}
	named := func(id string) rack.Entry { return cherry(func(e *rack.Entry) { e.ID = id }) }
	return []struct {
		name string
		do   func(rack.Rack) (rack.Rack, error)
		ids  string
		says string
		look func(rack.Rack) bool
	}{
		{"add a piece", add(cherry()), "C1 W3 CH1 M1 C10", "", entry("CH1", func(e rack.Entry) bool { return !e.Ready && e.Length == 620*mm })},
		{"add a ready strip", add(strip), "C1 W3 M1 C10 SA1", "", entry("SA1", func(e rack.Entry) bool { return e.Ready })},
		{"add with an id", add(named("Z")), "C1 W3 Z M1 C10", "", nil},
		{"add with a piece's id", add(named("C1")), "", "id C1 is taken by black_cherry, 620 mm long", nil},
		{"add with a strip's id", add(named("M1")), "", "taken by a ready strip of hard_maple", nil},
		{"add without a timber", add(rack.Entry{}), "", "no timber: name one", nil},
		{"add a fault outside", add(cherry(func(e *rack.Entry) { e.Faults = []rack.Fault{{To: 621 * mm}} })), "", "outside the piece", nil},
		{"add an unlikely moisture", add(cherry(func(e *rack.Entry) { e.Moisture = pattern.Read(31) })), "", "must be 0 to 30", nil},
		{"add too many", add(cherry(func(e *rack.Entry) { e.Quantity = 10_001 })), "", "must be 1 to 10000", nil},
		{"add with a slash", add(named("W3/1")), "", "slash", nil},
		{"add a note that acts on the screen", add(cherry(func(e *rack.Entry) { e.Note = "\x1b[31m" })), "", "U+001B", nil},
		{"replace", replace("C1", cherry()), "C1 W3 M1 C10", "", entry("C1", func(e rack.Entry) bool { return e.Quantity == 1 && e.Faults == nil })},
		{"replace and rename", replace("C1", named("C2")), "C2 W3 M1 C10", "", nil},
		{"replace and take another's id", replace("C1", named("W3")), "", "id W3 is taken", nil},
		{"replace a piece by a strip", replace("C1", strip), "W3 M1 C10 C1", "", entry("C1", func(e rack.Entry) bool { return e.Ready })},
		{"replace a strip", replace("M1", strip), "C1 W3 M1 C10", "", entry("M1", func(e rack.Entry) bool { return e.Species == "sapele" })},
		{"replace what is not there", replace("X", strip), "", `nothing on the rack has the id "X"`, nil},
		{"remove a piece", func(r rack.Rack) (rack.Rack, error) { return r.Remove("C1") }, "W3 M1 C10", "", nil},
		{"remove a strip", func(r rack.Rack) (rack.Rack, error) { return r.Remove("M1") }, "C1 W3 C10", "", nil},
		{"remove in small letters", func(r rack.Rack) (rack.Rack, error) { return r.Remove("w3") }, "", "did you mean W3?", nil},
		{"use one of two", func(r rack.Rack) (rack.Rack, error) { return r.UseOne("C1") }, "C1 W3 M1 C10", "", entry("C1", func(e rack.Entry) bool { return e.Quantity == 1 })},
		{"use one strip", func(r rack.Rack) (rack.Rack, error) { return r.UseOne("M1") }, "C1 W3 M1 C10", "", entry("M1", func(e rack.Entry) bool { return e.Quantity == 13 })},
		{"use the last", func(r rack.Rack) (rack.Rack, error) { return r.UseOne("W3") }, "C1 M1 C10", "", nil},
		{"use what is not there", func(r rack.Rack) (rack.Rack, error) { return r.UseOne("X") }, "", "nothing on the rack", nil},
		{"mark use first", func(r rack.Rack) (rack.Rack, error) { return r.SetUseFirst("C1", true) }, "C1 W3 M1 C10", "", entry("C1", func(e rack.Entry) bool { return e.UseFirst })},
		{"unmark", func(r rack.Rack) (rack.Rack, error) { return r.SetUseFirst("M1", false) }, "C1 W3 M1 C10", "", entry("M1", func(e rack.Entry) bool { return !e.UseFirst })},
		{"write a reading down", changed("C1", func(e *rack.Entry) { e.Moisture = pattern.Read(9.1) }), "C1 W3 M1 C10", "",
			entry("C1", func(e rack.Entry) bool { return e.Moisture == pattern.Read(9.1) })},
		{"a reading out of range", changed("C1", func(e *rack.Entry) { e.Moisture = pattern.Read(-1) }), "", "must be 0 to 30", nil},
		{"say the rings", func(r rack.Rack) (rack.Rack, error) { return r.SetRings("M1", pattern.RingsQuarter()) }, "C1 W3 M1 C10", "",
			entry("M1", func(e rack.Entry) bool { return e.Rings == pattern.RingsQuarter() })},
		{"add a fault", changed("C1", func(e *rack.Entry) { e.Faults = append(e.Faults, rack.Fault{Along: true, To: 9 * mm}) }), "C1 W3 M1 C10", "",
			entry("C1", func(e rack.Entry) bool { return len(e.Faults) == 2 })},
		{"a fault beyond the end", changed("C1", func(e *rack.Entry) { e.Faults = append(e.Faults, rack.Fault{To: 621 * mm}) }), "", "outside", nil},
		{"a fault backwards", changed("C1", func(e *rack.Entry) { e.Faults = append(e.Faults, rack.Fault{From: 5, To: 5}) }), "", "end after", nil},
		{"a fault of a strip", changed("M1", func(e *rack.Entry) { e.Faults = append(e.Faults, rack.Fault{To: 9 * mm}) }), "", "no faults", nil},
		{"sort by timber", func(r rack.Rack) (rack.Rack, error) { return r.Sort(rack.ByTimber), nil }, "C1 W3 C10 M1", "", nil},
		{"sort by length", func(r rack.Rack) (rack.Rack, error) { return r.Sort(rack.ByLength), nil }, "W3 C1 C10 M1", "", nil},
	}
}

func TestEdits(t *testing.T) {
	for _, c := range edits() {
		t.Run(c.name, func(t *testing.T) {
			given := shelf()
			// Room behind the lists shows whether an edit writes into what it was given.
			given.Pieces = append(make([]rack.Piece, 0, 9), given.Pieces...)
			given.Strips = append(make([]rack.Strip, 0, 9), given.Strips...)
			got, err := c.do(given)
			same(t, given, shelf())
			if p := given.Pieces[:3][2]; p.ID != "" {
				t.Errorf("%v was written behind the pieces that were given", p)
			}
			if s := given.Strips[:3][2]; s.ID != "" {
				t.Errorf("%v was written behind the strips that were given", s)
			}
			switch {
			case c.says != "":
				if err == nil || !strings.Contains(err.Error(), c.says) {
					t.Errorf("error %v, want %q in it", err, c.says)
				}
				same(t, got, shelf())
			case err != nil:
				t.Error(err)
			case ids(got) != c.ids:
				t.Errorf("the shelf has %s, want %s", ids(got), c.ids)
			case c.look != nil && !c.look(got):
				t.Errorf("not as wanted: %+v", got)
			}
		})
	}
}

func TestNextID(t *testing.T) {
	for _, c := range []struct{ name, ids, letters, want string }{
		{"empty rack", "", "CH", "CH1"},
		{"above the highest", "CH2 CH6 WA9", "CH", "CH7"},
		{"small letters count", "ch6", "CH", "CH7"},
		{"a gap stays", "CH1 CH3", "CH", "CH4"},
		{"other ids do not count", "CHEST4 CH-9 CH CHx", "CH", "CH1"},
		{"a number too long to count", "CH1000000000 CH999999999", "CH", "CH1000000001"},
	} {
		var r rack.Rack
		for _, id := range strings.Fields(c.ids) {
			r.Pieces = append(r.Pieces, rack.Piece{ID: id})
		}
		if got := rack.NextID(r, c.letters); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}

func TestAgainIsOneMore(t *testing.T) {
	e, err := rack.ParseLine("cherry 620 85 77 flat 0-40 #C5 first", lookup(), length.InMM)
	if err != nil {
		t.Fatal(err)
	}
	r, first, err := rack.Rack{}.Add(e, lookup())
	if err != nil {
		t.Fatal(err)
	}
	r, second, err := r.Add(rack.Again(first), lookup())
	if err != nil || ids(r) != "C5 CH1" {
		t.Fatalf("ids %s, %v", ids(r), err)
	}
	second.ID = first.ID
	same(t, second, first)
	second.Faults[0].To++
	if first.Faults[0].To != 40*mm {
		t.Error("the two share their faults")
	}
}

func TestSort(t *testing.T) {
	r := rack.Rack{Pieces: []rack.Piece{
		{ID: "W10", Species: "black_walnut", Length: 500 * mm, Width: 50 * mm, Thickness: 20 * mm, Quantity: 1},
		{ID: "W2", Species: "black_walnut", Length: 800 * mm, Width: 40 * mm, Thickness: 20 * mm, Quantity: 1},
		{ID: "C1", Species: "black_cherry", Length: 500 * mm, Width: 60 * mm, Thickness: 20 * mm, Quantity: 3, UseFirst: true},
		{ID: "W02", Species: "black_walnut", Length: 700 * mm, Width: 90 * mm, Thickness: 20 * mm, Quantity: 1},
	}}
	// Volumes: W10 500, W2 640, C1 3 x 600, W02 1260 cm3.
	for order, want := range map[rack.Order]string{
		rack.ByTimber: "C1 W2 W02 W10", rack.ByLength: "W2 W02 W10 C1", rack.ByVolume: "C1 W02 W2 W10",
		rack.ByID: "C1 W02 W2 W10", rack.ByUseFirst: "C1 W10 W2 W02",
	} {
		if got := ids(r.Sort(order)); got != want {
			t.Errorf("by %v: %s, want %s", order, got, want)
		}
	}
	for _, o := range rack.Orders() {
		if got, err := rack.ParseOrder(o.String()); err != nil || got != o {
			t.Errorf("%v reads as %v, %v", o, got, err)
		}
	}
	if _, err := rack.ParseOrder("weight"); err == nil || !strings.Contains(err.Error(), "timber, length, volume, id, first") {
		t.Errorf("weight: %v", err)
	}
}

func TestFilter(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "C1 W3 M1 C10"},
		{"cherry", "C1 C10"},
		{"CH", "C1 C10"},
		{"cherry ready", "C10"},
		{"ready", "M1 C10"},
		{"first", "W3 M1"},
		{"planed", "W3 M1 C10"},
		{"rough", "C1"},
		{"faults", "C1"},
		{"flat", "C1"},
		{"unknown", "W3 M1 C10"},
		{"620", "C1 W3"},
		{"62.1cm", "W3"},
		{"#w3", "W3"},
		{"bl wal 300 first", "W3"},
		{"sapele", ""},
	} {
		f, err := rack.ParseFilter(c.text, lookup(), length.InMM)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if got := ids(shelf().Filter(f)); got != c.want {
			t.Errorf("%q shows %s, want %s", c.text, got, c.want)
		}
	}
	for text, says := range map[string]string{
		"plastic": "planed, rough, first", "cherry 3ft": "column 8", "#": "empty", "1,250": "unclear",
	} {
		if _, err := rack.ParseFilter(text, lookup(), length.InMM); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want %q", text, err, says)
		}
	}
}

// A fixed seed drives edits, undo and redo against a list of racks kept on the side.
func TestHistory(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 19))
	all := edits()
	h := rack.NewHistory(shelf())
	racks, labels, at := []rack.Rack{shelf()}, []string{""}, 0
	for i := range 3000 {
		old, before := h, h.Now()
		switch rng.IntN(4) {
		case 0:
			var label string
			var ok bool
			next, can := h.NextUndo()
			h, label, ok = h.Undo()
			if ok != (at > 0) || can != ok || label != next || ok && label != labels[at] {
				t.Fatalf("undo %d gives %q, %v", i, label, ok)
			}
			at = max(at-1, 0)
		case 1:
			var label string
			var ok bool
			next, can := h.NextRedo()
			h, label, ok = h.Redo()
			if ok != (at+1 < len(racks)) || can != ok || label != next || ok && label != labels[at+1] {
				t.Fatalf("redo %d gives %q, %v", i, label, ok)
			}
			at = min(at+1, len(racks)-1)
		default:
			next, _ := all[rng.IntN(len(all))].do(h.Now())
			label := "step " + strconv.Itoa(i)
			h = h.Do(label, next)
			if !next.Equal(racks[at]) {
				racks, labels = append(slices.Clip(racks[:at+1]), next), append(slices.Clip(labels[:at+1]), label)
				at++
			}
		}
		if !h.Now().Equal(racks[at]) || h.Dirty() == h.Now().Equal(shelf()) || !old.Now().Equal(before) {
			t.Fatalf("after %d the history has %s, want %s", i, ids(h.Now()), ids(racks[at]))
		}
		if same := h.Now().Equal(before); same != (h.Revision() == old.Revision()) && !same {
			t.Fatalf("revision %d after %d", h.Revision(), old.Revision())
		}
	}
	if h = h.MarkSaved(h.Now()); h.Dirty() {
		t.Error("what was saved is unsaved")
	}
	if h = h.MarkSaved(rack.Rack{}); !h.Dirty() {
		t.Error("another rack was saved, and nothing is unsaved")
	}
}

// Budget: 1 ms on a rack of a thousand.
func BenchmarkAdd(b *testing.B) {
	var r rack.Rack
	for i := range 1000 {
		r.Pieces = append(r.Pieces, cherry(func(e *rack.Entry) { e.ID = "CH" + strconv.Itoa(i) }).Piece)
	}
	look := lookup()
	h := rack.NewHistory(r)
	for b.Loop() {
		next, _, err := r.Add(cherry(), look)
		if err != nil {
			b.Fatal(err)
		}
		h.Do("add", next)
	}
}

// changed replaces the entry of an id by what to makes of it.
func changed(id string, to func(*rack.Entry)) func(rack.Rack) (rack.Rack, error) {
	return func(r rack.Rack) (rack.Rack, error) {
		e, _ := r.Get(id)
		e = rack.Again(e)
		to(&e)
		return r.Replace(id, e)
	}
}
