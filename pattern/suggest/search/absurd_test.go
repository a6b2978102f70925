package search

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"sync/atomic"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/stock"
	"example.com/oddments/species"
)

// absurd asks for strips of many kinds from so many pieces, each of them full of faults.
func absurd(pieces int) suggest.Request {
	rng := rand.New(rand.NewPCG(7, 7))
	a := suggest.New(300*mm, 22*mm, 200*mm)
	a.Widths = []length.Length{17 * mm, 20*mm + 1, 23*mm + 7, 25 * mm, 31*mm + 3}
	all := species.Builtin().All()
	for i := range pieces {
		p := rack.Piece{ID: fmt.Sprint("P", i), Species: all[rng.IntN(20)].Key, Length: 4000 * mm, Width: 600 * mm,
			Thickness: length.Length(30_000_000 + rng.IntN(30_000_000)), Quantity: 1, UseFirst: rng.IntN(9) == 0,
			Moisture: pattern.Read(float64(80+rng.IntN(20)) / 10), Rings: []pattern.Rings{{}, pattern.RingsFlat()}[rng.IntN(2)]}
		for n := range 12 {
			at := length.Length(300*(n+1))*mm + length.Length(rng.IntN(20_000_000))
			p.Faults = append(p.Faults, rack.Fault{From: at, To: at + 10*mm})
			at = length.Length(45*(n+1))*mm + length.Length(rng.IntN(5_000_000))
			p.Faults = append(p.Faults, rack.Fault{Along: true, From: at, To: at + 2*mm})
		}
		a.Rack.Pieces = append(a.Rack.Pieces, p)
	}
	return a
}

// counting returns a stopper that says so after as many looks, and how often it was asked.
func counting(t testing.TB, after int64) (stopper, func() int64) {
	t.Helper()
	stop := stopper{flag: new(atomic.Bool), looks: new(atomic.Int64)}
	stop.looks.Store(after)
	return stop, func() int64 { return after - stop.looks.Load() }
}

// Between two looks at the clock there is never more work than one step of the stock, or the
// pairs of one kind, take; and once it says so, the work ends.
func TestPreparingLooksAtTheClock(t *testing.T) {
	a := absurd(12)
	stop, asked := counting(t, math.MaxInt64)
	s, err := newSearch(physics(), a, stop)
	if err != nil {
		t.Fatal(err)
	}
	all, kinds := asked(), len(s.Kinds)
	stop, asked = counting(t, math.MaxInt64)
	stock.New(physics(), s.ask, stop.stopped)
	if least := asked() + int64(2*kinds); kinds < 60 || all < least {
		t.Errorf("%d looks at the clock for %d kinds, must be %d", all, kinds, least)
	}
	for after := int64(0); after < all; after += 1 + all/50 {
		stop, asked := counting(t, after)
		if s, err := newSearch(physics(), a, stop); s != nil || !errors.Is(err, errStopped) {
			t.Errorf("stopped after %d looks: %v", after, err)
		}
		if more := asked() - after; more > int64(kinds)+2*int64(len(s.Timbers))+4 {
			t.Errorf("stopped after %d looks, it looked %d times more", after, more)
		}
	}
}

// Whenever the work is stopped, all of it ends after some more looks, with a claim of
// nothing that was not proved.
func TestSolveStoppedAnywhere(t *testing.T) {
	a := absurd(4)
	for after := int64(1); after < 40_000; after *= 3 {
		ctx, cancel := context.WithCancel(t.Context())
		stop, asked := counting(t, after)
		opt := suggest.Options{Progress: func(suggest.Progress) {
			if asked() >= after {
				cancel()
			}
		}}
		answer, err := solveUntil(ctx, physics(), a, opt, hooks{}, stop)
		cancel()
		if err != nil || answer.Status == suggest.Infeasible || answer.Status == suggest.Optimal || answer.Status == suggest.Open && answer.Bound != nil {
			t.Fatalf("stopped after %d looks: %v, %v", after, answer.Status, err)
		}
		if more := asked() - after; more > 3_000 {
			t.Errorf("stopped after %d looks, it looked %d times more", after, more)
		}
	}
}

// How much longer than its context Solve takes: must be under 0.2 s.
func BenchmarkEndedOnAbsurdRack(b *testing.B) {
	for _, pieces := range []int{300, 3000} {
		for _, after := range []time.Duration{20 * time.Millisecond, 300 * time.Millisecond, 2 * time.Second} {
			b.Run(fmt.Sprint(pieces, " pieces, ", after), func(b *testing.B) {
				a, worst := absurd(pieces), time.Duration(0)
				for b.Loop() {
					ctx, cancel := context.WithTimeout(b.Context(), after)
					began := time.Now()
					if _, err := Solve(ctx, physics(), a, suggest.Options{}); err != nil {
						b.Fatal(err)
					}
					worst = max(worst, time.Since(began)-after)
					cancel()
				}
				b.ReportMetric(float64(worst.Milliseconds()), "ms-late")
			})
		}
	}
}
