package cli

import (
	"bytes"
	"context"
	"errors"
	"io"
	"io/fs"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store"
)

func (a *app) rackImportCommand() *cobra.Command {
	var replace bool
	cmd := a.command("rack import", task{complete: completeRackFile,
		takes: func(cmd *cobra.Command, args []string) error {
			switch like := "write it like oddments rack import shed.csv"; {
			case len(args) == 0:
				return failure.Usage(like, "rack import needs a FILE")
			case len(args) > 1:
				return failure.Usage(like, "rack import takes one FILE, and got %q too", args[1])
			}
			return a.ownRack(cmd, args)
		},
		errand: func(_ context.Context, w workshop, args []string) error { return w.rackImport(args[0], replace) }})
	cmd.Flags().BoolVar(&replace, "replace", false, "for rack import: replace the whole rack by FILE")
	return cmd
}

func completeRackFile(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []string{"csv", "toml"}, cobra.ShellCompDirectiveFilterFileExt
}

func (w workshop) rackImport(file string, replace bool) error {
	got, err := store.OpenRack(file, w.Table)
	if err != nil {
		return err
	}
	if replace {
		return w.replaceRack(got)
	}
	if _, err := w.ChangeRack(func(r rack.Rack) (rack.Rack, error) { return join(r, got, file) }); err != nil {
		return err
	}
	w.Fact("added", "%s", rackText(got, w.Unit))
	return nil
}

// join puts all of got behind r. Every id that both have is told of.
func join(r, got rack.Rack, file string) (rack.Rack, error) {
	var wrong []*failure.Problem
	for _, e := range got.Entries() {
		if _, taken := r.Get(e.ID); taken {
			wrong = append(wrong, &failure.Problem{Code: failure.CodeBadFile, File: file, Field: "id", Message: e.ID + " is on the rack already"})
		}
	}
	if len(wrong) > 0 {
		return r, failure.Join("nothing was taken over: give them other ids, or --replace the whole rack", wrong...)
	}
	r.Pieces = append(r.Pieces[:len(r.Pieces):len(r.Pieces)], got.Pieces...)
	r.Strips = append(r.Strips[:len(r.Strips):len(r.Strips)], got.Strips...)
	return r, nil
}

// replaceRack puts got in the place of the whole rack. That one may be broken: it is
// kept all the same.
func (w workshop) replaceRack(got rack.Rack) error {
	before, version, err := w.Home.Rack(w.Table)
	var mistakes store.Errors
	if err != nil && !errors.As(err, &mistakes) {
		return err
	}
	if err := w.SaveRack(w.Home, got, version); err != nil {
		return err
	}
	w.Fact("rack", "%s", rackText(got, w.Unit))
	switch {
	case err != nil:
		w.Fact("before", "a file with mistakes, kept as rack.toml.bak")
	case version == store.Absent:
		w.Fact("before", "no rack")
	case before.Equal(got):
		w.Fact("before", "the same")
	default:
		w.Fact("before", "%s, kept as rack.toml.bak", rackText(before, w.Unit))
	}
	return nil
}

func (a *app) rackExportCommand() *cobra.Command {
	return a.command("rack export", task{complete: completeRackFile,
		takes: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return failure.Usage(helpHint(cmd), "rack export takes one FILE, and got %q too", args[1])
			}
			if len(args) == 1 && rackWriter(args[0]) == nil {
				return failure.Usage("write it like shed.csv", "%q: must end in .csv or .toml", args[0])
			}
			return nil
		},
		errand: func(_ context.Context, w workshop, args []string) error { return w.rackExport(strings.Join(args, "")) }})
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

func (w workshop) rackExport(file string) error {
	r, err := w.ReadRack()
	if err != nil {
		return err
	}
	var text bytes.Buffer // a failure to print is for finish to tell of
	if file == "" {
		err = store.WriteRackCSV(&text, r)
		_, _ = text.WriteTo(w.Out)
		return err
	}
	if err := rackWriter(file)(&text, r); err != nil {
		return err
	}
	w.Writes()
	switch err := w.Wrote(store.SaveNew(file, text.Bytes())); {
	case errors.Is(err, fs.ErrExist):
		return &failure.Problem{Code: failure.CodeIO, File: file, Message: "is there already, and was left as it is",
			Hint: "name a file that is not there yet, or remove this one first"}
	case err != nil:
		return err
	}
	w.Fact("written to "+file, "%s", rackText(r, w.Unit))
	return nil
}
