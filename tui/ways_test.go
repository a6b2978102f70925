package tui

import (
	"strings"
	"testing"

	"example.com/oddments/tui/screens/planview"
)

// onShort is the plan of more copies than the rack yields.
func onShort(t *testing.T) *hand {
	t.Helper()
	d := start(t, owned(t), 100, 30).keys("4").shows("11 of 11 strips")
	for range 30 {
		if d.app.plan.Plan.Short > 0 {
			return d.shows("missing: ")
		}
		d.keys("+")
	}
	t.Fatal("thirty copies are not short")
	return d
}

// seeking reports whether ways out are being looked for, known whether there are any.
func seeking(a App) bool {
	_, ways := of[planview.Screen](a).Works()
	return ways
}

func known(a App) bool {
	_, have := of[planview.Screen](a).WaysOut()
	return have
}

func TestWaysOut(t *testing.T) {
	d := onShort(t).keys("w").shows("ways out", "there is timber for").keys("esc")
	found, have := of[planview.Screen](d.app).WaysOut()
	if len(found.Short) == 0 || !have {
		t.Fatalf("no ways out: %+v", found)
	}
	if model, cmd := d.app.Update(key("w")); cmd != nil || seeking(model.(App)) || model.(App).overlay == nil {
		t.Error("what is known already is looked for again")
	}
	if d.keys("-"); known(d.app) {
		t.Error("the ways out of another plan are kept")
	}
}

// Ways out that are found while something else is done lie over nothing.
func TestWaysOutDoNotInterrupt(t *testing.T) {
	d := onShort(t)
	a, cmd := d.app.act("plan-ways")
	d.app = a
	d.shows("looking for ways out")
	d.keys("w").shows("still looking")
	d.keys("/").text("roll").run(cmd)
	d.shows("find: roll").keys("esc").shows("[PLAN]")
	if s := d.screen(); strings.Contains(s, "there is timber for") {
		t.Errorf("they lie over the screen:\n%s", s)
	}
	d.keys("w").shows("there is timber for")
}

// They are stopped like a plan, and a new plan ends them.
func TestWaysOutStop(t *testing.T) {
	d := onShort(t)
	a, cmd := d.app.act("plan-ways")
	d.app = a
	d.keys("enter").shows("stopped, the ways out found are kept").run(cmd)
	if seeking(d.shows("ways out").app) {
		t.Error("it still works")
	}
	d = onShort(t)
	a, cmd = d.app.act("plan-ways")
	d.app = a
	d.keys("+")
	if d.run(cmd); known(d.app) || d.app.overlay != nil {
		t.Error("ways out of an older plan are taken")
	}
}
