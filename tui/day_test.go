package tui

import (
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern/edit"
	"example.com/oddments/tui/keymap"
)

// handKeys returns the keys that change the bench: those of every hand move.
func handKeys(t *testing.T) []string {
	t.Helper()
	var keys []string
	for _, m := range edit.Moves() {
		a, ok := Keys().ByID(keymap.ID(m.ID))
		if !ok {
			t.Fatalf("no key for %s", m.ID)
		}
		keys = append(keys, a.Keys[0])
	}
	return append(keys, "enter") // takes advice
}

// answers are what is typed into whatever asks.
func answers() []string {
	return []string{"12", "25", "31.7", "8", "9.5", "45", "1", "3", "0", "1/2 in", "2.5 cm", "1,250 mm", "-3", "flat", "quarter", "Larch", "", "abc", "300", "22"}
}

// A day of keys: random keys of the bench, answers to what asks, all undone, all made
// again, saved and read: nothing differs. Package edit has a whole week without keys.
func TestDayOfKeys(t *testing.T) {
	moves := 1500
	switch {
	case os.Getenv("ODDMENTS_NIGHTLY") != "":
		moves = 3000
	case testing.Short():
		moves = 600
	}
	t.Logf("%d keys; 3000 with ODDMENTS_NIGHTLY=1", moves)
	d, home := ownHome(t)
	rng := rand.New(rand.NewPCG(31, 32))
	first := d.app.state()
	var steps []edit.State // after each step that can be undone
	keys := handKeys(t)
	refused := 0
	for range moves {
		k := keys[rng.IntN(len(keys))]
		if n := len(d.app.state().Pattern.Strips); n > 24 {
			k = "x"
		} else if n < 4 {
			k = "t"
		}
		before := d.app.doc.History.Revision()
		d.keys(k)
		d.answer(rng)
		if after := d.app.doc.History.Revision(); after == before+1 {
			steps = append(steps, d.app.state())
		} else if after != before {
			t.Fatalf("%s is %d steps", k, after-before)
		}
		if d.app.notice.Text != "" {
			refused++
		}
	}
	if len(steps) < moves/3 || refused < moves/50 {
		t.Fatalf("of %d keys %d were steps and %d refused: the keys do nothing", moves, len(steps), refused)
	}
	last := d.app.state()
	for i := range slices.Backward(steps) {
		if !d.app.state().Alike(steps[i]) {
			t.Fatalf("undone down to step %d the bench differs", i+1)
		}
		d.app, _ = d.app.undo()
	}
	if !d.app.state().Alike(first) {
		t.Error("all undone, the bench is not as at the start")
	}
	for i := range steps {
		d.app, _ = d.app.redo()
		if !d.app.state().Alike(steps[i]) {
			t.Fatalf("made again up to step %d the bench differs", i+1)
		}
	}
	if !d.app.state().Alike(last) {
		t.Error("all made again, the bench is not as at the end")
	}
	d.keys("S").shows("saved as " + d.app.doc.Stem)
	saved, err := home.Pattern(d.app.doc.Stem, nil)
	if err != nil {
		t.Fatal(err)
	}
	if !last.Alike(edit.State{Pattern: saved.Pattern, Tray: last.Tray}) {
		t.Errorf("saved and read it differs:\n%+v\n%+v", saved.Pattern, last.Pattern)
	}
	d.aSecond()
	kept, err := home.Recoveries(nil)
	if err != nil || len(kept) != 1 || kept[0].Err != nil || !last.Alike(edit.State{Pattern: kept[0].Pattern, Tray: kept[0].Tray}) {
		t.Errorf("the recovery copy of what lies on the tray differs: %d, %v", len(kept), err)
	}
	t.Logf("%d keys: %d steps, %d refused, %d strips at the end, %d aside", moves, len(steps), refused, len(last.Pattern.Strips), len(last.Tray))
}

// answer answers whatever asks, and closes it where the answer is not taken.
func (d *hand) answer(rng *rand.Rand) {
	d.t.Helper()
	for range 3 {
		if d.app.overlay == nil {
			return
		}
		for range rng.IntN(4) {
			d.keys("down")
		}
		byDigit := strings.Contains(d.screen(), "its digit or Enter takes it") // what stands behind the digit would be keys of the bench
		if rng.IntN(2) == 0 && !byDigit {
			d.keys("end ctrl+u").text(answers()[rng.IntN(len(answers()))])
		}
		d.keys("enter")
	}
	if d.app.overlay != nil {
		d.keys("esc")
	}
}
