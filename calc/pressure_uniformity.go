package calc

import (
	"slices"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// PressureUniformityInput is what a crew reads along the boom, and in the cab.
type PressureUniformityInput struct {
	// Readings holds at least one reading at the nozzles; three or more, spread
	// over left, center and right, show what the boom does.
	Readings []unit.Pressure
	// MaxDifference is how far the highest may lie above the lowest. Zero stands
	// for DefaultPressureDifference.
	MaxDifference unit.Pressure
	// MaxShare, instead of MaxDifference, says it as a share of the mean.
	MaxShare unit.Ratio
	// CabPressure is what the gauge at the seat shows meanwhile. It may be left out.
	CabPressure unit.Pressure
	// TargetPressure is the pressure wanted at the boom. With CabPressure it asks
	// for the cab reading that means it.
	TargetPressure unit.Pressure
	// PressureRange is the nozzle's own working range. It may be left out.
	PressureRange PressureRange
	// Gauges names the gauge of each reading, and Positions its side of the boom, as far as
	// they go; see Measuring.
	Gauges    []string
	Positions []certainty.Position
	Measuring certainty.Measuring
}

// PressureUniformityResult tells how even the boom is, and what the cab gauge is
// worth.
type PressureUniformityResult struct {
	Highest, Lowest, Mean unit.Pressure
	Spread                unit.Pressure   // Highest - Lowest
	MaxDifference         unit.Pressure   // the one applied
	Even                  finding.Verdict // NotJudged for one reading
	// FlowSpread is how much more the nozzle at Highest gives than the same
	// nozzle at Lowest.
	FlowSpread unit.Ratio
	// FlowAtMaxDifference is what FlowSpread would be with readings exactly
	// MaxDifference apart about this Mean. Zero when half of it is no less than
	// Mean: the lower of them would then not be above zero.
	FlowAtMaxDifference unit.Ratio

	HasCab    bool          // whether CabPressure was given
	CabOffset unit.Pressure // CabPressure - Mean; below zero when the cab reads less
	// CabDiffers is Outside when CabOffset is more than 10 % of Mean; NotJudged
	// without a cab reading.
	CabDiffers finding.Verdict
	// CabIfGaugeError and CabIfHoseLoss are the cab readings that mean
	// TargetPressure at the boom, by either explanation of CabOffset. Zero without
	// both pressures, or when no reading above zero would mean it.
	CabIfGaugeError, CabIfHoseLoss unit.Pressure

	ReadingInRange []finding.Verdict // in the order of the input; nil without a PressureRange
	MeanInRange    finding.Verdict   // NotJudged without a PressureRange
	Warnings       []finding.Warning

	GaugeTooCoarse bool // its marks are, to tell whether the boom is even

	Uncertainty *PressureUncertainty // nil unless asked for
}

// Warning codes of PressureUniformity, beside WarnPressureOutsideRange.
const (
	WarnSingleReading   = "single_reading"    // one reading cannot show whether others agree
	WarnFewReadings     = "few_readings"      // two readings leave a part of the boom unseen
	WarnCabGaugeDiffers = "cab_gauge_differs" // a wrong gauge, or loss in the hoses
	WarnUnusualPressure = "unusual_pressure"  // outside 5 to 1000 psi
	WarnFlowSpreadWide  = "flow_spread_wide"  // even by its difference, but not by what that does to flow
	// WarnPressureShareWide: even by its difference, which is more than WidePressureShare of
	// the mean.
	WarnPressureShareWide = "pressure_share_wide"
)

// WidePressureShare is the difference, as a share of the pressure, above which inspections
// fail a boom: the fall along a line in Ireland, and that from 3 bar to the end of the boom
// in Uruguay (2.7 bar). Sources: see publishedRules.
const WidePressureShare = 10 * unit.Percent

// cabAgreement is how far the cab may be from the boom before it is warned of.
// Source: the pressure at the nozzle is often 10 to 20 % below the gauge seen from
// the tractor seat, Washington State University, Tree Fruit, Under Pressure,
// http://treefruit.wsu.edu/article/under-pressure-pressure-gauge-practices-for-sprayers/
const cabAgreement = 10 * unit.Percent

// Pressures outside which a sprayer hardly works. Common practice, no published
// source.
const (
	leastPressure = 5 * unit.PoundPerSquareInch
	mostPressure  = 1000 * unit.PoundPerSquareInch
)

// PressureUniformity judges pressures read along the boom by their difference,
//
//	spread = p_max - p_min
//
// and says what it does to the flow of equal nozzles, which goes with the root of
// pressure, so that the same difference matters less at a high pressure:
//
//	flow spread = sqrt(p_max / p_min) - 1
//
// The largest difference may be given as a share of the mean too. A boom within it whose
// pressures differ by more than WidePressureShare of their mean is warned of
// (pressure_share_wide): 10 psi is a quarter of 40 psi.
//
// A boom that is even by its difference, but makes equal nozzles differ by more than
// twice DefaultOutputTolerance, is warned of (flow_spread_wide): no nozzle there could
// be told from a worn one. That bound is own judgement.
//
// A cab gauge that reads other than the mean of the boom may be wrong by a fixed
// amount or may see the loss in the hoses, which goes with the flow squared, and
// so with pressure. The cab reading that means the target is then
//
//	target + (cab - mean)     if the gauge is wrong
//	target x cab / mean       if the hoses lose it
//
// Pressures are gauge pressures in pascals, finite and above zero, of which at
// least one reading: finding.Invalid otherwise, with codes too_few, required,
// not_positive, not_finite, and range_inverted for PressureRange.
//
// Source: Q1/Q2 = sqrt(p1/p2), see FlowAtPressure. Judging by the difference is
// common practice; that a pressure drop in pipes grows with the flow squared is
// from memory (Darcy and Weisbach, at a constant friction factor).
func PressureUniformity(in PressureUniformityInput) (PressureUniformityResult, error) {
	if err := in.check(); err != nil {
		return PressureUniformityResult{}, err
	}
	r := PressureUniformityResult{MaxDifference: in.MaxDifference}
	r.summarize(in.Readings)
	switch {
	case in.MaxShare != 0:
		r.MaxDifference = unit.Pressure(in.MaxShare) * r.Mean
	case in.MaxDifference == 0:
		r.MaxDifference = DefaultPressureDifference
	}
	if half := r.MaxDifference / 2; half < r.Mean {
		r.FlowAtMaxDifference = flowSpread(r.Mean+half, r.Mean-half)
	}
	switch n := len(in.Readings); {
	case n == 1:
		r.warn(finding.Member("readings"), WarnSingleReading)
	case n < FewestReadings:
		r.warn(finding.Member("readings"), WarnFewReadings)
	}
	if len(in.Readings) > 1 {
		r.Even = finding.Judge(float64(r.Spread/r.MaxDifference), 1)
		if r.Even == finding.Within && !finding.AtMost(float64(r.FlowSpread), 2*float64(DefaultOutputTolerance)) {
			r.warn(finding.Member("readings"), WarnFlowSpreadWide)
		}
		if r.Even == finding.Within && !finding.AtMost(float64(r.Spread/r.Mean), float64(WidePressureShare)) {
			r.warn(finding.Member("readings"), WarnPressureShareWide)
		}
	}
	r.compareCab(in)
	r.compareRange(in)
	if r.GaugeTooCoarse = r.coarse(&in); r.GaugeTooCoarse {
		r.warn(finding.Member("readings"), WarnGaugeTooCoarse)
	}
	if in.Measuring.Uncertainty {
		r.Uncertainty = r.uncertainty(&in)
	}
	return r, nil
}

// summarize finds the extremes and the mean. The mean is taken above the lowest
// reading, so that equal readings have exactly themselves as their mean.
func (r *PressureUniformityResult) summarize(readings []unit.Pressure) {
	r.Highest, r.Lowest = readings[0], readings[0]
	for _, p := range readings {
		r.Highest = max(r.Highest, p)
		r.Lowest = min(r.Lowest, p)
	}
	var above unit.Pressure
	for _, p := range readings {
		above += p - r.Lowest
	}
	r.Mean = r.Lowest + above/unit.Pressure(len(readings))
	r.Spread = unit.Pressure(finding.Difference(float64(r.Highest), float64(r.Lowest)))
	r.FlowSpread = flowSpread(r.Highest, r.Lowest)
}

// flowSpread is how much more a nozzle gives at high than at low.
func flowSpread(high, low unit.Pressure) unit.Ratio {
	return unit.Ratio(finding.Deviation(power(float64(high/low), SquareRoot), 1))
}

func (r *PressureUniformityResult) compareCab(in PressureUniformityInput) {
	if in.CabPressure == 0 {
		return
	}
	r.HasCab = true
	r.CabOffset = unit.Pressure(finding.Difference(float64(in.CabPressure), float64(r.Mean)))
	r.CabDiffers = finding.Judge(float64(r.CabOffset/r.Mean), float64(cabAgreement))
	if r.CabDiffers == finding.Outside {
		r.warn(finding.Member("cabPressure"), WarnCabGaugeDiffers)
	}
	if in.TargetPressure != 0 {
		r.CabIfGaugeError = max(in.TargetPressure+r.CabOffset, 0)
		r.CabIfHoseLoss = in.TargetPressure * (in.CabPressure / r.Mean)
	}
}

// compareRange holds every pressure against the nozzle's range and against what
// is usual.
func (r *PressureUniformityResult) compareRange(in PressureUniformityInput) {
	if in.PressureRange != (PressureRange{}) {
		r.ReadingInRange = make([]finding.Verdict, len(in.Readings))
		r.MeanInRange = in.PressureRange.holds(r.Mean)
	}
	for i, p := range in.Readings {
		if r.ReadingInRange != nil {
			r.ReadingInRange[i] = in.PressureRange.holds(p)
			if r.ReadingInRange[i] == finding.Outside {
				r.warn(finding.Item("readings", i), WarnPressureOutsideRange)
			}
		}
		if unusualPressure(p) {
			r.warn(finding.Item("readings", i), WarnUnusualPressure)
		}
	}
	if unusualPressure(in.CabPressure) {
		r.warn(finding.Member("cabPressure"), WarnUnusualPressure)
	}
	if unusualPressure(in.TargetPressure) {
		r.warn(finding.Member("targetPressure"), WarnUnusualPressure)
	}
	if in.TargetPressure != 0 && in.PressureRange.holds(in.TargetPressure) == finding.Outside {
		r.warn(finding.Member("targetPressure"), WarnPressureOutsideRange)
	}
}

// unusualPressure tells whether a pressure that was given is outside what sprayers run at.
func unusualPressure(p unit.Pressure) bool {
	usual := PressureRange{leastPressure, mostPressure}
	return p != 0 && usual.holds(p) == finding.Outside
}

// lowest is which of the readings is the lowest.
func (r *PressureUniformityResult) lowest(readings []unit.Pressure) int {
	return slices.Index(readings, r.Lowest)
}

// position is the side of the boom at which a pressure was read.
func (in *PressureUniformityInput) position(i int) certainty.Position {
	if i < len(in.Positions) {
		return in.Positions[i]
	}
	return certainty.Unplaced
}

func (r *PressureUniformityResult) warn(place finding.Place, code string) {
	r.Warnings = append(r.Warnings, finding.Warning{Place: place, Code: code})
}

func (in PressureUniformityInput) check() error {
	var v finding.Invalid
	if len(in.Readings) == 0 {
		v.Add(finding.Member("readings"), finding.CodeTooFew)
	}
	for i, p := range in.Readings {
		v.Positive(float64(p), finding.Item("readings", i))
		in.Measuring.CheckInstrument(&v, certainty.Gauge, in.gauge(i), func() finding.Place { return finding.Item("readings", i).Member("gauge") })
	}
	in.Measuring.Check(&v)
	v.Optional(float64(in.MaxDifference), finding.Member("maxDifference"))
	v.Optional(float64(in.MaxShare), finding.Member("maxDifference"))
	v.Optional(float64(in.CabPressure), finding.Member("cabPressure"))
	v.Optional(float64(in.TargetPressure), finding.Member("targetPressure"))
	return append(v, in.PressureRange.check().Under(finding.Member("pressureRange"))...).Err()
}
