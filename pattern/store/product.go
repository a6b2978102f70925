package store

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/store/tomlread"
)

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
	for _, size := range shape.Takes() {
		if f := fields[size.Key]; !f.Given() {
			f.Failf("add "+size.Key+" = "+size.Example, "missing")
		}
	}
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
