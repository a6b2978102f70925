package pattern

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/tell"
)

// MaxHeart is the furthest that a strip's pith may lie from it.
const MaxHeart = 2 * length.Metre

// A Bark says on which side of a strip the bark lay, seen on the end grain at the datum
// end with strip 1 on the left and the visible face up: 1 towards it, -1 away from it, 0
// neither. The zero value: nobody has looked.
type Bark struct{ Right, Up int8 }

// Barks lists the sides that bark may lie on.
func Barks() []Bark {
	return []Bark{{0, 1}, {0, -1}, {-1, 0}, {1, 0}, {-1, 1}, {1, 1}, {-1, -1}, {1, -1}}
}

// Known reports whether somebody has looked.
func (b Bark) Known() bool { return b != Bark{} }

// String returns up, down, left, right, up left, up right, down left or down right;
// unknown where nobody has looked.
func (b Bark) String() string {
	if !b.Known() {
		return "unknown"
	}
	return strings.TrimSpace([]string{"down ", "", "up "}[b.Up+1] + []string{"left", "", "right"}[b.Right+1])
}

// Mark returns the sign of the side as it is seen on the end grain: a bar on that side, or
// the ring that bulges to that corner.
func (b Bark) Mark() rune {
	signs := [3][3]rune{{'╰', '▁', '╯'}, {'▏', '?', '▕'}, {'╭', '▔', '╮'}}
	return signs[b.Up+1][b.Right+1]
}

// Turned returns the side once the strip is turned end for end: left and right change
// places.
func (b Bark) Turned() Bark { return Bark{-b.Right, b.Up} }

// Over returns the side once the strip's other face is up, its ends where they are: both
// pairs change places.
func (b Bark) Over() Bark { return Bark{-b.Right, -b.Up} }

// Rolled returns the side after a quarter roll clockwise: up goes right, right goes down.
func (b Bark) Rolled() Bark { return Bark{b.Up, -b.Right} }

// BarkSides lists the sides on which bark can lie with rings r: above or beneath a flat
// strip, left or right of a quartered one, else in one of the corners. Where nobody has
// looked at the rings there is none.
func (r Rings) BarkSides() []Bark {
	all := Barks()
	switch {
	case !r.known:
		return nil
	case r == RingsFlat():
		return all[:2]
	case r == RingsQuarter():
		return all[2:4]
	default:
		return all[4:]
	}
}

// CheckBark refuses a side that bark cannot lie on with rings r.
func (r Rings) CheckBark(b Bark) error {
	sides := r.BarkSides()
	switch {
	case !b.Known() || slices.Contains(sides, b):
		return nil
	case sides == nil:
		return errors.New("a bark side needs the rings: say first how they stand")
	}
	var could []string
	for _, s := range sides {
		could = append(could, s.String())
	}
	return fmt.Errorf("bark %s does not go with rings %s: must be %s", b, r, tell.List(could, "or"))
}

// ParseBark reads one of the eight sides.
func ParseBark(s string) (Bark, error) {
	if b, ok := tell.Named(s, Barks()); ok {
		return b, nil
	}
	return Bark{}, fmt.Errorf("bark %q: must be up, down, left or right, or up left, up right, down left or down right", s)
}

// A Grain is how the growth rings lie in a strip or in a piece, seen on its end grain.
type Grain struct {
	Rings Rings         // against the visible face, or the face that is width wide
	Bark  Bark          // zero: not known; one of Rings.BarkSides
	Heart length.Length // from the middle to the pith; 0: not known, and without Bark
}

// Check refuses what cannot be: a bark side that does not go with the rings, or a distance
// to the pith without one.
func (g Grain) Check() error {
	if err := g.Rings.CheckBark(g.Bark); err != nil {
		return err
	}
	switch {
	case g.Heart != 0 && !g.Bark.Known():
		return errors.New("a heart needs the bark side: the pith lies away from it")
	case g.Heart < 0 || g.Heart > MaxHeart:
		return fmt.Errorf("heart %s: must be above 0, up to %s", g.Heart, MaxHeart)
	}
	return nil
}

// Words says where the bark lay and how far the pith is, a phrase each, as far as it is
// known.
func (g Grain) Words(u length.Unit) []string {
	var words tell.Phrases
	words.If(g.Bark.Known(), "bark "+g.Bark.String())
	words.If(g.Heart > 0, "heart "+g.Heart.With(u))
	return words
}

// With returns g with other rings; the bark side stays where it goes with them.
func (g Grain) With(r Rings) Grain {
	if r.CheckBark(g.Bark) != nil {
		return Grain{Rings: r}
	}
	g.Rings = r
	return g
}

// Rolled returns g after a quarter roll clockwise.
func (g Grain) Rolled() Grain { return Grain{g.Rings.Rolled(), g.Bark.Rolled(), g.Heart} }

// Laid returns g as strip s is laid: turned end for end, with its other face up.
func (g Grain) Laid(s Strip) Grain {
	if s.Turned {
		g.Bark = g.Bark.Turned()
	}
	if s.Over {
		g.Bark = g.Bark.Over()
	}
	return g
}
