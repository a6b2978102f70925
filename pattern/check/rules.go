package check

// A Rule is one thing that a pattern is checked for.
type Rule struct {
	ID   string // stable: scripts go by it
	Asks string // what it looks for, in a few words
	find func(*board) []Finding
}

const ruleContrast = "contrast"

// Rules lists every rule in the order of its findings. A new rule is one entry here.
func Rules() []Rule {
	return []Rule{
		{RuleFit, "products that do not fit on the panel", fitRule},
		{"movement", "glue lines that will step or strain over the seasons", movementRule},
		{"moisture", "neighbours glued at different moisture", moistureRule},
		{"rings", "end grain to check, where unknown rings leave a level open", ringsRule},
		{"lean", "rift strips that lean against each other and form ridges", leanRule},
		{"bark", "end grain to check, where rift strips may lean against each other", barkRule},
		{"figure", "timbers without a figure for movement", figureRule},
		{ruleContrast, "neighbours that look like one strip", contrastRule},
		{"width", "the glue-up width next to the width you want", widthRule},
		{"thicknesser", "a panel wider than the thicknesser", thicknesserRule},
		{"bars", "bars of a second glue-up that do not come out", barsRule},
		{"bar_saw", "bars thicker than the saw cuts", barSawRule},
		{"cells", "bar lines whose cells will strain or step over the seasons", cellsRule},
		{"rows", "rows of an end-grain board that are stretched", rowsRule},
		{"grain_joint", "glue lines on cut grain", grainJointRule},
		{"turned_alike", "bars turned end for end to no effect", turnedAlikeRule},
		{"near_miss", "strip lines that nearly meet at a bar line", nearMissRule},
		{"frame", "how an end-grain board moves in a frame", frameRule},
		{"ends", "strips that stop short of the finished panel", endsRule},
		{"standing_out", "a strip end that sticks out alone", standingOutRule},
		{"joint_shows", "joints of pieces that no product hides", jointShowsRule},
		{"joints_beside", "neighbours whose pieces meet at one place", jointsBesideRule},
		{"parted", "places that fewer than two strips bridge", partedRule},
		{"short_piece", "pieces shorter than the workshop likes to cut", shortPieceRule},
		{"open_strip", "strips that are open where clamps press", openStripRule},
		{"few", "too few strips for a panel", fewRule},
		{"food", "timbers better kept off boards that food touches", foodRule},
		{"open_pored", "timbers with open pores", openPoredRule},
		{"oily", "timbers whose oil troubles glue", oilyRule},
		{"dust", "timbers whose dust sensitises", dustRule},
		{"listed", "timbers listed by CITES", listedRule},
	}
}
