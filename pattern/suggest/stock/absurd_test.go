package stock

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
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

// Between two looks at the clock there is never more work than one section of a piece or
// one piece takes; and once it says so, the work ends.
func TestLooksAtTheClock(t *testing.T) {
	a := absurd(12)
	looks := int64(0)
	s := New(physics(), a, func() bool { looks++; return false })
	sections := 0
	for at, timber := range s.Timbers {
		own := 0
		for _, k := range s.Kinds {
			if k.Timber == at {
				own++
			}
		}
		sections += len(timber.lots) * (own + 2) // for each kind's count, and for both capacities
	}
	if sections < 1_000 || len(s.Kinds) < 60 {
		t.Fatalf("%d sections, %d kinds: is no absurd rack", sections, len(s.Kinds))
	}
	all := looks
	if least := int64(sections + len(a.Rack.Pieces)); all < least {
		t.Errorf("%d looks at the clock, must be %d", all, least)
	}
	for after := int64(0); after < all; after += 1 + all/50 {
		looks = 0
		if got := New(physics(), a, func() bool { looks++; return looks > after }); got != nil {
			t.Errorf("stopped after %d looks, there is a stock", after)
		}
		if more := looks - after; more > int64(len(s.Kinds))+2*int64(len(s.Timbers))+4 {
			t.Errorf("stopped after %d looks, it looked %d times more", after, more)
		}
	}
}
