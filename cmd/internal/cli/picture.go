package cli

import (
	"context"
	"strings"

	"github.com/spf13/cobra"

	"example.com/oddments/cmd/internal/failure"
	"example.com/oddments/cmd/internal/typed"
	"example.com/oddments/pattern/export"
	"example.com/oddments/pattern/store"
)

type pictureFlags struct {
	out, form  string
	raw, oiled bool
	marks      bool
	table      bool
	relief     bool
	product    int
	width      int
}

func (a *app) pictureCommand() *cobra.Command {
	var flags pictureFlags
	var form export.Export
	cmd := a.command("picture", task{complete: a.completePattern,
		takes: func(cmd *cobra.Command, args []string) (err error) {
			if err = somePatterns("")(cmd, args); err != nil {
				return err
			}
			switch {
			case len(args) > export.MostBeside:
				return failure.Usage("leave some out", "a picture shows %d patterns at most", export.MostBeside)
			case len(args) > 1 && flags.product > 0:
				return failure.Usage("name one PATTERN", "--product goes with one pattern")
			case flags.raw && flags.oiled:
				return failure.Usage("leave one of them out", "--raw and --oiled do not go together")
			}
			form, err = exportForm(export.Picture, flags.out, flags.form)
			return err
		},
		errand: func(_ context.Context, w workshop, args []string) error { return w.picture(args, form, flags) }})
	addOut(cmd, export.Picture, &flags.out)
	to := cmd.Flags()
	to.StringVar(&flags.form, "form", "", "with -o -: `FORM` svg or png; else by the FILE's ending")
	to.BoolVar(&flags.raw, "raw", false, "the colours of planed wood, without oil")
	to.BoolVar(&flags.oiled, "oiled", false, "the colours of oiled wood, as without a flag")
	to.BoolVar(&flags.marks, "marks", false, "dashed lines on the panel: what is cut from it")
	to.BoolVar(&flags.table, "table", false, "on a light table instead of white paper")
	to.BoolVar(&flags.relief, "relief", false, "the section beneath: how both faces will be in the dry and the humid season")
	typed.Flag(to, &flags.product, "product", "N", "", typed.Count(maxProducts), "this product alone, by its number")
	typed.Flag(to, &flags.width, "width", "N", "", typed.Count(export.MaxWidth), "pixels across; 1600 without it")
	return cmd
}

// maxProducts is the highest number that a product can have.
const maxProducts = 100

// addOut gives a command -o; the shell completes files of the kind's endings.
func addOut(cmd *cobra.Command, kind export.Kind, out *string) {
	cmd.Flags().StringVarP(out, "out", "o", "", "`FILE` to write, - for the standard output")
	var endings []string
	for _, e := range export.Endings(kind) {
		endings = append(endings, strings.TrimPrefix(e, "."))
	}
	_ = cmd.MarkFlagFilename("out", endings...) // the flag is there
}

// exportForm returns the form of a kind that -o asks for. To the standard output the
// first of its forms goes, where nothing else is said.
func exportForm(kind export.Kind, out, form string) (export.Export, error) {
	endings := export.Endings(kind)
	name := out
	switch {
	case out == "":
		return export.Export{}, failure.Usage("write it like -o trivet"+endings[0], "%v needs -o FILE", kind)
	case out != "-" && form != "":
		return export.Export{}, failure.Usage("the FILE's ending sets it", "--form goes with -o - alone")
	case out == "-" && form == "":
		name = endings[0]
	case out == "-":
		name = "." + form
	}
	if e, ok := export.For(kind, name); ok {
		return e, nil
	}
	if out == "-" {
		return export.Export{}, failure.Usage("", "--form %q: must be %s", form, orList(endings, "."))
	}
	return export.Export{}, failure.Usage("write it like -o trivet"+endings[0], "-o %q: must end in %s", out, orList(endings, ""))
}

// orList returns .svg or .png, each without a prefix.
func orList(list []string, without string) string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = strings.TrimPrefix(s, without)
	}
	return strings.Join(out, " or ")
}

func (w workshop) picture(args []string, form export.Export, flags pictureFlags) error {
	var jobs []export.Job
	var first store.Saved
	for i, arg := range args {
		saved, err := w.Open(arg)
		if err != nil {
			return err
		}
		job, err := w.ExportJob(saved, 1)
		if err != nil {
			return err
		}
		if i == 0 {
			first = saved
		}
		jobs = append(jobs, job)
	}
	job := jobs[0]
	job.Beside = jobs[1:]
	job.Look = export.Look{Raw: flags.raw, Marks: flags.marks, Table: flags.table, Relief: flags.relief, Product: flags.product, Width: flags.width}
	return w.WriteExport(form, job, flags.out, first.File)
}
