package work

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

func TestParseBatch(t *testing.T) {
	today := pattern.Date{Year: 2026, Month: time.November, Day: 25}
	full := pattern.Made{Date: today, Copies: 4, Width: 299500 * length.Micrometre, Thickness: 21600 * length.Micrometre, Minutes: 310, Note: "one kept for the hall"}
	dated := full
	dated.Date, dated.Note = pattern.Date{Year: 2026, Month: time.November, Day: 2}, ""
	for text, want := range map[string]pattern.Made{
		"": {Date: today, Copies: 1},
		"4, 299.5 wide, 21.6 thick, 310 min, note one kept for the hall":        full,
		"x4 wide 299,5 mm thick 21.6mm 310 minutes note: one kept for the hall": full,
		"2026-11-02 x4 width 299.5 thickness 21.6 310 min":                      dated,
		"310 min 4 copies 299.5 wide 21.6 thick, 2026-11-02":                    dated,
		"2 note":                             {Date: today, Copies: 2},
		"2 note noted: 3 wide, nothing else": {Date: today, Copies: 2, Note: "noted: 3 wide, nothing else"},
		"11-3/4in wide":                      {Date: today, Copies: 1, Width: 47 * length.Inch / 4},
		"x2 wide 11 3/4 in":                  {Date: today, Copies: 2, Width: 47 * length.Inch / 4},
	} {
		if got, err := ParseBatch(text, length.InMM, today); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	for text, says := range map[string]string{
		"4 5": `"5": not a word I know`, "x0": "from 1 to 10000", "x4 wide": "missing: the width", "x4 wide broad": "width: ",
		"2026-02-30 4": "day of the calendar", "200000 min": "0 to 100000", "boards": "not a word I know", strings.Repeat("1", 20000): "letters",
	} {
		if got, err := ParseBatch(text, length.InMM, today); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %+v, %v; want %q", text, got, err, says)
		}
	}
}

// A line reads back to the batch that it is of, in either unit.
func TestBatchLineReadsBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 2))
	for range 2000 {
		m := pattern.Made{Date: pattern.Date{Year: 2000 + rng.IntN(50), Month: time.Month(1 + rng.IntN(12)), Day: 1 + rng.IntN(28)},
			Copies: 1 + rng.IntN(pattern.MaxBatch), Minutes: rng.IntN(3) * rng.IntN(1000), Note: []string{"", "oiled twice, 3 wide", "note this", "denoted"}[rng.IntN(4)]}
		if rng.IntN(2) == 0 {
			m.Width, m.Thickness = length.Length(1+rng.Int64N(int64(pattern.MaxAcross))), length.Length(1+rng.IntN(128))*length.Inch/64
		}
		for _, u := range []length.Unit{length.InMM, length.InInches} {
			line := BatchLine(m, u)
			if got, err := ParseBatch(line, u, pattern.Date{}); err != nil || got != m {
				t.Fatalf("%q: %+v, %v; want %+v", line, got, err, m)
			}
		}
	}
}

func TestLabelOf(t *testing.T) {
	m := pattern.Made{Date: pattern.Date{Year: 2026, Month: time.November, Day: 2}, Copies: 4}
	maker := LabelOf(shop.Maker{Name: "Ida Quill", Address: "3 Gorse Yard", Electronic: "ida@example.com", Glue: "PVA", Finish: "oil"})
	want := Label{Maker: "Ida Quill", Address: "3 Gorse Yard", Electronic: "ida@example.com", Glue: "PVA", Finish: "oil",
		Batch: "saltings-round-3", Date: "2026-11-02"}
	if got := maker.OfBatch("saltings-round", 3, m); !reflect.DeepEqual(got, want) {
		t.Errorf("%+v", got)
	}
}

// A workshop that says who its maker is has nothing to be written on a label by hand but
// what is the pattern's and the batch's.
func TestLabelsHaveTheMaker(t *testing.T) {
	s := shoptest.Roomy()
	s.Maker = shop.Maker{Name: "Ida Quill", Address: "3 Gorse Yard", Electronic: "ida@example.com", Glue: "PVA", Finish: "oil"}
	j, err := JobOf(movement.New(species.Builtin(), s), job(t).Pattern, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range Labels(species.Builtin(), j, length.InMM) {
		if got := l.Missing(); !slices.Equal(got, []string{"item", "batch", "date"}) {
			t.Errorf("%v is missing", got)
		}
	}
}

// No typed batch panics, and one that is read reads back.
func FuzzParseBatch(f *testing.F) {
	for _, s := range []string{"4, 299.5 wide, 310 min, note oiled", "2026-11-02 x4 thick 21 1/2", "note", "x", "wide", "3 min 4"} {
		f.Add(s)
	}
	today := pattern.Date{Year: 2026, Month: time.November, Day: 25}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ParseBatch(text, length.InMM, today)
		if err != nil {
			return
		}
		if again, err := ParseBatch(BatchLine(m, length.InMM), length.InMM, pattern.Date{}); err != nil || again != m {
			t.Errorf("%q: %+v reads back as %+v, %v", text, m, again, err)
		}
	})
}
