package result

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
)

// Mark returns the JSON of the mark-out of a job of a pattern that is saved by a stem.
func Mark(r movement.Physics, stem string, job work.Job) Object {
	p, layout := job.Pattern, job.Layout
	grows := func(at outline.Placed, season movement.Season) work.Estimate {
		return work.OutOfRound(r, job, p.Products[at.Product-1], at, season)
	}
	return Object{
		{"format", "oddments/mark 1"}, {"pattern", stem}, {"width_mm", job.Ground().Width()},
		{"placed", Each(layout.Placed, func(at outline.Placed) Object {
			return Object{{"product", at.Product}, {"copy", at.Copy}, {"shape", at.Shape}, {"along_mm", at.Along}, {"across_mm", at.Across},
				{"slide_mm", at.Slide}, {"binding_strip", Known(at.BindingStrip, at.BindingStrip > 0 && job.Board == nil)},
				{"out_of_round_mm", Object{{"dry", grows(at, movement.Dry)}, {"humid", grows(at, movement.Humid)}}}}
		})},
		{"not_placed", Each(layout.NotPlaced, func(n outline.NotPlaced) Object {
			return Object{{"product", n.Product}, {"copies", n.Copies}}
		})},
		{"left", Object{{"from_mm", layout.Left.From}, {"length_mm", layout.Left.Length}, {"width_mm", layout.Left.Width}}},
		{"own_lengths", Each(layout.OwnLengths, func(own outline.OwnLength) Object {
			return Object{{"strip", own.Strip}, {"start_mm", own.Start}, {"length_mm", own.Length}}
		})},
		{"board", BoardOf(job.Board)}, {"cuts", Cuts(job.Board)}, {"cells", Cells(job.Board)},
		{"pieces", Each(stripPieces(p, r.Shop().Allowance.Length), func(p stripPiece) Object {
			return Object{{"strip", p.strip}, {"piece", p.piece}, {"start_mm", p.Start}, {"length_mm", p.Length}}
		})},
	}
}

// A stripPiece is one of the pieces of a strip that is made of several.
type stripPiece struct {
	pattern.StripPiece
	strip, piece int // from 1
}

// stripPieces lists those of all strips, datum end first.
func stripPieces(p pattern.Pattern, allowance length.Length) (out []stripPiece) {
	for i, s := range p.Strips {
		for n, piece := range p.PiecesOf(s, allowance) {
			if s.Joints.Len() > 0 {
				out = append(out, stripPiece{piece, i + 1, n + 1})
			}
		}
	}
	return out
}
