package reading

import (
	"fmt"
	"math"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/species"
)

// A Piece is what was read of one piece of timber.
type Piece struct {
	Name        string
	Box         Box
	Pixels      int // looked at
	Used        int // of these, not out
	Lab         colour.Lab
	Colour      species.RGB
	About       float64 // how far it may be off: two of three lie within
	Spread      float64 // along the grain: mean difference of its parts to the whole
	Range       float64 // the greatest difference of two parts
	Light, Dark species.RGB
	Findings    []Finding
}

// Piece reads the colour of a box of timber, whose grain runs along its longer side.
func (r *Reader) Piece(name string, b Box) (Piece, error) {
	const most, care, remedy = 0.20, 0.02, "turn the piece or the light so that nothing shines or is black"
	s, err := r.pixels(b, name)
	if err != nil {
		return Piece{}, err
	}
	out := s.out()
	if out > most {
		return Piece{}, refuse(name, remedy, "%.0f %% of its pixels shine, are black or transparent", 100*out)
	}
	p := Piece{Name: name, Box: b, Pixels: s.all, Used: len(s.list), About: r.About()}
	for i, at := range s.list {
		xyz := r.correct(at.value, at.x, at.y)
		s.list[i].value, s.list[i].key = xyz, xyz[1]
	}
	p.alongGrain(s.list)
	kept := trimmed(s.list)
	fifth := max(1, len(kept)/5)
	p.Dark, p.Light = colour.LabOfXYZ(mean(kept[:fifth])).RGB(), colour.LabOfXYZ(mean(kept[len(kept)-fifth:])).RGB()
	if out > care {
		p.find("shine", pattern.TakeCare, fmt.Sprintf("%.0f %% of its pixels shine or are black, and are left out", 100*out), remedy)
	}
	if r.outside(b) {
		p.find("outside", pattern.TakeCare, "it lies far outside the papers, where the light is guessed", "lay paper on both sides of it")
	}
	return p, nil
}

func (p *Piece) find(rule string, level pattern.Level, message, remedy string) {
	p.Findings = append(p.Findings, Finding{Rule: rule, Level: level, Where: p.Name, Message: message, Remedy: remedy})
}

// alongGrain sets the colour, and how far it changes over eight parts along the grain.
func (p *Piece) alongGrain(list []sample) {
	const parts, least = 8, 20
	var split [parts][]sample
	for _, s := range list {
		along := (s.x - float64(p.Box.X)) / float64(p.Box.W)
		if p.Box.H > p.Box.W {
			along = (s.y - float64(p.Box.Y)) / float64(p.Box.H)
		}
		i := int(parts * along)
		split[i] = append(split[i], s)
	}
	p.Lab = colour.LabOfXYZ(mean(trimmed(list)))
	p.Colour = p.Lab.RGB()
	var labs []colour.Lab
	for _, part := range split {
		if len(part) < least {
			continue
		}
		lab := colour.LabOfXYZ(mean(trimmed(part)))
		p.Spread += lab.Difference(p.Lab)
		for _, other := range labs {
			p.Range = max(p.Range, lab.Difference(other))
		}
		labs = append(labs, lab)
	}
	p.Spread /= float64(max(1, len(labs)))
}

// outside reports whether a box lies further outside the rectangle of the papers' middles
// than a quarter of the photo's longer side.
func (r *Reader) outside(b Box) bool {
	if len(r.setup.White) < 2 {
		return false
	}
	left, right, top, bottom := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, w := range r.setup.White {
		x, y := w.middle()
		left, right, top, bottom = min(left, x), max(right, x), min(top, y), max(bottom, y)
	}
	x, y := b.middle()
	off := math.Hypot(max(left-x, 0, x-right), max(top-y, 0, y-bottom))
	return off > float64(max(r.photo.Width, r.photo.Height))/4
}

// Compare adds how far the piece lies from the colour that its timber has.
func (p *Piece) Compare(read colour.Lab, timber string, usual species.RGB) float64 {
	const most = 15
	d := read.Difference(usual.Lab())
	if d > most {
		p.find("far from its timber", pattern.TakeCare, fmt.Sprintf("its colour lies %.0f from that of %s", d, timber), "check that it is this timber, and that the box lies on it alone")
	}
	return d
}
