package cli_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
)

// The README lists the commands that there are, and no others.
func TestReadmeListsTheCommands(t *testing.T) {
	file, err := os.ReadFile("../../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, text, ok := strings.Cut(string(file), "\n## Commands\n")
	if !ok {
		t.Fatal("the README has no part on commands")
	}
	text, _, _ = strings.Cut(text, "\n## ")
	var listed []string
	for line := range strings.Lines(text) {
		if called, ok := strings.CutPrefix(line, "    oddments "); ok {
			listed = append(listed, strings.Fields(called)[0])
		}
	}
	var there []string
	for _, cmd := range cli.Tree(command.System()).Commands() {
		if cmd.Name() != "help" && !cmd.IsAdditionalHelpTopicCommand() {
			there = append(there, cmd.Name())
		}
	}
	for _, name := range there {
		if !slices.Contains(listed, name) {
			t.Errorf("the README does not list: oddments %s", name)
		}
	}
	for _, called := range listed {
		if called != "[PATTERN]" && !slices.Contains(there, called) {
			t.Errorf("the README lists what is no command: oddments %s", called)
		}
	}
}
