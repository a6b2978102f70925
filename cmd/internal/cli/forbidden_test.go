package cli_test

import (
	"strings"
	"testing"
)

// A word that no file may hold is refused as a word, before anything is saved.
func TestForbiddenWordIsWrongUsage(t *testing.T) {
	const name = "Hearth \u202etrivet"
	for _, args := range [][]string{
		{"arrange", "beech", "name " + name},
		{"arrange", "beech", "notes " + name},
		{"arrange", "--new", name, "panel length 300", "panel thickness 20"},
		{"suggest", "--width", "60", "--thickness", "22", "--length", "300", "--have", "hornbeam 30 x4", "--save", name},
		{"made", "beech", "4, note " + name},
	} {
		s := stage{home: t.TempDir()}
		s.write(t, "patterns/beech.toml", beech)
		if out, said, exit := s.run(t, args...); exit != 2 || !strings.Contains(said, "U+202E") || strings.Contains(said, ".toml") {
			t.Errorf("%q: exit %d\n%s%s", args, exit, out, said)
		}
	}
}
