package store

import (
	"bytes"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/colour"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/species"
)

// A source of random values within the ranges of the files.
type dice struct{ *rand.Rand }

func newDice(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 5))} }

func (d dice) coin() bool { return d.IntN(2) == 0 }

// size returns a length above 0 up to high: any nanometre, a tenth of a millimetre or
// a sixty-fourth of an inch.
func (d dice) size(high length.Length) length.Length {
	steps := []length.Length{1, length.Millimetre / 10, length.Inch / 64, length.Millimetre}
	step := steps[d.IntN(len(steps))]
	return step * length.Length(1+d.Int64N(int64(high/step)))
}

func (d dice) sizeOrNone(high length.Length) length.Length {
	if d.coin() {
		return 0
	}
	return d.size(high)
}

func (d dice) number(low, high float64) float64 {
	if d.coin() {
		return max(low, float64(int(low+(high-low)*d.Float64())))
	}
	return low + (high-low)*d.Float64()
}

func (d dice) reading() pattern.Reading {
	if d.coin() {
		return pattern.Reading{}
	}
	return pattern.Read(d.number(0, pattern.MaxMoisture))
}

func (d dice) colour() colour.Own {
	if d.coin() {
		return colour.Own{}
	}
	return colour.OwnOf(species.RGB{R: uint8(d.IntN(256)), G: uint8(d.IntN(256)), B: uint8(d.IntN(256))})
}

func (d dice) rings() pattern.Rings {
	at, _ := pattern.RingsAt(d.number(0, 90))
	return []pattern.Rings{{}, pattern.RingsFlat(), pattern.RingsRift(), pattern.RingsQuarter(), at}[d.IntN(5)]
}

// grain lays rings with a bark side that goes with them, and a heart with that.
func (d dice) grain() pattern.Grain {
	g := pattern.Grain{Rings: d.rings()}
	if sides := g.Rings.BarkSides(); len(sides) > 0 && d.coin() {
		g.Bark, g.Heart = sides[d.IntN(len(sides))], d.sizeOrNone(pattern.MaxHeart)
	}
	return g
}

// text returns letters that quoting has to deal with.
func (d dice) text() string {
	letters := []rune(`ab "\'#=[]{}é日½-` + "\u00a0\u200d\U0001f600")
	out := make([]rune, d.IntN(12))
	for i := range out {
		out[i] = letters[d.IntN(len(letters))]
	}
	return string(out)
}

func (d dice) pattern() pattern.Pattern {
	p := pattern.Pattern{Name: "n" + d.text(), Notes: d.text(), Panel: pattern.Panel{
		Length: d.size(pattern.MaxLength), Thickness: d.size(pattern.MaxAcross), Width: d.sizeOrNone(pattern.MaxAcross),
		Make: pattern.Make(d.IntN(2)), Moisture: d.reading(), Flattened: d.reading(),
	}}
	for range d.IntN(8) {
		s := pattern.Strip{
			Species: []string{"pear", "hornbeam"}[d.IntN(2)], Width: d.size(pattern.MaxAcross), Moisture: d.reading(),
			Length: d.sizeOrNone(pattern.MaxLength), Start: d.sizeOrNone(pattern.MaxStart), Turned: d.coin(), Over: d.coin(), Pinned: d.coin(), Colour: d.colour(),
		}
		s.Lay(d.grain())
		for range 1 + d.IntN(3) {
			p.Strips = append(p.Strips, s)
		}
	}
	for i := range d.IntN(pattern.MaxSeconds + 1) {
		p.Seconds = append(p.Seconds, d.second(i == 0))
	}
	for i := range d.IntN(4) {
		one := d.product()
		one.Count = d.IntN(pattern.MaxCopies + 1)
		if i > 0 && p.Products[i-1].Count == 0 {
			p.Products[i-1].Count = 1 // only the last may fill the rows
		}
		p.Products = append(p.Products, one)
	}
	for range d.IntN(3) {
		p.Avoids = append(p.Avoids, pattern.Avoid{Along: d.sizeOrNone(pattern.MaxLength), Across: d.sizeOrNone(pattern.MaxLength), Radius: d.sizeOrNone(pattern.MaxRadius)})
	}
	for range d.IntN(3) {
		p.Made = append(p.Made, pattern.Made{
			Date: pattern.Date{Year: d.IntN(10_000), Month: 1 + 1, Day: 1 + d.IntN(28)}, Copies: 1 + d.IntN(pattern.MaxBatch),
			Width: d.sizeOrNone(pattern.MaxAcross), Thickness: d.sizeOrNone(pattern.MaxAcross), Minutes: d.IntN(pattern.MaxMinutes + 1), Note: d.text(),
		})
	}
	return p
}

// second returns a glue-up; only the first may lay bars on end.
func (d dice) second(first bool) pattern.Second {
	s := pattern.Second{Lay: pattern.LayFlat, Bar: max(pattern.MinBar, d.size(pattern.MaxBar)), Bars: d.IntN(pattern.MaxBars + 1),
		Angle: d.number(pattern.MinAngle, pattern.Square), Trim: d.sizeOrNone(pattern.MaxTrim), Moisture: d.reading()}
	if first && d.coin() {
		s.Lay, s.Angle = pattern.LayEnd, pattern.Square
	}
	for range d.IntN(4) {
		s.Turned, s.Over = append(s.Turned, d.coin()), append(s.Over, d.coin())
		s.Shift = append(s.Shift, []pattern.Shift{{By: d.sizeOrNone(pattern.MaxShift)}, {Step: pattern.ShiftHalf}, {Step: pattern.ShiftStrip}}[d.IntN(3)])
	}
	return s
}

// product returns one whose bevel and holes go with its size.
func (d dice) product() pattern.Product {
	size := func(high length.Length) length.Length { return max(pattern.MinProduct, d.size(high)) }
	p := pattern.Product{Shape: outline.Shapes()[d.IntN(4)].Name(), BevelSide: pattern.BevelSides()[d.IntN(3)]}
	if p.Shape == outline.Round {
		p.Diameter = size(pattern.MaxAcross)
	} else {
		p.Length, p.Width = size(pattern.MaxLength), size(pattern.MaxAcross)
	}
	p.Centre = []pattern.Centre{{}, {Strip: 1 + d.IntN(pattern.MaxStrips)}, {Joint: 1 + d.IntN(pattern.MaxStrips)}}[d.IntN(3)]
	if d.coin() {
		along, across := outline.ShapeOf(p).Size()
		p.Bevel = length.Length(d.Int64N(int64((min(along, across) + 1) / 2)))
	}
	if p.Shape == outline.Block && d.coin() {
		p.Holes, p.HoleDepth = 1+d.IntN(20), d.size(pattern.MaxAcross)
		p.For = pattern.Purposes()[d.IntN(2)]
		p.Hole = 1 + length.Length(d.Int64N(int64(min(p.Width, p.Length/20))))
	}
	return p
}

func (d dice) rack() rack.Rack {
	var r rack.Rack
	for i := range d.IntN(6) {
		p := rack.Piece{
			ID: string(rune('A'+i)) + "1", Species: "pear", Length: d.size(pattern.MaxLength), Width: d.size(pattern.MaxAcross),
			Thickness: d.size(pattern.MaxAcross), Quantity: 1 + d.IntN(rack.MaxQuantity), Planed: d.coin(),
			Moisture: d.reading(), UseFirst: d.coin(), Note: d.text(), Colour: d.colour(), From: d.text(),
		}
		p.Lay(d.grain())
		for range d.IntN(3) {
			f := rack.Fault{Along: d.coin()}
			f.To = d.size(p.Length)
			if f.Along {
				f.To = d.size(p.Width)
			}
			f.From = length.Length(d.Int64N(int64(f.To)))
			f.Kind = []string{"", "split", "knot", "shake"}[d.IntN(4)]
			p.Faults = append(p.Faults, f)
		}
		r.Pieces = append(r.Pieces, p)
		g := d.grain()
		r.Strips = append(r.Strips, rack.Strip{
			ID: string(rune('a'+i)) + "2", Species: "hornbeam", Width: d.size(pattern.MaxAcross), Thickness: d.size(pattern.MaxAcross),
			Length: d.size(pattern.MaxLength), Quantity: 1 + d.IntN(9), Rings: g.Rings, Bark: g.Bark, Heart: g.Heart, Moisture: d.reading(), UseFirst: d.coin(),
			Colour: d.colour(), From: d.text(),
		})
	}
	return r
}

func (d dice) shop() shop.Shop {
	s := shop.Default()
	s.Units = length.Unit(d.IntN(2))
	for i := range d.IntN(shop.StandingMost + 1) {
		s.Standing[i] = length.Length(1000*i+1+d.IntN(999)) * length.Micrometre
	}
	for _, one := range shopSections(&s) {
		d.section(one)
	}
	s.Finish.Coats, s.Finish.WaxToOil = d.IntN(maxCoats+1), shop.Ratio{Wax: d.number(0, 1000), Oil: 0.01 + d.Float64()}
	s.Finish.RackLength, s.Finish.RackWidth = d.sizeOrNone(pattern.MaxLength), d.sizeOrNone(pattern.MaxLength)
	for _, l := range []*shop.Limit{&s.Limits.StepUM, &s.Limits.StrainPct, &s.Limits.MoisturePct} {
		l.Care = 0.01 + d.Float64()
		l.Much = l.Care + 0.01 + 20*d.Float64()
	}
	return s
}

// section gives each length and number of a table, and of those in it, one that its key
// takes.
func (d dice) section(s section) {
	for _, k := range s.keys {
		for taken, tries := false, 0; !taken && tries < 100; tries++ {
			text := quoted(d.sizeOrNone(maxTaken).Exact())
			if tries > 0 {
				text = decimal(d.number(-1, math.Pow10(d.IntN(7))))
			}
			doc, err := tomlread.Parse("a.toml", strings.NewReader("x = "+text))
			if err != nil {
				panic(err)
			}
			k.read(doc.Root().May("x"))
			taken = doc.Finish() == nil
		}
	}
	for _, inner := range s.within {
		d.section(inner)
	}
}

func (d dice) species() []species.Species {
	var list []species.Species
	for i := range d.IntN(4) {
		s := species.Species{Key: string(rune('a'+i)) + "_x", Sources: map[string]species.Source{}}
		for _, k := range species.Fields() {
			if d.coin() {
				continue
			}
			s.Sources[k.Name] = []species.Source{
				{Text: ownValue, Status: species.Yours}, {Text: "x (y)", Status: species.Derived}, {Text: "x (memory)", Status: species.Yours},
				{Status: species.None}, {Text: "measured", Status: species.Yours},
			}[d.IntN(5)]
			switch at := k.At(&s).(type) {
			case *string:
				*at = map[string]string{"pores": "ring", "letters": "Q" + string(rune('A'+i))}[k.Name]
				if *at == "" {
					*at = d.text()
				}
			case *[]string:
				*at = []string{"p" + d.text(), d.text()}
			case *float64:
				if d.IntN(4) > 0 { // else it is taken away
					*at = k.Least + (k.Most-k.Least)*d.Float64()
				}
			case *bool:
				*at = d.coin()
			case *species.RGB:
				*at = species.RGB{R: uint8(d.IntN(256)), G: uint8(d.IntN(256)), B: uint8(d.IntN(256))}
			}
		}
		list = append(list, s)
	}
	return list
}

// TestRandomFilesReadBack writes values from all over their ranges and reads them
// back the same.
func TestRandomFilesReadBack(t *testing.T) {
	d := newDice(3)
	for range 300 {
		var out bytes.Buffer
		p := d.pattern()
		if err := WritePattern(&out, p); err != nil {
			t.Fatal(err)
		}
		got, err := ReadPattern(bytes.NewReader(out.Bytes()), "a.toml", knownForTest)
		if err != nil {
			t.Fatalf("%v\n%s", err, out.Bytes())
		}
		same(t, got, p)
		roundPattern(t, out.Bytes(), true)
	}
	for range 200 {
		var out bytes.Buffer
		r := d.rack()
		if err := WriteRack(&out, r); err != nil {
			t.Fatal(err)
		}
		got, err := ReadRack(bytes.NewReader(out.Bytes()), "a.toml", knownForTest)
		if err != nil {
			t.Fatalf("%v\n%s", err, out.Bytes())
		}
		same(t, got, r)
	}
	for range 200 {
		var out bytes.Buffer
		s := d.shop()
		if err := WriteShop(&out, s); err != nil {
			t.Fatal(err)
		}
		if got, err := ReadShop(bytes.NewReader(out.Bytes()), "a.toml"); err != nil || got != s {
			t.Fatalf("%v\n%s", err, out.Bytes())
		}
	}
	for range 200 {
		var out bytes.Buffer
		list := d.species()
		if err := WriteSpecies(&out, list); err != nil {
			t.Fatal(err)
		}
		got, err := ReadSpecies(bytes.NewReader(out.Bytes()), "a.toml")
		if err != nil {
			t.Fatalf("%v\n%s", err, out.Bytes())
		}
		same(t, got, list)
	}
}
