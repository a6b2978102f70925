package remake

import (
	"context"
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
)

// What makes a pattern possible again would do, and nothing less would.
func TestLoosenAgain(t *testing.T) {
	rng := rand.New(rand.NewPCG(10, 3))
	levels, copies := 0, 0
	for range 25 {
		a := randomAgain(rng)
		a.Level, a.Copies, a.Answers = pattern.Fine, 1+rng.IntN(6), 1
		could := func(level pattern.Level, n int) bool {
			with := a
			with.Level, with.Copies = level, n
			answer, err := Again(t.Context(), physics(), with, suggest.Options{})
			return err == nil && len(answer.Answers) > 0
		}
		if could(a.Level, a.Copies) {
			continue
		}
		l := Loosen(t.Context(), physics(), a, true)
		if l.Level != nil {
			levels++
			if !could(*l.Level, a.Copies) || could(*l.Level-1, a.Copies) {
				t.Fatalf("%v is said to be the mildest level that would do", *l.Level)
			}
		}
		if l.Copies > 0 {
			copies++
			if !could(a.Level, l.Copies) {
				t.Fatalf("%d copies are said to do", l.Copies)
			}
		}
		if l.Copies+1 < a.Copies && could(a.Level, l.Copies+1) {
			t.Fatalf("%d copies would do, %d are said to be the most", l.Copies+1, l.Copies)
		}
	}
	if levels < 1 || copies < 1 {
		t.Fatalf("%d levels and %d copies were looked at", levels, copies)
	}
}

// Where only the rings that nobody has checked stand in the way, checking them is a way out,
// though nothing is proved: quarter-sawn maple next to walnut, 40 mm thick, whose rings count
// as 45 degrees. With the walnut quarter-sawn too the pattern can be made.
func TestLoosenByRings(t *testing.T) {
	walnut := rack.Piece{ID: "W1", Species: "black_walnut", Length: 900 * mm, Width: 130 * mm, Thickness: 60 * mm, Quantity: 3}
	maple := rack.Piece{ID: "M1", Species: "hard_maple", Length: 900 * mm, Width: 130 * mm, Thickness: 60 * mm, Quantity: 3, Rings: pattern.RingsQuarter()}
	a := Request{Copies: 1, Answers: 1, Level: pattern.TakeCare, Rack: rack.Rack{Pieces: []rack.Piece{walnut, maple}},
		Pattern: pattern.Pattern{Name: "rail", Panel: pattern.Panel{Length: 400 * mm, Thickness: 40 * mm, Moisture: pattern.Read(8)}}}
	for range 3 {
		a.Pattern.Strips = append(a.Pattern.Strips, pattern.Strip{Species: "black_walnut", Width: 40 * mm}, pattern.Strip{Species: "hard_maple", Width: 40 * mm})
	}
	got, err := Again(t.Context(), physics(), a, suggest.Options{})
	if err != nil || got.Status != suggest.Open || len(got.Answers) > 0 {
		t.Fatalf("%v, %d answers, %v: the case is no test", got.Status, len(got.Answers), err)
	}
	want := []string{
		"check the end grain of W1: if it is quarter-sawn, all glue lines keep to the level you asked for",
		"accept glue lines up to \"too much\"",
	}
	l := Loosen(t.Context(), physics(), a, false)
	if !slices.Equal(l.Say(), want) {
		t.Errorf("%q, want %q", l.Say(), want)
	}
	a.Rack.Pieces[0].Rings = l.Rings
	if got, err = Again(t.Context(), physics(), a, suggest.Options{}); err != nil || len(got.Answers) != 1 {
		t.Errorf("checked: %d answers, %v", len(got.Answers), err)
	}
}

// A pattern made again from timber as far off everywhere is as far off in the mean.
func TestAwayEach(t *testing.T) {
	s := Way{ColourDistance: 300, Pattern: pattern.Pattern{Strips: []pattern.Strip{{Width: 20 * mm}, {Width: 40 * length.Millimetre}}}}
	if got := s.AwayEach(); got != 5 { // 300 over 60 mm
		t.Errorf("%v", got)
	}
}

func TestBrokenAgain(t *testing.T) {
	var ask Request
	for seed := uint64(1); ; seed++ {
		ask = randomAgain(rand.New(rand.NewPCG(seed, 9)))
		ask.Answers = 3
		if a, err := Again(t.Context(), physics(), ask, suggest.Options{}); err != nil || a.Broken != nil {
			t.Fatal(err, a.Broken)
		} else if len(a.Answers) == 3 && len(a.Answers[0].Timbers) > 1 && a.Answers[0].ColourDistance < a.Answers[2].ColourDistance-1 {
			break
		}
	}
	of := func(change func(s *Way)) func(*Result) {
		return func(a *Result) {
			s := &a.Answers[1]
			s.Pattern.Strips = slices.Clone(s.Pattern.Strips)
			change(s)
		}
	}
	for _, c := range []struct {
		name  string
		want  suggest.Claim
		spoil func(*Result)
	}{
		{"how far it is", suggest.ClaimColour, of(func(s *Way) { s.ColourDistance += 0.01 })},
		{"another width", suggest.ClaimWidth, of(func(s *Way) { s.Pattern.Strips[0].Width++ })},
		{"a strip less", suggest.ClaimStrips, of(func(s *Way) { s.Pattern.Strips = s.Pattern.Strips[1:] })},
		{"another timber", suggest.ClaimTimber, of(func(s *Way) { s.Pattern.Strips[0].Species = "wenge" })},
		{"another moisture", suggest.ClaimTimber, of(func(s *Way) { s.Pattern.Strips[0].Moisture = pattern.Read(14) })},
		{"its level", suggest.ClaimLevel, of(func(s *Way) { s.Level = (s.Level + 1) % 3 })},
		{"its contrast", suggest.ClaimContrast, of(func(s *Way) { s.SmallestContrast++ })},
		{"a plan that falls short", suggest.ClaimPlan, of(func(s *Way) { s.Plan.Short = 1 })},
		{"a plan that cannot be cut", suggest.ClaimPlan, of(func(s *Way) { s.Plan.DrawnCM3++ })},
		{"one twice", suggest.ClaimUnlike, func(a *Result) { a.Answers[1] = a.Answers[0] }},
		{"the order", suggest.ClaimOrder, func(a *Result) { slices.Reverse(a.Answers) }},
		{"infeasible", suggest.ClaimStatus, func(a *Result) { a.Status = suggest.Infeasible }},
		{"none, and proved", suggest.ClaimStatus, func(a *Result) { a.Answers = nil }},
		{"more than were asked for", suggest.ClaimStatus, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			ask := ask
			if c.spoil == nil {
				more, err := Again(t.Context(), physics(), ask, suggest.Options{})
				if err != nil {
					t.Fatal(err)
				}
				ask.Answers = 2
				c.spoil = func(a *Result) { a.Answers = more.Answers }
			}
			a, err := again(t.Context(), physics(), ask, suggest.Options{}, c.spoil)
			if err != nil {
				t.Fatal(err)
			}
			var b *suggest.Broken
			if !errors.As(a.Broken, &b) || b.Claim != c.want || b.Claimed == b.Found {
				t.Fatalf("found %+v, want one of %v", a.Broken, c.want)
			}
			if a.Status != suggest.Feasible && a.Status != suggest.Open || (a.Status == suggest.Open) != (len(a.Answers) == 0) {
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

func TestAgainClaimsNoMoreThanIsSo(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 13))
	r := physics()
	best := 0
	for range 150 {
		a := randomAgain(rng)
		answer, err := Again(t.Context(), r, a, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range answer.Answers {
			job := a.Job(r, s)
			job.Patterns[0].Pattern = s.Fresh() // as it is saved
			checkClaim(t, a.Job(r, s), s.Plan, leastDrawn(t, job))
			if s.Plan.Status == cutting.Optimal {
				best++
			}
		}
	}
	if best < 50 {
		t.Errorf("%d answers proved: too few", best)
	}
}

// What the clock left open says so; what was worked on to the end does not.
func TestAgainSaysThatItWasStopped(t *testing.T) {
	ask := randomAgain(rand.New(rand.NewPCG(3, 5)))
	if got, err := Again(t.Context(), physics(), ask, suggest.Options{}); err != nil || got.Status == suggest.Open || got.Stopped {
		t.Errorf("in all the time: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
	ended, cancel := context.WithCancel(t.Context())
	cancel()
	if got, err := Again(ended, physics(), ask, suggest.Options{}); err != nil || got.Status != suggest.Open || !got.Stopped {
		t.Errorf("in no time: %v, stopped %v, %v", got.Status, got.Stopped, err)
	}
}
