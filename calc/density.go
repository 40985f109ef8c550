package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// WaterDensity is the density of water that relative densities refer to: 1000
// kg/m3, a round figure, from which water differs by less than 0.2 % up to 20 C
// (from memory). The trade's 8.34 lb/gal is 999.35 kg/m3, also within 0.2 %;
// with either, a flow comes out the same to 0.04 %, less than any jug shows.
const WaterDensity = 1000 * unit.KilogramPerCubicMetre

// RelativeDensity returns a liquid's density as a fraction of that of water,
//
//	d = liquid / WaterDensity
//
// The density must be above zero.
//
// Source: SG = lb per gal / 8.34, University of Nebraska-Lincoln CropWatch, 2016,
// https://cropwatch.unl.edu/2016/setting-sprayer-flow-rate-non-water-solutions
func RelativeDensity(liquid unit.Density) unit.Ratio {
	return unit.Ratio(liquid / WaterDensity)
}

// LiquidFlow returns what a nozzle gives of a liquid at the pressure at which it
// gives the flow water of water,
//
//	q = water / sqrt(rd)
//
// rd is the relative density; both must be above zero. The law is for liquids
// that run about as freely as water, such as solution fertilizer; a thick one
// has to be caught itself.
//
// Source: the conversion factor sqrt(SG), University of Nebraska-Lincoln
// CropWatch, 2016, as above; University of Georgia Extension, Spraying Solutions
// Other Than Water, seen in a copy only.
func LiquidFlow(water unit.FlowRate, rd unit.Ratio) unit.FlowRate {
	return unit.FlowRate(float64(water) / math.Sqrt(float64(rd)))
}

// WaterEquivalent is the inverse of LiquidFlow: the flow to look for in a chart
// made with water, or to catch with water, where the flow liquid of a liquid is
// wanted,
//
//	water = q x sqrt(rd)
func WaterEquivalent(liquid unit.FlowRate, rd unit.Ratio) unit.FlowRate {
	return unit.FlowRate(float64(liquid) * math.Sqrt(float64(rd)))
}

// oneDensity is the relative density out of the two ways to give it, of which an
// operation refuses both at once; zero when neither is given.
func oneDensity(rd unit.Ratio, liquid unit.Density) unit.Ratio {
	if liquid != 0 {
		return RelativeDensity(liquid)
	}
	return rd
}

// WarnUnusualDensity is the warning for a relative density outside leastDensity to
// mostDensity.
const WarnUnusualDensity = "unusual_density"

// Densities outside which a liquid is hardly sprayed: oils have about 0.85 of water's,
// solutions of nitrogen 1.28 to 1.33, of phosphate 1.4. Own judgement, no published
// source.
const (
	leastDensity unit.Ratio = 0.8
	mostDensity  unit.Ratio = 1.5
)

// warnDensity looks at the one of the two ways to give a density that was taken.
func warnDensity(rd unit.Ratio, liquid unit.Density) []finding.Warning {
	place, one := finding.Member("relativeDensity"), oneDensity(rd, liquid)
	if liquid != 0 {
		place = finding.Member("liquidDensity")
	}
	if one == 0 || between(float64(one/leastDensity), 1, float64(mostDensity/leastDensity)) {
		return nil
	}
	return []finding.Warning{{Place: place, Code: WarnUnusualDensity}}
}
