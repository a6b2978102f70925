package cli_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
)

// nightly says that tests may take long.
const nightly = "ODDMENTS_NIGHTLY"

// mutatedCommands calls every command at least once, on the demo's files. OUT is a file
// that is not there yet.
func mutatedCommands() []string {
	return []string{
		"check rookery-square saltings-round candle-sill", "check rookery-square", "check ./patterns/candle-sill.toml",
		"relief rookery-square", "relief candle-sill --wetter under=2",
		"new|Hearth board|800 x 340 x 25|wa30 ma10 x2", "arrange rookery-square", "arrange candle-sill|swap 1 2|width 1 22", "arrange saltings-round|remove 1",
		"plan rookery-square", "plan saltings-round=3 candle-sill", "plan candle-sill --book", "plan rookery-square --real",
		"pile rookery-square=..2@38 saltings-round=1..@24", "pile candle-sill=..1",
		"suggest --width 120 --thickness 18 --length 250 --strips 2..9", "suggest --width 100 --thickness 18 --length 250 --strips 2..9 --widths 20,25 --save|Next year",
		"again saltings-round", "again candle-sill=2 --save|Again",
		"resize rookery-square --width 200", "resize candle-sill --width 150 --save|Wider",
		"rack list", "rack list --for rookery-square=2", "rack list first --sort volume", "rack add|pear 500 60 40 flat 8 % x2",
		"rack change PE1|pear 500 60 40", "rack used PE1", "rack import pile.csv", "rack import pile.csv --replace", "rack export", "rack export OUT.csv", "rack export OUT.toml",
		"mark saltings-round", "mark candle-sill --short-ends", "mark candle-sill --short-ends --apply", "mark rookery-square --add|round 40 x2", "mark candle-sill --knot|60, 40, 5",
		"work saltings-round=4", "work candle-sill --minutes 200 --asked 45",
		"picture saltings-round -o OUT.svg", "picture candle-sill -o OUT.png --width 300", "picture rookery-square -o -",
		"sheet candle-sill -o OUT.html", "sheet rookery-square=2 -o -",
		"made rookery-square", "made candle-sill|4, 299.5 wide, 310 min, note dry", "made saltings-round --strike 1",
		"colour OUT.jpg --white 1,2,30,40 --piece PE1=1,2,30,40 --save",
		"species", "species pear", "shop", "shop kerf.rip", "shop kerf.rip|2.6 mm", "shop draw.tails|95", "doctor", "keys", "version", "help plan", "completion bash", "",
	}
}

// textOnly lists the commands that refuse --json.
func textOnly(command string) bool {
	return slices.ContainsFunc([]string{"rack import", "rack export", "picture", "sheet", "help", "completion"}, func(name string) bool {
		return command == name || strings.HasPrefix(command, name+" ")
	})
}

// TestMutatedFiles runs every command on the demo's files with something wrong in them.
// Whatever it is, no command falls over, its exit is one that it may have, nothing that it
// prints acts on a terminal, its JSON can be read, a bad file is named with its line, and
// what it saves can be read again.
func TestMutatedFiles(t *testing.T) {
	commands := mutatedCommands()
	for _, cmd := range cli.Tree(command.System()).Commands() {
		if !cmd.IsAdditionalHelpTopicCommand() && !slices.ContainsFunc(commands, func(c string) bool {
			return c == cmd.Name() || strings.HasPrefix(c, cmd.Name()+" ") || strings.HasPrefix(c, cmd.Name()+"|")
		}) {
			t.Errorf("%s is run by none of these", cmd.Name())
		}
	}
	rounds, limit := uint64(2), time.Duration(0)
	if os.Getenv(nightly) != "" {
		rounds, limit = 400, 20*time.Second
	} else {
		t.Logf("each command %d times; 400 times with %s=1", rounds, nightly)
	}
	for round := range rounds {
		t.Run(fmt.Sprint("round ", round), func(t *testing.T) {
			t.Parallel()
			exits := map[int]int{}
			for i, command := range commands {
				m := mutation{seed: round<<16 + uint64(i), command: command}
				began := time.Now()
				exits[m.run(t)]++
				if took := time.Since(began); limit > 0 && took > limit {
					t.Errorf("%v: took %v", m, took)
				}
			}
			if exits[0] == 0 || exits[3] == 0 {
				t.Errorf("exits %v: the files are not changed in every way", exits)
			}
		})
	}
}

// A mutation is one command on files that the seed changes.
type mutation struct {
	seed    uint64
	command string
}

func (m mutation) String() string { return fmt.Sprintf("seed %d, oddments %s", m.seed, m.command) }

// changeable returns the files that are changed.
func changeable(t *testing.T) map[string]string {
	t.Helper()
	files := map[string]string{"pile.csv": "kind,id,species,length,width,thickness,quantity,note\npiece,I1,pear,620,85,40,2,=a note\nstrip,I2,hard_maple,470,25,24,14,\n"}
	for name, from := range map[string]string{
		"rack.toml": "store/demo/rack.toml", "shop.toml": "store/demo/shop.toml", "patterns/rookery-square.toml": "store/demo/rookery-square.toml",
		"patterns/saltings-round.toml": "store/demo/saltings-round.toml", "patterns/candle-sill.toml": "store/demo/candle-sill.toml", "species.toml": "../testdata/formats/species-1.toml",
	} {
		data, err := os.ReadFile(filepath.Join("../../../pattern", filepath.FromSlash(from)))
		if err != nil {
			t.Fatal(err)
		}
		files[name] = string(data)
	}
	return files
}

// run changes files and runs the command on them, and gives its exit.
func (m mutation) run(t *testing.T) (exit int) {
	t.Helper()
	rng := rand.New(rand.NewPCG(m.seed, 17))
	s := stage{home: t.TempDir()}
	files := changeable(t)
	names := make([]string, 0, len(files))
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	for range 1 + rng.IntN(2) {
		name := names[rng.IntN(len(names))]
		files[name] = mutated(rng, files[name])
	}
	for name, text := range files {
		s.write(t, name, text)
	}
	var args []string
	head, rest, more := strings.Cut(m.command, "|")
	for _, word := range strings.Fields(head) {
		if strings.HasPrefix(word, "OUT") || word == "pile.csv" || strings.HasPrefix(word, "./") {
			word = filepath.Join(s.home, word)
		}
		args = append(args, word)
	}
	if more {
		args = append(args, strings.Split(rest, "|")...)
	}
	args = append(args, "--time", "0.05")
	asJSON := rng.IntN(2) == 0 && !textOnly(m.command)
	if asJSON {
		args = append(args, "--json")
	}
	healthy := m.writes() && m.healthy(t, s)
	out, messages, exit := m.call(t, s, args)
	if exit < 0 || exit > 3 {
		t.Errorf("%v: exit %d", m, exit)
	}
	m.looksAt(t, "standard output", out)
	m.looksAt(t, "standard error", messages)
	if asJSON {
		m.readsJSON(t, out, messages)
	}
	if healthy && !m.healthy(t, s) {
		t.Errorf("%v: the files were good, and are not after it (exit %d, %s)", m, exit, messages)
	}
	return exit
}

// call runs oddments, and turns a panic into a failure with its seed.
func (m mutation) call(t *testing.T, s stage, args []string) (out, messages string, exit int) {
	t.Helper()
	defer func() {
		if r := recover(); r != nil {
			t.Errorf("%v: %v\n%s", m, r, debug.Stack())
		}
	}()
	return s.run(t, args...)
}

// writes reports whether the command changes files of the maker's.
func (m mutation) writes() bool {
	for _, sign := range []string{"|", "--book", "--real", "--apply", "--strike", "rack used", "rack import"} {
		if strings.Contains(m.command, sign) {
			return true
		}
	}
	return false
}

// healthy reports whether every file of the home can be read.
func (m mutation) healthy(t *testing.T, s stage) bool {
	t.Helper()
	_, _, exit := m.call(t, s, []string{"doctor"})
	return exit == 0
}

// looksAt refuses what could act on a terminal.
func (m mutation) looksAt(t *testing.T, where, text string) {
	t.Helper()
	for i, r := range text {
		bad := unicode.IsControl(r) && r != '\n' || r >= 0x202a && r <= 0x202e || r >= 0x2066 && r <= 0x2069 || r == 0x2028 || r == 0x2029
		if bad && !(r == '\t' && strings.HasPrefix(m.command, "completion")) && !(r == '\r' && strings.HasPrefix(m.command, "rack export")) {
			t.Errorf("%v: %U on the %s, in %q", m, r, where, text[max(0, i-30):min(len(text), i+30)])
			return
		}
	}
}

// readsJSON reads each line of both outputs, and holds a bad file to its line.
func (m mutation) readsJSON(t *testing.T, out, messages string) {
	t.Helper()
	for line := range strings.Lines(out) {
		var any map[string]any
		if err := json.Unmarshal([]byte(line), &any); err != nil || any["format"] == nil {
			t.Errorf("%v: prints %q, %v", m, line, err)
		}
	}
	for line := range strings.Lines(messages) {
		if strings.HasPrefix(line, "oddments: ") {
			continue // a word beside the results
		}
		var p struct {
			Format, Code, File, Message string
			Line                        *int
		}
		if err := json.Unmarshal([]byte(line), &p); err != nil || p.Format != "oddments/error 1" || p.Message == "" {
			t.Errorf("%v: tells %q, %v", m, line, err)
		}
		if p.Code == "bad_file" && (p.File == "" || p.Line == nil) {
			t.Errorf("%v: a bad file without its place: %s", m, line)
		}
	}
}

// mutated changes a file in one to three places.
func mutated(rng *rand.Rand, text string) string {
	for range 1 + rng.IntN(3) {
		lines := strings.SplitAfter(text, "\n")
		at := rng.IntN(len(lines))
		pick := func(list []string) string { return list[rng.IntN(len(list))] }
		switch rng.IntN(10) {
		case 0: // without a line, or with one twice
			lines[at] = strings.Repeat(lines[at], 2*rng.IntN(2))
		case 1:
			other := rng.IntN(len(lines))
			lines[at], lines[other] = lines[other], lines[at]
		case 2: // another value, as it may be or beyond that
			if key, _, ok := strings.Cut(lines[at], "="); ok {
				lines[at] = key + "= " + pick(strangeValues()) + "\n"
			}
		case 3: // another number somewhere in it
			if digits := strings.IndexAny(lines[at], "0123456789"); digits >= 0 {
				end := digits + len(lines[at][digits:]) - len(strings.TrimLeft(lines[at][digits:], "0123456789."))
				lines[at] = lines[at][:digits] + pick(strangeNumbers()) + lines[at][end:]
			}
		case 4:
			lines[at] = pick(strangeLines()) + "\n" + lines[at]
		case 5: // cut off
			cut := rng.IntN(len(text) + 1)
			lines = []string{text[:cut]}
		case 6: // a byte of it another
			if line := []byte(lines[at]); len(line) > 0 {
				line[rng.IntN(len(line))] = byte(rng.IntN(256))
				lines[at] = string(line)
			}
		case 7: // many alike
			lines[at] = strings.Repeat(lines[at], rng.IntN(40))
		case 8:
			lines[at] = strings.ReplaceAll(lines[at], `"`, pick([]string{"", "'", `""`, `"""`}))
		default:
			lines[at] = strings.Replace(lines[at], `"`, `"`+pick(strangeTexts()), 1)
		}
		text = strings.Join(lines, "")
	}
	return text
}

func strangeValues() []string {
	return []string{"0", "-1", "1e9", "nan", "inf", "true", `""`, "[]", "{}", `"10000 mm"`, `"0.000001 mm"`, `"2000 mm"`, `"19999.999999 mm"`, `"1 1/8 in"`,
		`"1/3 in"`, `"flat"`, "45", "90.0", "30", "2026-11-02", "10000", "9223372036854775807", `["0-40 mm", "along 1-2 mm"]`, `"0 mm"`, `"pear"`, `"hard_maple"`, `"joint 1"`, `"both"`}
}

func strangeNumbers() []string {
	return []string{"0", "1", "0.5", "99999", "10000", "2000", "20000", "0.000001", "1e3", "-3", "007", "1.2.3", "12,5", "9999999999999999999", ""}
}

func strangeTexts() []string {
	return []string{"\x1b[2J", `\u001b]0;x\u0007`, "\u202e", `\u2066`, `\u2028`, "=cmd|' /C calc'!A0", "<script>", "\x00", "日本語", strings.Repeat("w", 5000), "../../x", "%s%n", "\u0301\u0301"}
}

func strangeLines() []string {
	return []string{"[panel]", "[[strip]]", "[[product]]", "[[piece]]", "[[made]]", "[[avoid]]", "[kerf]", "colour = \"red\"", "# \x1b[31m", "width = \"1 mm\"",
		"count = 10000", "=", "\ufeff", "[a.b.c]", "x = [1, [2, [3]]]", "format = \"oddments/pattern 2\"", "format = \"oddments/rack 1\"",
		"[[product]]\nshape = \"round\"\ndiameter = \"1 mm\"\ncount = 10000", "[[avoid]]\nalong = \"60 mm\"\nacross = \"40 mm\"\nradius = \"3 mm\""}
}
