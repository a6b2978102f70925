package cli_test

import (
	"strings"
	"testing"
)

// Whoever sits at a terminal is asked which timber is meant, once for all lines; elsewhere,
// and where no answer comes, it is said what to type. What a line before says is not asked.
func TestTimberIsAskedFor(t *testing.T) {
	for _, c := range []struct {
		name, answers string
		args          []string
		want, exit    string
		asked         int
	}{
		{"the second", "2\n", []string{"walnut", "620", "85", "77"}, "European walnut", "", 1},
		{"once for two lines", " 1 \n", []string{"walnut 620 85 77", "walnut 500 85 77"}, "black walnut", "", 1},
		{"said by the line before", "", []string{"European walnut 620 85 77", "walnut 500 85 77"}, "European walnut", "", 0},
		{"said before the last", "", []string{"European walnut 620 85 77", "black walnut 620 85 77", "European walnut 620 85 77", "walnut 500 85 77"}, "", "", 0},
		{"no answer", "", []string{"walnut 620 85 77"}, "", "write oddments rack add \"black walnut 620 85 77\" or ", 1},
		{"another number", "3\n", []string{"walnut 620 85 77"}, "", "the rack is as it was", 1},
		{"no number", "both\n", []string{"walnut 620 85 77"}, "", "the rack is as it was", 1},
		{"JSON", "1\n", []string{"walnut 620 85 77", "--json"}, "", `oddments rack add`, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := stage{home: t.TempDir(), terminal: true, answers: c.answers}
			out, messages, exit := s.run(t, append([]string{"rack", "add", "--plain"}, c.args...)...)
			if c.exit == "" && (exit != 0 || strings.Count(out, "added ") == 0 || strings.Count(out, "added ") != strings.Count(out, ": "+c.want)) {
				t.Errorf("exit %d: %s%s", exit, out, messages)
			}
			if c.exit != "" && (exit != 2 || !strings.Contains(messages, c.exit) || out != "") {
				t.Errorf("exit %d: %s%s", exit, out, messages)
			}
			if asked := strings.Count(messages, "which? "); asked != c.asked {
				t.Errorf("asked %d times: %s", asked, messages)
			}
		})
	}
}
