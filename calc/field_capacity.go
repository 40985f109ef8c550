package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// FieldCapacityInput is a sprayer at work: how fast, how wide, and how it is
// refilled.
type FieldCapacityInput struct {
	GroundSpeed unit.Speed
	// WorkingWidth is the field that one pass covers, gaps between bands included.
	WorkingWidth unit.Length
	// FieldEfficiency is the share of the time, and of the width, that is really
	// sprayed; turns, overlap and stops take the rest. Zero stands for
	// DefaultFieldEfficiency. With RefillTime it is to be the share without refills,
	// which are then counted one by one.
	FieldEfficiency unit.Ratio
	// TankVolume is what one load holds. It asks for ApplicationRate.
	TankVolume unit.Volume
	// ApplicationRate is the volume per area of the field.
	ApplicationRate unit.ApplicationRate
	// RefillTime is how long one refill keeps the sprayer from work, the way to the
	// water and back included. It asks for TankVolume.
	RefillTime unit.Time
	// FieldArea, when given, asks for the time, the water and the loads.
	FieldArea unit.Area
}

// FieldCapacityResult is what the sprayer covers, and what a field takes. What
// was not asked for is zero.
type FieldCapacityResult struct {
	FieldEfficiency     unit.Ratio    // the one applied
	TheoreticalWorkRate unit.WorkRate // speed x width
	EffectiveWorkRate   unit.WorkRate // x efficiency

	AreaPerLoad         unit.Area     // with a tank
	TimePerLoad         unit.Time     // to spray it, without a refill
	WorkRateWithRefills unit.WorkRate // over many loads, each with its refill

	SprayVolume   unit.Volume // with an area and a rate
	Loads         int         // with a tank too; the last may be a part load
	Refills       int         // Loads - 1: the tank is full at the start
	FieldTime     unit.Time   // with an area, without refills
	RefillingTime unit.Time   // Refills x RefillTime
	TotalTime     unit.Time   // FieldTime + RefillingTime
	Warnings      []finding.Warning
}

// CodeOver100Percent is the violation of a share that is more than the whole.
const CodeOver100Percent = "over_100_percent"

// CodeNotComputable is the violation of numbers whose result no counter holds.
const CodeNotComputable = "not_computable"

// Warning codes of FieldCapacity, beside WarnUnusualSpeed and WarnUnusualRate.
const (
	WarnUnusualWidth           = "unusual_width"             // outside 0.5 to 60 m
	WarnUnusualEfficiency      = "unusual_efficiency"        // outside 40 to 95 %
	WarnEfficiencyCountsRefill = "efficiency_counts_refills" // the default one does, so they count twice
	WarnApplicationRateUnused  = "application_rate_unused"   // neither a tank nor an area to use it
)

// Widths and efficiencies outside which a field sprayer hardly works. Common
// practice and from memory, no published source.
const (
	leastWidth      = 0.5 * unit.Metre
	mostWidth       = 60 * unit.Metre
	leastEfficiency = 40 * unit.Percent
	mostEfficiency  = 95 * unit.Percent
)

// mostCounted bounds what is counted: loads, nozzles. More is a slip of units.
const mostCounted = 1e9

// FieldCapacity returns the area that a sprayer covers in a time,
//
//	C_theoretical = v x w,   C_effective = v x w x e
//
// with v the ground speed, w the working width and e the field efficiency. With a
// tank and a rate R a load covers V / R, and with a refill time
//
//	C_with_refills = A_load / (A_load / C_effective + refill time).
//
// For a field of area A
//
//	time = A / C_effective + refills x refill time,   refills = loads - 1,
//
// since the tank is full at the start; loads = A x R / V, rounded up, where an
// exact multiple leaves no part load. Without a refill time the time is A /
// C_effective: an efficiency usually has the refills in it.
//
// Speed and width must be above zero. The error is finding.Invalid, with codes
// not_positive, not_finite, over_100_percent on FieldEfficiency, required (on
// GroundSpeed, on WorkingWidth, on ApplicationRate with TankVolume, on TankVolume
// and ApplicationRate with RefillTime), not_computable on TankVolume when the
// loads are more than 1e9. Warnings are unusual_speed, unusual_width,
// unusual_efficiency, unusual_rate, efficiency_counts_refills on RefillTime when
// no efficiency stands beside it, application_rate_unused.
//
// Sources: acre/h = mph x ft / 8.25 is common practice, no published source, and
// follows from the definitions of the units: 43 560 ft2 an acre over 5280 ft a
// mile. Area per tank = tank / rate, Mississippi State University Extension,
// http://extension.msstate.edu/content/can-you-tell-me-about-sprayer-calibration .
// The time with refills is plain addition.
func FieldCapacity(in FieldCapacityInput) (FieldCapacityResult, error) {
	if err := in.check(); err != nil {
		return FieldCapacityResult{}, err
	}
	r := FieldCapacityResult{FieldEfficiency: in.FieldEfficiency}
	if r.FieldEfficiency == 0 {
		r.FieldEfficiency = DefaultFieldEfficiency
	}
	r.TheoreticalWorkRate = unit.WorkRate(float64(in.GroundSpeed) * float64(in.WorkingWidth))
	r.EffectiveWorkRate = r.TheoreticalWorkRate * unit.WorkRate(r.FieldEfficiency)
	if in.TankVolume != 0 {
		r.AreaPerLoad = unit.Area(float64(in.TankVolume) / float64(in.ApplicationRate))
		r.TimePerLoad = unit.Time(float64(r.AreaPerLoad) / float64(r.EffectiveWorkRate))
	}
	if in.RefillTime != 0 {
		r.WorkRateWithRefills = unit.WorkRate(float64(r.AreaPerLoad) / float64(r.TimePerLoad+in.RefillTime))
	}
	if in.FieldArea != 0 {
		r.FieldTime = unit.Time(float64(in.FieldArea) / float64(r.EffectiveWorkRate))
		r.SprayVolume = unit.Volume(float64(in.FieldArea) * float64(in.ApplicationRate))
		if in.TankVolume != 0 {
			loads := in.loads()
			r.Loads, r.Refills = int(loads), int(loads)-1
		}
		r.RefillingTime = in.RefillTime * unit.Time(r.Refills)
		r.TotalTime = r.FieldTime + r.RefillingTime
	}
	r.Warnings = in.warnings(r.FieldEfficiency)
	return r, nil
}

// loads is how many loads the field takes, the part load counted as one.
func (in FieldCapacityInput) loads() float64 {
	x := float64(in.FieldArea) * float64(in.ApplicationRate) / float64(in.TankVolume)
	if whole := math.Round(x); finding.Difference(x, whole) == 0 {
		return whole
	}
	return math.Ceil(x)
}

func (in FieldCapacityInput) warnings(efficiency unit.Ratio) (all []finding.Warning) {
	add := func(unusual bool, place finding.Place, code string) {
		if unusual {
			all = append(all, finding.Warning{Place: place, Code: code})
		}
	}
	add(unusualSpeed(in.GroundSpeed), finding.Member("groundSpeed"), WarnUnusualSpeed)
	add(!between(float64(in.WorkingWidth/leastWidth), 1, float64(mostWidth/leastWidth)), finding.Member("workingWidth"), WarnUnusualWidth)
	add(!between(float64(efficiency), float64(leastEfficiency), float64(mostEfficiency)), finding.Member("fieldEfficiency"), WarnUnusualEfficiency)
	add(in.RefillTime != 0 && in.FieldEfficiency == 0, finding.Member("refillTime"), WarnEfficiencyCountsRefill)
	if in.ApplicationRate != 0 {
		add(unusualRate(in.ApplicationRate), finding.Member("applicationRate"), WarnUnusualRate)
		add(in.TankVolume == 0 && in.FieldArea == 0, finding.Member("applicationRate"), WarnApplicationRateUnused)
	}
	return all
}

func (in FieldCapacityInput) check() error {
	var v finding.Invalid
	v.Positive(float64(in.GroundSpeed), finding.Member("groundSpeed"))
	v.Positive(float64(in.WorkingWidth), finding.Member("workingWidth"))
	v.Optional(float64(in.FieldEfficiency), finding.Member("fieldEfficiency"))
	checkShare(&v, in.FieldEfficiency, finding.Member("fieldEfficiency"))
	refilled := finding.Given(in.RefillTime != 0, "refillTime")
	v.PositiveFor(float64(in.TankVolume), finding.Member("tankVolume"), refilled)
	v.PositiveFor(float64(in.ApplicationRate), finding.Member("applicationRate"), finding.First(finding.Given(in.TankVolume != 0, "tankVolume"), refilled))
	v.Optional(float64(in.RefillTime), finding.Member("refillTime"))
	v.Optional(float64(in.FieldArea), finding.Member("fieldArea"))
	if len(v) == 0 && in.TankVolume != 0 && in.loads() > mostCounted {
		v.Add(finding.Member("tankVolume"), CodeNotComputable)
	}
	return v.Err()
}
