package command

import (
	"fmt"
	"slices"
	"time"

	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
)

// Flags are those that every command has.
type Flags struct {
	home, Rack, Shop string
	JSON, plain      bool
	Units            *length.Unit   // nil: nobody said
	Colour           *paint.Profile // nil: by the environment
	Seconds          float64
}

const defaultSeconds = 10

// Add puts the flags on the root command, for all commands.
func (f *Flags) Add(to *pflag.FlagSet) {
	f.Seconds = defaultSeconds
	to.StringVar(&f.home, "home", "", "folder `DIR` of your files; else $ODDMENTS_HOME, else your data folder")
	to.StringVar(&f.Rack, "rack", "", "rack `FILE` that stands in for the home's")
	to.StringVar(&f.Shop, "shop", "", "shop `FILE` that stands in for the home's")
	to.BoolVar(&f.JSON, "json", false, "results and errors as JSON, lengths in mm")
	to.BoolVar(&f.plain, "plain", false, "one fact a line, without tables and colours, as through a pipe")
	typed.Flag(to, &f.Units, "units", "mm|in", "", typed.Optional(length.ParseUnit), "mm or in, for plain text; else the shop's")
	typed.Flag(to, &f.Colour, "color", "COLOURS", AutoColour, parseColours, "auto, truecolor, 256, 16 or none, for the bench and for tables")
	typed.Flag(to, &f.Seconds, "time", "SECONDS", typed.Shown(defaultSeconds), parseSeconds, "seconds that a search may take")
}

// AutoColour leaves the colours to the environment.
const AutoColour = "auto"

func parseColours(text string) (*paint.Profile, error) {
	if text == AutoColour {
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

// ParseContrast reads a difference of colours, 0 to 100.
func ParseContrast(text string) (float64, error) {
	contrast, ok := typed.Number(text)
	if !ok || contrast > 100 {
		return 0, fmt.Errorf("%q: must be a plain number from 0 to 100", text)
	}
	return contrast, nil
}

// Across reads a length across the grain.
func Across(text string) (length.Length, error) { return typed.Length(1, pattern.MaxAcross)(text) }

// SearchTime returns how long a search may take; beyond what any takes it is a year.
func (f Flags) SearchTime() time.Duration {
	const year = 365 * 24 * time.Hour
	if f.Seconds >= year.Seconds() {
		return year
	}
	return time.Duration(f.Seconds * float64(time.Second))
}

// Profile returns the colours of the bench and of tables, and why.
func (a *App) Profile() (paint.Profile, string) {
	if a.Flags.Colour != nil {
		return *a.Flags.Colour, "--color says so"
	}
	return paint.Detect(a.Env.Getenv)
}

// asksForJSON looks for --json before the flags are read, since a flag that is wrong
// ends the reading.
func asksForJSON(args []string) bool {
	if end := slices.Index(args, "--"); end >= 0 {
		args = args[:end]
	}
	return slices.Contains(args, "--json") || slices.Contains(args, "--json=true")
}
