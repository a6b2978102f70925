package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/species"
)

func (a *app) speciesCommand() *cobra.Command {
	return a.command("species", task{json: "oddments/species 1", complete: a.completeSpecies,
		takes: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return failure.Usage(fmt.Sprintf("put a name of several words in quotes: %q", strings.Join(args, " ")),
					"species takes one NAME, and got %q too", args[1])
			}
			return nil
		},
		run: func(_ *cobra.Command, args []string) error { return a.species(args) }})
}

// nearestTimbers is how many timbers a hint names.
const nearestTimbers = 3

func (a *app) species(args []string) error {
	home, err := a.Home()
	if err != nil {
		return err
	}
	timbers, err := command.TimbersOf(home)
	if err != nil {
		return err
	}
	list := timbers.All()
	if len(args) == 1 {
		found, ok := timbers.Find(args[0])
		if !ok {
			return failure.New(failure.CodeNotFound, nearest(timbers, args[0]), "there is no timber %q", args[0])
		}
		list = []species.Species{found}
	}
	switch {
	case a.AsJSON:
		a.JSON(result.Species(list))
	case len(args) == 1:
		a.printTimber(list[0])
	default:
		a.printTimbers(list)
	}
	return nil
}

// nearest returns the hint to a name that no timber has.
func nearest(timbers *species.Table, name string) string {
	var keys []string
	for _, s := range timbers.Nearest(name, nearestTimbers) {
		keys = append(keys, s.Key)
	}
	if len(keys) == 0 {
		return "oddments species lists the timbers"
	}
	return "nearest: " + strings.Join(keys, ", ")
}

// printTimbers prints one row a timber.
func (a *app) printTimbers(list []species.Species) {
	timber := rows.Form{{"key", ""}, {"timber", "  "}, {"", "  "}, {"cr", "  "}, {"ct", "  "}, {"density", "  "},
		{"hardness", "  "}, {"colour", "  about "}, {"oiled", ", oiled "}}
	keys := command.Padded(list, func(s species.Species) string { return s.Key })
	names := command.Padded(list, func(s species.Species) string { return s.Name })
	for i, s := range list {
		a.Row(timber, pattern.Fine, keys[i], names[i], s.Letters,
			orNoFigure(s.CR, "cr %.5f", 10), orNoFigure(s.CT, "ct %.5f", 10),
			orNoFigure(s.DensityKgM3, "%.0f kg/m3", 10), orNoFigure(s.JankaN, "%.0f N", 9), s.Colour.String(), s.ColourOiled.String())
	}
}

// orNoFigure prints a number, to the right of its column.
func orNoFigure(x float64, format string, wide int) string {
	text := "no figure"
	if x != 0 {
		text = fmt.Sprintf(format, x)
	}
	return fmt.Sprintf("%*s", wide, text)
}

// printTimber prints every value of a timber with where it comes from.
func (a *app) printTimber(s species.Species) {
	values := rows.Form{{"value", ""}, {"", ": "}, {"source", "; "}}
	a.Row(values, pattern.Fine, "key", s.Key)
	for _, v := range s.Values() {
		text := v.Text
		if _, colour := v.Data.(species.RGB); colour {
			text = "about " + text
		}
		if v.Unit != "" {
			text += " " + v.Unit
		}
		a.Row(values, pattern.Fine, v.Name+inWords(v.Name), text, v.Source.Told())
	}
	a.Say("%s", species.Legend)
	a.Say("what is said of food, dust and law is a caution and no advice: local rules come first")
}

// inWords says what a key of species.toml is that does not say it itself.
func inWords(key string) string {
	switch key {
	case "cr":
		return ", movement along the radius"
	case "ct":
		return ", movement along the rings"
	case "janka_n":
		return ", hardness"
	default:
		return ""
	}
}
