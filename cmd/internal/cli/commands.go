package cli

import (
	"context"
	_ "embed" // the texts
	"fmt"
	"runtime"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/typed"
)

// commands lists every command below the root, in the order of the help. A new one
// is one line here and a file of its own.
func (a *app) commands() []*cobra.Command {
	return []*cobra.Command{
		a.checkCommand(),
		a.reliefCommand(),
		a.newCommand(),
		a.arrangeCommand(),
		a.planCommand(),
		a.pileCommand(),
		a.suggestCommand(),
		a.againCommand(),
		a.resizeCommand(),
		a.rackCommand(),
		a.markCommand(),
		a.workCommand(),
		a.pictureCommand(),
		a.sheetCommand(),
		a.madeCommand(),
		a.speciesCommand(),
		a.colourCommand(),
		a.shopCommand(),
		a.keysCommand(),
		a.doctorCommand(),
		a.versionCommand(),

		a.completionCommand(),
		a.helpCommand(),
	}
}

// root builds all commands anew.
func (a *app) root() *cobra.Command {
	root := a.rootCommand()
	root.SilenceErrors, root.SilenceUsage = true, true
	root.SuggestionsMinimumDistance = 2
	root.CompletionOptions.DisableDefaultCmd = true
	a.addVersion(root)
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error { return typed.Explain(err, helpHint(cmd)) })
	root.PersistentPreRunE = func(cmd *cobra.Command, _ []string) error { return a.begin(cmd) }
	a.Flags.Add(root.PersistentFlags())
	for _, cmd := range a.commands() {
		if cmd.Name() == helpName {
			root.SetHelpCommand(cmd)
		}
		root.AddCommand(cmd)
	}
	root.AddCommand(topics()...)
	a.completeFlags(root)
	a.hideJSON(root)
	return root
}

// hideJSON leaves --json out of the help of commands that have no JSON.
func (a *app) hideJSON(root *cobra.Command) {
	help, flag := root.HelpFunc(), root.PersistentFlags().Lookup(hasJSON)
	root.SetHelpFunc(func(cmd *cobra.Command, args []string) {
		flag.Hidden = cmd.Annotations[hasJSON] == ""
		help(cmd, args)
		flag.Hidden = false
	})
}

// versionCommand says what --version does, and in JSON more.
func (a *app) versionCommand() *cobra.Command {
	return a.command("version", task{json: "oddments/version 1", takes: noArgs, run: func(*cobra.Command, []string) error {
		a.Say("oddments %s", a.Env.Version)
		a.Result(func() result.Object {
			return result.Object{{"format", "oddments/version 1"}, {"version", a.Env.Version}, {"go", runtime.Version()},
				{"system", runtime.GOOS + "/" + runtime.GOARCH}}
		})
		return nil
	}})
}

// addVersion gives the root --version, before which all else that is asked of it gives
// way. It is no work of cobra's own, since that says more than a name and a number, and
// its template for saying less draws text/template into the program: a sixth of its size.
func (a *app) addVersion(root *cobra.Command) {
	const name = "version"
	var asked bool
	root.Flags().BoolVarP(&asked, name, "v", false, "version for "+root.Name())
	// So cobra offers nothing behind it when a shell completes.
	root.Flags().Lookup(name).Annotations = map[string][]string{cobra.FlagSetByCobraAnnotation: {"true"}}
	takes, does := root.Args, root.RunE
	root.Args = func(cmd *cobra.Command, args []string) error {
		if asked {
			return nil
		}
		return takes(cmd, args)
	}
	root.RunE = func(cmd *cobra.Command, args []string) error {
		if asked {
			_, err := fmt.Fprintf(a.Out, "oddments %s\n", a.Env.Version)
			return err
		}
		return does(cmd, args)
	}
}

// begin runs before every command, once its flags and arguments are right.
func (a *app) begin(cmd *cobra.Command) error {
	a.AsJSON, a.Rows.Columns = a.Flags.JSON, a.TableColumns()
	a.Rows.Profile, _ = a.Profile()
	if a.AsJSON && cmd.Annotations[hasJSON] == "" {
		return failure.Usage("leave --json out", "%s is plain text only", calledAs(cmd))
	}
	return nil
}

//go:embed commands.txt
var commandTexts string

// A commandText is what a command is called and what its help says.
type commandText struct{ use, short, long, example string }

// textOf returns the text of the command that is called path: rack add. It is cut out of the
// program's own text, which begins with an empty line for that: a copy a command held 1 MB.
func textOf(path string) commandText {
	_, text, _ := strings.Cut(commandTexts, "\n# "+path+"\n")
	text, _, _ = strings.Cut(text, "\n# ")
	use, text, _ := strings.Cut(text, "\n")
	short, text, _ := strings.Cut(text, "\n")
	long, example, _ := strings.Cut(text, "\nExamples:\n")
	return commandText{use, short, strings.Trim(long, "\n"), strings.TrimRight(example, "\n")}
}

// A task is what a command does.
type task struct {
	json     string // the format of its JSON; the others refuse --json
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
	a.Began = time.Now()
	limit := a.Flags.SearchTime()
	ctx, stop := context.WithDeadline(cmd.Context(), a.Began.Add(max(limit-command.PrintReserve, limit/2)))
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
	if t.json != "" {
		cmd.Annotations = map[string]string{hasJSON: t.json}
		cmd.Long += "\n\nWith --json it prints the format " + t.json + "."
	}
	return cmd
}

// hasJSON marks the commands that have a JSON form, and is the flag that asks for it.
const hasJSON = "json"

// noArgs refuses arguments.
func noArgs(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	return failure.Usage(helpHint(cmd), "%s takes no argument, and got %q", cmd.Name(), args[0])
}

// needs wants an argument at least, which stands for what.
func needs(what, hint string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 0 {
			return nil
		}
		return failure.Usage(hint, "%s needs %s", calledAs(cmd), what)
	}
}

// somePatterns wants a PATTERN at least; more is what the hint says behind the usual.
func somePatterns(more string) cobra.PositionalArgs {
	return needs("a PATTERN", "name a saved pattern, or a file with a slash or .toml"+more)
}

// onePattern wants one PATTERN.
func onePattern(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return failure.Usage(helpHint(cmd), "%s takes one PATTERN, and got %q too", cmd.Name(), args[1])
	}
	return somePatterns("")(cmd, args)
}

// calledAs returns a command as it is typed behind the program's name: rack add.
func calledAs(cmd *cobra.Command) string {
	return strings.TrimPrefix(cmd.CommandPath(), cmd.Root().Name()+" ")
}

// helpHint says where the help of a command is.
func helpHint(cmd *cobra.Command) string { return helpOf(cmd.CommandPath()) }

// helpOf says where the help of the command is that is called so.
func helpOf(called string) string { return called + " --help lists what it takes" }
