package main_test

import (
	"strings"
	"testing"
)

// Nothing in the program looks methods up by names known only when it runs, as
// text/template and html/template do: for that the linker keeps every exported method
// of every type, a sixth of the program's size. Cobra has templates in its source, which
// are left out as long as nobody sets one (SetVersionTemplate and the like).
func TestLinkerLeavesOutWhatNobodyCalls(t *testing.T) {
	if testing.Short() {
		t.Skip("skipped: the program is linked for it")
	}
	s := ship()
	if s.err != nil {
		t.Fatalf("go build: %v\n%.3000s", s.err, s.links)
	}
	if !strings.Contains(s.links, "main.main") {
		t.Fatalf("the linker does not say what it keeps: %.300s", s.links)
	}
	told := map[string]bool{}
	for line := range strings.Lines(s.links) {
		from, _, _ := strings.Cut(line, " -> ")
		if name, ok := strings.CutSuffix(from, " <ReflectMethod>"); ok && !told[name] {
			told[name] = true
			t.Errorf("%s looks up methods by name", name)
		}
	}
}
