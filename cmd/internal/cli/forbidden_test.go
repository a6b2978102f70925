package cli_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A word that no file may hold is refused as a word, before anything is saved, wherever it
// is told: also one that parts words or stands at an end, and would be gone unseen.
func TestForbiddenWordIsWrongUsage(t *testing.T) {
	for _, r := range "\u202e\u2028\u2029\u0085\u007f\t\n" {
		for _, form := range []string{"Hearth %ctrivet", "%ctrivet", "trivet%c"} {
			name := fmt.Sprintf(form, r)
			suggest := []string{"suggest", "--width", "60", "--thickness", "22", "--length", "300", "--have", "hornbeam 30 x4"}
			for _, args := range [][]string{
				{"arrange", "beech", "name " + name},
				{"arrange", "beech", "notes " + name},
				{"arrange", "beech", "width 1" + string(r) + "25"},
				{"arrange", "--new", name, "panel length 300", "panel thickness 20"},
				append(suggest, "--save", name),
				append(suggest, "--have", "hornbeam"+string(r)+"30"),
				{"again", "beech", "--save", name},
				{"made", "beech", "4, note " + name},
				{"made", "beech", "4," + string(r) + "300 wide"},
				{"mark", "beech", "--add", "round" + string(r) + "40"},
				{"mark", "beech", "--knot", "100, 20," + string(r) + "4"},
				{"rack", "add", "pear 500x60x40 note " + name},
			} {
				s := stage{home: t.TempDir()}
				s.write(t, "patterns/beech.toml", beech)
				if out, said, exit := s.run(t, args...); exit != 2 || !strings.Contains(said, fmt.Sprintf("%U", r)) || strings.Contains(said, ".toml") {
					t.Errorf("%q: exit %d\n%s%s", args, exit, out, said)
				}
				files, _ := filepath.Glob(filepath.Join(s.home, "patterns", "*"))
				if now, err := os.ReadFile(filepath.Join(s.home, "patterns", "beech.toml")); err != nil || string(now) != beech || len(files) != 1 {
					t.Errorf("%q: saved, %v, %v", args, files, err)
				}
			}
		}
	}
}
