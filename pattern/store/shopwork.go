package store

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/shop"
	"example.com/oddments/pattern/store/tomlread"
)

// The ranges of the values by which working figures are computed.
const (
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

func cutKeys(c *shop.Cut) []lengthKey {
	return []lengthKey{
		{"end_margin", &c.EndMargin, "a product stays so far from a strip's end"},
		{"side_margin", &c.SideMargin, "and from the panel's edges"},
		{"gap", &c.Gap, "between products: the cutter and the web that holds"},
		{"cutter", &c.Cutter, "the router cutter's diameter"},
		{"bush", &c.Bush, "the guide bush's outside diameter; 0: none"},
		{"pass", &c.Pass, "depth of one pass"},
		{"base", &c.Base, "how far the last pass goes into the sacrificial board"},
	}
}

func glueNumbers(g *shop.Glue) []numberKey {
	return []numberKey{
		{"spread_g_m2", &g.SpreadGM2, 0, maxSpread, "grams on a square metre of joint"},
		{"waste_percent", &g.WastePct, 0, hundred, "squeezed out and left in the roller"},
		{"open_minutes", &g.OpenMinutes, 0, maxTime, "from the first joint spread to the last clamp"},
		{"seconds_joint", &g.SecondsJoint, 0, maxTime, "to spread one joint"},
	}
}

func clampKeys(g *shop.Glue) []numberKey {
	return []numberKey{
		{"clamp_force_n", &g.ClampForceN, 0, maxForce, "newtons, of one clamp; 0: not said"},
		{"pressure_mpa", &g.PressureMPa, 0, maxStress, "wanted on the joint"},
		{"least_temperature", &g.LeastC, minCelsius, maxCelsius, "below it the glue makes no film; its sheet says"},
	}
}

func glueLengths(g *shop.Glue) []lengthKey {
	return []lengthKey{{"clamp_reach", &g.ClampReach, "from the pad, or the caul's outer face, to the first joint"}}
}

func oilKeys(f *shop.Finish) []numberKey {
	return []numberKey{{"oil_ml_m2", &f.OilMlM2, 0, maxSpread, "one coat"}}
}

func densityKeys(f *shop.Finish) []numberKey {
	return []numberKey{{"oil_density", &f.OilDensity, minDensity, maxDensity, "g/ml"}}
}

func priceKeys(p *shop.Price) []numberKey {
	return []numberKey{
		{"rate_hour", &p.RateHour, 0, maxMoney, "labour"},
		{"materials_dm3", &p.MaterialsDM3, 0, maxMoney, "timber, a cubic decimetre as it leaves the rack"},
		{"fixed_each", &p.FixedEach, 0, maxMoney, "finish, abrasive, packing of one piece"},
		{"stall", &p.Stall, 0, maxMoney, "of a fair: fee, travel, day"},
		{"fee_percent", &p.FeePercent, 0, hundred, "that a sale costs"},
	}
}

func readGlue(t *tomlread.Table, g *shop.Glue) {
	readNumbers(t, glueNumbers(g))
	readLengths(t, glueLengths(g), maxTaken)
	readNumbers(t, clampKeys(g))
	t.May("class").Count(&g.Class, 0, maxClass)
	t.May("wait_days").Count(&g.WaitDays, 0, maxDays)
}

func readFinish(t *tomlread.Table, f *shop.Finish) {
	readNumbers(t, oilKeys(f))
	t.May("coats").Count(&f.Coats, 0, maxCoats)
	t.May("wax_to_oil").Parse(func(s string) (err error) {
		f.WaxToOil, err = shop.ParseRatio(s)
		return err
	})
	readNumbers(t, densityKeys(f))
	readSlots(t.May("rack_slots"), f)
}

// readSlots reads the length and width of the drying rack.
func readSlots(f tomlread.Field, into *shop.Finish) {
	items := f.Items()
	if !f.IsList() {
		return
	}
	if len(items) != 2 {
		f.Failf("", "a list of %d: must be length and width of the drying rack, like [\"1200 mm\", \"400 mm\"]", len(items))
		return
	}
	var long, wide length.Length
	okLong, okWide := items[0].Length(&long, pattern.MaxLength), items[1].Length(&wide, pattern.MaxLength)
	if okLong && okWide {
		into.RackLength, into.RackWidth = long, wide
	}
}

// work writes how products are cut out, glued, finished and sold.
func (w *writer) work(s *shop.Shop) {
	w.lengths("[cut] # products out of the panel", cutKeys(&s.Cut))
	w.numbers("[glue]", glueNumbers(&s.Glue))
	w.lengthLines(glueLengths(&s.Glue))
	w.numberLines(clampKeys(&s.Glue))
	w.commented("class", decimal(float64(s.Glue.Class)), "of durability, EN 204: 1 to 4; 0: not said")
	w.commented("wait_days", decimal(float64(s.Glue.WaitDays)), "from gluing to planing")
	w.numbers("[finish]", oilKeys(&s.Finish))
	w.commented("coats", decimal(float64(s.Finish.Coats)), "one an evening")
	w.commented("wax_to_oil", quoted(s.Finish.WaxToOil.String()), "of a blend, by mass; 0:1 is oil alone")
	w.numberLines(densityKeys(&s.Finish))
	w.commented("rack_slots", "["+quoted(s.Finish.RackLength.Exact())+", "+quoted(s.Finish.RackWidth.Exact())+"]",
		"length and width of the drying rack")
	w.numbers("[price] # in your own money", priceKeys(&s.Price))
}
