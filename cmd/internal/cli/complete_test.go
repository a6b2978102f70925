package cli_test

import (
	"strings"
	"testing"
)

// Every flag that has a few values offers them, and none of them a file.
func TestFlagValuesComplete(t *testing.T) {
	s := stage{home: t.TempDir()}
	for _, c := range []struct{ args, want string }{
		{"check --units", "mm in"}, {"check --color", "auto truecolor 256 16 none"}, {"check --time", ""},
		{"rack list --sort", "timber length volume id first"}, {"suggest --level", "fine take care"},
		{"suggest --aim", "use-up contrast"}, {"suggest --widths", "standing"}, {"resize --by", "any widths repeats"},
		{"again --level", "fine take care"}, {"relief --wetter", "top=1 under=1"},
	} {
		out, _, exit := s.run(t, append(append([]string{"__complete"}, strings.Fields(c.args)...), "")...)
		offered := strings.Join(strings.Fields(out), " ")
		if exit != 0 || !strings.HasPrefix(offered, c.want) || !strings.Contains(out, ":4") {
			t.Errorf("%s: exit %d, offers %q, want %q and no files", c.args, exit, offered, c.want)
		}
	}
}
