// Package planview draws the stock plan: which pieces to cut for which strips, the
// chosen piece end on and along, and what goes back to the rack.
package planview

import (
	"fmt"
	"strings"

	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/pattern/worksteps"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

// list returns the cuts in the rows of r.
func (l Screen) list(r paint.Rect, ctx screen.Context) screen.List {
	return screen.List{Rows: lay(r).rows, N: len(ctx.Plan.Details), At: l.at}
}

// Go chooses the cut so many further down.
func (l Screen) Go(by int, ctx screen.Context) Screen {
	n := len(ctx.Plan.Details)
	l.at = screen.Among(screen.Among(l.at, n)+by, n)
	return l
}

// At chooses the cut at row y of r, for the mouse.
func (l Screen) At(y int, r paint.Rect, ctx screen.Context) Screen {
	if i, ok := l.list(r, ctx).On(y); ok {
		l.at = i
	}
	return l
}

// The picture of a piece beneath the list has half of the height, from so few rows to
// so many.
const (
	leastPicture = 9
	mostPicture  = 22
	headRows     = 3
)

type layout struct{ head, rows, picture paint.Rect }

func lay(r paint.Rect) layout {
	_, r = r.SplitBottom(screen.FooterRows)
	var l layout
	l.head, r = r.SplitTop(headRows)
	l.picture, l.rows = r.SplitBottom(min(max(leastPicture, min(mostPicture, r.H/2)), max(0, r.H-2)))
	return l
}

// Draw draws the plan into r.
func (l Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	parts := lay(r)
	l.head(c, parts.head.Inset(1, 0), ctx)
	cuts := ctx.Plan.Details
	cols := columnsOf(cuts, r.W-2, ctx)
	l.list(r, ctx).Draw(c, func(i int, row paint.Rect, mark string, style paint.Style) {
		row = row.Inset(1, 0)
		c.Fill(row, ' ', style)
		c.TextFit(row, mark+cols.row(cuts[i], ctx), style)
	})
	if len(cuts) > 0 && ctx.Plan.Have {
		l.picture(c, parts.picture.Inset(1, 0), cuts[screen.Among(l.at, len(cuts))], ctx)
	}
	screen.DrawFooter(c, table().Footer(l, r, ctx))
}

// nothingToPlan reports whether what is made has no strips at all.
func nothingToPlan(ctx screen.Context) bool {
	return len(ctx.State.Pattern.Strips) == 0 && len(ctx.Batch.With) == 0
}

// head says what is made, what it takes and how sure that is.
func (l Screen) head(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p := ctx.Plan
	c.TextFit(r.Row(0), "Plan   "+ctx.Made(), c.Role(paint.RoleHeading))
	switch {
	case nothingToPlan(ctx):
		c.Text(r.Row(1), "no strips yet: put them in on the bench", paint.Style{})
	case l.works:
		text := fmt.Sprintf("planning: %d of %d timbers done   ", l.progress.Done, l.progress.Timbers) + l.progress.Say(ctx.Unit)
		c.TextFit(r.Row(1), text+"   "+ctx.Keys.KeyOf(planRun)+" stops and keeps the best so far", c.Role(paint.RoleUnknown))
	case !p.Have:
		c.Text(r.Row(1), ctx.Keys.KeyOf(planRun)+" plans what to cut from the rack", paint.Style{})
	default:
		c.TextFit(r.Row(1), summary(ctx), paint.Style{})
		l.second(c, r.Row(2), ctx)
	}
}

// second says what is missing, that the plan is out of date, or that a claim of it broke.
func (l Screen) second(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	p := ctx.Plan
	switch {
	case !ctx.Planned():
		c.Text(r, "out of date: "+ctx.Keys.KeyOf(planRun)+" plans again", c.Role(paint.RoleCare))
	case l.ways.works:
		c.TextFit(r, "looking for ways out   "+ctx.Keys.KeyOf(planRun)+" stops and keeps those found", c.Role(paint.RoleUnknown))
	case p.Plan.Short > 0:
		c.TextFit(r, Short(ctx), c.Role(paint.RoleMuch))
	case p.Told != nil:
		c.TextFit(r, p.Told.Row(), c.Role(paint.RoleError))
	default:
		c.TextFit(r, back(ctx, r.W), c.Role(paint.RoleFaint))
	}
}

// summary says what is used up and what the plan is proved to be.
func summary(ctx screen.Context) string {
	p := ctx.Plan.Plan
	asked := cutting.Asked(ctx.Plan.Job)
	return fmt.Sprintf("%d of %d strips   uses up %s   %s", asked-p.Short, asked, length.Volume(p.GoneCM3, ctx.Unit), p.Claim())
}

// Short says which timbers run short, and by how many strips; so far, where it is not
// proved that they must.
func Short(ctx screen.Context) string {
	text := ctx.Plan.Plan.ShortText(ctx.Name)
	if ctx.Plan.Plan.Claim().Sure != cutting.Least {
		return "missing so far: " + text
	}
	return "missing: " + text
}

// back says what goes back, and which ready strips serve, in w cells.
func back(ctx screen.Context, w int) string {
	p := ctx.Plan
	back, before := 0, ""
	for _, d := range p.Details {
		back += len(d.Back)
	}
	if len(p.Looks) > 0 {
		before = "check end of " + p.Looks[0].Piece + " first   "
	}
	if joints := joints(p.Plan); joints > 0 {
		before += fmt.Sprintf("joints %d   ", joints)
	}
	before += filled(ctx)
	text := before + "cuts " + tell.Count(len(p.Plan.Cuts), "piece")
	if ready := len(p.Plan.Ready); ready > 0 {
		text += ", " + tell.Count(ready, "ready strip")
	}
	offcuts := "   " + tell.Count(back, "offcut") + " back"
	return screen.FirstThatFits(w, text+offcuts+" to the rack", text+offcuts, text, strings.TrimSpace(before))
}

// joints counts those of a plan.
func joints(p cutting.Plan) (n int) {
	for _, s := range p.Pieced {
		n += len(s.Pieces) - 1
	}
	return n
}

// columns says how wide the parts of the rows are, so that what goes back, which is
// read last, has the room that the others leave.
type columns struct {
	id, out int
	gap     string // between the columns
	goes    string // what stands before that which goes back
}

// The columns' widths at most.
const (
	widestID  = 10
	widestOut = 28
	leastOut  = 12
)

// columnsOf fits the columns to what stands in them, in rows of w cells.
func columnsOf(cuts []worksteps.Detail, w int, ctx screen.Context) columns {
	cols := columns{gap: "  ", goes: "back: "}
	longest := 0
	for _, d := range cuts {
		cols.id = max(cols.id, min(widestID, paint.Width(d.Name())))
		cols.out = max(cols.out, min(widestOut, paint.Width(out(d, ctx))))
		longest = max(longest, paint.Width(goesBack(d, ctx)))
	}
	room := func() int { return w - len("> HB") - cols.id - 3*len(cols.gap) - len(cols.goes) - longest }
	if room() < cols.out {
		cols.gap = " "
	}
	cols.out = max(min(leastOut, cols.out), min(cols.out, room()))
	return cols
}

// explained says in words what the name of a piece says in signs: HB3 (1) is the first
// of several alike, SC1/1 a clear part of SC1.
func explained(d worksteps.Detail) string {
	var parts []string
	if number, ok := strings.CutPrefix(d.Piece.ID, d.Whole.ID+"/"); ok {
		parts = append(parts, "clear part "+number+" of "+d.Whole.ID)
	}
	if n := d.Whole.Quantity; n > 1 {
		parts = append(parts, fmt.Sprintf("%s of %d alike", ordinal(d.Cut.Copy), n))
	}
	return strings.Join(parts, ", ")
}

// ordinal returns first, second, and from the eleventh on number 11.
func ordinal(n int) string {
	words := [...]string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}
	if n >= 1 && n <= len(words) {
		return words[n-1]
	}
	return fmt.Sprintf("number %d", n)
}

// goesBack says what of a piece goes back to the rack.
func goesBack(d worksteps.Detail, ctx screen.Context) string {
	var goes []string
	for _, l := range d.Back {
		size, which := l.Piece.Length, " long"
		switch l.Kind {
		case worksteps.LeftSlab:
			size, which = l.Piece.Thickness, " thick"
		case worksteps.LeftRip:
			size, which = l.Piece.Width, " wide"
		}
		goes = append(goes, size.Format(ctx.Unit)+which)
	}
	if len(goes) == 0 {
		return "-"
	}
	return strings.Join(goes, ", ")
}

// row says what comes out of one piece and what goes back.
func (cols columns) row(d worksteps.Detail, ctx screen.Context) string {
	return strings.Join([]string{fmt.Sprintf("%-*s", cols.id, paint.Fit(d.Name(), cols.id)), ctx.Letters(d.Piece.Species),
		fmt.Sprintf("%-*s", cols.out, paint.Fit(out(d, ctx), cols.out)), cols.goes + goesBack(d, ctx)}, cols.gap)
}

// out says which strips come out of a piece, by length.
func out(d worksteps.Detail, ctx screen.Context) string {
	var of tell.Groups[length.Length, cutting.Ref]
	for _, st := range d.Strips() {
		of.Add(st.Length, st.Ref)
	}
	var parts []string
	for at, strips := range of.All() {
		parts = append(parts, fmt.Sprintf("%d x %s", len(strips), at.Format(ctx.Unit)))
	}
	return strings.Join(parts, ", ")
}
