package layouts

import (
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
)

// By its key strips may be in pieces, as bricks and in any gap, and whole again; the layout that
// is taken has its joints. Without products it is said why not.
func TestJointsByKey(t *testing.T) {
	h := opened(t)
	h.does("j")
	if !strings.Contains(h.Said, "joints lie in the waste between products") || h.last().Join.On() {
		t.Errorf("without products: %q", h.Said)
	}
	h.Ctx.State.Pattern.Panel = pattern.Panel{Width: 300 * mm, Length: 620 * mm, Thickness: 20 * mm}
	h.Ctx.State.Pattern.Products = []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2}}
	h.Ctx.Rack = rack.Rack{Pieces: []rack.Piece{
		{ID: "PE1", Species: "pear", Length: 420 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 12},
		{ID: "MA1", Species: "hard_maple", Length: 420 * mm, Width: 80 * mm, Thickness: 30 * mm, Quantity: 12}}}
	s := h.Screen.(Screen)
	s.wish.looks, s.wish.pieces, s.wish.layouts, s.wish.widths, s.wish.apart, s.wish.vary = nil, true, 1, []length.Length{20 * mm, 30 * mm}, 0, false
	s.wish.noTwins = true
	h.Screen = s
	h.does("g")
	h.Shows("j whole")
	if n := len(h.laid()); n > 0 {
		t.Fatalf("whole strips give %d layouts", n)
	}
	h.does("j")
	h.Shows("j bricks")
	if a := h.last(); a.Join.How != joints.Even || len(a.Join.Products) != 1 || len(h.laid()) != 0 {
		t.Errorf("bricks with one gap from no long timber: %v, %d layouts", a.Join.How, len(h.laid()))
	}
	h.does("j")
	if a := h.last(); a.Join.How != joints.Anywhere || len(h.laid()) != 1 {
		t.Fatalf("in any gap: %v, %d layouts", a.Join.How, len(h.laid()))
	}
	l := h.laid()[0]
	n := l.Layout.Joints()
	if n == 0 || l.Pattern.Joints() != n {
		t.Errorf("%d joints, the pattern has %d", n, l.Pattern.Joints())
	}
	h.Shows("in the waste between products", "j any joint")
	if said := strings.Join(sentences(h.Screen.(Screen).scene(h.Ctx)), "\n"); !strings.Contains(said, " in pieces: ") || !strings.Contains(said, "b from ") {
		t.Errorf("told is\n%s", said)
	}
	h.does("enter")
	if p := h.Ctx.State.Pattern; h.Edits() != 1 || p.Joints() != n || len(p.Products) != 1 {
		t.Errorf("taken: %d changes, %d joints of %d", h.Edits(), p.Joints(), n)
	}
	h.does("j")
	if a := h.last(); a.Join.On() {
		t.Errorf("whole again: %v", a.Join.How)
	}
}
