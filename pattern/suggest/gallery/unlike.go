package gallery

import (
	"example.com/oddments/pattern/suggest/look"
)

// A rival is a panel that a layout must look different from, as it lies or mirrored.
type rival struct {
	ends  []int64  // right edges of its strips, in halves from its middle
	from  int64    // its left edge
	told  [][]bool // of each of its strips and each timber of the goods
	needs float64  // how much must differ at least, in halves of a nanometre
}

// rivals returns those of a panel, for layouts from least to most wide.
func (g *goods) rivals(strips []look.Strip, told func(a, b string) bool, least int64) []rival {
	var out []rival
	for _, lies := range [][]look.Strip{strips, look.Mirrored(strips)} {
		wide := int64(look.Width(lies))
		r := rival{from: -wide, needs: 2 * float64(min(wide, least)) * g.ask.ApartPct / 100}
		at := -wide
		for _, s := range lies {
			at += 2 * int64(s.Width)
			r.ends = append(r.ends, at)
			row := make([]bool, len(g.timbers))
			for i := range row {
				row[i] = told(s.Species, g.timbers[i].key)
			}
			r.told = append(r.told, row)
		}
		out = append(out, r)
	}
	return out
}

// differs returns how much of a strip of a timber may differ from the rival at most, where it
// lies from a to b in halves from the middle, give or take slack.
func (r *rival) differs(timber int, a, b, slack int64) int64 {
	most, from := int64(0), r.from
	for i, end := range r.ends {
		if r.told[i][timber] {
			if wide := min(b+slack, end) - max(a-slack, from); wide > 0 {
				most += wide
			}
		}
		if from = end; from > b+slack {
			break
		}
	}
	return min(most, b-a)
}
