//go:build !windows

package main_test

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// steps reads a script: a key by its name on each line, or one of
//
//	text:TEXT      type it
//	waitfor:REGEX  until the screen shows it
//	expect:REGEX   once the screen stands still it is there
//	absent:REGEX   once the screen stands still it is not there
//	quiet          until the screen stands still
//	exit:0         the program has ended
func steps(t *testing.T, file string) []string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return slices.DeleteFunc(strings.Split(string(data), "\n"), func(line string) bool { return line == "" || line[0] == '#' })
}

// keyText returns what a terminal sends for a key.
func keyText(t *testing.T, name string) string {
	t.Helper()
	known := map[string]string{"Enter": "\r", "Escape": "\x1b", "Tab": "\t", "BTab": "\x1b[Z", "Home": "\x1b[H", "Down": "\x1b[B"}
	if text, ok := known[name]; ok {
		return text
	}
	if letter, ok := strings.CutPrefix(name, "C-"); ok && len(letter) == 1 {
		return string(rune(letter[0] & 0x1f))
	}
	if len(name) != 1 {
		t.Fatalf("no key %q", name)
	}
	return name
}

// play makes the steps of a script.
func (s *session) play(script []string) {
	s.t.Helper()
	matches := func(pattern string) func() bool {
		re := regexp.MustCompile(pattern)
		return func() bool { return re.MatchString(strings.Join(s.screen(), "\n")) }
	}
	for i, step := range script {
		verb, rest, _ := strings.Cut(step, ":")
		switch {
		case verb == "text":
			s.types(rest)
		case verb == "waitfor":
			s.until(rest, matches(rest))
		case verb == "expect", verb == "absent":
			s.quiet()
			if matches(rest)() != (verb == "expect") {
				s.t.Fatalf("step %d, %s:\n%s", i+1, step, strings.Join(s.screen(), "\n"))
			}
		case step == "quiet":
			s.quiet()
		case step == "exit:0":
			s.ends()
		default:
			s.types(keyText(s.t, step))
			if step == "Escape" { // what follows at once would be taken for its letter
				s.quiet()
			}
		}
	}
}

// firstHour plays the newcomer's first hour and looks at what it left.
func firstHour(t *testing.T, program string) {
	playOut(t, program, "first-hour.steps", map[string][]string{
		"home/rack.toml":                {"[[piece]]", `species = "hard_maple"`},
		"home/patterns/gorse-tray.toml": {`name = "Gorse tray"`, `diameter = "160 mm"`, "[[made]]", "copies = 1"},
		"gorse-tray.html":               {"<html", "Gorse tray", "hornbeam"},
	})
}

// shortEnds plays from a rack of short ends, on which whole strips fail and pieces serve, to
// the sheet.
func shortEnds(t *testing.T, program string) {
	playOut(t, program, "short-ends.steps", map[string][]string{
		"home/rack.toml":                 {"[[piece]]", `id = "MA1"`, "quantity = 3", "quantity = 2"},
		"home/patterns/twin-rounds.toml": {`name = "Twin rounds"`, "joints = [", `diameter = "290 mm"`, "[[made]]"},
		"twin-rounds.html":               {"Pieces in the order of laying, datum end first", ">3a<", ">3b<", "stop at 300 mm", "8 of 8"},
	})
}

// market plays from a typed pile and typed wants to the sheet of the whole set and its booking.
func market(t *testing.T, program string) {
	playOut(t, program, "market.steps", map[string][]string{
		"home/orders.toml":          {`id = "tray"`, `id = "dish"`, `with = ["black_walnut"]`, `look = "mirror"`, "most = 3"},
		"home/rack.toml":            {`species = "wenge"`},
		"home/patterns/tray-1.toml": {"[[product]]", `length = "300 mm"`, "[[made]]", "copies = 1"},
		"home/patterns/dish-1.toml": {`species = "black_walnut"`, `diameter = "200 mm"`, "[[made]]"},
		"market.html":               {"What to glue in which evening", "Cut list by machine, all boards together", "tray-1", "dish-1"},
	})
}

// playOut plays a script in an empty home, and looks for texts in what it left, in files under
// home or where the program was started.
func playOut(t *testing.T, program, script string, left map[string][]string) {
	home := filepath.Join(t.TempDir(), "home")
	s := open(t, home, program)
	s.play(steps(t, filepath.Join("..", "..", "testdata", script)))
	s.givenBack("at the end")
	for file, holds := range left {
		dir := s.cmd.Dir
		if strings.HasPrefix(file, "home/") {
			dir = filepath.Dir(home)
		}
		file = filepath.Join(dir, filepath.FromSlash(file))
		data, err := os.ReadFile(file)
		if err != nil {
			t.Error(err)
			continue
		}
		for _, text := range holds {
			if !strings.Contains(string(data), text) {
				t.Errorf("%s has no %q", file, text)
			}
		}
	}
	if names := kept(t, home); len(names) > 0 {
		t.Errorf("all is saved, and recovery copies lie there: %v", names)
	}
}
