package cutting

import (
	"fmt"
	"iter"
	"strings"

	"example.com/oddments/pattern/tell"
)

// Served goes through the strips that a plan serves, ready ones first, each with the id
// of the ready strip or the cut piece that it comes from.
func (p Plan) Served() iter.Seq2[Ref, string] {
	return func(yield func(Ref, string) bool) {
		for _, r := range p.Ready {
			if !yield(r.For, r.ID) {
				return
			}
		}
		for _, c := range p.Cuts {
			for ref := range c.Strips() {
				if !yield(ref, c.Piece) {
					return
				}
			}
		}
	}
}

// Strips goes through the strips that come out of a cut, in its order.
func (c Cut) Strips() iter.Seq[Ref] {
	return func(yield func(Ref) bool) {
		for _, s := range c.Sections {
			for _, sl := range s.Slices {
				for _, ref := range sl.Strips {
					if !yield(ref) {
						return
					}
				}
			}
		}
	}
}

// ShortText says which timbers run short, and by how many strips: 3 of elm, 1 of maple.
func (p Plan) ShortText(name func(species string) string) string {
	missing := p.MissingByTimber()
	var texts []string
	for key, refs := range missing.All() {
		texts = append(texts, fmt.Sprintf("%d of %s", len(refs), name(key)))
	}
	return strings.Join(texts, ", ")
}

// MissingByTimber puts the strips that are short together by their timber, in the plan's order.
func (p Plan) MissingByTimber() (of tell.Groups[string, Ref]) {
	for _, m := range p.Missing {
		of.Add(m.Species, m.Ref)
	}
	return of
}

// ReadyTaken puts the ready strips that a plan takes together by their entry, in its
// order.
func (p Plan) ReadyTaken() (of tell.Groups[string, Ref]) {
	for _, r := range p.Ready {
		of.Add(r.ID, r.For)
	}
	return of
}
