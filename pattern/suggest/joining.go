package suggest

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
)

// A Joining says whether strips may be made of several pieces, every joint in the waste
// between products. The zero value leaves them whole. It needs Widths, for every layout then
// depends on its plan; Spared sets them where ready strips alone are asked for.
type Joining struct {
	How      joints.How // Even: as bricks; Anywhere; AsTheyAre: whole
	Products []pattern.Product
	Avoids   []pattern.Avoid
}

// On reports whether strips may be in pieces.
func (j Joining) On() bool { return j.How != joints.AsTheyAre }

// onto returns p with the products that joints go by.
func (j Joining) onto(p pattern.Pattern) pattern.Pattern {
	if j.On() {
		p.Products, p.Avoids = j.Products, j.Avoids
	}
	return p
}

// Whole returns the request with its strips left whole.
func (a Request) Whole() Request {
	a.Join = Joining{}
	return a
}

// readyAlone has a request whose strips may be in pieces, and that asks for ready strips
// alone, ask for those in their own widths.
func (a *Request) readyAlone() {
	if !a.Join.On() || len(a.Widths) > 0 {
		return
	}
	a.Rack.Pieces = nil
	add := func(w length.Length) {
		if !slices.Contains(a.Widths, w) {
			a.Widths = append(a.Widths, w)
		}
	}
	for _, h := range a.Have {
		add(h.Width)
	}
	for _, s := range a.Rack.Strips {
		if len(a.Have) == 0 {
			add(s.Width)
		}
	}
}

// Cutting returns the job of cutting, from a rack, those strips of a layout that keep says.
// Where strips may be in pieces, each may take its ways as it lies.
func (a Request) Cutting(sh shop.Shop, r rack.Rack, strips []pattern.Strip, keep func(i int) bool) cutting.Job {
	p := a.Join.onto(pattern.Pattern{Panel: a.Panel(), Strips: strips})
	job := cutting.Job{Rack: r, Shop: sh, Patterns: []cutting.Demand{{Stem: Stem, Pattern: p, Copies: 1}}}
	if a.Join.On() {
		if joined, err := job.Joined(a.Join.How, a.Join.How == joints.Even); err == nil {
			job = joined // else no product finds its place, and strips stay whole
		}
	}
	d := &job.Patterns[0]
	d.Pattern.Strips = kept(strips, keep)
	if d.Ways != nil {
		d.Ways = kept(d.Ways, keep)
	}
	if d.Other != nil {
		d.Other = kept(d.Other, keep)
	}
	return job
}

func kept[T any](all []T, keep func(i int) bool) (out []T) {
	for i, one := range all {
		if keep(i) {
			out = append(out, one)
		}
	}
	return out
}

// Lay lays the strips of l as a plan of job, which lets them be in pieces, has them; place says
// which strip of the layout one of the job is, from 1. It returns the job of cutting them so: in
// that plan a length may be that of a way that no strip takes.
func (l *Layout) Lay(job cutting.Job, plan cutting.Plan, place func(strip int) int) cutting.Job {
	laid, err := cutting.Adopted(job, plan, Stem)
	if err != nil {
		panic("suggest: a layout's whole plan is refused: " + err.Error())
	}
	d := job.Patterns[0]
	d.Ways, d.Other, d.Pattern.Strips = nil, nil, slices.Clone(d.Pattern.Strips)
	for _, one := range laid {
		p, s := &l.Strips[place(one.Strip)-1], &d.Pattern.Strips[one.Strip-1]
		p.Start, p.Length, p.Joints = one.Start, one.Length, one.Joints
		s.Start, s.Length, s.Joints = one.Start, one.Length, one.Joints
	}
	job.Patterns = []cutting.Demand{d}
	return job
}

// Joints returns how many a layout has.
func (l Layout) Joints() (n int) {
	for _, p := range l.Strips {
		n += p.Joints.Len()
	}
	return n
}

// Sources returns where strip i, from 0, comes from: of one in pieces what each is cut from, each
// once.
func (l Layout) Sources(i int) []string {
	p := l.Strips[i]
	if p.Joints == "" || l.Plan == nil {
		return []string{p.Source}
	}
	of := make([]string, p.Joints.Len()+1)
	for ref, id := range l.Plan.Served() {
		if ref.Strip == i+1 {
			of[ref.Piece-1] = id
		}
	}
	var out []string
	for _, id := range of {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// laid reports whether some strip is laid otherwise than whole.
func (l Layout) laid() bool {
	return slices.ContainsFunc(l.Strips, func(p Placed) bool { return p.Start > 0 || p.Length > 0 || p.Joints != "" })
}
