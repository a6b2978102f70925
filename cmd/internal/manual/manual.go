// Command manual writes the man page of oddments, made from the same commands that
// the program runs:
//
//	go run ./cmd/internal/manual > oddments.1
package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	mcobra "github.com/muesli/mango-cobra"
	"github.com/muesli/roff"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/oddments/cmd/internal/cli"
	"example.com/oddments/cmd/internal/command"
)

func main() {
	if err := write(os.Stdout, cli.Tree(command.System())); err != nil {
		fmt.Fprintln(os.Stderr, "manual:", err)
		os.Exit(1)
	}
}

// section is where commands of users stand in the manual.
const section = 1

// write writes the man page of root, the same for the same commands.
func write(w io.Writer, root *cobra.Command) error {
	prepare(root)
	page, err := mcobra.NewManPage(section, root)
	if err != nil {
		return err
	}
	if root.HasSubCommands() {
		for _, s := range sections() {
			page = page.WithSection(s.title, strings.ReplaceAll(s.text, "\n", paragraph))
		}
	}
	_, err = io.WriteString(w, finish(page.Build(&document{roff.NewDocument()})))
	return err
}

// A part is a section of the page that no command has.
type part struct{ title, text string }

// sections lists what holds for all commands.
func sections() []part {
	return []part{
		{"Exit status", `0: done.
1: done, with a finding at too much, strips missing, or no layout.
2: wrong usage.
3: could not be done; the message names the file, the line and the field.`},
		{"Environment", `ODDMENTS_HOME: the folder of your files, where --home names none.
XDG_DATA_HOME: the data folder on Linux, in which oddments is the folder of your files.
NO_COLOR: no colours. COLORTERM and TERM: which colours the terminal has; --color names others.`},
		{"Files", `rack.toml: the pieces and ready strips on your rack.
shop.toml: the settings of your workshop; oddments shop --sample prints a whole one.
species.toml: timbers of your own, and values that differ from the built-in ones.
orders.toml: what you would sell, for oddments pile.
patterns/NAME.toml: a pattern, saved under its name.
recovery: copies of unsaved work, ticked steps, and reports of mistakes in the program.
NAME.bak: the file before the last save.`},
	}
}

// A document is a roff page without the day on which it was made.
type document struct{ *roff.Document }

// Heading leaves out the day, so that the page changes only with the commands.
func (d *document) Heading(section uint, title, description string, _ time.Time) {
	d.Document.Heading(section, title, description, time.Time{})
}

// paragraph stands between the paragraphs of a command's text until the page is there:
// the writer of the page would join them.
const paragraph = "\x01"

// prepare brings the texts of all commands into the form that the writer of the page
// takes: a paragraph a line, a command's long text in place of its short one, and
// every percent sign twice, since it takes its text for a format.
func prepare(cmd *cobra.Command) {
	cmd.Long = text(cmd.Long)
	cmd.Short = text(cmd.Short)
	cmd.Example = text(cmd.Example)
	if cmd.HasParent() && cmd.Long != "" {
		cmd.Short = strings.ReplaceAll(cmd.Long, "\n", paragraph)
	}
	escape := func(f *pflag.Flag) {
		name, usage := pflag.UnquoteUsage(f)
		if name != "" {
			usage = name + ": " + usage
		}
		switch f.DefValue {
		case "", "0", "false", "[]":
		default:
			usage += fmt.Sprintf(" (default %s)", f.DefValue)
		}
		f.Usage = text(usage)
	}
	if !cmd.HasParent() {
		cmd.InitDefaultHelpFlag()
	}
	// The flags of all commands are listed once, with the root's: whatever asks cobra
	// for more than Flags before the page is written lists them with each command.
	cmd.Flags().VisitAll(escape)
	for _, sub := range cmd.Commands() {
		prepare(sub)
	}
}

// text joins the lines of a paragraph. Lines that are set in, like examples, stay
// lines of their own.
func text(s string) string {
	var lines []string
	open := false // the last line is of a paragraph that goes on
	for line := range strings.Lines(s) {
		line = strings.TrimRight(line, "\n")
		plain := strings.TrimSpace(line)
		switch {
		case plain == "":
			open = false
			continue
		case strings.HasPrefix(line, "  "):
			lines, open = append(lines, plain), false
		case open:
			lines[len(lines)-1] += " " + plain
		default:
			lines, open = append(lines, plain), true
		}
	}
	return strings.ReplaceAll(strings.Join(lines, "\n"), "%", "%%")
}

// finish takes out the stand-in for the day and makes every dash one that can be
// copied: a flag with a hyphen of print in it is no flag.
func finish(page string) string {
	page = strings.Replace(page, `"`+time.Time{}.Format(time.DateOnly)+`"`, `""`, 1)
	page = strings.ReplaceAll(page, paragraph, "\n.PP\n")
	lines := strings.Split(page, "\n")
	for i, line := range lines {
		if !strings.HasPrefix(line, ".") {
			lines[i] = strings.ReplaceAll(line, "-", `\-`)
		}
	}
	return strings.Join(lines, "\n") + "\n"
}
