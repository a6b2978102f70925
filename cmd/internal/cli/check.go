package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/check"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/store"
)

const checkLong = `check tells what to know of a pattern before any glue is opened: the size of the
panel, what each season does to its width, the step and the strain at each glue
line, whose end grain to look at, the timber it takes, and what asks for care,
with remedies that were reckoned.

Movement along the grain is left out. Every figure is an estimate with its
scatter: 14 ±17 um says that boards of the two timbers differ so much.

Of several patterns one that cannot be read does not stop the others; the exit
is the worst of 3, 1 and 0. With --json each pattern is one line.`

func (a *app) checkCommand() *cobra.Command {
	return &cobra.Command{
		Use:         "check PATTERN...",
		Short:       "say what to know of a pattern before gluing it up",
		Long:        checkLong,
		Example:     "  oddments check rookery-square\n  oddments check saltings-round candle-sill --json\n  oddments check ./gifts/trivet.toml --units in",
		Annotations: jsonToo(),
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("name a saved pattern, or a file with a slash or .toml", "check needs a PATTERN")
			}
			return nil
		},
		RunE:              func(_ *cobra.Command, args []string) error { return a.check(args) },
		ValidArgsFunction: a.completePattern,
	}
}

// An opened is a pattern that was asked for, or why there is none.
type opened struct {
	saved store.Saved
	err   error
}

func (a *app) check(args []string) error {
	w, err := a.workshop()
	if err != nil {
		return err
	}
	all, err := openAll(w, args, "check them one after the other")
	if err != nil {
		return err
	}
	printed := 0
	for _, one := range all {
		if one.err != nil {
			a.report(one.err)
			continue
		}
		if printed > 0 && !a.json {
			fmt.Fprintln(a.out)
		}
		a.printCheck(w, one.saved)
		printed++
	}
	return nil
}

// openAll reads the patterns of args. Two of one stem are wrong usage: nobody could
// tell them apart in what is printed. The hint says what to do instead.
func openAll(w workshop, args []string, hint string) ([]opened, error) {
	all := make([]opened, len(args))
	first := map[string]string{}
	for i, arg := range args {
		all[i].saved, all[i].err = w.home.OpenPattern(arg, w.known)
		stem := all[i].saved.Stem
		if other, twice := first[stem]; twice {
			return nil, usage(hint, "%q and %q are both called %s", other, arg, visible(stem))
		}
		first[stem] = arg
	}
	return all, nil
}

// printCheck prints what is known of a pattern and keeps the exit for it.
func (a *app) printCheck(w workshop, saved store.Saved) {
	r := w.physics()
	unit := a.unit(w.shop)
	if a.json {
		unit = length.InMM
	}
	report := check.Of(r, saved.Pattern, unit)
	if report.Level == pattern.TooMuch {
		a.worsen(exitMuch)
	}
	if a.json {
		_, _ = a.out.WriteString(jsonLine(checkOf(saved, report)))
		return
	}
	t := checkText{out: a.out, workshop: w, saved: saved, report: report, unit: unit}
	t.print()
}

// The JSON of a check. Figures of which something is missing are null.
type (
	checkJSON struct {
		Format        string        `json:"format"`
		Pattern       string        `json:"pattern"`
		Name          string        `json:"name"`
		Strips        int           `json:"strips"`
		LengthMM      float64       `json:"length_mm"`
		ThicknessMM   float64       `json:"thickness_mm"`
		GlueUpWidthMM float64       `json:"glue_up_width_mm"`
		Level         string        `json:"level"`
		Seasons       []seasonJSON  `json:"seasons"`
		GlueLines     []lineJSON    `json:"glue_lines"`
		LookFirst     []lookJSON    `json:"look_first"`
		Timber        []timberJSON  `json:"timber"`
		Findings      []findingJSON `json:"findings"`
	}
	seasonJSON struct {
		Name          string   `json:"name"`
		TemperatureC  float64  `json:"temperature_c"`
		HumidityPct   float64  `json:"humidity_pct"`
		EMCPct        float64  `json:"emc_pct"`
		WidthChangeMM *float64 `json:"width_change_mm"`
	}
	lineJSON struct {
		Line           int      `json:"line"`
		StrainPct      *float64 `json:"strain_pct"`
		StrainPMPct    *float64 `json:"strain_pm_pct"`
		StepUM         *float64 `json:"step_um"`
		StepPMUM       *float64 `json:"step_pm_um"`
		LeastUM        *float64 `json:"least_um"`
		MostUM         *float64 `json:"most_um"`
		Season         *string  `json:"season"`
		MoistureGapPct float64  `json:"moisture_gap_pct"`
		Contrast       float64  `json:"contrast"`
		Level          string   `json:"level"`
		Settled        bool     `json:"settled"`
		Borderline     bool     `json:"borderline"`
	}
	lookJSON struct {
		Strip int `json:"strip"`
		Lines int `json:"lines"`
	}
	timberJSON struct {
		Species     string   `json:"species"`
		Strips      int      `json:"strips"`
		WidthMM     float64  `json:"width_mm"`
		FinishedCM3 float64  `json:"finished_cm3"`
		RoughCM3    float64  `json:"rough_cm3"`
		MassKg      *float64 `json:"mass_kg"`
	}
	findingJSON struct {
		Rule    string `json:"rule"`
		Level   string `json:"level"`
		Where   string `json:"where"`
		Message string `json:"message"`
		Remedy  string `json:"remedy"`
	}
)

// checkOf returns the JSON of a report.
func checkOf(saved store.Saved, r check.Report) checkJSON {
	p, f := saved.Pattern, r.Figures
	c := checkJSON{
		Format: "oddments/check 1", Pattern: saved.Stem, Name: p.Name, Strips: len(p.Strips),
		LengthMM: p.Panel.Length.MM(), ThicknessMM: p.Panel.Thickness.MM(), GlueUpWidthMM: f.Width.MM(), Level: r.Level.String(),
		Seasons: make([]seasonJSON, 0, len(f.Seasons)), GlueLines: make([]lineJSON, 0, len(f.Lines)),
		LookFirst: make([]lookJSON, 0, len(f.Look)), Timber: make([]timberJSON, 0, len(f.Timber)),
		Findings: make([]findingJSON, 0, len(r.Findings)),
	}
	for _, s := range f.Seasons {
		c.Seasons = append(c.Seasons, seasonJSON{s.Season.String(), s.Air.TemperatureC, s.Air.HumidityPct, s.EquilibriumPct,
			known(s.WidthChangeMM, s.Known)})
	}
	for _, l := range f.Lines {
		c.GlueLines = append(c.GlueLines, lineOf(l))
	}
	for _, l := range f.Look {
		c.LookFirst = append(c.LookFirst, lookJSON{l.Strip, l.Lines})
	}
	for _, t := range f.Timber {
		c.Timber = append(c.Timber, timberJSON{t.Species, t.Strips, t.Width.MM(), t.FinishedCM3, t.RoughCM3, known(t.MassKg, t.MassKnown)})
	}
	for _, g := range r.Findings {
		c.Findings = append(c.Findings, findingJSON{g.Rule, g.Level.String(), g.Where.String(), g.Message, g.Remedy()})
	}
	return c
}

func lineOf(l movement.Line) lineJSON {
	return lineJSON{
		Line:      l.Line,
		StrainPct: known(l.StrainPct, l.Known), StrainPMPct: known(l.StrainPM, l.Known),
		StepUM: known(l.StepUM, l.Known), StepPMUM: known(l.StepPM, l.Known),
		LeastUM: known(l.LeastUM, l.Known), MostUM: known(l.MostUM, l.Known),
		Season:         known(l.Season.String(), l.Known),
		MoistureGapPct: l.GapPct, Contrast: l.Contrast, Level: l.Level.String(), Settled: l.Settled, Borderline: l.Borderline,
	}
}

// known returns nil, which is null in JSON, for a figure that nobody knows.
func known[T any](x T, ok bool) *T {
	if !ok {
		return nil
	}
	return &x
}
