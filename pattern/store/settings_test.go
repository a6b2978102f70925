package store

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/work"
	"example.com/oddments/species"
)

// What is said to change a figure is there to be changed: every key is one of its
// section in the workshop's file.
func TestSettingsAreKeysOfTheShop(t *testing.T) {
	file, err := os.ReadFile("../../testdata/formats/shop-1.toml") // it has every key
	if err != nil {
		t.Fatal(err)
	}
	if _, err := ReadShop(bytes.NewReader(file), "shop-1.toml"); err != nil {
		t.Fatal(err)
	}
	keys := map[string]bool{} // section and key
	section := ""
	for line := range strings.Lines(string(file)) {
		line = strings.TrimSpace(line)
		if strings.HasPrefix(line, "[") {
			section = line
		} else if key, _, ok := strings.Cut(line, " ="); ok {
			keys[section+" "+key] = true
		}
	}
	checked := 0
	for _, l := range linesOfDemo(t) {
		for part := range strings.SplitSeq(l.Setting, "; ") {
			section, list, ok := strings.Cut(part, "] ")
			if !ok {
				continue
			}
			for key := range strings.SplitSeq(list, ", ") {
				if !keys[section+"] "+key] {
					t.Errorf("%s: shop.toml has no %s] %s", l.Figure, section, key)
				}
				checked++
			}
		}
	}
	if checked < 30 {
		t.Errorf("only %d keys are named", checked)
	}
}

// linesOfDemo returns what is told of the demo's patterns.
func linesOfDemo(t *testing.T) []work.Line {
	t.Helper()
	demo, err := ReadDemo()
	if err != nil {
		t.Fatal(err)
	}
	r := movement.New(species.Builtin(), demo.Shop)
	var out []work.Line
	for _, p := range demo.Patterns {
		job, err := work.JobOf(movement.New(species.Builtin(), demo.Shop), p.Pattern, 1)
		if err != nil {
			t.Fatal(err)
		}
		job.Due = pattern.Date{Year: 2026, Month: time.December, Day: 5}
		for _, e := range work.Report(r, job, work.Of(r, job), length.InMM) {
			out = append(out, e.Line)
		}
	}
	return out
}
