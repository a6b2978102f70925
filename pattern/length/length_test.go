package length_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern/length"
)

func TestParse(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       length.Length
	}{
		{"bare number is mm", "25", 25 * length.Millimetre},
		{"mm", "25 mm", 25 * length.Millimetre},
		{"mm without a blank", "25mm", 25 * length.Millimetre},
		{"cm", "2.5 cm", 25 * length.Millimetre},
		{"m", "0.45 m", 450 * length.Millimetre},
		{"decimal comma", "12,5 mm", 12500 * length.Micrometre},
		{"mixed inches", `1 1/8"`, 28575 * length.Micrometre},        // 25.4 + 25.4/8
		{"fraction of an inch", "3/4 in", 19050 * length.Micrometre}, // 3 x 6.35
		{"inch of 64 parts", "1/64 in", 396_875},
		{"a third is rounded", "1/3 in", 8_466_667}, // 25.4/3 = 8.4666 66|67
		{"half a nanometre goes up", "0.0000005 mm", 1},
		{"no digit before the point", ".5 in", 12700 * length.Micrometre},
		{"blanks around", "  25 mm ", 25 * length.Millimetre},
		{"four digits behind a comma", "1,2500 mm", 1250 * length.Micrometre},
		{"zero", "0", 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := length.Parse(c.text)
			if err != nil || got != c.want {
				t.Errorf("Parse(%q) = %d nm, %v; want %d nm", c.text, got, err, c.want)
			}
		})
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct{ name, text, says string }{
		{"nothing", "", "no length given"},
		{"a word", "wide", "write a number"},
		{"thousands or decimals", "1,250 mm", "write 1250 or 1.250"},
		{"exponent", "1e3", "write a number"},
		{"hex", "0x10", "write a number"},
		{"underscore", "1_000", "write a number"},
		{"a sign", "-5 mm", "must not be below 0"},
		{"a plus", "+5", "write a number"},
		{"two points", "1.2.3", "write a number"},
		{"a point and no digit after", "5. mm", "write a number"},
		{"fraction over nothing", "1/ in", "write a number"},
		{"fraction over zero", "1/0 in", "over 0"},
		{"mixed decimal", "1.5 1/8 in", "write a number"},
		{"unknown unit", "3 ft", "write a number"},
		{"unit alone", "mm", "write a number"},
		{"two units", "3 mm in", "write a number"},
		{"nan", "nan", "write a number"},
		{"beyond int64", "99999999999999 m", "longer than any timber"},
		{"a page of digits", strings.Repeat("9", 1000), "length of 1000 characters"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := length.Parse(c.text)
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("Parse(%q) = %v, %v; want an error that says %q", c.text, got, err, c.says)
			}
		})
	}
}

func TestParseInTakesTheFieldsUnit(t *testing.T) {
	got, err := length.ParseIn("1 1/2", length.InInches)
	if err != nil || got != 38100*length.Micrometre {
		t.Errorf("1 1/2 in a field of inches is %v, %v; want 38.1 mm", got, err)
	}
	got, err = length.ParseIn("25 mm", length.InInches)
	if err != nil || got != 25*length.Millimetre {
		t.Errorf("25 mm in a field of inches is %v, %v; want 25 mm", got, err)
	}
}

func TestPrint(t *testing.T) {
	for _, c := range []struct {
		l                       length.Length
		exact, text, mm, inches string
	}{
		{0, "0 mm", "0 mm", "0", "0"},
		{25 * length.Millimetre, "25 mm", "25 mm", "25", "63/64"},
		{12500 * length.Micrometre, "12.5 mm", "12.5 mm", "12.5", "31/64"},
		{28575 * length.Micrometre, "1 1/8 in", "28.575 mm", "28.6", "1 1/8"},
		{length.Inch, "25.4 mm", "25.4 mm", "25.4", "1"},
		{-length.Inch / 4, "-6.35 mm", "-6.35 mm", "-6.3", "-1/4"}, // 6.35 lies a hair under in binary
		{1, "0.000001 mm", "0.000001 mm", "0", "0"},
	} {
		if got := c.l.Exact(); got != c.exact {
			t.Errorf("Exact(%d) = %q, want %q", c.l, got, c.exact)
		}
		if got := c.l.String(); got != c.text {
			t.Errorf("String(%d) = %q, want %q", c.l, got, c.text)
		}
		if got := c.l.Format(length.InMM); got != c.mm {
			t.Errorf("Format(%d, mm) = %q, want %q", c.l, got, c.mm)
		}
		if got := c.l.Format(length.InInches); got != c.inches {
			t.Errorf("Format(%d, in) = %q, want %q", c.l, got, c.inches)
		}
	}
}

func TestChangeHasItsSign(t *testing.T) {
	for mm, want := range map[float64]string{0.46: "+0.5 mm", -0.46: "-0.5 mm", 0.01: "0 mm", 0: "0 mm"} {
		if got := length.Change(mm, length.InMM); got != want {
			t.Errorf("%v is %q, want %q", mm, got, want)
		}
	}
	if got := length.Change(2.54, length.InInches); got != "+0.100 in" {
		t.Errorf("in inches %q", got)
	}
}

func TestEstimateHasNoMinusZero(t *testing.T) {
	if got := length.Estimate(-0.001, length.InMM); got != "0" {
		t.Errorf("a hair below nothing prints as %q, want 0", got)
	}
	if got := length.Estimate(3.46, length.InInches); got != "0.14" {
		t.Errorf("3.46 mm prints as %q in, want 0.14", got)
	}
}

// 14 um are 0.55 thousandths of an inch, 25.4 um are one.
func TestStep(t *testing.T) {
	for _, c := range []struct {
		um, pm float64
		unit   length.Unit
		want   string
	}{
		{14.2, 17, length.InMM, "14 ±17 um"},
		{52, 0, length.InMM, "52 um"},
		{14, 17.4, length.InInches, "0.6 ±0.7 thou"},
		{25.4, 0, length.InInches, "1.0 thou"},
	} {
		if got := length.Step(c.um, c.pm, c.unit); got != c.want {
			t.Errorf("Step(%v, %v, %v) = %q, want %q", c.um, c.pm, c.unit, got, c.want)
		}
	}
}

// A board foot is 144 cubic inches: 1 m3 holds 423.776 of them (published by
// sawmill associations everywhere; checked here from the inch).
func TestVolume(t *testing.T) {
	if got := length.Volume(3500, length.InInches); got != "1.48 bd ft" { // 0.0035 m3 are 1.483
		t.Errorf("3500 cm3 are %s", got)
	}
	if got := length.Volume(1e6, length.InInches); got != "423.78 bd ft" {
		t.Errorf("1 m3 is %s", got)
	}
	if got := length.Volume(1210, length.InMM); got != "1.21 dm3" {
		t.Errorf("1210 cm3 are %s", got)
	}
}

func TestSplitAddsUp(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		total, n := length.Length(rng.Int64N(3e9)-1e9), 1+rng.IntN(40)
		var sum length.Length
		for _, part := range total.Split(n) {
			sum += part
		}
		if sum != total {
			t.Fatalf("%v split in %d adds up to %v", total, n, sum)
		}
	}
	if parts := length.Metre.Split(0); parts != nil {
		t.Errorf("split in 0 parts gives %v", parts)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"25", `1 1/8"`, "3/4 in", "12,5 mm", "1,250 mm", "2.5 cm", "0.45 m", "-1", "1/0"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l, err := length.Parse(s)
		if err != nil {
			return
		}
		if l < 0 {
			t.Fatalf("%q is read as %v", s, l)
		}
		for _, text := range []string{l.Exact(), l.String()} {
			if len(text) > 35 {
				continue // beyond what Parse reads, and beyond any timber
			}
			if again, err := length.Parse(text); err != nil || again != l {
				t.Fatalf("%q is %d nm, printed %q, read back as %d nm, %v", s, l, text, again, err)
			}
		}
	})
}

// 16279 cm3 are 16.279 dm3, 6.899 true board feet of 2359.737216 cm3 (144 cubic inches).
func TestVolumeDown(t *testing.T) {
	for _, c := range []struct {
		cm3  float64
		u    length.Unit
		want string
	}{
		{16279, length.InMM, "16.27 dm3"}, {16280, length.InMM, "16.28 dm3"}, {0, length.InMM, "0.00 dm3"},
		{16279, length.InInches, "6.89 bd ft"},
	} {
		if got := length.VolumeDown(c.cm3, c.u); got != c.want {
			t.Errorf("%v cm3 are %s, want %s", c.cm3, got, c.want)
		}
	}
}
