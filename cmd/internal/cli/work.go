package cli

import (
	"encoding/json"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store"
	"example.com/oddments/pattern/work"
)

const workLong = `work gives the figures that stand beside each step once a pattern is settled:
glue and clamps, template and passes, bevel, weight, finish and drying, label
and price, with the cautions that belong to the step. PATTERN=N is for N panels.
A pattern without products is itself the product.

Beside every figure stands where its rule or its default comes from; habit is a
habit of the trade without a source. Set the defaults right in [cut], [glue],
[finish] and [price] of your shop.toml: money is in your own currency. Labour
goes by the last batch that says how long it took, or by --minutes. With
--before it says the last day to start.

The exit is 1 where a caution is at too much.`

// mostClamps is how many clamps there may be.
const mostClamps = 10_000

type workFlags struct {
	minutes, clamps int
	asked           float64
	dryingOil       bool
	before          pattern.Date
}

func (a *app) workCommand() *cobra.Command {
	var flags workFlags
	cmd := &cobra.Command{
		Use:               "work PATTERN[=N]",
		Short:             "give the figures for gluing, cutting out, finishing and selling",
		Long:              workLong,
		Example:           "  oddments work saltings-round\n  oddments work candle-sill=4 --minutes 310 --asked 45\n  oddments work ./gifts/trivet.toml --json",
		Annotations:       jsonToo(),
		Args:              onePattern,
		RunE:              func(_ *cobra.Command, args []string) error { return a.work(args[0], flags) },
		ValidArgsFunction: a.completeOnePattern,
	}
	flags.add(cmd)
	return cmd
}

// add puts the flags on a command.
func (f *workFlags) add(cmd *cobra.Command) {
	cmd.Flags().Var(&countFlag{&f.minutes, pattern.MaxMinutes}, "minutes", "what all panels take; else by the last batch made")
	cmd.Flags().Var(&countFlag{&f.clamps, mostClamps}, "clamps", "how many you have")
	cmd.Flags().Var((*amountFlag)(&f.asked), "asked", "price that you ask for one product")
	cmd.Flags().BoolVar(&f.dryingOil, "drying-oil", false, "the finish is linseed, tung or another oil that hardens")
	cmd.Flags().Var((*dateFlag)(&f.before), "before", "day that the products are to be ready before, like 2026-12-05")
}

// A dateFlag is a day.
type dateFlag pattern.Date

func (f *dateFlag) String() string {
	if *f == (dateFlag{}) {
		return ""
	}
	return pattern.Date(*f).String()
}

func (f *dateFlag) Type() string { return "DATE" }

func (f *dateFlag) Set(text string) error {
	day, err := pattern.ParseDate(text)
	*f = dateFlag(day)
	return err
}

// set puts what the flags say into a job.
func (f workFlags) set(job *work.Job) {
	if f.minutes > 0 {
		job.Minutes = f.minutes
	}
	job.Clamps, job.Asked, job.Due, job.DryingOil = f.clamps, f.asked, f.before, f.dryingOil
}

// A countFlag is a whole number above 0, up to most.
type countFlag struct {
	into *int
	most int
}

func (f *countFlag) String() string {
	if f.into == nil || *f.into == 0 {
		return ""
	}
	return strconv.Itoa(*f.into)
}

func (f *countFlag) Type() string { return "N" }

func (f *countFlag) Set(text string) error {
	n, err := strconv.ParseUint(text, 10, 31)
	if err != nil || n < 1 || int(n) > f.most {
		return fmt.Errorf("%q: must be a whole number from 1 to %d", text, f.most)
	}
	*f.into = int(n)
	return nil
}

// An amountFlag is an amount of money above 0.
type amountFlag float64

func (f *amountFlag) String() string {
	if *f == 0 {
		return ""
	}
	return strconv.FormatFloat(float64(*f), 'f', -1, 64)
}

func (f *amountFlag) Type() string { return "AMOUNT" }

func (f *amountFlag) Set(text string) error {
	amount, err := work.ParseAmount(text)
	if err != nil {
		return err
	}
	*f = amountFlag(amount)
	return nil
}

// working is what work prints.
type working struct {
	app      *app
	workshop workshop
	saved    store.Saved
	job      work.Job
	figures  work.Figures
	cautions []work.Caution
	unit     length.Unit
}

func (a *app) work(arg string, flags workFlags) error {
	name, copies, err := withCopies(arg)
	if err != nil {
		return err
	}
	w, err := a.workshop()
	if err != nil {
		return err
	}
	saved, err := w.home.OpenPattern(name, w.known)
	if err != nil {
		return err
	}
	if len(saved.Pattern.Strips) == 0 && !a.json {
		a.sayPattern(saved)
		a.say("strips: none yet, a draft: there is nothing to reckon")
		return nil
	}
	job, err := w.job(saved, copies)
	if err != nil {
		return err
	}
	flags.set(&job)
	unit := a.unit(w.shop)
	labels := work.Labels(w.table, job, unit)
	job.Label = labels[0] // all lack the same fields
	figures := work.Of(w.physics(), job)
	k := working{a, w, saved, job, figures, work.Cautions(w.physics(), job, figures, unit), unit}
	for _, c := range k.cautions {
		if c.Level == pattern.TooMuch {
			a.worsen(exitMuch)
		}
	}
	if a.json {
		_, _ = a.out.WriteString(jsonLine(k.json()))
		return nil
	}
	k.print()
	return nil
}

// The JSON of the working figures. What is not known is null.
type (
	workJSON struct {
		Format   string            `json:"format"`
		Pattern  string            `json:"pattern"`
		Copies   int               `json:"copies"`
		Glue     glueJSON          `json:"glue"`
		Products []workProductJSON `json:"products"`
		Finish   finishJSON        `json:"finish"`
		Price    priceJSON         `json:"price"`
	}
	glueJSON struct {
		AreaM2  float64  `json:"area_m2"`
		Grams   float64  `json:"grams"`
		Minutes float64  `json:"minutes"`
		Stages  *float64 `json:"stages"`
		Clamps  *float64 `json:"clamps"`
	}
	workProductJSON struct {
		Product     int      `json:"product"`
		TemplateMM  sizeJSON `json:"template_mm"`
		Passes      int      `json:"passes"`
		PathM       float64  `json:"path_m"`
		BevelFaceMM float64  `json:"bevel_face_mm"`
		EdgeLeftMM  float64  `json:"edge_left_mm"`
		StandsOnMM  sizeJSON `json:"stands_on_mm"`
		RemovedCM3  float64  `json:"removed_cm3"`
		WeightKg    *float64 `json:"weight_kg"`
		FinishM2    float64  `json:"finish_m2"`
	}
	finishJSON struct {
		OilMl    float64  `json:"oil_ml"`
		WaxG     *float64 `json:"wax_g"`
		OilG     float64  `json:"oil_g"`
		Evenings *float64 `json:"evenings"`
	}
	priceJSON struct {
		Materials float64  `json:"materials"`
		Labour    *float64 `json:"labour"`
		Each      *float64 `json:"each"`
		BreakEven *float64 `json:"break_even"`
	}
)

// A sizeJSON is what a shape is given by: the diameter of a round as a number, of
// another a list of its length along the grain and its width.
type sizeJSON []length.Length

// MarshalJSON returns a number of millimetres, or a list of them.
func (s sizeJSON) MarshalJSON() ([]byte, error) {
	mm := make([]float64, len(s))
	for i, l := range s {
		mm[i] = l.MM()
	}
	if len(mm) == 1 {
		return json.Marshal(mm[0])
	}
	return json.Marshal(mm)
}

func (k working) json() workJSON {
	f := k.figures
	out := workJSON{
		Format: "oddments/work 1", Pattern: k.saved.Stem, Copies: k.job.Copies,
		Glue:     glueJSON{f.Glue.AreaM2, f.Glue.Grams, f.Glue.Minutes, estimate(f.Glue.Stages), estimate(f.Glue.Clamps)},
		Products: make([]workProductJSON, 0, len(f.Products)),
		Finish:   finishJSON{f.Finish.OilMl, estimate(f.Finish.WaxG), f.Finish.OilG, estimate(f.Finish.Evenings)},
		Price:    priceJSON{f.Price.Materials, estimate(f.Price.Labour), estimate(f.Price.Each), estimate(f.Price.BreakEven)},
	}
	for i, made := range k.job.Makes() {
		p, shape := f.Products[i], outline.ShapeOf(made)
		out.Products = append(out.Products, workProductJSON{
			Product: p.Product, TemplateMM: shape.Resized(p.Template.Along, p.Template.Across).Sizes(),
			Passes: p.Passes, PathM: p.PathM, BevelFaceMM: p.BevelFaceMM, EdgeLeftMM: p.EdgeLeft.MM(),
			StandsOnMM: shape.Resized(p.Stands.Along, p.Stands.Across).Sizes(),
			RemovedCM3: p.RemovedCM3, WeightKg: estimate(p.WeightKg), FinishM2: p.FinishM2,
		})
	}
	return out
}

func estimate(e work.Estimate) *float64 { return known(e.Value, e.Known) }
