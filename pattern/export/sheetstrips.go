package export

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strings"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
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
	from := sources(j, func(r cutting.Ref) string { return r.OfStrip().Name() })
	var out []stripRow
	for i, s := range p.Strips {
		timber, known := j.Physics.Table().Get(s.Species)
		if !known {
			timber.Name, timber.Letters = s.Species, "??"
		}
		out = append(out, stripRow{
			Number: i + 1, Letters: timber.Letters, Timber: timber.Name, Width: s.Width.With(u),
			Length: p.StripLength(s, j.Physics.Shop().Allowance.Length).With(u), Start: s.Start.With(u),
			Rings: strings.Join(append([]string{s.Rings.String()}, s.Grain().Words(u)...), ", "), Glyph: s.Rings.Nearest().String(), Over: s.Over, Turned: s.Turned, From: from[fmt.Sprint(i+1)],
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

// sources says of what goes by a name, strips or their pieces, which pieces of the rack it
// comes from in the copies.
func sources(j Job, name func(cutting.Ref) string) map[string]string {
	type source struct{ strip, piece string }
	var of tell.Groups[source, string]
	for ref, id := range j.Plan.Served() {
		if ref.Pattern == j.Stem {
			of.Add(source{name(ref), id}, id)
		}
	}
	for _, m := range j.Plan.Missing {
		if m.Pattern == j.Stem {
			of.Add(source{name(m.Ref), "short"}, "")
		}
	}
	texts := map[string]string{}
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

// A pieceRow is one piece in the list of those of strips that are not laid as the list of
// strips has them.
type pieceRow struct{ Name, Boards, Start, Length, From string }

// A stopRow is one setting of the stop, with what is crosscut at it.
type stopRow struct{ Stop, Strips string }

// pieceRows lists pieces in the order of laying, datum end first, and the stops of all
// strips where some are in pieces, the longest first.
func pieceRows(j Job) (rows []pieceRow, stops []stopRow) {
	type laid struct {
		strip int
		way   string
	}
	var of tell.Groups[laid, int] // the boards
	ways := map[string]joints.Way{}
	var at tell.Groups[length.Length, cutting.Ref]
	p, allowance := j.Work.Pattern, j.Physics.Shop().Allowance.Length
	for c, all := range j.laid() {
		for i, way := range all {
			key := fmt.Sprint(way)
			ways[key] = way
			of.Add(laid{i + 1, key}, c)
		}
	}
	keys := of.Keys()
	slices.SortStableFunc(keys, func(a, b laid) int { return cmp.Compare(a.strip, b.strip) })
	from := sources(j, cutting.Ref.Name)
	for _, key := range keys {
		way, boards := ways[key.way], ""
		if on := of.Of(key); len(on) < j.Work.Copies {
			boards = tell.Numbered("board", on)
		}
		asIs := len(way) == 1 && way[0] == p.PiecesOf(p.Strips[key.strip-1], allowance)[0]
		for i, piece := range way {
			ref := cutting.Ref{Strip: key.strip, Piece: i + 1}
			if len(way) == 1 {
				ref.Piece = 0
			}
			if !slices.Contains(at.Of(piece.Length), ref) {
				at.Add(piece.Length, ref)
			}
			if !asIs {
				rows = append(rows, pieceRow{ref.Name(), boards, piece.Start.With(j.Unit), piece.Length.With(j.Unit), from[ref.Name()]})
			}
		}
	}
	if len(rows) == 0 {
		return nil, nil
	}
	lengths := at.Keys()
	slices.SortFunc(lengths, func(a, b length.Length) int { return cmp.Compare(b, a) })
	for _, l := range lengths {
		stops = append(stops, stopRow{l.With(j.Unit), cutting.StripsText(at.Of(l))})
	}
	return rows, stops
}

// laid returns how the strips of each board are laid: by the plan, or as the pattern has them.
func (j Job) laid() iter.Seq2[int, []joints.Way] {
	return func(yield func(int, []joints.Way) bool) {
		stock, plan := j.Stock, j.Plan
		at := slices.IndexFunc(stock.Patterns, func(d cutting.Demand) bool { return d.Stem == j.Stem })
		d := cutting.Demand{Stem: j.Stem, Pattern: j.Work.Pattern}
		if at >= 0 {
			d = stock.Patterns[at]
		} else {
			stock, plan = cutting.Job{Shop: j.Physics.Shop()}, cutting.Plan{}
		}
		for c := 1; c <= j.Work.Copies && yield(c, stock.LaidIn(plan, d, c)); c++ {
		}
	}
}

// PieceColumns returns the heads of the list of pieces.
func (s *sheet) PieceColumns() []string {
	out := []string{"piece", "start", "length", "from"}
	if s.SomeBoards() {
		out = append(out, "on")
	}
	return out
}

// SomeBoards reports whether boards are laid from different pieces.
func (s *sheet) SomeBoards() bool {
	return slices.ContainsFunc(s.Laid, func(r pieceRow) bool { return r.Boards != "" })
}
