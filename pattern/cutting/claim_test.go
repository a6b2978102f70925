package cutting

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"example.com/oddments/pattern/length"
)

// What is said to be the most above the best plan is never less than it is, and by less than
// a tenth of a percent more.
func TestClaimedAbove(t *testing.T) {
	for _, c := range []struct{ drawn, bound, want float64 }{
		{110, 100, 10}, {math.Nextafter(110, 200), 100, 10.1}, {100, 100, 0}, {math.Nextafter(100, 200), 100, 0.1},
		{1.1, 1, 10.1}, // the float beside 1.1 is above it
		{1.5, 1, 50}, {3000, 1000, 200},
	} {
		if got := (Plan{DrawnCM3: c.drawn, LowerBoundCM3: c.bound}).Claim(); got != (Claim{Sure: Bounded, AbovePct: c.want, UnderCM3: c.bound}) {
			t.Errorf("%v above %v: %+v, want %v", c.drawn, c.bound, got, c.want)
		}
	}
	rng := rand.New(rand.NewPCG(7, 8))
	for range 20_000 {
		bound := math.Exp(rng.Float64()*20 - 5)
		drawn := bound * (1 + float64(rng.IntN(3000))/1000)
		if rng.IntN(2) == 0 {
			drawn = math.Nextafter(drawn, drawn*2)
		}
		pct := new(big.Rat).SetFloat64((Plan{DrawnCM3: drawn, LowerBoundCM3: bound}).Claim().AbovePct)
		tenths := new(big.Rat).Mul(pct, big.NewRat(10, 1))
		most := new(big.Rat).SetFrac64(int64(math.Round(f64(tenths))), 1000) // as it is printed
		least := new(big.Rat).Add(most, big.NewRat(1, 1))
		least.Mul(least, new(big.Rat).SetFloat64(bound))
		under := new(big.Rat).Add(most, big.NewRat(999, 1000))
		under.Mul(under, new(big.Rat).SetFloat64(bound))
		if d := new(big.Rat).SetFloat64(drawn); least.Cmp(d) < 0 || under.Cmp(d) >= 0 {
			t.Fatalf("%v above %v is said to be %v %% at most", drawn, bound, f64(pct))
		}
	}
}

func f64(r *big.Rat) float64 { f, _ := r.Float64(); return f }

// Each claim is worded once, and what is under a plan is rounded down.
func TestClaimsInWords(t *testing.T) {
	least := Claim{Sure: Least, UnderCM3: 2759.9}
	bounded := Claim{Sure: Bounded, AbovePct: 2.3, UnderCM3: 2759.9}
	for _, c := range []struct {
		claim             Claim
		short             bool
		few, all, underIs string
	}{
		{least, false, "no better plan exists (proved)", "no better plan exists (proved)", "no plan counts less than 2.75 dm3"},
		{least, true, "no better plan exists (proved)", "no better plan exists with as many strips missing (proved)", "no plan counts less than 2.75 dm3"},
		{bounded, false, "at most 2.3 % above the best plan", "at most 2.3 % above the best plan: no plan counts less than 2.75 dm3", "no plan counts less than 2.75 dm3"},
		{bounded, true, "at most 2.3 % above the best plan", "at most 2.3 % above the best plan with as many strips missing: no plan counts less than 2.75 dm3", "no plan counts less than 2.75 dm3"},
		{Claim{}, false, "not proved the best plan", "not proved the best plan", ""},
		{Claim{}, true, "not proved the best plan", "not proved the best plan with as many strips missing", ""},
	} {
		if few, all, under := c.claim.String(), c.claim.Say(c.short, length.InMM), c.claim.Under(length.InMM); few != c.few || all != c.all || under != c.underIs {
			t.Errorf("%+v: %q, %q, %q", c.claim, few, all, under)
		}
	}
	if got := (Progress{DrawnCM3: 2800, LowerBoundCM3: 2759.9}).Say(length.InMM); got != "best plan so far counts 2.80 dm3, none under 2.75 dm3" {
		t.Error(got)
	}
	if got := (Progress{}).Say(length.InMM); got != "" {
		t.Error(got)
	}
}
