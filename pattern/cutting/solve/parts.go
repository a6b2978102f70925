package solve

// parts are parts of the search that only make it quicker; parts_test.go measures what each
// is worth.
type parts uint

// The parts.
const (
	branching parts = 1 << iota // proof of timbers of few pieces (branch.go)
	lastKinds                   // what sets of the last kinds cost (lastkinds.go)
	improving                   // a few pieces planned anew (improve.go)
	diving                      // rounding the relaxation, once more
)
