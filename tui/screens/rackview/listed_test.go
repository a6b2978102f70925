package rackview

import (
	"math/rand/v2"
	"reflect"
	"testing"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// What is kept of one key for the next is what would be listed anew, whatever changes: the
// order, what is shown, the rack, or the rack behind the screen's back.
func TestListedIsWhatIsThere(t *testing.T) {
	ctx := screentest.Demo(t, Screen{}.Keys()...)
	ctx.Window.At = Place
	rng := rand.New(rand.NewPCG(7, 8))
	var l Screen
	before := []rack.Rack{ctx.Rack}
	kept := 0
	for range 2000 {
		var msg any = screen.Do{ID: "rack-down"}
		switch rng.IntN(8) {
		case 0:
			msg = screen.Do{ID: "rack-order"}
		case 1:
			msg = showOnly([]string{"", "hornbeam", "300", "planed", "nothing of that name", "ready"}[rng.IntN(6)])
		case 2, 3:
			if e, ok := l.Chosen(ctx); ok {
				var err error
				switch rng.IntN(3) {
				case 0:
					ctx.Rack, err = ctx.Rack.SetUseFirst(e.ID, !e.UseFirst)
				case 1:
					ctx.Rack, _, err = ctx.Rack.Add(rack.Again(e), ctx.Lookup())
				default:
					ctx.Rack, err = ctx.Rack.UseOne(e.ID)
				}
				if err != nil {
					t.Fatal(err)
				}
				before = append(before, ctx.Rack)
			}
		case 4:
			ctx.Rack = before[rng.IntN(len(before))] // undo
		}
		next, _ := l.Update(ctx, msg)
		l = next.(Screen)
		if l.listed.of(ctx.Rack, l.Order) {
			kept++
		}
		fresh := l
		fresh.listed = listed{}
		if got, want := l.Entries(ctx), fresh.Entries(ctx); len(got) != len(want) || len(got) > 0 && !reflect.DeepEqual(got, want) {
			t.Fatalf("after %v: %d entries, want %d", msg, len(got), len(want))
		}
	}
	if kept < 1900 {
		t.Errorf("kept %d times of 2000", kept)
	}
}
