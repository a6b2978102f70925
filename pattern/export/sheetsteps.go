package export

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/work"
	"example.com/oddments/pattern/worksteps"
)

// A stock is how the strips come out of the rack.
type stock struct {
	Planned bool
	Facts   []fact
	Ready   []step
	Pieces  []stockPiece
	Missing []string
}

// A stockPiece is one opened piece.
type stockPiece struct {
	Name, Text string
	EndOn      []drawing
	Along      drawing
	Settings   []fact
	Steps      []step
}

// A step is one thing to do, with where the advice comes from and what to know of it.
type step struct {
	Text, Source string
	Cares        []care
}

// stockOf returns the plan piece by piece.
func stockOf(j Job) stock {
	var out stock
	out.Planned = len(j.Stock.Patterns) > 0
	if !out.Planned {
		return out
	}
	u, plan := j.Unit, j.Plan
	out.Facts = []fact{{"timber drawn", length.Volume(plan.DrawnCM3, u) + ", " + plan.Claim().String()}, {"gone", length.Volume(plan.GoneCM3, u)},
		{"counted", cutting.CountedText(j.Stock.Shop.Draw, u)}}
	if plan.Short > 0 {
		out.Facts = append(out.Facts, fact{"strips short", fmt.Sprint(plan.Short)})
	}
	steps := out.sort(worksteps.Order(j.Stock, plan, j.name, u))
	for i, d := range worksteps.Details(j.Stock, plan) {
		out.Pieces = append(out.Pieces, stockPiece{Name: d.Name(), Text: d.Text(j.name(d.Piece.Species), u), EndOn: endOn(j, d, i), Along: alongPicture(j, d, i),
			Settings: settingsOf(d, u), Steps: steps[onePiece{d.Cut.Piece, d.Cut.Copy}]})
	}
	return out
}

// onePiece is one of several alike.
type onePiece struct {
	id   string
	copy int
}

// sort puts the steps of a plan where they stand on the sheet, by their kind: those of a
// piece, which it returns, stand beneath it without its name.
func (s *stock) sort(all []worksteps.Step) map[onePiece][]step {
	of := map[onePiece][]step{}
	for _, each := range all {
		var cares []care
		for _, n := range each.Notes {
			cares = append(cares, careOf(n.Level, "", n.Message, ""))
		}
		switch each.Kind {
		case worksteps.StepShort:
			s.Missing = append(s.Missing, each.Text)
		case worksteps.StepReady:
			s.Ready = append(s.Ready, step{Text: each.String(), Cares: cares})
		default:
			piece := onePiece{each.Piece, each.Copy}
			of[piece] = append(of[piece], step{Text: capital(each.Text), Cares: cares})
		}
	}
	return of
}

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func settingsOf(d worksteps.Detail, u length.Unit) []fact {
	var out []fact
	for _, s := range d.Settings() {
		out = append(out, fact{s.Name, s.Text(u)})
	}
	if len(d.Back) > 0 {
		out = append(out, fact{"back to the rack", strings.Join(worksteps.BackTexts(d.Back, u), "; ")})
	}
	return out
}

// A markOut is where products are marked on the panel.
type markOut struct {
	Hook   string
	Rows   []markRow
	Drawn  []fact // how an outline is drawn about its centre
	Blanks []fact
	Left   string
	Round  bool // some row says what the seasons do to a round
}

type markRow struct{ Thing, FromHook, FromDatum, FromA, Slide, Dry, Humid string }

func markOutOf(j Job) markOut {
	p, u, layout := j.Work.Pattern, j.Unit, j.Work.Layout
	shop := j.Physics.Shop()
	var m markOut
	if len(j.Work.Products) == 0 {
		return m
	}
	out := work.MarkOutOf(p, shop.Allowance.Length, layout, shop.Cut.Gap)
	if out.Hook > 0 {
		m.Hook = fmt.Sprintf("Hook the tape on the near end of strip %d, which lies %s from the datum end; set the square on edge A, the left edge of strip 1.",
			out.Hook, p.Strips[out.Hook-1].Start.With(u))
	}
	for i, at := range layout.Placed {
		mark := out.Marks[i]
		row := markRow{Thing: fmt.Sprintf("%d.%d", at.Product, at.Copy), FromHook: mark.FromHook.With(u), FromDatum: at.Along.With(u), FromA: mark.FromA.With(u), Slide: "stays"}
		if at.Slide > 0 {
			row.Slide = "to " + mark.SlidesToFromHook.With(u)
		}
		if outline.ShapeOf(j.Work.Products[at.Product-1]).Diameter() > 0 {
			m.Round = true
			row.Dry, row.Humid = roundText(j, at, movement.Dry), roundText(j, at, movement.Humid)
		}
		m.Rows = append(m.Rows, row)
	}
	for i, product := range j.Work.Products {
		if how := work.DrawingText(product, u); how != "" {
			m.Drawn = append(m.Drawn, fact{fmt.Sprintf("to draw product %d", i+1), how})
		}
	}
	for i, b := range out.Blanks {
		m.Blanks = append(m.Blanks, fact{fmt.Sprintf("blank %d, product %d", i+1, b.Product),
			fmt.Sprintf("%s long, from %s to %s from the datum end, the full width", b.Length.With(u), b.From.Format(u), (b.From + b.Length).With(u))})
	}
	if layout.Left.Length > 0 {
		m.Left = work.LeftText(layout, u)
	}
	return m
}

func roundText(j Job, at outline.Placed, season movement.Season) string {
	e := work.OutOfRound(j.Physics, j.Work.Pattern, j.Work.Products[at.Product-1], at, season)
	if !e.Known {
		return "no figure"
	}
	text := length.Estimate(e.Value, j.Unit)
	if e.Value > 0 && text != "0" {
		text = "+" + text
	}
	return text + " " + j.Unit.String()
}

// letters returns the two letters of a timber.
func letters(j Job, s pattern.Strip) string {
	if t, ok := j.Physics.Table().Get(s.Species); ok && t.Letters != "" {
		return t.Letters
	}
	return "??"
}
