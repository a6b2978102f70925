package cli

import (
	"fmt"
	"slices"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
)

// flags are those that every command has.
type flags struct {
	home, rack, shop string
	json, plain      bool
	units            *length.Unit   // nil: nobody said
	colour           *paint.Profile // nil: by the environment
	seconds          float64
}

const defaultSeconds = 10

// add puts the flags on the root command, for all commands.
func (f *flags) add(to *pflag.FlagSet) {
	f.seconds = defaultSeconds
	to.StringVar(&f.home, "home", "", "folder `DIR` of your files; else $ODDMENTS_HOME, else your data folder")
	to.StringVar(&f.rack, "rack", "", "rack `FILE` that stands in for the home's")
	to.StringVar(&f.shop, "shop", "", "shop `FILE` that stands in for the home's")
	to.BoolVar(&f.json, "json", false, "results and errors as JSON, lengths in mm")
	to.BoolVar(&f.plain, "plain", false, "one fact a line, without tables and colours, as through a pipe")
	typed.Flag(to, &f.units, "units", "mm|in", "", typed.Optional(length.ParseUnit), "mm or in, for plain text; else the shop's")
	typed.Flag(to, &f.colour, "color", "COLOURS", autoColour, parseColours, "auto, truecolor, 256, 16 or none, for the bench and for tables")
	typed.Flag(to, &f.seconds, "time", "SECONDS", typed.Shown(defaultSeconds), parseSeconds, "seconds that a search may take")
}

const autoColour = "auto"

func parseColours(text string) (*paint.Profile, error) {
	if text == autoColour {
		return nil, nil
	}
	profile, err := paint.ParseProfile(text)
	if err != nil {
		return nil, fmt.Errorf("colours %q: must be auto, truecolor, 256, 16 or none", text)
	}
	return &profile, nil
}

func parseSeconds(text string) (float64, error) {
	seconds, ok := typed.Number(text)
	if !ok || !(seconds > 0) {
		return 0, fmt.Errorf("%q: must be a plain number of seconds above 0, like 2.5", text)
	}
	return seconds, nil
}

func parseContrast(text string) (float64, error) {
	contrast, ok := typed.Number(text)
	if !ok || contrast > 100 {
		return 0, fmt.Errorf("%q: must be a plain number from 0 to 100", text)
	}
	return contrast, nil
}

// across reads a length across the grain.
func across(text string) (length.Length, error) { return typed.Length(1, pattern.MaxAcross)(text) }

// searchTime returns how long a search may take; beyond what any takes it is a year.
func (f flags) searchTime() time.Duration {
	const year = 365 * 24 * time.Hour
	if f.seconds >= year.Seconds() {
		return year
	}
	return time.Duration(f.seconds * float64(time.Second))
}

// wrongFlag puts cobra's errors of flags into our words.
func wrongFlag(cmd *cobra.Command, err error) error { return typed.Explain(err, helpHint(cmd)) }

// profile returns the colours of the bench and of tables, and why.
func (a *app) profile() (paint.Profile, string) {
	if a.flags.colour != nil {
		return *a.flags.colour, "--color says so"
	}
	return paint.Detect(a.env.Getenv)
}

// asksForJSON looks for --json before the flags are read, since a flag that is wrong
// ends the reading.
func asksForJSON(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return slices.Contains(args, "--json") || slices.Contains(args, "--json=true")
}
