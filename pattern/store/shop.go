package store

import (
	"fmt"
	"io"
	"slices"

	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/moisture"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store/tomlread"
)

// The ranges of a shop's values.
const (
	maxTaken   = 1 * length.Metre // kerfs and allowances
	maxKept    = 2 * length.Metre
	maxOpened  = 1_000_000 // cm3, a cubic metre
	minCelsius = -10
	maxCelsius = 60
	maxStep    = 10_000 // micrometres
	maxDeltaE  = 100
	hundred    = 100
	maxSpread  = 10_000 // g or ml on a square metre
	maxTime    = 10_000 // minutes or seconds
	maxCoats   = 100
	maxForce   = 1_000_000 // newtons
	maxStress  = 100       // megapascals
	maxClass   = 4         // EN 204
	maxDays    = 1000
	maxHours   = 24
	maxThirst  = 10  // times what long grain drinks
	minDensity = 0.1 // g/ml
	maxDensity = 10
	maxMoney   = 1_000_000
)

// A section is a table of a shop file.
type section struct {
	name, about string
	keys        []key
	within      []section
}

func (s section) read(t *tomlread.Table) {
	own := t.May(s.name).Table()
	readKeys(own, s.keys)
	for _, inner := range s.within {
		inner.read(own)
	}
}

// section writes s and what is in it; the names of the tables round it stand before.
func (w *writer) section(before string, s section) {
	if heading := "[" + before + s.name + "]"; len(s.keys) > 0 {
		if s.about != "" {
			heading += " # " + s.about
		}
		w.heading(heading)
		for _, k := range s.keys {
			w.commented(k)
		}
	}
	for _, inner := range s.within {
		w.section(before+s.name+".", inner)
	}
}

// ReadShop reads a shop; the name is the file's. What the file does not say is as
// shop.Default has it.
func ReadShop(r io.Reader, name string) (shop.Shop, error) {
	return readFile(r, name, "shop", shopVersion, func(t *tomlread.Table) shop.Shop {
		s := shop.Default()
		unitsKey(&s).read(t.May("units"))
		for _, one := range shopSections(&s) {
			one.read(t)
		}
		return s
	})
}

// WriteShop writes s in full, with a comment behind each key: makers edit it.
func WriteShop(out io.Writer, s shop.Shop) error {
	w := newWriter("shop", shopVersion)
	w.commented(unitsKey(&s))
	for _, one := range shopSections(&s) {
		w.section("", one)
	}
	return w.to(out)
}

func unitsKey(s *shop.Shop) key {
	k := wordKey("units", &s.Units, length.ParseUnit).saying("mm or in on the screen; files keep what was typed")
	k.told.most = within("mm or in")
	return k
}

// shopSections lists the tables of a shop in the order of the file.
func shopSections(s *shop.Shop) []section {
	return slices.Concat(timberSections(s), airSections(s), workSections(s))
}

// lengthsTo makes keys of lengths up to most.
func lengthsTo(most length.Length) func(name string, at *length.Length, about string) key {
	return func(name string, at *length.Length, about string) key { return lengthKey(name, at, most).saying(about) }
}

// numbersTo makes keys of numbers from least to most, of a unit.
func numbersTo(least, most float64, unit string) func(name string, at *float64, about string) key {
	return func(name string, at *float64, about string) key {
		return numberKey(name, at, least, most).of(unit).saying(about)
	}
}

// timberSections are how timber is sawn, and what of it is kept and taken.
func timberSections(s *shop.Shop) []section {
	taken, kept, percent := lengthsTo(maxTaken), lengthsTo(maxKept), numbersTo(0, hundred, "%")
	k, a := &s.Kerf, &s.Allowance
	return []section{
		{name: "kerf", about: "wood that a cut turns to dust", keys: []key{
			taken("rip", &k.Rip, "width of the saw cut along the grain"),
			taken("crosscut", &k.Crosscut, "width of the saw cut across the grain"),
			taken("resaw", &k.Resaw, "width of the bandsaw cut that parts slices"),
		}},
		{name: "allowance", about: "what each step takes off, or leaves on", keys: []key{
			taken("truing", &a.Truing, "off thickness and width, once, of an unplaned piece"),
			taken("cleaning", &a.Cleaning, "off the sawn face before the next slice is resawn"),
			taken("planing", &a.Planing, "sawn thickness minus planed thickness"),
			taken("jointing", &a.Jointing, "ripped width minus finished width, both edges together"),
			taken("flattening", &a.Flattening, "planed thickness minus finished panel thickness"),
			taken("length", &a.Length, "strip length at glue-up minus finished panel length"),
			taken("second", &a.Second, "second glue-up: bar, or flat panel, minus its board"),
			taken("end_trim", &a.EndTrim, "squared off each end of a piece"),
			taken("over_length", &a.OverLength, "how much too long a strip may be cut from a section"),
		}},
		{name: "keep", about: "offcuts at least this large go back to the rack", keys: []key{
			kept("length", &s.Keep.Length, "shortest leftover that is kept"),
			kept("width", &s.Keep.Width, "narrowest leftover that is kept"),
			kept("thickness", &s.Keep.Thickness, "thinnest leftover that is kept"),
		}},
		{name: "standing", about: "the widths you usually rip", keys: []key{standingKey(&s.Standing)}},
		{name: "draw", about: "how a plan counts the timber that it takes", keys: []key{
			percent("use_first", &s.Draw.UseFirstPct, "what a piece marked use first counts"),
			percent("returned", &s.Draw.ReturnedPct, "what spare thickness and width that go back are credited"),
			percent("tails", &s.Draw.TailsPct, "what an end that goes back is credited; below 100 opens short ends first"),
			numbersTo(0, maxOpened, "cm3")("opened", &s.Draw.OpenedCM3, "added for every piece that is opened"),
			numbersTo(0, maxOpened, "cm3")("joint", &s.Draw.JointCM3, "added for every joint of a strip made of several pieces"),
		}},
	}
}

// airSections are the air, the limits and the machines.
func airSections(s *shop.Shop) []section {
	air := func(a *moisture.Air) []key {
		return []key{
			numbersTo(minCelsius, maxCelsius, "°C")("temperature", &a.TemperatureC, "how warm that air is"),
			numbersTo(0, hundred, "%")("humidity", &a.HumidityPct, "how humid that air is"),
		}
	}
	machine := lengthsTo(pattern.MaxLength)
	l, m := &s.Limits, &s.Machine
	contrast := numbersTo(0, maxDeltaE, "")("contrast", &l.Contrast, "colour difference below which neighbours look like one strip")
	contrast.told.most = within("above 0, up to %d", maxDeltaE)
	contrast.read = func(f tomlread.Field) { f.Above(&l.Contrast, 0, maxDeltaE) }
	return []section{
		{name: "air", about: "of the workshop: wood without a reading has settled to it when it is glued", keys: air(&s.Air)},
		{name: "season", within: []section{
			{name: "dry", about: "the air that dries the board most", keys: air(&s.Dry)},
			{name: "humid", about: "the air that swells the board most", keys: air(&s.Humid)},
		}},
		{name: "limits", about: "above the first take care, above the second too much", keys: []key{
			limitKey("step", &l.StepUM, maxStep).of("um").saying("step at a glue line, on each face"),
			limitKey("strain", &l.StrainPct, hundred).of("%").saying("strain at a glue line"),
			limitKey("moisture", &l.MoisturePct, pattern.MaxMoisture).of("points").saying("moisture between neighbours when they are glued"),
			contrast,
			limitKey("row", &l.RowPct, hundred).of("%").saying("a row of an end-grain board stretched over its length"),
		}},
		{name: "machine", about: "from your machines' manuals; 0 where there is no limit", keys: []key{
			machine("thicknesser_width", &m.ThicknesserWidth, "widest that the thicknesser (US planer) takes"),
			machine("thicknesser_length", &m.ThicknesserLength, "shortest that may be fed to the thicknesser"),
			machine("surfacer_length", &m.SurfacerLength, "shortest that may be fed to the surface planer (US jointer)"),
			machine("bandsaw_height", &m.BandsawHeight, "highest that the bandsaw takes"),
			machine("saw_depth", &m.SawDepth, "deepest that the saw cuts"),
		}},
	}
}

// workSections are how products are cut out, glued, finished and sold.
func workSections(s *shop.Shop) []section {
	taken := lengthsTo(maxTaken)
	c, g, f, p := &s.Cut, &s.Glue, &s.Finish, &s.Price
	money := numbersTo(0, maxMoney, "")
	return []section{
		{name: "cut", about: "products out of the panel", keys: []key{
			taken("end_margin", &c.EndMargin, "a product stays this far from a strip's end"),
			taken("side_margin", &c.SideMargin, "a product stays this far from the panel's edges"),
			taken("gap", &c.Gap, "between products: the cutter and the web that holds"),
			taken("cutter", &c.Cutter, "diameter of the router cutter (US bit)"),
			taken("bush", &c.Bush, "outside diameter of the guide bush (US bushing); 0: none"),
			taken("pass", &c.Pass, "depth of one pass of the router; 0: not set"),
			taken("base", &c.Base, "how far the last pass goes into the sacrificial board"),
			taken("stop", &c.Stop, "pieces of a strip come in multiples of it: few stops to set; 0: to any length"),
			taken("shortest", &c.Shortest, "shortest piece of a strip that is cut"),
		}},
		{name: "glue", about: "your glue, from its sheet, and your clamps", keys: []key{
			numbersTo(0, maxSpread, "g/m2")("spread_g_m2", &g.SpreadGM2, "spread on a glue line, both faces together"),
			numbersTo(0, hundred, "%")("waste_percent", &g.WastePct, "squeezed out and left in the roller"),
			numbersTo(0, hundred, "%")("size_percent", &g.SizePct, "more glue on a glue line that cuts the grain"),
			numbersTo(0, maxTime, "minutes")("open_minutes", &g.OpenMinutes, "from the first glue line spread to the last clamp"),
			numbersTo(0, maxTime, "s")("seconds_joint", &g.SecondsJoint, "what it takes you to spread one glue line"),
			taken("clamp_reach", &g.ClampReach, "from the pad, or the caul's outer face, to the first glue line; 0: not set"),
			numbersTo(0, maxForce, "N")("clamp_force_n", &g.ClampForceN, "of one clamp; 0: not set"),
			numbersTo(0, maxStress, "MPa")("pressure_mpa", &g.PressureMPa, "on the glue line"),
			numbersTo(minCelsius, maxCelsius, "°C")("least_temperature", &g.LeastC, "below it the glue makes no film; see its sheet"),
			countKey("class", &g.Class, 0, maxClass, 0).saying("of durability, EN 204: 1 to 4; 0: not set"),
			countKey("wait_days", &g.WaitDays, 0, maxDays, 0).of("days").saying("from gluing to planing"),
			countKey("clamps", &g.Clamps, 0, shop.MostClamps, 0).saying("that you have; 0: not set, one glue-up an evening"),
			numbersTo(0, maxTime, "minutes")("handling_minutes", &g.Handling, "of one glue-up besides spreading: dry run, clamping, wiping"),
			numbersTo(0, maxHours, "h")("evening_hours", &g.EveningHours, "that you glue in one evening; 0: not set, no limit"),
		}},
		{name: "finish", about: "what a board is finished with and dries on", keys: []key{
			numbersTo(0, maxSpread, "ml/m2")("oil_ml_m2", &f.OilMlM2, "oil that one coat takes"),
			countKey("coats", &f.Coats, 0, maxCoats, 0).saying("of oil, one an evening"),
			ratioKey(&f.WaxToOil),
			numbersTo(minDensity, maxDensity, "g/ml")("oil_density", &f.OilDensity, "density of the oil"),
			numbersTo(1, maxThirst, "times")("end_grain", &f.EndGrain, "what end grain drinks of oil, against long grain"),
			slotsKey(f).saying("length and width of the drying rack"),
		}},
		{name: "price", about: "in your own money", keys: []key{
			money("rate_hour", &p.RateHour, "an hour of your work"),
			money("materials_dm3", &p.MaterialsDM3, "timber, a cubic decimetre as it leaves the rack"),
			money("fixed_each", &p.FixedEach, "finish, abrasive and packing of one product"),
			money("stall", &p.Stall, "a day at a fair (US show): fee, travel, day"),
			numbersTo(0, hundred, "%")("fee_percent", &p.FeePercent, "what a sale costs"),
		}},
		{name: "maker", about: "for your labels", keys: makerKeys(&s.Maker)},
	}
}

func makerKeys(m *shop.Maker) []key {
	return []key{
		textKey("name", &m.Name).saying("who made it"),
		textKey("address", &m.Address).saying("postal address"),
		textKey("electronic", &m.Electronic).saying("mail or web address"),
		textKey("glue", &m.Glue).saying("the glue, as the label names it"),
		textKey("finish", &m.Finish).saying("the finish, as the label names it"),
	}
}

func ratioKey(at *shop.Ratio) key {
	k := wordKey("wax_to_oil", at, shop.ParseRatio).saying("of a blend, by mass; 0:1 is oil alone")
	k.told.most = within("wax to oil, like 1:2")
	return k
}

// standingKey is up to so many widths, no two the same.
func standingKey(at *shop.Standing) key {
	k := key{name: "widths", about: "of strips; layouts may have them all", text: func() string { return listed(at.Widths(), lengthText) }}
	k.told = lengthsTold(", ", at.Widths)
	k.told.most = func(u length.Unit) string {
		return fmt.Sprintf("up to %d widths above 0, up to %s, separated by commas", shop.StandingMost, pattern.MaxAcross.With(u))
	}
	k.read = func(f tomlread.Field) {
		items := f.Items()
		if len(items) > shop.StandingMost {
			f.Failf("", "a list of %d: must be at most %d widths, since each makes the search longer", len(items), shop.StandingMost)
			return
		}
		var all shop.Standing
		for i, item := range items {
			if item.Size(&all[i], pattern.MaxAcross) && slices.Contains(all[:i], all[i]) {
				item.Failf("", "%s: is in the list twice", all[i])
			}
		}
		*at = all
	}
	return k
}

// limitKey is a pair of numbers that ascends.
func limitKey(name string, at *shop.Limit, most float64) key {
	k := key{name: name, text: func() string { return fmt.Sprintf("[%s, %s]", decimal(at.Care), decimal(at.Much)) }}
	k.told = told{typed: typedPair, value: func() any { return []float64{at.Care, at.Much} },
		most:  within("two numbers above 0, the second larger, up to %s", decimal(most)),
		field: func(length.Unit) string { return decimal(at.Care) + ", " + decimal(at.Much) }}
	k.read = func(f tomlread.Field) {
		var l shop.Limit
		switch {
		case !readPair(f, "two numbers, like [30, 80]",
			func(care tomlread.Field) bool { return care.Above(&l.Care, 0, most) },
			func(much tomlread.Field) bool { return much.Above(&l.Much, 0, most) }):
		case l.Care >= l.Much:
			f.Failf("the first is where take care begins, the second where too much does",
				"[%s, %s]: the second number must be above the first", decimal(l.Care), decimal(l.Much))
		default:
			*at = l
		}
	}
	return k
}

// slotsKey is the length and width of the drying rack.
func slotsKey(at *shop.Finish) key {
	sides := func() []length.Length { return []length.Length{at.RackLength, at.RackWidth} }
	k := key{name: "rack_slots", text: func() string { return listed(sides(), lengthText) }, told: lengthsTold(" x ", sides)}
	k.told.most = func(u length.Unit) string { return "length x width, each 0 to " + pattern.MaxLength.With(u) }
	k.read = func(f tomlread.Field) {
		readPair(f, `length and width of the drying rack, like ["1200 mm", "400 mm"]`,
			func(long tomlread.Field) bool { return long.Length(&at.RackLength, pattern.MaxLength) },
			func(wide tomlread.Field) bool { return wide.Length(&at.RackWidth, pattern.MaxLength) })
	}
	return k
}

// readPair reads a list, which must be the two that are said.
func readPair(f tomlread.Field, must string, first, second func(tomlread.Field) bool) bool {
	items := f.Items()
	switch {
	case !f.IsList():
		return false
	case len(items) != 2:
		return f.Failf("", "a list of %d: must be %s", len(items), must)
	}
	one, two := first(items[0]), second(items[1]) // each tells of what is wrong with it
	return one && two
}
