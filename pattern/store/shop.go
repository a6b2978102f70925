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
	return wordKey("units", &s.Units, length.ParseUnit).saying("mm or in, for the screen; files keep what was typed")
}

// shopSections lists the tables of a shop in the order of the file.
func shopSections(s *shop.Shop) []section {
	return slices.Concat(timberSections(s), airSections(s), workSections(s))
}

// lengthsTo makes keys of lengths up to most.
func lengthsTo(most length.Length) func(name string, at *length.Length, about string) key {
	return func(name string, at *length.Length, about string) key { return lengthKey(name, at, most).saying(about) }
}

// timberSections are how timber is sawn, and what of it is kept and taken.
func timberSections(s *shop.Shop) []section {
	taken, kept := lengthsTo(maxTaken), lengthsTo(maxKept)
	k, a := &s.Kerf, &s.Allowance
	return []section{
		{name: "kerf", keys: []key{
			taken("rip", &k.Rip, "what the saw turns to dust along the grain"),
			taken("crosscut", &k.Crosscut, "across the grain"),
			taken("resaw", &k.Resaw, "and in resawing"),
		}},
		{name: "allowance", keys: []key{
			taken("truing", &a.Truing, "off thickness and off width, once per piece that is not planed"),
			taken("cleaning", &a.Cleaning, "off the sawn face before the next slice is resawn"),
			taken("planing", &a.Planing, "slice thickness minus planed thickness"),
			taken("jointing", &a.Jointing, "ripped width minus finished width of a flat strip, both edges together"),
			taken("flattening", &a.Flattening, "planed thickness minus finished panel thickness"),
			taken("length", &a.Length, "strip length at glue-up minus finished panel length"),
			taken("end_trim", &a.EndTrim, "squared off each end of a piece"),
			taken("over_length", &a.OverLength, "a strip may be cut from a section up to this much longer"),
		}},
		{name: "keep", keys: []key{
			kept("length", &s.Keep.Length, "what is at least this large goes back to the rack"),
			kept("width", &s.Keep.Width, ""),
			kept("thickness", &s.Keep.Thickness, ""),
		}},
		{name: "standing", about: "what you rip as a rule", keys: []key{standingKey(&s.Standing)}},
		{name: "draw", keys: []key{
			numberKey("use_first", &s.Draw.UseFirstPct, 0, hundred).saying("percent at which a use-first piece counts"),
			numberKey("returned", &s.Draw.ReturnedPct, 0, hundred).saying("percent at which slabs and rips that go back are credited"),
			numberKey("opened", &s.Draw.OpenedCM3, 0, maxOpened).saying("cm3 added for every piece opened"),
		}},
	}
}

// airSections are the air, the limits and the machines.
func airSections(s *shop.Shop) []section {
	air := func(a *moisture.Air) []key {
		return []key{
			numberKey("temperature", &a.TemperatureC, minCelsius, maxCelsius).saying("degrees Celsius"),
			numberKey("humidity", &a.HumidityPct, 0, hundred).saying("percent"),
		}
	}
	machine := lengthsTo(pattern.MaxLength)
	l, m := &s.Limits, &s.Machine
	contrast := numberKey("contrast", &l.Contrast, 0, maxDeltaE).saying("colour difference below which neighbours read as one")
	contrast.read = func(f tomlread.Field) { f.Above(&l.Contrast, 0, maxDeltaE) }
	return []section{
		{name: "air", about: "of the workshop; its equilibrium moisture is the default at glue-up", keys: air(&s.Air)},
		{name: "season", within: []section{
			{name: "dry", about: "the air that dries the board most", keys: air(&s.Dry)},
			{name: "humid", keys: air(&s.Humid)},
		}},
		{name: "limits", about: "above the first take care, above the second too much", keys: []key{
			limitKey("step", &l.StepUM, maxStep).saying("micrometres per face"),
			limitKey("strain", &l.StrainPct, hundred).saying("percent"),
			limitKey("moisture", &l.MoisturePct, pattern.MaxMoisture).saying("points between neighbours"),
			contrast,
		}},
		{name: "machine", keys: []key{
			machine("thicknesser_width", &m.ThicknesserWidth, "from the machine's manual; 0 where a limit does not apply"),
			machine("thicknesser_length", &m.ThicknesserLength, "shortest it may be fed"),
			machine("surfacer_length", &m.SurfacerLength, "shortest it may be fed"),
			machine("bandsaw_height", &m.BandsawHeight, ""),
			machine("saw_depth", &m.SawDepth, ""),
		}},
	}
}

// workSections are how products are cut out, glued, finished and sold.
func workSections(s *shop.Shop) []section {
	taken := lengthsTo(maxTaken)
	c, g, f, p := &s.Cut, &s.Glue, &s.Finish, &s.Price
	return []section{
		{name: "cut", about: "products out of the panel", keys: []key{
			taken("end_margin", &c.EndMargin, "a product stays so far from a strip's end"),
			taken("side_margin", &c.SideMargin, "and from the panel's edges"),
			taken("gap", &c.Gap, "between products: the cutter and the web that holds"),
			taken("cutter", &c.Cutter, "the router cutter's diameter"),
			taken("bush", &c.Bush, "the guide bush's outside diameter; 0: none"),
			taken("pass", &c.Pass, "depth of one pass"),
			taken("base", &c.Base, "how far the last pass goes into the sacrificial board"),
		}},
		{name: "glue", keys: []key{
			numberKey("spread_g_m2", &g.SpreadGM2, 0, maxSpread).saying("grams on a square metre of joint"),
			numberKey("waste_percent", &g.WastePct, 0, hundred).saying("squeezed out and left in the roller"),
			numberKey("open_minutes", &g.OpenMinutes, 0, maxTime).saying("from the first joint spread to the last clamp"),
			numberKey("seconds_joint", &g.SecondsJoint, 0, maxTime).saying("to spread one joint"),
			taken("clamp_reach", &g.ClampReach, "from the pad, or the caul's outer face, to the first joint"),
			numberKey("clamp_force_n", &g.ClampForceN, 0, maxForce).saying("newtons, of one clamp; 0: not said"),
			numberKey("pressure_mpa", &g.PressureMPa, 0, maxStress).saying("wanted on the joint"),
			numberKey("least_temperature", &g.LeastC, minCelsius, maxCelsius).saying("below it the glue makes no film; its sheet says"),
			countKey("class", &g.Class, 0, maxClass, 0).saying("of durability, EN 204: 1 to 4; 0: not said"),
			countKey("wait_days", &g.WaitDays, 0, maxDays, 0).saying("from gluing to planing"),
		}},
		{name: "finish", keys: []key{
			numberKey("oil_ml_m2", &f.OilMlM2, 0, maxSpread).saying("one coat"),
			countKey("coats", &f.Coats, 0, maxCoats, 0).saying("one an evening"),
			wordKey("wax_to_oil", &f.WaxToOil, shop.ParseRatio).saying("of a blend, by mass; 0:1 is oil alone"),
			numberKey("oil_density", &f.OilDensity, minDensity, maxDensity).saying("g/ml"),
			slotsKey(f).saying("length and width of the drying rack"),
		}},
		{name: "price", about: "in your own money", keys: []key{
			numberKey("rate_hour", &p.RateHour, 0, maxMoney).saying("labour"),
			numberKey("materials_dm3", &p.MaterialsDM3, 0, maxMoney).saying("timber, a cubic decimetre as it leaves the rack"),
			numberKey("fixed_each", &p.FixedEach, 0, maxMoney).saying("finish, abrasive, packing of one piece"),
			numberKey("stall", &p.Stall, 0, maxMoney).saying("of a fair: fee, travel, day"),
			numberKey("fee_percent", &p.FeePercent, 0, hundred).saying("that a sale costs"),
		}},
	}
}

// standingKey is up to so many widths, no two the same.
func standingKey(at *shop.Standing) key {
	k := key{name: "widths", about: "of strips, up to 8; layouts may have them all", text: func() string { return listed(at.Widths(), lengthText) }}
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
	k := key{name: "rack_slots", text: func() string { return listed([]length.Length{at.RackLength, at.RackWidth}, lengthText) }}
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
