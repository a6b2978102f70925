package typed_test

import (
	"testing"

	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// A flag takes what its reader takes and keeps what lay there where it takes nothing; the
// help names its kind and what counts where nobody says.
func TestFlag(t *testing.T) {
	level, width, unit := pattern.TakeCare, length.Length(0), (*length.Unit)(nil)
	to := pflag.NewFlagSet("test", pflag.ContinueOnError)
	typed.Flag(to, &level, "level", "LEVEL", level.String(), pattern.ParseLevel, "worst level")
	typed.Flag(to, &width, "width", "LENGTH", "", typed.Length(1, 20*length.Millimetre), "width")
	typed.Flag(to, &unit, "units", "mm|in", "", typed.Optional(length.ParseUnit), "unit")
	if err := to.Parse([]string{"--level", "fine", "--width=12.5", "--units", "in"}); err != nil || level != pattern.Fine || width != 25*length.Millimetre/2 || *unit != length.InInches {
		t.Errorf("%v: %v, %v, %v", err, level, width, unit)
	}
	for _, wrong := range []string{"--level=none", "--width=21", "--width=x", "--units=ft"} {
		if err := to.Parse([]string{wrong}); err == nil || level != pattern.Fine || width != 25*length.Millimetre/2 {
			t.Errorf("%s: %v, %v, %v", wrong, err, level, width)
		}
	}
	const help = "      --level LEVEL    worst level (default take care)\n      --units mm|in    unit\n      --width LENGTH   width\n"
	if got := to.FlagUsages(); got != help {
		t.Errorf("help:\n%swant:\n%s", got, help)
	}
}

func TestReaders(t *testing.T) {
	for text, want := range map[string]float64{"0": 0, "2.5": 2.5, "007": 7} {
		if got, ok := typed.Number(text); !ok || got != want || typed.Shown(2.5) != "2.5" {
			t.Errorf("%q: %v, %v", text, got, ok)
		}
	}
	for _, text := range []string{"", "-1", "1e3", "0x1", "Inf", "nan", "1_0", "."} {
		if got, ok := typed.Number(text); ok {
			t.Errorf("%q: %v", text, got)
		}
	}
	for text, good := range map[string]bool{"1": true, "9": true, "10": false, "0": false, "-1": false, "1.5": false, "": false, "99999999999": false} {
		if n, err := typed.Count(9)(text); (err == nil) != good || good && n < 1 {
			t.Errorf("%q: %d, %v", text, n, err)
		}
	}
	if got := typed.Words(pattern.Levels()...); len(got) != 3 || got[1] != "take care" {
		t.Errorf("%q", got)
	}
}
