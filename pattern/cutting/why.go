package cutting

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/tell"
)

// A Reason is what keeps timber from serving a job.
type Reason int

// The reasons.
const (
	Gives          Reason = iota // nothing does
	OtherTimber                  // no strip asks for it
	TooThin                      // for a slice, or as it is planed
	TooNarrow                    // for a strip; a ready strip: of another width
	TooShort                     // for any section
	OtherRings                   // than are asked for
	LiesInTheFault               // what is clear of faults is too small, the whole is not
)

// String returns the reason in one word.
func (r Reason) String() string {
	return tell.Word(r, "reason", "gives", "timber", "thickness", "width", "length", "rings", "fault")
}

// A Miss is what keeps one entry of the rack from serving, with how much is wanting: 0
// where no length says it.
type Miss struct {
	Reason Reason
	Short  length.Length
	// Allowance says that the entry would do if less were taken off its thickness: truing,
	// planing and flattening together take as much.
	Allowance bool
	Off       bool          // a ready strip's width is another by Short, either way
	Rings     pattern.Rings // that it shows, where these keep it from serving

	wanting int // how many things are, at once
}

// nearer returns the nearer of two misses: that with fewer things wanting, then with less.
func nearer(a, b Miss) Miss {
	if cmp.Or(cmp.Compare(b.wanting, a.wanting), cmp.Compare(b.Short, a.Short)) < 0 {
		return b
	}
	return a
}

// Why returns what keeps an entry of the rack from serving any strip of job, of all the
// ways to cut it the nearest miss.
func Why(job Job, e rack.Entry) Miss {
	none := Miss{Reason: OtherTimber, wanting: 10}
	clear, whole := none, none
	parts := []rack.Piece{e.Piece}
	if !e.Ready && len(e.Faults) > 0 {
		parts = nil
		for _, c := range e.Clear() {
			parts = append(parts, c.Piece)
		}
	}
	asked := false
	var needs []Strip
	for _, side := range job.Sides() {
		for _, c := range Choices(side) {
			needs = append(needs, slices.Concat(c.Ways...)...)
		}
	}
	for _, n := range needs {
		if n.Species != e.Species {
			continue
		}
		asked = true
		for _, p := range parts {
			clear = nearer(clear, missOf(job, p, e.Ready, n))
		}
		whole = nearer(whole, missOf(job, e.Piece, e.Ready, n))
	}
	if asked && clear.Reason != Gives && len(e.Faults) > 0 && (whole.Reason == Gives || len(parts) == 0) {
		return Miss{Reason: LiesInTheFault}
	}
	return clear
}

// missOf returns the nearest miss of one piece for one strip, sliced from either side.
func missOf(job Job, p rack.Piece, ready bool, n Strip) Miss {
	best := missesOf(job, p, ready, false, n)
	if !p.Planed && !ready {
		best = nearer(best, missesOf(job, p, ready, true, n))
	}
	return best
}

// missesOf lists what keeps a piece, sliced from its side or not, or a ready strip from
// giving one strip: of the things wanting the one that most of is.
func missesOf(job Job, p rack.Piece, ready, side bool, n Strip) Miss {
	sh := job.Shop
	across, through, thick, wide, long := p.Width, p.Thickness, n.Sawn, n.Across, p.Length-2*sh.Allowance.EndTrim
	rings := p.Rings
	switch {
	case ready:
		thick, wide, long = n.Glued, n.Width, p.Length
	case p.Planed:
		thick = n.Least
	default:
		across, through = across-sh.Allowance.Truing, through-sh.Allowance.Truing
	}
	if side {
		across, through = through, across
	}
	if !ready && side != (n.Make == pattern.MakeEdge) {
		rings = rings.Rolled()
	}
	var out []Miss
	if by := thick - through; by > 0 {
		off := sh.Allowance.Truing + sh.Allowance.Planing + sh.Allowance.Flattening
		out = append(out, Miss{Reason: TooThin, Short: by, Allowance: !ready && !p.Planed && by <= off})
	}
	if by := wide - across; by > 0 || ready && by != 0 {
		out = append(out, Miss{Reason: TooNarrow, Short: max(by, -by), Off: ready})
	}
	if by := n.Length - long; by > 0 {
		out = append(out, Miss{Reason: TooShort, Short: by})
	}
	if !RingsServe(rings, n.Rings) {
		out = append(out, Miss{Reason: OtherRings, Rings: p.Rings})
	}
	if len(out) == 0 {
		return Miss{}
	}
	most := slices.MaxFunc(out, func(a, b Miss) int { return cmp.Compare(a.Short, b.Short) })
	most.wanting = len(out)
	return most
}

// Words says a miss in words, lengths in u: 2 mm too thin.
func (m Miss) Words(u length.Unit) string {
	by := m.Short.With(u)
	switch m.Reason {
	case Gives:
		return "serves"
	case OtherTimber:
		return "no strip is of this timber"
	case TooThin:
		if m.Allowance {
			return by + " too thin; smaller allowances for truing, planing and flattening would do"
		}
		return by + " too thin"
	case TooNarrow:
		if m.Off {
			return "its width is " + by + " off"
		}
		return by + " too narrow"
	case TooShort:
		return by + " too short"
	case OtherRings:
		return fmt.Sprintf("other rings: recorded as %s", m.Rings)
	default:
		return "what is clear of its faults is too small"
	}
}
