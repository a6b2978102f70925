package orders_test

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

const mm = length.Millimetre

// lookup knows every timber; those of a small rack come first.
var lookup = sync.OnceValue(func() rack.Lookup {
	return rack.NewLookup(species.Builtin(), []string{"white_oak", "hard_maple", "black_walnut"})
})

// A want is read as it is spoken, in any order behind its product, and typed again as it is
// printed it is the same.
func TestParseLine(t *testing.T) {
	with := func(change func(*orders.Want)) orders.Want {
		w := orders.New()
		w.Product.Shape, w.Product.Diameter, w.Thickness = "round", 290*mm, 25*mm
		change(&w)
		return w
	}
	most := func(w *orders.Want) { w.Most = 6 }
	each := func(x float64) func(*orders.Want) { return func(w *orders.Want) { w.Worth = x } }
	timbers := func(least, most int) func(*orders.Want) {
		return func(w *orders.Want) { w.Timbers = orders.Range{Least: least, Most: most} }
	}
	along := func(least, most int) func(*orders.Want) {
		return func(w *orders.Want) { w.Along = orders.Range{Least: least, Most: most} }
	}
	under := func(keys ...string) func(*orders.Want) { return func(w *orders.Want) { w.With = keys } }
	less := func(keys ...string) func(*orders.Want) { return func(w *orders.Want) { w.Without = keys } }
	share := func(key string, pct float64) func(*orders.Want) {
		return func(w *orders.Want) { w.AtMost = append(w.AtMost, suggest.Share{Species: key, Pct: pct}) }
	}
	contrast := func(x float64) func(*orders.Want) { return func(w *orders.Want) { w.LeastContrast = x } }
	spare := func(l length.Length) func(*orders.Want) { return func(w *orders.Want) { w.Spare = l } }
	joints := func(is bool) func(*orders.Want) { return func(w *orders.Want) { w.Joints = is } }
	const round = "round 290 x 25 thick, "
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
		"400 x 95 x 38 thick with 3 holes of 40 deep 18 for candles, with pear and european ash": with(func(w *orders.Want) {
			w.Product = pattern.Product{Shape: "block", Length: 400 * mm, Width: 95 * mm, Count: 1, Hole: 40 * mm, Holes: 3, HoleDepth: 18 * mm, For: pattern.ForCandles}
			w.Thickness, w.With = 38*mm, []string{"pear", "european_ash"}
		}),
		round + "max 6":  with(most),
		round + "just 4": with(func(w *orders.Want) { w.Least, w.Most = 4, 4 }), round + "most 6": with(most),
		round + "least 2": with(func(w *orders.Want) { w.Least = 2 }), round + "any number, any look": with(func(*orders.Want) {}),
		round + "£38 each": with(each(38)), round + "38€ each": with(each(38)), round + "38 $ each": with(each(38)), round + "worth 5.50": with(each(5.5)),
		round + "2 to 4 timbers": with(timbers(2, 4)), round + "2-4 timbers": with(timbers(2, 4)), round + "timbers 2..4": with(timbers(2, 4)),
		round + "at most 4 timbers": with(timbers(1, 4)), round + "at least 3 timbers": with(timbers(3, orders.MostTimbers)),
		round + "along 1..2": with(along(1, 2)), round + "up to 2 along": with(along(1, 2)), round + "1 to 2 along up to 6": with(func(w *orders.Want) { along(1, 2)(w); most(w) }),
		round + "with pear": with(under("pear")), round + "with pear, hard maple and black walnut, mirror": with(func(w *orders.Want) {
			w.Look, w.With = look.Mirror, []string{"pear", "hard_maple", "black_walnut"}
		}),
		round + "with pear with maple": with(under("pear", "hard_maple")), round + "with black walnut mirror": with(func(w *orders.Want) { w.Look, w.With = look.Mirror, []string{"black_walnut"} }),
		round + "without oak or wenge, no joints": with(func(w *orders.Want) { w.Without, w.Joints = []string{"white_oak", "wenge"}, false }),
		round + "without oak, fine":               with(func(w *orders.Want) { less("white_oak")(w); w.Level = pattern.Fine }),
		round + "at most 40 % pear":               with(share("pear", 40)), round + "at most 12,5% of sapele": with(share("sapele", 12.5)),
		round + "up to 6, at most 40 % pear and at most 30 percent oak": with(func(w *orders.Want) { most(w); share("pear", 40)(w); share("white_oak", 30)(w) }),
		round + "contrast 15": with(contrast(15)), round + "contrast at least 14.5": with(contrast(14.5)), round + "least contrast 0": with(contrast(0)),
		round + "spare 20": with(spare(20 * mm)), round + "2 cm spare": with(spare(20 * mm)), round + "spare 0": with(spare(0)),
		round + "no joints": with(joints(false)), round + "without joints": with(joints(false)), round + "joints no": with(joints(false)), round + "joints yes": with(joints(true)),
		round + "with joints": with(joints(true)),
	} {
		got, err := orders.ParseLine(text, lookup(), length.InMM)
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, want %+v: %v", text, got, want, err)
			continue
		}
		readsBack(t, got)
	}
}

// readsBack types a want again as it is printed.
func readsBack(t *testing.T, w orders.Want) {
	t.Helper()
	for _, u := range []length.Unit{length.InMM, length.InInches} {
		line := w.Line(lookup().Called, u)
		again, err := orders.ParseLine(line, lookup(), u)
		if err != nil || !reflect.DeepEqual(again, w) {
			t.Errorf("typed again as %s: %+v, want %+v: %v", line, again, w, err)
		}
	}
}

// Whatever a file may say of a want, its line says too and is read back to the same: every field at
// random, each timber by its name.
func TestLineReadsBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	timbers := species.Builtin().All()
	some := func(from []species.Species) (keys []string) {
		for _, i := range rng.Perm(len(from))[:rng.IntN(3)] {
			keys = append(keys, from[i].Key)
		}
		return keys
	}
	size := func(most length.Length) length.Length { return mm + length.Length(rng.Int64N(int64(most/mm)))*mm/2 }
	others := map[string]bool{} // fields that were other than where nothing is said
	for n := range 500 {
		w := orders.New()
		w.Product = pattern.Product{Shape: "oval", Length: 50*mm + size(900*mm), Width: 50*mm + size(300*mm), Count: 1}
		if rng.IntN(2) == 0 {
			w.Product.Bevel, w.Product.BevelSide = size(8*mm), pattern.BevelSide(rng.IntN(3))
		}
		w.Thickness = size(90 * mm)
		w.Least, w.Most = rng.IntN(3), rng.IntN(2)*(3+rng.IntN(40))
		w.Worth = float64(rng.IntN(2)*rng.IntN(10000)) / 100
		from := 1 + rng.IntN(5)
		w.Along = orders.Range{Least: from, Most: from + rng.IntN(4)}
		w.Spare = size(60*mm) - mm
		w.Level, w.LeastContrast, w.Joints = pattern.Levels()[rng.IntN(3)], float64(rng.IntN(400))/4, rng.IntN(2) == 0
		if rng.IntN(2) == 0 {
			w.Timbers = orders.Range{Least: 2, Most: 4 + rng.IntN(4)}
		}
		w.Look = look.Looks()[rng.IntN(len(look.Looks()))]
		w.With = some(timbers[:len(timbers)/2])
		w.Without = some(timbers[len(timbers)/2:])
		if n < len(timbers) {
			w.Without = append(w.Without, timbers[n].Key)
			w.With = slices.DeleteFunc(w.With, func(key string) bool { return key == timbers[n].Key })
		}
		for _, key := range some(timbers) {
			w.AtMost = append(w.AtMost, suggest.Share{Species: key, Pct: 1 + float64(rng.IntN(198))/2})
		}
		if len(w.With) == 0 {
			w.With = nil
		}
		if rng.IntN(2) == 0 {
			w.ID = "tray-2"
		}
		if len(w.Wrongs()) > 0 {
			continue
		}
		readsBack(t, w)
		for i, usual := range reflect.ValueOf(orders.New()).Fields() {
			if v := reflect.ValueOf(w).FieldByIndex(i.Index); !reflect.DeepEqual(v.Interface(), usual.Interface()) {
				others[i.Name] = true
			}
		}
	}
	if n := reflect.TypeFor[orders.Want]().NumField(); len(others) != n {
		t.Errorf("only %d of %d fields were tried: %v", len(others), n, others)
	}
}

// What is typed never stops the reading, whatever it is.
func FuzzParseLine(f *testing.F) {
	f.Add("round 290 x 25 thick, up to 6, 38 each, mirror, with pear and ash, at most 40 % pear, spare 12, contrast 15")
	f.Add("without oak, wenge, 300x200 2 to 4 timbers £5 each at least 3 along 20 thick")
	look := lookup()
	f.Fuzz(func(t *testing.T, text string) {
		w, err := orders.ParseLine(text, look, length.InMM)
		if err != nil {
			return
		}
		line := w.Line(look.Called, length.InMM)
		again, err := orders.ParseLine(line, look, length.InMM)
		again.Product.BevelSide = w.Product.BevelSide // of no bevel nothing is printed
		if err != nil || !reflect.DeepEqual(again, w) {
			t.Errorf("%q is printed as %q, which is %+v, not %+v: %v", text, line, again, w, err)
		}
	})
}

// It is told in words, and in fewer on a row.
func TestTold(t *testing.T) {
	w, err := orders.ParseLine("rectangle 300 x 180 bevel 3 both, 18 thick, at least 2, 29 each, fine, with pear, at most 40 % oak, spare 20, contrast 15, no joints", lookup(), length.InMM)
	if err != nil {
		t.Fatal(err)
	}
	if got := w.Told(lookup().Name, length.InMM); got != "rectangle 300 mm x 180 mm, bevel 3 mm (both), 18 mm thick, at least 2, 29 each, fine, with pear, at most 40 % white oak, contrast 15, spare 20 mm, no joints" {
		t.Errorf("told as %s", got)
	}
	if got := w.Brief(lookup().Name, length.InMM); got != "rectangle 300 x 180 x 18, 29 each, fine, with pear, at most 40 % white oak, contrast 15, spare 20, no joints" {
		t.Errorf("in brief %s", got)
	}
}

// What cannot be read says what would be right.
func TestParseLineRefuses(t *testing.T) {
	const round = "round 290 x 25 thick "
	for text, says := range map[string]string{
		"":                                    orders.Example,
		"round 290":                           "25 thick",
		"round 290 x 25, up to 6":             "missing: how thick it is when finished; write it like 25 thick",
		"trivet 290 x 25 thick":               "name the shape first",
		"25 thick":                            "missing: round, rectangle, block or oval",
		round + "up to none":                  "up to 6, or at most 40 % pear",
		round + "at 6":                        "at least 2 or at most 6",
		round + "at least some":               "like at least 2",
		round + "at least 40 % pear":          "must be a whole number, like at least 2",
		round + "up to 0":                     "from 1 to 1000",
		round + "0 each":                      "above 0, like 38 or 5.50",
		round + "1,250 each":                  "plain number",
		round + "much each":                   `"much": not a word I know`,
		"round 290 x 0 thick":                 "more than 0",
		round + "5..2 along":                  "smaller number first, like 2..5",
		round + "2..999 timbers":              "from 1 to 100",
		round + "along":                       "like 1..3",
		round + "up to 2 at least 3":          "at least 3: is more than most, which is 2: ask for fewer, or raise most",
		round + "lively 2 timbers":            "timbers 2: look lively needs 4: allow more timbers, or take another look",
		round + "wobbly":                      `"wobbly": not a word I know. Besides the product use: 25 thick, at least 2, up to 6`,
		round + "25":                          `"25": not a word I know`,
		round + "with":                        "missing: the timber; write it like with pear",
		round + "without":                     "write it like without pear",
		round + "with blokwood":               `with "blokwood" is not a timber I know`,
		round + "with pear and":               "missing: the timber",
		round + "with cherry":                 `with "cherry" may be`,
		round + "with red oakk":               "oak",
		round + "with pear without pear":      "with pear: is under without, too: leave it out of one of the two",
		round + "at most 140 % pear":          "a percentage from 0 to 100",
		round + "at most 40 %":                "write it like at most 40 % pear",
		round + "at most 40 % nowood":         `at most 40 % "nowood" is not a timber I know`,
		round + "at most 0 % pear, with pear": "at most pear 0: with asks for it",
		round + "contrast high":               "contrast \"high\": must be a number from 0 to 100, like 15",
		round + "spare much":                  "spare",
		round + "no wenge":                    "write no joints, or without and a timber",
		round + "take five":                   "write take care",
		round + "mirror calm":                 "the look is given twice: write it once",
		round + "up to 3, at most 4":          "how many at most is given twice",
		round + "20 thick":                    "the thickness is given twice",
		round + "called":                      "write it like called tray",
		strings.Repeat("round ", 300):         "letters",
	} {
		if _, err := orders.ParseLine(text, lookup(), length.InMM); err == nil || !strings.Contains(err.Error(), says) {
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
