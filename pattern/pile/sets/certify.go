package sets

import (
	"cmp"
	"context"
	"slices"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// A tagged item is one with the strip of a panel that it is.
type tagged struct {
	item
	panel, strip int
}

// tagged returns the items of a lot with their strips.
func (s *search) tagged(lot int, panels []Panel) []tagged {
	var out []tagged
	for i, p := range panels {
		for n, it := range s.itemsOf(p) {
			if p.lots[n] == lot {
				out = append(out, tagged{it, i, n})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b tagged) int { return order(a.item, b.item) })
	return out
}

// wholeSteps is how many steps the planner takes on each lot of the finished set, and plannedMost
// of how many strips a lot is planned at most: to plan more takes long, and what was packed
// stays as it is.
const (
	wholeSteps  = 2
	plannedMost = 10
)

// plan plans panels lot by lot: as the planner does with a little work or as they are packed,
// whichever draws less. Panels whose strips are parted are given their joints. It returns the lot
// that gives not all; below 0: there is none.
func (s *search) plan(ctx context.Context, panels []Panel) (cutting.Plan, int) {
	plan := cutting.Plan{Missing: []cutting.Missing{}, Ready: []cutting.Ready{}, Cuts: []cutting.Cut{}, Pieced: []cutting.Pieced{}}
	asked := make([][]tagged, len(s.lots)) // before joints are written into panels: they count as given
	for at := range s.lots {
		asked[at] = s.tagged(at, panels)
	}
	for at, all := range asked {
		if len(all) == 0 {
			continue
		}
		items := make([]item, len(all))
		parted, odd := false, false // odd: of widths that the planner might saw, though only ready strips have them
		for i, t := range all {
			items[i] = t.item
			parted, odd = parted || t.ways > 0, odd || !s.sawn(t.width)
		}
		var part cutting.Plan
		p := s.packedOf(at, items)
		if p != nil {
			w := &plainWriter{search: s, panels: panels, all: all, packer: p, plan: &part}
			w.write()
		}
		if !parted && (p == nil || !odd && len(all) <= plannedMost && ctx.Err() == nil) {
			within, done := ctx, context.CancelFunc(func() {}) // what is packed already is only made better
			if p == nil {
				within, done = s.patiently(ctx)
			}
			planned, ok := s.tried(within, at, panels)
			done()
			if p == nil && !ok {
				return plan, at
			}
			if ok && (p == nil || planned.DrawnCM3 < part.DrawnCM3) {
				part = planned
			}
		} else if p == nil {
			return plan, at
		}
		plan.Ready, plan.Cuts = append(plan.Ready, part.Ready...), append(plan.Cuts, part.Cuts...)
		plan.DrawnCM3, plan.GoneCM3 = plan.DrawnCM3+part.DrawnCM3, plan.GoneCM3+part.GoneCM3
	}
	place := map[string]int{}
	for i, p := range s.Rack.Pieces {
		for _, c := range p.Clear() {
			place[c.ID] = i
		}
	}
	slices.SortStableFunc(plan.Cuts, func(a, b cutting.Cut) int { return cmp.Compare(place[a.Piece], place[b.Piece]) })
	s.parted(panels, &plan)
	return plan, -1
}

// patiently returns a context for what must be planned though the time is over: held panels have
// as long as it takes, others can be left out.
func (s *search) patiently(ctx context.Context) (context.Context, context.CancelFunc) {
	const while = 300 * time.Millisecond
	on := context.WithoutCancel(ctx)
	if len(s.Hold) > 0 {
		return context.WithCancel(on)
	}
	return context.WithTimeout(on, while)
}

// parted lists the strips of panels that are in pieces.
func (s *search) parted(panels []Panel, plan *cutting.Plan) {
	for _, p := range panels {
		for n, strip := range p.Pattern.Strips {
			if strip.Joints.Len() > 0 {
				ref := cutting.Ref{Pattern: p.Stem, Copy: 1, Strip: n + 1}
				plan.Pieced = append(plan.Pieced, cutting.Pieced{Ref: ref, Pieces: p.Pattern.PiecesOf(strip, s.shop.Allowance.Length)})
				plan.JointsCM3 += float64(float64(strip.Joints.Len()) * s.shop.Draw.JointCM3)
			}
		}
	}
}

// tried plans the strips of one lot by the planner's first steps; false where something is
// short.
func (s *search) tried(ctx context.Context, lot int, panels []Panel) (cutting.Plan, bool) {
	plan, err := solve.Plan(ctx, s.named(panels).Of(s.lots[lot].name), solve.Options{Steps: wholeSteps})
	if err != nil || plan.Short > 0 {
		return plan, false
	}
	whole := func(ref cutting.Ref) cutting.Ref { // strips are numbered among those of the lot
		at := slices.IndexFunc(panels, func(p Panel) bool { return p.Stem == ref.Pattern })
		for n, l := range panels[at].lots {
			if l == lot {
				if ref.Strip--; ref.Strip == 0 {
					ref.Strip = n + 1
					break
				}
			}
		}
		return ref
	}
	for i := range plan.Ready {
		plan.Ready[i].For = whole(plan.Ready[i].For)
	}
	for _, c := range plan.Cuts {
		for _, section := range c.Sections {
			for _, slice := range section.Slices {
				for i := range slice.Strips {
					slice.Strips[i] = whole(slice.Strips[i])
				}
			}
		}
	}
	return plan, true
}

// A plainWriter writes down what was packed of one lot.
type plainWriter struct {
	*search
	panels []Panel
	all    []tagged
	packer *packer
	plan   *cutting.Plan
	next   []int // of what was asked: how many have been handed out
}

func (w *plainWriter) write() {
	w.next = make([]int, len(w.packer.left))
	for _, a := range w.packer.left {
		for _, from := range a.from {
			t := w.all[from.item]
			if t.ways == 0 || from.piece > 0 {
				continue
			}
			strip := &w.panels[t.panel].Pattern.Strips[t.strip]
			*strip = joints.Way(w.ways[t.ways-1][from.way]).Laid(*strip)
		}
	}
	for _, h := range w.packer.hands {
		u := w.packer.units[h.unit]
		w.plan.Ready = append(w.plan.Ready, cutting.Ready{ID: u.id, Copy: u.copy, For: w.ref(h.asked)})
	}
	byUnit := map[int][]packed{}
	for _, p := range w.packer.done {
		byUnit[p.unit] = append(byUnit[p.unit], p)
	}
	for i, u := range w.packer.units {
		if sections := byUnit[i]; len(sections) > 0 {
			w.cut(u, sections)
		}
	}
}

// ref hands out the next of what was asked.
func (w *plainWriter) ref(asked int) cutting.Ref {
	from := w.packer.left[asked].from[w.next[asked]]
	w.next[asked]++
	t := w.all[from.item]
	ref := cutting.Ref{Pattern: w.panels[t.panel].Stem, Copy: 1, Strip: t.strip + 1}
	if t.ways > 0 && len(w.ways[t.ways-1][from.way]) > 1 {
		ref.Piece = from.piece + 1
	}
	return ref
}

// strip returns a strip, and how long it or a piece of it is to be cut.
func (w *plainWriter) strip(ref cutting.Ref) (pattern.Strip, length.Length) {
	p := w.panels[slices.IndexFunc(w.panels, func(p Panel) bool { return p.Stem == ref.Pattern })].Pattern
	strip := p.Strips[ref.Strip-1]
	return strip, p.PiecesOf(strip, w.shop.Allowance.Length)[max(0, ref.Piece-1)].Length
}

// cut writes down one opened piece, with what goes back of it.
func (w *plainWriter) cut(u unit, all []packed) {
	sh, piece := &w.shop, u.piece
	cut := cutting.Cut{Piece: u.id, Copy: u.copy}
	tail, back := piece.Length-sh.Allowance.EndTrim, 0.0
	for _, one := range all {
		section, given := w.section(piece, one)
		cut.Sections = append(cut.Sections, section)
		tail -= section.Length + sh.Kerf.Crosscut
		back += given
	}
	if tail >= sh.Keep.Length && tail > 0 {
		cut.Tail = tail
	}
	counts := 1.0
	if piece.UseFirst {
		counts = sh.Draw.UseFirstPct / 100
	}
	whole, left := length.VolumeCM3(piece.Length, piece.Width, piece.Thickness), length.VolumeCM3(cut.Tail, piece.Width, piece.Thickness)
	w.plan.Cuts = append(w.plan.Cuts, cut)
	drawn := whole - float64(sh.Draw.TailsPct/100*left) - float64(sh.Draw.ReturnedPct/100*back)
	w.plan.DrawnCM3 += float64(counts*drawn) + sh.Draw.OpenedCM3
	w.plan.GoneCM3 += whole - left - back
}

// section writes down a section as long as its longest strip, and returns what goes back of it.
func (w *plainWriter) section(piece *rack.Piece, one packed) (cutting.Section, float64) {
	sh := &w.shop
	out := cutting.Section{Side: one.side}
	for _, sl := range one.slices {
		slice := cutting.Slice{Thickness: sl.sawn}
		for asked, n := range sl.fill {
			for range n {
				ref := w.ref(asked)
				_, long := w.strip(ref)
				out.Length = max(out.Length, long)
				slice.Strips = append(slice.Strips, ref)
			}
		}
		out.Slices = append(out.Slices, slice)
	}
	at := 0
	if one.side {
		at = 1
	}
	across, depth := w.search.section(*piece).lies()
	back, room := 0.0, depth[at]-sh.Kerf.Resaw-sh.Allowance.Cleaning
	for i := range out.Slices {
		slice := &out.Slices[i]
		room -= slice.Thickness
		if i > 0 {
			room -= sh.Kerf.Resaw + sh.Allowance.Cleaning
		}
		left := across[at]
		for _, ref := range slice.Strips {
			strip, _ := w.strip(ref)
			left -= strip.Width + sh.Allowance.Jointing + sh.Kerf.Rip
		}
		if out.Length >= sh.Keep.Length && left >= sh.Keep.Width && left > 0 {
			slice.RipLeft = left
			back += length.VolumeCM3(left, slice.Thickness, out.Length)
		}
	}
	if !piece.Planed && !cutting.TooHigh(across[at], sh.Machine.BandsawHeight) && out.Length >= sh.Keep.Length && room >= sh.Keep.Thickness && room > 0 {
		out.SlabLeft = room
		back += length.VolumeCM3(room, across[at], out.Length)
	}
	return out, back
}
