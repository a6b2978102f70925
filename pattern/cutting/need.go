package cutting

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// OfCopy names the copy that r is a strip of.
func (r Ref) OfCopy() Ref { return Ref{Pattern: r.Pattern, Copy: r.Copy} }

// A Strip is one strip that a job asks for, with what it takes from the timber.
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

// Needs returns every strip that a job asks for: pattern by pattern, copy by copy,
// left to right.
func Needs(job Job) []Strip {
	var needs []Strip
	for _, d := range job.Patterns {
		for c := range d.Copies {
			for i, s := range d.Pattern.Strips {
				needs = append(needs, need(job.Shop, d.Pattern, s, Ref{Pattern: d.Stem, Copy: c + 1, Strip: i + 1}))
			}
		}
	}
	return needs
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

// NeedsByRef returns every strip of job by what it is for.
func NeedsByRef(job Job) map[Ref]Strip {
	asked := map[Ref]Strip{}
	for _, n := range Needs(job) {
		asked[n.Ref] = n
	}
	return asked
}

// ReadyByID returns the ready strips of a rack by their ids; the first of an id counts.
func ReadyByID(r rack.Rack) map[string]rack.Strip {
	by := make(map[string]rack.Strip, len(r.Strips))
	for _, s := range slices.Backward(r.Strips) {
		by[s.ID] = s
	}
	return by
}
