package cutting

import (
	"fmt"

	"example.com/oddments/pattern/length"
)

// String says the claim in few words, to stand behind what is drawn: the least (proved),
// at most 2.3 % above the least, or not proved the least.
func (c Claim) String() string {
	switch c.Sure {
	case Least:
		return "the least (proved)"
	case Bounded:
		return fmt.Sprintf("at most %.1f %% above the least", c.AbovePct)
	default:
		return "not proved the least"
	}
}

// Say says all of the claim, likewise; short says that the plan has strips short.
func (c Claim) Say(short bool, u length.Unit) string {
	so := ""
	if short {
		so = " with so many short"
	}
	switch c.Sure {
	case Least:
		return "the least" + so + ", proved"
	case Bounded:
		return c.String() + so + ": " + c.Under(u)
	default:
		return "and nothing is proved of the least" + so
	}
}

// Under says what no plan draws less than, rounded down; nothing where that is not known.
func (c Claim) Under(u length.Unit) string {
	if c.Sure == Unproved {
		return ""
	}
	return "no plan draws under " + length.VolumeDown(c.UnderCM3, u)
}

// Say says how good the best plan so far is; nothing before there is one.
func (p Progress) Say(u length.Unit) string {
	if p.DrawnCM3 <= 0 {
		return ""
	}
	return fmt.Sprintf("best %s, not under %s", length.Volume(p.DrawnCM3, u), length.VolumeDown(p.LowerBoundCM3, u))
}
