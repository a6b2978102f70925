package cli_test

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/pattern/store"
)

// demoHome is a home with all of the demo's files.
func demoHome(t *testing.T) stage {
	t.Helper()
	demo, err := store.ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	s := stage{home: t.TempDir()}
	h := store.OpenHome(s.home)
	defer h.Close()
	if _, err := h.SaveRack(demo.Rack, store.Absent); err != nil {
		t.Fatal(err)
	}
	if _, err := h.SaveShop(demo.Shop, store.Absent); err != nil {
		t.Fatal(err)
	}
	for _, p := range demo.Patterns {
		if _, err := h.SavePattern(p.Stem, p.Pattern, store.Absent); err != nil {
			t.Fatal(err)
		}
	}
	return s
}

// inchCommands lists the commands that print lengths, each with an example of a run.
func inchCommands(s stage) map[string][]string {
	return map[string][]string{
		"check":       {"check", "rookery-square", "saltings-round", "candle-sill"},
		"relief":      {"relief", "saltings-round", "--wetter", "under=0.5"},
		"plan":        {"plan", "rookery-square", "saltings-round", "--time", "2", "--book"},
		"suggest":     {"suggest", "--width", "200", "--thickness", "20", "--length", "250", "--time", "2", "--level", "too much"},
		"pile":        {"pile", "rookery-square=..2", "saltings-round", "--time", "4"},
		"again":       {"again", "rookery-square", "--time", "2"},
		"resize":      {"resize", "rookery-square", "--width", "300"},
		"rack list":   {"rack", "list"},
		"rack add":    {"rack", "add", "hornbeam 24 1/4 x 3 3/8 x 2 in flat"},
		"rack change": {"rack", "change", "RB2", "robinia 18 1/8 x 1 7/8 x 1 7/8 in x3"},
		"rack used":   {"rack", "used", "RB2=1"},
		"new":         {"new", "Hearth board", "15 1/8 x 9 x 3/4", "black walnut 1, hard maple 1/2 x3"},
		"rack why":    {"rack", "why", "rookery-square"},
		"arrange":     {"arrange", "saltings-round", "over 1", "over 1"},
		"made":        {"made", "candle-sill", "2 copies, 3 7/8 in wide, 1 7/8 in thick"},
		"mark":        {"mark", "saltings-round", "--short-ends"},
		"work":        {"work", "saltings-round"},
		"sheet":       {"sheet", "saltings-round", "-o", "-", "--time", "2"},
		"picture":     {"picture", "saltings-round", "-o", filepath.Join(s.home, "p.svg")},
		"rack import": nil,
		"rack export": nil, // a file of figures as they were typed
		"colour":      nil, // of pixels and colours
		"species":     nil, // figures of timbers, no lengths
		"shop":        nil, // a setting says the unit that its file keeps it in
		"keys":        nil, // says what keys do in both
		"doctor":      nil,
		"version":     nil,
		"completion":  nil,
		"help":        nil,
	}
}

var (
	styleSheet = regexp.MustCompile(`(?s)<style>.*?</style>|<svg.*?</svg>`)
	metric     = regexp.MustCompile(`[0-9] ?(mm|cm|cm3|dm3|um|m|m2|kg|kN|N)\b`)
	decimals   = regexp.MustCompile(`[0-9]\.[0-9]+ (in\b|x )`)
	fraction   = regexp.MustCompile(`[0-9]/(2|4|8|16|32|64)\b`)
	// What is computed from the movement of timber, or as a face on the slope, is no
	// length that anybody sets, and stands as hundredths.
	estimates = regexp.MustCompile(`settles at|cup about|out of round|bevel face|data-is="(dry|humid)"`)
)

// Whoever works in inches is told no millimetre by any command, and every length that
// is set at a machine or on a tape is a fraction.
func TestInchesAreFractions(t *testing.T) {
	s := demoHome(t)
	runs := inchCommands(s)
	for name := range leaves(cli.Tree(command.System()), "") {
		if _, ok := runs[name]; !ok {
			t.Errorf("%s is not held to inches", name)
		}
	}
	for name, args := range runs {
		if args == nil {
			continue
		}
		out, messages, exit := s.run(t, append(args, "--units", "in")...)
		if exit > 1 {
			t.Errorf("%s: exit %d: %s", name, exit, messages)
			continue
		}
		text := strings.ReplaceAll(styleSheet.ReplaceAllString(out, ""), "</td>", "\n") + messages
		for l := range strings.Lines(text) {
			// A source is quoted as it says it; chips have no unit of the trade.
			if metric.MatchString(l) && !strings.Contains(l, "common practice, ") && !strings.Contains(l, "bar clamp about 3020 N") && !strings.Contains(l, "wood taken off") {
				t.Errorf("%s prints %s", name, l)
			}
			if decimals.MatchString(strings.ReplaceAll(l, " in all", " together")) && !estimates.MatchString(l) {
				t.Errorf("%s prints no fraction: %s", name, l)
			}
		}
		if name != "picture" && name != "again" && !fraction.MatchString(text) {
			t.Errorf("%s prints no fraction at all:\n%s", name, text)
		}
	}
}

// leaves returns the names of the commands that do something.
func leaves(cmd *cobra.Command, before string) map[string]bool {
	all := map[string]bool{}
	for _, c := range cmd.Commands() {
		name := strings.TrimSpace(before + " " + c.Name())
		if c.HasSubCommands() {
			for n := range leaves(c, name) {
				all[n] = true
			}
		} else if c.Runnable() {
			all[name] = true
		}
	}
	return all
}
