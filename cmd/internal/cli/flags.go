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

	"example.com/oddments/pattern/length"
	"example.com/oddments/tui/paint"
)

// flags are those that every command has.
type flags struct {
	home, rack, shop string
	json             bool
	units            unitFlag
	colour           colourFlag
	seconds          secondsFlag
}

const defaultSeconds = 10

// add puts the flags on the root command, for all commands.
func (f *flags) add(to *pflag.FlagSet) {
	f.seconds = defaultSeconds
	to.StringVar(&f.home, "home", "", "folder `DIR` of your files; else $ODDMENTS_HOME, else your data folder")
	to.StringVar(&f.rack, "rack", "", "rack `FILE` that stands in for the home's")
	to.StringVar(&f.shop, "shop", "", "shop `FILE` that stands in for the home's")
	to.BoolVar(&f.json, "json", false, "results and errors as JSON, lengths in mm")
	to.Var(&f.units, "units", "mm or in, for plain text; else the shop's")
	to.Var(&f.colour, "color", "auto, truecolor, 256, 16 or none, for the bench")
	to.Var(&f.seconds, "time", "seconds that a search may take")
}

// A unitFlag is mm or in; the zero value is that nobody said.
type unitFlag struct{ unit *length.Unit }

func (f *unitFlag) String() string {
	if f.unit == nil {
		return ""
	}
	return f.unit.String()
}

func (f *unitFlag) Type() string { return "mm|in" }

func (f *unitFlag) Set(text string) error {
	unit, err := length.ParseUnit(text)
	if err == nil {
		f.unit = &unit
	}
	return err
}

// A colourFlag is a profile; the zero value is auto.
type colourFlag struct{ profile *paint.Profile }

const autoColour = "auto"

func (f *colourFlag) String() string {
	if f.profile == nil {
		return autoColour
	}
	return f.profile.String()
}

func (f *colourFlag) Type() string { return "COLOURS" }

func (f *colourFlag) Set(text string) error {
	if text == autoColour {
		f.profile = nil
		return nil
	}
	profile, err := paint.ParseProfile(text)
	if err != nil {
		return fmt.Errorf("colours %q: must be auto, truecolor, 256, 16 or none", text)
	}
	f.profile = &profile
	return nil
}

// secondsFlag is a plain number of seconds above 0.
type secondsFlag float64

func (f *secondsFlag) String() string { return strconv.FormatFloat(float64(*f), 'f', -1, 64) }

func (f *secondsFlag) Type() string { return "SECONDS" }

func (f *secondsFlag) Set(text string) error {
	seconds, err := strconv.ParseFloat(text, 64)
	if err != nil || strings.Trim(text, "0123456789.") != "" || !(seconds > 0) || math.IsInf(seconds, 0) {
		return fmt.Errorf("%q: must be a plain number of seconds above 0, like 2.5", text)
	}
	*f = secondsFlag(seconds)
	return nil
}

// duration returns the seconds as a time; beyond what any search takes it is a year.
func (f secondsFlag) duration() time.Duration {
	const year = 365 * 24 * time.Hour
	if float64(f) >= year.Seconds() {
		return year
	}
	return time.Duration(float64(f) * float64(time.Second))
}

// wrongFlag puts cobra's errors of flags into our words.
func wrongFlag(cmd *cobra.Command, err error) error {
	hint := helpHint(cmd)
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var value *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		name := unknown.GetSpecifiedName()
		if unknown.GetSpecifiedShortnames() != "" {
			return usage(hint, "there is no flag %q", "-"+name)
		}
		return usage(hint, "there is no flag %q", "--"+name)
	case errors.As(err, &bare):
		return usage(hint, "--%s needs a value", bare.GetFlag().Name)
	case errors.As(err, &value):
		if value.GetFlag().Value.Type() == "bool" {
			return usage("write it without a value", "--%s %q: must be true or false", value.GetFlag().Name, value.GetValue())
		}
		return usage(hint, "--%s: %v", value.GetFlag().Name, errors.Unwrap(value))
	default:
		return usage(hint, "%v", err)
	}
}

// helpHint says where the help of a command is.
func helpHint(cmd *cobra.Command) string {
	return cmd.CommandPath() + " --help says what may stand there"
}

// profile returns the colours that the bench is to use, and why.
func (a *app) profile() (paint.Profile, string) {
	if a.flags.colour.profile != nil {
		return *a.flags.colour.profile, "--color says so"
	}
	return detectColours(a.env.Getenv)
}
