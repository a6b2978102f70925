package cli

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/command"
	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
)

func (a *app) shopCommand() *cobra.Command {
	var sample, builtIn bool
	cmd := a.command("shop", task{json: "oddments/shop-values 1", complete: a.completeSetting,
		takes: func(cmd *cobra.Command, args []string) error {
			switch {
			case builtIn && (len(args) != 1 || sample):
				return failure.Usage("oddments shop kerf.rip --built-in", "--built-in takes one KEY and nothing else")
			case sample && (len(args) > 0 || a.Flags.JSON):
				return failure.Usage("oddments shop --sample > shop.toml", "--sample prints a whole file, and takes nothing else")
			case len(args) > 2:
				return failure.Usage(fmt.Sprintf("a value of several words stands in quotes: oddments shop %s %q", args[0], strings.Join(args[1:], " ")),
					"shop takes a KEY and a VALUE, and got %q too", args[2])
			case (len(args) == 2 || builtIn) && a.Flags.Shop != "":
				return failure.Usage("--home DIR writes to the shop of another home", "shop KEY VALUE and --built-in write to the shop of a home, not to that of --shop")
			}
			return nil
		},
		run: func(_ *cobra.Command, args []string) error {
			if sample {
				return store.WriteShop(a.Out, shop.Default())
			}
			return a.shop(args, builtIn)
		}})
	cmd.Flags().BoolVar(&builtIn, "built-in", false, "put the KEY back to its built-in value, and take it out of shop.toml")
	cmd.Flags().BoolVar(&sample, "sample", false, "print a whole shop.toml with every key, its built-in value and what it is for")
	return cmd
}

// shop prints every setting, or those of a KEY, of which a VALUE changes one first, or it is
// built in again.
func (a *app) shop(args []string, builtIn bool) error {
	home, err := a.Home()
	if err != nil {
		return err
	}
	file, version, err := a.ReadShop(home)
	if err != nil {
		return err
	}
	units := file.Shop().Units
	unit := *cmp.Or(a.Flags.Units, &units)
	shown, err := file.Find(strings.Join(args[:min(len(args), 1)], ""))
	if err != nil {
		return failure.New(failure.CodeNotFound, "oddments shop lists them", "%v", err)
	}
	if builtIn || len(args) == 2 {
		if shown, err = a.setShop(home, file, version, shown[0], args, unit); err != nil {
			return err
		}
	}
	switch {
	case a.AsJSON:
		a.JSON(result.Settings(shown))
	case len(shown) == 1:
		a.printSetting(shown[0], unit)
	default:
		a.printSettings(shown, unit)
	}
	return nil
}

// setShop has one setting be the VALUE of args, or where there is none built in, saves that,
// and returns the setting as it is now.
func (a *app) setShop(home *store.Home, file store.ShopFile, version store.Version, one store.Setting, args []string, unit length.Unit) ([]store.Setting, error) {
	var err error
	switch {
	case one.Key != args[0]:
		err = errors.New("is a group of settings: name one of them")
	case len(args) == 1:
		file, err = file.Unset(one)
	default:
		file, err = file.Set(one, args[1], unit)
	}
	if err != nil {
		return nil, failure.Usage(fmt.Sprintf("%s may be %s; the shop is as it was", one.Key, one.Range(unit)), "%s: %v", args[0], err)
	}
	a.Writes()
	_, err = home.SaveShopFile(file, version)
	if err := a.Done(home, err); err != nil {
		return nil, err
	}
	return file.Find(args[0])
}

// printSettings prints one row a setting.
func (a *app) printSettings(all []store.Setting, u length.Unit) {
	form := rows.Form{{"key", ""}, {"value", "  "}, {"from", "  "}, {"what for", "  "}}
	keys := command.Padded(all, func(s store.Setting) string { return s.Key })
	values := command.Padded(all, func(s store.Setting) string { return s.Shown(u) })
	for i, s := range all {
		a.Row(form, pattern.Fine, keys[i], values[i], fmt.Sprintf("%-8s", s.Source()), s.About)
	}
}

// printSetting prints all that is known of one.
func (a *app) printSetting(s store.Setting, u length.Unit) {
	a.Fact("key", "%s", s.Key)
	a.Fact("value", "%s", s.Shown(u))
	a.Fact("from", "%s", s.Source())
	a.Fact("built in", "%s", s.ShownUsual(u))
	a.Fact("range", "%s", s.Range(u))
	a.Fact("what for", "%s", s.About)
	if s.Group.About != "" {
		a.Fact("group", "%s: %s", s.Group.Name, s.Group.About)
	}
}

// completeSetting offers the keys of the shop.
func (a *app) completeSetting(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	var keys []string
	if len(args) == 0 {
		for _, s := range (store.ShopFile{}).Settings() {
			keys = append(keys, s.Key+"\t"+s.About)
		}
	}
	return keys, cobra.ShellCompDirectiveNoFileComp
}
