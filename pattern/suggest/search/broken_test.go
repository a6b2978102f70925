package search

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
)

// A spoiled claim, and of what kind it is to be found.
type spoiled struct {
	name  string
	want  suggest.Claim
	spoil func(a *suggest.Result)
}

func layoutsSpoiled() []spoiled {
	of := func(change func(l *suggest.Layout)) func(*suggest.Result) {
		return func(a *suggest.Result) {
			a.Layouts = slices.Clone(a.Layouts)
			l := &a.Layouts[len(a.Layouts)-1]
			l.Strips = slices.Clone(l.Strips)
			change(l)
		}
	}
	return []spoiled{
		{"a strip more", suggest.ClaimStrips, of(func(l *suggest.Layout) {
			for len(l.Strips) < 9 {
				l.Strips = append(l.Strips, l.Strips[0])
			}
		})},
		{"its width", suggest.ClaimWidth, of(func(l *suggest.Layout) { l.Width++ })},
		{"a strip wider", suggest.ClaimWidth, of(func(l *suggest.Layout) { l.Strips[1].Width += 30 * mm; l.Width += 30 * mm })},
		{"its use-first width", suggest.ClaimFirst, of(func(l *suggest.Layout) { l.UseFirst += mm })},
		{"its contrast", suggest.ClaimContrast, of(func(l *suggest.Layout) { l.SmallestContrast += 1e-6 })},
		{"its contrasts in all", suggest.ClaimContrast, of(func(l *suggest.Layout) { l.TotalContrast -= 1e-6 })},
		{"its level", suggest.ClaimLevel, of(func(l *suggest.Layout) { l.Level = (l.Level + 1) % 3 })},
		{"what its search proved", suggest.ClaimProof, of(func(l *suggest.Layout) { l.Most.Sum++ })},
		{"the same layout twice", suggest.ClaimUnlike, func(a *suggest.Result) { a.Layouts[len(a.Layouts)-1] = a.Layouts[0] }},
		{"the order", suggest.ClaimOrder, func(a *suggest.Result) { a.Layouts = slices.Clone(a.Layouts); slices.Reverse(a.Layouts) }},
		{"optimal with a layout unproved", suggest.ClaimStatus, of(func(l *suggest.Layout) { l.Proved = false })},
		{"optimal with a bound", suggest.ClaimStatus, func(a *suggest.Result) {
			a.Bound = &suggest.Bound{UseFirst: 1000 * mm, SmallestContrast: 1000, TotalContrast: 1000}
		}},
		{"infeasible with layouts", suggest.ClaimStatus, func(a *suggest.Result) { a.Status = suggest.Infeasible }},
		{"feasible without a bound", suggest.ClaimStatus, func(a *suggest.Result) { a.Status = suggest.Feasible }},
		{"open with layouts", suggest.ClaimStatus, func(a *suggest.Result) { a.Status = suggest.Open }},
		{"more than were asked for", suggest.ClaimStatus, func(a *suggest.Result) { a.Layouts = append(slices.Clone(a.Layouts), fourth()) }},
		{"a bound that is undercut", suggest.ClaimBound, func(a *suggest.Result) {
			a.Status, a.Bound = suggest.Feasible, &suggest.Bound{UseFirst: 1000 * mm, SmallestContrast: a.Layouts[0].SmallestContrast - 2e-6, TotalContrast: 1000}
		}},
		{"a bound of the sum that is undercut", suggest.ClaimBound, func(a *suggest.Result) {
			a.Status, a.Bound = suggest.Feasible, &suggest.Bound{UseFirst: 1000 * mm, SmallestContrast: 1000, TotalContrast: a.Layouts[0].TotalContrast - 2e-6}
		}},
	}
}

// three asks for three layouts from ready strips.
func three() suggest.Request {
	a := suggest.New(100*mm, 22*mm, 400*mm)
	a.Tolerance = 8 * mm
	a.Level, a.Layouts, a.Differ, a.Aim, a.Strips = pattern.TooMuch, 3, 1, suggest.Contrast, [2]int{2, 8}
	a.Have = []suggest.ReadyStrips{have("black_walnut", 25*mm, 4), have("hard_maple", 20*mm, 4), have("sapele", 30*mm, 3)}
	return a
}

func fourth() suggest.Layout {
	a := three()
	a.Layouts = 4
	answer, err := Solve(context.Background(), physics(), a, suggest.Options{})
	if err != nil {
		panic(err)
	}
	return answer.Layouts[3]
}

// Each claim that an answer makes is looked at: where it is wrong, Broken says of what
// kind, nothing is called proved, and a layout that is not what it says is left out.
func TestBrokenClaims(t *testing.T) {
	for _, c := range layoutsSpoiled() {
		t.Run(c.name, func(t *testing.T) {
			checkBroken(t, three(), c, 3)
		})
	}
}

func checkBroken(t *testing.T, ask suggest.Request, c spoiled, layouts int) {
	t.Helper()
	whole, err := Solve(t.Context(), physics(), ask, suggest.Options{})
	if err != nil || whole.Broken != nil || whole.Status != suggest.Optimal || len(whole.Layouts) != layouts {
		t.Fatalf("%v, %v, %v, %d layouts", err, whole.Broken, whole.Status, len(whole.Layouts))
	}
	a, err := hooked(t, ask, hooks{spoil: c.spoil})
	if err != nil {
		t.Fatal(err)
	}
	var b *suggest.Broken
	if !errors.As(a.Broken, &b) || b.Claim != c.want || b.Claimed == "" || b.Found == "" || b.Claimed == b.Found {
		t.Fatalf("found %+v, want one of %v", a.Broken, c.want)
	}
	if text := b.Error(); !strings.Contains(text, b.Claim.String()) || b.Layout > 0 && !strings.HasPrefix(text, fmt.Sprintf("layout %d: ", b.Layout)) {
		t.Errorf("it says %q", text)
	}
	if a.Bound != nil || a.Loosen != nil || a.Status != suggest.Feasible && a.Status != suggest.Open || (a.Status == suggest.Open) != (len(a.Layouts) == 0) {
		t.Errorf("%v, bound %v, loosen %v, %d layouts", a.Status, a.Bound, a.Loosen, len(a.Layouts))
	}
	for _, l := range a.Layouts {
		if l.Proved || l.Plan != nil && l.Plan.Status == cutting.Optimal {
			t.Errorf("still called proved: %+v", l)
		}
		ask.Aim = a.Aim
		j := suggest.NewJudge(physics(), ask)
		if _, b := j.Layout(l); b != nil && c.want != suggest.ClaimOrder && c.want != suggest.ClaimStatus {
			t.Errorf("still handed out: %v", b)
		}
	}
}

// What an ask has besides is looked at too: rules, pinned strips, sources, plans.
func TestBrokenRules(t *testing.T) {
	last := func(change func(l *suggest.Layout)) func(*suggest.Result) {
		return func(a *suggest.Result) {
			a.Layouts = slices.Clone(a.Layouts)
			l := &a.Layouts[len(a.Layouts)-1]
			l.Strips = slices.Clone(l.Strips)
			change(l)
		}
	}
	swap := last(func(l *suggest.Layout) { l.Strips[0], l.Strips[1] = l.Strips[1], l.Strips[0] })
	plan := func(change func(p *cutting.Plan)) func(*suggest.Result) {
		return last(func(l *suggest.Layout) {
			p := *l.Plan
			p.Cuts = slices.Clone(p.Cuts)
			change(&p)
			l.Plan = &p
		})
	}
	rough := func(a *suggest.Request) {
		a.Have, a.Widths, a.Length, a.Thickness = nil, []length.Length{20 * mm, 30 * mm}, 300*mm, 20*mm
		a.Rack = pileOfPieces(6)
	}
	for _, c := range []struct {
		ask func(a *suggest.Request)
		spoiled
	}{
		{func(a *suggest.Request) { a.NoTwins = true }, spoiled{"twins", suggest.ClaimTwins, last(func(l *suggest.Layout) { l.Strips[1].Species = l.Strips[0].Species })}},
		{func(a *suggest.Request) { a.Symmetric, a.NoTwins, a.Layouts = true, true, 1; a.Width = 115 * mm }, spoiled{"no mirror image", suggest.ClaimSymmetric, swap}},
		{func(a *suggest.Request) {
			a.Pinned = []suggest.Pin{{Place: 1, Strip: pattern.Strip{Species: "black_walnut", Width: 25 * mm}}}
		}, spoiled{"a pinned strip elsewhere", suggest.ClaimPinned, swap}},
		{func(a *suggest.Request) {
			a.Pinned = []suggest.Pin{{Place: 1, Strip: pattern.Strip{Species: "padauk", Width: 25 * mm}}}
		}, spoiled{"given where nothing is pinned", suggest.ClaimTimber, last(func(l *suggest.Layout) { l.Strips[1].Source = "" })}},
		{func(*suggest.Request) {}, spoiled{"more strips than there are", suggest.ClaimTimber, last(func(l *suggest.Layout) {
			for i := range l.Strips { // four of 25 are 100 mm, but one timber more often than it is there
				l.Strips[i].Species, l.Strips[i].Source = "sapele", "sapele"
			}
		})}},
		{func(*suggest.Request) {}, spoiled{"from another source", suggest.ClaimTimber, last(func(l *suggest.Layout) { l.Strips[0].Source = "elsewhere" })}},
		{func(a *suggest.Request) { a.Unlike = [][]suggest.Placed{{{Species: "sapele", Width: 1}}} }, spoiled{"like an earlier one", suggest.ClaimUnlike, nil}},
		{func(a *suggest.Request) { a.Aim, a.LeastContrast = suggest.UseUp, 8 }, spoiled{"too little contrast", suggest.ClaimContrast, last(func(l *suggest.Layout) {
			l.SmallestContrast = 7
		})}},
		{rough, spoiled{"no plan", suggest.ClaimPlan, last(func(l *suggest.Layout) { l.Plan = nil })}},
		{rough, spoiled{"a plan that falls short", suggest.ClaimPlan, plan(func(p *cutting.Plan) { p.Short = 1 })}},
		{rough, spoiled{"a cut that is not there", suggest.ClaimPlan, plan(func(p *cutting.Plan) { p.Cuts = p.Cuts[1:] })}},
		{rough, spoiled{"another volume", suggest.ClaimPlan, plan(func(p *cutting.Plan) { p.DrawnCM3, p.LowerBoundCM3 = p.DrawnCM3+1, p.LowerBoundCM3+1 })}},
		{rough, spoiled{"a bound above what is drawn", suggest.ClaimPlan, plan(func(p *cutting.Plan) { p.Status, p.LowerBoundCM3 = cutting.Feasible, p.DrawnCM3+1 })}},
		{rough, spoiled{"from another piece", suggest.ClaimPlan, last(func(l *suggest.Layout) { l.Strips[0].Source = "P9" })}},
	} {
		t.Run(c.name, func(t *testing.T) {
			ask := three()
			c.ask(&ask)
			if c.spoil == nil { // what an ask is to be unlike is what it was answered with
				first, err := Solve(t.Context(), physics(), ask, suggest.Options{})
				if err != nil {
					t.Fatal(err)
				}
				c.spoil = func(a *suggest.Result) { a.Layouts = first.Layouts }
				ask.Unlike = append(ask.Unlike, first.Layouts[1].Strips)
			}
			whole, err := Solve(t.Context(), physics(), ask, suggest.Options{})
			if err != nil || whole.Status != suggest.Optimal {
				t.Fatalf("%v, %v", err, whole.Status)
			}
			checkBroken(t, ask, c.spoiled, len(whole.Layouts))
		})
	}
}

// A layout that was found by the way undercuts what is called proved.
func TestBrokenByWhatWasFound(t *testing.T) {
	ask := three()
	good := solved(t, physics(), ask)
	j := suggest.NewJudge(physics(), ask)
	none := suggest.Result{Status: suggest.Infeasible, Aim: suggest.Contrast, PlansProved: true}
	none.Uphold(j, good.Layouts)
	var b *suggest.Broken
	if !errors.As(none.Broken, &b) || b.Claim != suggest.ClaimStatus || none.Status != suggest.Feasible || len(none.Layouts) != 1 {
		t.Errorf("%+v", none)
	}
	late := good
	late.Layouts = slices.Clone(good.Layouts[1:])
	late.Uphold(j, good.Layouts[:1])
	if b = nil; !errors.As(late.Broken, &b) || b.Claim != suggest.ClaimProof {
		t.Errorf("%+v", late.Broken)
	}
	late = good
	late.Status, late.Bound = suggest.Feasible, &suggest.Bound{SmallestContrast: good.Layouts[1].SmallestContrast, TotalContrast: good.Layouts[1].TotalContrast}
	late.Layouts = slices.Clone(good.Layouts[1:])
	late.Layouts[0].Proved = false
	late.Uphold(j, good.Layouts[:1])
	if b = nil; !errors.As(late.Broken, &b) || b.Claim != suggest.ClaimBound {
		t.Errorf("%+v", late.Broken)
	}
}

// Budget: 0.1 ms a layout of a dozen strips from ready strips, 0.2 ms with its plan.
func BenchmarkUphold(b *testing.B) {
	ready := pileOf(3, 10, 40, 300*mm)
	rough := suggest.New(300*mm, 22*mm, 450*mm)
	rough.Widths, rough.Strips, rough.Rack = []length.Length{20 * mm, 25 * mm}, [2]int{8, 20}, pileOfPieces(12)
	for name, ask := range map[string]suggest.Request{"ready": ready, "pieces": rough} {
		b.Run(name, func(b *testing.B) {
			r := physics()
			answer, err := Solve(b.Context(), r, ask, suggest.Options{})
			if err != nil || answer.Broken != nil {
				b.Fatal(err, answer.Broken)
			}
			ask.Aim = answer.Aim
			for b.Loop() {
				again := answer
				again.Uphold(suggest.NewJudge(r, ask), nil)
				if again.Broken != nil {
					b.Fatal(again.Broken)
				}
			}
			b.ReportMetric(float64(len(answer.Layouts)), "layouts")
		})
	}
}
