package store

import (
	"io"
	"path/filepath"
	"slices"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/species"
)

// The newest versions of the formats, which are the ones that are written.
const (
	patternVersion = 1
	rackVersion    = 1
	shopVersion    = 1
	speciesVersion = 1
	ordersVersion  = 1
)

// readFile reads a file of a kind by take, which goes through its tables. The name is
// the file's.
func readFile[T any](r io.Reader, name, kind string, newest int, take func(*tomlread.Table) T) (T, error) {
	var none T
	d, err := tomlread.Parse(name, r)
	if err != nil {
		return none, err
	}
	d.Root().Format(kind, newest)
	v := take(d.Root())
	if err := d.Finish(); err != nil {
		return none, err
	}
	return v, nil
}

// ReadPattern reads a pattern. The name is the file's; errors carry it, and without
// its folder and .toml it is the name of a pattern that has none. A species that
// known does not know is refused; a nil known lets all pass.
func ReadPattern(r io.Reader, name string, known *species.Table) (pattern.Pattern, error) {
	return readFile(r, name, "pattern", patternVersion, func(t *tomlread.Table) (p pattern.Pattern) {
		readKeys(t, patternKeys(&p))
		if p.Name == "" {
			p.Name = strings.TrimSuffix(filepath.Base(name), tomlEnding)
		}
		readKeys(t.NeedTable("panel", "length and thickness"), panelKeys(&p.Panel))
		p.Strips = readStrips(t.May("strip").Tables(), known, p)
		p.Seconds = readSeconds(t.May("second").Tables())
		p.Products = readProducts(t.May("product").Tables())
		p.Avoids = readAvoids(t.May("avoid").Tables())
		p.Made = readEntries(t.May("made").Tables(), pattern.Made{}, madeKeys)
		return p
	})
}

func patternKeys(p *pattern.Pattern) []key {
	return []key{textKey("name", &p.Name), textKey("notes", &p.Notes)}
}

func panelKeys(p *pattern.Panel) []key {
	return []key{
		sizeKey("length", &p.Length, pattern.MaxLength).needed(`"450 mm"`),
		sizeKey("thickness", &p.Thickness, pattern.MaxAcross).needed(`"22 mm"`),
		sizeKey("width", &p.Width, pattern.MaxAcross),
		wordKey("strips", &p.Make, pattern.ParseMake),
		readingKey("moisture", &p.Moisture),
		readingKey("flattened", &p.Flattened),
	}
}

// A stripEntry is one or several strips alike, as one entry of a file.
type stripEntry struct {
	pattern.Strip
	count int
}

func (e *stripEntry) keys(known *species.Table) []key {
	rings, bark, heart := grainKeys(&e.Rings, &e.Bark, &e.Heart)
	return []key{
		timberKey(&e.Species, known),
		sizeKey("width", &e.Width, pattern.MaxAcross).needed(`"25 mm"`),
		rings, bark, heart,
		readingKey("moisture", &e.Moisture),
		sizeKey("length", &e.Length, pattern.MaxLength),
		lengthKey("start", &e.Start, pattern.MaxStart),
		jointsKey(&e.Joints),
		flagKey("turned", &e.Turned),
		flagKey("over", &e.Over),
		flagKey("pinned", &e.Pinned),
		colourKey(&e.Colour),
		countKey("count", &e.count, 1, pattern.MaxStrips, 1),
	}
}

func madeKeys(m *pattern.Made) []key {
	return []key{
		dateKey("date", &m.Date).needed("2026-11-02"),
		countKey("copies", &m.Copies, 1, pattern.MaxBatch, 0).needed("4"),
		sizeKey("width", &m.Width, pattern.MaxAcross),
		sizeKey("thickness", &m.Thickness, pattern.MaxAcross),
		countKey("minutes", &m.Minutes, 0, pattern.MaxMinutes, 0),
		textKey("note", &m.Note),
	}
}

// jointsKey is the joints of a strip, each by itself; that they lie inside it is asked once
// all of the strip has been read.
func jointsKey(at *pattern.Joints) key {
	return key{name: "joints", usual: "[]",
		text: func() string { return listed(at.All(), func(j pattern.Joint) string { return quoted(j.String()) }) },
		read: func(f tomlread.Field) {
			var list []pattern.Joint
			for _, item := range f.Items() {
				item.Parse(func(s string) error {
					j, err := pattern.ParseJointIn(s, length.InMM)
					if err == nil {
						list = append(list, j)
					}
					return err
				})
			}
			*at = pattern.JointsOf(list...)
		}}
}

// readStrips spreads the entries out. The first entry too many is reported, and all
// of them are still read. The panel is that of p.
func readStrips(tables []*tomlread.Table, known *species.Table, p pattern.Pattern) []pattern.Strip {
	var strips []pattern.Strip
	total := 0
	var e stripEntry
	keys := e.keys(known)
	for _, t := range tables {
		e = stripEntry{count: 1}
		wrongs := t.Wrongs()
		readKeys(t, keys)
		if wrongs == t.Wrongs() {
			if err := p.CheckJoints(e.Strip); err != nil {
				t.May("joints").Failf("", "%v", err)
			}
		}
		before := total
		total += e.count
		switch {
		case total <= pattern.MaxStrips:
			strips = append(strips, slices.Repeat([]pattern.Strip{e.Strip}, e.count)...)
		case before <= pattern.MaxStrips:
			t.Failf("", "strip %d and on: a pattern holds at most %d strips", pattern.MaxStrips+1, pattern.MaxStrips)
		}
	}
	return strips
}

// WritePattern writes p. Equal strips in a row become one entry with a count.
func WritePattern(out io.Writer, p pattern.Pattern) error {
	w := newWriter("pattern", patternVersion)
	w.keys(patternKeys(&p))
	w.heading("[panel]")
	w.keys(panelKeys(&p.Panel))
	var strips []stripEntry
	for i, s := range p.Strips {
		if i > 0 && s == p.Strips[i-1] {
			strips[len(strips)-1].count++
		} else {
			strips = append(strips, stripEntry{s, 1})
		}
	}
	writeEntries(w, "[[strip]]", strips, func(e *stripEntry) []key { return e.keys(nil) })
	writeEntries(w, "[[second]]", p.Seconds, secondKeys)
	writeEntries(w, "[[product]]", p.Products, productKeys)
	writeEntries(w, "[[avoid]]", p.Avoids, avoidKeys)
	writeEntries(w, "[[made]]", p.Made, madeKeys)
	return w.to(out)
}

func productKeys(p *pattern.Product) []key {
	return []key{
		shapeKey(&p.Shape),
		lengthKey("diameter", &p.Diameter, pattern.MaxAcross),
		lengthKey("length", &p.Length, pattern.MaxLength),
		lengthKey("width", &p.Width, pattern.MaxAcross),
		countKey("count", &p.Count, 0, pattern.MaxCopies, 1),
		wordKey("centre", &p.Centre, pattern.ParseCentre),
		lengthKey("bevel", &p.Bevel, pattern.MaxAcross),
		wordKey("bevel_side", &p.BevelSide, pattern.ParseBevelSide),
		lengthKey("hole", &p.Hole, pattern.MaxAcross),
		countKey("holes", &p.Holes, 0, pattern.MaxCopies, 0),
		lengthKey("hole_depth", &p.HoleDepth, pattern.MaxAcross),
		wordKey("for", &p.For, pattern.ParsePurpose),
	}
}

func shapeKey(at *pattern.ShapeName) key {
	return key{name: "shape", need: `"round"`, text: func() string { return quoted(string(*at)) },
		read: func(f tomlread.Field) {
			f.Parse(func(s string) error {
				shape, err := outline.ShapeNamed(s)
				if err == nil {
					*at = shape.Name()
				}
				return err
			})
		}}
}

func avoidKeys(a *pattern.Avoid) []key {
	return []key{
		lengthKey("along", &a.Along, pattern.MaxLength+pattern.MaxStart).needed(`"210 mm"`),
		lengthKey("across", &a.Across, pattern.MaxLength).needed(`"96 mm"`),
		lengthKey("radius", &a.Radius, pattern.MaxRadius).needed(`"8 mm"`),
	}
}

// readProducts reads the products. That a centre's strip is there is not asked: strips
// come and go, and the pattern must load all the same.
func readProducts(tables []*tomlread.Table) []pattern.Product {
	if len(tables) > pattern.MaxProducts {
		tables[pattern.MaxProducts].Failf("", "product %d and on: a pattern lists at most %d products", pattern.MaxProducts+1, pattern.MaxProducts)
	}
	var out []pattern.Product
	for i, t := range tables {
		out = append(out, readProduct(t, i == len(tables)-1))
	}
	return out
}

// needSizes reports the sizes of a shape that are missing.
func needSizes(shape outline.Shape, fields map[string]tomlread.Field) {
	for _, size := range shape.Takes() {
		if f := fields[size.Key]; !f.Given() {
			f.Failf("add "+size.Key+" = "+size.Example, "missing")
		}
	}
}

// readProduct reads one and keeps its fields, so that what does not go together is told
// of where it stands.
func readProduct(t *tomlread.Table, last bool) pattern.Product {
	p := pattern.Product{Count: 1}
	fields := map[string]tomlread.Field{}
	before := t.Wrongs()
	for _, k := range productKeys(&p) {
		f := k.in(t)
		fields[k.name] = f
		k.read(f)
	}
	shape, err := outline.ShapeNamed(string(p.Shape))
	if err != nil {
		return p // it is missing, or reported
	}
	needSizes(shape, fields)
	if t.Wrongs() > before {
		return p
	}
	if p.Count == 0 && !last {
		fields["count"].Failf("0 fills the rows that are left", "0: must be 1 or more, only the last product may fill the rows")
	}
	for _, m := range outline.Misfits(p) {
		fields[m.Key].Failf("", "%s", m.Text)
	}
	return p
}

func readAvoids(tables []*tomlread.Table) []pattern.Avoid {
	if len(tables) > pattern.MaxAvoids {
		tables[pattern.MaxAvoids].Failf("", "avoid %d and on: a pattern has at most %d", pattern.MaxAvoids+1, pattern.MaxAvoids)
	}
	return readEntries(tables, pattern.Avoid{}, avoidKeys)
}
