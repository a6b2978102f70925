package cutting

import (
	"cmp"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// A Strip is one strip that a job asks for, with what it takes from the timber.
type Strip struct {
	Ref
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
		Ref: ref, Species: s.Species, Make: p.Panel.Make, Width: s.Width, Rings: s.Rings,
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

// ringsWithin is how far, in degrees, rings may lie from those asked for.
const ringsWithin = 15

// shows reports whether timber recorded as showing rings may serve where asked is
// asked for.
func shows(rings, asked pattern.Rings) bool {
	if !asked.Known() {
		return true
	}
	if !rings.Known() {
		return false
	}
	apart := rings.Degrees() - asked.Degrees()
	return -ringsWithin <= apart && apart <= ringsWithin
}

// A kind is a set of strips that are alike for the saw and for ready strips.
type kind struct {
	Strip       // what they share; its Ref is the first one's
	needs []int // places in the list of needs, ascending
}

// sortKinds gathers alike strips, the longest first.
func sortKinds(needs []Strip, places []int) []kind {
	type key struct {
		make                 pattern.Make
		width, glued, length length.Length
		rings                pattern.Rings
	}
	at := map[key]int{}
	var kinds []kind
	for _, place := range places {
		n := needs[place]
		k := key{n.Make, n.Width, n.Glued, n.Length, n.Rings}
		i, ok := at[k]
		if !ok {
			i = len(kinds)
			at[k] = i
			kinds = append(kinds, kind{Strip: n})
		}
		kinds[i].needs = append(kinds[i].needs, place)
	}
	slices.SortStableFunc(kinds, func(a, b kind) int {
		return cmp.Or(cmp.Compare(b.Length, a.Length), cmp.Compare(b.Across, a.Across), cmp.Compare(b.Sawn, a.Sawn))
	})
	return kinds
}
