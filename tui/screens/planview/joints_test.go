package planview_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/tui/screen"
	"example.com/oddments/tui/screen/screentest"
)

// leftovers is the plan of a panel of six strips for two rounds, from a rack on which no piece
// is as long as a strip, and one is of every other timber.
func leftovers(t *testing.T) *screentest.Driver {
	const mm = length.Millimetre
	return planned(t, func(ctx *screen.Context) {
		p := pattern.Pattern{Name: "Tray", Panel: pattern.Panel{Length: 620 * mm, Thickness: 20 * mm}}
		for i := range 6 {
			p.Strips = append(p.Strips, pattern.Strip{Species: []string{"pear", "hornbeam"}[i%2], Width: 52 * mm})
		}
		p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2}}
		ctx.State = edit.New(p)
		ctx.Rack = rack.Rack{Pieces: []rack.Piece{
			{ID: "PE1", Species: "pear", Length: 420 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 12},
			{ID: "HB1", Species: "hornbeam", Length: 700 * mm, Width: 70 * mm, Thickness: 30 * mm, Quantity: 3}}}
	})
}

// By its key the plan goes on from whole strips to bricks, to joints in any gap, to short ends
// and back; what is chosen is taken over as one change, and booked.
func TestJointsByKey(t *testing.T) {
	d := leftovers(t)
	if n := d.Ctx.Plan.Plan.Short; n != 3 {
		t.Fatalf("%d strips are short of whole ones", n)
	}
	if d.Do("J"); d.Edits() != 0 {
		t.Error("pieces of a plan that has none are taken over")
	}
	for _, c := range []struct {
		join    screen.Join
		says    string
		missing int
	}{{screen.Bricks, "as bricks", 0}, {screen.AnyJoint, "in any gap", 0}, {screen.InOne, "short ends outside", 3}, {screen.Whole, "as the pattern has them", 3}} {
		if d.Do("j"); d.Ctx.Batch.Join != c.join || !strings.Contains(d.Said, c.says) || d.Ctx.Planned() {
			t.Errorf("%v: %q, planned %t", d.Ctx.Batch.Join, d.Said, d.Ctx.Planned())
		}
		if d.Work(); d.Ctx.Plan.Plan.Short != c.missing || !d.Ctx.Planned() {
			t.Errorf("%v: %d short", c.join, d.Ctx.Plan.Plan.Short)
		}
	}
	d.Do("j")
	d.Work()
	joints := 0
	for _, p := range d.Ctx.Plan.Plan.Pieced {
		joints += len(p.Pieces) - 1
	}
	d.Shows(fmt.Sprintf("joints %d", joints))
	before := d.Ctx.State
	if d.Do("J"); d.Edits() != 1 || d.Ctx.State.Pattern.Joints() != joints || !strings.Contains(d.Said, "strips in new pieces") {
		t.Fatalf("%d changes, %d joints of %d: %q, %q", d.Edits(), d.Ctx.State.Pattern.Joints(), joints, d.Said, d.Refuse)
	}
	d.Do("p")
	if d.Work(); d.Ctx.Plan.Plan.Short != 0 {
		t.Errorf("laid so, %d strips are short", d.Ctx.Plan.Plan.Short)
	}
	d.Do("d")
	if _, n := seen[screen.Book](d); n != 1 {
		t.Errorf("booked %d times: %q", n, d.Refuse)
	}
	if d.Undo(); !d.Ctx.State.Alike(before) {
		t.Error("one undo does not bring the whole strips back")
	}
}
