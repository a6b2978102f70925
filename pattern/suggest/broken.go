package suggest

import (
	"fmt"

	"example.com/oddments/pattern/length"
)

// A Claim is a kind of thing that an answer claims.
type Claim int

// The claims of an answer and of its layouts.
const (
	ClaimStatus    Claim = iota // the status, and how many layouts there are
	ClaimStrips                 // how many strips a layout has
	ClaimWidth                  // how wide it is
	ClaimTimber                 // that its strips can be had
	ClaimLevel                  // of its glue lines
	ClaimContrast               // of its neighbours
	ClaimTwins                  // that no timber lies beside itself
	ClaimSymmetric              // that it is its own mirror image
	ClaimPinned                 // that pinned strips are in their places
	ClaimUnlike                 // that it differs enough from others
	ClaimFirst                  // its use-first width
	ClaimPlan                   // its plan
	ClaimOrder                  // that it is no better than the one before it
	ClaimProof                  // that it is proved
	ClaimBound                  // the bound
	ClaimColour                 // how far a pattern made again is from the old one
)

// String returns the claim in words.
func (c Claim) String() string {
	words := [...]string{"status", "number of strips", "width", "timber", "level of glue lines", "contrast", "no timber beside itself",
		"mirror image", "pinned strips", "difference from other layouts", "use-first width", "plan", "order", "proof", "bound", "colour difference"}
	if c < 0 || int(c) >= len(words) {
		return fmt.Sprintf("claim(%d)", int(c))
	}
	return words[c]
}

// A Broken claim is one that was found to be wrong before it was handed out: a fault of
// this program. What an answer says beside it was held back as far as it depends on it.
type Broken struct {
	Claim   Claim
	Layout  int    // place of the layout, or of the way to make a pattern again, from 1; 0: the answer as a whole
	Claimed string // what was claimed
	Found   string // what is so
}

// Error says it in one line.
func (b *Broken) Error() string {
	if b.Layout == 0 {
		return fmt.Sprintf("%s: claimed %s, found %s", b.Claim, b.Claimed, b.Found)
	}
	return fmt.Sprintf("layout %d: %s: claimed %s, found %s", b.Layout, b.Claim, b.Claimed, b.Found)
}

// A merit is what layouts are ranked by: use-first width (0 where it does not count), then
// the smallest contrast, then the sum of contrasts, both in units.
type merit struct {
	use        length.Length
	least, sum int64
}

// compare returns -1 where m ranks below o, 1 where above.
func (m merit) compare(o merit) int {
	switch {
	case m == o:
		return 0
	case m.use < o.use || m.use == o.use && (m.least < o.least || m.least == o.least && m.sum < o.sum):
		return -1
	default:
		return 1
	}
}

func (m merit) String() string {
	return fmt.Sprintf("%s use-first, contrast %.6f, %.6f in all", m.use, float64(m.least)/perContrast, float64(m.sum)/perContrast)
}
