package export

import (
	"bytes"
	_ "embed"
	"io"
	"unicode"

	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/work"
)

//go:embed sheet.css
var sheetStyle string

// writeSheet writes the page for the bench: everything from the pieces on the rack to
// the label, in the workshop's order, each caution at its own step.
func writeSheet(w io.Writer, j Job) error {
	b := bytes.NewBufferString("<!DOCTYPE html>\n")
	pageOfSheet(sheetOf(j)).write(b)
	b.WriteByte('\n')
	_, err := w.Write(bytes.Map(func(r rune) rune {
		if r != '\n' && !unicode.IsPrint(r) {
			return unicode.ReplacementChar
		}
		return r
	}, b.Bytes()))
	return err
}

// pageOfSheet returns the whole page.
func pageOfSheet(s sheet) part {
	batches := "Batches and notes"
	if !s.Draft {
		batches = "10. " + batches
	}
	return el("html", at("lang", "en"), at("xml:lang", "en"), at("xmlns", "http://www.w3.org/1999/xhtml"),
		el("head",
			el("meta", at("charset", "utf-8")),
			el("meta", at("name", "viewport"), at("content", "width=device-width, initial-scale=1")),
			el("title", text(s.Name+": sheet for the bench")),
			el("style", text("\n"), styleSheet(sheetStyle))),
		el("body",
			ringSymbols(),
			el("main",
				headOf(s),
				when(s.Draft, el("p", text("A draft: it has no strips yet, so there is nothing to saw."))),
				when(!s.Draft, chapters(s)),
				batchesOf(s, batches))))
}

// chapters returns the steps of the work, in their order. One without anything to say
// keeps its number.
func chapters(s sheet) run {
	return run{
		chapter("1. Before anything is sawn",
			el("p", text("The check of the pattern says: "), el("strong", text(s.Levels)), text(".")),
			steps(s.Look),
			cares(s.Cares["before"])),
		chapter("2. Strips out of the rack", cares(s.Cares["saw"]), stockPart(s.Stock)),
		chapter("3. Lay the strips out", stripsPart(s.Strips)),
		chapter("4. Glue",
			cares(s.Cares[work.StepGlue]), steps(s.Glue), figures("Glue and clamps", s.Figures[work.StepGlue])),
		chapter("5. Flatten", cares(s.Cares["flatten"]), steps(s.Flatten)),
		when(s.HasMark(), chapter("6. Mark out", markPart(s.Mark))),
		chapter("7. Cut out, drill, bevel, sand",
			cares(s.Cares[work.StepCut]),
			each(s.Things, func(m made) part {
				return run{el("h3", text(m.Called+": "+m.Text)), steps(m.Steps), figures("Figures of one", m.Lines)}
			}),
			cares(s.Cares[work.StepSand])),
		chapter("8. Finish",
			cares(s.Cares[work.StepFinish]), steps(s.Finish), figures("Oil and wax", s.Figures[work.StepFinish])),
		chapter("9. Label and sell",
			each(s.Labels, labelPart),
			el("p", text("What a label must say differs from place to place: check current local law.")),
			cares(s.Cares[work.StepLabel]), cares(s.Cares[work.StepSale]),
			figures("Cost and price, in your own currency", s.Figures[work.StepSale])),
	}
}

// headOf says what the sheet is of, with the picture of the panel.
func headOf(s sheet) part {
	return el("header",
		el("h1", own(s.Name)),
		el("p", class("quiet"), text("Sheet for the bench, pattern "), own(s.Stem), text(", made "+tell.Times(s.Copies))),
		toFillIn("batch", "date", "by"),
		facts(s.Facts),
		when(s.Picture != "", el("figure", class("panel"), s.Picture, text("\n"),
			el("figcaption", class("quiet"), text(s.Approx+" Numbers, letters and rings (= flat, / rift, | quarter, ? not looked at) as in the list of strips.")))),
		el("p", class("care"), el("b", text("At every machine:")), text(" "+s.Manuals)))
}

// stockPart says how the strips come out of the rack, piece by piece.
func stockPart(s stock) run {
	return run{
		when(!s.Planned, el("p", text("No stock plan was made."))),
		facts(s.Facts),
		each(s.Missing, func(what string) part {
			return el("p", class("care much"), el("b", text("Short:")), text(" "+what))
		}),
		steps(s.Ready),
		each(s.Pieces, piecePart),
		when(len(s.Pieces) > 0, el("p", class("quiet"),
			text("In the drawings end on, the numbers are those of the strips; hatched is what the saw takes, and what goes back or is not used."))),
	}
}

func piecePart(p stockPiece) part {
	figure := func(d drawing) part { return el("figure", d) }
	return el("section",
		el("div", class("together"),
			el("h3", text(p.Name)),
			el("p", text(p.Text)),
			el("div", class("piece"),
				el("div", class("drawings"), each(p.EndOn, figure), figure(p.Along)),
				facts(p.Settings))),
		steps(p.Steps))
}

// stripsPart lists the strips to lay out by.
func stripsPart(strips []stripRow) run {
	return run{
		el("p", text("Chalk on each as it comes: its number, an arrow to the far end, a cross on the face that shows. When all lie right, draw the triangle over them.")),
		table("stack", "Strips from edge A", []string{"no.", "timber", "width", "length", "start", "rings", "turned", "from"},
			each(strips, func(s stripRow) part {
				return row(text(s.Numbers),
					cell(el("span", class("swatch"), at("style", "background:"+s.Hex)), text(s.Letters+" "+s.Timber)),
					numberCell("wide", s.Width), numberCell("long", s.Length), numberCell("start", s.Start),
					cell(ringsGlyph(s.Glyph), text(s.Rings)), cell(text(s.Turned)), namedCell("from", own(s.From)))
			})),
	}
}

// markPart says where the products are marked on the panel.
func markPart(m markOut) run {
	columns := []string{"product.copy", "from the hook", "from edge A", "from the datum end", "may slide"}
	if m.Round {
		columns = append(columns, "out of round, dry", "humid")
	}
	return run{
		when(m.Hook != "", el("p", text(m.Hook))),
		when(len(m.Rows) > 0, table("stack", "Centres, each measured from the one datum", columns,
			each(m.Rows, func(r markRow) part {
				return row(text(r.Thing),
					numberCell("from the hook", r.FromHook), numberCell("from edge A", r.FromA),
					numberCell("from the datum end", r.FromDatum), numberCell("slide", r.Slide),
					when(m.Round, numberCell("dry", r.Dry), numberCell("humid", r.Humid)))
			}))),
		facts(append(m.Drawn, m.Blanks...)),
		when(m.Left != "", el("p", text("Left over: "+m.Left+"."))),
	}
}

// labelPart returns a label, with room to write where nothing is known.
func labelPart(l label) part {
	return el("div", class("label"),
		el("h3", text("Label, "+l.Called)),
		el("dl", class("facts"), each(l.Fields, func(f work.Field) part {
			filled := run{text(f.Text)}
			if f.Text == "" {
				filled = run{el("span", class("blank")), text(" "), el("span", class("quiet"), text("empty"))}
			}
			return run{el("dt", text(f.Name)), el("dd", filled)}
		})))
}

// batchesOf lists the batches made, with room for this one.
func batchesOf(s sheet, heading string) part {
	before := when(len(s.Made) == 0, el("p", text("No batch is written down yet.")))
	if len(s.Made) > 0 {
		before = run{table("stack", "Batches made", []string{"date", "copies", "width", "thickness", "minutes", "note"},
			each(s.Made, func(m madeRow) part {
				return row(text(m.Date),
					namedCell("copies", text(m.Copies)), numberCell("width", m.Width), numberCell("thickness", m.Thickness),
					namedCell("minutes", text(m.Minutes)), cell(own(m.Note)))
			}))}
	}
	return chapter(heading,
		before,
		when(s.Notes != "", el("p", text("Notes on the pattern: "), own(s.Notes))),
		el("h3", text("This batch")),
		toFillIn("width", "thickness", "minutes"),
		el("div", class("lines"), el("div"), el("div"), el("div"), el("div"), el("div")))
}
