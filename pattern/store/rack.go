package store

import (
	"io"
	"strings"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/species"
)

// ReadRack reads a rack; the name is the file's. A species that known does not know
// is refused; a nil known lets all pass.
func ReadRack(r io.Reader, name string, known *species.Table) (rack.Rack, error) {
	return readFile(r, name, "rack", rackVersion, func(t *tomlread.Table) (out rack.Rack) {
		ids := lines{}
		out.Pieces = readEntries(t.May("piece").Tables(), rack.Piece{Quantity: 1}, func(p *rack.Piece) []key { return pieceKeys(p, ids, known) })
		out.Strips = readEntries(t.May("strip").Tables(), rack.Strip{Quantity: 1}, func(s *rack.Strip) []key { return readyKeys(s, ids, known) })
		return out
	})
}

// WriteRack writes r: the pieces, then the ready strips.
func WriteRack(out io.Writer, r rack.Rack) error {
	w := newWriter("rack", rackVersion)
	writeEntries(w, "[[piece]]", r.Pieces, func(p *rack.Piece) []key { return pieceKeys(p, nil, nil) })
	writeEntries(w, "[[strip]]", r.Strips, func(s *rack.Strip) []key { return readyKeys(s, nil, nil) })
	return w.to(out)
}

func pieceKeys(p *rack.Piece, ids lines, known *species.Table) []key {
	rings, bark, heart := grainKeys(&p.Rings, &p.Bark, &p.Heart)
	return []key{
		idKey(&p.ID, ids).needed(`"B7"`),
		timberKey(&p.Species, known),
		sizeKey("length", &p.Length, pattern.MaxLength).needed(`"620 mm"`),
		sizeKey("width", &p.Width, pattern.MaxAcross).needed(`"85 mm"`),
		sizeKey("thickness", &p.Thickness, pattern.MaxAcross).needed(`"40 mm"`),
		countKey("quantity", &p.Quantity, 1, rack.MaxQuantity, 1),
		flagKey("planed", &p.Planed),
		rings, bark, heart,
		readingKey("moisture", &p.Moisture),
		faultsKey(p),
		flagKey("use_first", &p.UseFirst),
		noteKey(p),
		colourKey(&p.Colour),
		textKey("colour_from", &p.From),
	}
}

// noteKey is the note of a piece whose faults have been read, with what they are called.
func noteKey(p *rack.Piece) key {
	var note string
	k := textKey("note", &note)
	text, plain, read, cells := k.text, k.plain, k.read, k.cell
	k.text = func() string { note = p.FullNote(); return text() }
	k.plain = func() string { note = p.FullNote(); return plain() }
	k.read = func(f tomlread.Field) { note = ""; read(f); p.TakeNote(note) }
	k.cell = func(c cell) { note = ""; cells(c); p.TakeNote(note) }
	return k
}

func readyKeys(s *rack.Strip, ids lines, known *species.Table) []key {
	rings, bark, heart := grainKeys(&s.Rings, &s.Bark, &s.Heart)
	return []key{
		idKey(&s.ID, ids).needed(`"H-25"`),
		timberKey(&s.Species, known),
		sizeKey("width", &s.Width, pattern.MaxAcross).needed(`"25 mm"`),
		sizeKey("thickness", &s.Thickness, pattern.MaxAcross).needed(`"24 mm"`),
		sizeKey("length", &s.Length, pattern.MaxLength).needed(`"470 mm"`),
		countKey("quantity", &s.Quantity, 1, rack.MaxQuantity, 1),
		rings, bark, heart,
		readingKey("moisture", &s.Moisture),
		flagKey("use_first", &s.UseFirst),
		colourKey(&s.Colour),
		textKey("colour_from", &s.From),
	}
}

// idKey is an id; those of pieces and strips are never the same.
func idKey(at *string, ids lines) key {
	return ids.onceKey("id", at, rack.CheckID, "give it an id of its own", "id %s is that of line %d too")
}

// faultsKey is the faults of a piece whose size has been read.
func faultsKey(p *rack.Piece) key {
	return key{name: "faults", usual: "[]",
		text: func() string { return listed(p.Faults, func(f rack.Fault) string { return quoted(f.String()) }) },
		read: func(f tomlread.Field) {
			for _, item := range f.Items() {
				item.Parse(func(s string) error { return takeFault(p, s) })
			}
		},
		cell: func(c cell) { c.faults(p) },
		plain: func() string {
			texts := make([]string, len(p.Faults))
			for i, f := range p.Faults {
				texts[i] = f.String()
			}
			return strings.Join(texts, "; ")
		}}
}

// takeFault reads a fault; where the piece is sized it must lie within it.
func takeFault(p *rack.Piece, text string) error {
	fault, err := rack.ParseFault(text)
	if err != nil {
		return err
	}
	alone := *p
	alone.Faults = []rack.Fault{fault}
	if sized := p.Length > 0 && p.Width > 0; sized {
		if err := alone.Check(); err != nil {
			return err
		}
	}
	p.Faults = append(p.Faults, fault)
	return nil
}
