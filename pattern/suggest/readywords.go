package suggest

import (
	"fmt"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
)

// ReadyText says how many of the rack's ready strips serve where only they do, and what
// the others lack: a phrase without a full stop, lengths in u. It is empty where strips
// are named or cut from pieces.
func (a Request) ReadyText(sh shop.Shop, u length.Unit) string {
	if len(a.Have) > 0 || len(a.Widths) > 0 {
		return ""
	}
	all := 0
	var longest, thickest length.Length
	for _, s := range a.Rack.Strips {
		all += s.Quantity
		longest, thickest = max(longest, s.Length), max(thickest, s.Thickness)
	}
	if all == 0 {
		return "the rack has no ready strip"
	}
	need := fmt.Sprintf("at least %s long and %s thick", (a.Length + sh.Allowance.Length).With(u), sh.Glued(a.Thickness).With(u))
	some := 0
	var wide length.Length
	for _, s := range a.Serving(sh) {
		some += s.Quantity
		wide += s.Width * length.Length(s.Quantity)
	}
	if some == 0 {
		return fmt.Sprintf("no ready strip on the rack is %s; the longest is %s, the thickest %s", need, longest.With(u), thickest.With(u))
	}
	return fmt.Sprintf("%d of %d ready strips on the rack are %s, %s wide together", some, all, need, wide.With(u))
}
