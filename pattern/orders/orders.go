// Package orders holds what a maker would like to sell at the next market: products with how
// many of each, what one is worth, and what it should look like. Package store reads and
// writes them; package sets says what a rack becomes of them.
//
// Lengths are exact; worths are all in the maker's money, or none is given and the finished
// volume counts, in cubic decimetres.
package orders

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
)

// A Want is one product that would sell. New returns one with what a file that says no more
// means.
type Want struct {
	ID        string          // short, a pattern's stem
	Product   pattern.Product // its Count and its Centre do not count
	Thickness length.Length   // finished
	// Least and Most bound how many are made; Most 0: as many as the rack gives.
	Least, Most   int
	Worth         float64 // of one; 0: its finished volume counts
	Along         Range   // products one after another in one panel
	Spare         length.Length
	Look          look.Look
	Level         pattern.Level // of the worst glue line
	LeastContrast float64       // of neighbours
	Timbers       Range         // different ones in a panel; the zero value: any number
	With, Without []string      // species
	AtMost        []suggest.Share
	Joints        bool // strips may be made of several lengths
}

// The bounds of what a want says, and what it says where nothing is said.
const (
	MostWants    = 50
	MostCopies   = 1000
	MostAlong    = 50
	MostTimbers  = 100
	MostWorth    = 1e9
	MostContrast = 100.0
	DefaultSpare = 12 * length.Millimetre
)

// DefaultAlong returns how many products a panel holds where nothing is said.
func DefaultAlong() Range { return Range{1, 3} }

// New returns a want that says nothing yet.
func New() Want {
	return Want{Product: pattern.Product{Count: 1}, Along: DefaultAlong(), Spare: DefaultSpare, Level: suggest.DefaultLevel,
		LeastContrast: suggest.DefaultLeastContrast, Joints: true}
}

// A Range is from the least to the most, both with it.
type Range struct{ Least, Most int }

// String returns 1..3, or 2 where both are the same.
func (r Range) String() string {
	if r.Least == r.Most {
		return strconv.Itoa(r.Least)
	}
	return fmt.Sprintf("%d..%d", r.Least, r.Most)
}

// ParseRange reads 1..3 or 2, whole numbers from 1 to most.
func ParseRange(text string, most int) (Range, error) {
	from, to, ranged := strings.Cut(text, "..")
	if !ranged {
		to = from
	}
	a, wrong := strconv.Atoi(strings.TrimSpace(from))
	b, wrongToo := strconv.Atoi(strings.TrimSpace(to))
	switch {
	case wrong != nil || wrongToo != nil || a < 1 || b > most:
		return Range{}, fmt.Errorf("%q: must be a number or a range from 1 to %d, like 1..3", text, most)
	case a > b:
		return Range{}, fmt.Errorf("%q: must have the smaller number first, like %d..%d", text, b, a)
	}
	return Range{a, b}, nil
}

// ParseShare reads a species and the most percent of the width that it may have.
func ParseShare(text string) (suggest.Share, error) {
	words := strings.Fields(strings.TrimSuffix(strings.TrimSpace(text), "%"))
	if len(words) == 2 {
		if pct, err := strconv.ParseFloat(strings.TrimSuffix(words[1], "%"), 64); err == nil && pct >= 0 && pct <= 100 {
			return suggest.Share{Species: words[0], Pct: pct}, nil
		}
	}
	return suggest.Share{}, fmt.Errorf("%q: must be a timber and a percentage from 0 to 100, like \"sapele 30\"", text)
}

// ShareText returns what ParseShare reads.
func ShareText(s suggest.Share) string {
	return s.Species + " " + strconv.FormatFloat(s.Pct, 'f', -1, 64)
}

// Shape returns the outline of what is wanted.
func (w Want) Shape() outline.Shape { return outline.ShapeOf(w.Product) }

// Each returns what one is worth.
func (w Want) Each() float64 {
	if w.Worth > 0 {
		return w.Worth
	}
	return w.VolumeDM3()
}

// WorthOf returns what the products of a pattern are worth in money that was laid out for one of
// these, which its stem and its product say; 0 where it was not, or nobody said.
func WorthOf(wants []Want, stem string, p pattern.Pattern) float64 {
	at := strings.LastIndexByte(stem, '-')
	if at < 0 || len(p.Products) != 1 {
		return 0
	}
	for _, w := range wants {
		product := w.Product
		product.Count, product.Centre = p.Products[0].Count, p.Products[0].Centre
		if w.ID == stem[:at] && product == p.Products[0] && w.Thickness == p.Panel.Thickness {
			return float64(p.Products[0].Count) * w.Worth
		}
	}
	return 0
}

// VolumeDM3 returns the finished volume of one, in cubic decimetres.
func (w Want) VolumeDM3() float64 { return outline.VolumeDM3(w.Product, w.Thickness) }

// InMoney reports whether wants say what one is worth.
func InMoney(wants []Want) bool {
	return slices.ContainsFunc(wants, func(w Want) bool { return w.Worth > 0 })
}

// PanelLength returns the finished length of a panel that holds so many products one after
// another.
func (w Want) PanelLength(along int, cut shop.Cut) length.Length {
	size, _ := w.Shape().Size()
	n := length.Length(along)
	return n*size + (n-1)*cut.Gap + 2*cut.EndMargin
}

// Widths returns the least and the most glue-up width that a panel may have.
func (w Want) Widths(cut shop.Cut) (least, most length.Length) {
	_, across := w.Shape().Size()
	least = across + 2*cut.SideMargin
	return least, least + w.Spare
}

// Lacks lists the timbers that must be there and of which a rack has none.
func (w Want) Lacks(r rack.Rack) (species []string) {
	for _, key := range w.With {
		if r.VolumeCM3(key) == 0 {
			species = append(species, key)
		}
	}
	return species
}

// A Wrong is one thing of a want that cannot be.
type Wrong struct {
	Key        string // of the value, as the file calls it
	Text, Hint string
}

// Wrongs lists what contradicts itself in a want.
func (w Want) Wrongs() (out []Wrong) {
	add := func(bad bool, key, hint, format string, args ...any) {
		if bad {
			out = append(out, Wrong{key, fmt.Sprintf(format, args...), hint})
		}
	}
	add(w.Most > 0 && w.Least > w.Most, "least", "ask for fewer, or raise most", "%d: is more than most, which is %d", w.Least, w.Most)
	for _, s := range w.With {
		add(slices.Contains(w.Without, s), "with", "leave it out of one of the two", "%s: is under without, too", s)
	}
	add(w.Timbers.Most > 0 && len(w.With) > w.Timbers.Most, "with", "allow more timbers", "%d timbers: timbers allows at most %d", len(w.With), w.Timbers.Most)
	add(w.Timbers.Most > 0 && w.Timbers.Most < w.Look.Fewest(), "timbers", "allow more timbers, or take another look",
		"%v: look %v needs %d", w.Timbers, w.Look, w.Look.Fewest())
	add(w.Look == look.Calm && w.Timbers.Least > 2, "timbers", "ask for fewer timbers, or take another look", "%v: look calm has 2", w.Timbers)
	add(w.Look == look.Accent && w.Timbers.Least > look.AccentTimbers, "timbers", "ask for fewer timbers, or take another look",
		"%v: look accent has at most %d", w.Timbers, look.AccentTimbers)
	for i, s := range w.AtMost {
		add(slices.ContainsFunc(w.AtMost[:i], func(o suggest.Share) bool { return o.Species == s.Species }), "at_most", "say it once", "%s: is given twice", s.Species)
		add(s.Pct == 0 && slices.Contains(w.With, s.Species), "at_most", "allow more of it, or leave it out of with", "%s 0: with asks for it", s.Species)
	}
	return out
}

// TooLong lists the want's along where a panel of so many would be longer than panels may be.
func (w Want) TooLong(cut shop.Cut) []Wrong {
	if long := w.PanelLength(w.Along.Most, cut); long > pattern.MaxLength {
		most := 1
		for w.PanelLength(most+1, cut) <= pattern.MaxLength {
			most++
		}
		return []Wrong{{"along", fmt.Sprintf("%v: a panel of %d would be %v long, and must be at most %v", w.Along, w.Along.Most, long, length.Length(pattern.MaxLength)),
			fmt.Sprintf("at most %d fit", most)}}
	}
	return nil
}

// TooThick lists the want's thickness where nothing on a rack is thick enough, however it is
// sawn; an empty rack is still to be filled.
func (w Want) TooThick(r rack.Rack, sh shop.Shop) []Wrong {
	if len(r.Entries()) == 0 {
		return nil
	}
	most := length.Length(0)
	for _, p := range r.Pieces {
		if most = max(most, p.Thickness); !p.Planed { // it may be side-sliced
			most = max(most, p.Width)
		}
	}
	for _, s := range r.Strips {
		most = max(most, s.Thickness)
	}
	if need := sh.Glued(w.Thickness); need > most {
		return []Wrong{{"thickness", fmt.Sprintf("%v: needs strips %v thick before flattening, and no piece on the rack is thicker than %v", w.Thickness, need, most),
			fmt.Sprintf("at most %v is possible with this rack", max(0, most-sh.Allowance.Flattening))}}
	}
	return nil
}
