package cli_test

import (
	"strings"
	"testing"
)

// A word that no file may hold is refused as a word, before anything is saved.
func TestForbiddenWordIsWrongUsage(t *testing.T) {
	const name = "Hearth \u202etrivet"
	for _, args := range [][]string{
		{"arrange", "rookery-square", "name " + name},
		{"arrange", "rookery-square", "notes " + name},
		{"arrange", "--new", name, "panel length 300", "panel thickness 20"},
		{"suggest", "--width", "60", "--thickness", "22", "--length", "300", "--have", "hornbeam 30 x4", "--save", name},
		{"made", "rookery-square", "4, note " + name},
	} {
		s := stage{home: t.TempDir()}
		s.write(t, "patterns/rookery-square.toml", rail)
		if out, said, exit := s.run(t, args...); exit != 2 || !strings.Contains(said, "U+202E") || strings.Contains(said, ".toml") {
			t.Errorf("%q: exit %d\n%s%s", args, exit, out, said)
		}
	}
}

const rail = `format = "oddments/pattern 1"
name = "Rail"
[panel]
length = "400 mm"
thickness = "22 mm"
[[strip]]
species = "hornbeam"
width = "25 mm"
`
