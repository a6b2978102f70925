// Package joints says in which ways a strip may be laid from several pieces, end to end and
// dry, so that all joints lie in the waste between what is cut from the panel: a pile of
// leftovers is mostly short ends.
//
// Everything is in whole nanometres from the datum end.
package joints

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/tell"
)

// A How says where strips may be parted. The zero value is AsTheyAre.
type How int

// The rules for parting strips.
const (
	AsTheyAre How = iota // the pieces that the pattern has
	Ends                 // short ends outside: in one piece, whole or as long as its products need
	Even                 // strip i in gap z only where i + z is even: bricks, so that neighbours never part at one place
	Odd                  // the other bricks
	Anywhere             // in any gap
)

// String returns the rule in few words.
func (h How) String() string {
	return tell.Word(h, "how", "as they are", "short ends", "even bricks", "odd bricks", "anywhere")
}

// lets reports whether strip i, from 1, may be parted in gap z.
func (h How) lets(i, z int) bool {
	switch h {
	case Even, Odd:
		return (i+z)%2 == int(h-Even)
	case Anywhere:
		return true
	case AsTheyAre, Ends:
		return false
	default:
		panic(fmt.Sprintf("joints: %v", h))
	}
}

// A Way is the pieces of one strip, datum end first; a whole strip is one piece.
type Way []pattern.StripPiece

// mostPartial bounds the ways that are looked at from one stretch to the next: with very
// many stretches those of most pieces are left aside.
const mostPartial = 2_000

// Of returns the ways of each strip of p, the first of them whole, or as the pattern has it
// where how is AsTheyAre. A strip that no product touches has only its whole; so has each
// strip of a panel whose products stand in staggered rows, which need straight ends, and of
// one that is cut into bars: what lies between its products is no waste of the panel's. Of
// ways with pieces of the same lengths one is listed.
func Of(p pattern.Pattern, sh shop.Shop, how How) ([][]Way, error) {
	ways := make([][]Way, len(p.Strips))
	whole := p
	whole.Strips = slices.Clone(p.Strips)
	for i, s := range p.Strips {
		if how != AsTheyAre {
			whole.Strips[i].Joints, s.Joints = "", ""
		}
		ways[i] = []Way{p.PiecesOf(s, sh.Allowance.Length)}
	}
	if how == AsTheyAre || len(p.Products) == 0 || len(p.Seconds) > 0 {
		return ways, nil
	}
	layout, err := outline.Lay(whole, sh.Allowance.Length, p.Products, p.Avoids, sh.Cut)
	if err != nil {
		return nil, err
	}
	if slices.ContainsFunc(layout.Bands, func(b outline.Band) bool { return b.Staggered }) {
		return ways, nil
	}
	for all := layout.Stretches; len(all) > 0; {
		n := 1
		for n < len(all) && all[n].Strip == all[0].Strip {
			n++
		}
		i := all[0].Strip
		whole := ways[i-1][0]
		for _, way := range parted(all[:n], sh.Cut, func(z int) bool { return how.lets(i, z) }) {
			if len(way) > 1 || way[0].Length < whole[0].Length { // in one piece it is to be shorter
				ways[i-1] = append(ways[i-1], way)
			}
		}
		ways[i-1] = distinct(ways[i-1], Way.Lengths)
		all = all[n:]
	}
	return ways, nil
}

// parted returns the ways to part a strip with such stretches, in one piece among them,
// those of fewest pieces first.
func parted(stretches []outline.Stretch, cut shop.Cut, may func(gap int) bool) []Way {
	ends := make([][]Way, len(stretches)+1) // of so many stretches served
	ends[0] = []Way{nil}
	for n := range stretches {
		ways := distinct(ends[n], Way.reach)
		for _, way := range ways[:min(len(ways), mostPartial)] {
			for last := n; last < len(stretches); last++ {
				if last+1 < len(stretches) && !may(stretches[last].Gap) {
					continue
				}
				if piece, ok := pieceFor(stretches[n].From, stretches[last].To, way, cut); ok {
					ends[last+1] = append(ends[last+1], append(slices.Clone(way), piece))
				}
			}
		}
	}
	return ends[len(stretches)]
}

// pieceFor returns the piece that serves a run of stretches behind the pieces before. It
// comes in whole stops; what it is longer than the run goes towards the datum end as far as
// there is room, and then beyond. It is none where it would begin behind the run's start.
func pieceFor(from, to length.Length, before Way, cut shop.Cut) (pattern.StripPiece, bool) {
	long := max(to-from, cut.Shortest)
	if over := long % max(cut.Stop, 1); over > 0 {
		long += cut.Stop - over
	}
	room := length.Length(0)
	if n := len(before); n > 0 {
		room = before[n-1].End()
	}
	start := max(room, to-long)
	return pattern.StripPiece{Start: start, Length: long}, start <= from && start <= pattern.MaxStart+room
}

// distinct sorts ways by their number of pieces, and leaves out those of which by says the
// same as of one before.
func distinct(ways []Way, by func(Way) []length.Length) []Way {
	slices.SortStableFunc(ways, func(a, b Way) int { return cmp.Compare(len(a), len(b)) })
	seen := map[string]bool{}
	var out []Way
	for _, way := range ways {
		key := fmt.Sprint(by(way))
		if !seen[key] {
			seen[key] = true
			out = append(out, way)
		}
	}
	return out
}

// Lengths returns the lengths of the pieces, the shortest first.
func (w Way) Lengths() []length.Length {
	var out []length.Length
	for _, p := range w {
		out = append(out, p.Length)
	}
	slices.Sort(out)
	return out
}

// reach returns how far the pieces reach, and their lengths.
func (w Way) reach() []length.Length {
	if len(w) == 0 {
		return nil
	}
	return append(w.Lengths(), w[len(w)-1].End())
}

// Laid returns s laid from the pieces of a way.
func (w Way) Laid(s pattern.Strip) pattern.Strip {
	var list []pattern.Joint
	for i := range w[1:] {
		list = append(list, pattern.Joint{From: w[i].End(), To: w[i+1].Start})
	}
	s.Start, s.Length, s.Joints = w[0].Start, w[len(w)-1].End()-w[0].Start, pattern.JointsOf(list...)
	return s
}

// Text says where the pieces of strip n lie: 4a from 0, 290 long; 4b from 311, 309 long.
func (w Way) Text(n int, u length.Unit) string {
	texts := make([]string, len(w))
	for i, p := range w {
		piece := i + 1
		if len(w) == 1 {
			piece = 0
		}
		texts[i] = fmt.Sprintf("%s from %s, %s long", pattern.PieceName(n, piece), p.Start.Format(u), p.Length.With(u))
	}
	return strings.Join(texts, "; ")
}
