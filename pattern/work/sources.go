package work

// A Source says where the rule or the default behind a figure comes from.
type Source struct {
	Figure string // the group and the field, as Glue.Grams
	Text   string // short, to stand beside the figure
}

// Sources lists every figure with its source, in the order of Figures. "habit" is
// common practice without a source; "derived" follows from geometry or arithmetic;
// "memory" is known, without a copy that was read.
func Sources() []Source {
	return []Source{
		{"Glue.Joints", "counted"},
		{"Glue.AreaM2", "derived: joint length by thickness before flattening"},
		{"Glue.Grams", "default of 180 g/m2 from memory, waste by habit: weigh your own bottle"},
		{"Glue.Minutes", "your seconds a joint; open time of a common cross-linking PVA 10 to 15 min (museum reference)"},
		{"Glue.Parts", "derived: whole strips by your thicknesser's width"},
		{"Glue.GlueUps", "derived: joints within the open time"},
		{"Glue.Stages", "the larger of parts by the thicknesser and goes by the open time"},
		{"Glue.ForceN", "1.2 MPa on medium hardwood, 150 to 200 psi (a US glue maker's guide); one joint counts, not all"},
		{"Glue.ClampsByForce", "aluminium bar clamp about 3020 N (magazine, measured 2010); operators vary by 40 %"},
		{"Glue.ClampsByReach", "habit: pressure spreads at 45 degrees from the pad"},
		{"Glue.Clamps", "the larger of force and reach"},
		{"Glue.WaterPoints", "derived: half the glue is water; an average, far more beside the line at first"},
		{"Products.Product", "counted"},
		{"Products.PerPanel", "counted"},
		{"Products.TemplateLength", "derived: size - (bush - cutter); offset read in question pages on guide bushes"},
		{"Products.TemplateWidth", "derived: size - (bush - cutter); offset read in question pages on guide bushes"},
		{"Products.BlankLength", "habit, 5 mm over; a magazine has 1/8 in"},
		{"Products.BlankWidth", "habit, 5 mm over; a magazine has 1/8 in"},
		{"Products.Passes", "about 1/8 in a pass (a router manual); a little into the base by habit"},
		{"Products.PathM", "derived: the cutter's centre, once round a pass"},
		{"Products.BevelFaceMM", "derived: depth times root of 2"},
		{"Products.EdgeLeft", "derived"},
		{"Products.StandsLength", "derived"},
		{"Products.StandsWidth", "derived"},
		{"Products.TopLength", "derived"},
		{"Products.TopWidth", "derived"},
		{"Products.HoleCentres", "derived: even gaps"},
		{"Products.HoleGap", "derived: even gaps"},
		{"Products.FloorLeft", "derived; 3 mm for the point of the bit by habit"},
		{"Products.BevelCM3", "derived"},
		{"Products.HolesCM3", "derived"},
		{"Products.RemovedCM3", "derived"},
		{"Products.WeightKg", "derived: density from the timber table, at 12 % moisture"},
		{"Products.FinishM2", "derived: both faces and the edge, without bevels and holes"},
		{"Finish.Pieces", "counted"},
		{"Finish.AreaM2", "derived"},
		{"Finish.OilMl", "default of 60 ml/m2 a coat from memory, no published figure found: learn it from your own bottle"},
		{"Finish.OilG", "default density 0.85 g/ml from memory"},
		{"Finish.WaxG", "habit: your ratio, by mass"},
		{"Finish.Evenings", "habit: one coat an evening, as many pieces as lie on the rack"},
		{"Price.Pieces", "counted"},
		{"Price.Materials", "your price; offcuts are not free"},
		{"Price.Labour", "your minutes and rate"},
		{"Price.Fixed", "your figure"},
		{"Price.Each", "derived: timber, labour and fixed cost shared by the pieces"},
		{"Price.AtCost", "derived: cost and the sale's fee, no margin"},
		{"Price.BreakEven", "derived: stall by what a piece earns, labour not paid out"},
	}
}

// SourceOf gives the source of a figure named as in Sources, or nothing.
func SourceOf(figure string) string {
	for _, s := range Sources() {
		if s.Figure == figure {
			return s.Text
		}
	}
	return ""
}
