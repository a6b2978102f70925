// Package solvetest has jobs for tests of the stock plan and of what is made of it, worked
// out by hand and drawn at random.
package solvetest

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
)

// CherryJob asks for twelve strips, 22 wide in a panel 22 thick and 290 long, from one
// cherry plank of 720 x 88 x 77.
func CherryJob() cutting.Job {
	p := pattern.Pattern{Panel: pattern.Panel{Length: 290 * mm, Thickness: 22 * mm}}
	for range 6 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "black_cherry", Width: 22 * mm, Rings: pattern.RingsFlat()})
	}
	return cutting.Job{
		Patterns: []cutting.Demand{{Stem: "lane", Pattern: p, Copies: 2}}, Shop: shoptest.Roomy(),
		Rack: rack.Rack{Pieces: []rack.Piece{{
			ID: "B1", Species: "black_cherry", Length: 720 * mm, Width: 88 * mm, Thickness: 77 * mm, Quantity: 1,
			Rings: pattern.RingsFlat(), Moisture: pattern.Read(8.5),
		}}},
	}
}

// BenchJob draws a job with all that a rack can hold: faults, quantities, readings,
// rings, ready strips.
func BenchJob(seed uint64) cutting.Job {
	rng := rand.New(rand.NewPCG(seed, 11))
	job := RandomJob(seed, 10+rng.IntN(14), 4+rng.IntN(6), 2)
	rings := []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsQuarter(), pattern.RingsRift()}
	for i := range job.Rack.Pieces {
		p := &job.Rack.Pieces[i]
		p.Quantity, p.Rings = 1+rng.IntN(2), rings[rng.IntN(4)]
		if rng.IntN(2) == 0 {
			p.Moisture = pattern.Read(float64(70+rng.IntN(50)) / 10)
		}
		if rng.IntN(3) == 0 {
			p.Faults = append(p.Faults, rack.Fault{From: p.Length / 3, To: p.Length/3 + 20*mm})
		}
		if rng.IntN(4) == 0 {
			p.Faults = append(p.Faults, rack.Fault{Along: true, From: 0, To: p.Width / 4})
		}
	}
	for _, n := range cutting.Needs(job) {
		if rng.IntN(6) == 0 {
			job.Rack.Strips = append(job.Rack.Strips, rack.Strip{
				ID: fmt.Sprintf("s%d", len(job.Rack.Strips)+1), Species: n.Species, Width: n.Width, Thickness: n.Glued,
				Length: n.Length + length.Length(rng.IntN(30))*mm, Quantity: 1 + rng.IntN(2), Rings: rings[rng.IntN(4)],
			})
		}
	}
	return job
}

const mm = length.Millimetre

// Timbers are invented names: nothing here looks a timber up.
var Timbers = []string{"ash", "beech", "cherry", "maple", "oak"}

// RandomShop draws a workshop like those of the worked plans.
func RandomShop(rng *rand.Rand) shop.Shop {
	s := shoptest.Roomy()
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

// RandomJob draws boards of 13 to 20 strips until so many strips are asked for.
func RandomJob(seed uint64, strips, pieces, timbers int) cutting.Job {
	rng := rand.New(rand.NewPCG(seed, 7))
	names := Timbers[:timbers]
	job := cutting.Job{Shop: RandomShop(rng)}
	for asked := 0; asked < strips; {
		n := min(13+rng.IntN(8), strips-asked)
		copies := min(1+rng.IntN(3), max(1, (strips-asked)/n))
		if strips <= 20 {
			copies = 1
		}
		asked += n * copies
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprintf("p%d", len(job.Patterns)+1), Pattern: randomPattern(rng, n, names), Copies: copies})
	}
	job.Rack.Pieces = randomPieces(rng, pieces, names)
	return job
}

// Rename gives the invented timbers of a job names of the table.
func Rename(job *cutting.Job, names map[string]string) {
	for i := range job.Rack.Pieces {
		job.Rack.Pieces[i].Species = names[job.Rack.Pieces[i].Species]
	}
	for i := range job.Rack.Strips {
		job.Rack.Strips[i].Species = names[job.Rack.Strips[i].Species]
	}
	for i := range job.Patterns {
		strips := slices.Clone(job.Patterns[i].Pattern.Strips)
		for k := range strips {
			strips[k].Species = names[strips[k].Species]
		}
		job.Patterns[i].Pattern.Strips = strips
	}
}

// Parted lets every strip of a job be made of two pieces with 10 mm between them, as well as
// whole, and no piece of the rack be longer than a whole strip and a half.
func Parted(job cutting.Job) cutting.Job {
	most := length.Length(0)
	for i := range job.Patterns {
		d := &job.Patterns[i]
		d.Ways = make([][]joints.Way, len(d.Pattern.Strips))
		for k, s := range d.Pattern.Strips {
			long := d.Pattern.StripLength(s, job.Shop.Allowance.Length)
			near := long / (20 * mm) * (10 * mm)
			most = max(most, long)
			d.Ways[k] = []joints.Way{{{Start: s.Start, Length: long}},
				{{Start: s.Start, Length: near}, {Start: s.Start + near + 10*mm, Length: long - near - 10*mm}}}
		}
	}
	for i := range job.Rack.Pieces {
		p := &job.Rack.Pieces[i]
		p.Length = min(p.Length, most*3/2)
		p.Faults = slices.DeleteFunc(slices.Clone(p.Faults), func(f rack.Fault) bool { return !f.Along && f.To >= p.Length })
	}
	return job
}

// HandJob is two flat strips, 25 x 22 x 300 mm, from one piece.
func HandJob(piece rack.Piece) cutting.Job {
	piece.ID, piece.Species, piece.Quantity = "A", "oak", 1
	s := shoptest.Roomy()
	s.Kerf = shop.Kerf{Rip: 3 * mm, Crosscut: 3 * mm, Resaw: 1 * mm}
	s.Allowance = shop.Allowance{Truing: 2 * mm, Cleaning: 1 * mm, Planing: 2 * mm, Jointing: 1 * mm, Flattening: 2 * mm, EndTrim: 10 * mm}
	p := pattern.Pattern{Panel: pattern.Panel{Length: 300 * mm, Thickness: 22 * mm}}
	for range 2 {
		p.Strips = append(p.Strips, pattern.Strip{Species: "oak", Width: 25 * mm})
	}
	return cutting.Job{Patterns: []cutting.Demand{{Stem: "p", Pattern: p, Copies: 1}}, Rack: rack.Rack{Pieces: []rack.Piece{piece}}, Shop: s}
}

// OnePiece cuts one strip from one piece.
func OnePiece(p rack.Piece, width, thickness, long length.Length) (cutting.Job, cutting.Plan) {
	p.ID, p.Species, p.Quantity = "A", "oak", 1
	panel := pattern.Pattern{
		Panel:  pattern.Panel{Length: long, Thickness: thickness},
		Strips: []pattern.Strip{{Species: "oak", Width: width, Length: long}},
	}
	job := CherryJob()
	job.Patterns, job.Rack = []cutting.Demand{{Stem: "one", Pattern: panel, Copies: 1}}, rack.Rack{Pieces: []rack.Piece{p}}
	sawn := job.Shop.Sawn(thickness)
	if p.Planed {
		sawn = p.Thickness
	}
	tail := p.Length - job.Shop.Allowance.EndTrim - long - job.Shop.Kerf.Crosscut
	if tail < job.Shop.Keep.Length {
		tail = 0
	}
	return job, cutting.Plan{Cuts: []cutting.Cut{{Piece: "A", Copy: 1, Tail: tail, Sections: []cutting.Section{{Length: long, Slices: []cutting.Slice{{Thickness: sawn, Strips: []cutting.Ref{{Pattern: "one", Copy: 1, Strip: 1}}}}}}}}}
}
