package cutting

import (
	"fmt"
	"math"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
)

// Verify reports the first thing in which plan does not meet job: a strip served
// twice or not at all, a cut that does not fit, a leftover or a volume that is not
// what the cuts leave, a strip whose pieces are none of its ways. It computes everything
// afresh and shares with Solve only Choices and the clear rectangles of pieces. That a plan
// is the best it does not check.
func Verify(job Job, plan Plan) error {
	var err error
	for _, side := range job.Sides() {
		if err = verify(side, plan); err == nil {
			break
		}
	}
	return err
}

func verify(job Job, plan Plan) error {
	v := &verifier{
		job: job, asked: map[Ref]Strip{}, served: map[Ref]bool{}, lengths: map[sized]bool{}, lying: map[string]bool{},
		pieces: map[string]rack.Piece{}, strips: ReadyByID(job.Rack),
	}
	if err := v.ask(plan); err != nil {
		return err
	}
	for _, p := range job.Rack.Pieces {
		for _, c := range p.Clear() {
			if _, there := v.pieces[c.ID]; !there { // the first of a name counts
				v.pieces[c.ID] = c.Piece
			}
		}
	}
	for _, r := range plan.Ready {
		if err := v.ready(r); err != nil {
			return fmt.Errorf("ready strip %s (%d): %w", r.ID, r.Copy, err)
		}
	}
	opened := map[string]bool{}
	for _, c := range plan.Cuts {
		name := fmt.Sprintf("%s (%d)", c.Piece, c.Copy)
		if opened[name] {
			return fmt.Errorf("piece %s is opened twice", name)
		}
		opened[name] = true
		if err := v.cut(c); err != nil {
			return fmt.Errorf("piece %s: %w", name, err)
		}
	}
	return v.sums(plan)
}

// ask finds the pieces that the plan must serve: those of the way that each strip takes,
// and none of a strip that is short.
func (v *verifier) ask(plan Plan) error {
	laid, short := map[Ref][]pattern.StripPiece{}, map[Ref]string{}
	for _, p := range plan.Pieced {
		if _, twice := laid[p.Ref]; twice {
			return fmt.Errorf("strip %v is in pieces twice", p.Ref)
		}
		laid[p.Ref] = p.Pieces
	}
	for _, m := range plan.Missing {
		if _, twice := short[m.Ref]; twice {
			return fmt.Errorf("missing strips: strip %v stands twice", m.Ref)
		}
		short[m.Ref] = m.Species
	}
	for _, c := range Choices(v.job) {
		for _, n := range slices.Concat(c.Ways...) {
			v.lengths[sized{n.Species, n.Length}] = true
		}
		pieces, parted := laid[c.Ref]
		delete(laid, c.Ref)
		if species, missing := short[c.Ref]; missing {
			delete(short, c.Ref)
			v.missing++
			if parted || species != c.Species {
				return fmt.Errorf("missing strip %v: is %s, not %s, or in pieces %v", c.Ref, c.Species, species, pieces)
			}
			continue
		}
		way := 0
		if parted {
			if way = slices.IndexFunc(c.Laid, func(w joints.Way) bool { return slices.Equal(w, pieces) }); way < 0 {
				return fmt.Errorf("strip %v may not be laid as %v", c.Ref, pieces)
			}
		}
		for _, n := range c.Ways[way] {
			v.asked[n.Ref] = n
		}
		v.joints += float64(len(c.Ways[way])-1) * v.job.Shop.Draw.JointCM3
	}
	if len(laid) > 0 || len(short) > 0 {
		return fmt.Errorf("%d strips in pieces and %d missing ones are not asked for", len(laid), len(short))
	}
	return nil
}

// sized is a length in a timber.
type sized struct {
	species string
	length  length.Length
}

// A verifier goes through a plan.
type verifier struct {
	job         Job
	asked       map[Ref]Strip
	served      map[Ref]bool
	lengths     map[sized]bool // of strips asked for
	lying       map[string]bool
	pieces      map[string]rack.Piece // clear rectangles by their names
	strips      map[string]rack.Strip // ready strips by their ids
	drawn, gone float64
	joints      float64 // what they count for
	missing     int
}

// volumesWithin is how far, in cubic centimetres, sums of volumes may differ: each cut is
// off by a few last places, and so is each addition.
func volumesWithin(cuts int, sum float64) float64 {
	const least = 1e-6
	return least + float64(cuts+1)*0x1p-51*math.Abs(sum)
}

func (v *verifier) sums(plan Plan) error {
	if len(v.served) != len(v.asked) {
		return fmt.Errorf("%d of %d strips or pieces are neither served nor missing", len(v.asked)-len(v.served), len(v.asked))
	}
	if plan.Short != v.missing {
		return fmt.Errorf("%d strips short, but %d missing", plan.Short, v.missing)
	}
	if !(math.Abs(plan.JointsCM3-v.joints) <= volumesWithin(len(v.asked), v.joints)) {
		return fmt.Errorf("joints count for %v cm3, not %v", v.joints, plan.JointsCM3)
	}
	if !(math.Abs(plan.DrawnCM3-v.drawn) <= volumesWithin(len(plan.Cuts), v.drawn)) {
		return fmt.Errorf("drawn is %v cm3, not %v", v.drawn, plan.DrawnCM3)
	}
	if !(math.Abs(plan.GoneCM3-v.gone) <= volumesWithin(len(plan.Cuts), v.gone)) {
		return fmt.Errorf("gone is %v cm3, not %v", v.gone, plan.GoneCM3)
	}
	if plan.LowerBoundCM3 < 0 || plan.LowerBoundCM3 > plan.DrawnCM3 || plan.Status == Optimal && plan.LowerBoundCM3 != plan.DrawnCM3 {
		return fmt.Errorf("%s plan draws %v cm3 with a lower bound of %v", plan.Status, plan.DrawnCM3, plan.LowerBoundCM3)
	}
	return nil
}

func (v *verifier) serve(r Ref) (Strip, error) {
	n, ok := v.asked[r]
	if !ok {
		return n, fmt.Errorf("strip %v is not asked for", r)
	}
	if v.served[r] {
		return n, fmt.Errorf("strip %v stands twice", r)
	}
	v.served[r] = true
	return n, nil
}

func (v *verifier) ready(r Ready) error {
	n, err := v.serve(r.For)
	if err != nil {
		return err
	}
	key := fmt.Sprintf("%s (%d)", r.ID, r.Copy)
	if v.lying[key] {
		return fmt.Errorf("serves twice")
	}
	v.lying[key] = true
	s, there := v.strips[r.ID]
	switch {
	case !there:
		return fmt.Errorf("is not on the rack")
	case r.Copy < 1 || r.Copy > s.Quantity:
		return fmt.Errorf("there are %d", s.Quantity)
	case s.Species != n.Species || s.Width != n.Width:
		return fmt.Errorf("is another strip than %v", r.For)
	case s.Length < n.Length || s.Thickness < n.Glued:
		return fmt.Errorf("is too small for %v", r.For)
	case !RingsServe(s.Rings, n.Rings):
		return fmt.Errorf("shows rings %v, %v asks for %v", s.Rings, r.For, n.Rings)
	}
	return nil
}

// RingsServe reports whether timber that was looked at shows what is asked for. Rings are a
// wish: timber that nobody has looked at serves, and is looked at before it is cut.
func RingsServe(have, asked pattern.Rings) bool {
	return !asked.Known() || !have.Known() || math.Abs(have.Degrees()-asked.Degrees()) <= 15
}

func (v *verifier) piece(id string, n int) (rack.Piece, error) {
	p, there := v.pieces[id]
	if !there || n < 1 || n > p.Quantity {
		return rack.Piece{}, fmt.Errorf("is not on the rack")
	}
	return p, nil
}

func (v *verifier) cut(c Cut) error {
	p, err := v.piece(c.Piece, c.Copy)
	if err != nil {
		return err
	}
	sh := v.job.Shop
	if len(c.Sections) == 0 {
		return fmt.Errorf("is opened for nothing")
	}
	room := p.Length - 2*sh.Allowance.EndTrim + sh.Kerf.Crosscut
	tail := p.Length - sh.Allowance.EndTrim
	back := 0.0
	for i, s := range c.Sections {
		room -= s.Length + sh.Kerf.Crosscut
		tail -= s.Length + sh.Kerf.Crosscut
		given, err := v.section(p, s)
		if err != nil {
			return fmt.Errorf("section %d: %w", i+1, err)
		}
		back += given
	}
	if room < 0 {
		return fmt.Errorf("is %s too short for its sections", -room)
	}
	if tail < sh.Keep.Length || tail < 0 {
		tail = 0
	}
	if c.Tail != tail {
		return fmt.Errorf("its tail is %s, not %s", tail, c.Tail)
	}
	whole, left := length.VolumeCM3(p.Length, p.Width, p.Thickness), length.VolumeCM3(tail, p.Width, p.Thickness)
	percent := 100.0
	if p.UseFirst {
		percent = sh.Draw.UseFirstPct
	}
	v.drawn += percent/100*(whole-sh.Draw.TailsPct/100*left-sh.Draw.ReturnedPct/100*back) + sh.Draw.OpenedCM3
	v.gone += whole - left - back
	return nil
}

// section returns the volume of slab and rips that go back.
func (v *verifier) section(p rack.Piece, s Section) (float64, error) {
	sh := v.job.Shop
	if !v.lengths[sized{p.Species, s.Length}] {
		return 0, fmt.Errorf("no strip of %s is %s long", p.Species, s.Length)
	}
	across, through := p.Width, p.Thickness
	if !p.Planed {
		across, through = across-sh.Allowance.Truing, through-sh.Allowance.Truing
	}
	if s.Side {
		across, through = through, across
	}
	if n := len(s.Slices); n == 0 || n > 1 && (p.Planed || TooHigh(across, sh.Machine.BandsawHeight)) || s.Side && p.Planed {
		return 0, fmt.Errorf("cannot be parted into %d slices", n)
	}
	waste := sh.Kerf.Resaw + sh.Allowance.Cleaning
	back, room := 0.0, through
	for i, sl := range s.Slices {
		if i > 0 {
			room -= waste
		}
		room -= sl.Thickness
		if p.Planed && sl.Thickness != p.Thickness {
			return 0, fmt.Errorf("slice %d: a planed piece is %s thick", i+1, p.Thickness)
		}
		if err := v.slice(p, s, sl, across); err != nil {
			return 0, fmt.Errorf("slice %d: %w", i+1, err)
		}
		back += length.VolumeCM3(sl.RipLeft, sl.Thickness, s.Length)
	}
	if room < 0 {
		return 0, fmt.Errorf("is %s too thin for its slices", -room)
	}
	slab := room - waste
	if p.Planed || TooHigh(across, sh.Machine.BandsawHeight) || s.Length < sh.Keep.Length || slab < sh.Keep.Thickness || slab < 0 {
		slab = 0
	}
	if slab != s.SlabLeft {
		return 0, fmt.Errorf("its slab is %s, not %s", slab, s.SlabLeft)
	}
	return back + length.VolumeCM3(slab, across, s.Length), nil
}

// TooHigh reports whether what stands so high does not go through the bandsaw; height 0:
// nobody has measured the saw.
func TooHigh(across, height length.Length) bool { return height > 0 && across > height }

func (v *verifier) slice(p rack.Piece, s Section, sl Slice, across length.Length) error {
	sh := v.job.Shop
	if len(sl.Strips) == 0 {
		return fmt.Errorf("is sawn for nothing")
	}
	rip := across + sh.Kerf.Rip
	for _, ref := range sl.Strips {
		n, err := v.serve(ref)
		if err != nil {
			return err
		}
		rip -= n.Across + sh.Kerf.Rip
		rings := p.Rings
		if s.Side != (n.Make == pattern.MakeEdge) {
			rings = rings.Rolled()
		}
		switch {
		case n.Species != p.Species:
			return fmt.Errorf("strip %v is %s, the piece is %s", ref, n.Species, p.Species)
		case n.Length > s.Length || s.Length-n.Length > sh.Allowance.OverLength:
			return fmt.Errorf("strip %v is %s long, the section %s", ref, n.Length, s.Length)
		case !p.Planed && n.Sawn != sl.Thickness:
			return fmt.Errorf("strip %v needs a slice %s thick, not %s", ref, n.Sawn, sl.Thickness)
		case p.Planed && n.Least > p.Thickness:
			return fmt.Errorf("strip %v needs a planed piece %s thick", ref, n.Least)
		case !RingsServe(rings, n.Rings):
			return fmt.Errorf("strip %v asks for rings %v, these are %v", ref, n.Rings, rings)
		}
	}
	if rip < 0 {
		return fmt.Errorf("is %s too narrow for its strips", -rip)
	}
	left := rip - sh.Kerf.Rip
	if s.Length < sh.Keep.Length || left < sh.Keep.Width || left < 0 {
		left = 0
	}
	if sl.RipLeft != left {
		return fmt.Errorf("its rip is %s, not %s", left, sl.RipLeft)
	}
	return nil
}
