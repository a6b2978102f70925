package suggest

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
)

// A spoiled claim, and of what kind it is to be found.
type spoiled struct {
	name  string
	want  Claim
	spoil func(a *Result)
}

func layoutsSpoiled() []spoiled {
	of := func(change func(l *Layout)) func(*Result) {
		return func(a *Result) {
			a.Layouts = slices.Clone(a.Layouts)
			l := &a.Layouts[len(a.Layouts)-1]
			l.Strips = slices.Clone(l.Strips)
			change(l)
		}
	}
	return []spoiled{
		{"a strip more", ClaimStrips, of(func(l *Layout) {
			for len(l.Strips) < 9 {
				l.Strips = append(l.Strips, l.Strips[0])
			}
		})},
		{"its width", ClaimWidth, of(func(l *Layout) { l.Width++ })},
		{"a strip wider", ClaimWidth, of(func(l *Layout) { l.Strips[1].Width += 30 * mm; l.Width += 30 * mm })},
		{"its use-first width", ClaimFirst, of(func(l *Layout) { l.UseFirst += mm })},
		{"its contrast", ClaimContrast, of(func(l *Layout) { l.SmallestContrast += 1e-6 })},
		{"its contrasts in all", ClaimContrast, of(func(l *Layout) { l.TotalContrast -= 1e-6 })},
		{"its level", ClaimLevel, of(func(l *Layout) { l.Level = (l.Level + 1) % 3 })},
		{"what its search proved", ClaimProof, of(func(l *Layout) { l.most.sum++ })},
		{"the same layout twice", ClaimUnlike, func(a *Result) { a.Layouts[len(a.Layouts)-1] = a.Layouts[0] }},
		{"the order", ClaimOrder, func(a *Result) { a.Layouts = slices.Clone(a.Layouts); slices.Reverse(a.Layouts) }},
		{"optimal with a layout unproved", ClaimStatus, of(func(l *Layout) { l.Proved = false })},
		{"optimal with a bound", ClaimStatus, func(a *Result) { a.Bound = &Bound{1000 * mm, 1000, 1000} }},
		{"infeasible with layouts", ClaimStatus, func(a *Result) { a.Status = Infeasible }},
		{"feasible without a bound", ClaimStatus, func(a *Result) { a.Status = Feasible }},
		{"open with layouts", ClaimStatus, func(a *Result) { a.Status = Open }},
		{"more than were asked for", ClaimStatus, func(a *Result) { a.Layouts = append(slices.Clone(a.Layouts), fourth()) }},
		{"a bound that is undercut", ClaimBound, func(a *Result) {
			a.Status, a.Bound = Feasible, &Bound{1000 * mm, a.Layouts[0].SmallestContrast - 2e-6, 1000}
		}},
		{"a bound of the sum that is undercut", ClaimBound, func(a *Result) {
			a.Status, a.Bound = Feasible, &Bound{1000 * mm, 1000, a.Layouts[0].TotalContrast - 2e-6}
		}},
	}
}

// three asks for three layouts from ready strips.
func three() Request {
	a := New(100*mm, 22*mm, 400*mm)
	a.Tolerance = 8 * mm
	a.Level, a.Layouts, a.Differ, a.Aim, a.Strips = pattern.TooMuch, 3, 1, Contrast, [2]int{2, 8}
	a.Have = []ReadyStrips{have("black_walnut", 25*mm, 4), have("hard_maple", 20*mm, 4), have("sapele", 30*mm, 3)}
	return a
}

func fourth() Layout {
	a := three()
	a.Layouts = 4
	answer, err := Solve(context.Background(), physics(), a, Options{})
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

func checkBroken(t *testing.T, ask Request, c spoiled, layouts int) {
	t.Helper()
	whole, err := Solve(t.Context(), physics(), ask, Options{})
	if err != nil || whole.Broken != nil || whole.Status != Optimal || len(whole.Layouts) != layouts {
		t.Fatalf("%v, %v, %v, %d layouts", err, whole.Broken, whole.Status, len(whole.Layouts))
	}
	a, err := Solve(t.Context(), physics(), ask, Options{spoil: c.spoil})
	if err != nil {
		t.Fatal(err)
	}
	var b *Broken
	if !errors.As(a.Broken, &b) || b.Claim != c.want || b.Claimed == "" || b.Found == "" || b.Claimed == b.Found {
		t.Fatalf("found %+v, want one of %v", a.Broken, c.want)
	}
	if text := b.Error(); !strings.Contains(text, b.Claim.String()) || b.Layout > 0 && !strings.HasPrefix(text, fmt.Sprintf("layout %d: ", b.Layout)) {
		t.Errorf("it says %q", text)
	}
	if a.Bound != nil || a.Loosen != nil || a.Status != Feasible && a.Status != Open || (a.Status == Open) != (len(a.Layouts) == 0) {
		t.Errorf("%v, bound %v, loosen %v, %d layouts", a.Status, a.Bound, a.Loosen, len(a.Layouts))
	}
	for _, l := range a.Layouts {
		if l.Proved || l.Plan != nil && l.Plan.Status == cutting.Optimal {
			t.Errorf("still called proved: %+v", l)
		}
		j := newJudge(physics(), ask)
		j.ask.Aim = a.Aim
		if _, b := j.layout(l); b != nil && c.want != ClaimOrder && c.want != ClaimStatus {
			t.Errorf("still handed out: %v", b)
		}
	}
}

// What an ask has besides is looked at too: rules, pinned strips, sources, plans.
func TestBrokenRules(t *testing.T) {
	last := func(change func(l *Layout)) func(*Result) {
		return func(a *Result) {
			a.Layouts = slices.Clone(a.Layouts)
			l := &a.Layouts[len(a.Layouts)-1]
			l.Strips = slices.Clone(l.Strips)
			change(l)
		}
	}
	swap := last(func(l *Layout) { l.Strips[0], l.Strips[1] = l.Strips[1], l.Strips[0] })
	plan := func(change func(p *cutting.Plan)) func(*Result) {
		return last(func(l *Layout) {
			p := *l.Plan
			p.Cuts = slices.Clone(p.Cuts)
			change(&p)
			l.Plan = &p
		})
	}
	rough := func(a *Request) {
		a.Have, a.Widths, a.Length, a.Thickness = nil, []length.Length{20 * mm, 30 * mm}, 300*mm, 20*mm
		a.Rack = pileOfPieces(6)
	}
	for _, c := range []struct {
		ask func(a *Request)
		spoiled
	}{
		{func(a *Request) { a.NoTwins = true }, spoiled{"twins", ClaimTwins, last(func(l *Layout) { l.Strips[1].Species = l.Strips[0].Species })}},
		{func(a *Request) { a.Symmetric, a.NoTwins, a.Layouts = true, true, 1; a.Width = 115 * mm }, spoiled{"no mirror image", ClaimSymmetric, swap}},
		{func(a *Request) {
			a.Pinned = []Pin{{1, pattern.Strip{Species: "black_walnut", Width: 25 * mm}}}
		}, spoiled{"a pinned strip elsewhere", ClaimPinned, swap}},
		{func(a *Request) {
			a.Pinned = []Pin{{1, pattern.Strip{Species: "padauk", Width: 25 * mm}}}
		}, spoiled{"given where nothing is pinned", ClaimTimber, last(func(l *Layout) { l.Strips[1].Source = "" })}},
		{func(*Request) {}, spoiled{"more strips than there are", ClaimTimber, last(func(l *Layout) {
			for i := range l.Strips { // four of 25 are 100 mm, but one timber more often than it is there
				l.Strips[i].Species, l.Strips[i].Source = "sapele", "sapele"
			}
		})}},
		{func(*Request) {}, spoiled{"from another source", ClaimTimber, last(func(l *Layout) { l.Strips[0].Source = "elsewhere" })}},
		{func(a *Request) { a.Unlike = [][]Placed{{{Species: "sapele", Width: 1}}} }, spoiled{"like an earlier one", ClaimUnlike, nil}},
		{func(a *Request) { a.Aim, a.LeastContrast = UseUp, 8 }, spoiled{"too little contrast", ClaimContrast, last(func(l *Layout) {
			l.SmallestContrast = 7
		})}},
		{rough, spoiled{"no plan", ClaimPlan, last(func(l *Layout) { l.Plan = nil })}},
		{rough, spoiled{"a plan that falls short", ClaimPlan, plan(func(p *cutting.Plan) { p.Short = 1 })}},
		{rough, spoiled{"a cut that is not there", ClaimPlan, plan(func(p *cutting.Plan) { p.Cuts = p.Cuts[1:] })}},
		{rough, spoiled{"another volume", ClaimPlan, plan(func(p *cutting.Plan) { p.DrawnCM3, p.LowerBoundCM3 = p.DrawnCM3+1, p.LowerBoundCM3+1 })}},
		{rough, spoiled{"a bound above what is drawn", ClaimPlan, plan(func(p *cutting.Plan) { p.Status, p.LowerBoundCM3 = cutting.Feasible, p.DrawnCM3+1 })}},
		{rough, spoiled{"from another piece", ClaimPlan, last(func(l *Layout) { l.Strips[0].Source = "P9" })}},
	} {
		t.Run(c.name, func(t *testing.T) {
			ask := three()
			c.ask(&ask)
			if c.spoil == nil { // what an ask is to be unlike is what it was answered with
				first, err := Solve(t.Context(), physics(), ask, Options{})
				if err != nil {
					t.Fatal(err)
				}
				c.spoil = func(a *Result) { a.Layouts = first.Layouts }
				ask.Unlike = append(ask.Unlike, first.Layouts[1].Strips)
			}
			whole, err := Solve(t.Context(), physics(), ask, Options{})
			if err != nil || whole.Status != Optimal {
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
	j := newJudge(physics(), ask)
	none := Result{Status: Infeasible, Aim: Contrast, PlansProved: true}
	none.uphold(j, good.Layouts)
	var b *Broken
	if !errors.As(none.Broken, &b) || b.Claim != ClaimStatus || none.Status != Feasible || len(none.Layouts) != 1 {
		t.Errorf("%+v", none)
	}
	late := good
	late.Layouts = slices.Clone(good.Layouts[1:])
	late.uphold(j, good.Layouts[:1])
	if b = nil; !errors.As(late.Broken, &b) || b.Claim != ClaimProof {
		t.Errorf("%+v", late.Broken)
	}
	late = good
	late.Status, late.Bound = Feasible, &Bound{SmallestContrast: good.Layouts[1].SmallestContrast, TotalContrast: good.Layouts[1].TotalContrast}
	late.Layouts = slices.Clone(good.Layouts[1:])
	late.Layouts[0].Proved = false
	late.uphold(j, good.Layouts[:1])
	if b = nil; !errors.As(late.Broken, &b) || b.Claim != ClaimBound {
		t.Errorf("%+v", late.Broken)
	}
}

func TestBrokenAgain(t *testing.T) {
	var ask RemakeRequest
	for seed := uint64(1); ; seed++ {
		ask = randomAgain(rand.New(rand.NewPCG(seed, 9)))
		ask.Answers = 3
		if a, err := Again(t.Context(), physics(), ask, Options{}); err != nil || a.Broken != nil {
			t.Fatal(err, a.Broken)
		} else if len(a.Answers) == 3 && len(a.Answers[0].Timbers) > 1 && a.Answers[0].ColourDistance < a.Answers[2].ColourDistance-1 {
			break
		}
	}
	of := func(change func(s *Remake)) func(*RemakeResult) {
		return func(a *RemakeResult) {
			s := &a.Answers[1]
			s.Pattern.Strips = slices.Clone(s.Pattern.Strips)
			change(s)
		}
	}
	for _, c := range []struct {
		name  string
		want  Claim
		spoil func(*RemakeResult)
	}{
		{"how far it is", ClaimColour, of(func(s *Remake) { s.ColourDistance += 0.01 })},
		{"another width", ClaimWidth, of(func(s *Remake) { s.Pattern.Strips[0].Width++ })},
		{"a strip less", ClaimStrips, of(func(s *Remake) { s.Pattern.Strips = s.Pattern.Strips[1:] })},
		{"another timber", ClaimTimber, of(func(s *Remake) { s.Pattern.Strips[0].Species = "wenge" })},
		{"another moisture", ClaimTimber, of(func(s *Remake) { s.Pattern.Strips[0].Moisture = pattern.Read(14) })},
		{"its level", ClaimLevel, of(func(s *Remake) { s.Level = (s.Level + 1) % 3 })},
		{"its contrast", ClaimContrast, of(func(s *Remake) { s.SmallestContrast++ })},
		{"a plan that falls short", ClaimPlan, of(func(s *Remake) { s.Plan.Short = 1 })},
		{"a plan that cannot be cut", ClaimPlan, of(func(s *Remake) { s.Plan.DrawnCM3++ })},
		{"one twice", ClaimUnlike, func(a *RemakeResult) { a.Answers[1] = a.Answers[0] }},
		{"the order", ClaimOrder, func(a *RemakeResult) { slices.Reverse(a.Answers) }},
		{"infeasible", ClaimStatus, func(a *RemakeResult) { a.Status = Infeasible }},
		{"none, and proved", ClaimStatus, func(a *RemakeResult) { a.Answers = nil }},
		{"more than were asked for", ClaimStatus, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			ask := ask
			if c.spoil == nil {
				more, err := Again(t.Context(), physics(), ask, Options{})
				if err != nil {
					t.Fatal(err)
				}
				ask.Answers = 2
				c.spoil = func(a *RemakeResult) { a.Answers = more.Answers }
			}
			a, err := Again(t.Context(), physics(), ask, Options{spoilAgain: c.spoil})
			if err != nil {
				t.Fatal(err)
			}
			var b *Broken
			if !errors.As(a.Broken, &b) || b.Claim != c.want || b.Claimed == b.Found {
				t.Fatalf("found %+v, want one of %v", a.Broken, c.want)
			}
			if a.Status != Feasible && a.Status != Open || (a.Status == Open) != (len(a.Answers) == 0) {
				t.Errorf("%v with %d ways", a.Status, len(a.Answers))
			}
			for _, s := range a.Answers {
				if s.Plan.Status == cutting.Optimal || s.Plan.Short > 0 {
					t.Errorf("still handed out: %+v", s.Plan)
				}
			}
		})
	}
}

func TestClaimsHaveWords(t *testing.T) {
	for c := ClaimStatus; c <= ClaimColour; c++ {
		if strings.HasPrefix(c.String(), "claim(") {
			t.Errorf("claim %d has no word", int(c))
		}
	}
	if got := (ClaimColour + 1).String(); got != "claim(16)" {
		t.Errorf("%q", got)
	}
}

// Budget: 0.1 ms a layout of a dozen strips from ready strips, 0.2 ms with its plan.
func BenchmarkUphold(b *testing.B) {
	ready := pileOf(3, 10, 40, 300*mm)
	rough := New(300*mm, 22*mm, 450*mm)
	rough.Widths, rough.Strips, rough.Rack = []length.Length{20 * mm, 25 * mm}, [2]int{8, 20}, pileOfPieces(12)
	for name, ask := range map[string]Request{"ready": ready, "pieces": rough} {
		b.Run(name, func(b *testing.B) {
			r := physics()
			answer, err := Solve(b.Context(), r, ask, Options{})
			if err != nil || answer.Broken != nil {
				b.Fatal(err, answer.Broken)
			}
			ask.Aim = answer.Aim
			for b.Loop() {
				again := answer
				again.uphold(newJudge(r, ask), nil)
				if again.Broken != nil {
					b.Fatal(again.Broken)
				}
			}
			b.ReportMetric(float64(len(answer.Layouts)), "layouts")
		})
	}
}
