// Package ceiling says what no set of panels from a rack is worth more than, whatever panels
// it is of.
//
// Strips are given prices: so much a millimetre of width, with the kerf beside it, by the
// timber they are of, how thick they are glued and how long they are. At any prices whatever a
// piece of the rack yields strips that come to at most so much (stock.go), and a panel takes
// strips that come to at least so much (walk.go). So no set is worth more than what all the
// rack yields, with what products are worth above the least that they take, as many as are
// asked for. That holds at every price; a subgradient method looks for prices at which it says
// least.
//
// What is counted of a piece is never less than what a plan may have of it, and what is
// counted of a panel never more than what it takes: its strips are of standing or ready widths
// from edge to edge, as long as its products need where they lie, of pieces where the want lets
// them be, and neighbours keep to what two strips decide by themselves of level and contrast.
// All pieces of a strip are of the timber that it counts on: its species, moisture and colour.
//
// Lengths are in whole nanometres; prices, widths and lengths in sums in millimetres. Products
// are rounded before they are added (times), so that every processor comes to the same.
package ceiling

import (
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// A Job is what a bound is asked for.
type Job struct {
	Wants   []orders.Want
	Rack    rack.Rack
	Physics movement.Physics
	Widths  []length.Length // that pieces are ripped to
	Held    []Held          // panels that every set has
}

// Held is a panel that stays as it is.
type Held struct {
	Want    int // its place among the wants
	Pattern pattern.Pattern
}

// A Ceiling is a bound that grows better step by step.
type Ceiling struct {
	job   Job
	shop  shop.Shop
	glued []length.Length // thicknesses before flattening that wants have
	timber
	grid
	wants []*want
	held  []taken // what held panels take
	worth float64 // of the held panels
	method

	room room
}

// mostKinds is above how many kinds of strips timbers are told apart by their species alone, and
// by what no two of them would be kept apart: walks would take too long.
const mostKinds = 800

// A room is memory that walks and sums work in.
type room struct {
	costs  []float64
	rest   []float64
	reach  []float64
	from   []int32
	active []int32
}

// times returns a product rounded by itself: processors that fuse it with a sum would come to
// other digits.
func times(a, b float64) float64 { return float64(a * b) }

// New returns a bound that says no more yet than that nothing is worth more than what is asked
// for and what the rack has the volume of; see Step.
func New(job Job) *Ceiling {
	c := &Ceiling{job: job, shop: job.Physics.Shop()}
	for _, w := range job.Wants {
		if g := c.shop.Glued(w.Thickness); !slices.Contains(c.glued, g) {
			c.glued = append(c.glued, g)
		}
	}
	if c.gather(); len(c.kinds) > mostKinds {
		c.timber = timber{coarse: true}
		c.gather()
	}
	c.finish()
	return c
}

// finish makes the rest of it from its timber.
func (c *Ceiling) finish() {
	fits := c.beside()
	for i := range c.job.Wants {
		c.wants = append(c.wants, c.want(i, fits))
	}
	c.lay()
	c.hold()
	c.begin()
}

// accents reports whether some want has an accent.
func (c *Ceiling) accents() bool {
	return slices.ContainsFunc(c.job.Wants, func(w orders.Want) bool { return w.Look == look.Accent })
}

// narrow returns how wide strips of an accent may be sawn.
func (c *Ceiling) narrow() length.Length {
	return min(suggest.DefaultAccent, slices.Min(c.job.Widths))
}

// hold lists what held panels take.
func (c *Ceiling) hold() {
	for _, h := range c.job.Held {
		w := c.wants[h.Want]
		made := 1
		if len(h.Pattern.Products) > 0 {
			made = h.Pattern.Products[0].Count
		}
		c.worth += times(float64(made), w.each)
		w.most = max(0, w.most-float64(made))
		for _, s := range h.Pattern.Strips {
			p := c.poolOf(s)
			if p < 0 {
				continue
			}
			for _, piece := range h.Pattern.PiecesOf(s, c.shop.Allowance.Length) {
				if at := c.floor(w.glued, piece.Length); at >= 0 {
					c.held = append(c.held, taken{p, w.glued, at, (s.Width + c.beside1()).MM()})
				}
			}
		}
	}
}

// beside1 is what a strip takes of a slice beside its own width, kerf and all.
func (c *Ceiling) beside1() length.Length { return c.shop.Allowance.Jointing + c.shop.Kerf.Rip }

// A taken is so much width of strips of a pool, with what they take beside it: of a thickness,
// and as long as a place of the grid says.
type taken struct {
	pool, glued, at int
	wide            float64 // millimetres
}

// Asked returns what all that is wanted is worth, of no more than the rack has timber for.
func (c *Ceiling) Asked() float64 {
	sum := c.worth
	for _, w := range c.wants {
		sum += times(w.most, w.each)
	}
	return sum
}
