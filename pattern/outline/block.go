package outline

import (
	"example.com/oddments/pattern"
	"example.com/oddments/pattern/length"
)

// Block is the name of a rectangle with a row of holes.
const Block pattern.ShapeName = "block"

// A block is a rectangle, with holes, so all that it says of its outline is a
// rectangle's.
type block struct{ rectangle }

func (block) Name() pattern.ShapeName                   { return Block }
func (block) Also() []string                            { return nil }
func (block) Drilled() bool                             { return true }
func (block) Of(p pattern.Product) Shape                { return block{rectangle{p.Length, p.Width}} }
func (block) Resized(along, across length.Length) Shape { return block{rectangle{along, across}} }
