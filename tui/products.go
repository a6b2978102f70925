package tui

import (
	"errors"
	"fmt"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/edit"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/tui/keymap"
	"example.com/oddments/tui/overlay/ask"
)

// onProduct makes a hand move on the chosen product, as f changes it.
func (a App) onProduct(f func(pattern.Product) (pattern.Product, error)) (App, tea.Cmd) {
	e, ok := a.doc.cut.view.Chosen(a.doc.cut.shown)
	if !ok {
		return a.say("nothing is listed: " + a.keys.KeyOf("add-product") + " lists a product"), nil
	}
	return a.move(func(s edit.State) (edit.State, error) {
		changed, err := f(s.Pattern.Products[e.Product])
		if err != nil {
			return s, err
		}
		return edit.SetProduct(s, e.Product, changed)
	})
}

// askProduct shows a field for the line of a product; what was understood stands
// beneath it while it is typed.
func (a App) askProduct(title, text string, set func(edit.State, pattern.Product) (edit.State, error), then func(App) App) (App, tea.Cmd) {
	unit := a.unit
	field := ask.New(title, text, func(s string) (any, string, error) {
		p, err := outline.ParseLine(s, unit)
		return p, howMany(p) + outline.Text(p, unit), err
	})
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		before := a.doc.history.Revision()
		a, cmd := a.move(func(s edit.State) (edit.State, error) { return set(s, value.(pattern.Product)) })
		if a.doc.history.Revision() != before {
			a = then(a)
		}
		return a, cmd
	}), nil
}

func howMany(p pattern.Product) string {
	if p.Count == 0 {
		return "as many as the rows hold: "
	}
	return fmt.Sprintf("%d of ", p.Count)
}

func (a App) addProduct() (App, tea.Cmd) {
	return a.askProduct("another product: round 290 x2 bevel 8, or block 400 95 holes 3 of 40 deep 18", "",
		edit.AddProduct, func(a App) App {
			last := len(a.state().Pattern.Products) - 1
			a.doc.cut.view = a.doc.cut.view.ChooseProduct(last, a.doc.cut.shown)
			return a.say("listed: " + outline.Text(a.state().Pattern.Products[last], a.unit))
		})
}

func (a App) changeProduct() (App, tea.Cmd) {
	e, ok := a.doc.cut.view.Chosen(a.doc.cut.shown)
	if !ok {
		return a.addProduct()
	}
	return a.askProduct(fmt.Sprintf("change product %d; fill instead of x2: as many as the rows hold", e.Product+1),
		outline.Line(a.state().Pattern.Products[e.Product], a.unit),
		func(s edit.State, p pattern.Product) (edit.State, error) { return edit.SetProduct(s, e.Product, p) },
		func(a App) App { return a })
}

// dropProduct takes the chosen product off the list.
func (a App) dropProduct() (App, tea.Cmd) { return a.onChosen(edit.DropProduct) }

// productSooner lets the chosen product change places with the one ahead of it.
func (a App) productSooner() (App, tea.Cmd) {
	e, _ := a.doc.cut.view.Chosen(a.doc.cut.shown)
	before := a.doc.history.Revision()
	a, cmd := a.onChosen(edit.ProductSooner)
	if a.doc.history.Revision() != before {
		a.doc.cut.view = a.doc.cut.view.ChooseProduct(e.Product-1, a.doc.cut.shown)
	}
	return a, cmd
}

// onChosen makes a hand move on the chosen product by its place.
func (a App) onChosen(f func(edit.State, int) (edit.State, error)) (App, tea.Cmd) {
	e, ok := a.doc.cut.view.Chosen(a.doc.cut.shown)
	if !ok {
		return a.say("nothing is listed"), nil
	}
	return a.move(func(s edit.State) (edit.State, error) { return f(s, e.Product) })
}

// moreOf cuts out so many more of the chosen product; below one, the last product
// fills the rows.
func moreOf(by int) handler {
	return func(a App) (App, tea.Cmd) {
		return a.onProduct(func(p pattern.Product) (pattern.Product, error) {
			if p.Count+by < 0 {
				return p, errors.New("it fills the rows already: as many as they hold")
			}
			p.Count += by
			return p, nil
		})
	}
}

func (a App) nextBevelSide() (App, tea.Cmd) {
	return a.onProduct(func(p pattern.Product) (pattern.Product, error) {
		if p.Bevel == 0 {
			return p, errors.New("it has no bevel: " + a.keys.KeyOf(keymap.CutBevel) + " says how deep")
		}
		sides := pattern.BevelSides()
		p.BevelSide = sides[(int(p.BevelSide)+1)%len(sides)]
		return p, nil
	})
}

// askOfProduct shows a field for one value of the chosen product.
func askOfProduct[T any](a App, what string, text func(pattern.Product) string, read func(string) (T, string, error), set func(*pattern.Product, T)) (App, tea.Cmd) {
	e, ok := a.doc.cut.view.Chosen(a.doc.cut.shown)
	if !ok {
		return a.say("nothing is listed: " + a.keys.KeyOf("add-product") + " lists a product"), nil
	}
	p := a.state().Pattern.Products[e.Product]
	title := fmt.Sprintf("%s of product %d, %s", what, e.Product+1, outline.Text(p, a.unit))
	return askFor(a, title, text(p), read, func(s edit.State, value T) (edit.State, error) {
		set(&p, value)
		return edit.SetProduct(s, e.Product, p)
	})
}

func (a App) askBevel() (App, tea.Cmd) {
	return askOfProduct(a, "depth of the 45 degree bevel", func(p pattern.Product) string { return a.typedLength(p.Bevel) },
		a.lengthOr("no bevel"), func(p *pattern.Product, l length.Length) { p.Bevel = l })
}

func (a App) askCentre() (App, tea.Cmd) {
	read := func(s string) (pattern.Centre, string, error) {
		c, err := pattern.ParseCentre(strings.ToLower(strings.Join(strings.Fields(s), " ")))
		return c, "the middle row on " + c.Words(), err
	}
	return askOfProduct(a, "centre (panel, strip 6, or joint 6 for glue line 6|7)", func(p pattern.Product) string { return p.Centre.String() },
		read, func(p *pattern.Product, c pattern.Centre) { p.Centre = c })
}

// usualKnot is the radius that a knot is marked with at the cursor: a guess, which K
// sets right.
const usualKnot = 8 * length.Millimetre

// addKnot marks a knot at the cursor, as large as the last one typed.
func (a App) addKnot() (App, tea.Cmd) {
	if len(a.state().Pattern.Strips) == 0 {
		return a.say("there is no panel yet"), nil
	}
	cut := a.doc.cut
	at := cut.view.Point(cut.shown, a.state().Pattern)
	radius := cut.knot
	if radius == 0 {
		radius = usualKnot
	}
	a, cmd := a.move(func(s edit.State) (edit.State, error) {
		return edit.AddAvoid(s, pattern.Avoid{Along: at.Along, Across: at.Across, Radius: radius})
	})
	a.doc.cut.view = a.doc.cut.view.To(at, a.doc.cut.shown, a.context())
	return a.say(fmt.Sprintf("a knot of radius %s at %s along, %s across; %s sets it right", radius.With(a.unit), at.Along.With(a.unit),
		at.Across.With(a.unit), a.keys.KeyOf("set-avoid"))), cmd
}

// dropKnot takes the knot at the cursor away.
func (a App) dropKnot() (App, tea.Cmd) {
	i, ok := a.doc.cut.view.Knot(a.doc.cut.shown, a.state().Pattern)
	if !ok {
		return a.say("there is no knot at the cursor"), nil
	}
	return a.move(func(s edit.State) (edit.State, error) { return edit.DropAvoid(s, i) })
}

// askKnot lets the knot at the cursor be typed, or a new one where there is none.
func (a App) askKnot() (App, tea.Cmd) {
	if len(a.state().Pattern.Strips) == 0 {
		return a.say("there is no panel yet"), nil
	}
	cut := a.doc.cut
	i, there := cut.view.Knot(cut.shown, a.state().Pattern)
	at := cut.view.Point(cut.shown, a.state().Pattern)
	knot, title := pattern.Avoid{Along: at.Along, Across: at.Across, Radius: usualKnot}, "a knot: along from the datum end, across from edge A, radius"
	if there {
		knot, title = a.state().Pattern.Avoids[i], fmt.Sprintf("knot %d: along from the datum end, across from edge A, radius", i+1)
	}
	read := func(s string) (pattern.Avoid, string, error) {
		k, err := outline.ParseKnot(s, a.unit)
		return k, fmt.Sprintf("%s along, %s across, radius %s", k.Along.With(a.unit), k.Across.With(a.unit), k.Radius.With(a.unit)), err
	}
	field := ask.New(title, outline.KnotLine(knot, a.unit), func(s string) (any, string, error) { return read(s) })
	return a.show(field, func(a App, value any) (App, tea.Cmd) {
		knot := value.(pattern.Avoid)
		a.doc.cut.knot = knot.Radius
		return a.move(func(s edit.State) (edit.State, error) {
			if there {
				return edit.SetAvoid(s, i, knot)
			}
			return edit.AddAvoid(s, knot)
		})
	}), nil
}
