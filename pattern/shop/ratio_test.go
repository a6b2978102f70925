package shop_test

import (
	"testing"

	"example.com/oddments/pattern/shop"
)

func TestRatio(t *testing.T) {
	for text, want := range map[string]shop.Ratio{
		"1:2": {Wax: 1, Oil: 2}, "1 : 3,5": {Wax: 1, Oil: 3.5}, "0:1": {Oil: 1}, "1000:0.001": {Wax: 1000, Oil: 0.001},
	} {
		got, err := shop.ParseRatio(text)
		if err != nil || got != want {
			t.Errorf("%q is read as %v, %v", text, got, err)
		}
		if again, err := shop.ParseRatio(got.String()); err != nil || again != got {
			t.Errorf("%v prints as %s, which reads as %v, %v", got, got, again, err)
		}
	}
	for _, text := range []string{"", "1", "1:", ":2", "1:2:3", "-1:2", "1:0", "1e1:2", "1001:2", "1:inf", "a:b", "1.:2", "1:1 000"} {
		if got, err := shop.ParseRatio(text); err == nil {
			t.Errorf("%q is read as %v", text, got)
		}
	}
}

// Three parts of 300 g: one of wax, two of oil.
func TestBlend(t *testing.T) {
	if wax, oil := (shop.Ratio{Wax: 1, Oil: 2}).Blend(300); wax != 100 || oil != 200 {
		t.Errorf("%v and %v", wax, oil)
	}
	if wax, oil := (shop.Ratio{}).Blend(300); wax != 0 || oil != 0 {
		t.Errorf("%v and %v of no blend", wax, oil)
	}
}
