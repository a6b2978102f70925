// Package reading reads the colours of timber out of a photo in which pieces lie beside white
// paper, a grey card or the target of 24 patches.
//
// What is read is the colour under daylight (CIE D65, 2 degrees). Everything is computed in
// linear light, pixel by pixel, and nothing is rounded before the end. Boxes are whole pixels
// of the upright photo. A box that cannot be read is a Refusal that names it; what the maker
// should look at is a Finding and never keeps a colour back. The figures of accuracy come from
// simulated cameras: say "about" of them.
package reading

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/photo"
	"example.com/oddments/pattern/tell"
)

// A Box is a rectangle of whole pixels of the upright photo, from its top left.
type Box struct{ X, Y, W, H int }

// String returns the box as it is typed: 10,20,300,200.
func (b Box) String() string { return fmt.Sprintf("%d,%d,%d,%d", b.X, b.Y, b.W, b.H) }

// middle returns the middle of the box; the middle of the first pixel lies at 0.5.
func (b Box) middle() (x, y float64) {
	return float64(b.X) + float64(b.W)/2, float64(b.Y) + float64(b.H)/2
}

// cell returns one of the cells that the box is evenly parted into.
func (b Box) cell(column, columns, row, rows int) Box {
	x, y := b.W*column/columns, b.H*row/rows
	return Box{b.X + x, b.Y + y, b.W*(column+1)/columns - x, b.H*(row+1)/rows - y}
}

// A Refusal says which box cannot be read, why, and what helps.
type Refusal struct {
	Box          string // "white 2", "W3"
	What, Remedy string
}

// Error returns all of it in one line.
func (r *Refusal) Error() string { return r.Box + ": " + r.What + ": " + r.Remedy }

func refuse(box, remedy, what string, args ...any) error {
	return &Refusal{Box: box, What: fmt.Sprintf(what, args...), Remedy: remedy}
}

// A Finding is what the maker should know of a reading. Findings keep nothing back.
type Finding struct {
	Rule    string
	Level   pattern.Level
	Where   string // a box, or "light"
	Message string
	Remedy  string
}

// A Method says what the colours were set against.
type Method int

// The methods.
const (
	ByPaper Method = iota
	ByGrey
	ByTarget
)

// String returns paper, grey or target.
func (m Method) String() string { return tell.Word(m, "method", "paper", "grey", "target") }

// A Light is what the photo was taken by.
type Light int

// The lights.
const (
	Daylight Light = iota
	Lamp
)

// String returns daylight or lamp.
func (l Light) String() string { return tell.Word(l, "light", "daylight", "lamp") }

// A GreyCard is a card that reflects so many percent.
type GreyCard struct {
	Box     Box
	Percent float64
}

// UsualGrey is what a grey card reflects, in percent, where nothing is said.
const UsualGrey = 18

// A Setup is what lies in the photo beside the timber.
type Setup struct {
	White   []Box
	Grey    *GreyCard
	Target  *Box
	Edition Edition // of the target
	Light   Light
	Paper   *colour.Lab // nil: office paper by that light
}

// paper returns the colour of the paper. Office paper glows under ultraviolet, which lamps
// have little of.
func (s Setup) paper() colour.Lab {
	switch {
	case s.Paper != nil:
		return *s.Paper
	case s.Light == Lamp:
		return colour.Lab{L: 94.5, A: -0.3, B: 1.5}
	default:
		return colour.Lab{L: 94.5, A: 2.5, B: -9.0}
	}
}

// A Reader reads pieces of one photo whose light is known.
type Reader struct {
	Method   Method
	Light    Light
	Known    bool    // paper was read, so the next two hold
	Ratio    float64 // of the lightest to the darkest place of paper
	Residual float64 // rms of what the light's form leaves, in ln
	Gamma    float64 // with a grey card
	Target   float64 // with the target: mean colour difference of its patches
	Findings []Finding

	photo   *photo.Photo
	setup   Setup
	correct func(pixel photo.Triple, x, y float64) photo.Triple
}

// NewReader reads the light of a photo from what lies beside the timber.
func NewReader(p *photo.Photo, s Setup) (*Reader, error) {
	r := &Reader{photo: p, setup: s, Light: s.Light}
	var err error
	switch {
	case s.Target != nil:
		r.Method = ByTarget
		err = r.byTarget()
	case len(s.White) == 0:
		err = refuse("white 1", "lay white paper beside the timber and set its box", "no paper and no target")
	default:
		err = r.byPaper()
	}
	if err != nil {
		return nil, err
	}
	return r, nil
}

// byPaper reads the light from paper, and with a grey card the camera's curve too.
func (r *Reader) byPaper() error {
	light, err := r.readLight(cones)
	if err != nil {
		return err
	}
	paper := cones(r.setup.paper().XYZ())
	back := photo.Cones().Inverse()
	r.correct = func(pixel photo.Triple, x, y float64) photo.Triple {
		return back.Times(times(over(cones(pixel), light.at(x, y)), paper))
	}
	if r.setup.Grey == nil {
		r.Findings = append(r.Findings, Finding{Rule: "paper only", Where: "light",
			Message: fmt.Sprintf("set against paper alone: about %.1f off", r.About()), Remedy: "lay a grey card beside the paper for half of that"})
		return nil
	}
	r.Method = ByGrey
	return r.byGrey(light, paper)
}

// byGrey takes the camera's curve from the card, of which the reflectance is known.
func (r *Reader) byGrey(light light, paper photo.Triple) error {
	const least, most, floor, remedy = 0.6, 1.6, 1e-6, "check the card's percentage and lay it flat beside the paper"
	card := r.setup.Grey
	all, err := r.pixels(card.Box, "grey")
	if err != nil {
		return err
	}
	if len(all.list) < leastLeft {
		return refuse("grey", remedy, "only %d pixels of the grey card can be read", len(all.list))
	}
	back := photo.Cones().Inverse()
	for i, p := range all.list {
		q := over(cones(p.value), light.at(p.x, p.y))
		all.list[i].value, all.list[i].key = q, back.Times(times(q, paper))[1]
	}
	grey := mean(trimmed(all.list))
	share := card.Percent / 100
	y, white := back.Times(times(grey, paper))[1], back.Times(paper)[1]
	gamma := math.Log(share/white) / math.Log(y/white)
	if !(gamma >= least && gamma <= most) {
		return refuse("grey", remedy, "the grey card reads %.0f %%, not %g %%", 100*y, card.Percent)
	}
	r.Gamma = gamma
	full := cones(photo.D65())
	r.correct = func(pixel photo.Triple, x, y float64) photo.Triple {
		q := over(cones(pixel), light.at(x, y))
		for i := range q {
			q[i] = share * full[i] * math.Pow(max(q[i], floor)/grey[i], gamma)
		}
		return back.Times(q)
	}
	return nil
}

// About returns how far a colour that was read so may be off, in CIEDE2000: two of three lie
// within.
func (r *Reader) About() float64 {
	const byPaper, byGrey, perGamma, lamp, byTarget, perResidual, onePaper = 4.5, 2.5, 20, 1, 2, 30, 1
	var base float64
	switch r.Method {
	case ByPaper:
		base = byPaper
	case ByGrey:
		base = byGrey + perGamma*math.Abs(math.Log(r.Gamma))
	case ByTarget:
		base = max(byTarget, r.Target)
	}
	if r.Light == Lamp && r.Method != ByTarget {
		base += lamp
	}
	sum := base*base + perResidual*perResidual*r.Residual*r.Residual
	if len(r.setup.White) == 1 {
		sum += onePaper * onePaper
	}
	return math.Sqrt(sum)
}

// cones is what the eye adapts by.
func cones(xyz photo.Triple) photo.Triple { return photo.Cones().Times(xyz) }

func times(a, b photo.Triple) photo.Triple {
	return photo.Triple{a[0] * b[0], a[1] * b[1], a[2] * b[2]}
}

func over(a, b photo.Triple) photo.Triple {
	return photo.Triple{a[0] / b[0], a[1] / b[1], a[2] / b[2]}
}
