package store

import (
	"io"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/orders"
	"example.com/oddments/pattern/outline"
	"example.com/oddments/pattern/rack"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store/tomlread"
	"example.com/oddments/pattern/suggest"
	"example.com/oddments/pattern/suggest/look"
	"example.com/oddments/species"
)

// What orders are held against as they are read: the timbers that are known, and where they
// are not nil the workshop and the rack that they are to be made of.
type Against struct {
	Known *species.Table
	Shop  *shop.Shop
	Rack  *rack.Rack
}

// ReadOrders reads what the maker would sell; the name is the file's.
func ReadOrders(r io.Reader, name string, against Against) ([]orders.Want, error) {
	return readFile(r, name, "orders", ordersVersion, func(t *tomlread.Table) (out []orders.Want) {
		tables := t.May("want").Tables()
		if len(tables) > orders.MostWants {
			tables[orders.MostWants].Failf("", "want %d and on: a file lists at most %d", orders.MostWants+1, orders.MostWants)
		}
		ids := lines{}
		worths := 0
		for _, t := range tables {
			w := readWant(t, ids, against)
			if out = append(out, w); w.Worth > 0 {
				worths++
			}
		}
		for i, t := range tables {
			if worths > 0 && out[i].Worth == 0 {
				if f := t.May("worth"); !f.Given() {
					f.Failf("add worth = 38 to every want, or to none: then the finished volume counts", "missing, and other wants have it")
				}
			}
		}
		return out
	})
}

// readWant reads one want, and tells of what does not go together where it says so.
func readWant(t *tomlread.Table, ids lines, against Against) orders.Want {
	w := orders.New()
	fields := map[string]tomlread.Field{}
	before := t.Wrongs()
	for _, k := range wantKeys(&w, ids, against.Known) {
		f := k.in(t)
		fields[k.name] = f
		k.read(f)
	}
	shape, err := outline.ShapeNamed(string(w.Product.Shape))
	if err != nil {
		return w // it is missing, or reported
	}
	needSizes(shape, fields)
	if t.Wrongs() > before {
		return w
	}
	for _, m := range outline.Misfits(w.Product) {
		fields[m.Key].Failf("", "%s", m.Text)
	}
	wrongs := w.Wrongs()
	if t.Wrongs() == before && against.Shop != nil {
		wrongs = append(wrongs, w.TooLong(against.Shop.Cut)...)
		if against.Rack != nil {
			wrongs = append(wrongs, w.TooThick(*against.Rack, *against.Shop)...)
		}
	}
	for _, wrong := range wrongs {
		fields[wrong.Key].Failf(wrong.Hint, "%s", wrong.Text)
	}
	return w
}

// WriteOrders writes what ReadOrders reads.
func WriteOrders(out io.Writer, wants []orders.Want) error {
	w := newWriter("orders", ordersVersion)
	writeEntries(w, "[[want]]", wants, func(o *orders.Want) []key { return wantKeys(o, nil, nil) })
	return w.to(out)
}

func wantKeys(w *orders.Want, ids lines, known *species.Table) []key {
	all := []key{ids.onceKey("id", &w.ID, CheckStem, "give it an id of its own", "id %s is that of line %d too").needed(`"cake"`)}
	for _, k := range productKeys(&w.Product) {
		if k.name != "count" && k.name != "centre" {
			all = append(all, k)
		}
	}
	return append(all,
		sizeKey("thickness", &w.Thickness, pattern.MaxAcross).needed(`"25 mm"`),
		countKey("least", &w.Least, 0, orders.MostCopies, 0),
		countKey("most", &w.Most, 1, orders.MostCopies, 0),
		worthKey(&w.Worth),
		rangeKey("along", &w.Along, orders.MostAlong, orders.DefaultAlong()),
		spareKey(&w.Spare),
		wordKey("look", &w.Look, look.Parse),
		levelKey(&w.Level),
		contrastKey(&w.LeastContrast),
		rangeKey("timbers", &w.Timbers, orders.MostTimbers, orders.Range{}),
		timbersKey("with", &w.With, known),
		timbersKey("without", &w.Without, known),
		sharesKey(&w.AtMost, known),
		joinedKey(&w.Joints),
	)
}

// worthKey is what one is worth, above 0.
func worthKey(at *float64) key {
	k := numberKey("worth", at, 0, orders.MostWorth)
	k.read = func(f tomlread.Field) { f.Above(at, 0, orders.MostWorth) }
	return k
}

func rangeKey(name string, at *orders.Range, most int, usual orders.Range) key {
	text := func(r orders.Range) string { return quoted(r.String()) }
	return key{name: name, usual: text(usual), text: func() string { return text(*at) },
		read: func(f tomlread.Field) {
			tomlread.Word(f, at, func(s string) (orders.Range, error) { return orders.ParseRange(s, most) })
		}}
}

func spareKey(at *length.Length) key {
	k := lengthKey("spare", at, pattern.MaxStart)
	k.usual = lengthText(orders.DefaultSpare)
	return k
}

func levelKey(at *pattern.Level) key {
	k := wordKey("level", at, pattern.ParseLevel)
	k.usual = quoted(suggest.DefaultLevel.String())
	return k
}

func contrastKey(at *float64) key {
	k := numberKey("least_contrast", at, 0, orders.MostContrast)
	k.usual = decimal(suggest.DefaultLeastContrast)
	return k
}

func joinedKey(at *bool) key {
	k := flagKey("joints", at)
	k.usual = "true"
	return k
}

// timbersKey is a list of timbers, of which one that is not known is refused.
func timbersKey(name string, at *[]string, known *species.Table) key {
	k := textsKey(name, at)
	k.read = func(f tomlread.Field) {
		*at = nil
		for _, item := range f.Items() {
			var one string
			before := item.Wrongs()
			timberKey(&one, known).read(item)
			if item.Wrongs() == before {
				*at = append(*at, one)
			}
		}
	}
	return k
}

func sharesKey(at *[]suggest.Share, known *species.Table) key {
	return key{name: "at_most", usual: "[]",
		text: func() string {
			return listed(*at, func(s suggest.Share) string { return quoted(orders.ShareText(s)) })
		},
		read: func(f tomlread.Field) {
			*at = nil
			for _, item := range f.Items() {
				var s suggest.Share
				if !tomlread.Word(item, &s, orders.ParseShare) {
					continue
				}
				before := item.Wrongs()
				timberKey(&s.Species, known).read(item.Saying(s.Species))
				if item.Wrongs() == before {
					*at = append(*at, s)
				}
			}
		}}
}
