package export

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern/tell"
)

// A stripRow is one strip in the list to lay out by.
type stripRow struct {
	Number                             int
	Numbers                            string
	Letters, Timber                    string
	Width, Length, Start, Rings, Glyph string
	Over, Turned                       bool
	From                               string
	Hex                                string
}

// Turns reports whether some strip lies turned over or end for end.
func (s *sheet) Turns() bool {
	return slices.ContainsFunc(s.Strips, func(r stripRow) bool { return r.Over || r.Turned })
}

// StripColumns returns the heads of the list to lay out by; what no strip has is left out.
func (s *sheet) StripColumns() []string {
	out := []string{"no.", "timber", "width", "length"}
	if s.Work.Pattern.Ragged() {
		out = append(out, "start")
	}
	out = append(out, "rings")
	if s.Turns() {
		out = append(out, "turned")
	}
	return append(out, "from")
}

// stripRows lists the strips to lay out by, with where each comes from.
func stripRows(j Job) []stripRow {
	p, u := j.Work.Pattern, j.Unit
	from := sources(j)
	var out []stripRow
	for i, s := range p.Strips {
		timber, known := j.Physics.Table().Get(s.Species)
		if !known {
			timber.Name, timber.Letters = s.Species, "??"
		}
		out = append(out, stripRow{
			Number: i + 1, Letters: timber.Letters, Timber: timber.Name, Width: s.Width.With(u),
			Length: p.StripLength(s, j.Physics.Shop().Allowance.Length).With(u), Start: s.Start.With(u),
			Rings: strings.Join(append([]string{s.Rings.String()}, s.Grain().Words(u)...), ", "), Glyph: s.Rings.Nearest().String(), Over: s.Over, Turned: s.Turned, From: from[i+1],
			Hex: faceOf(timber, s.Colour, j.Look.Raw).String(),
		})
	}
	return gathered(out)
}

// gathered puts three or more rows in a row that are alike into one.
func gathered(rows []stripRow) []stripRow {
	var out []stripRow
	for i := 0; i < len(rows); {
		end := i
		for end+1 < len(rows) && alikeRows(rows[i], rows[end+1]) {
			end++
		}
		if end-i < 2 {
			end = i
		}
		row := rows[i]
		row.Numbers = fmt.Sprint(row.Number)
		if end > i {
			row.Numbers = fmt.Sprintf("%d to %d", row.Number, rows[end].Number)
		}
		out = append(out, row)
		i = end + 1
	}
	return out
}

func alikeRows(a, b stripRow) bool {
	a.Number, b.Number = 0, 0
	return a == b
}

// sources says of each strip, by number, which pieces it comes from in the copies.
func sources(j Job) map[int]string {
	type source struct {
		strip int
		piece string
	}
	var of tell.Groups[source, string]
	for ref, id := range j.Plan.Served() {
		if ref.Pattern == j.Stem {
			of.Add(source{ref.Strip, id}, id)
		}
	}
	for _, m := range j.Plan.Missing {
		if m.Pattern == j.Stem {
			of.Add(source{m.Strip, "short"}, "")
		}
	}
	texts := map[int]string{}
	for from, all := range of.All() {
		text := from.piece
		if j.Work.Copies > 1 {
			text = fmt.Sprintf("%s (%d)", text, len(all))
		}
		if before := texts[from.strip]; before != "" {
			text = before + ", " + text
		}
		texts[from.strip] = text
	}
	return texts
}
