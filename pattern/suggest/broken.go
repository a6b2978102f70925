package suggest

import (
	"errors"
	"fmt"
	"math"

	"example.com/oddments/pattern/cutting"
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
	ClaimLook                   // its look, and how different it looks from others
	ClaimWish                   // what was wished of its timbers
	ClaimJoints                 // that its joints lie in the waste, and as was asked
)

// String returns the claim in words.
func (c Claim) String() string {
	return word(c, "claim", "status", "number of strips", "width", "timber", "level of glue lines", "contrast", "same wood side by side",
		"mirror image", "pinned strips", "difference from other layouts", "use-first width", "plan", "order", "proof", "bound", "colour difference", "look", "wish about timbers", "joints")
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

// A Merit is what layouts are ranked by: use-first width (0 where it does not count), then
// the smallest contrast, then the sum of contrasts, both in units.
type Merit struct {
	Use        length.Length
	Least, Sum int64
}

// Compare returns -1 where m ranks below o, 1 where above.
func (m Merit) Compare(o Merit) int {
	switch {
	case m == o:
		return 0
	case m.Use < o.Use || m.Use == o.Use && (m.Least < o.Least || m.Least == o.Least && m.Sum < o.Sum):
		return -1
	default:
		return 1
	}
}

// String returns all of it, for tests and reports.
func (m Merit) String() string {
	return fmt.Sprintf("%s use-first, contrast %.6f, %.6f in all", m.Use, float64(m.Least)/PerContrast, float64(m.Sum)/PerContrast)
}

// Compare returns below 0 where x is the better layout by the aim, above 0 where y is.
func (a Aim) Compare(x, y Layout) int { return y.Merit(a).Compare(x.Merit(a)) }

// Merit returns what l is ranked by.
func (l Layout) Merit(aim Aim) Merit {
	m := Merit{Least: int64(math.Round(l.SmallestContrast * PerContrast)), Sum: l.Sum}
	if aim == UseUp {
		m.Use = l.UseFirst
	}
	return m
}

// NoPlan returns what counts as the plan where one was made that cannot be cut: all strips
// short, of no timber, and nothing proved. It reports false where err is another error.
func NoPlan(strips int, err error) (cutting.Plan, bool) {
	var broken *cutting.Broken
	if !errors.As(err, &broken) {
		return cutting.Plan{}, false
	}
	return cutting.Plan{Short: strips, Broken: broken}, true
}

// Withdraw takes back what an answer says is proved where a claim broke on the way: what
// rests on it is not told apart.
func (a *Result) Withdraw() {
	if a.Broken == nil {
		return
	}
	a.Status, a.Bound, a.PlansProved = unproved(a.Status, len(a.Layouts)), nil, false
	for i := range a.Layouts {
		a.Layouts[i].Proved = false
	}
	if a.Loosen != nil {
		a.Loosen.Proved = false
	}
}

// unproved returns what is left of a status of n layouts or answers without its proof.
func unproved(s Status, n int) Status {
	switch {
	case n == 0:
		return Open
	case s == Optimal:
		return Feasible
	default:
		return s
	}
}
