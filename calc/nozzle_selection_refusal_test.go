package calc_test

import (
	"math"
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

const gallonPerMinute = unit.USGallonPerMinute

// gallonsAt is the rate at which an 025 rated at 40 psi stands at a pressure.
func gallonsAt(psi float64) unit.ApplicationRate {
	return unit.ApplicationRate(14.85*math.Sqrt(psi/40)) * unit.USGallonPerAcre
}

// speedAt is the speed for a pressure where 5 mph is 40 psi.
func speedAt(psi float64) unit.Speed {
	return unit.Speed(5*math.Sqrt(psi/40)) * unit.MilePerHour
}

func TestNozzleSelectionRefuses(t *testing.T) {
	in := func(change func(*calc.NozzleSelectionInput)) calc.NozzleSelectionInput {
		x := wanted("03")
		change(&x)
		return x
	}
	entry := func(change func(*calc.DropletEntry)) calc.NozzleSelectionInput {
		e := twin()[1]
		change(&e)
		return in(func(x *calc.NozzleSelectionInput) { x.DropletChart = []calc.DropletEntry{e} })
	}
	shelf := calc.ShelfNozzle{RatedFlowRate: gallonPerMinute, RatedPressure: unit.Bar}
	for want, x := range map[string]calc.NozzleSelectionInput{
		"targetApplicationRate: required; groundSpeed: required; sprayedWidthPerNozzle: required; pressureRange: required": {},
		"speedRange: conflict":               in(func(x *calc.NozzleSelectionInput) { x.SpeedRange = calc.SpeedRange{Low: 1, High: 2} }),
		"speedRange.low: range_inverted":     in(func(x *calc.NozzleSelectionInput) { x.GroundSpeed, x.SpeedRange = 0, calc.SpeedRange{Low: 2, High: 1} }),
		"speedRange.high: required":          in(func(x *calc.NozzleSelectionInput) { x.GroundSpeed, x.SpeedRange = 0, calc.SpeedRange{Low: 2} }),
		"groundSpeed: not_positive":          in(func(x *calc.NozzleSelectionInput) { x.GroundSpeed = -1 }),
		"width: conflict":                    in(func(x *calc.NozzleSelectionInput) { x.Width, x.Nozzles = 1, 2 }),
		"width: conflict; nozzles: required": in(func(x *calc.NozzleSelectionInput) { x.Width = 1 }),
		"width: not_finite": in(func(x *calc.NozzleSelectionInput) {
			x.SprayedWidthPerNozzle, x.Width, x.Nozzles = 0, unit.Length(endless), 2
		}),
		"nozzles: not_positive":             in(func(x *calc.NozzleSelectionInput) { x.Nozzles = -1 }),
		"pressureRange.low: range_inverted": in(func(x *calc.NozzleSelectionInput) { x.PressureRange = psiRange(3, 2) }),
		"liquidDensity: conflict":           in(func(x *calc.NozzleSelectionInput) { x.RelativeDensity, x.LiquidDensity = 1, 1000 }),
		"relativeDensity: not_positive":     in(func(x *calc.NozzleSelectionInput) { x.RelativeDensity = -1 }),
		"sizeRating: not_allowed":           in(func(x *calc.NozzleSelectionInput) { x.SizeRating = "other" }),
		"sizes[1]: conflict":                in(func(x *calc.NozzleSelectionInput) { x.Sizes = []calc.SizeName{"03", "03"} }),
		"sizes[0]: unknown_size":            in(func(x *calc.NozzleSelectionInput) { x.Sizes = []calc.SizeName{"3"} }),
		"sizes: conflict":                   in(func(x *calc.NozzleSelectionInput) { x.SizeRating, x.Shelf = "", []calc.ShelfNozzle{shelf} }),
		"sizeRating: conflict":              in(func(x *calc.NozzleSelectionInput) { x.Sizes, x.Shelf = nil, []calc.ShelfNozzle{shelf} }),
		"shelf[0].ratedFlowRate: required; shelf[0].ratedPressure: required; shelf[0].pressureRange.low: range_inverted": in(func(x *calc.NozzleSelectionInput) {
			x.SizeRating, x.Sizes, x.Shelf = "", nil, []calc.ShelfNozzle{{PressureRange: psiRange(2, 1)}}
		}),
		"allowedDropletClasses[0]: not_allowed; allowedDropletClasses[1]: not_allowed": in(func(x *calc.NozzleSelectionInput) {
			x.AllowedDropletClasses = []calc.DropletClass{"", "other"}
		}),
		"allowedDropletClasses[1]: conflict": in(func(x *calc.NozzleSelectionInput) {
			x.AllowedDropletClasses = []calc.DropletClass{calc.Fine, calc.Fine}
		}),
		"dropletChart[0].size: required":                    entry(func(e *calc.DropletEntry) { e.Size = "" }),
		"dropletChart[0].size: unknown_size":                entry(func(e *calc.DropletEntry) { e.Size = "3" }),
		"dropletChart[0].label: conflict":                   entry(func(e *calc.DropletEntry) { e.Label = "twin" }),
		"dropletChart[0].pressureRange: required":           entry(func(e *calc.DropletEntry) { e.PressureRange = calc.PressureRange{} }),
		"dropletChart[0].pressureRange.low: range_inverted": entry(func(e *calc.DropletEntry) { e.PressureRange = psiRange(2, 1) }),
		"dropletChart[0].dropletClass: required":            entry(func(e *calc.DropletEntry) { e.DropletClass = "" }),
		"dropletChart[0].dropletClass: not_allowed":         entry(func(e *calc.DropletEntry) { e.DropletClass = "other" }),
	} {
		r, err := calc.NozzleSelection(x)
		if refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
		if r.Candidates != nil {
			t.Errorf("%s, and yet: %+v", want, r)
		}
	}
}
