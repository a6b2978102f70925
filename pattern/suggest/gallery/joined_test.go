package gallery

import (
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// shortEnds is a pile in which one timber alone is as long as a panel of 620 for two rounds.
func shortEnds() rack.Rack {
	var r rack.Rack
	for _, p := range []struct {
		key                      string
		long, wide, thick, count int
	}{{"pear", 420, 60, 30, 12}, {"hornbeam", 380, 70, 30, 6}, {"sweet_chestnut", 350, 62, 28, 6}, {"hard_maple", 700, 80, 30, 4}} {
		r.Pieces = append(r.Pieces, rack.Piece{ID: p.key, Species: p.key, Length: length.Length(p.long) * mm, Width: length.Length(p.wide) * mm,
			Thickness: length.Length(p.thick) * mm, Quantity: p.count})
	}
	return r
}

func joinedAsk(how joints.How) suggest.Request {
	a := suggest.New(300*mm, 20*mm, 620*mm)
	a.Widths = []length.Length{20 * mm, 30 * mm, 40 * mm}
	a.Join = suggest.Joining{How: how, Products: []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2}}}
	a.Rack = shortEnds()
	return a
}

// A pile of short ends gives no look, for its one long timber cannot lie beside itself; with
// strips in pieces it gives some. Every layout can be cut as it is laid.
func TestLooksFromShortEnds(t *testing.T) {
	for _, how := range []joints.How{joints.Even, joints.Anywhere} {
		a := joinedAsk(how)
		a.Looks, a.Layouts, a.NoTwins = []look.Look{look.Mirror, look.Calm}, 2, true
		a.Strips = suggest.UsualStrips()
		for _, joined := range []bool{false, true} {
			if !joined {
				a.Join.How = joints.AsTheyAre
			} else {
				a.Join.How = how
			}
			got, err := Solve(t.Context(), physics(), a, suggest.Options{LoosenFor: 1})
			if err != nil || got.Broken != nil {
				t.Fatalf("%v: %v, %v", how, err, got.Broken)
			}
			if !joined {
				if len(got.Layouts) > 0 || got.Status != suggest.Infeasible {
					t.Errorf("%v: whole strips give %d looks, %v", how, len(got.Layouts), got.Status)
				}
				continue
			}
			for _, l := range got.Layouts {
				job := cutting.Job{Rack: a.Rack, Shop: physics().Shop(), Patterns: []cutting.Demand{{Stem: suggest.Stem, Pattern: a.Pattern(l), Copies: 1}}}
				if err := cutting.Verify(job, *l.Plan); err != nil || l.Plan.Short > 0 || l.Joints() == 0 {
					t.Errorf("%v, %v: %v, %d short, %d joints", how, l.Look, err, l.Plan.Short, l.Joints())
				}
			}
			if t.Logf("%v: %v, %d looks", how, got.Status, len(got.Layouts)); len(got.Layouts) != 2 {
				t.Errorf("%v: only %d looks, left out %v", how, len(got.Layouts), got.LeftOut)
			}
		}
	}
}

// Of ready strips alone, none as long as the panel, a layout is laid in pieces from short ones.
func TestShortReadyStrips(t *testing.T) {
	a := joinedAsk(joints.Anywhere)
	a.Widths, a.Layouts = nil, 1
	a.Rack.Strips = []rack.Strip{
		{ID: "W", Species: "black_walnut", Width: 25 * mm, Thickness: 24 * mm, Length: 320 * mm, Quantity: 14},
		{ID: "M", Species: "hard_maple", Width: 25 * mm, Thickness: 24 * mm, Length: 310 * mm, Quantity: 14}}
	for _, whole := range []bool{true, false} {
		if whole {
			a.Join.How = joints.AsTheyAre
		} else {
			a.Join.How = joints.Anywhere
		}
		got, err := Solve(t.Context(), physics(), a, suggest.Options{LoosenFor: 1})
		if err != nil || got.Broken != nil || (len(got.Layouts) == 0) != whole {
			t.Fatalf("whole %t: %d layouts, %v, %v", whole, len(got.Layouts), err, got.Broken)
		}
		for _, l := range got.Layouts {
			if len(l.Plan.Cuts) > 0 || l.Joints() == 0 || !l.Proved {
				t.Errorf("%d pieces are cut, %d joints, proved %t", len(l.Plan.Cuts), l.Joints(), l.Proved)
			}
		}
	}
}
