package main

import (
	"bytes"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
)

func page(t *testing.T) string {
	t.Helper()
	var b bytes.Buffer
	if err := write(&b, cli.Tree(command.System())); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestManualNamesEveryCommandAndFlag(t *testing.T) {
	got := page(t)
	root := cli.Tree(command.System())
	for _, cmd := range root.Commands() {
		if heading := "\n" + `\fB` + strings.ReplaceAll(cmd.Name(), "-", `\-`) + `\fP`; strings.Count(got, heading) != 1 {
			t.Errorf("%s is headed %d times, want once", cmd.Name(), strings.Count(got, heading))
		}
		if first, _, _ := strings.Cut(cmd.Long, " "); !strings.Contains(got, "\n"+first+" ") {
			t.Errorf("the text of %s is missing", cmd.Name())
		}
	}
	root.PersistentFlags().VisitAll(func(f *pflag.Flag) {
		if heading := `\fB\-\-` + f.Name + `\fP`; strings.Count(got, heading) != 1 {
			t.Errorf("--%s is headed %d times, want once", f.Name, strings.Count(got, heading))
		}
	})
}

func TestManualIsTheSameEachTime(t *testing.T) {
	first := page(t)
	if first != page(t) {
		t.Error("two pages of the same commands differ")
	}
	if !strings.HasPrefix(first, `.TH ODDMENTS 1 "" "oddments"`) {
		t.Errorf("the heading is %.60s", first)
	}
}

// What holds for all commands stands in sections of its own, a line a paragraph.
func TestManualHasFilesEnvironmentAndExits(t *testing.T) {
	got := page(t)
	for _, want := range []string{
		".SH EXIT STATUS\n", ".SH ENVIRONMENT\n", ".SH FILES\n", "\nODDMENTS_HOME: the folder of your files", "\n.PP\n2: wrong usage\\&.\n",
		"\nrack\\&.toml: the pieces", "\n.PP\nNAME\\&.bak: the file before the last save\\&.\n",
	} {
		if strings.Count(got, want) != 1 {
			t.Errorf("%q stands %d times in the page", want, strings.Count(got, want))
		}
	}
}

// The paragraphs and lists of a command's text stay apart, and a flag has its argument
// and its default.
func TestManualKeepsListsAndArguments(t *testing.T) {
	got := page(t)
	for _, want := range []string{
		"\n.PP\nswap N M\n.PP\nswap strips N and M\n.PP\n",
		"\nSECONDS: seconds that a search may take (default 10)\n",
		"\nLENGTH: how far the width may be off, either way (default 4 mm)\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is missing", want)
		}
	}
	if strings.Contains(got, paragraph) {
		t.Error("a sign of ours is left in the page")
	}
}

// A percent sign, a dash and a dot at the start of a line mean something to what
// writes the page, and must come out as they are.
func TestManualKeepsSigns(t *testing.T) {
	root := &cobra.Command{Use: "try", Short: "50 % off", Long: "moves 15 %d apart\nand on\n\n.dot first\n\n  --flag one\n  two", Run: func(*cobra.Command, []string) {}}
	var b bytes.Buffer
	if err := write(&b, root); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"\nmoves 15 %d apart and on\n", "\n\\&.dot first\n", "\n\\-\\-flag one\n.PP\ntwo"} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%q is missing from\n%s", want, b.String())
		}
	}
	if strings.Contains(b.String(), "%!") || !strings.Contains(b.String(), "50 % off") {
		t.Errorf("percent signs are lost in\n%s", b.String())
	}
}
