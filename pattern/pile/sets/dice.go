package sets

import "math"

// Dice throw the same numbers for the same seed (splitmix64, public domain).
type dice uint64

func (d *dice) throw() uint64 {
	*d += 0x9e3779b97f4a7c15
	z := uint64(*d)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below returns a number from 0 below n.
func (d *dice) below(n int) int { return int(d.throw() % uint64(max(1, n))) }

// part returns a number from 0 below 1.
func (d *dice) part() float64 { return float64(d.throw()>>11) / (1 << 53) }

// about returns a factor from 1/by to by, in whole millionths: processors differ in the last
// digits of powers, and the same throws are to give the same factors on each.
func (d *dice) about(by float64) float64 {
	const parts = 1e6
	return math.Round(parts*math.Pow(by, 2*d.part()-1)) / parts
}

// pick returns the place of one of weights, the heavier the more often; below 0 where none
// weighs anything.
func (d *dice) pick(weights []float64) int {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	at := d.part() * sum
	last := -1
	for i, w := range weights {
		if w > 0 {
			last = i
			if at -= w; at < 0 {
				return i
			}
		}
	}
	return last
}
