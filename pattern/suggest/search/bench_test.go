package search

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/species"
)

// pileOf returns strips of so many kinds, with a fixed seed.
func pileOf(seed uint64, kinds, strips int, width length.Length) suggest.Request {
	rng := rand.New(rand.NewPCG(seed, 3))
	all := species.Builtin().All()
	a := suggest.New(width, 22*mm, 450*mm)
	seen := map[string]bool{}
	for len(a.Have) < kinds {
		w := length.Length(12+2*rng.IntN(15)) * mm
		s := all[rng.IntN(len(all))]
		if !s.Moves() {
			continue
		}
		h := suggest.ReadyStrips{Species: s.Key, Width: w, Rings: []pattern.Rings{pattern.RingsFlat(), pattern.RingsQuarter(), {}}[rng.IntN(3)],
			Count: 1, UseFirst: rng.IntN(4) == 0, Source: fmt.Sprint(len(a.Have) + 1)}
		if key := fmt.Sprint(h.Species, h.Width, h.Rings); !seen[key] {
			seen[key] = true
			a.Have = append(a.Have, h)
		}
	}
	for range strips - kinds {
		a.Have[rng.IntN(kinds)].Count++
	}
	return a
}

func benchmark(b *testing.B, kinds, strips int, aim suggest.Aim) {
	r := physics()
	for _, seed := range []uint64{0, 1, 2, 10, 37, 45} { // the last three take long
		b.Run(fmt.Sprint("pile ", seed+1), func(b *testing.B) {
			a := pileOf(seed, kinds, strips, 300*mm)
			a.Aim = aim
			for b.Loop() {
				answer, err := Solve(b.Context(), r, a, suggest.Options{})
				if err != nil {
					b.Fatal(err)
				}
				proved := 0
				for _, l := range answer.Layouts {
					if l.Proved {
						proved++
					}
				}
				b.ReportMetric(float64(len(answer.Layouts)), "layouts")
				b.ReportMetric(float64(proved), "proved")
			}
		})
	}
}

// Budget: 40 strips of 10 kinds under 0.2 s.
func Benchmark40Strips(b *testing.B)      { benchmark(b, 10, 40, suggest.Contrast) }
func Benchmark40StripsUseUp(b *testing.B) { benchmark(b, 10, 40, suggest.UseUp) }

// Budget: 60 strips of 24 kinds, five layouts, under 1 s, 4 s at worst.
func Benchmark60Strips(b *testing.B)      { benchmark(b, 24, 60, suggest.Contrast) }
func Benchmark60StripsUseUp(b *testing.B) { benchmark(b, 24, 60, suggest.UseUp) }
