package cutting

import (
	"fmt"
	"math/big"
)

// This file alone lets a claim of a plan out, once it has checked what the claim says.

// A Sureness says what is proved of a plan. The zero value is Unproved.
type Sureness int

// The grades, the least sure first.
const (
	Unproved Sureness = iota // nothing is known of the least
	Bounded                  // the least is not far below, or may be the plan itself
	Least                    // no plan with as few strips short draws less
)

// String returns unproved, bounded or least.
func (s Sureness) String() string {
	switch s {
	case Unproved:
		return "unproved"
	case Bounded:
		return "bounded"
	case Least:
		return "least"
	default:
		return fmt.Sprintf("sureness(%d)", int(s))
	}
}

// A Claim says how far a plan is from the least that is drawn with as few strips short.
type Claim struct {
	Sure     Sureness
	AbovePct float64 // where Bounded: the plan is at most so many percent above the least; up to the next tenth
	UnderCM3 float64 // no plan draws less; 0 where Unproved
	Joints   bool    // what joints count for is counted with it, in all that is said
}

// Claim returns what may be said of the plan. Of one whose claims broke nothing is said.
func (p Plan) Claim() Claim {
	switch {
	case p.Broken != nil || p.LowerBoundCM3 > p.DrawnCM3:
		return Claim{}
	case p.Status == Optimal && p.LowerBoundCM3 == p.DrawnCM3:
		return Claim{Sure: Least, UnderCM3: p.Counted(), Joints: p.JointsCM3 > 0}
	case p.LowerBoundCM3 > 0:
		drawn, bound := p.Counted(), p.LowerBoundCM3+p.JointsCM3
		return Claim{Sure: Bounded, AbovePct: abovePct(drawn, bound), UnderCM3: bound, Joints: p.JointsCM3 > 0}
	default:
		return Claim{}
	}
}

// abovePct returns how many percent drawn is above bound, which is above 0, up to the next
// tenth. It is computed in fractions: a quotient of floats may be a hair too small, and
// rounding up then says less than it is.
func abovePct(drawn, bound float64) float64 {
	of := new(big.Rat).SetFloat64(bound)
	above := new(big.Rat).SetFloat64(drawn)
	above.Sub(above, of).Quo(above, of).Mul(above, big.NewRat(1000, 1)) // tenths of a percent
	tenths, rest := new(big.Int).QuoRem(above.Num(), above.Denom(), new(big.Int))
	if rest.Sign() > 0 {
		tenths.Add(tenths, big.NewInt(1))
	}
	whole, _ := new(big.Float).SetInt(tenths).Float64()
	return whole / 10
}

// A Contradiction is how a claim broke.
type Contradiction int

// The contradictions.
const (
	Undercut    Contradiction = iota // a plan draws less than was proved that every plan does; in cm3
	Fewer                            // fewer strips are short than was proved the fewest; in strips
	OtherDrawn                       // the plan draws another volume than the search took it for; in cm3
	NotTheLeast                      // the plan was called the least, and only a lower bound was proved; in cm3
	Unfit                            // the plan cannot be cut as it says
	Worthier                         // a set of panels is worth more than was proved that every set is; in what products are worth
)

// Broken is the error of a claim that did not hold: a mistake in the search, which has
// been found before it was told as a proof.
type Broken struct {
	Kind           Contradiction
	Species        string  // the timber's key; empty: the plan as a whole
	Claimed, Found float64 // in what Kind says; 0 where Unfit
	Err            error   // where Unfit: what Verify found
	Job            Job     // what the plan was for
}

// Error says what was claimed and what was found.
func (b *Broken) Error() string {
	of := ""
	if b.Species != "" {
		of = b.Species + ": "
	}
	switch b.Kind {
	case Undercut:
		return fmt.Sprintf("%sno plan was to count less than %.6f cm3, and one counts %.6f cm3", of, b.Claimed, b.Found)
	case Fewer:
		return fmt.Sprintf("%sno plan was to have fewer than %.0f strips missing, and one has %.0f", of, b.Claimed, b.Found)
	case OtherDrawn:
		return fmt.Sprintf("%sthe plan was to count %.6f cm3, and counts %.6f cm3", of, b.Claimed, b.Found)
	case NotTheLeast:
		return fmt.Sprintf("%sthe plan was to be the best at %.6f cm3, but the proof is only that none counts less than %.6f cm3", of, b.Claimed, b.Found)
	case Worthier:
		return fmt.Sprintf("%sno set was to be worth more than %.6f, and one is worth %.6f", of, b.Claimed, b.Found)
	case Unfit:
		return fmt.Sprintf("%sthe plan cannot be cut: %v", of, b.Err)
	default:
		return fmt.Sprintf("%scontradiction(%d)", of, int(b.Kind))
	}
}

// Unwrap returns what Verify found.
func (b *Broken) Unwrap() error { return b.Err }
