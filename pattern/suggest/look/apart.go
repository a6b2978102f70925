package look

import "example.com/oddments/pattern/length"

// Apart returns how different two panels look, in percent: both lie with their middles
// together, the narrower one's width counts, and it is the share of that on which the two
// timbers are told apart; the smaller of that with one of them mirrored or not.
func Apart(a, b []Strip, told func(a, b string) bool) float64 {
	return min(along(a, b, told), along(a, Mirrored(b), told))
}

// Mirrored returns strips from the other edge.
func Mirrored(strips []Strip) []Strip {
	out := make([]Strip, len(strips))
	for i, s := range strips {
		out[len(strips)-1-i] = s
	}
	return out
}

// Width returns how wide strips are together.
func Width(strips []Strip) length.Length {
	var sum length.Length
	for _, s := range strips {
		sum += s.Width
	}
	return sum
}

// along is Apart as the panels lie. It counts in halves of a nanometre from the middle, so
// that nothing is rounded.
func along(a, b []Strip, told func(a, b string) bool) float64 {
	wa, wb := Width(a), Width(b)
	narrow := min(wa, wb)
	if narrow == 0 {
		return 0
	}
	var differs length.Length
	atA, atB := -wa, -wb // left edges of the strips looked at
	for i, j := 0, 0; i < len(a) && j < len(b); {
		endA, endB := atA+2*a[i].Width, atB+2*b[j].Width
		from, to := max(atA, atB), min(endA, endB)
		if to > from && told(a[i].Species, b[j].Species) {
			differs += to - from
		}
		if endA <= endB {
			atA, i = endA, i+1
		}
		if endB <= endA {
			atB, j = endB, j+1
		}
	}
	return 100 * float64(differs) / float64(2*narrow)
}
