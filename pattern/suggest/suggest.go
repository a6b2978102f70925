// Package suggest says what is asked of layouts and what is told of them: the request for
// strips chosen and put in order, the result, and the judge that looks at every claim
// before it is handed out. Packages search and remake below it find what is asked for.
//
// A layout's total width lies within a tolerance of the target, in whole nanometres
// and inclusive; its glue lines are at most at a chosen level. That level is the one
// of the expected figure with the relief of each strip's own width, so that a line
// depends on its two strips alone; and Layout.Level, the level of the finished layout
// computed in full, is at most the chosen one too. Contrasts are CIEDE2000 of the oiled colours. They are compared in
// millionths, rounded once for each pair of kinds, so that proofs need no tolerance;
// what is handed out is not rounded. Moisture is percent of oven-dry mass.
//
// Two strips are of one kind, alike to the eye, when species and width agree. Boards of one
// timber whose own colours lie apart are species of their own to a search (gallery/shades.go). A layout and its mirror image are the same. Layouts are proved the best, or
// come with a bound that holds; the same ask gives the same answer unless its context
// ended the work.
package suggest

import (
	"fmt"
	"slices"
	"time"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/cutting"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/suggest/look"
)

// An Aim says which layout is the better one. The zero value is Auto.
type Aim int

// The aims.
const (
	Auto     Aim = iota // UseUp where a strip is marked use first, else Contrast
	Contrast            // the greatest smallest contrast, then the greatest sum
	UseUp               // the greatest width of use-first strips, then as Contrast
)

// String returns auto, contrast or use-up.
func (a Aim) String() string { return word(a, "aim", "auto", "contrast", "use-up") }

// word returns the word of a value, or its number with what it is of.
func word[T ~int](value T, of string, words ...string) string {
	if value < 0 || int(value) >= len(words) {
		return fmt.Sprintf("%s(%d)", of, int(value))
	}
	return words[value]
}

// ParseAim reads auto, contrast or use-up.
func ParseAim(s string) (Aim, error) {
	for _, a := range []Aim{Auto, Contrast, UseUp} {
		if s == a.String() {
			return a, nil
		}
	}
	return Auto, fmt.Errorf("aim %q: must be use-up, contrast or auto", s)
}

// What a Request says when the maker does not.
const (
	DefaultTolerance     = 4 * length.Millimetre
	DefaultFewest        = 2
	DefaultMost          = 60
	DefaultLevel         = pattern.TakeCare
	DefaultLeastContrast = 12.0
	DefaultLayouts       = 5
	DefaultDiffer        = 2
	DefaultApart         = 30.0 // percent
	DefaultAccent        = 12 * length.Millimetre
	NarrowPanel          = 400 * length.Millimetre // up to this wide a gallery begins with UsualStrips
	fadeContrast         = 4.0                     // neighbours in a fade are near
)

// UsualStrips returns how many strips a layout of a narrow panel has to begin with.
func UsualStrips() [2]int { return [2]int{9, 15} }

// A Request is what is wanted and what there is. New returns one with the defaults.
type Request struct {
	Width     length.Length // glue-up width aimed at
	Tolerance length.Length // either way, inclusive
	Thickness length.Length // finished, of the panel
	Length    length.Length // finished, of the panel

	Milling
	Wishes

	Strips        [2]int // fewest and most, 2 or more
	Level         pattern.Level
	Aim           Aim
	LeastContrast float64 // of neighbours; for UseUp only
	Symmetric     bool    // the layout is its own mirror image
	NoTwins       bool    // no species beside itself
	Layouts       int     // how many
	Differ        int     // by how many strips at least, 1 or more
	Pinned        []Pin
	Unlike        [][]Placed // strips of layouts that every answer differs from likewise

	// Have names ready strips on the spot, long and thick enough. Without it those of
	// Rack serve, where they are.
	Have []ReadyStrips
	// Widths, where not empty, asks for strips of these widths only, ready or cut from
	// the pieces of Rack; every layout then has its plan.
	Widths []length.Length
	Rack   rack.Rack
	Join   Joining
}

// Milling is how the panel asked for is made.
type Milling struct {
	Make      pattern.Make    // how strips are cut from pieces
	Moisture  pattern.Reading // the panel's, for strips without a reading
	Flattened pattern.Reading // the panel's
}

// Wishes is what a maker may wish besides; the zero value wishes nothing.
type Wishes struct {
	Range [2]length.Length // where not 0: the least and the most width, and Width and Tolerance do not count

	Looks       []look.Look   // the best of each in this order, and then the next best; empty: none is asked for
	ApartPct    float64       // how different to the eye layouts are at least, where looks are asked for
	AccentWidth length.Length // the most an accent strip is wide; 0: DefaultAccent
	Vary        bool          // two timbers that make up most of a layout make up half of the next at most, where that can be and uses something up

	Timbers [2]int        // fewest and most different ones; 0: any number
	With    []string      // species that there must be
	Without []string      // species that there must not be
	AtMost  []Share       // of the width
	Longest length.Length // of rough pieces; longer ones are left alone; 0: none is
}

// A Share is how much of the width a species may have.
type Share struct {
	Species string
	Pct     float64
}

// New returns the ask for a panel that differs from the defaults in nothing else.
func New(width, thickness, long length.Length) Request {
	return Request{
		Width: width, Tolerance: DefaultTolerance, Thickness: thickness, Length: long,
		Strips: [2]int{DefaultFewest, DefaultMost}, Level: DefaultLevel, LeastContrast: DefaultLeastContrast,
		Layouts: DefaultLayouts, Differ: DefaultDiffer,
	}
}

// A Pin holds a strip at its place, counted from 1 from the left. A pinned strip of a
// kind that cannot be had is taken as given; otherwise it is one of those to be had.
type Pin struct {
	Place int
	Strip pattern.Strip // species, width, rings and moisture count
}

// ReadyStrips is some ready strips that are alike.
type ReadyStrips struct {
	Species  string
	Width    length.Length
	Rings    pattern.Rings
	Moisture pattern.Reading
	Count    int
	UseFirst bool
	Source   string // what the answer calls them
}

// Progress is how far an ask is.
type Progress struct {
	Layouts int // found for good
	Wanted  int
	Tried   int      // plans that failed
	Found   []Layout // those layouts so far; not to be written to
	None    bool     // proved: there is no layout; what to loosen is found out until the context ends
	Aim     Aim      // where None: Contrast or UseUp
}

// Status says how sure an answer is.
type Status int

// The statuses.
const (
	Open       Status = iota // no layout was found, nor ruled out, before the work ended
	Infeasible               // proved: there is none
	Feasible                 // layouts, not all of them proved
	Optimal                  // every layout is proved, and so is that there are no more where fewer came; of several looks, none of those left out
)

// String returns open, infeasible, feasible or optimal.
func (s Status) String() string {
	return word(s, "status", "open", "infeasible", "feasible", "optimal")
}

// A Result is the layouts, the best first.
type Result struct {
	Status  Status
	Aim     Aim    // Contrast or UseUp
	Bound   *Bound // where Feasible: what no layout exceeds, the first one set beside it
	Layouts []Layout
	// PlansProved says that no layout was passed over for a plan that fell short without
	// proof. Without it a layout that is proved is so among those not passed over.
	PlansProved bool
	// Stopped says that ctx, or its time but for the Reserve, ended the work before all was
	// proved, so that more time may bring more. Where something is open without it, that
	// is so for the work which is reasonable.
	Stopped bool
	// Loosen is there where Infeasible, and where Open before ctx ended, unless something
	// is asked to be unlike.
	Loosen *Relaxation
	// LeftOut are the looks that were asked for and that there is no layout of.
	LeftOut []LeftOut
	// Broken is a *Broken, or a *cutting.Broken of a plan, where a claim was found to be
	// wrong before it was handed out. Then nothing is claimed to be proved, there is no
	// bound, and layouts that are not what they say are left out. Nil where all claims
	// hold.
	Broken error
}

// A LeftOut look is one that was asked for in vain.
type LeftOut struct {
	Look   look.Look
	Why    string // a phrase without a full stop
	Proved bool   // there is no layout of it
}

// A Bound holds what no layout exceeds: none has more use-first width; none with as
// much of it as the answer's first layout has a greater smallest contrast; and none with
// as much of both as that has a greater sum.
type Bound struct {
	UseFirst         length.Length
	SmallestContrast float64
	TotalContrast    float64
}

// A Layout is strips in order, left to right.
type Layout struct {
	Width            length.Length
	SmallestContrast float64 // of neighbours
	TotalContrast    float64
	UseFirst         length.Length // width of its use-first strips together
	Level            pattern.Level // worst of its glue lines, computed in full
	Proved           bool          // the best of those that differ enough from the layouts before
	Strips           []Placed
	// Plan is where strips are cut from pieces. Its status and its bound hold among all
	// plans of the layout's pattern on the whole rack, with the strips named on the spot.
	Plan          *cutting.Plan
	LeastOfTimber bool // proved: no plan draws less that takes the timber the layout counts on

	Look     look.Look
	ApartPct float64 // how different it looks from the layouts before it at least; 100: there are none

	Sum  int64 // of its contrasts, in units
	Most Merit // where Proved: what its own search proved that none is worth more than
}

// Placed is one strip of a layout.
type Placed struct {
	Species  string
	Width    length.Length
	Rings    pattern.Rings
	Moisture pattern.Reading
	UseFirst bool   // a ready strip that is marked so
	Source   string // the ready strip's or the piece's id, of a strip in pieces the first one's; of a pinned strip that cannot be had, empty
	Pinned   bool
	Colour   colour.Own // that it has of its own: what its class of near colours has

	Start, Length length.Length  // as a pattern has them, where Joining lets it be laid otherwise than whole
	Joints        pattern.Joints // of its pieces
}

// A Relaxation says by which one condition alone a layout could be had. What is said would
// do; where Proved, nothing less would, and what is not said would not.
type Relaxation struct {
	Proved bool
	Brief  bool // the time for it ran out (Options.LoosenFor)
	Ways   []Loosening
}

// A Loosening is a request of which one condition is less strict, so that a layout can be
// had; where proved, no more so than it must be.
type Loosening struct {
	Condition Condition
	Request   Request
	Said      string // what it would work with, where looks or timbers are asked for; else empty
}

// A Condition is what may be loosened of a request.
type Condition int

// The conditions.
const (
	OfTolerance     Condition = iota // greater
	OfLevel                          // worse
	OfLeastContrast                  // less
	OfSymmetry                       // none
	OfNoTwins                        // a species may lie beside itself
	OfStrips                         // another number
	OfWish                           // one about timbers or pieces
)

// Pattern returns a layout as a pattern for the panel asked for.
func (a Request) Pattern(l Layout) pattern.Pattern {
	p := a.Join.onto(pattern.Pattern{Panel: a.Panel()})
	if a.Range != [2]length.Length{} {
		p.Panel.Width = l.Width // any width between was as good
	}
	for _, s := range l.Strips {
		p.Strips = append(p.Strips, pattern.Strip{
			Species: s.Species, Width: s.Width, Rings: s.Rings, Moisture: s.Moisture, Pinned: s.Pinned, Colour: s.Colour,
			Start: s.Start, Length: s.Length, Joints: s.Joints,
		})
	}
	return p
}

// Panel returns the panel asked for, without strips.
func (a Request) Panel() pattern.Panel {
	return pattern.Panel{Length: a.Length, Thickness: a.Thickness, Width: a.Width, Make: a.Make,
		Moisture: a.Moisture, Flattened: a.Flattened}
}

// A Kind is what makes strips one kind to the eye.
type Kind struct {
	Species string
	Width   length.Length
}

// A Variety is a kind with what glue lines depend on: rings, and moisture at glue-up.
type Variety struct {
	Kind
	Rings    pattern.Rings
	Moisture float64
}

// Kind returns the kind of a placed strip.
func (p Placed) Kind() Kind { return Kind{p.Species, p.Width} }

// VarietyOf returns the variety of strip s in the panel asked for.
func (a Request) VarietyOf(r movement.Physics, s pattern.Strip) Variety {
	return Variety{Kind{s.Species, s.Width}, s.Rings, r.Moisture(pattern.Pattern{Panel: a.Panel()}, s)}
}

// Limits returns the least and the most width that a layout may have.
func (a Request) Limits() (least, most length.Length) {
	if a.Range != [2]length.Length{} {
		return a.Range[0], a.Range[1]
	}
	return a.Width - a.Tolerance, a.Width + a.Tolerance
}

// Within sets the least and the most width, and aims at the middle between them.
func (a *Request) Within(least, most length.Length) {
	a.Range, a.Width = [2]length.Length{least, most}, (least+most)/2
	a.Tolerance = most - a.Width
}

// AimFor returns what Auto stands for, and else the aim itself.
func (a Request) AimFor(sh shop.Shop) Aim {
	if a.Aim != Auto {
		return a.Aim
	}
	marked := slices.ContainsFunc(a.Have, func(h ReadyStrips) bool { return h.UseFirst })
	if len(a.Have) == 0 {
		marked = slices.ContainsFunc(a.Serving(sh), func(s rack.Strip) bool { return s.UseFirst })
	}
	if len(a.Widths) > 0 {
		marked = marked || slices.ContainsFunc(a.Rack.Pieces, func(p rack.Piece) bool { return p.UseFirst })
	}
	if marked {
		return UseUp
	}
	return Contrast
}

// NamedStrips returns the ready strips named on the spot as a rack has them.
func (a Request) NamedStrips(sh shop.Shop) []rack.Strip {
	var out []rack.Strip
	for i, h := range a.Have {
		out = append(out, rack.Strip{ID: fmt.Sprintf("named %d", i+1), Species: h.Species, Width: h.Width, Rings: h.Rings,
			Moisture: h.Moisture, Thickness: sh.Glued(a.Thickness), Length: a.Length + sh.Allowance.Length,
			Quantity: h.Count, UseFirst: h.UseFirst})
	}
	return out
}

// Serving returns the rack's ready strips that are long and thick enough, for a piece of a
// strip where strips may be in pieces.
func (a Request) Serving(sh shop.Shop) []rack.Strip {
	long := a.Length + sh.Allowance.Length
	if a.Join.On() {
		long = min(long, sh.Cut.Shortest)
	}
	var out []rack.Strip
	for _, r := range a.Rack.Strips {
		if r.Thickness >= sh.Glued(a.Thickness) && r.Length >= long && r.Quantity > 0 {
			out = append(out, r)
		}
	}
	return out
}

// Stem is what a layout is called in its plan.
const Stem = "layout"

// Job returns the job that a layout's plan is of. Ready strips named on the spot lie on
// its rack under their Source, as long and thick as they must be. The plan takes each
// strip from timber with the marks and the moisture that the layout counts on, so that
// another plan of the job may draw less.
func (a Request) Job(r movement.Physics, l Layout) cutting.Job {
	job := cutting.Job{Rack: a.Rack, Shop: r.Shop(),
		Patterns: []cutting.Demand{{Stem: Stem, Pattern: a.Pattern(l), Copies: 1}}}
	if len(a.Have) > 0 {
		job.Rack.Strips = a.NamedStrips(r.Shop())
		for i, h := range a.Have {
			job.Rack.Strips[i].ID = h.Source
		}
	}
	return job
}

// Found returns the job of all layouts that an ask has found, each a pattern, from all that
// there is: what a report of a mistake has of it.
func (a Request) Found(r movement.Physics, layouts []Layout) cutting.Job {
	job := cutting.Job{Rack: a.Rack, Shop: r.Shop()}
	for i, l := range layouts {
		job.Patterns = append(job.Patterns, cutting.Demand{Stem: fmt.Sprintf("%s-%d", Stem, i+1), Pattern: a.Pattern(l), Copies: 1})
	}
	return job
}

// Strip returns a placed strip as a pattern has it, but for its pin.
func (p Placed) Strip() pattern.Strip {
	return pattern.Strip{Species: p.Species, Width: p.Width, Rings: p.Rings, Moisture: p.Moisture, Colour: p.Colour}
}

// Given reports whether a layout has a pinned strip that its plan does not cut.
func (l Layout) Given() bool {
	return slices.ContainsFunc(l.Strips, func(p Placed) bool { return p.Source == "" })
}

// PerContrast is how many units a colour difference of 1 is.
const PerContrast = 1_000_000

// Apart returns by how many strips two layouts differ: half the sum of the differences
// of their counts of kinds, rounded up.
func Apart(x, y Layout) int { return apartBy(x.Strips, y.Strips, Placed.Kind) }

// apartBy is apart where strips count as of one kind for which of gives the same.
func apartBy[K comparable](x, y []Placed, of func(Placed) K) int {
	counts := map[K]int{}
	for _, p := range x {
		counts[of(p)]++
	}
	for _, p := range y {
		counts[of(p)]--
	}
	sum := 0
	for _, n := range counts {
		sum += max(n, -n)
	}
	return (sum + 1) / 2
}

// Options are how an ask is worked on; the zero value works hard and quietly.
type Options struct {
	// Progress is told now and then how far the work is. It must not wait.
	Progress func(Progress)
	// Reserve is kept of the time before the context's deadline for the plan of the
	// layout at work. Without it that layout may be lost when the time runs out.
	Reserve time.Duration
	// LoosenFor is how long it is looked for what to loosen, once it is proved that there is
	// no layout; 0: as long as the context lasts.
	LoosenFor time.Duration
}

// LoosenFor is how long who asks may well wait for what to loosen.
const LoosenFor = 2 * time.Second

// LevelOf returns the worst level of a pattern's glue lines as they will be: strips that are
// alike joined, and the edges free.
func LevelOf(r movement.Physics, p pattern.Pattern) pattern.Level {
	level := pattern.Fine
	for _, line := range r.Panel(p).Lines() {
		level = max(level, line.Level)
	}
	return level
}
