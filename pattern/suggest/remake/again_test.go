package remake

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/booking"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

func randomAgain(rng *rand.Rand) Request {
	keys := []string{"black_walnut", "hard_maple", "sapele", "iroko", "black_cherry", "european_beech", "padauk", "white_oak"}
	rng.Shuffle(len(keys), func(i, j int) { keys[i], keys[j] = keys[j], keys[i] })
	a := Request{Copies: 1 + rng.IntN(2), Level: pattern.Level(min(2, 1+rng.IntN(3))), Answers: 1 + rng.IntN(3)}
	a.Pattern.Panel = pattern.Panel{Length: 300 * mm, Thickness: 22 * mm}
	timbers := 1 + rng.IntN(3)
	rings := []pattern.Rings{{}, {}, pattern.RingsFlat()}
	for range 3 + rng.IntN(4) {
		a.Pattern.Strips = append(a.Pattern.Strips, pattern.Strip{Species: keys[rng.IntN(timbers)],
			Width: length.Length(15+5*rng.IntN(4)) * mm, Rings: rings[rng.IntN(3)]})
	}
	rng.Shuffle(len(keys), func(i, j int) { keys[i], keys[j] = keys[j], keys[i] })
	for i := range 3 + rng.IntN(3) {
		p := rack.Piece{ID: fmt.Sprint("P", i), Species: keys[i], Length: length.Length(350+rng.IntN(600)) * mm,
			Width: length.Length(50+rng.IntN(100)) * mm, Thickness: length.Length(28+rng.IntN(40)) * mm, Quantity: 1}
		if rng.IntN(2) == 0 {
			p.Rings = pattern.RingsFlat()
		}
		if rng.IntN(2) == 0 {
			p.Moisture = pattern.Read(float64(8 + rng.IntN(2)))
		}
		a.Rack.Pieces = append(a.Rack.Pieces, p)
	}
	colours := rand.New(rand.NewPCG(uint64(len(a.Pattern.Strips)), uint64(a.Rack.Pieces[0].Length)))
	for i := range a.Pattern.Strips {
		a.Pattern.Strips[i].Colour = randomColour(colours)
	}
	for i := range a.Rack.Pieces {
		a.Rack.Pieces[i].Colour = randomColour(colours)
	}
	return a
}

// randomColour is a colour of wood for one in three, and none for the others.
func randomColour(rng *rand.Rand) colour.Own {
	if rng.IntN(3) > 0 {
		return colour.Own{}
	}
	return colour.OwnOf(colour.Lab{L: 25 + 60*rng.Float64(), A: 4 + 12*rng.Float64(), B: 8 + 22*rng.Float64()}.RGB())
}

// nowOf is a timber as it looks on the rack.
func nowOf(r movement.Physics, a Request, key string) species.Species {
	timber, _ := r.Table().Get(key)
	return timber.As(a.Rack.Colour(key))
}

// everyAgain returns what each way of making a again costs, the least first: every way
// is tried, and the whole panel is computed.
func everyAgain(t *testing.T, r movement.Physics, a Request) []float64 {
	t.Helper()
	var was []string
	for _, s := range a.Pattern.Strips {
		if !slices.Contains(was, s.Species) {
			was = append(was, s.Species)
		}
	}
	var away []float64
	var try func(now []rack.Piece)
	try = func(now []rack.Piece) {
		if len(now) == len(was) {
			if sum, ok := oneAgain(t, r, a, was, now); ok {
				away = append(away, sum)
			}
			return
		}
		for _, p := range a.Rack.Pieces {
			if !slices.ContainsFunc(now, func(o rack.Piece) bool { return o.Species == p.Species }) {
				try(append(slices.Clone(now), p))
			}
		}
	}
	try(nil)
	slices.Sort(away)
	return away
}

func oneAgain(t *testing.T, r movement.Physics, a Request, was []string, now []rack.Piece) (away float64, ok bool) {
	t.Helper()
	p := a.Pattern
	p.Strips = slices.Clone(p.Strips)
	timbers := map[string]string{}
	for i, key := range was {
		timbers[key] = now[i].Species
	}
	for i := range p.Strips {
		s := &p.Strips[i]
		old, _ := r.Table().Get(s.Species)
		fresh := nowOf(r, a, timbers[s.Species])
		away += s.Width.MM() * species.Contrast(s.Colour.Or(old.ColourOiled), fresh.ColourOiled)
		*s = pattern.Strip{Species: fresh.Key, Width: s.Width, Start: s.Start, Length: s.Length, Turned: s.Turned, Over: s.Over, Pinned: s.Pinned}
	}
	for i := 1; i < len(p.Strips); i++ {
		left, right := nowOf(r, a, p.Strips[i-1].Species), nowOf(r, a, p.Strips[i].Species)
		if left.Key != right.Key && left.Contrast(right) < r.Shop().Limits.Contrast {
			return 0, false
		}
	}
	job := cutting.Job{Rack: a.Rack, Shop: r.Shop(), Patterns: []cutting.Demand{{Stem: "p", Pattern: p, Copies: a.Copies}}}
	plan, err := solve.Plan(t.Context(), job, solve.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return away, plan.Short == 0 && keepsTo(r, a, job, plan)
}

// keepsTo reports whether every copy, made from the timber of a plan, keeps to the level.
func keepsTo(r movement.Physics, a Request, job cutting.Job, plan cutting.Plan) bool {
	for copy := range a.Copies {
		made, _ := booking.Real(job, plan, "p", copy+1)
		for _, line := range r.Of(made).Lines {
			if line.Level > a.Level {
				return false
			}
		}
	}
	return true
}

func TestAgainAgainstEveryWay(t *testing.T) {
	rng := rand.New(rand.NewPCG(21, 2))
	r := physics()
	none, several, proved := 0, 0, 0
	for n := range 160 {
		a := randomAgain(rng)
		got, err := Again(t.Context(), r, a, suggest.Options{})
		if err != nil {
			t.Fatal(err)
		}
		want := everyAgain(t, r, a)
		if len(got.Answers) != min(a.Answers, len(want)) {
			t.Fatalf("case %d: %d answers of %d, %d asked", n, len(got.Answers), len(want), a.Answers)
		}
		if len(want) == 0 {
			none++
		}
		switch got.Status {
		case suggest.Optimal, suggest.Infeasible:
			if (got.Status == suggest.Infeasible) != (len(want) == 0) {
				t.Fatalf("case %d: %v, %d ways", n, got.Status, len(want))
			}
			proved++
		default: // some way was passed over for its level
			if a.Level == pattern.TooMuch {
				t.Fatalf("case %d: %v where any level is allowed", n, got.Status)
			}
		}
		if len(got.Answers) > 1 {
			several++
		}
		for i, s := range got.Answers {
			if math.Abs(s.ColourDistance-want[i]) > 1e-3 {
				t.Fatalf("case %d answer %d: %v away, the best %v", n, i+1, s.ColourDistance, want[i])
			}
			for _, before := range got.Answers[:i] {
				if fmt.Sprint(before.Timbers) == fmt.Sprint(s.Timbers) {
					t.Fatalf("case %d: %v stands twice", n, s.Timbers)
				}
			}
		}
	}
	t.Logf("%d without an answer, %d with several, %d proved", none, several, proved)
	if none < 10 || none > 130 || several < 20 || proved < 100 {
		t.Error("too few cases of one sort")
	}
}

// The same timbers on the rack give the pattern itself, at no distance.
func TestAgainFromTheSameTimbers(t *testing.T) {
	a := Request{Copies: 2, Level: pattern.TooMuch, Answers: 1}
	a.Pattern.Panel = pattern.Panel{Length: 300 * mm, Thickness: 22 * mm}
	for i := range 6 {
		a.Pattern.Strips = append(a.Pattern.Strips,
			pattern.Strip{Species: []string{"black_walnut", "hard_maple"}[i%2], Width: 25 * mm})
	}
	for _, key := range []string{"hard_maple", "iroko", "black_walnut"} {
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: key, Species: key, Length: 900 * mm, Width: 200 * mm,
			Thickness: 40 * mm, Quantity: 1})
	}
	got, err := Again(t.Context(), physics(), a, suggest.Options{})
	if err != nil || got.Status != suggest.Optimal || len(got.Answers) != 1 {
		t.Fatalf("%v %v, %d answers", err, got.Status, len(got.Answers))
	}
	s := got.Answers[0]
	if s.ColourDistance != 0 || s.Timbers["black_walnut"] != "black_walnut" || s.Plan.Short != 0 {
		t.Errorf("%v away with %v", s.ColourDistance, s.Timbers)
	}
}

// Budget: 0.1 s and its plan's time, six timbers of twenty.
func BenchmarkAgain(b *testing.B) {
	r := physics()
	all := r.Table().All()
	a := Request{Copies: 1, Level: pattern.TakeCare, Answers: 3}
	a.Pattern.Panel = pattern.Panel{Length: 300 * mm, Thickness: 22 * mm}
	for i := range 30 {
		a.Pattern.Strips = append(a.Pattern.Strips, pattern.Strip{Species: all[(i*7)%6].Key, Width: 20 * mm})
	}
	for i := range 20 {
		s := all[10+2*i]
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: s.Key, Species: s.Key, Length: 1000 * mm, Width: 150 * mm,
			Thickness: 55 * mm, Quantity: 1})
	}
	for b.Loop() {
		got, err := Again(b.Context(), r, a, suggest.Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(got.Answers)), "answers")
	}
}
