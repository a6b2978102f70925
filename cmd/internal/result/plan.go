package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
)

// Plan returns the JSON of a plan that took so many seconds, with its steps; volumes in cm3.
func Plan(p cutting.Plan, seconds float64, steps []string) Object {
	return Object{
		{"format", "oddments/plan 1"}, {"status", p.Status}, {"short", p.Short}, {"drawn_cm3", p.DrawnCM3}, {"gone_cm3", p.GoneCM3},
		{"lower_bound_cm3", p.LowerBoundCM3}, {"seconds", seconds},
		{"missing", Each(p.Missing, func(m cutting.Missing) Object {
			return append(ref(m.Ref), Member{"species", m.Species})
		})},
		{"ready", Each(p.Ready, func(r cutting.Ready) Object {
			return pieced(Object{{"id", r.ID}, {"copy", r.Copy}, {"pattern", r.For.Pattern}, {"pattern_copy", r.For.Copy}, {"strip", r.For.Strip}}, r.For)
		})},
		{"cuts", Each(p.Cuts, func(c cutting.Cut) Object {
			return Object{{"piece", c.Piece}, {"copy", c.Copy}, {"tail_mm", c.Tail}, {"sections", Each(c.Sections, section)}}
		})},
		{"steps", append([]string{}, steps...)},
		{"joints", Each(inPieces(p), func(s cutting.Pieced) Object {
			return append(ref(s.Ref), Member{"pieces", Each(numbered(s), func(p numberedPiece) Object {
				return Object{{"piece", p.piece}, {"start_mm", p.Start}, {"length_mm", p.Length}}
			})})
		})},
		{"fill", Each(p.Fills, func(f cutting.Fill) Object {
			return Object{{"piece", f.Piece}, {"copy", f.Copy}, {"section", f.Section}, {"slice", f.Slice},
				{"widths_mm", millimetres(f.Widths)}, {"instead_of_rip", f.InsteadOfRip}, {"cm3", f.CM3}}
		})},
	}
}

func millimetres(all []length.Length) []float64 {
	out := make([]float64, len(all))
	for i, l := range all {
		out[i] = l.MM()
	}
	return out
}

func section(s cutting.Section) Object {
	return Object{{"length_mm", s.Length}, {"side_sliced", s.Side}, {"slab_left_mm", s.SlabLeft},
		{"slices", Each(s.Slices, func(sl cutting.Slice) Object {
			return Object{{"thickness_mm", sl.Thickness}, {"rip_left_mm", sl.RipLeft}, {"strips", Each(sl.Strips, ref)}}
		})}}
}

func ref(r cutting.Ref) Object {
	return pieced(Object{{"pattern", r.Pattern}, {"copy", r.Copy}, {"strip", r.Strip}}, r)
}

// pieced adds which piece it is, where the strip is made of several.
func pieced(o Object, r cutting.Ref) Object {
	if r.Piece > 0 {
		return append(o, Member{"piece", r.Piece})
	}
	return o
}

// inPieces returns the strips of a plan that are made of several pieces.
func inPieces(p cutting.Plan) (out []cutting.Pieced) {
	for _, s := range p.Pieced {
		if len(s.Pieces) > 1 {
			out = append(out, s)
		}
	}
	return out
}

// A numberedPiece is a piece with its number, datum end first.
type numberedPiece struct {
	pattern.StripPiece
	piece int
}

func numbered(s cutting.Pieced) (out []numberedPiece) {
	for i, p := range s.Pieces {
		out = append(out, numberedPiece{p, i + 1})
	}
	return out
}
