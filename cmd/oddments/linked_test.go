package main_test

import (
	"strings"
	"testing"
)

// Nothing but the template of the bench sheet looks methods up by names known only when
// it runs. For that one the linker keeps every exported method of every type, a fifth of
// the program's size; .ci/run bounds it.
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
		if name, ok := strings.CutSuffix(from, " <ReflectMethod>"); ok && !templates(name) && !told[name] {
			told[name] = true
			t.Errorf("%s looks up methods by name", name)
		}
	}
}

// templates reports whether a function is of package text/template, or of what that
// makes the linker keep.
func templates(name string) bool {
	return strings.HasPrefix(name, "text/template.") || strings.HasPrefix(name, "reflect.")
}
