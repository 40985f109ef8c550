package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleAcceptanceInput is a round of catches and the rule to judge them by.
type NozzleAcceptanceInput struct {
	// Nozzle is what the maker says. It may be left out when the catches are only
	// compared with their own mean.
	Nozzle Nozzle
	// SprayPressure is the pressure of those catches that have none of their own.
	SprayPressure unit.Pressure
	Catches       []AcceptanceCatch
	Tolerance     OutputTolerance
	// CatchPointsOnBoom is how many places there are to catch at. Zero when not
	// known. A result speaks of what was caught, never of the rest.
	CatchPointsOnBoom int
	// ReplaceAllAbove is the share outside above which all nozzles are replaced, when
	// it is wear that makes it so many. Zero stands for DefaultReplaceAllAbove.
	ReplaceAllAbove unit.Ratio
	// DutyCycle is the share of the time that pulsing nozzles were open, which is what they
	// give of their rated flow. Zero when they do not pulse.
	DutyCycle unit.Ratio
	// ReplaceAllFrom, instead of it, is how many of the whole boom are enough; it needs
	// CatchPointsOnBoom.
	ReplaceAllFrom int
	// NotJudged tells that the round rests on something that has to be put right first: what
	// it gave is said, and nothing follows from it.
	NotJudged bool
	// ReferenceChecked tells that gauge, size and jug were looked at and are right, so that a
	// set off alike is worn, however far.
	ReferenceChecked bool
	// Gauge names the one that SprayPressure was read from; see Measuring.
	Gauge     string
	Measuring certainty.Measuring

	// pressureErrors are those of a SprayPressure that is a mean of readings.
	pressureErrors *certainty.Propagation
}

// An AcceptanceCatch is a catch with its place on the boom.
type AcceptanceCatch struct {
	Catch
	Position certainty.Position
	Bed      int // counted from the left; zero when not known
	// First is the catch of the first round that this one stands in for, alone or with
	// those of the SamePoint; nil of one that was never caught again.
	First *AcceptanceCatch
	// SamePoint tells that it is of the same drop as the catch before it, as when each
	// nozzle of a drop is caught alone. Together they are one catch point.
	SamePoint bool
	// NozzlesOnDrop, instead of Nozzles, are those of a drop that carries different
	// ones. It is judged by the sum of their ratings, and left out of the mean, the
	// coefficient of variation and the sides.
	NozzlesOnDrop []DropNozzle
}

// FlowRange is a lowest and a highest flow of one nozzle. Zero is the end of a way that is
// not limited.
type FlowRange struct{ Low, High unit.FlowRate }

// VolumeRange is a lowest and a highest reading of a jug, in the same way.
type VolumeRange struct{ Low, High unit.Volume }

// NozzleAcceptanceResult is the verdict on each catch and on the round.
type NozzleAcceptanceResult struct {
	Basis           Basis
	Rated, Mean     Limits     // that were applied; zero for what nothing is compared with
	Limit           unit.Ratio // the narrowest of them
	ReplaceAllAbove unit.Ratio // zero where ReplaceAllFrom was given
	ReplaceAllFrom  int
	// SprayPressure is the working pressure that statistics refer to: the common
	// one, else the one that the catches share, else, when their own differ, the
	// lowest of them. Zero when no pressure is known.
	SprayPressure            unit.Pressure
	RatedFlowRateAtPressure  unit.FlowRate // zero without a nozzle, or when it differs from catch to catch
	AcceptableFlowRate       FlowRange     // zero when it differs from catch to catch, or when nothing is acceptable
	Catches                  []CatchResult
	MeanNozzleFlowRate       unit.FlowRate // sum of flows over sum of nozzles; zero when every drop carries different nozzles
	CoefficientOfVariation   unit.Ratio    // zero for one catch
	Sides                    []SideMean
	Tested, Outside          int
	ProportionOutside        unit.Ratio // of the points caught: a drop caught nozzle by nozzle is one
	LargestHiddenDeviation   unit.Ratio // of all catches within; zero when none has several nozzles
	Decision                 Decision
	Actions                  []Action
	Warnings                 []finding.Warning
	Sampling                 certainty.SamplingResult // what the catches tell of the whole boom
	Worn                     certainty.SamplingResult // the same of those that are surely worn; zero where none is
	Outliers                 []certainty.Outlier      // catches to make again, Value and Without being catches
	Compared                 []int                    // the catches that Outliers were found among
	Hides                    int                      // the catch that WarnHiddenDeviation speaks of; -1 for none
	HasMean, HasRating, Even bool                     // Even: the catches agree among themselves; see alike
	Systematic               bool                     // see WarnSystematicDeviation

	// CatchLonger is how long to catch for the marks of jug and stopwatch; zero where they are fit.
	CatchLonger unit.Time

	Uncertainty *AcceptanceUncertainty // nil unless asked for

	points   certainty.SamplingInput
	boomMean unit.FlowRate // MeanNozzleFlowRate with the drops of different nozzles among them
}

// CatchResult is the verdict on one catch.
type CatchResult struct {
	FlowRate       unit.FlowRate // of all its nozzles
	NozzleFlowRate unit.FlowRate // mean of its nozzles
	SprayPressure  unit.Pressure // its own or the common one; zero when not known
	// NozzleFlowRateAtPressure is the flow brought to the working pressure, by the
	// square-root law or by the nozzle's chart, when the catch had another.
	// Statistics use it.
	NozzleFlowRateAtPressure unit.FlowRate
	RatedFlowRateAtPressure  unit.FlowRate // of all nozzles of a drop that carries different ones, else zero
	DeviationFromRated       unit.Ratio
	DeviationFromMean        unit.Ratio
	InMean                   bool // it counts in the mean, and there is one
	Status                   Status
	FirstStatus              Status      // of the first catch, beside what the round is held to now; empty when there is none
	AcceptableFlowRate       FlowRange   // at the catch's own pressure
	AcceptableVolume         VolumeRange // what the jug may read; zero when nothing is acceptable
	// LargestHiddenDeviation is how far from the reference one nozzle of a drop
	// within its range could be while each other lies within the tolerance. Zero
	// for a single nozzle, for a drop outside, and where one way is not limited.
	LargestHiddenDeviation unit.Ratio
	HiddenFrom             Basis // that reference, with both bases the one it is larger from
}

// Status tells where a catch lies.
type Status string

const (
	StatusWithin Status = "within"
	StatusBelow  Status = "below"
	StatusAbove  Status = "above"
)

// Words lists every status.
func (Status) Words() []string {
	return finding.WordsOf([]Status{StatusWithin, StatusBelow, StatusAbove})
}

// SideMean is the mean of the catches at one side of the boom.
type SideMean struct {
	Position           certainty.Position
	Catches            int
	MeanNozzleFlowRate unit.FlowRate
	DeviationFromMean  unit.Ratio
}

// Codes of NozzleAcceptance.
const (
	CodeNozzleRequired = "nozzle_required" // a rated basis without a rating
	CodeMeanNeedsTwo   = "mean_needs_two"  // one catch has no mean to be compared with

	// WarnSystematicDeviation: most are outside, all on one side, and the catches agree
	// among themselves. A wrong gauge, size or pressure is likelier than wear of so many
	// parts at once.
	WarnSystematicDeviation = "systematic_deviation"
	// WarnAllDry: nothing came out anywhere. A valve, the pump or the tank is likelier
	// than every nozzle.
	WarnAllDry = "all_dry"
	// WarnUnevenBoom: the catches were made on a boom whose pressure is uneven.
	WarnUnevenBoom = "uneven_boom"
	// WarnHiddenDeviation: a drop of several nozzles lies within the tolerance, but
	// further from the reference than half of it. One of its nozzles alone, all others
	// being right, would then be outside. The one drop of a round that can hide the most.
	WarnHiddenDeviation = "hidden_deviation"
	// WarnTwoGroups: without a rating, two groups of catches that are further apart than
	// the limit. Which of them is right, the catches alone do not tell.
	WarnTwoGroups = "two_groups"
	// WarnWornAlikeUnseen: without a rating, nozzles that are all worn alike pass.
	WarnWornAlikeUnseen = "worn_alike_unseen"
)

// NozzleAcceptance judges catches against the maker's flow at the working
// pressure, q = q_rated x sqrt(p / p_rated) or that of the flow chart, against the
// mean of all catches, or both, and says what to do about each that is outside:
//
//	deviation = flow / reference - 1, inside when its size does not exceed the limit
//	jug reading = (1 ± limit) x reference x nozzles x time
//	hidden = larger of N d + (N-1) L and min(1, (N-1) L - N d), in size
//
// Flows are per nozzle. The mean is the sum of flows over the sum of nozzles; the
// coefficient of variation has n - 1. Catches at several pressures are
// brought to one by the same law before they are compared with each other. With
// both bases the ranges about the rating and about the mean may not meet: nothing
// is acceptable then.
//
// What follows is in decide, and what is done about one catch in remedy.
//
// A drop of different nozzles is judged by its rating alone, q_rated being the mean
// of its nozzles' at the pressure, and N in hidden the sum of their ratings over the
// least of them. Every catch then needs a rating, and the basis must be the rated
// one (rated_basis_only).
//
// What the catches tell of the whole boom is that of Sampling, and which of them to
// make again is that of Outliers, among the catches of as many nozzles as most have
// and but for those nearer to the others than half a second of the stopwatch.
//
// A dry catch, of volume zero, is 100 % below and counts in the mean. Catches that are
// all dry have no mean, nor what is made of it; each is below, and nothing is judged.
//
// A point that was outside in the first round counts for what it says of the others, though
// it was put right since: Sampling counts it as outside. All else speaks of the present.
//
// There must be at least one catch (too_few), two for a basis with the mean
// (mean_needs_two); a rating needs a pressure for every catch, and so do catches
// whose own pressures differ (pressure_required); a rated basis needs the nozzle
// (nozzle_required).
//
// Source: within 10 % of the rating and 5 % of the mean as one two-part rule, and
// 5, 7 and 10 % of the mean alone: testdata/published/nozzle-acceptance. Cleaning
// what is low and replacing what is high: Alberta Agdex 606-1. A quarter as the
// limit for a new set: common practice, no published source.
func NozzleAcceptance(in NozzleAcceptanceInput) (NozzleAcceptanceResult, error) {
	r := NozzleAcceptanceResult{
		ReplaceAllAbove: in.ReplaceAllAbove, ReplaceAllFrom: in.ReplaceAllFrom,
		HasRating: in.Nozzle.given() || in.mixedDrops() > 0, HasMean: len(in.Catches)-in.mixedDrops() > 1 && !in.allDry(), Tested: len(in.Catches), Decision: Keep,
	}
	r.apply(&in.Tolerance)
	if r.ReplaceAllAbove == 0 && r.ReplaceAllFrom == 0 {
		r.ReplaceAllAbove = certainty.DefaultReplaceAllAbove
	}
	if err := in.check(r.Basis); err != nil {
		return NozzleAcceptanceResult{}, err
	}
	in = in.pulsing()
	low, high, _ := in.pressures()
	r.SprayPressure = in.SprayPressure
	if r.SprayPressure == 0 {
		r.SprayPressure = low
	}
	r.measure(in)
	for i := range r.Catches {
		r.judgeCatch(&in, i)
	}
	if in.Measuring.Uncertainty {
		r.Uncertainty = r.uncertainty(&in)
		for i := range in.Catches {
			if in.Catches[i].First != nil { // nobody measures again twice
				r.Uncertainty.Catches[i].Within.MeasureAgain = certainty.MeasureAgain{}
			}
		}
	}
	if err := r.decide(&in); err != nil {
		return NozzleAcceptanceResult{}, err
	}
	r.warnHidden()
	if r.CatchLonger = r.fit(&in); r.CatchLonger != 0 {
		r.warn(finding.Member("catches"), WarnCatchTooShort)
	}
	if (in.Nozzle.given() || in.mixedDrops() == 0) && (in.SprayPressure != 0 || finding.Difference(float64(high), float64(low)) == 0) {
		r.common(in)
	}
	err := r.sample(in)
	return r, err
}

// allDry tells that nothing came out where the mean is made of: of the drops of
// different nozzles there is none.
func (in NozzleAcceptanceInput) allDry() bool {
	for i := range in.Catches {
		if c := &in.Catches[i]; c.Volume != 0 && !c.mixed() {
			return false
		}
	}
	return true
}

// pressures are the lowest and the highest known of the catches, zero when none
// is, and whether all are known.
func (in NozzleAcceptanceInput) pressures() (low, high unit.Pressure, all bool) {
	all = true
	for i := range in.Catches {
		p := in.Catches[i].pressure(in.SprayPressure)
		if p != 0 && (low == 0 || p < low) {
			low = p
		}
		high = max(high, p)
		all = all && p != 0
	}
	return low, high, all
}

func (in NozzleAcceptanceInput) check(basis Basis) error {
	var v finding.Invalid
	mixed := in.mixedDrops()
	if in.Nozzle.given() {
		v = append(v, in.Nozzle.check().Under(finding.Member("nozzle"))...)
	} else {
		if (basis == RatedBasis || basis == BothBases) && (mixed == 0 || mixed < len(in.Catches)) {
			v.Add(finding.Member("nozzle"), CodeNozzleRequired)
		}
		v = append(v, in.Nozzle.PressureRange.check().Under(nozzlePressureRange)...)
	}
	checkDutyCycle(&v, in.DutyCycle, finding.Member("dutyCycle"))
	in.Tolerance.check(&v)
	if mixed > 0 && (basis == MeanBasis || basis == BothBases) {
		place := toleranceBasis
		if in.Tolerance.own() {
			place = toleranceMean
		}
		v.Add(place, CodeRatedBasisOnly)
	}
	switch {
	case len(in.Catches) == 0:
		v.Add(finding.Member("catches"), finding.CodeTooFew)
	case len(in.Catches) == 1 && basis != RatedBasis:
		v.Add(finding.Member("catches"), CodeMeanNeedsTwo)
	}
	v.Optional(float64(in.SprayPressure), finding.Member("sprayPressure"))
	in.pointsCaught(nil).CheckLimit(&v)
	if in.CatchPointsOnBoom != 0 && in.CatchPointsOnBoom < in.pointsCaught(nil).Caught {
		v.Add(finding.Member("catchPointsOnBoom"), certainty.CodeFewerThanCaught)
	}
	for i := range in.Catches {
		in.Catches[i].checkDry(&v, "catches", i)
		in.Catches[i].checkInstruments(&v, &in.Measuring, "catches", i)
		if in.Catches[i].Position.Index() < 0 {
			v.Add(finding.Item("catches", i).Member("position"), finding.CodeNotAllowed)
		}
		if in.Catches[i].First != nil {
			v = append(v, in.checkFirst(i)...)
		}
	}
	in.checkDrops(&v)
	in.Measuring.Check(&v)
	if in.pressureErrors == nil {
		in.Measuring.CheckGauge(&v, in.SprayPressure, in.Gauge)
	}
	low, high, all := in.pressures()
	if !all && (in.Nozzle.given() || mixed > 0 || finding.Difference(float64(high), float64(low)) != 0) {
		v.Add(finding.Member("sprayPressure"), CodePressureRequired)
	}
	return v.Err()
}
