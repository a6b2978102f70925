package cli

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

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
	addFlag(to, &f.units, "units", "mm|in", "", optional(length.ParseUnit), "mm or in, for plain text; else the shop's")
	addFlag(to, &f.colour, "color", "COLOURS", autoColour, parseColours, "auto, truecolor, 256, 16 or none, for the bench and for tables")
	addFlag(to, &f.seconds, "time", "SECONDS", shown(defaultSeconds), parseSeconds, "seconds that a search may take")
}

// A value is a flag of any type that can be read.
type value[T any] struct {
	into        *T
	kind, shown string
	read        func(string) (T, error)
}

// addFlag puts a flag on a command. In the help kind stands for its value, and byDefault is
// what it is where nobody says; empty: nothing is said of that.
func addFlag[T any](to *pflag.FlagSet, into *T, name, kind, byDefault string, read func(string) (T, error), says string) {
	to.Var(&value[T]{into, kind, byDefault, read}, name, says)
}

// String returns what the flag is by default.
func (v *value[T]) String() string { return v.shown }

// Type returns what stands for the flag's value in the help.
func (v *value[T]) Type() string { return v.kind }

// Set takes what was typed.
func (v *value[T]) Set(text string) error {
	read, err := v.read(text)
	if err == nil {
		*v.into = read
	}
	return err
}

// optional reads as read does, for a flag that tells what was said from nothing.
func optional[T any](read func(string) (T, error)) func(string) (*T, error) {
	return func(text string) (*T, error) {
		v, err := read(text)
		return &v, err
	}
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

// shown returns a number as it is typed.
func shown(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// plainNumber reads a number without sign and exponent.
func plainNumber(text string) (float64, bool) {
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && strings.Trim(text, "0123456789.") == "" && !math.IsInf(x, 0)
}

func parseSeconds(text string) (float64, error) {
	seconds, ok := plainNumber(text)
	if !ok || !(seconds > 0) {
		return 0, fmt.Errorf("%q: must be a plain number of seconds above 0, like 2.5", text)
	}
	return seconds, nil
}

func parseContrast(text string) (float64, error) {
	contrast, ok := plainNumber(text)
	if !ok || contrast > 100 {
		return 0, fmt.Errorf("%q: must be a plain number from 0 to 100", text)
	}
	return contrast, nil
}

// countTo reads a whole number above 0, up to most.
func countTo(most int) func(string) (int, error) {
	return func(text string) (int, error) {
		n, err := strconv.ParseUint(text, 10, 31)
		if err != nil || n < 1 || int(n) > most {
			return 0, fmt.Errorf("%q: must be a whole number from 1 to %d", text, most)
		}
		return int(n), nil
	}
}

// lengthTo reads a length of at least least and at most most; a bare number is millimetres.
func lengthTo(least, most length.Length) func(string) (length.Length, error) {
	return func(text string) (length.Length, error) {
		l, err := length.Parse(text)
		if err == nil && (l < least || l > most) {
			err = fmt.Errorf("%q: must be %s to %s", text, least, most)
		}
		return l, err
	}
}

// across reads a length across the grain.
func across(text string) (length.Length, error) { return lengthTo(1, pattern.MaxAcross)(text) }

// words lists values as they are typed, for a shell that completes them.
func words[T fmt.Stringer](all ...T) []string {
	out := make([]string, len(all))
	for i, v := range all {
		out[i] = v.String()
	}
	return out
}

// completeValues offers the values of a flag that has a few. A flag that is not there
// completes nothing, which a test of all of them meets; no maker is to lose work by it.
func completeValues(cmd *cobra.Command, flag string, values []string) {
	_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
}

// searchTime returns how long a search may take; beyond what any takes it is a year.
func (f flags) searchTime() time.Duration {
	const year = 365 * 24 * time.Hour
	if f.seconds >= year.Seconds() {
		return year
	}
	return time.Duration(f.seconds * float64(time.Second))
}

// wrongFlag puts cobra's errors of flags into our words.
func wrongFlag(cmd *cobra.Command, err error) error {
	hint := helpHint(cmd)
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var wrong *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		name := "--" + unknown.GetSpecifiedName()
		if unknown.GetSpecifiedShortnames() != "" {
			name = name[1:]
		}
		return usage(hint, "there is no flag %q", name)
	case errors.As(err, &bare):
		return usage(hint, "--%s needs a value", bare.GetFlag().Name)
	case errors.As(err, &wrong) && wrong.GetFlag().Value.Type() == "bool":
		return usage("write it without a value", "--%s %q: must be true or false", wrong.GetFlag().Name, wrong.GetValue())
	case errors.As(err, &wrong):
		return usage(hint, "--%s: %v", wrong.GetFlag().Name, errors.Unwrap(wrong))
	default:
		return usage(hint, "%v", err)
	}
}

// profile returns the colours of the bench and of tables, and why.
func (a *app) profile() (paint.Profile, string) {
	if a.flags.colour != nil {
		return *a.flags.colour, "--color says so"
	}
	return detectColours(a.env.Getenv)
}
