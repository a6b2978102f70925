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

// parse reads the embedded table. The maker's own file is read by a stricter reader,
// with line and column; this one only has to trust what the tests have checked.
func parse(data []byte) ([]Species, error) {
	var file struct {
		Format  string    `toml:"format"`
		Species []Species `toml:"species"`
	}
	if err := toml.Unmarshal(data, &file); err != nil {
		return nil, fmt.Errorf("table of timbers: %w", err)
	}
	if file.Format != Format {
		return nil, fmt.Errorf("table of timbers: format %q: must be %q", file.Format, Format)
	}
	return file.Species, nil
}
