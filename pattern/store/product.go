package store

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store/tomlread"
)

// A productReader reads one [[product]] and keeps its fields, so that what does not
// go together is told of where it stands.
type productReader struct {
	table  *tomlread.Table
	fields map[string]tomlread.Field
	bad    bool // something was reported
}

// take reads a field; read says whether it could be read.
func (r *productReader) take(key string, f tomlread.Field, read func(tomlread.Field) bool) {
	r.fields[key] = f
	if !read(f) && f.Given() {
		r.bad = true
	}
}

func (r *productReader) may(key string, read func(tomlread.Field) bool) {
	r.take(key, r.table.May(key), read)
}

func (r *productReader) length(key string, into *length.Length, high length.Length) {
	r.may(key, func(f tomlread.Field) bool { return f.Length(into, high) })
}

func (r *productReader) parse(key string, parse func(string) error) {
	r.may(key, func(f tomlread.Field) bool { return f.Parse(parse) })
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

func readProduct(t *tomlread.Table, last bool) pattern.Product {
	p := pattern.Product{Count: 1}
	r := &productReader{table: t, fields: map[string]tomlread.Field{}}
	shape := t.Need("shape", `"round"`)
	var named outline.Shape
	shapeKnown := shape.Parse(func(s string) (err error) {
		named, err = outline.ShapeNamed(s)
		return err
	})
	r.take("shape", shape, func(tomlread.Field) bool { return shapeKnown })
	r.length("diameter", &p.Diameter, pattern.MaxAcross)
	r.length("length", &p.Length, pattern.MaxLength)
	r.length("width", &p.Width, pattern.MaxAcross)
	r.may("count", func(f tomlread.Field) bool { return f.Count(&p.Count, 0, pattern.MaxCopies) })
	r.parse("centre", func(s string) (err error) {
		p.Centre, err = pattern.ParseCentre(s)
		return err
	})
	r.length("bevel", &p.Bevel, pattern.MaxAcross)
	r.parse("bevel_side", func(s string) (err error) {
		p.BevelSide, err = pattern.ParseBevelSide(s)
		return err
	})
	r.length("hole", &p.Hole, pattern.MaxAcross)
	r.may("holes", func(f tomlread.Field) bool { return f.Count(&p.Holes, 0, pattern.MaxCopies) })
	r.length("hole_depth", &p.HoleDepth, pattern.MaxAcross)
	if shapeKnown {
		p.Shape = named.Name()
	}
	if !shapeKnown || !r.sizes(named) {
		r.bad = true
	}
	if f := r.fields["count"]; f.Given() && !r.bad && p.Count == 0 && !last {
		f.Failf("0 fills the rows that are left", "0: must be 1 or more, only the last product may fill the rows")
	}
	if !r.bad {
		for _, m := range outline.Misfits(p) {
			r.fields[m.Key].Failf("", "%s", m.Text)
		}
	}
	return p
}

// sizes reports the sizes that a shape needs and does not have.
func (r *productReader) sizes(shape outline.Shape) bool {
	ok := true
	for _, t := range shape.Takes() {
		if f := r.fields[t.Key]; !f.Given() {
			ok = f.Failf("add "+t.Key+" = "+t.Example, "missing")
		}
	}
	return ok
}

func readAvoids(tables []*tomlread.Table) []pattern.Avoid {
	if len(tables) > pattern.MaxAvoids {
		tables[pattern.MaxAvoids].Failf("", "avoid %d and on: a pattern has at most %d", pattern.MaxAvoids+1, pattern.MaxAvoids)
	}
	var out []pattern.Avoid
	for _, t := range tables {
		var a pattern.Avoid
		t.Need("along", `"210 mm"`).Length(&a.Along, pattern.MaxLength+pattern.MaxStart)
		t.Need("across", `"96 mm"`).Length(&a.Across, pattern.MaxLength)
		t.Need("radius", `"8 mm"`).Length(&a.Radius, pattern.MaxRadius)
		out = append(out, a)
	}
	return out
}

// product writes what p has, so that it reads back the same.
func (w *writer) product(p pattern.Product) {
	w.heading("[[product]]")
	w.text("shape", string(p.Shape))
	w.lengthIfAny("diameter", p.Diameter)
	w.lengthIfAny("length", p.Length)
	w.lengthIfAny("width", p.Width)
	w.countUnless("count", p.Count, 1)
	if p.Centre != (pattern.Centre{}) {
		w.text("centre", p.Centre.String())
	}
	w.lengthIfAny("bevel", p.Bevel)
	if p.BevelSide != pattern.BevelUnder {
		w.text("bevel_side", p.BevelSide.String())
	}
	w.lengthIfAny("hole", p.Hole)
	w.countUnless("holes", p.Holes, 0)
	w.lengthIfAny("hole_depth", p.HoleDepth)
}

func (w *writer) avoid(a pattern.Avoid) {
	w.heading("[[avoid]]")
	w.length("along", a.Along)
	w.length("across", a.Across)
	w.length("radius", a.Radius)
}
