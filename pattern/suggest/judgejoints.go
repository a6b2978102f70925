package suggest

import (
	"fmt"
	"slices"

	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
)

// joints looks whether the strips of a layout are laid as was asked: whole, or from pieces so
// that every product lies where it does on whole strips, for no product takes in a joint; and
// as bricks so that there is a product between the joints of any two neighbours.
func (j *Judge) joints(l Layout, _ []Variety) *Broken {
	if !l.laid() {
		return nil
	}
	if !j.ask.Join.On() {
		return NewBroken(ClaimJoints, "strips are whole", "they are not")
	}
	p := j.ask.Pattern(l)
	whole := p
	whole.Strips = slices.Clone(p.Strips)
	for i, s := range p.Strips {
		if err := p.CheckJoints(s); err != nil {
			return NewBroken(ClaimJoints, fmt.Sprintf("strip %d can be laid", i+1), err)
		}
		whole.Strips[i].Start, whole.Strips[i].Length, whole.Strips[i].Joints = 0, 0, ""
	}
	sh := j.physics.Shop()
	before, err := outline.Lay(whole, sh.Allowance.Length, p.Products, p.Avoids, sh.Cut)
	if err != nil {
		return NewBroken(ClaimJoints, "products can be laid", err)
	}
	after, err := outline.Lay(p, sh.Allowance.Length, p.Products, p.Avoids, sh.Cut)
	if err != nil || !slices.EqualFunc(before.Placed, after.Placed, func(a, b outline.Placed) bool {
		return a.Product == b.Product && a.From == b.From && a.Side == b.Side
	}) {
		return NewBroken(ClaimJoints, "every product keeps its place", "one does not")
	}
	if j.ask.Join.How == joints.Even && len(p.Products) == 1 && len(p.Avoids) == 0 { // else gaps differ from row to row
		return bonded(l, after.Placed)
	}
	return nil
}

// bonded looks whether there is a product between the joints of any two neighbours.
func bonded(l Layout, placed []outline.Placed) *Broken {
	between := func(a, b length.Length) bool {
		return slices.ContainsFunc(placed, func(c outline.Placed) bool {
			return min(a, b) < c.Along && c.Along < max(a, b)
		})
	}
	for i := 1; i < len(l.Strips); i++ {
		for _, a := range l.Strips[i-1].Joints.All() {
			for _, b := range l.Strips[i].Joints.All() {
				if !between((a.From+a.To)/2, (b.From+b.To)/2) {
					return NewBroken(ClaimJoints, "neighbours part in different gaps", fmt.Sprintf("strips %d and %d do not", i, i+1))
				}
			}
		}
	}
	return nil
}
