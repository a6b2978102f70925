package store

import (
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/store/tomlread"
)

// The newest versions of the formats, which are the ones that are written.
const (
	patternVersion = 1
	rackVersion    = 1
	shopVersion    = 1
	speciesVersion = 1
)

// ReadPattern reads a pattern. The name is the file's; errors carry it, and without
// its folder and .toml it is the name of a pattern that has none. A species that
// known does not know is refused; a nil known lets all pass.
func ReadPattern(r io.Reader, name string, known func(string) bool) (pattern.Pattern, error) {
	d, err := tomlread.Parse(name, r)
	if err != nil {
		return pattern.Pattern{}, err
	}
	t := d.Root()
	t.Format("pattern", patternVersion)
	p := pattern.Pattern{}
	t.May("name").Text(&p.Name)
	if p.Name == "" {
		p.Name = strings.TrimSuffix(filepath.Base(name), tomlEnding)
	}
	t.May("notes").Text(&p.Notes)
	readPanel(t.NeedTable("panel", "length and thickness"), &p.Panel)
	p.Strips = readStrips(t.May("strip").Tables(), known)
	p.Products = readProducts(t.May("product").Tables())
	p.Avoids = readAvoids(t.May("avoid").Tables())
	for _, m := range t.May("made").Tables() {
		p.Made = append(p.Made, readMade(m))
	}
	if err := d.Finish(); err != nil {
		return pattern.Pattern{}, err
	}
	return p, nil
}

func readPanel(t *tomlread.Table, p *pattern.Panel) {
	t.Need("length", `"450 mm"`).Size(&p.Length, pattern.MaxLength)
	t.Need("thickness", `"22 mm"`).Size(&p.Thickness, pattern.MaxAcross)
	t.May("width").Size(&p.Width, pattern.MaxAcross)
	t.May("strips").Parse(func(s string) (err error) {
		p.Make, err = pattern.ParseMake(s)
		return err
	})
	readMoisture(t.May("moisture"), &p.Moisture)
	readMoisture(t.May("flattened"), &p.Flattened)
}

// readStrips spreads the entries out. The first entry too many is reported, and all
// of them are still read.
func readStrips(entries []*tomlread.Table, known func(string) bool) []pattern.Strip {
	var strips []pattern.Strip
	total := 0
	for _, t := range entries {
		strip, count := readStrip(t, known)
		before := total
		total += count
		switch {
		case total <= pattern.MaxStrips:
			strips = append(strips, slices.Repeat([]pattern.Strip{strip}, count)...)
		case before <= pattern.MaxStrips:
			t.Failf("", "strip %d and on: a pattern holds at most %d strips", pattern.MaxStrips+1, pattern.MaxStrips)
		}
	}
	return strips
}

func readStrip(t *tomlread.Table, known func(string) bool) (strip pattern.Strip, count int) {
	count = 1
	readSpecies(t.Need("species", `"hornbeam"`), &strip.Species, known)
	t.Need("width", `"25 mm"`).Size(&strip.Width, pattern.MaxAcross)
	readRings(t.May("rings"), &strip.Rings)
	readMoisture(t.May("moisture"), &strip.Moisture)
	t.May("length").Size(&strip.Length, pattern.MaxLength)
	t.May("start").Length(&strip.Start, pattern.MaxStart)
	t.May("turned").Bool(&strip.Turned)
	t.May("over").Bool(&strip.Over)
	t.May("pinned").Bool(&strip.Pinned)
	t.May("count").Count(&count, 1, pattern.MaxStrips)
	return strip, count
}

func readMade(t *tomlread.Table) pattern.Made {
	var m pattern.Made
	t.Need("date", "2026-11-02").Date(&m.Date)
	t.Need("copies", "4").Count(&m.Copies, 1, pattern.MaxBatch)
	t.May("width").Size(&m.Width, pattern.MaxAcross)
	t.May("thickness").Size(&m.Thickness, pattern.MaxAcross)
	t.May("minutes").Count(&m.Minutes, 0, pattern.MaxMinutes)
	t.May("note").Text(&m.Note)
	return m
}

// readSpecies reads the key of a timber, and refuses one that is not known.
func readSpecies(f tomlread.Field, into *string, known func(string) bool) {
	if f.Text(into) && known != nil && !known(*into) {
		f.Failf("oddments species lists the known ones; species.toml takes your own",
			"unknown species %s: must be the key of a timber", tomlread.Quote(*into))
	}
}

func readMoisture(f tomlread.Field, into *pattern.Reading) {
	var percent float64
	if f.Number(&percent, 0, pattern.MaxMoisture) {
		*into = pattern.Read(percent)
	}
}

// readRings takes a word of the trade as text, or an angle as a number.
func readRings(f tomlread.Field, into *pattern.Rings) {
	if !f.IsText() {
		var degrees float64
		if f.Number(&degrees, 0, 90) {
			*into, _ = pattern.RingsAt(degrees) // in range
		}
		return
	}
	f.Parse(func(s string) error {
		switch s {
		case "flat", "rift", "quarter", "unknown":
			var err error
			*into, err = pattern.ParseRings(s)
			return err
		default:
			return fmt.Errorf("rings %s: must be flat, rift, quarter or unknown, or an angle of 0 to 90 without quotes", tomlread.Quote(s))
		}
	})
}

// WritePattern writes p. Equal strips in a row become one entry with a count.
func WritePattern(out io.Writer, p pattern.Pattern) error {
	w := newWriter("pattern", patternVersion)
	w.textIfAny("name", p.Name)
	w.textIfAny("notes", p.Notes)
	w.heading("[panel]")
	w.length("length", p.Panel.Length)
	w.length("thickness", p.Panel.Thickness)
	w.lengthIfAny("width", p.Panel.Width)
	if p.Panel.Make != pattern.MakeFlat {
		w.text("strips", p.Panel.Make.String())
	}
	w.reading("moisture", p.Panel.Moisture)
	w.reading("flattened", p.Panel.Flattened)
	for i := 0; i < len(p.Strips); {
		count := 1
		for i+count < len(p.Strips) && p.Strips[i+count] == p.Strips[i] {
			count++
		}
		w.strip(p.Strips[i], count)
		i += count
	}
	for _, one := range p.Products {
		w.product(one)
	}
	for _, a := range p.Avoids {
		w.avoid(a)
	}
	for _, m := range p.Made {
		w.made(m)
	}
	return w.to(out)
}

func (w *writer) strip(s pattern.Strip, count int) {
	w.heading("[[strip]]")
	w.text("species", s.Species)
	w.length("width", s.Width)
	w.rings(s.Rings)
	w.reading("moisture", s.Moisture)
	w.lengthIfAny("length", s.Length)
	w.lengthIfAny("start", s.Start)
	w.flagIfSet("turned", s.Turned)
	w.flagIfSet("over", s.Over)
	w.flagIfSet("pinned", s.Pinned)
	w.countUnless("count", count, 1)
}

func (w *writer) made(m pattern.Made) {
	w.heading("[[made]]")
	w.line("date = %s", m.Date)
	w.line("copies = %d", m.Copies)
	w.lengthIfAny("width", m.Width)
	w.lengthIfAny("thickness", m.Thickness)
	w.countUnless("minutes", m.Minutes, 0)
	w.textIfAny("note", m.Note)
}
