package reading

import (
	"fmt"
	"strconv"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/tell"
	"example.com/oddments/species"
)

// A Surface is how the timber in a photo is finished.
type Surface int

// The surfaces. Wetted counts as oiled.
const (
	Oiled Surface = iota
	Wetted
	Raw
)

// String returns oiled, wetted or raw.
func (s Surface) String() string { return tell.Word(s, "surface", "oiled", "wetted", "raw") }

// ParseSurface reads oiled, wetted or raw.
func ParseSurface(text string) (Surface, error) {
	if s, ok := tell.Named(text, []Surface{Oiled, Wetted, Raw}); ok {
		return s, nil
	}
	return Oiled, fmt.Errorf("%q: must be oiled, wetted or raw", text)
}

// ParseLight reads daylight or lamp.
func ParseLight(text string) (Light, error) {
	if l, ok := tell.Named(text, []Light{Daylight, Lamp}); ok {
		return l, nil
	}
	return Daylight, fmt.Errorf("%q: must be daylight or lamp", text)
}

// ParseEdition reads the year of the target's values: 2014 or 2005.
func ParseEdition(text string) (Edition, error) {
	if e, ok := tell.Named(text, []Edition{Edition2005, Edition2014}); ok {
		return e, nil
	}
	return Edition2005, fmt.Errorf("%q: must be 2014 or 2005", text)
}

// ParseBox reads a box as X,Y,W,H.
func ParseBox(text string) (Box, error) {
	const most = 1_000_000
	parts := strings.Split(text, ",")
	var n [4]int
	for i := range n {
		if len(parts) != len(n) {
			break
		}
		v, err := strconv.Atoi(strings.TrimSpace(parts[i]))
		if err != nil || v < 0 || v > most {
			parts = nil
			break
		}
		n[i] = v
	}
	if len(parts) != len(n) {
		return Box{}, fmt.Errorf("box %q: must be X,Y,W,H in whole pixels from the top left, like 120,80,400,90", text)
	}
	return Box{n[0], n[1], n[2], n[3]}, nil
}

// ParseGrey reads the box of a grey card, behind @ the percent that it reflects.
func ParseGrey(text string) (*GreyCard, error) {
	const least, most = 1, 95
	box, share, said := strings.Cut(text, "@")
	card := GreyCard{Percent: UsualGrey}
	if said {
		percent, err := strconv.ParseFloat(strings.TrimSpace(share), 64)
		if err != nil || !(percent >= least && percent <= most) {
			return nil, fmt.Errorf("grey card %q: the percent behind @ must be %d to %d", text, least, most)
		}
		card.Percent = percent
	}
	var err error
	card.Box, err = ParseBox(box)
	return &card, err
}

// A Record says of colours that are kept where they come from.
type Record struct {
	Date    pattern.Date
	Method  Method
	Light   Light
	Surface Surface
	About   float64
}

// Record returns that of the colours that r reads, of a photo of a day.
func (r *Reader) Record(day pattern.Date, s Surface) Record {
	return Record{Date: day, Method: r.Method, Light: r.Light, Surface: s, About: r.About()}
}

// Piece says it of one piece: photo 2026-11-14, paper, daylight, about 4.6.
func (r Record) Piece() string {
	text := fmt.Sprintf("photo %v, %v, %v, about %.1f", r.Date, r.Method, r.Light, r.About)
	switch r.Surface {
	case Raw:
		text += ", raw, shifted to oiled by its timber"
	case Wetted:
		text += ", wetted"
	}
	return text
}

// Timber says it of a timber that was read from so many pieces.
func (r Record) Timber(pieces int) string {
	text := fmt.Sprintf("photo %v, %s, %v, %v, about %.1f", r.Date, tell.Count(pieces, "piece"), r.Method, r.Light, r.About)
	if r.Surface == Wetted {
		text += ", wetted"
	}
	return text
}

// Kept returns what is kept of a piece that was read: the colour under oil. A raw one is
// shifted by what oil does to its timber.
func (r Record) Kept(read colour.Lab, timber species.Species) colour.Lab {
	if r.Surface == Raw {
		return read.Plus(timber.Colour.Lab(), timber.ColourOiled.Lab())
	}
	return read
}

// Usual returns the colour of a timber that one with such a surface is compared with.
func (r Record) Usual(timber species.Species) colour.RGB {
	if r.Surface == Raw {
		return timber.Colour
	}
	return timber.ColourOiled
}

// Correct returns the maker's own timbers with the colour of one corrected, of which so many
// pieces were read: the raw colour, or else that under oil.
func (r Record) Correct(own []species.Species, key string, pieces []colour.Lab) []species.Species {
	even := make([]float64, len(pieces))
	for i := range even {
		even[i] = 1
	}
	mean := colour.MeanLab(pieces, even).RGB()
	out := append([]species.Species(nil), own...)
	at := -1
	for i, s := range out {
		if s.Key == key {
			at = i
		}
	}
	if at < 0 {
		at = len(out)
		out = append(out, species.Species{Key: key})
	}
	sources := map[string]species.Source{}
	for name, source := range out[at].Sources {
		sources[name] = source
	}
	name := "colour_oiled"
	if r.Surface == Raw {
		name, out[at].Colour = "colour", mean
	} else {
		out[at].ColourOiled = mean
	}
	sources[name] = species.ParseSource(r.Timber(len(pieces)))
	out[at].Sources = sources
	return out
}
