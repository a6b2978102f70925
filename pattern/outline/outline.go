// Package outline lays the products that are cut from a glued panel in rows, on a panel
// whose strips may end raggedly. What they look like is one type a shape, listed in
// Shapes.
//
// Along is measured from the datum end, across from edge A, the left edge of strip 1.
// Products stand in rows, never "as many as fit": a mixed or turned arrangement can
// hold more.
//
// All of it is exact. A product's edges lie on whole nanometres. The half chord of a
// round or an oval within a strip is a square root: it is taken by integers and rounded
// away from what is allowed, so that a product never fits by rounding and an edge lies
// less than a nanometre from its exact earliest place. Beside knots and staggered
// neighbours an oval keeps at least what is exact. A centre is that of the
// edges, rounded down where the size is an odd number of nanometres.
package outline

import "example.com/oddments/pattern/shop"

// Cut says how products are set out and cut.
type Cut = shop.Cut
