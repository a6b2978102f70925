package cli

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/result"
	"example.com/oddments/cmd/internal/rows"
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store"
)

func (a *app) shopCommand() *cobra.Command {
	var sample bool
	cmd := a.command("shop", task{json: true, complete: a.completeSetting,
		takes: func(cmd *cobra.Command, args []string) error {
			switch {
			case sample && (len(args) > 0 || a.flags.json):
				return failure.Usage("oddments shop --sample > shop.toml", "--sample prints a whole file, and takes nothing else")
			case len(args) > 2:
				return failure.Usage(fmt.Sprintf("a value of several words stands in quotes: oddments shop %s %q", args[0], strings.Join(args[1:], " ")),
					"shop takes a KEY and a VALUE, and got %q too", args[2])
			case len(args) == 2 && a.flags.shop != "":
				return failure.Usage("--home DIR writes to the shop of another home", "shop KEY VALUE writes to the shop of a home, not to that of --shop")
			}
			return nil
		},
		run: func(_ *cobra.Command, args []string) error {
			if sample {
				return a.shopSample()
			}
			return a.shop(args)
		}})
	cmd.Flags().BoolVar(&sample, "sample", false, "print a whole shop.toml with every key, its built-in value and what it is for")
	return cmd
}

func (a *app) shopSample() error {
	var text bytes.Buffer
	if err := store.WriteShop(&text, shop.Default()); err != nil {
		return err
	}
	_, err := text.WriteTo(a.out)
	return err
}

// shop prints every setting, or the one of a KEY, which a VALUE changes first.
func (a *app) shop(args []string) error {
	home, err := a.home()
	if err != nil {
		return err
	}
	file, version, err := a.shopFile(home)
	if err != nil {
		return err
	}
	unit := file.Shop().Units
	if a.flags.units != nil {
		unit = *a.flags.units
	}
	shown := file.Settings()
	if group := within(shown, args); len(group) > 0 {
		shown, args = group, nil
	}
	if len(args) > 0 {
		one, err := file.Setting(args[0])
		if err != nil {
			return failure.New(failure.CodeNotFound, "oddments shop lists them", "%v", err)
		}
		if len(args) == 2 {
			if file, err = file.Set(one, args[1], unit); err != nil {
				return failure.Usage(fmt.Sprintf("%s may be %s; the shop is as it was", one.Key, one.Range(unit)), "%s: %v", one.Key, err)
			}
			a.writes()
			_, err = home.SaveShopFile(file, version)
			if err := a.done(home, err); err != nil {
				return err
			}
			if one, err = file.Setting(one.Key); err != nil {
				return err
			}
		}
		shown = []store.Setting{one}
	}
	switch {
	case a.asJSON:
		a.json(settingsJSON(shown))
	case len(args) > 0:
		a.printSetting(shown[0], unit)
	default:
		a.printSettings(shown, unit)
	}
	return nil
}

// within returns the settings of the group that args name alone.
func within(all []store.Setting, args []string) (group []store.Setting) {
	for _, s := range all {
		if len(args) == 1 && strings.HasPrefix(s.Key, args[0]+".") {
			group = append(group, s)
		}
	}
	return group
}

// shopFile reads the file of the workshop that the flags name, else the home's.
func (a *app) shopFile(home *store.Home) (store.ShopFile, store.Version, error) {
	if a.flags.shop != "" {
		f, err := store.OpenShopFile(a.flags.shop)
		return f, store.Absent, err
	}
	return home.ShopFile()
}

// source says where the value of a setting comes from.
func source(s store.Setting) string { return or(s.Yours, "yours", "built in") }

// printSettings prints one row a setting.
func (a *app) printSettings(all []store.Setting, u length.Unit) {
	form := rows.Form{{"key", ""}, {"value", "  "}, {"from", "  "}, {"what for", "  "}}
	wide, wideValue := 0, 0
	for _, s := range all {
		wide, wideValue = max(wide, len(s.Key)), max(wideValue, len([]rune(failure.Visible(s.Shown(u)))))
	}
	for _, s := range all {
		a.row(form, pattern.Fine, fmt.Sprintf("%-*s", wide, s.Key), fmt.Sprintf("%-*s", wideValue, failure.Visible(s.Shown(u))),
			fmt.Sprintf("%-8s", source(s)), s.About)
	}
}

// printSetting prints all that is known of one.
func (a *app) printSetting(s store.Setting, u length.Unit) {
	a.fact("key", "%s", s.Key)
	a.fact("value", "%s", s.Shown(u))
	a.fact("from", "%s", source(s))
	a.fact("built in", "%s", s.ShownUsual(u))
	a.fact("range", "%s", s.Range(u))
	a.fact("what for", "%s", s.About)
	if s.Group.About != "" {
		a.fact("group", "%s: %s", s.Group.Name, s.Group.About)
	}
}

func settingsJSON(all []store.Setting) result.Object {
	values := []result.Object{}
	for _, s := range all {
		values = append(values, result.Object{{"key", s.Key}, {"value", s.Value()}, {"default", s.Usual()},
			{"source", source(s)}, {"unit", s.Unit()}})
	}
	return result.Object{{"format", "oddments/shop-values 1"}, {"values", values}}
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
