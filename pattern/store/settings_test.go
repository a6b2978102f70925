package store

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"example.com/oddments/pattern/work"
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
	for _, s := range work.Sources() {
		for part := range strings.SplitSeq(s.Setting, "; ") {
			section, list, ok := strings.Cut(part, "] ")
			if !ok {
				continue
			}
			for key := range strings.SplitSeq(list, ", ") {
				if !keys[section+"] "+key] {
					t.Errorf("%s: shop.toml has no %s] %s", s.Figure, section, key)
				}
				checked++
			}
		}
	}
	if checked < 30 {
		t.Errorf("only %d keys are named", checked)
	}
}
