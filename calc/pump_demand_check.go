package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// groups are the nozzles, in whichever form they were given.
func (in PumpDemandInput) groups() []NozzleGroup {
	if len(in.NozzleGroups) > 0 {
		return in.NozzleGroups
	}
	return []NozzleGroup{in.alone()}
}

// alone is the one group of the fields of the input itself.
func (in PumpDemandInput) alone() NozzleGroup {
	return NozzleGroup{in.Nozzles, in.NozzleFlowRate, in.Nozzle}
}

// flow is that of one nozzle of the group.
func (g NozzleGroup) flow(p unit.Pressure) unit.FlowRate {
	if g.Nozzle.given() {
		return g.Nozzle.FlowAt(p)
	}
	return g.NozzleFlowRate
}

func (r *PumpDemandResult) warn(in PumpDemandInput, groups []NozzleGroup) {
	add := func(unusual bool, place finding.Place, code string) {
		if unusual {
			r.Warnings = append(r.Warnings, finding.Warning{Place: place, Code: code})
		}
	}
	if in.SprayPressure != 0 {
		used, outside, far := false, false, false
		for _, g := range groups {
			used = used || g.Nozzle.given() || g.Nozzle.PressureRange != PressureRange{}
			far = far || g.Nozzle.farFromRating(in.SprayPressure)
			outside = outside || g.Nozzle.PressureRange.holds(in.SprayPressure) == finding.Outside
		}
		add(outside, finding.Member("sprayPressure"), WarnPressureOutsideRange)
		add(far, finding.Member("sprayPressure"), WarnFarFromRating)
		add(!used, finding.Member("sprayPressure"), WarnSprayPressureUnused)
	}
	stirred := finding.Member("agitationFlowRate")
	if in.AgitationShare != 0 {
		stirred = finding.Member("agitationShare")
	}
	add(r.AgitationFlowRate == 0, stirred, WarnAgitationNotCounted)
	add(r.AgitationShare != 0 && !between(float64(r.AgitationShare), float64(leastAgitation), float64(mostAgitation)), stirred, WarnUnusualAgitation)
	add(!finding.AtMost(float64(r.Reserve), float64(mostReserve)), finding.Member("reserve"), WarnUnusualReserve)
	add(r.Sufficient == finding.Within && r.SufficientWhenWorn == finding.Outside, finding.Member("ratedPumpFlowRate"), WarnShortWhenWorn)
	if in.GroundSpeed != 0 {
		add(unusualSpeed(in.GroundSpeed), finding.Member("groundSpeed"), WarnUnusualSpeed)
		add(unusualRate(r.ApplicationRate), finding.Member("width"), WarnUnusualRate)
	}
}

// check reports everything that keeps PumpDemand from computing.
func (in PumpDemandInput) check() error {
	var v finding.Invalid
	switch {
	case len(in.NozzleGroups) == 0:
		v = append(v, in.alone().check(true)...)
	case in.Nozzles != 0 || in.NozzleFlowRate != 0 || !in.Nozzle.silent() || in.Nozzle.PressureRange != PressureRange{}:
		other := finding.Member("nozzle")
		switch {
		case in.Nozzles != 0:
			other = finding.Member("nozzles")
		case in.NozzleFlowRate != 0:
			other = finding.Member("nozzleFlowRate")
		}
		v.Conflict(finding.Member("nozzleGroups"), other)
	}
	var rated finding.Place // the first nozzle that is known by its rating, which needs a pressure
	if in.Nozzle.given() {
		rated = finding.Member("nozzle")
	}
	for i, g := range in.NozzleGroups {
		v = append(v, g.check(false).Under(finding.Item("nozzleGroups", i))...)
		if g.Nozzle.given() && rated.IsZero() {
			rated = finding.Item("nozzleGroups", i).Member("nozzle")
		}
	}
	v.PositiveFor(float64(in.SprayPressure), finding.Member("sprayPressure"), rated)
	v.Optional(float64(in.AgitationFlowRate), finding.Member("agitationFlowRate"))
	v.Optional(float64(in.AgitationShare), finding.Member("agitationShare"))
	switch {
	case in.AgitationShare != 0 && in.AgitationFlowRate != 0:
		v.Conflict(finding.Member("agitationShare"), finding.Member("agitationFlowRate"))
	case in.AgitationShare != 0 && in.TankVolume == 0:
		v.RequiredBy(finding.Member("tankVolume"), finding.Member("agitationShare"))
	}
	v.Optional(float64(in.TankVolume), finding.Member("tankVolume"))
	v.Optional(float64(in.Reserve), finding.Member("reserve"))
	v.Optional(float64(in.RatedPumpFlowRate), finding.Member("ratedPumpFlowRate"))
	v.PositiveFor(float64(in.GroundSpeed), finding.Member("groundSpeed"), finding.Given(in.Width != 0, "width"))
	v.PositiveFor(float64(in.Width), finding.Member("width"), finding.Given(in.GroundSpeed != 0, "groundSpeed"))
	return v.Err()
}

// check looks at one group. alone tells that its members are those of the input itself,
// which groups would stand in for.
func (g NozzleGroup) check(alone bool) finding.Invalid {
	var v finding.Invalid
	switch {
	case g.Nozzles == 0:
		if alone {
			v.RequiredUnless(finding.Member("nozzles"), finding.Member("nozzleGroups"))
		} else {
			v.Add(finding.Member("nozzles"), finding.CodeRequired)
		}
	case g.Nozzles < 0:
		v.Add(finding.Member("nozzles"), finding.CodeNotPositive)
	}
	if !g.Nozzle.given() {
		instead := []finding.Place{finding.Member("nozzle"), finding.Member("nozzleGroups")}
		if !alone {
			instead = instead[:1]
		}
		v.PositiveOr(float64(g.NozzleFlowRate), finding.Member("nozzleFlowRate"), instead...)
		return append(v, g.Nozzle.PressureRange.check().Under(nozzlePressureRange)...)
	}
	v.Optional(float64(g.NozzleFlowRate), finding.Member("nozzleFlowRate"))
	if g.NozzleFlowRate != 0 {
		v.Conflict(finding.Member("nozzle"), finding.Member("nozzleFlowRate"))
	}
	return append(v, g.Nozzle.check().Under(finding.Member("nozzle"))...)
}
