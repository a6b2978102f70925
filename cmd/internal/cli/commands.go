package cli

import (
	"fmt"

	"github.com/spf13/cobra"
)

// commands lists every command below the root, in the order of the help. A new one
// is one line here and a file of its own.
func (a *app) commands() []*cobra.Command {
	return []*cobra.Command{
		a.checkCommand(),
		a.arrangeCommand(),
		a.planCommand(),
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
		a.keysCommand(),
		a.doctorCommand(),

		a.completionCommand(),
		a.helpCommand(),
	}
}

// Tree returns all commands for whoever writes them down. They print to env when run.
func Tree(env Env) *cobra.Command { return newApp(env).root() }

// root builds all commands anew.
func (a *app) root() *cobra.Command {
	root := a.rootCommand()
	root.SilenceErrors, root.SilenceUsage = true, true
	root.SuggestionsMinimumDistance = 2
	root.CompletionOptions.DisableDefaultCmd = true
	a.addVersion(root)
	root.SetFlagErrorFunc(wrongFlag)
	root.PersistentPreRunE = func(cmd *cobra.Command, _ []string) error { return a.begin(cmd) }
	a.flags.add(root.PersistentFlags())
	for _, cmd := range a.commands() {
		if cmd.Name() == helpName {
			root.SetHelpCommand(cmd)
		}
		root.AddCommand(cmd)
	}
	root.AddCommand(topics()...)
	a.completeFlags(root)
	return root
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
			_, err := fmt.Fprintf(a.out, "oddments %s\n", a.env.Version)
			return err
		}
		return does(cmd, args)
	}
}

// begin runs before every command, once its flags and arguments are right.
func (a *app) begin(cmd *cobra.Command) error {
	a.asJSON, a.rows.Columns = a.flags.json, a.tableColumns()
	a.rows.Profile, _ = a.profile()
	if a.asJSON && cmd.Annotations[hasJSON] == "" {
		return usage("leave --json out", "%s is plain text only", calledAs(cmd))
	}
	return nil
}
