package suggest

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
)

func TestClaimsHaveWords(t *testing.T) {
	for c := ClaimStatus; c <= ClaimJoints; c++ {
		if strings.HasPrefix(c.String(), "claim(") {
			t.Errorf("claim %d has no word", int(c))
		}
	}
	if got := (ClaimJoints + 1).String(); got != "claim(19)" {
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

// What a search to use up leaves open is said in one line; one that uses nothing where
// something may be possible has failed, and does not call what it found the best.
func TestUseLeft(t *testing.T) {
	of := func(use, bound length.Length) Result {
		return Result{Status: Feasible, Aim: UseUp, PlansProved: true, Bound: &Bound{UseFirst: bound},
			Layouts: []Layout{{UseFirst: use}}}
	}
	for _, c := range []struct {
		result Result
		want   string
	}{
		{of(0, 180*mm), "the search failed: this layout uses no use-first timber, and up to 180 mm may be possible"},
		{of(60*mm, 180*mm), "this layout uses 60 mm of use-first timber, and up to 180 mm may be possible"},
		{of(180*mm, 180*mm), ""}, {of(0, 0), ""},
		{Result{Status: Feasible, Aim: Contrast, Bound: &Bound{UseFirst: 5 * mm}, Layouts: []Layout{{}}}, ""},
	} {
		if got := c.result.UseLeft(length.InMM); got != c.want {
			t.Errorf("%q, must be %q", got, c.want)
		}
		if why := c.result.Why(0, length.InMM); c.want != "" && (!strings.HasPrefix(why, c.want+"; none uses more") || strings.Contains(why, "no better layout")) {
			t.Errorf("why: %q", why)
		}
	}
}

// A range of widths holds to the nanometre, whichever its middle, and a pattern laid out
// within it wants the width that it has.
func TestRangeOfWidths(t *testing.T) {
	a := New(0, 22*mm, 400*mm)
	a.Within(330*mm, 345*mm+1)
	if least, most := a.Limits(); least != 330*mm || most != 345*mm+1 {
		t.Errorf("%v to %v", least, most)
	}
	l := Layout{Width: 335 * mm, Strips: []Placed{{Species: "sapele", Width: 335 * mm}}}
	if got := a.Pattern(l).Panel.Width; got != 335*mm {
		t.Errorf("wants %v", got)
	}
	a = New(340*mm, 22*mm, 400*mm)
	if least, most := a.Limits(); least != 336*mm || most != 344*mm || a.Pattern(l).Panel.Width != 340*mm {
		t.Errorf("%v to %v, wants %v", least, most, a.Pattern(l).Panel.Width)
	}
	a.Within(345*mm, 330*mm)
	if err := a.Check(physics()); err == nil {
		t.Error("a range from more to less passes")
	}
}
