package check

import "context"

// A Rule is one thing that a pattern is checked for.
type Rule struct {
	ID   string // stable: scripts go by it
	Asks string // what it looks for, in a few words
	find func(*board) []Finding

	// Of one that takes too long for a key: whether there is anything to look for, and the
	// findings, which are none where the context ends before.
	wants func(*board) bool
	late  func(context.Context, *board) []Finding
}

// Rules lists every rule in the order of its findings. A new rule is one entry here.
func Rules() []Rule {
	return []Rule{
		{ID: RuleFit, Asks: "products that do not come out of the panel", find: fitRule},
		{ID: "movement", Asks: "glue lines that will step or strain over the seasons", find: movementRule},
		{ID: "moisture", Asks: "neighbours glued at different moisture", find: moistureRule},
		{ID: "rings", Asks: "end grain to look at, where unknown rings leave a level open", find: ringsRule},
		{ID: "lean", Asks: "rift strips that lean against each other and stand in ridges", wants: leans, late: leanRule},
		{ID: "bark", Asks: "end grain to look at, where rift strips may lean against each other", find: barkRule},
		{ID: "figure", Asks: "timbers without a figure for movement", find: figureRule},
		{ID: "contrast", Asks: "neighbours that read as one", find: contrastRule},
		{ID: "width", Asks: "the glue-up width against the wanted one", find: widthRule},
		{ID: "thicknesser", Asks: "a panel wider than the thicknesser", find: thicknesserRule},
		{ID: "ends", Asks: "strips that stop short of the finished panel", find: endsRule},
		{ID: "standing_out", Asks: "a strip end that stands out alone", find: standingOutRule},
		{ID: "few", Asks: "too few strips for a panel", find: fewRule},
		{ID: "food", Asks: "timbers better kept off boards that food touches", find: foodRule},
		{ID: "open_pored", Asks: "timbers with open pores", find: openPoredRule},
		{ID: "oily", Asks: "timbers whose oil troubles glue", find: oilyRule},
		{ID: "dust", Asks: "timbers whose dust sensitises", find: dustRule},
		{ID: "listed", Asks: "timbers listed by CITES", find: listedRule},
	}
}
