package species

import (
	_ "embed"
	"fmt"

	"github.com/pelletier/go-toml/v2"
)

// Format is the first value of a species file, built-in or the maker's own.
const Format = "oddments/species 1"

//go:embed species.toml
var builtin []byte

// A timber is one entry as the file has it: one line a value.
type timber struct {
	Key          string            `toml:"key"`
	Name         string            `toml:"name"`
	Also         []string          `toml:"also"`
	Botanical    string            `toml:"botanical"`
	Letters      string            `toml:"letters"`
	CR           float64           `toml:"cr"`
	CT           float64           `toml:"ct"`
	FSPPct       float64           `toml:"fsp_pct"`
	DensityKgM3  float64           `toml:"density_kg_m3"`
	JankaN       float64           `toml:"janka_n"`
	Colour       RGB               `toml:"colour"`
	ColourOiled  RGB               `toml:"colour_oiled"`
	ColourChange string            `toml:"colour_change"`
	Pores        string            `toml:"pores"`
	OpenPored    bool              `toml:"open_pored"`
	Oily         bool              `toml:"oily"`
	Sensitise    bool              `toml:"sensitiser"`
	Food         string            `toml:"food"`
	NotForFood   bool              `toml:"not_for_food"`
	Dust         string            `toml:"dust"`
	Listed       string            `toml:"listed"`
	Note         string            `toml:"note"`
	Sources      map[string]string `toml:"sources"`
}

// species parses the sources and hands the rest over as it is.
func (t timber) species() Species {
	sources := make(map[string]Source, len(t.Sources))
	for name, text := range t.Sources {
		sources[name] = ParseSource(text)
	}
	return Species{
		Key: t.Key, Name: t.Name, Also: t.Also, Botanical: t.Botanical, Letters: t.Letters,
		CR: t.CR, CT: t.CT, FSPPct: t.FSPPct, DensityKgM3: t.DensityKgM3, JankaN: t.JankaN,
		Colour: t.Colour, ColourOiled: t.ColourOiled, ColourChange: t.ColourChange,
		Pores: t.Pores, OpenPored: t.OpenPored, Oily: t.Oily, Sensitise: t.Sensitise,
		Food: t.Food, NotForFood: t.NotForFood, Dust: t.Dust, Listed: t.Listed, Note: t.Note,
		Sources: sources,
	}
}

// parse reads the embedded table. The maker's own file is read by a stricter reader,
// with line and column; this one only has to trust what the tests have checked.
func parse(data []byte) ([]Species, error) {
	var file struct {
		Format  string   `toml:"format"`
		Species []timber `toml:"species"`
	}
	if err := toml.Unmarshal(data, &file); err != nil {
		return nil, fmt.Errorf("table of timbers: %w", err)
	}
	if file.Format != Format {
		return nil, fmt.Errorf("table of timbers: format %q: must be %q", file.Format, Format)
	}
	list := make([]Species, len(file.Species))
	for i, t := range file.Species {
		list[i] = t.species()
	}
	return list, nil
}
