package cutting

import (
	"fmt"
	"math/rand/v2"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

const mm = length.Millimetre

// timbersDrawn are invented names: nothing here looks a timber up.
var timbersDrawn = []string{"ash", "beech", "cherry", "maple", "oak"}

// randomShop draws a workshop like those of the worked plans.
func randomShop(rng *rand.Rand) shop.Shop {
	s := shop.Default()
	s.Kerf.Rip = []length.Length{2400, 3200}[rng.IntN(2)] * length.Micrometre
	s.Allowance.Length = 0
	s.Allowance.OverLength = []length.Length{0, 0, 40}[rng.IntN(3)] * mm
	s.Keep.Length = []length.Length{200, 250, 300}[rng.IntN(3)] * mm
	s.Draw.ReturnedPct = []float64{0, 70, 70, 100}[rng.IntN(4)]
	s.Machine.BandsawHeight = []length.Length{150, 300}[rng.IntN(2)] * mm
	return s
}

// randomPattern draws a panel of so many strips of two to four of the timbers, in
// runs as a maker lays them, with lengths that differ where the outline is ragged.
func randomPattern(rng *rand.Rand, strips int, timbers []string) pattern.Pattern {
	p := pattern.Pattern{Panel: pattern.Panel{
		Length:    []length.Length{280, 320, 360, 400, 460, 520}[rng.IntN(6)] * mm,
		Thickness: []length.Length{18, 22, 25, 30}[rng.IntN(4)] * mm,
		Make:      pattern.Make(rng.IntN(2)),
	}}
	if p.Panel.Make == pattern.MakeEdge {
		p.Panel.Thickness = []length.Length{25, 30, 35}[rng.IntN(3)] * mm
	}
	ragged := rng.IntN(2) == 0
	count := min(len(timbers), 2+rng.IntN(3))
	chosen := rng.Perm(len(timbers))[:count]
	widths := make([]length.Length, count)
	for i := range widths {
		widths[i] = []length.Length{20, 25, 30, 35, 40, 50}[rng.IntN(6)] * mm
	}
	for i := range strips {
		n := rng.IntN(count)
		s := pattern.Strip{Species: timbers[chosen[n]], Width: widths[n]}
		if ragged {
			// shorter towards both edges, in three steps
			part := []length.Length{62, 90, 100}[min(2, min(i, strips-1-i)*6/max(1, strips))]
			s.Length = p.Panel.Length * part / 100
		}
		p.Strips = append(p.Strips, s)
	}
	return p
}

// randomPieces draws a rack of so many pieces.
func randomPieces(rng *rand.Rand, pieces int, timbers []string) []rack.Piece {
	var all []rack.Piece
	for len(all) < pieces {
		p := rack.Piece{
			ID: fmt.Sprintf("r%d", len(all)+1), Species: timbers[rng.IntN(len(timbers))], Quantity: 1,
			Length: length.Length(300+rng.IntN(1701)) * mm, Width: length.Length(40+rng.IntN(181)) * mm,
			Thickness: length.Length(24+rng.IntN(57)) * mm,
			Planed:    rng.IntN(8) == 0, UseFirst: rng.IntN(8) == 0,
		}
		all = append(all, p)
	}
	return all
}

// randomJob draws boards of 13 to 20 strips until so many strips are asked for.
func randomJob(seed uint64, strips, pieces, timbers int) Job {
	rng := rand.New(rand.NewPCG(seed, 7))
	names := timbersDrawn[:timbers]
	job := Job{Shop: randomShop(rng)}
	for asked := 0; asked < strips; {
		n := min(13+rng.IntN(8), strips-asked)
		copies := min(1+rng.IntN(3), max(1, (strips-asked)/n))
		if strips <= 20 {
			copies = 1
		}
		asked += n * copies
		job.Patterns = append(job.Patterns, Demand{Stem: fmt.Sprintf("p%d", len(job.Patterns)+1), Pattern: randomPattern(rng, n, names), Copies: copies})
	}
	job.Rack.Pieces = randomPieces(rng, pieces, names)
	return job
}

// smallJob draws a job of some ten strips of one timber.
func smallJob(seed uint64) Job {
	rng := rand.New(rand.NewPCG(seed, 5))
	job := Job{Shop: randomShop(rng)}
	for i := range 1 + rng.IntN(2) {
		p := pattern.Pattern{Panel: pattern.Panel{
			Length: []length.Length{240, 280, 320}[rng.IntN(3)] * mm, Thickness: []length.Length{18, 22}[rng.IntN(2)] * mm, Make: pattern.Make(rng.IntN(2)),
		}}
		for range 2 {
			s := pattern.Strip{Species: "oak", Width: []length.Length{20, 25, 35}[rng.IntN(3)] * mm}
			if rng.IntN(3) == 0 {
				s.Length = p.Panel.Length * 9 / 10
			}
			for range 2 + rng.IntN(3) {
				p.Strips = append(p.Strips, s)
			}
		}
		job.Patterns = append(job.Patterns, Demand{Stem: fmt.Sprintf("p%d", i+1), Pattern: p, Copies: 1})
	}
	for pieces := 2 + rng.IntN(6); len(job.Rack.Pieces) < pieces; {
		job.Rack.Pieces = append(job.Rack.Pieces, rack.Piece{
			ID: fmt.Sprintf("r%d", len(job.Rack.Pieces)+1), Species: "oak", Quantity: 1, Planed: rng.IntN(5) == 0, UseFirst: rng.IntN(4) == 0,
			Length: length.Length(280+rng.IntN(500)) * mm, Width: length.Length(36+rng.IntN(50)) * mm, Thickness: length.Length(24+rng.IntN(30)) * mm,
		})
	}
	for i := range rng.IntN(3) {
		job.Rack.Strips = append(job.Rack.Strips, rack.Strip{
			ID: fmt.Sprintf("s%d", i+1), Species: "oak", Quantity: 1 + rng.IntN(2), Thickness: 24 * mm,
			Width: []length.Length{20, 25, 35}[rng.IntN(3)] * mm, Length: []length.Length{230, 260, 330}[rng.IntN(3)] * mm,
		})
	}
	return job
}
