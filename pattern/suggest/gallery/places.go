package gallery

import (
	"context"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/cutting/solve"
	"example.com/oddments/pattern/joints"
	"example.com/oddments/pattern/length"
)

// fits reports whether a strip of a class may begin at x as far as it depends on its place: of
// a side of bricks, or below 0 of either.
func (g *goods) fits(class int, x int64, side int) bool {
	return !g.stock.ByPlace() || slices.ContainsFunc(g.classes[class].kinds, func(k int) bool {
		sides := g.stock.Fits(k, length.Length(x))
		return side != 1 && sides[0] || side != 0 && sides[1]
	})
}

// lie reports whether strips of such classes may lie in this order as far as each depends on its
// place alone: as one of the two bricks, or parted anywhere.
func (g *goods) lie(classes []int) bool {
	return !g.stock.ByPlace() || slices.ContainsFunc([]joints.How{joints.Even, joints.Odd}, func(how joints.How) bool {
		x := int64(0)
		for i, c := range classes {
			if !g.fits(c, x, how.Side(i+1)) {
				return false
			}
			x += g.classes[c].width
		}
		return true
	})
}

// order returns classes in the order in which they can be cut, of whatever rings, moisture and
// mark: as they are or mirrored, which is the same layout; nil where neither can, and whether
// that is proved.
func (g *goods) order(ctx context.Context, classes []int) (order []int, proved bool) {
	orders := [][]int{classes}
	if len(g.ask.Pinned) == 0 {
		back := slices.Clone(classes)
		slices.Reverse(back)
		orders = append(orders, back)
	} else if slices.ContainsFunc(g.ask.Pinned, g.given) {
		return classes, false // what is given is not cut
	}
	proved = true
	for _, order := range orders {
		var strips []pattern.Strip
		for _, c := range order {
			strips = append(strips, pattern.Strip{Species: g.classes[c].Species, Width: g.classes[c].Width})
		}
		all := func(bool) bool { return true }
		_, fits, sure := attempt(ctx, g.ask.Cutting(g.physics.Shop(), g.rack(strips, all, nil), strips, func(int) bool { return true }))
		if fits {
			return order, true
		}
		proved = proved && sure && len(g.shunned) == 0
	}
	return nil, proved
}

// stepsMost is how many steps the planner takes to find whether strips in pieces can be cut, and
// joinedSteps how many to cut them with little.
const (
	stepsMost   = 40
	joinedSteps = 4
)

// attempt looks whether a job can be cut, as one of the two bricks or at all, and whether that it
// cannot is proved.
func attempt(ctx context.Context, job cutting.Job) (plan cutting.Plan, fits, sure bool) {
	sure = true
	for _, side := range job.Sides() {
		a := solve.Try(ctx, side, stepsMost)
		if a.Fits {
			return a.Plan, true, true
		}
		sure = sure && a.Sure
	}
	return plan, false, sure
}

// join plans a job whose strips may be in pieces.
func (g *goods) join(ctx context.Context, job cutting.Job) cutting.Plan {
	found, fits, sure := attempt(ctx, job)
	if !fits {
		found = cutting.Plan{Short: len(job.Patterns[0].Pattern.Strips)}
		if sure {
			found.Status = cutting.Optimal
		}
		return found
	}
	if plan, err := solve.Plan(ctx, job, solve.Options{Steps: joinedSteps}); err == nil && plan.Short == 0 {
		return plan
	}
	return found
}
