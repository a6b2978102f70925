// Package look says what a look of a panel is: a condition on its strips from edge to
// edge that the eye can name, and how different two panels look. All of it are pure
// functions. Strips are alike to the eye when timber and width agree; lightness is that
// of CIELAB, contrasts are CIEDE2000.
package look

import (
	"fmt"
	"slices"
	"strings"

	"example.com/oddments/pattern/length"
)

// A Look is what a panel looks like. The zero value is Any.
type Look int

// The looks.
const (
	Any    Look = iota // no condition
	Mirror             // the right half is the left one seen in a mirror
	Accent             // narrow strips of one timber in a field of the others
	Repeat             // a row of strips comes again and again
	Lively             // four timbers or more, ever changing
	Fade               // from dark to light, or dark or light in the middle
	Calm               // two timbers turn about, widths that swell or shrink to the middle
)

// Looks returns all looks in the order of a gallery.
func Looks() []Look { return []Look{Mirror, Accent, Repeat, Lively, Fade, Calm, Any} }

func words() []string {
	return []string{"any", "mirror", "accent", "repeat", "lively", "fade", "calm"}
}

// String returns the word of a look.
func (l Look) String() string {
	if all := words(); l >= 0 && int(l) < len(all) {
		return all[l]
	}
	return fmt.Sprintf("look(%d)", int(l))
}

// Parse reads the word of a look.
func Parse(text string) (Look, error) {
	if at := slices.Index(words(), text); at >= 0 {
		return Look(at), nil
	}
	return Any, fmt.Errorf("look %q: must be %s", text, strings.Join(words(), ", "))
}

// Says returns what a look is, in a maker's words.
func (l Look) Says() string {
	return [...]string{"any arrangement", "the same from both edges", "narrow lines of one timber in a field",
		"a row of strips that repeats", "four timbers or more, never settling", "from dark to light, or light or dark in the middle", "two timbers in turn, widths swelling or shrinking to the middle"}[l]
}

// Fewest returns how many timbers a look needs.
func (l Look) Fewest() int {
	switch l {
	case Fade:
		return 3
	case Lively:
		return 4
	case Accent, Calm:
		return 2
	default:
		return 1
	}
}

// AccentTimbers is how many timbers a panel with an accent has at most.
const AccentTimbers = 3

// A Strip is what the eye sees of one strip.
type Strip struct {
	Species string
	Width   length.Length
	L       float64 // lightness under oil
}

func (s Strip) alike(o Strip) bool { return s.Species == o.Species && s.Width == o.Width }

// Rules are the figures that looks go by.
type Rules struct {
	AccentWidth   length.Length // the most an accent strip is wide
	LeastContrast float64       // accent lines have twice as much
	Contrast      func(a, b string) float64
}

// Is reports whether strips, from edge to edge, have look l.
func (r Rules) Is(l Look, strips []Strip) bool {
	switch l {
	case Any:
		return true
	case Mirror:
		return mirror(strips)
	case Accent:
		return r.accent(strips)
	case Repeat:
		return Period(strips) > 0
	case Lively:
		return lively(strips)
	case Fade:
		return fade(strips)
	case Calm:
		return calm(strips)
	}
	return false
}

func mirror(strips []Strip) bool {
	for i, n := 0, len(strips); i < n/2; i++ {
		if !strips[i].alike(strips[n-1-i]) {
			return false
		}
	}
	return true
}

// Period returns after how many strips a row of them comes again, from 2 to half of them, the
// last row cut short or not; 0: it does not.
func Period(strips []Strip) int {
	for p := 2; p <= len(strips)/2; p++ {
		same := true
		for i := 0; i+p < len(strips) && same; i++ {
			same = strips[i].alike(strips[i+p])
		}
		if same {
			return p
		}
	}
	return 0
}

// timbers returns how many different ones there are.
func timbers(strips []Strip) int {
	seen := map[string]bool{}
	for _, s := range strips {
		seen[s.Species] = true
	}
	return len(seen)
}

// fade reports whether lightness runs one way from edge to edge, or one way from both edges
// to one place between.
func fade(strips []Strip) bool {
	if timbers(strips) < Fade.Fewest() {
		return false
	}
	turns, way := 0, 0
	for i := 1; i < len(strips); i++ {
		a, b := strips[i-1], strips[i]
		now := 0
		switch {
		case a.L < b.L:
			now = 1
		case a.L > b.L:
			now = -1
		case a.Species != b.Species:
			return false
		}
		if now != 0 && now != way {
			if way != 0 {
				turns++
			}
			way = now
		}
	}
	return turns <= 1
}

// accent reports whether some timber is the accent and all others are the field.
func (r Rules) accent(strips []Strip) bool {
	if n := timbers(strips); n < Accent.Fewest() || n > AccentTimbers {
		return false
	}
	return slices.ContainsFunc(strips, func(s Strip) bool { return r.accentOf(s.Species, strips) })
}

func (r Rules) accentOf(timber string, strips []Strip) bool {
	n := len(strips)
	count, widest := 0, length.Length(0)
	for i, s := range strips {
		if s.Species != timber {
			continue
		}
		if i == 0 || i == n-1 || s.Width > r.AccentWidth {
			return false
		}
		for _, o := range []Strip{strips[i-1], strips[i+1]} {
			if o.Species == timber || r.Contrast(timber, o.Species) < 2*r.LeastContrast {
				return false
			}
		}
		count, widest = count+1, max(widest, s.Width)
	}
	return count >= 2 && !slices.ContainsFunc(strips, func(s Strip) bool { return s.Species != timber && s.Width < 2*widest })
}

// lively reports whether of any three strips in a row no two share a timber, and no two
// neighbours a width.
func lively(strips []Strip) bool {
	if timbers(strips) < Lively.Fewest() {
		return false
	}
	for i := 1; i < len(strips); i++ {
		if strips[i].Species == strips[i-1].Species || strips[i].Width == strips[i-1].Width ||
			i > 1 && strips[i].Species == strips[i-2].Species {
			return false
		}
	}
	return true
}

// calm reports whether two timbers lie turn about, in widths that from both edges towards
// the middle never shrink, or never grow.
func calm(strips []Strip) bool {
	if timbers(strips) != 2 {
		return false
	}
	for i := 1; i < len(strips); i++ {
		if strips[i].Species == strips[i-1].Species {
			return false
		}
	}
	return swells(strips, 1) || swells(strips, -1)
}

// swells reports whether widths never shrink towards the middle (way 1), or never grow (-1).
func swells(strips []Strip, way length.Length) bool {
	n := len(strips)
	for i := 1; i < (n+1)/2; i++ {
		if way*(strips[i].Width-strips[i-1].Width) < 0 || way*(strips[n-1-i].Width-strips[n-i].Width) < 0 {
			return false
		}
	}
	return true
}
