package reading

import (
	"cmp"
	"math"
	"slices"

	"example.com/oddments/pattern/photo"
)

// What boxes must have, and of how large ones not every pixel is read.
const (
	leastSide   = 8
	leastPixels = 400
	mostPixels  = 65_536
	leastLeft   = 200 // of paper and grey card, pixels that can be read
)

// A sample is a pixel that can be read.
type sample struct {
	value photo.Triple // what is averaged; XYZ at first
	key   float64      // what is sorted by: Y
	x, y  float64      // where the pixel's middle lies
}

// samples are the pixels of a box.
type samples struct {
	list                 []sample // without what is out
	all, opaque, clipped int
	coded                photo.Triple // sum over the list
}

// out returns the share of pixels that are out.
func (s samples) out() float64 { return 1 - float64(len(s.list))/float64(s.all) }

// pixels returns the pixels of a box that the maker set.
func (r *Reader) pixels(b Box, name string) (samples, error) {
	const remedy = "set the box larger, whole inside the photo"
	switch {
	case b.W < leastSide || b.H < leastSide || b.W*b.H < leastPixels:
		return samples{}, refuse(name, remedy, "%d x %d pixels are too few: at least %d each way and %d in all", b.W, b.H, leastSide, leastPixels)
	case !r.holds(b):
		return samples{}, refuse(name, remedy, "the box %v lies outside the photo of %d x %d", b, r.photo.Width, r.photo.Height)
	}
	return r.sampled(b, stride(b)), nil
}

// holds reports whether the photo has all of the box.
func (r *Reader) holds(b Box) bool {
	return b.X >= 0 && b.Y >= 0 && b.X <= r.photo.Width-b.W && b.Y <= r.photo.Height-b.H
}

// stride returns of how many rows and columns one counts.
func stride(b Box) int {
	return max(1, int(math.Ceil(math.Sqrt(float64(b.W)*float64(b.H)/mostPixels))))
}

func (r *Reader) sampled(b Box, step int) samples {
	var s samples
	for y := b.Y; y < b.Y+b.H; y += step {
		for x := b.X; x < b.X+b.W; x += step {
			p := r.photo.At(x, y)
			s.all++
			if p.Opaque {
				s.opaque++
				if p.Clipped() {
					s.clipped++
				}
			}
			if p.Out() {
				continue
			}
			for i, c := range p.Coded {
				s.coded[i] += c
			}
			xyz := r.photo.XYZ(p.Coded)
			s.list = append(s.list, sample{value: xyz, key: xyz[1], x: float64(x) + 0.5, y: float64(y) + 0.5})
		}
	}
	return s
}

// trimmed sorts samples and returns them without the lightest and the darkest twentieth.
func trimmed(list []sample) []sample {
	const part = 20
	slices.SortFunc(list, func(a, b sample) int { return cmp.Compare(a.key, b.key) })
	cut := len(list) / part
	return list[cut : len(list)-cut]
}

// mean returns the mean value of samples, zero of none.
func mean(list []sample) photo.Triple {
	var sum photo.Triple
	for _, s := range list {
		for i, v := range s.value {
			sum[i] += v
		}
	}
	n := float64(max(1, len(list)))
	return photo.Triple{sum[0] / n, sum[1] / n, sum[2] / n}
}
