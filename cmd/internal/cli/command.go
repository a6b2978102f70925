package cli

import (
	"context"
	_ "embed" // the texts
	"strings"
	"time"

	"github.com/spf13/cobra"
)

//go:embed commands.txt
var commandTexts string

// A commandText is what a command is called and what its help says.
type commandText struct{ use, short, long, example string }

// textOf returns the text of the command that is called path: rack add.
func textOf(path string) commandText {
	_, text, _ := strings.Cut("\n"+commandTexts, "\n# "+path+"\n")
	text, _, _ = strings.Cut(text, "\n# ")
	use, text, _ := strings.Cut(text, "\n")
	short, text, _ := strings.Cut(text, "\n")
	long, example, _ := strings.Cut(text, "\nExamples:\n")
	return commandText{use, short, strings.Trim(long, "\n"), strings.TrimRight(example, "\n")}
}

// A task is what a command does.
type task struct {
	json     bool // it has a JSON form; the others refuse --json
	takes    cobra.PositionalArgs
	run      func(cmd *cobra.Command, args []string) error
	errand   errand               // in place of run: what it does in the workshop
	complete cobra.CompletionFunc // nil: nothing is offered
}

// An errand is what a command does in the workshop, with the context of its searches.
type errand func(ctx context.Context, w workshop, args []string) error

// run reads the workshop, and does the errand there. Searches end in time for what is still to
// be printed.
func (do errand) run(a *app, cmd *cobra.Command, args []string) error {
	a.began = time.Now()
	limit := a.flags.searchTime()
	ctx, stop := context.WithDeadline(cmd.Context(), a.began.Add(max(limit-printReserve, limit/2)))
	defer stop()
	w, err := a.workshop()
	if err != nil {
		return err
	}
	return do(ctx, w, args)
}

// command returns the command that is called path, by its text and its task.
func (a *app) command(path string, t task) *cobra.Command {
	text := textOf(path)
	if t.errand != nil {
		t.run = func(cmd *cobra.Command, args []string) error { return t.errand.run(a, cmd, args) }
	}
	if t.complete == nil {
		t.complete = cobra.NoFileCompletions
	}
	cmd := &cobra.Command{
		Use: text.use, Short: text.short, Long: text.long, Example: text.example,
		Args: t.takes, RunE: t.run, ValidArgsFunction: t.complete,
	}
	if t.json {
		cmd.Annotations = map[string]string{hasJSON: "yes"}
	}
	return cmd
}

// hasJSON marks the commands that have a JSON form.
const hasJSON = "json"

// noArgs refuses arguments.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return usage(helpHint(cmd), "%s takes no argument, and got %q", cmd.Name(), args[0])
}

// somePatterns wants a PATTERN at least; more is what the hint says behind the usual.
func somePatterns(more string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 0 {
			return nil
		}
		return usage("name a saved pattern, or a file with a slash or .toml"+more, "%s needs a PATTERN", cmd.Name())
	}
}

// onePattern wants one PATTERN.
func onePattern(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return usage(helpHint(cmd), "%s takes one PATTERN, and got %q too", cmd.Name(), args[1])
	}
	return somePatterns("")(cmd, args)
}

// calledAs returns a command as it is typed behind the program's name: rack add.
func calledAs(cmd *cobra.Command) string {
	return strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
}

// helpHint says where the help of a command is.
func helpHint(cmd *cobra.Command) string { return helpOf(calledAs(cmd)) }

// helpOf says where the help of the command is that is called path.
func helpOf(path string) string {
	return strings.TrimSuffix("oddments "+path, " oddments") + " --help says what may stand there"
}
