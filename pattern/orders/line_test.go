package orders_test

import (
	"reflect"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/suggest/look"
)

const mm = length.Millimetre

// A want is read as it is spoken, in any order behind its product.
func TestParseLine(t *testing.T) {
	with := func(change func(*orders.Want)) orders.Want {
		w := orders.New()
		w.Product.Shape, w.Product.Diameter, w.Thickness = "round", 290*mm, 25*mm
		change(&w)
		return w
	}
	for text, want := range map[string]orders.Want{
		"round 290 x 25 thick":                           with(func(*orders.Want) {}),
		"round 290 x 25 thick, up to 6, 38 each, mirror": with(func(w *orders.Want) { w.Most, w.Worth, w.Look = 6, 38, look.Mirror }),
		"25 mm thick round 290 look calm at most 6":      with(func(w *orders.Want) { w.Most, w.Look = 6, look.Calm }),
		"round 29 cm by 2.5 cm thick x4 5,5 each":        with(func(w *orders.Want) { w.Most, w.Worth = 4, 5.5 }),
		"round 290, 25 thick, at least 2, fine, 2..4 along, 3 timbers, called cake": with(func(w *orders.Want) {
			w.Least, w.Level, w.Along, w.Timbers, w.ID = 2, pattern.Fine, orders.Range{Least: 2, Most: 4}, orders.Range{Least: 3, Most: 3}, "cake"
		}),
		"rectangle 300x180x18 thick, bevel 3 both, too much": with(func(w *orders.Want) {
			w.Product = pattern.Product{Shape: "rectangle", Length: 300 * mm, Width: 180 * mm, Count: 1, Bevel: 3 * mm, BevelSide: pattern.BevelBoth}
			w.Thickness, w.Level = 18*mm, pattern.TooMuch
		}),
	} {
		got, err := orders.ParseLine(text, orders.New(), length.InMM)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, want %+v: %v", text, got, want, err)
			continue
		}
		again, err := orders.ParseLine(got.Line(length.InMM), got, length.InMM)
		if err != nil || !reflect.DeepEqual(again, got) {
			t.Errorf("%s, typed again as %s: %+v: %v", text, got.Line(length.InMM), again, err)
		}
	}
}

// What the line cannot say stays; what it no longer says is gone.
func TestParseLineOf(t *testing.T) {
	of := orders.New()
	of.ID, of.Spare, of.With, of.Most, of.Look, of.Joints = "cake", 30*mm, []string{"pear"}, 6, look.Mirror, false
	got, err := orders.ParseLine("round 290 x 25 thick", of, length.InMM)
	if err != nil || got.ID != "cake" || got.Spare != 30*mm || len(got.With) != 1 || got.Joints || got.Most != 0 || got.Look != look.Any {
		t.Errorf("%+v: %v", got, err)
	}
	told := got.Told(strings.ToUpper, length.InMM)
	if told != "round 290 mm, 25 mm thick, with PEAR, strips in one piece" {
		t.Errorf("told as %s", told)
	}
}

// What cannot be read says what would be right.
func TestParseLineRefuses(t *testing.T) {
	for text, says := range map[string]string{
		"":                                        "missing: ",
		"round 290":                               "25 thick",
		"round 290 x 25 thick up to none":         "up to",
		"round 290 x 25 thick at 6":               "at least 2 or at most 6",
		"round 290 x 25 thick 0 each":             "above 0",
		"round 290 x 0 thick":                     "more than 0",
		"round 290 x 25 thick 5..2 along":         "smaller number first",
		"round 290 x 25 thick up to 2 at least 3": "at most the 2",
		"round 290 x 25 thick lively 2 timbers":   "needs 4",
		"round 290 x 25 thick wobbly":             "wobbly",
		strings.Repeat("round ", 300):             "letters",
	} {
		if _, err := orders.ParseLine(text, orders.New(), length.InMM); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%.60q: %v, want %q", text, err, says)
		}
	}
}

func TestFreeID(t *testing.T) {
	w := orders.New()
	w.Product.Shape = "round"
	if a, b := orders.FreeID(w, nil), orders.FreeID(w, []orders.Want{{ID: "round"}, {ID: "round-2"}}); a != "round" || b != "round-3" {
		t.Errorf("%s, %s", a, b)
	}
}

// A panel is worth what was laid out for it says, and nothing where it is not what that wants.
func TestWorthOf(t *testing.T) {
	w := orders.New()
	w.ID, w.Worth, w.Thickness = "big-tray", 29, 18*mm
	w.Product = pattern.Product{Shape: "rectangle", Length: 300 * mm, Width: 180 * mm, Count: 1}
	p := pattern.Pattern{Panel: pattern.Panel{Thickness: 18 * mm}, Products: []pattern.Product{w.Product}}
	p.Products[0].Count = 3
	if got := orders.WorthOf([]orders.Want{orders.New(), w}, "big-tray-12", p); got != 87 {
		t.Errorf("three trays of 29: %v", got)
	}
	other := p
	other.Panel.Thickness++
	for stem, p := range map[string]pattern.Pattern{"big-1": p, "big": p, "big-tray": p, "big-tray-2": other, "big-tray-3": {}} {
		if got := orders.WorthOf([]orders.Want{w}, stem, p); got != 0 {
			t.Errorf("%s is worth %v", stem, got)
		}
	}
}
