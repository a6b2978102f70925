package colour

import (
	"fmt"
	"path/filepath"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo/reading"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
	"example.com/oddments/tui/paint"
	"example.com/oddments/tui/screen"
)

type layout struct{ photo, side paint.Rect }

// photoShare is how much of the width the photo has, of 8.
const photoShare = 5

// lay parts r: the photo with a list beside it.
func lay(r paint.Rect) (l layout) {
	_, r = r.SplitBottom(screen.FooterRows)
	l.photo, l.side = r.SplitLeft(r.W * photoShare / 8)
	return l
}

// points returns how many points the photo is seen in; a cell of the screen is two of them,
// one above the other.
func points(ctx screen.Context) (w, h int) {
	at := lay(ctx.Window.Body).photo
	return at.W, 2 * at.H
}

// Draw draws the screen into r.
func (s Screen) Draw(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	l := lay(r)
	switch {
	case s.photo != nil:
		s.picture(c, l.photo)
		s.beside(c, l.side.Inset(1, 0), ctx)
	case s.loads:
		c.TextCentre(l.photo.Row(l.photo.H/2), fmt.Sprintf("reading the photo: %d %%", s.percent), paint.Style{})
		c.TextCentre(l.photo.Row(l.photo.H/2+1), ctx.Keys.KeyOf(colourStop)+" stops", c.Role(paint.RoleFaint))
	default:
		text := "no photo yet: choose a piece on the rack and name its photo there"
		if s.wrong != "" {
			text = s.wrong
		}
		c.Lines(r.Inset(2, 2), screen.Wrap(text, r.W-4), paint.Style{})
	}
	screen.DrawFooter(c, table().Footer(s, r, ctx))
}

// title says what is set next.
func (s Screen) title(ctx screen.Context) string {
	text := fmt.Sprintf("Colour: frame on paper %d", len(s.now.papers)+1)
	id, ok := s.piece()
	switch e, _ := ctx.Rack.Get(id); {
	case ok:
		text = "Colour: frame on " + id + ", " + ctx.Name(e.Species)
	case s.now.onward:
		text = "Colour: no piece was chosen on the rack"
	}
	if s.side != whole {
		text += ", arrows on its " + s.side.String()
	}
	return text
}

// letters stand for what is dark to light where no colours are shown.
const letters = "#%*x+-:. "

// picture draws the photo, the boxes that are set, and the frame.
func (s Screen) picture(c *paint.Canvas, at paint.Rect) {
	a := s.got
	shown := func(x, half int) (colour.RGB, bool) {
		if a.of.photo != s.photo || x >= a.of.w || half >= a.of.h {
			return colour.RGB{}, false
		}
		px, py := a.of.view.pixel(x, half)
		return a.points[half*a.of.w+x], px < s.photo.Width && py < s.photo.Height
	}
	for y := range at.H {
		for x := range at.W {
			up, seen := shown(x, 2*y)
			low, lower := shown(x, 2*y+1)
			if !c.Profile().ShowsWood() {
				if seen {
					i := min(len(letters)-1, int(up.Lightness()/100*float64(len(letters))))
					c.Set(at.X+x, at.Y+y, rune(letters[i]), paint.Style{})
				}
				continue
			}
			halves := [2]paint.Colour{}
			if seen {
				halves[0] = paint.Of(up)
			}
			if lower {
				halves[1] = paint.Of(low)
			}
			c.Halves(at.X+x, at.Y+y, halves[0], halves[1])
		}
	}
	style := func(x, y int) paint.Style {
		if up, ok := shown(x-at.X, 2*(y-at.Y)); ok {
			return c.Palette().OnWood(up)
		}
		return paint.Style{}
	}
	for i, b := range s.now.papers {
		s.box(c, at, b, fmt.Sprintf("P%d", i+1), false, style)
	}
	for _, set := range s.now.pieces {
		s.box(c, at, set.box, set.id, false, style)
	}
	name, _ := s.piece()
	s.box(c, at, s.frame, name, true, style)
}

// box draws a box with its name, the frame in bold lines.
func (s Screen) box(c *paint.Canvas, at paint.Rect, b reading.Box, name string, frame bool, style func(x, y int) paint.Style) {
	x0, y0 := s.view.point(b.X, b.Y)
	x1, y1 := s.view.point(b.X+b.W-1, b.Y+b.H-1)
	y0, y1 = y0/2, y1/2
	runes := []rune("┌┐└┘─│")
	if frame {
		runes = []rune("╔╗╚╝═║")
	}
	put := func(x, y int, r rune) {
		if x, y = at.X+x, at.Y+y; at.Contains(x, y) {
			look := style(x, y)
			look.Bold = frame
			c.Set(x, y, r, look)
		}
	}
	for x := x0; x <= x1; x++ {
		put(x, y0, runes[4])
		put(x, y1, runes[4])
	}
	for y := y0; y <= y1; y++ {
		put(x0, y, runes[5])
		put(x1, y, runes[5])
	}
	put(x0, y0, runes[0])
	put(x1, y0, runes[1])
	put(x0, y1, runes[2])
	put(x1, y1, runes[3])
	for i, r := range name {
		if x0+1+i < x1 {
			put(x0+1+i, y0, r)
		}
	}
}

// A row is one line of the column beside the photo.
type row struct {
	text   string
	role   paint.Role
	swatch *colour.RGB
}

// beside tells of the light, of what is in the frame, and of what is set.
func (s Screen) beside(c *paint.Canvas, r paint.Rect, ctx screen.Context) {
	y := 0
	for _, one := range s.rows(ctx) {
		style := c.Role(one.role)
		for _, line := range screen.Wrap(one.text, r.W) {
			if y >= r.H {
				return
			}
			at := r.Row(y)
			if one.swatch != nil && c.Profile().ShowsWood() {
				box, rest := at.SplitLeft(min(3, at.W))
				for x := range box.W - 1 {
					c.Halves(box.X+x, box.Y, paint.Of(*one.swatch), paint.Of(*one.swatch))
				}
				at = rest
			}
			c.TextFit(at, line, style)
			y++
		}
	}
}

// rows lists what is told, what asks for something first.
func (s Screen) rows(ctx screen.Context) (out []row) {
	say := func(role paint.Role, format string, args ...any) {
		out = append(out, row{text: fmt.Sprintf(format, args...), role: role})
	}
	say(paint.RoleHeading, "%s", s.title(ctx))
	say(paint.RoleFaint, "box %v", s.frame)
	if id, ok := s.piece(); ok {
		out = append(out, s.live(id, ctx)...)
	} else if r := s.got.trial; r != nil && s.got.wrong == nil {
		say(paint.RolePlain, "lightest/darkest paper %.2f", r.Ratio)
		say(paint.RolePlain, "%.1f %% from an even light", 100*r.Residual)
		say(paint.RolePlain, "colours: about %.1f off", r.About())
		out = append(out, found(r.Findings)...)
	}
	if s.got.wrong != nil {
		say(paint.RoleMuch, "%v", s.got.wrong)
	}
	say(paint.RoleHeading, "Light, by %v", tell.Count(len(s.now.papers), "paper"))
	switch r := s.got.reader; {
	case s.got.err != nil:
		say(paint.RoleMuch, "%v", s.got.err)
	case r == nil:
		say(paint.RolePlain, "no paper is set yet: lay the frame on white paper, %s sets it", ctx.Keys.KeyOf("colour-set"))
	default:
		say(paint.RolePlain, "%v, %v; lightest/darkest %.2f, %.1f %% from even; about %.1f off", s.light, s.surface, r.Ratio, 100*r.Residual, r.About())
		if _, ok := s.piece(); ok {
			out = append(out, found(r.Findings)...)
		}
	}
	say(paint.RoleHeading, "%s, %d x %d", filepath.Base(s.file), s.photo.Width, s.photo.Height)
	for i, id := range s.ids {
		out = append(out, s.listed(i, id, ctx))
	}
	return out
}

// listed tells of one of the chosen pieces.
func (s Screen) listed(i int, id string, ctx screen.Context) row {
	mark := "- "
	if now, ok := s.piece(); ok && now == id {
		mark = "> "
	}
	e, _ := ctx.Rack.Get(id)
	text := mark + id + " " + ctx.Letters(e.Species)
	p, ok := s.got.pieces[id]
	switch _, set := s.now.of(id); {
	case !set:
		return row{text: text + "  not set", role: paint.RoleFaint}
	case s.got.errs[id] != nil:
		return row{text: text + "  cannot be read", role: paint.RoleMuch}
	case !ok:
		return row{text: text + "  ...", role: paint.RolePlain}
	}
	timber, _ := ctx.Physics.Table().Get(e.Species)
	rgb := s.kept(p, timber).RGB()
	return row{text: text + " " + rgb.String(), role: paint.RolePlain, swatch: &rgb}
}

// live tells of the piece in the frame.
func (s Screen) live(id string, ctx screen.Context) []row {
	p := s.got.live
	if s.got.of.name != id || p.Name != id {
		return []row{{text: "reading " + id, role: paint.RolePlain}}
	}
	e, _ := ctx.Rack.Get(id)
	timber, _ := ctx.Physics.Table().Get(e.Species)
	record := reading.Record{Surface: s.surface}
	kept := record.Kept(p.Lab, timber)
	rgb := kept.RGB()
	d := p.Compare(p.Lab, timber.Name, record.Usual(timber))
	out := []row{
		{text: fmt.Sprintf("%v, about %.1f off", rgb, p.About), role: paint.RolePlain, swatch: &rgb},
		{text: fmt.Sprintf("L* %.1f a* %.1f b* %.1f", kept.L, kept.A, kept.B), role: paint.RolePlain},
		{text: fmt.Sprintf("%.1f from %s", d, timber.Name), role: paint.RolePlain},
	}
	if before, name, ok := s.before(ctx); ok {
		out = append(out, row{text: fmt.Sprintf("contrast to %s %.1f", name, kept.Difference(before)), role: paint.RolePlain})
	}
	return append(out, found(p.Findings)...)
}

// before returns the colour of the piece before the one in the frame, as it is read, or as the
// rack has it.
func (s Screen) before(ctx screen.Context) (colour.Lab, string, bool) {
	if s.at == 0 || s.at > len(s.ids)-1 {
		return colour.Lab{}, "", false
	}
	id := s.ids[s.at-1]
	e, _ := ctx.Rack.Get(id)
	timber, _ := ctx.Physics.Table().Get(e.Species)
	if p, ok := s.got.pieces[id]; ok {
		return s.kept(p, timber), id, true
	}
	base := e.Colour.Or(timber.ColourOiled)
	return base.Lab(), id, base != (species.RGB{})
}

// found tells of findings that ask for care.
func found(all []reading.Finding) (out []row) {
	for _, f := range all {
		if f.Level > pattern.Fine {
			out = append(out, row{text: f.Level.Heading() + ", " + strings.TrimPrefix(f.Where+": ", "light: ") + f.Message + ": " + f.Remedy, role: screen.Role(f.Level)})
		}
	}
	return out
}
