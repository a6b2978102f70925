package sets

import (
	"testing"

	"example.com/oddments/pattern/length"
)

// A use-first piece that gives one strip of the two that a board needs of its timber gives it.
func TestUseFirstGivesSome(t *testing.T) {
	r := boards(t, 6)
	r.Wants[0].Most = 1
	w := r.Rack.Pieces[1]
	w.ID, w.Width, w.UseFirst = "F", 26*mm, true
	r.Rack.Pieces = append(r.Rack.Pieces, w)
	set, err := Find(t.Context(), r, Options{Rounds: 20})
	if err != nil {
		t.Fatal(err)
	}
	hold(t, r, set)
	p := set.Panels[0].Pattern
	want := length.VolumeCM3(25*mm, p.StripLength(p.Strips[0], r.Physics.Shop().Allowance.Length), 20*mm)
	if set.Worth != 10 || set.UseFirstCM3 != want {
		t.Errorf("worth %v with %v cm3 of use-first timber, one strip is %v", set.Worth, set.UseFirstCM3, want)
	}
}

// A board that is held keeps to the timber that it was drawn of, and held panels alone are planned.
func TestHeldKeepsUseFirst(t *testing.T) {
	r := boards(t, 4)
	r.Wants[0].Most = 1
	w := r.Rack.Pieces[1]
	w.ID, w.UseFirst = "F", true
	r.Rack.Pieces = append(r.Rack.Pieces, w)
	set, err := Find(t.Context(), r, Options{Rounds: 20})
	if err != nil || set.UseFirstCM3 != 210 {
		t.Fatalf("%v cm3 of use-first timber, two strips are 210: %v", set.UseFirstCM3, err)
	}
	r.Hold, r.Wants[0].Most = set.Panels, 0
	again, err := Find(t.Context(), r, Options{Held: true})
	if err != nil {
		t.Fatal(err)
	}
	hold(t, r, again)
	if again.Worth != 10 || again.UseFirstCM3 != 210 || len(again.Panels) != 1 || again.Panels[0].Stem != set.Panels[0].Stem || again.Plan.Short > 0 {
		t.Errorf("planned again: worth %v, %v cm3 of use-first timber, %d panels", again.Worth, again.UseFirstCM3, len(again.Panels))
	}
}
