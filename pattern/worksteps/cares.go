package worksteps

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

// A Care is what holds at a machine, whatever is fed to it, or what a piece's own note calls
// for. Unlike a Note it belongs to no section and to no figure.
type Care struct {
	Rule    string // stable: scripts go by it
	At      string // the work at which it is to be known, as a heading: first cut, resawing
	Level   pattern.Level
	Message string
}

// String returns the care behind the work that it is of.
func (c Care) String() string { return c.At + ": " + c.Message }

// Cares lists what to know at the machines that the cuts of a plan need, in the order of
// the work: metal and grit, dust, eyes and ears, guards, offcuts (the HSE's woodworking
// sheets and the usual manuals). Of a plan without cuts there is nothing to know.
func Cares(job cutting.Job, plan cutting.Plan) []Care {
	details := Details(job, plan)
	if len(details) == 0 {
		return nil
	}
	const first, every = "first cut", "every machine"
	all := reclaimed(details)
	add := func(holds bool, rule, at, message string) {
		if holds {
			all = append(all, Care{Rule: rule, At: at, Message: message})
		}
	}
	var dusty []string // the machines that the cuts need and that make dust
	dust := func(machine bool, at string) {
		if machine {
			dusty = append(dusty, at)
		}
	}
	has := func(done func(Detail) bool) bool { return slices.ContainsFunc(details, done) }
	add(true, "metal", first, "look for nails, staples and screws before any blade meets the wood")
	add(true, "grit", first, "brush grit and dirt off")
	add(true, "eyes_ears", every, "eye and ear protection")
	add(true, "guards", every, "guards stay in place")
	add(true, "dust_listed", every, work.DustListed)
	dust(job.Shop.Allowance.Truing > 0 && has(func(d Detail) bool { return !d.Piece.Planed }), "truing")
	dust(has(func(d Detail) bool { return len(d.Bandsaw) > 0 }), "resawing")
	dust(has(planes), "planing")
	dust(has(func(d Detail) bool { return len(d.Fence) > 0 }), "ripping")
	add(len(dusty) > 0, "dust", tell.List(dusty, "and"), "extraction and a fitted mask: all of it makes dust")
	add(true, "stop_free", "crosscutting", "keep the offcut free at a stop, never held between blade and stop")
	return all
}

// planes reports whether a slice of d goes over the thicknesser.
func planes(d Detail) bool {
	return slices.ContainsFunc(d.Sections, func(s SectionDetail) bool {
		return slices.ContainsFunc(s.Slices, func(sl SliceDetail) bool { return sl.PlanesTo < sl.Comes })
	})
}

// secondHand lists words of a note that tell of timber which was something before.
func secondHand() []string {
	return []string{"fence", "post", "pallet", "reclaimed", "recycled", "salvaged", "salvage", "old", "beam", "joist",
		"floorboard", "sleeper", "barn", "demolition", "nail", "grit"}
}

// reclaimed tells of the pieces that are cut and whose notes say that they were something
// before, each once.
func reclaimed(details []Detail) []Care {
	var out []Care
	for i, d := range details {
		p := d.Whole
		if !secondHandBy(p.Note) || slices.ContainsFunc(details[:i], func(o Detail) bool { return o.Whole.ID == p.ID }) {
			continue
		}
		out = append(out, Care{"reclaimed", p.ID, pattern.TakeCare,
			fmt.Sprintf("its note says %q: pull every nail, and go over it with a metal detector", p.Note)})
	}
	return out
}

// secondHandBy reports whether a note has such a word, of one or of several.
func secondHandBy(note string) bool {
	words := strings.FieldsFunc(strings.ToLower(note), func(r rune) bool { return !unicode.IsLetter(r) })
	return slices.ContainsFunc(words, func(w string) bool {
		return slices.Contains(secondHand(), w) || slices.Contains(secondHand(), strings.TrimSuffix(w, "s"))
	})
}
