package gallery

import (
	"fmt"
	"math/rand/v2"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

const mm = length.Millimetre

func physics() movement.Physics { return movement.New(species.Builtin(), shop.Default()) }

// pileAsk asks for the whole gallery from an invented pile of 25 pieces of 6 timbers: 340 mm
// wide, strips of 20, 25, 30 and 40 mm.
func pileAsk(seed uint64) suggest.Request {
	rng := rand.New(rand.NewPCG(seed, 41))
	keys := []string{"black_walnut", "hard_maple", "white_oak", "sapele", "ash_european", "black_cherry", "european_beech",
		"purpleheart", "european_larch", "padauk", "wenge", "iroko", "european_elm"}
	table := species.Builtin()
	var six []string
	for _, at := range rng.Perm(len(keys)) {
		if s, ok := table.Get(keys[at]); ok && s.Moves() && len(six) < 6 {
			six = append(six, keys[at])
		}
	}
	a := suggest.New(340*mm, 22*mm, 340*mm)
	a.Strips, a.Looks, a.ApartPct = [2]int{9, 15}, look.Looks(), suggest.DefaultApart
	a.Layouts, a.Widths = len(a.Looks), []length.Length{20 * mm, 25 * mm, 30 * mm, 40 * mm}
	rings := []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter()}
	for i := range 25 {
		long := length.Length(380+rng.IntN(700)) * mm
		a.Rack.Pieces = append(a.Rack.Pieces, rack.Piece{ID: fmt.Sprint("P", i+1), Species: six[i%6], Length: long,
			Width: length.Length(60+rng.IntN(90)) * mm, Thickness: length.Length(28+rng.IntN(27)) * mm, Quantity: 1,
			Rings: rings[rng.IntN(4)], Moisture: pattern.Read(float64(80+rng.IntN(16)) / 10), UseFirst: long < 500*mm && seed%2 == 1})
	}
	return a
}
