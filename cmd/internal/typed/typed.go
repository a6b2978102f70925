// Package typed has flags whose values are of any type that can be read, and readers of the
// values that several commands take.
package typed

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern/length"
)

// A value is a flag of any type that can be read.
type value[T any] struct {
	into        *T
	kind, shown string
	read        func(string) (T, error)
}

// Flag puts a flag on a command. In the help kind stands for its value, and byDefault is
// what it is where nobody says; empty: nothing is said of that.
func Flag[T any](to *pflag.FlagSet, into *T, name, kind, byDefault string, read func(string) (T, error), says string) {
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

// Optional reads as read does, for a flag that tells what was said from nothing.
func Optional[T any](read func(string) (T, error)) func(string) (*T, error) {
	return func(text string) (*T, error) {
		v, err := read(text)
		return &v, err
	}
}

// Shown returns a number as it is typed.
func Shown(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// Number reads a number without sign and exponent.
func Number(text string) (float64, bool) {
	x, err := strconv.ParseFloat(text, 64)
	return x, err == nil && strings.Trim(text, "0123456789.") == "" && !math.IsInf(x, 0)
}

// Count reads a whole number above 0, up to most.
func Count(most int) func(string) (int, error) {
	return func(text string) (int, error) {
		n, err := strconv.ParseUint(text, 10, 31)
		if err != nil || n < 1 || int(n) > most {
			return 0, fmt.Errorf("%q: must be a whole number from 1 to %d", text, most)
		}
		return int(n), nil
	}
}

// Length reads a length of at least least and at most most; a bare number is millimetres.
func Length(least, most length.Length) func(string) (length.Length, error) {
	return func(text string) (length.Length, error) {
		l, err := length.Parse(text)
		if err == nil && (l < least || l > most) {
			err = fmt.Errorf("%q: must be %s to %s", text, least, most)
		}
		return l, err
	}
}

// Words lists values as they are typed, for a shell that completes them.
func Words[T fmt.Stringer](all ...T) []string {
	out := make([]string, len(all))
	for i, v := range all {
		out[i] = v.String()
	}
	return out
}

// Complete offers the values of a flag that has a few. A flag that is not there
// completes nothing, which a test of all of them meets; no maker is to lose work by it.
func Complete(cmd *cobra.Command, flag string, values []string) {
	_ = cmd.RegisterFlagCompletionFunc(flag, cobra.FixedCompletions(values, cobra.ShellCompDirectiveNoFileComp))
}

// Explain puts an error of flags into our words; hint says where to read of them.
func Explain(err error, hint string) *failure.Problem {
	var unknown *pflag.NotExistError
	var bare *pflag.ValueRequiredError
	var wrong *pflag.InvalidValueError
	switch {
	case errors.As(err, &unknown):
		name := "--" + unknown.GetSpecifiedName()
		if unknown.GetSpecifiedShortnames() != "" {
			name = name[1:]
		}
		if strings.Trim(name, "-0123456789.,") == "" {
			hint = "write -- before a number below 0, like: -- " + name
		}
		return failure.Usage(hint, "there is no flag %q", name)
	case errors.As(err, &bare):
		return failure.Usage(hint, "--%s needs a value", bare.GetFlag().Name)
	case errors.As(err, &wrong) && wrong.GetFlag().Value.Type() == "bool":
		return failure.Usage("write it without a value", "--%s %q: must be true or false", wrong.GetFlag().Name, wrong.GetValue())
	case errors.As(err, &wrong):
		return failure.Usage(hint, "--%s: %v", wrong.GetFlag().Name, errors.Unwrap(wrong))
	default:
		return failure.Usage(hint, "%v", err)
	}
}
