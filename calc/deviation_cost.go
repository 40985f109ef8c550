package calc

import "wetrun/calc/unit"

// DeviationCost is what a deviation from the target rate costs in spray mix: the
// cost of the mix per area times the deviation, and over a whole area. cost is in
// any currency per square metre, deviation a fraction above or below the target;
// a result below zero is mix saved, which the crop may pay for. It has no errors:
// what is not finite stays so.
//
// Source: a tenth too much at 25 dollars an acre is 2.50 dollars an acre and 2500
// dollars on a thousand acres, as a calibration survey puts it; see
// testdata/published/calibrations.
func DeviationCost(cost float64, deviation unit.Ratio, area unit.Area) (perArea, total float64) {
	perArea = cost * float64(deviation)
	return perArea, perArea * float64(area)
}
