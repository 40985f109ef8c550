package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleSelectionInput is the rate that is wanted, how it is to be driven, and the
// nozzles to choose from.
type NozzleSelectionInput struct {
	TargetApplicationRate unit.ApplicationRate // per treated area
	// GroundSpeed, or SpeedRange instead of it: speeds that a rate controller or a
	// driver moves between, at all of which the target is to be held.
	GroundSpeed unit.Speed
	SpeedRange  SpeedRange
	// SprayedWidthPerNozzle, or Width and the number of Nozzles that treat it.
	// Nozzles also adds the flow of them all.
	SprayedWidthPerNozzle unit.Length
	Width                 unit.Length
	Nozzles               int
	// PressureRange is the pressures that may be used: what pump, nozzle and label
	// leave.
	PressureRange PressureRange
	// RelativeDensity, or LiquidDensity instead of it, is that of the liquid.
	RelativeDensity unit.Ratio
	LiquidDensity   unit.Density
	// Sizes of ISO 10625 to choose from; all that are known when neither they nor
	// Shelf are given.
	Sizes      []SizeName
	SizeRating SizeRating // not with Shelf
	// Shelf is the nozzles at hand, instead of Sizes.
	Shelf []ShelfNozzle
	// DropletChart is what the makers say of the drops. The size of a nozzle says
	// nothing of them.
	DropletChart []DropletEntry
	// AllowedDropletClasses are those that the label leaves; none when it is not
	// asked for.
	AllowedDropletClasses []DropletClass
}

// A ShelfNozzle is a nozzle at hand, by its maker's rating of water.
type ShelfNozzle struct {
	Label         string
	RatedFlowRate unit.FlowRate
	RatedPressure unit.Pressure
	PressureRange PressureRange // its own; zero when not known
}

// NozzleSelectionResult is what one nozzle must give, and what each would do.
type NozzleSelectionResult struct {
	// GroundSpeed is the one given, or the geometric mean of SpeedRange: pressure
	// follows the square of speed, so there the pressure is in the middle of what
	// the range needs, by ratio.
	GroundSpeed             unit.Speed
	SprayedWidthPerNozzle   unit.Length
	RequiredNozzleFlowRate  unit.FlowRate // of the liquid, at GroundSpeed
	RequiredNozzleFlowRates FlowRange     // at the ends of SpeedRange; zero without it
	WaterEquivalentFlowRate unit.FlowRate // of RequiredNozzleFlowRate; zero without a density
	TotalFlowRate           unit.FlowRate // of all Nozzles, of the liquid; zero when not known
	Candidates              []Candidate   // best fit first
	Decision                SelectionDecision
	Reason                  SelectionReason // empty where one fits
	// WouldFit is nil unless none fits by its pressure and a speed is known at which
	// one would.
	WouldFit *WouldFit
	Warnings []finding.Warning
}

// SelectionDecision is what comes of a selection.
type SelectionDecision string

const (
	ChooseNozzle SelectionDecision = "choose" // at least one fits
	NoneFits     SelectionDecision = "none_fits"
)

// Words lists every decision.
func (SelectionDecision) Words() []string {
	return finding.WordsOf([]SelectionDecision{ChooseNozzle, NoneFits})
}

// SelectionReason is why none fits.
type SelectionReason string

const (
	NoneFitsPressure     SelectionReason = "pressure"      // none reaches the rate inside the pressures
	NoneFitsDropletClass SelectionReason = "droplet_class" // some do, but none of a droplet class known to be allowed
)

// Words lists every reason.
func (SelectionReason) Words() []string {
	return finding.WordsOf([]SelectionReason{NoneFitsPressure, NoneFitsDropletClass})
}

// WouldFit is what would make the first of Candidates, the nearest, fit: another
// speed, or else the pressure that it needs at the speed wanted. Of a SpeedRange
// that is the end at which it is further outside.
type WouldFit struct {
	GroundSpeed    unit.Speed      // the nearest at which its pressure is inside the range
	SprayPressure  unit.Pressure   // at that speed: an end of the range
	NeededPressure unit.Pressure   // at the speed wanted
	DropletClass   DropletClass    // at SprayPressure
	Droplets       finding.Verdict // NotJudged when no classes were asked for
}

// WarnDropletEntryUnused is the warning for a line of the droplet chart that is of
// none of the nozzles.
const WarnDropletEntryUnused = "droplet_entry_unused"

// NozzleSelection returns the flow that one nozzle must give of the liquid,
//
//	q = R x v x w
//
// with R the rate per treated area, v the ground speed and w the width per nozzle,
// and for each candidate the pressure at which it gives that,
//
//	p = p_rated x (q x sqrt(rd) / q_rated)^2
//
// and the speeds at which its pressure stays inside the range at the same rate,
//
//	v = q_rated x sqrt(p / p_rated) / sqrt(rd) / (R x w)
//
// for p the lowest and the highest pressure. A nozzle's own range narrows the
// common one. A candidate fits when its pressures at all speeds wanted lie inside
// and, where classes are asked for, its droplet class is known to be allowed.
// Those that fit come first, then those inside the range, then the rest by how far
// their pressure is outside; each nearest the middle of its range on a log scale
// first, and in the order given where they are alike.
//
// All quantities must be finite and not below zero. The error is finding.Invalid. Beside
// not_positive, not_finite, not_allowed, range_inverted and unknown_size its codes
// are required, on TargetApplicationRate, GroundSpeed, SprayedWidthPerNozzle,
// Nozzles with Width, PressureRange and what a shelf nozzle or a droplet entry
// lacks; and conflict, on the second of two ways to say the same: SpeedRange,
// Width, LiquidDensity, Sizes beside Shelf, a size named twice, Label beside Size
// of a droplet entry.
//
// Sources: GPM = GPA x mph x in / 5940, Mississippi State University Extension,
// 2020, https://www.mississippi-crops.com/2020/05/02/calibration-of-in-furrow-sprays/ ;
// pressure, see PressureForFlow; density, see WaterEquivalent; ratings of sizes, see
// NozzleSizes. The order of the candidates is common practice, no published source.
func NozzleSelection(in NozzleSelectionInput) (NozzleSelectionResult, error) {
	if err := in.check(); err != nil {
		return NozzleSelectionResult{}, err
	}
	r := NozzleSelectionResult{GroundSpeed: in.GroundSpeed, SprayedWidthPerNozzle: in.SprayedWidthPerNozzle}
	if in.Width != 0 {
		r.SprayedWidthPerNozzle = in.Width / unit.Length(in.Nozzles)
	}
	speeds := SpeedRange{in.GroundSpeed, in.GroundSpeed}
	if in.GroundSpeed == 0 {
		speeds = in.SpeedRange
		r.GroundSpeed = speeds.Low * unit.Speed(math.Sqrt(float64(speeds.High/speeds.Low)))
		r.RequiredNozzleFlowRates = FlowRange{r.flowAt(in, speeds.Low), r.flowAt(in, speeds.High)}
	}
	r.RequiredNozzleFlowRate = r.flowAt(in, r.GroundSpeed)
	if rd := oneDensity(in.RelativeDensity, in.LiquidDensity); rd != 0 {
		r.WaterEquivalentFlowRate = WaterEquivalent(r.RequiredNozzleFlowRate, rd)
	}
	r.TotalFlowRate = r.RequiredNozzleFlowRate * unit.FlowRate(in.Nozzles)
	r.Candidates = in.candidates()
	for i := range r.Candidates {
		r.Candidates[i].work(in, &r, speeds)
	}
	rank(r.Candidates)
	r.decide(in)
	r.warn(in)
	return r, nil
}

// flowAt is the flow of the liquid that one nozzle must give at a speed.
func (r *NozzleSelectionResult) flowAt(in NozzleSelectionInput, v unit.Speed) unit.FlowRate {
	return unit.FlowRate(float64(in.TargetApplicationRate) * float64(v) * float64(r.SprayedWidthPerNozzle))
}

// decide looks at the best candidate and, when that does not fit, for what would
// make it.
func (r *NozzleSelectionResult) decide(in NozzleSelectionInput) {
	best := &r.Candidates[0]
	switch {
	case best.Fits:
		r.Decision = ChooseNozzle
	case best.WithinRange:
		r.Decision, r.Reason = NoneFits, NoneFitsDropletClass
	default:
		r.Decision, r.Reason = NoneFits, NoneFitsPressure
		if best.PressureRange == (PressureRange{}) {
			return // the nearest comes first, so no other has one
		}
		w := &WouldFit{GroundSpeed: best.SpeedWindow.High, SprayPressure: best.PressureRange.High, NeededPressure: best.SprayPressures.High}
		if best.tooLow() {
			w = &WouldFit{GroundSpeed: best.SpeedWindow.Low, SprayPressure: best.PressureRange.Low, NeededPressure: best.SprayPressures.Low}
		}
		w.DropletClass, w.Droplets = in.droplets(best, PressureRange{w.SprayPressure, w.SprayPressure})
		r.WouldFit = w
	}
}

func (r *NozzleSelectionResult) warn(in NozzleSelectionInput) {
	add := func(place finding.Place, code string) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: place, Code: code})
	}
	if unusualRate(in.TargetApplicationRate) {
		add(finding.Member("targetApplicationRate"), WarnUnusualRate)
	}
	r.Warnings = append(r.Warnings, warnDensity(in.RelativeDensity, in.LiquidDensity)...)
	odd := func(v unit.Speed) bool { return v != 0 && unusualSpeed(v) }
	if odd(in.GroundSpeed) {
		add(finding.Member("groundSpeed"), WarnUnusualSpeed)
	}
	if odd(in.SpeedRange.Low) {
		add(finding.Member("speedRange").Member("low"), WarnUnusualSpeed)
	}
	if odd(in.SpeedRange.High) {
		add(finding.Member("speedRange").Member("high"), WarnUnusualSpeed)
	}
	for i := range in.DropletChart {
		used := false
		for j := range r.Candidates {
			used = used || in.speaksOf(&in.DropletChart[i], &r.Candidates[j])
		}
		if !used {
			add(finding.Item("dropletChart", i), WarnDropletEntryUnused)
		}
	}
}
