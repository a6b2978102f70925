package cutout

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/tui/overlay/ask"
	"example.com/oddments/tui/screen"
)

// nothingListed says how a product is listed.
func nothingListed(ctx screen.Context) []screen.Request {
	return []screen.Request{screen.Say("no product listed: " + ctx.Keys.KeyOf("add-product") + " adds a product")}
}

// onProduct makes a hand move on the chosen product, as f changes it.
func (s Screen) onProduct(f func(pattern.Product) (pattern.Product, error), ctx screen.Context) []screen.Request {
	e, ok := s.Chosen()
	if !ok {
		return nothingListed(ctx)
	}
	return []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) {
		changed, err := f(s.Pattern.Products[e.Product])
		if err != nil {
			return s, err
		}
		return edit.SetProduct(s, e.Product, changed)
	}}}
}

// onChosen makes a hand move on the chosen product by its place; after, where there is any, is
// told to the screen when it is made.
func (s Screen) onChosen(f func(edit.State, int) (edit.State, error), after tea.Msg) []screen.Request {
	e, ok := s.Chosen()
	if !ok {
		return []screen.Request{screen.Say("no product listed")}
	}
	return []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) { return f(s, e.Product) }, Then: after}}
}

// line shows a field for the line of a product; what was understood stands beneath it
// while it is typed.
func line(title, text string, ctx screen.Context, set func(edit.State, pattern.Product) (edit.State, error), after tea.Msg) []screen.Request {
	field := ask.New(title, text, func(s string) (pattern.Product, string, error) {
		p, err := outline.ParseLine(s, ctx.Unit)
		return p, howMany(p) + outline.Text(p, ctx.Unit), err
	})
	return ask.Show(field, func(p pattern.Product) tea.Msg {
		return screen.Edit{Make: func(s edit.State) (edit.State, error) { return set(s, p) }, Then: after}
	})
}

func howMany(p pattern.Product) string {
	if p.Count == 0 {
		return "as many as the rows hold: "
	}
	return fmt.Sprintf("%d of ", p.Count)
}

func (Screen) addProduct(ctx screen.Context) []screen.Request {
	before := ctx.Stamp.Pattern
	return line("another product: round 290 x2 bevel 8, 300x200, square 250, oval 340 220, block 400 95 holes 3 of 40 deep 18", "", ctx, edit.AddProduct,
		then(func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
			if ctx.Stamp.Pattern == before {
				return s, nil
			}
			last := len(ctx.State.Pattern.Products) - 1
			return s.ChooseProduct(last), []screen.Request{screen.Say("listed: " + outline.Text(ctx.State.Pattern.Products[last], ctx.Unit))}
		}))
}

func (s Screen) changeProduct(ctx screen.Context) []screen.Request {
	e, ok := s.Chosen()
	if !ok {
		return s.addProduct(ctx)
	}
	return line(fmt.Sprintf("change product %d; type fill instead of x2 for as many as the rows hold", e.Product+1),
		outline.Line(ctx.State.Pattern.Products[e.Product], ctx.Unit), ctx,
		func(s edit.State, p pattern.Product) (edit.State, error) { return edit.SetProduct(s, e.Product, p) }, nil)
}

// sooner lets the chosen product change places with the one ahead of it.
func (s Screen) sooner(ctx screen.Context) []screen.Request {
	e, _ := s.Chosen()
	before := ctx.Stamp.Pattern
	return s.onChosen(edit.ProductSooner, then(func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		if ctx.Stamp.Pattern != before {
			s = s.ChooseProduct(e.Product - 1)
		}
		return s, nil
	}))
}

// dropProduct takes the chosen product away.
func (s Screen) dropProduct(screen.Context) []screen.Request {
	return s.onChosen(edit.DropProduct, nil)
}

// moreOf cuts out so many more of the chosen product; below one, the last product
// fills the rows.
func moreOf(by int) func(Screen, screen.Context) []screen.Request {
	return func(s Screen, ctx screen.Context) []screen.Request {
		return s.onProduct(func(p pattern.Product) (pattern.Product, error) {
			if p.Count+by < 0 {
				return p, errors.New("it fills the rows already: as many as they hold")
			}
			p.Count += by
			return p, nil
		}, ctx)
	}
}

func (s Screen) askBevel(ctx screen.Context) []screen.Request {
	return ofProduct(s, ctx, "depth of the 45 degree bevel", func(p pattern.Product) string { return ask.TypedLength(p.Bevel, ctx.Unit) },
		ask.LengthOr("no bevel", ctx.Unit), func(p *pattern.Product, l length.Length) { p.Bevel = l })
}

func (s Screen) nextBevelSide(ctx screen.Context) []screen.Request {
	return s.onProduct(func(p pattern.Product) (pattern.Product, error) {
		if p.Bevel == 0 {
			return p, errors.New("it has no bevel: " + ctx.Keys.KeyOf(cutBevel) + " sets how deep")
		}
		sides := pattern.BevelSides()
		p.BevelSide = sides[(int(p.BevelSide)+1)%len(sides)]
		return p, nil
	}, ctx)
}

// ofProduct shows a field for one value of the chosen product.
func ofProduct[T any](s Screen, ctx screen.Context, what string, text func(pattern.Product) string, read func(string) (T, string, error), set func(*pattern.Product, T)) []screen.Request {
	e, ok := s.Chosen()
	if !ok {
		return nothingListed(ctx)
	}
	p := ctx.State.Pattern.Products[e.Product]
	title := fmt.Sprintf("%s of product %d, %s", what, e.Product+1, outline.Text(p, ctx.Unit))
	return ask.Show(ask.New(title, text(p), read).Value(), func(value T) tea.Msg {
		return screen.Edit{Make: func(s edit.State) (edit.State, error) {
			set(&p, value)
			return edit.SetProduct(s, e.Product, p)
		}}
	})
}

func (s Screen) askCentre(ctx screen.Context) []screen.Request {
	if board(ctx) != nil {
		return []screen.Request{screen.Refuse("products on a board have their middle row on its middle: it has neither strips nor glue lines to stand on")}
	}
	read := func(s string) (pattern.Centre, string, error) {
		c, err := pattern.ParseCentre(strings.ToLower(strings.Join(strings.Fields(s), " ")))
		return c, "the middle row on " + c.Words(), err
	}
	return ofProduct(s, ctx, "centre (panel, strip 6, or joint 6 for glue line 6|7)", func(p pattern.Product) string { return p.Centre.String() },
		read, func(p *pattern.Product, c pattern.Centre) { p.Centre = c })
}

// usualKnot is the radius that a knot is marked with at the cursor: a guess, which K
// sets right.
const usualKnot = 8 * length.Millimetre

// addKnot marks a knot at the cursor, as large as the last one typed.
func (s Screen) addKnot(ctx screen.Context) []screen.Request {
	if !strips(s, ctx) {
		return []screen.Request{screen.Say("there is no panel yet")}
	}
	at := s.Point(ground(ctx))
	radius := cmp.Or(s.knot, usualKnot)
	return []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) {
		return edit.AddAvoid(s, pattern.Avoid{Along: at.Along, Across: at.Across, Radius: radius})
	}, Then: then(func(s Screen, ctx screen.Context) (screen.Screen, []screen.Request) {
		return s.To(at, ctx), []screen.Request{screen.Say(fmt.Sprintf("a knot of radius %s at %s along, %s across; %s sets it right", radius.With(ctx.Unit),
			at.Along.With(ctx.Unit), at.Across.With(ctx.Unit), ctx.Keys.KeyOf("set-avoid")))}
	})}}
}

// dropKnot takes the knot at the cursor away.
func (s Screen) dropKnot(ctx screen.Context) []screen.Request {
	i, ok := s.Knot(ground(ctx))
	if !ok {
		return []screen.Request{screen.Say("there is no knot at the cursor")}
	}
	return []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) { return edit.DropAvoid(s, i) }}}
}

// askKnot lets the knot at the cursor be typed, or a new one where there is none.
func (s Screen) askKnot(ctx screen.Context) []screen.Request {
	if !strips(s, ctx) {
		return []screen.Request{screen.Say("there is no panel yet")}
	}
	i, there := s.Knot(ground(ctx))
	at := s.Point(ground(ctx))
	knot, title := pattern.Avoid{Along: at.Along, Across: at.Across, Radius: usualKnot}, "a knot: along from the datum end, across from edge A, radius"
	if there {
		knot, title = ctx.State.Pattern.Avoids[i], fmt.Sprintf("knot %d: along from the datum end, across from edge A, radius", i+1)
	}
	read := func(s string) (pattern.Avoid, string, error) {
		k, err := outline.ParseKnot(s, ctx.Unit)
		return k, fmt.Sprintf("%s along, %s across, radius %s", k.Along.With(ctx.Unit), k.Across.With(ctx.Unit), k.Radius.With(ctx.Unit)), err
	}
	return ask.Show(ask.New(title, outline.KnotLine(knot, ctx.Unit), read), func(knot pattern.Avoid) tea.Msg {
		return then(func(s Screen, _ screen.Context) (screen.Screen, []screen.Request) {
			s.knot = knot.Radius
			return s, []screen.Request{screen.Edit{Make: func(s edit.State) (edit.State, error) {
				if there {
					return edit.SetAvoid(s, i, knot)
				}
				return edit.AddAvoid(s, knot)
			}}}
		})
	})
}
