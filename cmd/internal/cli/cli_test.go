package cli_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io"
	"math"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
)

// A stage is a world for one run.
type stage struct {
	home     string
	terminal bool
	answers  string // what is typed when something is asked
	columns  int    // of the terminal; 0: 72
	env      map[string]string
	bench    func(command.BenchOptions) error
	stdout   io.Writer // nil: kept
	solvers  command.Solvers
}

// run does what args say and gives what was printed and the exit.
func (s stage) run(t *testing.T, args ...string) (stdout, stderr string, exit int) {
	t.Helper()
	var out, messages bytes.Buffer
	columns := s.columns
	if columns == 0 {
		columns = 72
	}
	env := command.Env{
		Stdin: strings.NewReader(s.answers), Stdout: &out, Stderr: &messages, Version: "v1.2.3", Solvers: s.solvers,
		Getenv: func(name string) string {
			if name == "ODDMENTS_HOME" {
				return s.home
			}
			return s.env[name]
		},
		IsTerminal:   func() bool { return s.terminal },
		TerminalSize: func() (int, int) { return columns, 20 },
		Bench: func(_ context.Context, o command.BenchOptions) error {
			if s.bench == nil {
				t.Error("the bench was opened")
				return nil
			}
			return s.bench(o)
		},
	}
	if s.stdout != nil {
		env.Stdout = s.stdout
	}
	exit = cli.Run(context.Background(), args, env)
	return out.String(), messages.String(), exit
}

// write puts a file into the home and gives its path.
func (s stage) write(t *testing.T, name, text string) string {
	t.Helper()
	path := filepath.Join(s.home, name)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

const beech = `format = "oddments/pattern 1"
[panel]
length = "400 mm"
thickness = "20 mm"
`

func TestBenchOpensOnATerminal(t *testing.T) {
	home := t.TempDir()
	var got []command.BenchOptions
	s := stage{home: home, terminal: true, env: map[string]string{"TERM": "xterm", "COLORTERM": "truecolor"},
		bench: func(o command.BenchOptions) error { got = append(got, o); return nil }}
	file := s.write(t, "patterns/beech.toml", beech)

	inches := length.InInches
	for _, c := range []struct {
		args []string
		want command.BenchOptions
	}{
		{nil, command.BenchOptions{Version: "v1.2.3"}},
		{[]string{"beech"}, command.BenchOptions{Pattern: "beech", Version: "v1.2.3"}},
		{[]string{file, "--units", "in", "--color", "16", "--rack", "r.csv"},
			command.BenchOptions{Pattern: file, Unit: &inches, Profile: paint.ANSI16, Rack: "r.csv", Version: "v1.2.3"}},
	} {
		got = nil
		out, messages, exit := s.run(t, c.args...)
		if exit != 0 || out != "" || messages != "" || len(got) != 1 {
			t.Fatalf("%q: exit %d, stdout %q, stderr %q, %d benches", c.args, exit, out, messages, len(got))
		}
		if dir := got[0].Home.Dir(); dir != home {
			t.Errorf("%q: home %s, want %s", c.args, dir, home)
		}
		got[0].Home = nil
		if diff := cmp.Diff(c.want, got[0]); diff != "" {
			t.Errorf("%q: (-want +got)\n%s", c.args, diff)
		}
	}
}

// What cannot be opened is told of before the screen is taken over, and nobody is
// shown a screen that cannot be drawn or was not asked for.
func TestBenchStaysShut(t *testing.T) {
	s := stage{home: t.TempDir(), terminal: true, env: map[string]string{"TERM": "xterm"}}
	s.write(t, "patterns/beech.toml", beech)
	s.write(t, "patterns/oak.toml", "format = 3\n")
	for name, c := range map[string]struct {
		args []string
		term string
		exit int
	}{
		"no such pattern":   {[]string{"ash"}, "xterm", 3},
		"broken pattern":    {[]string{"oak"}, "xterm", 3},
		"mistyped command":  {[]string{"docter"}, "xterm", 2},
		"two patterns":      {[]string{"beech", "oak"}, "xterm", 2},
		"JSON asked for":    {[]string{"beech", "--json"}, "xterm", 0},
		"another command":   {[]string{"check", "beech"}, "xterm", 0},
		"help":              {[]string{"--help"}, "xterm", 0},
		"broken stand-in":   {[]string{"beech", "--shop", s.write(t, "odd.toml", "x = 1\n")}, "xterm", 3},
		"wrong flag's word": {[]string{"--color", "puce"}, "xterm", 2},
	} {
		s.env["TERM"] = c.term
		if _, messages, exit := s.run(t, c.args...); exit != c.exit || (exit > 1) != (messages != "") {
			t.Errorf("%s: exit %d, want %d; stderr %q", name, exit, c.exit, messages)
		}
	}
}

// A terminal that shows no screens is told so, and not that it is none.
func TestBenchStaysShutOnADumbTerminal(t *testing.T) {
	for _, args := range [][]string{nil, {"beech"}} {
		s := stage{home: t.TempDir(), terminal: true, env: map[string]string{"TERM": "dumb"}}
		if args == nil {
			_, messages, exit := s.run(t)
			if exit > 1 || !strings.Contains(messages, "this terminal shows no screens (TERM is dumb)") {
				t.Errorf("an empty home: exit %d, stderr %q", exit, messages)
			}
		}
		s.write(t, "patterns/beech.toml", beech)
		out, messages, exit := s.run(t, args...)
		if want := "this terminal shows no screens (TERM is dumb), so here is the check of"; exit != 0 || out == "" || !strings.Contains(messages, want) {
			t.Errorf("%q: exit %d, stderr %q", args, exit, messages)
		}
	}
}

// An empty home is offered the demo, and its patterns open by their names; with a
// pattern of one's own they are gone.
func TestBenchOpensThePatternsOfTheDemo(t *testing.T) {
	var got []string
	s := stage{home: t.TempDir(), terminal: true, env: map[string]string{"TERM": "xterm"},
		bench: func(o command.BenchOptions) error { got = append(got, o.Pattern); return nil }}
	if _, messages, exit := s.run(t, "saltings-round"); exit != 0 || len(got) != 1 || got[0] != "saltings-round" {
		t.Errorf("exit %d, opened %q, stderr %q", exit, got, messages)
	}
	s.write(t, "patterns/beech.toml", beech)
	if _, _, exit := s.run(t, "saltings-round"); exit != 3 || len(got) != 1 {
		t.Errorf("with a pattern of one's own: exit %d, opened %q", exit, got)
	}
}

func TestBenchFailureIsReported(t *testing.T) {
	s := stage{home: t.TempDir(), terminal: true, env: map[string]string{"TERM": "xterm"}}
	for name, c := range map[string]struct {
		err  error
		want string
	}{
		"plain": {errors.New("no room"), "oddments: no room\n"},
		"busy": {&store.Error{File: "home", Doing: "write to", Hint: "close the other one", Err: store.ErrBusy},
			"oddments: home: write to: another oddments is writing to this home\nhint: close the other one\n"},
	} {
		s.bench = func(command.BenchOptions) error { return c.err }
		if _, messages, exit := s.run(t); exit != 3 || messages != c.want {
			t.Errorf("%s: exit %d, stderr %q, want %q", name, exit, messages, c.want)
		}
	}
}

// A worked example, computed apart from the program by the equations of the USDA Wood
// Handbook FPL-GTR-190 (2010): 4-5 for the equilibrium, 13-2 for the movement, with
// the coefficients of its table 13-5 (sugar maple CR 0.00165, CT 0.00353; black walnut
// CR 0.00190, CT 0.00274) and the densities of the timber table. The equilibrium at
// 20 C is 6.9632 % at 35 % humidity and 11.9963 % at 65 %; the handbook's table 4-2
// has 6.9 and 12.0 at 21.1 C.
//
//	strip 1: 12 mm maple, flat, glued at 8.0 %: C_z = CR = 0.00165, C_w = CT = 0.00353
//	strip 2: 16 mm walnut, quarter, glued at 9.5 %: C_z = CT = 0.00274, C_w = CR = 0.00190
//	width, dry:    12 x 0.00353 x (6.9632 - 8) + 16 x 0.00190 x (6.9632 - 9.5) = -0.1210 mm
//	width, humid:  12 x 0.00353 x (11.9963 - 8) + 16 x 0.00190 x (11.9963 - 9.5) = 0.2452 mm
//	strain, dry:   100 |0.00165 x -1.0368 - 0.00274 x -2.5368| = 0.5240 %, the larger
//	scatter:       15 hypot(0.001711, 0.006951) = 0.1074 %
//	k:             both strips are outermost and count twice: (k1(24/30) + k1(32/30))/2 = 0.94936
//	step, humid:   500 k 30 |0.00165 x 3.4963 - 0.00274 x 3.4963| = 54.269 um, flush at 8.5 %
//	scatter:       500 k 30 x 0.15 hypot(0.005769, 0.009580) = 23.887 um
//	finished:      12 x 30 x 400 mm3 = 144 cm3; rough: (12 + 1 + 3.2)(30 + 2 + 2 + 1.2)(420) mm3 = 239.50 cm3
//	contrast:      CIEDE2000 of #E0C596 and #4A3222, after Sharma, Wu and Dalal (2005), apart from go-colorful: 57.8204
func TestCheckJSONIsTheWorkedExample(t *testing.T) {
	s := stage{home: t.TempDir()}
	s.write(t, "shop.toml", "format = \"oddments/shop 1\"\n[allowance]\nplaning = 2\nflattening = 2\nlength = 20\n")
	s.write(t, "patterns/sill.toml", `format = "oddments/pattern 1"
name = "Worked sill"
[panel]
length = "400 mm"
thickness = "30 mm"
width = "30 mm"
flattened = 8.5
[[strip]]
species = "hard_maple"
width = "12 mm"
rings = "flat"
moisture = 8
[[strip]]
species = "black_walnut"
width = "16 mm"
rings = "quarter"
moisture = 9.5
`)
	out, messages, exit := s.run(t, "check", "--json", "sill")
	if exit != 0 || messages != "" {
		t.Fatalf("exit %d, stderr %q", exit, messages)
	}
	got := object(t, out)
	if n := len(got["findings"].([]any)); n != 5 {
		t.Errorf("%d findings, want 5", n)
	}
	for _, f := range got["findings"].([]any) {
		finding := f.(map[string]any)
		for _, text := range []string{"message", "remedy"} {
			if _, ok := finding[text].(string); !ok {
				t.Errorf("finding %v has no %s", finding, text)
			}
			delete(finding, text) // package check holds its words
		}
	}
	want := object(t, `{"format": "oddments/check 1", "pattern": "sill", "name": "Worked sill", "strips": 2,
		"length_mm": 400, "thickness_mm": 30, "glue_up_width_mm": 28, "level": "take care",
		"seasons": [
			{"name": "dry", "temperature_c": 20, "humidity_pct": 35, "emc_pct": 6.963230584553596, "width_change_mm": -0.12103534266788035},
			{"name": "humid", "temperature_c": 20, "humidity_pct": 65, "emc_pct": 11.996267219708281, "width_change_mm": 0.24516840290597458}],
		"glue_lines": [{"line": 1, "strain_pct": 0.524007866283658, "strain_pm_pct": 0.10737243791881702,
			"step_um": 50.54438142714011, "step_pm_um": 22.247314103701548, "least_um": 50.54438142714011, "most_um": 50.54438142714011,
			"season": "humid", "moisture_gap_pct": 1.5, "contrast": 57.82036071372471,
			"level": "take care", "settled": true, "borderline": true}],
		"look_first": [], "colours": [{"strip": 1, "colour": "#E0C596", "from": "timber"}, {"strip": 2, "colour": "#4A3222", "from": "timber"}],
		"timber": [
			{"species": "hard_maple", "strips": 1, "width_mm": 12, "finished_cm3": 144, "rough_cm3": 239.5008, "mass_kg": 0.101664},
			{"species": "black_walnut", "strips": 1, "width_mm": 16, "finished_cm3": 192, "rough_cm3": 298.6368, "mass_kg": 0.118272}],
		"findings": [
			{"rule": "movement", "level": "take care", "where": "line 1"},
			{"rule": "moisture", "level": "take care", "where": "line 1"},
			{"rule": "width", "level": "take care", "where": "panel"},
			{"rule": "open_pored", "level": "fine", "where": "panel"},
			{"rule": "dust", "level": "take care", "where": "panel"}]}`)
	if diff := cmp.Diff(want, got, near(1e-5)); diff != "" {
		t.Errorf("(-want +got)\n%s", diff)
	}
	inOrder(t, out, "format", "pattern", "name", "strips", "length_mm", "thickness_mm", "glue_up_width_mm", "level",
		"seasons", "name", "temperature_c", "humidity_pct", "emc_pct", "width_change_mm",
		"glue_lines", "line", "strain_pct", "strain_pm_pct", "step_um", "step_pm_um", "least_um", "most_um", "season",
		"moisture_gap_pct", "contrast", "level", "settled", "borderline", "look_first", "colours", "strip", "colour", "from",
		"timber", "species", "strips", "width_mm", "finished_cm3", "rough_cm3", "mass_kg",
		"findings", "rule", "level", "where", "message", "remedy")
}

// near compares numbers to a share of their size.
func near(share float64) cmp.Option {
	return cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= share*math.Max(math.Abs(a), math.Abs(b)) })
}

func object(t *testing.T, text string) map[string]any {
	t.Helper()
	var v map[string]any
	if err := json.Unmarshal([]byte(text), &v); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	return v
}

// inOrder checks that keys stand in text one after the other.
func inOrder(t *testing.T, text string, keys ...string) {
	t.Helper()
	for _, key := range keys {
		_, after, ok := strings.Cut(text, `"`+key+`":`)
		if !ok {
			t.Fatalf("key %s is missing or out of its order", key)
		}
		text = after
	}
}

// The JSON of each pattern of the demo says what package check says, to the last bit.
func TestCheckJSONIsWhatCheckSays(t *testing.T) {
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	s := stage{home: t.TempDir()}
	home := store.OpenHome(s.home)
	if _, err := home.SaveShop(demo.Shop, store.Absent); err != nil {
		t.Fatal(err)
	}
	args := []string{"check", "--json"}
	for _, saved := range demo.Patterns {
		if _, err := home.SavePattern(saved.Stem, saved.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
		args = append(args, saved.Stem)
	}
	if err := home.Close(); err != nil {
		t.Fatal(err)
	}
	out, messages, exit := s.run(t, args...)
	lines := strings.Split(strings.TrimSuffix(out, "\n"), "\n")
	if len(lines) != len(demo.Patterns) || messages != "" {
		t.Fatalf("%d lines for %d patterns, stderr %q", len(lines), len(demo.Patterns), messages)
	}
	r := movement.New(species.Builtin(), demo.Shop)
	worst := pattern.Fine
	for i, saved := range demo.Patterns {
		report := check.Of(r, saved.Pattern, length.InMM)
		worst = max(worst, report.Level)
		if diff := cmp.Diff(said(t, saved, report), object(t, lines[i])); diff != "" {
			t.Errorf("%s: (-check.Of +JSON)\n%s", saved.Stem, diff)
		}
	}
	if (worst == pattern.TooMuch) != (exit == 1) {
		t.Errorf("exit %d with %s", exit, worst)
	}
}

// said puts a report into the form that JSON is read into, field by field as the
// contract names them.
func said(t *testing.T, saved store.Saved, r check.Report) map[string]any {
	t.Helper()
	type o = map[string]any
	f, p := r.Figures, saved.Pattern
	orNull := func(x any, known bool) any {
		if !known {
			return nil
		}
		return x
	}
	seasons, lines, look, timber, findings := []o{}, []o{}, []o{}, []o{}, []o{}
	for _, s := range f.Seasons {
		seasons = append(seasons, o{"name": s.Season.String(), "temperature_c": s.Air.TemperatureC, "humidity_pct": s.Air.HumidityPct,
			"emc_pct": s.EquilibriumPct, "width_change_mm": orNull(s.WidthChangeMM, s.Known)})
	}
	for _, l := range f.Lines {
		lines = append(lines, o{"line": l.Line, "strain_pct": orNull(l.StrainPct, l.Known), "strain_pm_pct": orNull(l.StrainPM, l.Known),
			"step_um": orNull(l.StepUM, l.Known), "step_pm_um": orNull(l.StepPM, l.Known), "least_um": orNull(l.LeastUM, l.Known),
			"most_um": orNull(l.MostUM, l.Known), "season": orNull(l.Season.String(), l.Known), "moisture_gap_pct": l.GapPct,
			"contrast": l.Contrast, "level": l.Level.String(), "settled": l.Settled, "borderline": l.Borderline})
	}
	for _, l := range f.Look {
		look = append(look, o{"strip": l.Strip, "lines": l.Lines})
	}
	for _, u := range f.Timber {
		timber = append(timber, o{"species": u.Species, "strips": u.Strips, "width_mm": u.Width.MM(), "finished_cm3": u.FinishedCM3,
			"rough_cm3": u.RoughCM3, "mass_kg": orNull(u.MassKg, u.MassKnown)})
	}
	for _, g := range r.Findings {
		findings = append(findings, o{"rule": g.Rule, "level": g.Level.String(), "where": g.Where.String(), "message": g.Message, "remedy": g.Remedy()})
	}
	colours := []any{}
	for i, c := range f.Colours {
		colours = append(colours, o{"strip": i + 1, "colour": c.RGB.String(), "from": map[bool]string{false: "timber", true: "strip"}[c.Own]})
	}
	data, err := json.Marshal(o{"format": "oddments/check 1", "pattern": saved.Stem, "name": p.Name, "strips": len(p.Strips),
		"length_mm": p.Panel.Length.MM(), "thickness_mm": p.Panel.Thickness.MM(), "glue_up_width_mm": f.Width.MM(), "level": r.Level.String(),
		"seasons": seasons, "glue_lines": lines, "look_first": look, "colours": colours, "timber": timber, "findings": findings})
	if err != nil {
		t.Fatal(err)
	}
	return object(t, string(data))
}

// Every value of the table of timbers comes out of the JSON as it went in.
func TestSpeciesJSONIsTheTable(t *testing.T) {
	out, _, exit := stage{home: t.TempDir()}.run(t, "species", "--json")
	if exit != 0 {
		t.Fatalf("exit %d", exit)
	}
	got := object(t, out)["species"].([]any)
	all := species.Builtin().All()
	if len(got) != len(all) {
		t.Fatalf("%d timbers, want %d", len(got), len(all))
	}
	for i, s := range all {
		one := got[i].(map[string]any)
		for key, want := range map[string]float64{"cr": s.CR, "ct": s.CT, "density_kg_m3": s.DensityKgM3, "janka_n": s.JankaN} {
			if value, known := one[key].(float64); known != (want != 0) || value != want {
				t.Errorf("%s: %s is %v, want %v", s.Key, key, one[key], want)
			}
		}
		if one["key"] != s.Key || one["name"] != s.Name || one["colour"] != s.Colour.String() || one["colour_oiled"] != s.ColourOiled.String() {
			t.Errorf("%s came out as %v", s.Key, one)
		}
		if n := len(one["sources"].(map[string]any)); n != len(s.Sources) {
			t.Errorf("%s: %d sources, want %d", s.Key, n, len(s.Sources))
		}
	}
}

// broken is a writer whose every write fails.
type broken struct{ err error }

func (b broken) Write([]byte) (int, error) { return 0, b.err }

// A reader that went away has seen enough; a full disk is a failure.
func TestResultsThatCannotBeWritten(t *testing.T) {
	for name, c := range map[string]struct {
		err  error
		exit int
		says string
	}{
		"reader gone": {syscall.EPIPE, 0, ""},
		"disk full":   {syscall.ENOSPC, 3, "oddments: the results could not be written: "},
	} {
		for _, args := range [][]string{{"species"}, {"keys"}, {"species", "teak"}, {"--help"}, {"completion", "zsh"}} {
			_, messages, exit := stage{home: t.TempDir(), stdout: broken{c.err}}.run(t, args...)
			if exit != c.exit || !strings.HasPrefix(messages, c.says) || strings.Count(messages, "\n") != min(1, len(c.says)) {
				t.Errorf("%s, %q: exit %d, stderr %q", name, args, exit, messages)
			}
		}
	}
}

// A file with a thousand mistakes does not fill the screen; JSON has them all.
func TestManyMistakes(t *testing.T) {
	s := stage{home: t.TempDir()}
	s.write(t, "patterns/beech.toml", beech+strings.Repeat("[[strip]]\nspecies = \"teak\"\nwidth = 0\n", 1000))
	_, messages, exit := s.run(t, "check", "beech")
	if n := strings.Count(messages, "\n"); exit != 3 || n > 110 || !strings.HasSuffix(messages, "oddments: and 950 more\n") {
		t.Errorf("exit %d, %d lines, the last %q", exit, n, messages[max(0, len(messages)-60):])
	}
	if _, messages, _ = s.run(t, "check", "--json", "beech"); strings.Count(messages, "\n") != 1000 {
		t.Errorf("%d lines of JSON, want 1000", strings.Count(messages, "\n"))
	}
}

func TestDoctorOnATerminal(t *testing.T) {
	for name, c := range map[string]struct {
		env  map[string]string
		says []string
	}{
		"plain":    {map[string]string{"TERM": "xterm", "LANG": "C"}, []string{"terminal: yes\n", "size: 72x20, enough to work; 80x24 is needed", "mouse: the bench asks", "LANG is C, which is not UTF-8"}},
		"tmux":     {map[string]string{"TERM": "tmux-256color", "TMUX": "x"}, []string{`mouse: the bench asks for it; tmux`, "neither LC_ALL, LC_CTYPE nor LANG"}},
		"console":  {map[string]string{"TERM": "linux"}, []string{"mouse: the console has none"}},
		"dumb":     {map[string]string{"TERM": "dumb"}, []string{"terminal: yes, but TERM=dumb cannot show the bench", "colours: none"}},
		"no color": {map[string]string{"TERM": "xterm", "NO_COLOR": "1"}, []string{"NO_COLOR: 1\n", "colours: none, since NO_COLOR is set"}},
	} {
		out, _, exit := stage{home: t.TempDir(), terminal: true, env: c.env}.run(t, "doctor")
		for _, want := range c.says {
			if exit != 0 || !strings.Contains(out, want) {
				t.Errorf("%s: exit %d, %q is missing from\n%s", name, exit, want, out)
			}
		}
	}
}

// No command puts into words what nobody may promise.
func TestNothingIsPromised(t *testing.T) {
	s := stage{home: filepath.Join(t.TempDir(), "none")}
	runs := [][]string{{}, {"keys"}, {"doctor"}, {"--help"}, {"rack", "list", "--help"}, {"rack", "add", "--help"},
		{"rack", "import", "--help"}, {"rack", "export", "--help"}}
	for _, cmd := range cli.Tree(command.System()).Commands() {
		runs = append(runs, []string{cmd.Name(), "--help"})
	}
	for _, timber := range species.Builtin().All() {
		runs = append(runs, []string{"species", timber.Key})
	}
	for _, args := range runs {
		out, messages, _ := s.run(t, args...)
		for _, word := range []string{"food safe", "food-safe", "certified", "safe "} {
			if strings.Contains(strings.ToLower(out+messages), word) {
				t.Errorf("%q prints %q", args, word)
			}
		}
	}
}

// Every command says in its help what it does and how it is called.
func TestEveryCommandHasHelp(t *testing.T) {
	var hold func(*cobra.Command)
	hold = func(cmd *cobra.Command) {
		topic := cmd.IsAdditionalHelpTopicCommand()
		if cmd.Short == "" || cmd.Long == "" || cmd.Example == "" && !topic || strings.HasSuffix(cmd.Short, ".") {
			t.Errorf("%s: short %q, long %q, example %q", cmd.CommandPath(), cmd.Short, cmd.Long, cmd.Example)
		}
		for line := range strings.Lines(cmd.Long) {
			if len([]rune(line)) > 81 {
				t.Errorf("%s: line of %d characters: %s", cmd.CommandPath(), len([]rune(line)), line)
			}
		}
		for _, sub := range cmd.Commands() {
			hold(sub)
		}
	}
	hold(cli.Tree(command.System()))
}
