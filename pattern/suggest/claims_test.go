package suggest

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

func TestClaimsHaveWords(t *testing.T) {
	for c := ClaimStatus; c <= ClaimColour; c++ {
		if strings.HasPrefix(c.String(), "claim(") {
			t.Errorf("claim %d has no word", int(c))
		}
	}
	if got := (ClaimColour + 1).String(); got != "claim(16)" {
		t.Errorf("%q", got)
	}
}

// An answer in which a claim broke proves nothing; what was found stays.
func TestWithdraw(t *testing.T) {
	proved := func() Result {
		return Result{Status: Optimal, Bound: &Bound{}, PlansProved: true, Layouts: []Layout{{Proved: true, Width: 1}}, Loosen: &Relaxation{Proved: true}}
	}
	a := proved()
	if a.Withdraw(); a.Status != Optimal || !a.PlansProved || !a.Layouts[0].Proved || a.Bound == nil {
		t.Errorf("without a reason: %+v", a)
	}
	a.Broken = errors.New("broken")
	if a.Withdraw(); a.Status != Feasible || a.Bound != nil || a.PlansProved || a.Layouts[0].Proved || a.Layouts[0].Width != 1 || a.Loosen.Proved {
		t.Errorf("%+v", a)
	}
	none := Result{Status: Infeasible, Broken: errors.New("broken")}
	if none.Withdraw(); none.Status != Open {
		t.Errorf("nothing found: %v", none.Status)
	}
}

func TestWords(t *testing.T) {
	for _, a := range []Aim{Auto, Contrast, UseUp} {
		if back, err := ParseAim(a.String()); err != nil || back != a {
			t.Errorf("%v reads back as %v, %v", a, back, err)
		}
	}
	for s := Open; s <= Optimal; s++ {
		if strings.HasPrefix(s.String(), "status(") {
			t.Errorf("status %d has no word", int(s))
		}
	}
	if _, err := ParseAim("pretty"); err == nil || fmt.Sprint(Aim(9)) != "aim(9)" {
		t.Error("a wrong aim is read")
	}
}
