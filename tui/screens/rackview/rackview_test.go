package rackview_test

import (
	"strings"
	"testing"

	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen/screentest"
	"example.com/oddments/tui/screens/rackview"
)

// What is chosen goes by its id: it stays where it is in another order, its neighbour
// follows when it goes, and a press chooses what stands there.
func TestChoosing(t *testing.T) {
	ctx := screentest.Demo(t, rackview.Screen{}.Keys()...)
	var l rackview.Screen
	entries := l.Entries(ctx)
	l = l.Go(3, ctx)
	if e, ok := l.Chosen(ctx); !ok || e.ID != entries[3].ID {
		t.Fatalf("three on is %v", e.ID)
	}
	l.Order = rack.Orders()[1]
	if e, _ := l.Chosen(ctx); e.ID != entries[3].ID {
		t.Errorf("in another order %s is chosen", e.ID)
	}
	l.Order = rack.Orders()[0]
	if e, _ := l.After(ctx).Chosen(ctx); e.ID != entries[4].ID {
		t.Errorf("after it comes %s, want %s", e.ID, entries[4].ID)
	}
	if e, _ := l.Go(999, ctx).Chosen(ctx); e.ID != entries[len(entries)-1].ID {
		t.Errorf("the last is %s", e.ID)
	}
	r := paint.Rect{W: 80, H: 22}
	s := screentest.Drawn(r.W, r.H, func(c *paint.Canvas, r paint.Rect) { rackview.Screen{}.Draw(c, r, ctx) })
	if e, _ := (rackview.Screen{}).At(screentest.RowOf(t, s, "EL1 "), r, ctx).Chosen(ctx); e.ID != "EL1" {
		t.Errorf("a press on EL1 chooses %s", e.ID)
	}
}

// A piece too short for a machine is warned of; an empty rack says what to do.
func TestWordsOfTheRack(t *testing.T) {
	ctx := screentest.Demo(t, rackview.Screen{}.Keys()...)
	draw := func(l rackview.Screen) string {
		return screentest.Drawn(120, 30, func(c *paint.Canvas, r paint.Rect) { l.Draw(c, r, ctx) })
	}
	ctx.Rack.Pieces[0].Length = ctx.Physics.Shop().Machine.ThicknesserLength - 1
	if s := draw(rackview.Screen{ID: ctx.Rack.Pieces[0].ID}); !strings.Contains(s, "under your thicknesser's 280 mm, do not feed it") {
		t.Errorf("no warning of a short piece on\n%s", s)
	}
	ctx.Rack = rack.Rack{}
	if s := draw(rackview.Screen{}); !strings.Contains(s, "The rack is empty. a adds a piece") {
		t.Errorf("an empty rack says\n%s", s)
	}
}
