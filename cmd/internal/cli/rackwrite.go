package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

const rackAddLong = `rack add writes down timber as it is spoken, one LINE for one piece or several
alike, in quotes, and prints what it understood:

  "black cherry 620 85 77 flat 9.1 % split 0-40, along 30-45 x3 first"
  "strip hard maple 470 25 24 x14 flat 8 %"

First the timber, by its letters or the beginnings of its words, then length,
width and thickness; a ready strip has the word strip before it. The rest comes
in any order: planed; flat, rift, quarter, unknown or 30deg for the rings; 9.1
% for the moisture; 0-40 for a fault over that stretch of the length, along
30-45 for one over that band of the width; x3 for so many; first for what is to
be used first; #W9 for its id; note and what you like, to the end of the line.
Where there is no id it gets the next one of its timber's letters. A number
without a unit is millimetres; 24 in, 24", 62 cm and 1 1/8 in are what they
say, and a unit behind the last of the three sizes alone holds for all three:
24 x 3 x 2 in.

Where one LINE cannot be taken none is, and the rack stays as it is.`

func (a *app) rackAddCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "add LINE...",
		Short:   "write down timber as it is spoken",
		Long:    rackAddLong,
		Example: "  oddments rack add \"black cherry 620 85 77 flat 9.1 % split 0-40 x3\"\n  oddments rack add \"WA 900 x 120 x 52\" \"strip hard maple 470 25 24 x14 flat first\"",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage(`write it like oddments rack add "black cherry 620 85 77"`, "rack add needs a LINE")
			}
			return a.refuseRackFlag(cmd)
		},
		RunE:              func(_ *cobra.Command, args []string) error { return a.rackAdd(args) },
		ValidArgsFunction: cobra.NoFileCompletions,
	}
}

func (a *app) rackAdd(lines []string) error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	if len(lines) > 1 && !slices.ContainsFunc(lines, func(l string) bool { return strings.Contains(l, " ") }) {
		return usage(fmt.Sprintf("a line stands in quotes: oddments rack add %q", strings.Join(lines, " ")), "rack add takes a piece as one LINE, and got %d words", len(lines))
	}
	var added []rack.Entry
	err = a.changeRack(w, func(r rack.Rack) (rack.Rack, error) {
		r, added, err = addLines(w, r, lines)
		return r, err
	})
	if err != nil {
		return err
	}
	for _, e := range added {
		a.say("added %s", entryText(w, e, a.unit(w.shop)))
	}
	return nil
}

// addLines puts what all lines say on r. Timbers of the rack as it was go before
// others, so that a line is read alike wherever it stands.
func addLines(w workshop, r rack.Rack, lines []string) (rack.Rack, []rack.Entry, error) {
	look := rack.NewLookup(w.table, r.Species())
	var added []rack.Entry
	var wrong []*problem
	for i, line := range lines {
		e, err := rack.ParseLine(line, look, length.InMM)
		if err == nil {
			if r, e, err = r.Add(e, look); err == nil {
				added = append(added, e)
				continue
			}
		}
		wrong = append(wrong, usage("", "line %d: %v", i+1, err))
	}
	if len(wrong) > 0 {
		wrong[len(wrong)-1].Hint = "the rack is as it was"
	}
	return r, added, joined(wrong)
}

// joined makes one error of several problems, nil of none.
func joined(all []*problem) error {
	errs := make([]error, len(all))
	for i, p := range all {
		errs[i] = p
	}
	return errors.Join(errs...)
}

const rackImportLong = `rack import adds all pieces and ready strips of FILE to the rack, a CSV table
where its name ends in .csv, else a rack.toml. A table has a first row that
names its columns: kind (piece or strip), id, species, length, width and
thickness, and where wanted quantity, planed, rings, moisture, faults (parted
by ;), use_first and note.

Where an id is on the rack already nothing is taken over. With --replace what
FILE holds takes the place of the whole rack, and the rack before it is kept as
rack.toml.bak.`

func (a *app) rackImportCommand() *cobra.Command {
	var replace bool
	cmd := &cobra.Command{
		Use:     "import FILE.csv|FILE.toml",
		Short:   "take over the timber of a table, or of another rack",
		Long:    rackImportLong,
		Example: "  oddments rack import shed.csv\n  oddments rack import ./old/rack.toml --replace",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return usage("write it like oddments rack import shed.csv", "rack import takes one FILE, and got %d", len(args))
			}
			return a.refuseRackFlag(cmd)
		},
		RunE:              func(_ *cobra.Command, args []string) error { return a.rackImport(args[0], replace) },
		ValidArgsFunction: completeRackFile,
	}
	cmd.Flags().BoolVar(&replace, "replace", false, "for rack import: put FILE in the place of the whole rack")
	return cmd
}

func completeRackFile(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []string{"csv", "toml"}, cobra.ShellCompDirectiveFilterFileExt
}

func (a *app) rackImport(file string, replace bool) error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	got, err := store.OpenRack(file, w.known)
	if err != nil {
		return err
	}
	unit := a.unit(w.shop)
	if replace {
		return a.replaceRack(w, got, unit)
	}
	if err := a.changeRack(w, func(r rack.Rack) (rack.Rack, error) { return join(r, got, file) }); err != nil {
		return err
	}
	a.say("added: %s", rackText(got, unit))
	return nil
}

// join puts all of got behind r. Every id that both have is told of.
func join(r, got rack.Rack, file string) (rack.Rack, error) {
	var wrong []*problem
	for _, e := range got.Entries() {
		if _, taken := r.Get(e.ID); taken {
			wrong = append(wrong, &problem{Code: codeBadFile, File: file, Field: "id", Message: fmt.Sprintf("%s is on the rack already", e.ID)})
		}
	}
	if len(wrong) > 0 {
		wrong[len(wrong)-1].Hint = "nothing was taken over: give them other ids, or --replace the whole rack"
		return r, joined(wrong)
	}
	r.Pieces = append(r.Pieces[:len(r.Pieces):len(r.Pieces)], got.Pieces...)
	r.Strips = append(r.Strips[:len(r.Strips):len(r.Strips)], got.Strips...)
	return r, nil
}

// replaceRack puts got in the place of the whole rack. That one may be broken: it is
// kept all the same.
func (a *app) replaceRack(w workshop, got rack.Rack, unit length.Unit) error {
	before, version, err := w.home.Rack(w.known)
	var mistakes store.Errors
	if err != nil && !errors.As(err, &mistakes) {
		return err
	}
	if err := a.saveRack(w.home, got, version); err != nil {
		return err
	}
	a.say("rack: %s", rackText(got, unit))
	switch {
	case err != nil:
		a.say("before: a file with mistakes, kept as rack.toml.bak")
	case version == store.Absent:
		a.say("before: no rack")
	case before.Equal(got):
		a.say("before: the same")
	default:
		a.say("before: %s, kept as rack.toml.bak", rackText(before, unit))
	}
	return nil
}

const rackExportLong = `rack export gives the rack as a CSV table to the standard output, or writes it
to FILE: as CSV where that ends in .csv, as a rack.toml where it ends in .toml.
A FILE that is there already is left alone.

The lengths have their unit, and a text that a spreadsheet could take for a
formula has an apostrophe before it, which rack import takes off again. With
--rack another rack is given out.`

func (a *app) rackExportCommand() *cobra.Command {
	return &cobra.Command{
		Use:     "export [FILE.csv|FILE.toml]",
		Short:   "give the rack as a table, or as a file of its own",
		Long:    rackExportLong,
		Example: "  oddments rack export > shed.csv\n  oddments rack export shed.csv\n  oddments rack export --rack shed.csv shed.toml",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return usage(helpHint(cmd), "rack export takes one FILE, and got %q too", args[1])
			}
			if len(args) == 1 && rackWriter(args[0]) == nil {
				return usage("write it like shed.csv", "%q: must end in .csv or .toml", args[0])
			}
			return nil
		},
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return a.rackExport("")
			}
			return a.rackExport(args[0])
		},
		ValidArgsFunction: completeRackFile,
	}
}

// rackWriter returns what writes a rack to a file of that name, or nil.
func rackWriter(file string) func(io.Writer, rack.Rack) error {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".csv":
		return store.WriteRackCSV
	case ".toml":
		return store.WriteRack
	default:
		return nil
	}
}

func (a *app) rackExport(file string) error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	r, err := a.readRack(w)
	if err != nil {
		return err
	}
	var text bytes.Buffer // a failure to print is for finish to tell of
	if file == "" {
		err = store.WriteRackCSV(&text, r)
		_, _ = text.WriteTo(a.out)
		return err
	}
	if err := rackWriter(file)(&text, r); err != nil {
		return err
	}
	a.writes()
	switch err := a.wrote(store.SaveNew(file, text.Bytes())); {
	case errors.Is(err, fs.ErrExist):
		return &problem{Code: codeIO, File: file, Message: "is there already, and was left as it is", Hint: "name a file that is not there yet, or take this one away first"}
	case err != nil:
		return err
	}
	a.say("written to %s: %s", file, rackText(r, a.unit(w.shop)))
	return nil
}
