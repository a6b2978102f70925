package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/species"
)

const speciesLong = `species lists the timbers that oddments knows, one a line; with NAME all that it
knows of one, each value with its unit and where it comes from. NAME is a key, a
name or another name of the trade, in any case.

Movement cr and ct are the fraction of its size by which the timber moves for
one point of moisture, along the radius and along the rings. Colours are about:
most are visual estimates. Values from your own species.toml are marked (yours).`

func (a *app) speciesCommand() *cobra.Command {
	return &cobra.Command{
		Use:         "species [NAME]",
		Short:       "list the timbers, or all that is known of one",
		Long:        speciesLong,
		Example:     "  oddments species\n  oddments species black_walnut\n  oddments species \"sugar maple\" --json",
		Annotations: jsonToo(),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage(fmt.Sprintf("put a name of several words in quotes: %q", strings.Join(args, " ")),
					"species takes one NAME, and got %q too", args[1])
			}
			return nil
		},
		RunE:              func(_ *cobra.Command, args []string) error { return a.species(args) },
		ValidArgsFunction: a.completeSpecies,
	}
}

// nearestTimbers is how many timbers a hint names.
const nearestTimbers = 3

func (a *app) species(args []string) error {
	home, err := a.home()
	if err != nil {
		return err
	}
	timbers, err := table(home)
	if err != nil {
		return err
	}
	list := timbers.All()
	if len(args) == 1 {
		found, ok := timbers.Find(args[0])
		if !ok {
			return &problem{Code: codeNotFound, Message: fmt.Sprintf("there is no timber %q", args[0]), Hint: "nearest: " + nearest(timbers, args[0])}
		}
		list = []species.Species{found}
	}
	switch {
	case a.json:
		_, _ = a.out.WriteString(jsonLine(speciesOf(list)))
	case len(args) == 1:
		a.printTimber(list[0])
	default:
		a.printTimbers(list)
	}
	return nil
}

func nearest(timbers *species.Table, name string) string {
	var keys []string
	for _, s := range timbers.Nearest(name, nearestTimbers) {
		keys = append(keys, s.Key)
	}
	return strings.Join(keys, ", ")
}

// printTimbers prints one line a timber.
func (a *app) printTimbers(list []species.Species) {
	wide, wideName := 0, 0
	for _, s := range list {
		wide, wideName = max(wide, len(s.Key)), max(wideName, len([]rune(visible(s.Name))))
	}
	for _, s := range list {
		fmt.Fprintf(a.out, "%-*s  %-*s  %s  %s  %s  %s  %s  about %s, oiled %s\n",
			wide, s.Key, wideName, visible(s.Name), s.Letters,
			orNoFigure(s.CR, "cr %.5f", 10), orNoFigure(s.CT, "ct %.5f", 10),
			orNoFigure(s.DensityKgM3, "%.0f kg/m3", 10), orNoFigure(s.JankaN, "%.0f N", 9),
			s.Colour, s.ColourOiled)
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
	fmt.Fprintf(a.out, "key: %s\n", s.Key)
	for _, v := range s.Values() {
		text := v.Text
		if _, colour := v.Data.(species.RGB); colour {
			text = "about " + text
		}
		if v.Unit != "" {
			text += " " + v.Unit
		}
		if source := v.Source.String(); source != "" {
			text += "; " + source
		}
		fmt.Fprintf(a.out, "%s%s: %s\n", v.Name, inWords(v.Name), visible(text))
	}
	fmt.Fprintln(a.out, "what is said of food, dust and law is a caution and no advice: local rules come first")
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

// The JSON of timbers. A number that nobody knows is null.
type (
	speciesJSON struct {
		Format  string       `json:"format"`
		Species []oneSpecies `json:"species"`
	}
	oneSpecies struct {
		Key          string            `json:"key"`
		Name         string            `json:"name"`
		CR           *float64          `json:"cr"`
		CT           *float64          `json:"ct"`
		DensityKgM3  *float64          `json:"density_kg_m3"`
		JankaN       *float64          `json:"janka_n"`
		Colour       string            `json:"colour"`
		ColourOiled  string            `json:"colour_oiled"`
		SourcesByKey map[string]string `json:"sources"`
	}
)

func speciesOf(list []species.Species) speciesJSON {
	out := speciesJSON{Format: "oddments/species 1", Species: make([]oneSpecies, 0, len(list))}
	for _, s := range list {
		sources := make(map[string]string, len(s.Sources))
		for name, source := range s.Sources {
			sources[name] = source.String()
		}
		out.Species = append(out.Species, oneSpecies{
			Key: s.Key, Name: s.Name,
			CR: known(s.CR, s.CR > 0), CT: known(s.CT, s.CT > 0),
			DensityKgM3: known(s.DensityKgM3, s.DensityKgM3 > 0), JankaN: known(s.JankaN, s.JankaN > 0),
			Colour: s.Colour.String(), ColourOiled: s.ColourOiled.String(), SourcesByKey: sources,
		})
	}
	return out
}
