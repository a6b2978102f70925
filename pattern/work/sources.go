package work

// A Source says where the rule or the default behind a figure comes from.
type Source struct {
	Figure string // the group and the field, as Glue.Grams
	Text   string // short, to stand beside the figure
	// Setting names the keys that change it, of shop.toml where File names no other. It
	// is empty where nothing in a file does.
	Setting, File string
}

// Sources lists every figure with its source, in the order of Figures, and that of the
// day to start. "habit" is common practice without a source; "derived" follows from geometry or arithmetic;
// "memory" is known, without a copy that was read.
func Sources() []Source {
	return []Source{
		{"Glue.Joints", "counted", "", ""},
		{"Glue.AreaM2", "derived: length of the glue lines by thickness before flattening", "[allowance] flattening, length", ""},
		{"Glue.Grams", "spread as set, 180 g/m2 by default and from memory; waste by habit: weigh your own bottle", "[glue] spread_g_m2, waste_percent", ""},
		{"Glue.Minutes", "seconds a glue line as set, 40 by habit; open time of a common cross-linking PVA 10 to 15 min (museum reference)", "[glue] seconds_joint, open_minutes", ""},
		{"Glue.Parts", "derived: whole strips by the thicknesser's width", "[machine] thicknesser_width", ""},
		{"Glue.GlueUps", "derived: glue lines within the open time", "[glue] seconds_joint, open_minutes", ""},
		{"Glue.Stages", "the larger of parts by the thicknesser and goes by the open time", "[glue] seconds_joint, open_minutes; [machine] thicknesser_width", ""},
		{"Glue.ForceN", "1.2 MPa on medium hardwood, 150 to 200 psi (a US glue maker's guide); one glue line counts, not all", "[glue] pressure_mpa; [allowance] flattening, length", ""},
		{"Glue.ClampsByForce", "aluminium bar clamp about 3020 N (magazine, measured 2010); operators vary by 40 %", "[glue] clamp_force_n", ""},
		{"Glue.ClampsByReach", "habit: pressure spreads at 45 degrees from the pad", "[glue] clamp_reach", ""},
		{"Glue.Clamps", "the larger of force and reach", "[glue] clamp_force_n, clamp_reach", ""},
		{"Glue.WaterPoints", "derived: half the glue is water; an average, far more beside the line at first", "[glue] spread_g_m2", ""},
		{"Products.Product", "counted", "", ""},
		{"Products.PerPanel", "counted", "[cut] end_margin, side_margin, gap", ""},
		{"Products.TemplateLength", "derived: size - (bush - cutter); offset read in question pages on guide bushes", "[cut] bush, cutter", ""},
		{"Products.TemplateWidth", "derived: size - (bush - cutter); offset read in question pages on guide bushes", "[cut] bush, cutter", ""},
		{"Products.OpeningLength", "derived: size + bush + cutter", "[cut] bush, cutter", ""},
		{"Products.OpeningWidth", "derived: size + bush + cutter", "[cut] bush, cutter", ""},
		{"Products.HoleOpening", "derived: hole + (bush - cutter)", "[cut] bush, cutter", ""},
		{"Products.BlankLength", "habit, 5 mm over; a magazine has 1/8 in", "", ""},
		{"Products.BlankWidth", "habit, 5 mm over; a magazine has 1/8 in", "", ""},
		{"Products.Passes", "pass as set, about 1/8 in by default (a router manual); a little into the base by habit", "[cut] pass, base", ""},
		{"Products.PathM", "derived: the cutter's centre, once round a pass", "[cut] cutter, pass, base", ""},
		{"Products.BevelFaceMM", "derived: depth times root of 2", "", ""},
		{"Products.EdgeLeft", "derived", "", ""},
		{"Products.StandsLength", "derived", "", ""},
		{"Products.StandsWidth", "derived", "", ""},
		{"Products.TopLength", "derived", "", ""},
		{"Products.TopWidth", "derived", "", ""},
		{"Products.HoleCentres", "derived: even gaps", "", ""},
		{"Products.HoleGap", "derived: even gaps", "", ""},
		{"Products.FloorLeft", "derived; 3 mm for the point of the bit by habit", "", ""},
		{"Products.BevelCM3", "derived", "", ""},
		{"Products.HolesCM3", "derived", "", ""},
		{"Products.RemovedCM3", "derived", "", ""},
		{"Products.WeightKg", "derived: density from the timber table, at 12 % moisture", "density_kg_m3", "species.toml"},
		{"Products.FinishM2", "derived: both faces and the edge, without bevels and holes", "", ""},
		{"Finish.Pieces", "counted", "", ""},
		{"Finish.AreaM2", "derived", "", ""},
		{"Finish.OilMl", "ml a coat as set, 60 on a square metre by default and from memory, no published figure found: learn it from your own bottle", "[finish] oil_ml_m2, coats", ""},
		{"Finish.OilG", "density as set, 0.85 g/ml by default and from memory", "[finish] oil_density, oil_ml_m2, coats", ""},
		{"Finish.WaxG", "habit: the ratio as set, by mass", "[finish] wax_to_oil", ""},
		{"Finish.Evenings", "habit: one coat an evening, as many products as lie on the rack", "[finish] rack_slots, coats", ""},
		{"Drawing", "derived from the axes; by nails and a string as is common practice, without a source", "[cut] bush, cutter", ""},
		{"OutOfRound", "derived: each strip's part of the diameter by its timber's free change from when it is made flush", "[season.dry] temperature, humidity; [season.humid] temperature, humidity", ""},
		{"Timetable.Start", "habit: 8 hours at the bench a day, a day and the wait for each glue-up, one thing after another", "[glue] wait_days; [finish] rack_slots, coats", ""},
		{"Price.Pieces", "counted", "", ""},
		{"Price.Materials", "strips with their kerfs and allowances, not what a plan loses beside; offcuts are not free", "[price] materials_dm3", ""},
		{"Price.Labour", "minutes by the rate; those of the last batch in proportion, a whole minute rounded up", "[price] rate_hour", ""},
		{"Price.Fixed", "finish, abrasive and packing of a product, by the products", "[price] fixed_each", ""},
		{"Price.Each", "derived: timber, labour and fixed cost shared by the products", "[price] rate_hour, materials_dm3, fixed_each", ""},
		{"Price.AtCost", "derived: cost and the sale's fee, no margin", "[price] rate_hour, materials_dm3, fixed_each, fee_percent", ""},
		{"Price.BreakEven", "derived: stall by what a product earns, labour not paid out", "[price] stall, fee_percent", ""},
	}
}

// SourceOf returns the source of a figure named as in Sources, or nothing.
func SourceOf(figure string) string { return sourceOf(figure).Text }

func sourceOf(figure string) Source {
	for _, s := range Sources() {
		if s.Figure == figure {
			return s
		}
	}
	return Source{}
}
