package suggest

import (
	"example.com/oddments/pattern/length"
	"example.com/oddments/pattern/movement"
	"example.com/oddments/pattern/shop/shoptest"
	"example.com/oddments/species"
)

const mm = length.Millimetre

func physics() movement.Physics { return movement.New(species.Builtin(), shoptest.Roomy()) }
