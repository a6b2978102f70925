package cutting_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop/shoptest"
)

// shortEnds is a panel of six strips, 620 long, from which two rounds of 290 are cut, and a
// rack on which no piece is as long as a strip.
func shortEnds() cutting.Job {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 620 * mm, Thickness: 20 * mm}}
	for range 6 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "oak", Width: 52 * mm})
	}
	p.Products = []pattern.Product{{Shape: outline.Round, Diameter: 290 * mm, Count: 2}}
	return cutting.Job{Shop: shoptest.Roomy(), Patterns: []cutting.Demand{{Stem: "tray", Pattern: p, Copies: 1}},
		Rack: rack.Rack{Pieces: []rack.Piece{{ID: "A", Species: "oak", Length: 420 * mm, Width: 60 * mm, Thickness: 30 * mm, Quantity: 30}}}}
}

func joined(t *testing.T, job cutting.Job, how joints.How) (cutting.Job, cutting.Plan) {
	t.Helper()
	job, err := job.Joined(how, how == joints.Even)
	if err != nil {
		t.Fatal(err)
	}
	plan, err := solve.Plan(context.Background(), job, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return job, plan
}

// Where whole strips fail pieces serve: anywhere all, in bricks every other strip, whose
// neighbours must be whole.
func TestPiecesServe(t *testing.T) {
	for how, short := range map[joints.How]int{joints.AsTheyAre: 6, joints.Ends: 6, joints.Even: 3, joints.Anywhere: 0} {
		_, plan := joined(t, shortEnds(), how)
		if plan.Short != short || plan.Claim().Sure != cutting.Least || len(plan.Pieced) != 6-short || plan.JointsCM3 != 20*float64(6-short) {
			t.Errorf("%v: %d short, %d in pieces, joints count for %v, %v", how, plan.Short, len(plan.Pieced), plan.JointsCM3, plan.Claim())
		}
	}
}

// Every lie about pieces is found.
func TestVerifyPieces(t *testing.T) {
	job, plan := joined(t, shortEnds(), joints.Anywhere)
	for name, lie := range map[string]func(*cutting.Plan){
		"piece elsewhere":     func(p *cutting.Plan) { p.Pieced[0].Pieces[1].Start += mm },
		"strip twice":         func(p *cutting.Plan) { p.Pieced = append(p.Pieced, p.Pieced[0]) },
		"strip not asked for": func(p *cutting.Plan) { p.Pieced[0].Strip = 9 },
		"strip whole":         func(p *cutting.Plan) { p.Pieced = p.Pieced[1:] },
		"joints for nothing":  func(p *cutting.Plan) { p.JointsCM3 = 0 },
		"short and served": func(p *cutting.Plan) {
			p.Short, p.Missing = 1, []cutting.Missing{{Ref: p.Pieced[0].Ref, Species: "oak"}}
		},
		"short, half served": func(p *cutting.Plan) {
			p.Short, p.Missing, p.Pieced = 1, []cutting.Missing{{Ref: p.Pieced[0].Ref, Species: "oak"}}, p.Pieced[1:]
			p.JointsCM3 -= 20
		},
	} {
		wrong := plan
		wrong.Pieced = slices.Clone(plan.Pieced)
		for i := range wrong.Pieced {
			wrong.Pieced[i].Pieces = slices.Clone(wrong.Pieced[i].Pieces)
		}
		if lie(&wrong); cutting.Verify(job, wrong) == nil {
			t.Errorf("%s: nobody noticed", name)
		}
	}
	if err := cutting.Verify(job, plan); err != nil {
		t.Error(err)
	}
}

// Bricks are of one side: strips parted on both sides are no plan, though each is of one.
func TestBricksAreOfOneSide(t *testing.T) {
	all, plan := joined(t, shortEnds(), joints.Anywhere)
	bricks, err := shortEnds().Joined(joints.Even, true)
	if err != nil {
		t.Fatal(err)
	}
	if len(bricks.Sides()) != 2 || len(all.Sides()) != 1 {
		t.Errorf("bricks have %d sides, joints anywhere %d", len(bricks.Sides()), len(all.Sides()))
	}
	if cutting.Verify(all, plan) != nil || cutting.Verify(bricks, plan) == nil {
		t.Error("a plan of both sides passes for bricks")
	}
}

// Laid as the plan has it, the pattern is planned with just those pieces, and draws as much.
func TestAdopted(t *testing.T) {
	job := shortEnds()
	job.Patterns[0].Copies = 2
	job, plan := joined(t, job, joints.Anywhere)
	laid, err := cutting.Adopted(job, plan, "tray")
	if err != nil || len(laid) != 6 {
		t.Fatalf("%d strips, %v", len(laid), err)
	}
	again := shortEnds()
	again.Patterns[0].Copies = 2
	for _, l := range laid {
		again.Patterns[0].Pattern.Strips[l.Strip-1] = l.Now
	}
	_, as := joined(t, again, joints.AsTheyAre)
	if as.Short != 0 || as.DrawnCM3 != plan.DrawnCM3 || as.Claim().Sure != cutting.Least || len(as.Pieced) != 12 {
		t.Errorf("planned as it is now: %d short, %v cm3, was %v", as.Short, as.DrawnCM3, plan.DrawnCM3)
	}
	if laid, err := cutting.Adopted(again, as, "tray"); err != nil || len(laid) > 0 {
		t.Errorf("adopted again: %v, %v", laid, err)
	}
	mixed := plan
	mixed.Pieced = slices.Clone(plan.Pieced)
	mixed.Pieced[0].Pieces = joints.Way{{Start: 0, Length: 640 * mm}}
	if _, err := cutting.Adopted(job, mixed, "tray"); !errors.Is(err, cutting.ErrMixed) {
		t.Errorf("copies unlike: %v", err)
	}
	mixed.Missing = []cutting.Missing{{Ref: cutting.Ref{Pattern: "tray", Copy: 2, Strip: 3}}}
	if _, err := cutting.Adopted(job, mixed, "tray"); err == nil || !strings.Contains(err.Error(), "strip 3 of copy 2 is short") {
		t.Errorf("a strip short: %v", err)
	}
}

// Whatever ready strips there are, one of them serves a piece too.
func TestReadyStripsServePieces(t *testing.T) {
	job := shortEnds()
	job.Rack.Strips = []rack.Strip{{ID: "R", Species: "oak", Width: 52 * mm, Thickness: 22 * mm, Length: 310 * mm, Quantity: 5}}
	_, plan := joined(t, job, joints.Anywhere)
	if plan.Short != 0 || len(plan.Ready) != 5 || plan.Ready[0].For.Piece == 0 {
		t.Errorf("%d short, ready %v", plan.Short, plan.Ready)
	}
}

func TestStripsText(t *testing.T) {
	refs := []cutting.Ref{{Strip: 12}, {Strip: 4, Piece: 2}, {Strip: 4, Piece: 1}, {Strip: 2}}
	if got := cutting.StripsText(refs); got != "strips 2, 4a, 4b, 12" {
		t.Error(got)
	}
}
