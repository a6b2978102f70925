package export

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern/evenings"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

// A gluing says what to glue in which evening.
type gluing struct {
	Sums     []work.Line
	Evenings []eveningRow
	Caveats  []string
	of       [][]int // of each job: its evenings, ascending
}

// An eveningRow is what is glued in one evening.
type eveningRow struct {
	Nth, Day             int
	GlueUps              []string
	Clamps, Takes, Lacks string
}

// gluingOf returns the evenings of all panels of several jobs, those that are worth most first.
func gluingOf(all []Job) gluing {
	shop := all[0].Physics.Shop()
	r := evenings.RequestOf(shop, all[0].Work.Clamps)
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(all[b].Worth, all[a].Worth) })
	var called, slow []string
	var of []int // the job of each panel
	for _, i := range order {
		j := all[i]
		panel := evenings.PanelOf(j.Work, work.Of(j.Physics, j.Work), shop)
		if panel.Slow {
			slow = append(slow, j.Name())
		}
		for n := range j.Work.Copies {
			var name tell.Phrases
			name.If(len(all) > 1, fmt.Sprintf("%d. %s", i+1, j.Name()))
			name.If(len(all) == 1 || j.Work.Copies > 1, fmt.Sprintf("board %d", n+1))
			r.Panels, called, of = append(r.Panels, panel), append(called, strings.Join(name, ", ")), append(of, i)
		}
	}
	schedule := evenings.Solve(r)
	g := gluing{of: make([][]int, len(all)), Caveats: r.Caveats()}
	for i, e := range schedule.Evenings {
		row := eveningRow{Nth: i + 1, Day: e.Day, Clamps: e.ClampsText(), Takes: e.TakesText(), Lacks: r.Lacks(e)}
		for _, up := range e.GlueUps {
			row.GlueUps = append(row.GlueUps, up.Text(called[up.Panel]))
			if in := &g.of[of[up.Panel]]; !slices.Contains(*in, i+1) {
				*in = append(*in, i+1)
			}
		}
		g.Evenings = append(g.Evenings, row)
	}
	g.Sums = []work.Line{{What: "evenings", Text: schedule.Text()}, {What: "clamps", Text: r.ClampsText()}, {What: "an evening", Text: r.TimeText()}}
	if len(slow) > 0 {
		g.Sums = append(g.Sums, work.Line{What: "no figure", Text: tell.List(slow, "and") + ": a glue line takes longer than the glue stays open"})
	}
	return g
}
