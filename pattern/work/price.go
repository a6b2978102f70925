package work

import "example.com/oddments/pattern/movement"

// PriceFigures are what the job costs and must earn.
type PriceFigures struct {
	Pieces    int
	Materials float64  // timber as it leaves the rack, by the rule of thumb without a plan
	Labour    Estimate // known where the minutes are
	Fixed     float64
	Each      Estimate // cost of one piece, labour included
	AtCost    Estimate // the price that pays the cost of one piece and the sale's fee
	BreakEven Estimate // pieces that pay the stall, at the price asked, else at cost; labour is not paid out
}

func priceOf(r movement.Physics, j Job, products []ProductFigures) PriceFigures {
	var f PriceFigures
	s := r.Shop().Price
	for _, p := range products {
		f.Pieces += p.PerPanel * j.Copies
	}
	for _, t := range r.Timber(j.Pattern) {
		f.Materials += t.RoughCM3 / 1000 * s.MaterialsDM3 * float64(j.Copies)
	}
	f.Fixed = s.FixedEach * float64(f.Pieces)
	if j.Minutes > 0 {
		f.Labour = known(float64(j.Minutes) / 60 * s.RateHour)
	}
	if f.Pieces == 0 {
		return f
	}
	outlay := (f.Materials + f.Fixed) / float64(f.Pieces)
	price := j.Asked
	if f.Labour.Known {
		f.Each = known(outlay + f.Labour.Value/float64(f.Pieces))
		if s.FeePercent < 100 {
			f.AtCost = known(PriceFor(f.Each.Value, 0, s.FeePercent))
		}
	}
	if price == 0 {
		price = f.AtCost.Value
	}
	f.BreakEven = BreakEven(s.Stall, price, s.FeePercent, outlay)
	return f
}

// PriceFor returns the price at which cost leaves a margin, both it and the fee in
// percent of the price; together below 100.
func PriceFor(cost, marginPct, feePct float64) float64 { return cost / (1 - (marginPct+feePct)/100) }

// BreakEven returns how many pieces pay the fixed cost of a fair, each sold at price
// with outlay paid for it. It is not known where a piece earns nothing.
func BreakEven(fixed, price, feePct, outlay float64) Estimate {
	earns := price*(1-feePct/100) - outlay
	if earns <= 0 {
		return Estimate{}
	}
	return known(ceil(fixed / earns))
}
