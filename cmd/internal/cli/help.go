package cli

import (
	"bytes"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern/store"

	"example.com/oddments/tui"
	"example.com/oddments/tui/manual"
)

const (
	helpName       = "help"
	completionName = "completion"
)

func (a *app) helpCommand() *cobra.Command {
	return a.command(helpName, task{
		run: func(cmd *cobra.Command, args []string) error {
			target, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				hint := "oddments --help lists the commands"
				if near := cmd.Root().SuggestionsFor(args[0]); len(near) > 0 {
					hint = didYouMean(cmd.Root(), near)
				}
				return failure.Usage(hint, "there is no command %q", strings.Join(args, " "))
			}
			target.InitDefaultHelpFlag()
			return target.Help()
		},
		complete: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			var names []string
			for _, c := range cmd.Root().Commands() {
				if len(args) == 0 && !c.Hidden {
					names = append(names, c.Name()+"\t"+c.Short)
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		}})
}

// topics returns the chapters of the manual: help that is no command.
func topics() []*cobra.Command {
	var out []*cobra.Command
	for _, c := range manual.Chapters(tui.Keys()) {
		out = append(out, &cobra.Command{Use: c.Name, Short: c.Title, Long: strings.Join(c.Wrapped(topicWidth), "\n")})
	}
	return out
}

// topicWidth is how wide a chapter is printed, in cells.
const topicWidth = 80

func shells() []string { return []string{"bash", "zsh", "fish", "powershell"} }

func (a *app) completionCommand() *cobra.Command {
	return a.command(completionName, task{
		takes: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return failure.Usage(helpHint(cmd), "%s takes one shell: %s", cmd.Name(), strings.Join(shells(), ", "))
			}
			return nil
		},
		run: func(cmd *cobra.Command, args []string) error {
			script := &bytes.Buffer{} // a failure to print is for finish to tell of
			if err := writeCompletion(script, cmd, args[0]); err != nil {
				return err
			}
			_, _ = script.WriteTo(a.Out)
			return nil
		},
		complete: cobra.FixedCompletions(shells(), cobra.ShellCompDirectiveNoFileComp)})
}

func writeCompletion(w io.Writer, cmd *cobra.Command, shell string) error {
	switch root := cmd.Root(); shell {
	case "bash":
		return root.GenBashCompletionV2(w, true)
	case "zsh":
		return root.GenZshCompletion(w)
	case "fish":
		return root.GenFishCompletion(w, true)
	case "powershell":
		return root.GenPowerShellCompletionWithDesc(w)
	default:
		return failure.Usage(helpHint(cmd), "there is no completion for %q: must be %s", shell, strings.Join(shells(), ", "))
	}
}

// completePattern offers the saved patterns; files complete by themselves once a
// slash is typed.
func (a *app) completePattern(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	if strings.ContainsRune(typed, '/') {
		return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
	}
	if !cmd.HasParent() && len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var all []store.Listed
	if home, err := a.Home(); err == nil {
		all, _ = home.Patterns(nil) // a folder that cannot be read offers nothing
	}
	var stems []string
	for _, one := range all {
		if one.Err == nil {
			stems = append(stems, one.Stem+"\t"+failure.Visible(one.Pattern.Name))
		}
	}
	return stems, cobra.ShellCompDirectiveDefault
}

func (a *app) completeOnePattern(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return a.completePattern(cmd, args, typed)
}

// completeSpecies offers the keys of the timbers.
func (a *app) completeSpecies(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	home, err := a.Home()
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	timbers, err := command.TimbersOf(home)
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	var keys []string
	for _, s := range timbers.All() {
		keys = append(keys, s.Key+"\t"+failure.Visible(s.Name))
	}
	return keys, cobra.ShellCompDirectiveNoFileComp
}

// completeFlags offers the values of the flags that have a few.
func (a *app) completeFlags(root *cobra.Command) {
	for flag, values := range map[string][]string{
		"units": {"mm", "in"},
		"color": {command.AutoColour, "truecolor", "256", "16", "none"},
		"time":  {},
	} {
		typed.Complete(root, flag, values)
	}
	_ = root.MarkPersistentFlagDirname("home") // as for completeValues
}
