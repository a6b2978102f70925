package cutting

import (
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// OfStrip names the strip that r is, or is a piece of.
func (r Ref) OfStrip() Ref {
	r.Piece = 0
	return r
}

// Name returns what is chalked on the strip, or on the piece of it: 4, or 4a.
func (r Ref) Name() string { return pattern.PieceName(r.Strip, r.Piece) }

// OfCopy names the copy that r is a strip of.
func (r Ref) OfCopy() Ref { return Ref{Pattern: r.Pattern, Copy: r.Copy} }

// A Strip is one strip that a job asks for, or one piece of it, with what it takes from the
// timber.
type Strip struct {
	Ref
	Asked   pattern.Strip // as its pattern has it
	Species string
	Make    pattern.Make
	Width   length.Length // finished
	Glued   length.Length // panel thickness before flattening
	Length  length.Length // at glue-up
	Rings   pattern.Rings // asked for on its visible face
	Across  length.Length // A: what it takes of a slice's width
	Sawn    length.Length // B: thickness of its slice, from a piece that is not planed
	Least   length.Length // the thinnest planed piece that yields it
}

// A Choice is one strip that a job asks for, with the ways to make it of pieces, the first
// of them whole or as the pattern has it. A plan serves all pieces of one way, or the
// strip is short.
type Choice struct {
	Ref
	Species string
	Ways    [][]Strip // the pieces of each way; those of a strip in one piece are named without a Piece
	Laid    []joints.Way
}

// Joints returns how many joints a way has.
func (c Choice) Joints(way int) int { return len(c.Ways[way]) - 1 }

// Choices returns every strip that a job asks for: pattern by pattern, copy by copy, left to
// right.
func Choices(job Job) []Choice {
	var out []Choice
	for _, d := range job.Patterns {
		ways := d.ways(job.Shop)
		for c := range d.Copies {
			for i, s := range d.Pattern.Strips {
				choice := Choice{Ref: Ref{Pattern: d.Stem, Copy: c + 1, Strip: i + 1}, Species: s.Species, Laid: ways[i]}
				for _, way := range ways[i] {
					choice.Ways = append(choice.Ways, piecesOf(job.Shop, d.Pattern, s, choice.Ref, way))
				}
				out = append(out, choice)
			}
		}
	}
	return out
}

// ways returns the ways of each strip.
func (d Demand) ways(sh shop.Shop) [][]joints.Way {
	if len(d.Ways) == len(d.Pattern.Strips) {
		return d.Ways
	}
	ways := make([][]joints.Way, len(d.Pattern.Strips))
	for i, s := range d.Pattern.Strips {
		ways[i] = []joints.Way{d.Pattern.PiecesOf(s, sh.Allowance.Length)}
	}
	return ways
}

// piecesOf returns what the pieces of a way take from the timber.
func piecesOf(sh shop.Shop, p pattern.Pattern, s pattern.Strip, ref Ref, way joints.Way) []Strip {
	pieces := make([]Strip, len(way))
	for n, piece := range way {
		if len(way) > 1 {
			ref.Piece = n + 1
		}
		pieces[n] = need(sh, p, s, ref)
		pieces[n].Length = piece.Length
	}
	return pieces
}

// Asked counts the strips that a job asks for.
func Asked(job Job) (n int) {
	for _, d := range job.Patterns {
		n += d.Copies * len(d.Pattern.Strips)
	}
	return n
}

// Needs returns every strip that a job asks for, whole or in the pieces that the pattern
// has: pattern by pattern, copy by copy, left to right.
func Needs(job Job) []Strip {
	var needs []Strip
	for _, c := range Choices(job) {
		needs = append(needs, c.Ways[0]...)
	}
	return needs
}

// NeedsOf returns every strip, or piece, of a job as a plan of it makes them, by what it is
// for; a strip that is short stands there as it is whole.
func NeedsOf(job Job, plan Plan) map[Ref]Strip {
	laid := make(map[Ref]joints.Way, len(plan.Pieced))
	for _, p := range plan.Pieced {
		laid[p.Ref] = p.Pieces
	}
	var asked map[Ref]Strip
	for _, side := range job.Sides() {
		asked = map[Ref]Strip{}
		all := true
		for _, c := range Choices(side) {
			way := 0
			if pieces, made := laid[c.Ref]; made {
				way = slices.IndexFunc(c.Laid, func(w joints.Way) bool { return slices.Equal(w, pieces) })
				all = all && way >= 0
			}
			for _, n := range c.Ways[max(0, way)] {
				asked[n.Ref] = n
			}
		}
		if all {
			break // the plan is of this side
		}
	}
	return asked
}

// Joined returns the job with its strips to be parted as how says; bricks says that the
// other bricks will do as well.
func (job Job) Joined(how joints.How, bricks bool) (Job, error) {
	patterns := make([]Demand, len(job.Patterns))
	for i, d := range job.Patterns {
		var err error
		if d.Ways, err = joints.Of(d.Pattern, job.Shop, how); err != nil {
			return job, fmt.Errorf("%s: %w", d.Stem, err)
		}
		if bricks {
			other := joints.Even + joints.Odd - how
			if d.Other, err = joints.Of(d.Pattern, job.Shop, other); err != nil {
				return job, fmt.Errorf("%s: %w", d.Stem, err)
			}
		}
		patterns[i] = d
	}
	job.Patterns = patterns
	return job, nil
}

// Sides returns the job, or where it has other ways the one with its ways alone and the one
// with the other ones.
func (job Job) Sides() []Job {
	one, other := job, job
	one.Patterns, other.Patterns = slices.Clone(job.Patterns), slices.Clone(job.Patterns)
	sides := []Job{job}
	for i, d := range job.Patterns {
		if d.Other != nil {
			other.Patterns[i].Ways = d.Other
			sides = []Job{one, other}
		}
		one.Patterns[i].Other, other.Patterns[i].Other = nil, nil
	}
	return sides
}

func need(sh shop.Shop, p pattern.Pattern, s pattern.Strip, ref Ref) Strip {
	n := Strip{
		Ref: ref, Asked: s, Species: s.Species, Make: p.Panel.Make, Width: s.Width, Rings: s.Rings,
		Glued:  sh.Glued(p.Panel.Thickness),
		Length: p.StripLength(s, sh.Allowance.Length),
	}
	if n.Make == pattern.MakeEdge {
		n.Across, n.Sawn, n.Least = n.Glued, s.Width+sh.Allowance.Planing, s.Width
	} else {
		n.Across, n.Sawn, n.Least = s.Width+sh.Allowance.Jointing, sh.Sawn(p.Panel.Thickness), n.Glued
	}
	return n
}

// ReadyByID returns the ready strips of a rack by their ids; the first of an id counts.
func ReadyByID(r rack.Rack) map[string]rack.Strip {
	by := make(map[string]rack.Strip, len(r.Strips))
	for _, s := range slices.Backward(r.Strips) {
		by[s.ID] = s
	}
	return by
}

// KeepWhole leaves a strip in one piece whole where what it is cut from is long enough for
// that: no pattern changes and no stop is set for nothing.
func (p *Plan) KeepWhole(choices []Choice, r rack.Rack) {
	if len(p.Pieced) == 0 {
		return
	}
	from, whole := map[Ref]length.Length{}, map[Ref]length.Length{}
	lying := ReadyByID(r)
	for _, one := range p.Ready {
		from[one.For] = lying[one.ID].Length
	}
	for _, c := range p.Cuts {
		for _, section := range c.Sections {
			for _, sl := range section.Slices {
				for _, ref := range sl.Strips {
					from[ref] = section.Length
				}
			}
		}
	}
	for _, c := range choices {
		if len(c.Ways[0]) == 1 {
			whole[c.Ref] = c.Ways[0][0].Length
		}
	}
	p.Pieced = slices.DeleteFunc(p.Pieced, func(s Pieced) bool {
		return len(s.Pieces) == 1 && whole[s.Ref] > 0 && whole[s.Ref] <= from[s.Ref]
	})
}
