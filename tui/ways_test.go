package tui

import (
	"strings"
	"testing"
)

// onShort is the plan of more copies than the rack yields.
func onShort(t *testing.T) *hand {
	t.Helper()
	d := start(t, owned(t), 100, 30).keys("tab tab").shows("11 of 11 strips")
	for range 30 {
		if d.app.planner.plan.Short > 0 {
			return d.shows("short")
		}
		d.keys("+")
	}
	t.Fatal("thirty copies are not short")
	return d
}

func TestWaysOut(t *testing.T) {
	d := onShort(t).keys("w").shows("ways out", "can be made in full").keys("esc")
	found := d.app.planner.ways.all
	if len(found.Short) == 0 || !d.app.planner.ways.have {
		t.Fatalf("no ways out: %+v", found)
	}
	if model, cmd := d.app.Update(key("w")); cmd != nil || model.(App).planner.ways.works || model.(App).overlay == nil {
		t.Error("what is known already is looked for again")
	}
	if d.keys("-"); d.app.planner.ways.have {
		t.Error("the ways out of another plan are kept")
	}
}

// Ways out that are found while something else is done lie over nothing.
func TestWaysOutDoNotInterrupt(t *testing.T) {
	d := onShort(t)
	a, cmd := d.app.planWays()
	d.app = a
	d.shows("looking for ways out")
	d.keys("w").shows("still looking")
	d.keys("/").text("roll").run(cmd)
	d.shows("find: roll").keys("esc").shows("[PLAN]")
	if s := d.screen(); strings.Contains(s, "can be made in full") {
		t.Errorf("they lie over the screen:\n%s", s)
	}
	d.keys("w").shows("can be made in full")
}

// They are stopped like a plan, and a new plan ends them.
func TestWaysOutStop(t *testing.T) {
	d := onShort(t)
	a, cmd := d.app.planWays()
	d.app = a
	d.keys("enter").shows("stopped with the ways out that are found").run(cmd)
	if d.shows("ways out").app.planner.ways.works {
		t.Error("it still works")
	}
	d = onShort(t)
	a, cmd = d.app.planWays()
	d.app = a
	d.keys("+")
	if d.run(cmd); d.app.planner.ways.have || d.app.overlay != nil {
		t.Error("ways out of an older plan are taken")
	}
}
