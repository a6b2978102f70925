package suggest

import (
	"cmp"
	"context"
	"slices"
)

// A draft is a layout with its plan, found with little work before the search for the
// best begins, so that there is one to hand out whenever the work ends.
type draft struct {
	pick   pick
	layout Layout
}

// draftsMost is how many layouts are planned for drafts.
const draftsMost = 40

// drafts gives up to as many drafts as layouts are asked for. What plans fall short of
// on the way the search keeps in mind.
func (s *search) drafts(ctx context.Context) []draft {
	var out []draft
	before := len(s.priors)
	s.hasty = true
	last := pick{}
	for range draftsMost {
		if len(out) == s.ask.Layouts || s.stop.stopped() {
			break
		}
		p := s.next(last)
		if p.layout == nil {
			break
		}
		if l, ok, _ := s.planned(ctx, p); ok {
			out = append(out, draft{p, l})
			s.settled++
			s.priors = append(s.priors, s.tally(p.layout.counts(len(s.kinds))))
		}
	}
	s.hasty, s.priors = false, s.priors[:before]
	clear(s.open) // what was in vain was little work
	return out
}

// fill adds drafts to an answer that is not whole, as far as they differ from its
// layouts by enough, the best first.
func (s *search) fill(a *Answer, drafts []draft) {
	slices.SortStableFunc(drafts, func(x, y draft) int {
		f, g := x.pick.layout, y.pick.layout
		fLeast, _ := s.smallest(f)
		gLeast, _ := s.smallest(g)
		return cmp.Or(cmp.Compare(g.use, f.use), cmp.Compare(gLeast, fLeast), cmp.Compare(g.sum, f.sum))
	})
	for _, d := range drafts {
		counts := d.pick.layout.counts(len(s.kinds))
		if len(a.Layouts) < s.ask.Layouts && s.differs(counts) {
			d.layout.Proved = false
			a.Layouts = append(a.Layouts, d.layout)
			s.priors = append(s.priors, s.tally(counts))
		}
	}
}
