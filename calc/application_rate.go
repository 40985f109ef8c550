package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// ApplicationRateInput holds exactly three of the four that make a rate: flow,
// speed, width per nozzle, rate. What is left out of the four is solved for.
type ApplicationRateInput struct {
	// NozzleFlowRate is the flow of one nozzle, of the liquid itself.
	NozzleFlowRate unit.FlowRate
	// Nozzle with SprayPressure stands in for NozzleFlowRate: its rated flow of
	// water is moved to the pressure and to the liquid. A Nozzle that gives no
	// more than its PressureRange stands in for nothing; SprayPressure is then
	// only held against that range.
	Nozzle        Nozzle
	SprayPressure unit.Pressure
	GroundSpeed   unit.Speed
	// SprayedWidthPerNozzle is the share of the treated width that one nozzle
	// serves; on a plain boom the nozzle spacing.
	SprayedWidthPerNozzle unit.Length
	// Width, of a band, a bed, a row or a swath, stands in for it together with
	// the number of Nozzles that treat it. Nozzles alone adds the Width to the
	// result.
	Width   unit.Length
	Nozzles int
	// ApplicationRate is the volume per treated area, also where RateBasis says
	// field: the basis is that of the target and the label.
	ApplicationRate unit.ApplicationRate

	// RelativeDensity, or LiquidDensity instead of it, is that of the liquid.
	RelativeDensity unit.Ratio
	LiquidDensity   unit.Density

	// RowSpacing is the distance of rows or beds, centre to centre, where only
	// Width of it is treated.
	RowSpacing unit.Length
	// TargetApplicationRate and LabelMaximum are what the rate is held against.
	TargetApplicationRate unit.ApplicationRate
	LabelMaximum          unit.ApplicationRate
	LabelMinimum          unit.ApplicationRate
	// RateTolerance is that of the target; zero stands for DefaultRateTolerance.
	// The label's maximum and minimum have none.
	RateTolerance unit.Ratio
	// RateBasis tells which area the target and the label mean. It must be given
	// with RowSpacing, since the two then differ; otherwise they are the same.
	RateBasis RateBasis
	// StandardUncertainties are those of the figures given, where they are known.
	StandardUncertainties RateStandards
}

// A RateBasis is the area that a rate refers to.
type RateBasis string

// The bases of a rate.
const (
	RateBasisNone    RateBasis = ""        // not given
	RateBasisTreated RateBasis = "treated" // the area under the spray
	RateBasisField   RateBasis = "field"   // the whole field, rows and gaps
)

var rateBases = []RateBasis{RateBasisTreated, RateBasisField}

// Words lists the bases.
func (RateBasis) Words() []string { return finding.WordsOf(rateBases) }

// A Solved names the one of the four that was solved for.
type Solved string

const (
	SolvedNozzleFlowRate        Solved = "nozzleFlowRate"
	SolvedGroundSpeed           Solved = "groundSpeed"
	SolvedSprayedWidthPerNozzle Solved = "sprayedWidthPerNozzle"
	SolvedApplicationRate       Solved = "applicationRate"
)

// Words lists all four.
func (Solved) Words() []string {
	return finding.WordsOf([]Solved{SolvedNozzleFlowRate, SolvedGroundSpeed, SolvedSprayedWidthPerNozzle, SolvedApplicationRate})
}

// ApplicationRateResult holds all four and what follows from them.
type ApplicationRateResult struct {
	SolvedFor             Solved
	NozzleFlowRate        unit.FlowRate // of the liquid
	GroundSpeed           unit.Speed
	SprayedWidthPerNozzle unit.Length
	ApplicationRate       unit.ApplicationRate // per treated area

	Width                   unit.Length          // zero when Nozzles is not known
	FieldApplicationRate    unit.ApplicationRate // zero without RowSpacing
	WaterEquivalentFlowRate unit.FlowRate        // of one nozzle; zero without a density

	RateTolerance unit.Ratio      // the one applied; zero without a target
	Deviation     unit.Ratio      // from the target, on its basis
	Verdict       finding.Verdict // NotJudged without a target
	// LabelVerdict is Outside when the rate is over LabelMaximum, by however
	// little, and NotJudged without one. LabelMinimumVerdict likewise when it is under
	// LabelMinimum.
	LabelVerdict, LabelMinimumVerdict finding.Verdict
	// BasisDoubtful tells that the rate misses its target by as much as treated and field
	// area differ; see WarnRateBasisDoubtful.
	BasisDoubtful bool
	Warnings      []finding.Warning

	Uncertainty *RateUncertainty // nil where nothing is known of it
}

// Codes of violations of ApplicationRate.
const (
	CodeNeedThreeOfFour   = "need_three_of_four"  // fewer than three of the four
	CodeAllFourGiven      = "all_four_given"      // nothing is left to solve for
	CodeRateBasisRequired = "rate_basis_required" // treated or field: they differ
)

// Warning codes of ApplicationRate, beside WarnUnusualSpeed.
const (
	WarnUnusualRate          = "unusual_rate"                  // solved, and outside 1 to 2000 L/ha
	WarnWidthOverRowSpacing  = "width_exceeds_row_spacing"     // the treated widths overlap
	WarnPressureOutsideRange = "pressure_outside_nozzle_range" // the nozzle is not made for it
	WarnSprayPressureUnused  = "spray_pressure_unused"         // no nozzle was given to use it
	// WarnRateBasisDoubtful: the rate is out of tolerance, and to its target as the treated
	// width is to the row spacing, or the other way round, within basisAlike: the target may
	// mean the other area. Own judgement, no published source.
	WarnRateBasisDoubtful = "rate_basis_doubtful"
	WarnToleranceUnused   = "tolerance_unused" // no rate was given that it is a tolerance of
)

// Rates outside which a sprayer hardly works. Common practice, no published
// source.
const (
	leastRate = 1 * unit.LitrePerHectare
	mostRate  = 2000 * unit.LitrePerHectare
)

// basisAlike is how far a rate over its target may be from the treated share of the field
// for WarnRateBasisDoubtful.
const basisAlike = 0.03

// ApplicationRate solves
//
//	R = q / (v x w)
//
// for whichever of the four is not given: R the rate per treated area, q the flow
// of one nozzle, v the ground speed, w the width per nozzle, which is also
// Width / Nozzles. With RowSpacing the rate per field area is R x Width /
// RowSpacing. A density adds the flow of water that the nozzle would give, q x
// sqrt(rd). Deviation is (rate - target) / target.
//
// All quantities must be finite and not below zero. The error is finding.Invalid. Beside
// not_positive, not_finite, not_allowed and the codes of Nozzle.Rating under
// Nozzle, its codes are
//   - need_three_of_four, on the first that is missing of NozzleFlowRate,
//     GroundSpeed, SprayedWidthPerNozzle, ApplicationRate, in this order, and
//     all_four_given, on ApplicationRate;
//   - conflict, on the second of two ways to say the same: on Nozzle beside
//     NozzleFlowRate, Width beside SprayedWidthPerNozzle, LiquidDensity beside
//     RelativeDensity;
//   - required, on SprayPressure with a Nozzle; on Nozzles with Width, since
//     taking one nozzle for granted would be a guess; on Width where RowSpacing
//     needs it and neither it nor Nozzles is given; on RowSpacing with
//     RateBasisField;
//   - rate_basis_required, on RateBasis;
//   - above_label_maximum and below_label_minimum, on TargetApplicationRate.
//
// Sources: GPA = 5940 x GPM / (mph x in), Mississippi State University Extension,
// 2020, https://www.mississippi-crops.com/2020/05/02/calibration-of-in-furrow-sprays/ ;
// L/ha = 600 x L/min / (km/h x m), seen in a copy only; treated fraction = bed width / row
// spacing, UF/IFAS Extension ENY-047, 2012, http://edis.ifas.ufl.edu/in404 ; density, see
// LiquidFlow.
func ApplicationRate(in ApplicationRateInput) (ApplicationRateResult, error) {
	if err := in.check(); err != nil {
		return ApplicationRateResult{}, err
	}
	r := in.solve()
	if in.Nozzles != 0 {
		r.Width = in.Width
		if r.Width == 0 {
			r.Width = r.SprayedWidthPerNozzle * unit.Length(in.Nozzles)
		}
	}
	if in.RowSpacing != 0 {
		r.FieldApplicationRate = r.ApplicationRate * unit.ApplicationRate(r.Width/in.RowSpacing)
	}
	if rd := oneDensity(in.RelativeDensity, in.LiquidDensity); rd != 0 {
		r.WaterEquivalentFlowRate = WaterEquivalent(r.NozzleFlowRate, rd)
	}
	r.judge(in)
	r.warn(in)
	r.Uncertainty = r.uncertainty(&in)
	return r, nil
}

// solvedFor is the first of the four that is missing, in the order of Solved.
func (in ApplicationRateInput) solvedFor() Solved {
	switch {
	case in.ApplicationRate == 0:
		return SolvedApplicationRate
	case in.NozzleFlowRate == 0 && !in.Nozzle.given():
		return SolvedNozzleFlowRate
	case in.GroundSpeed == 0:
		return SolvedGroundSpeed
	}
	return SolvedSprayedWidthPerNozzle
}

// solve fills the four. The input has passed its check, so one is missing.
func (in ApplicationRateInput) solve() ApplicationRateResult {
	q, v, w, rate := in.flow(), in.GroundSpeed, in.SprayedWidthPerNozzle, in.ApplicationRate
	if in.Width != 0 {
		w = in.Width / unit.Length(in.Nozzles)
	}
	var solved Solved
	switch {
	case rate == 0:
		solved = SolvedApplicationRate
		rate = unit.ApplicationRate(float64(q) / (float64(v) * float64(w)))
	case q == 0:
		solved = SolvedNozzleFlowRate
		q = unit.FlowRate(float64(rate) * float64(v) * float64(w))
	case v == 0:
		solved = SolvedGroundSpeed
		v = unit.Speed(float64(q) / (float64(rate) * float64(w)))
	default:
		solved = SolvedSprayedWidthPerNozzle
		w = unit.Length(float64(q) / (float64(rate) * float64(v)))
	}
	return ApplicationRateResult{
		SolvedFor: solved, NozzleFlowRate: q, GroundSpeed: v, SprayedWidthPerNozzle: w, ApplicationRate: rate,
	}
}

// flow is the flow of the liquid that was given, in one way or the other; zero
// when it was not.
func (in ApplicationRateInput) flow() unit.FlowRate {
	if !in.Nozzle.given() {
		return in.NozzleFlowRate
	}
	q := in.Nozzle.FlowAt(in.SprayPressure)
	if rd := oneDensity(in.RelativeDensity, in.LiquidDensity); rd != 0 {
		q = LiquidFlow(q, rd)
	}
	return q
}

// judge holds the rate against the target and against the label.
func (r *ApplicationRateResult) judge(in ApplicationRateInput) {
	rate := float64(r.ApplicationRate)
	if in.RateBasis == RateBasisField {
		rate = float64(r.FieldApplicationRate)
	}
	if in.TargetApplicationRate != 0 {
		r.Deviation, r.RateTolerance, r.Verdict = rateVerdict(rate, in.TargetApplicationRate, in.RateTolerance)
	}
	if share := float64(r.Width / in.RowSpacing); r.Verdict == finding.Outside { // without rows nothing is alike
		alike := func(ratio float64) bool {
			return finding.Judge((1+float64(r.Deviation))/ratio-1, basisAlike) == finding.Within
		}
		r.BasisDoubtful = alike(share) || alike(1/share)
	}
	r.LabelVerdict = keeps(in.LabelMaximum, rate/float64(in.LabelMaximum))
	r.LabelMinimumVerdict = keeps(in.LabelMinimum, float64(in.LabelMinimum)/rate)
}

// keeps judges a limit of the label, of which share is used up, where it is given.
func keeps(limit unit.ApplicationRate, share float64) finding.Verdict {
	switch {
	case limit == 0:
		return finding.NotJudged
	case finding.AtMost(share, 1):
		return finding.Within
	}
	return finding.Outside
}

// rateVerdict returns how far a rate is from what was wanted or expected, the
// tolerance applied and the verdict.
func rateVerdict(rate float64, wanted unit.ApplicationRate, tolerance unit.Ratio) (unit.Ratio, unit.Ratio, finding.Verdict) {
	if tolerance == 0 {
		tolerance = DefaultRateTolerance
	}
	d := finding.Deviation(rate, float64(wanted))
	return unit.Ratio(d), tolerance, finding.Judge(d, float64(tolerance))
}

func (r *ApplicationRateResult) warn(in ApplicationRateInput) {
	add := func(place finding.Place, code string) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: place, Code: code})
	}
	if unusualSpeed(r.GroundSpeed) {
		add(finding.Member("groundSpeed"), WarnUnusualSpeed)
	}
	if unusualFlow(r.NozzleFlowRate) {
		add(finding.Member("nozzleFlowRate"), WarnUnusualFlow)
	}
	r.Warnings = append(r.Warnings, warnDensity(in.RelativeDensity, in.LiquidDensity)...)
	if r.SolvedFor == SolvedApplicationRate && unusualRate(r.ApplicationRate) {
		add(finding.Member("applicationRate"), WarnUnusualRate)
	}
	if in.RowSpacing != 0 && !finding.AtMost(float64(r.Width/in.RowSpacing), 1) {
		add(finding.Member("width"), WarnWidthOverRowSpacing)
	}
	if r.BasisDoubtful {
		add(finding.Member("rateBasis"), WarnRateBasisDoubtful)
	}
	if AimBelow(in.TargetApplicationRate, in.LabelMaximum) != 0 {
		add(finding.Member("targetApplicationRate"), WarnTargetNearLabel)
	}
	if in.RateTolerance != 0 && in.TargetApplicationRate == 0 {
		add(finding.Member("rateTolerance"), WarnToleranceUnused)
	}
	r.Warnings = append(r.Warnings, in.Nozzle.warnChart(finding.Member("nozzle"))...)
	if in.SprayPressure != 0 {
		if unusualPressure(in.SprayPressure) {
			add(finding.Member("sprayPressure"), WarnUnusualPressure)
		}
		if in.Nozzle.chartHolds(in.SprayPressure) == finding.Outside {
			add(finding.Member("sprayPressure"), WarnOutsideFlowChart)
		}
		if in.Nozzle.farFromRating(in.SprayPressure) {
			add(finding.Member("sprayPressure"), WarnFarFromRating)
		}
		switch {
		case in.Nozzle.PressureRange.holds(in.SprayPressure) == finding.Outside:
			add(finding.Member("sprayPressure"), WarnPressureOutsideRange)
		case !in.Nozzle.given() && in.Nozzle.PressureRange == PressureRange{}:
			add(finding.Member("sprayPressure"), WarnSprayPressureUnused)
		}
	}
}

// unusualRate tells whether a rate lies outside leastRate to mostRate.
func unusualRate(rate unit.ApplicationRate) bool {
	return !between(float64(rate/leastRate), 1, float64(mostRate/leastRate))
}
