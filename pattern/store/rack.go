package store

import (
	"io"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/store/tomlread"
)

// ReadRack reads a rack; the name is the file's. A species that known does not know
// is refused; a nil known lets all pass.
func ReadRack(r io.Reader, name string, known func(string) bool) (rack.Rack, error) {
	d, err := tomlread.Parse(name, r)
	if err != nil {
		return rack.Rack{}, err
	}
	t := d.Root()
	t.Format("rack", rackVersion)
	var out rack.Rack
	ids := idLines{}
	for _, p := range t.May("piece").Tables() {
		out.Pieces = append(out.Pieces, readPiece(p, ids, known))
	}
	for _, s := range t.May("strip").Tables() {
		out.Strips = append(out.Strips, readReady(s, ids, known))
	}
	if err := d.Finish(); err != nil {
		return rack.Rack{}, err
	}
	return out, nil
}

// idLines holds the line of each id that was read.
type idLines map[string]int

// read takes an id. Pieces and strips share one namespace, but the file may mix
// them, so the one that is read second need not stand second.
func (ids idLines) read(f tomlread.Field, into *string) {
	if !f.Text(into) {
		return
	}
	if err := rack.CheckID(*into); err != nil {
		f.Failf("", "%s", err)
		return
	}
	if line, taken := ids[*into]; taken {
		f.Failf("give it an id of its own", "id %s is that of line %d too", tomlread.Quote(*into), line)
		return
	}
	ids[*into] = f.Line()
}

func readPiece(t *tomlread.Table, ids idLines, known func(string) bool) rack.Piece {
	p := rack.Piece{Quantity: 1}
	ids.read(t.Need("id", `"B7"`), &p.ID)
	readSpecies(t.Need("species", `"hornbeam"`), &p.Species, known)
	sized := t.Need("length", `"620 mm"`).Size(&p.Length, pattern.MaxLength)
	sized = t.Need("width", `"85 mm"`).Size(&p.Width, pattern.MaxAcross) && sized
	t.Need("thickness", `"40 mm"`).Size(&p.Thickness, pattern.MaxAcross)
	t.May("quantity").Count(&p.Quantity, 1, rack.MaxQuantity)
	t.May("planed").Bool(&p.Planed)
	readRings(t.May("rings"), &p.Rings)
	readMoisture(t.May("moisture"), &p.Moisture)
	readFaults(t.May("faults"), &p, sized)
	t.May("use_first").Bool(&p.UseFirst)
	t.May("note").Text(&p.Note)
	return p
}

// readFaults reads the faults; where the piece is sized each must lie within it.
func readFaults(f tomlread.Field, p *rack.Piece, sized bool) {
	for _, item := range f.Items() {
		item.Parse(func(s string) error {
			fault, err := rack.ParseFault(s)
			if err != nil {
				return err
			}
			one := *p
			one.Faults = []rack.Fault{fault}
			if err := one.Check(); sized && err != nil {
				return err
			}
			p.Faults = append(p.Faults, fault)
			return nil
		})
	}
}

func readReady(t *tomlread.Table, ids idLines, known func(string) bool) rack.Strip {
	s := rack.Strip{Quantity: 1}
	ids.read(t.Need("id", `"H-25"`), &s.ID)
	readSpecies(t.Need("species", `"hornbeam"`), &s.Species, known)
	t.Need("width", `"25 mm"`).Size(&s.Width, pattern.MaxAcross)
	t.Need("thickness", `"24 mm"`).Size(&s.Thickness, pattern.MaxAcross)
	t.Need("length", `"470 mm"`).Size(&s.Length, pattern.MaxLength)
	t.May("quantity").Count(&s.Quantity, 1, rack.MaxQuantity)
	readRings(t.May("rings"), &s.Rings)
	readMoisture(t.May("moisture"), &s.Moisture)
	t.May("use_first").Bool(&s.UseFirst)
	return s
}

// WriteRack writes r: the pieces, then the ready strips.
func WriteRack(out io.Writer, r rack.Rack) error {
	w := newWriter("rack", rackVersion)
	for _, p := range r.Pieces {
		w.piece(p)
	}
	for _, s := range r.Strips {
		w.ready(s)
	}
	return w.to(out)
}

func (w *writer) piece(p rack.Piece) {
	w.heading("[[piece]]")
	w.text("id", p.ID)
	w.text("species", p.Species)
	w.length("length", p.Length)
	w.length("width", p.Width)
	w.length("thickness", p.Thickness)
	w.countUnless("quantity", p.Quantity, 1)
	w.flagIfSet("planed", p.Planed)
	w.rings(p.Rings)
	w.reading("moisture", p.Moisture)
	if len(p.Faults) > 0 {
		faults := make([]string, len(p.Faults))
		for i, f := range p.Faults {
			faults[i] = f.String()
		}
		w.texts("faults", faults)
	}
	w.flagIfSet("use_first", p.UseFirst)
	w.textIfAny("note", p.Note)
}

func (w *writer) ready(s rack.Strip) {
	w.heading("[[strip]]")
	w.text("id", s.ID)
	w.text("species", s.Species)
	w.length("width", s.Width)
	w.length("thickness", s.Thickness)
	w.length("length", s.Length)
	w.countUnless("quantity", s.Quantity, 1)
	w.rings(s.Rings)
	w.reading("moisture", s.Moisture)
	w.flagIfSet("use_first", s.UseFirst)
}
