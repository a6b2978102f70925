package cli_test

import (
	"strings"
	"testing"
)

// pieces keeps what comes write by write.
type pieces struct{ all []string }

func (p *pieces) Write(b []byte) (int, error) {
	p.all = append(p.all, string(b))
	return len(b), nil
}

// noneRack has too little for a panel of 900 mm: four strips of 25 mm of each timber.
const noneRack = `format = "oddments/rack 1"
[[piece]]
id = "M1"
species = "hard_maple"
length = "500 mm"
width = "64 mm"
thickness = "64 mm"
[[piece]]
id = "W1"
species = "black_walnut"
length = "500 mm"
width = "64 mm"
thickness = "64 mm"
`

func TestThatThereIsNoneComesBeforeWhatToLoosen(t *testing.T) {
	s := stage{home: t.TempDir()}
	s.write(t, "rack.toml", noneRack)
	s.write(t, "patterns/rail.toml", `format = "oddments/pattern 1"
name = "Rail"
[panel]
length = "400 mm"
thickness = "22 mm"
[[strip]]
species = "hard_maple"
width = "25 mm"
count = 9
`)
	for _, c := range []struct{ args, none, loosen string }{
		{"suggest --width 900 --thickness 22 --length 400 --widths 25", "layouts: none: nothing from ", "\nloosen: allow the width to differ by "},
		{"again rail", "answers: none: no timbers of the rack", "loosen: no other --level and no fewer panels"},
	} {
		var kept pieces
		s.stdout = &kept
		_, stderr, exit := s.run(t, strings.Fields(c.args)...)
		if exit != 1 || stderr != "" {
			t.Fatalf("%s: exit %d, %q", c.args, exit, stderr)
		}
		if len(kept.all) < 2 || !strings.Contains(kept.all[0], c.none) || strings.Contains(kept.all[0], "loosen") {
			t.Fatalf("%s: it does not say at once that there is none: %q", c.args, kept.all)
		}
		rest := "\n" + strings.Join(kept.all[1:], "")
		if !strings.Contains(rest, c.loosen) || strings.Contains(rest, c.none) {
			t.Errorf("%s: then came %q", c.args, rest)
		}
		kept.all = nil
		if _, _, exit := s.run(t, append(strings.Fields(c.args), "--json")...); exit != 1 || len(kept.all) != 1 || strings.Count(kept.all[0], "\n") != 1 {
			t.Errorf("%s --json: exit %d, %q: must be one object", c.args, exit, kept.all)
		}
	}
}

// The workshop's standing widths serve where they are asked for by their word.
func TestSuggestStandingWidths(t *testing.T) {
	s := stage{home: t.TempDir()}
	s.write(t, "rack.toml", noneRack)
	const ask = "suggest --width 80 --thickness 20 --length 300 --layouts 1 --widths standing"
	_, messages, exit := s.run(t, strings.Fields(ask)...)
	if exit != 2 || !strings.Contains(messages, "shop.toml has none") || !strings.Contains(messages, `[standing]`) {
		t.Errorf("exit %d: %s", exit, messages)
	}
	s.write(t, "shop.toml", "format = \"oddments/shop 1\"\n[standing]\nwidths = [20, \"40 mm\"]\n")
	out, messages, exit := s.run(t, strings.Fields(ask)...)
	if exit > 1 || !strings.Contains(out, "20 or 40 mm wide") {
		t.Errorf("exit %d: %s%s", exit, out, messages)
	}
}
