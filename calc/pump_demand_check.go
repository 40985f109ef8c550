package calc

import (
	"strconv"

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
	add := func(unusual bool, field, code string) {
		if unusual {
			r.Warnings = append(r.Warnings, Warning{field, code})
		}
	}
	if in.SprayPressure != 0 {
		used, outside, far := false, false, false
		for _, g := range groups {
			used = used || g.Nozzle.given() || g.Nozzle.PressureRange != PressureRange{}
			far = far || g.Nozzle.farFromRating(in.SprayPressure)
			outside = outside || g.Nozzle.PressureRange.holds(in.SprayPressure) == Outside
		}
		add(outside, "SprayPressure", WarnPressureOutsideRange)
		add(far, "SprayPressure", WarnFarFromRating)
		add(!used, "SprayPressure", WarnSprayPressureUnused)
	}
	stirred := "AgitationFlowRate"
	if in.AgitationShare != 0 {
		stirred = "AgitationShare"
	}
	add(r.AgitationFlowRate == 0, stirred, WarnAgitationNotCounted)
	add(r.AgitationShare != 0 && !between(float64(r.AgitationShare), float64(leastAgitation), float64(mostAgitation)), stirred, WarnUnusualAgitation)
	add(!atMost(float64(r.Reserve), float64(mostReserve)), "Reserve", WarnUnusualReserve)
	add(r.Sufficient == Within && r.SufficientWhenWorn == Outside, "RatedPumpFlowRate", WarnShortWhenWorn)
	if in.GroundSpeed != 0 {
		add(unusualSpeed(in.GroundSpeed), "GroundSpeed", WarnUnusualSpeed)
		add(unusualRate(r.ApplicationRate), "Width", WarnUnusualRate)
	}
}

// check reports everything that keeps PumpDemand from computing.
func (in PumpDemandInput) check() error {
	var v Invalid
	switch {
	case len(in.NozzleGroups) == 0:
		v = append(v, in.alone().check("")...)
	case in.Nozzles != 0 || in.NozzleFlowRate != 0 || !in.Nozzle.silent() || in.Nozzle.PressureRange != PressureRange{}:
		other := "Nozzle"
		switch {
		case in.Nozzles != 0:
			other = "Nozzles"
		case in.NozzleFlowRate != 0:
			other = "NozzleFlowRate"
		}
		v.conflict("NozzleGroups", other)
	}
	rated := "" // the first nozzle that is known by its rating, which needs a pressure
	if in.Nozzle.given() {
		rated = "Nozzle"
	}
	for i, g := range in.NozzleGroups {
		v = append(v, g.check("NozzleGroups["+strconv.Itoa(i)+"].")...)
		if g.Nozzle.given() && rated == "" {
			rated = at("NozzleGroups", i, "Nozzle")
		}
	}
	v.positiveFor(float64(in.SprayPressure), "SprayPressure", rated)
	v.optional(float64(in.AgitationFlowRate), "AgitationFlowRate")
	v.optional(float64(in.AgitationShare), "AgitationShare")
	switch {
	case in.AgitationShare != 0 && in.AgitationFlowRate != 0:
		v.conflict("AgitationShare", "AgitationFlowRate")
	case in.AgitationShare != 0 && in.TankVolume == 0:
		v.needed("TankVolume", "AgitationShare")
	}
	v.optional(float64(in.TankVolume), "TankVolume")
	v.optional(float64(in.Reserve), "Reserve")
	v.optional(float64(in.RatedPumpFlowRate), "RatedPumpFlowRate")
	v.positiveFor(float64(in.GroundSpeed), "GroundSpeed", given(in.Width != 0, "Width"))
	v.positiveFor(float64(in.Width), "Width", given(in.GroundSpeed != 0, "GroundSpeed"))
	return v.err()
}

// check looks at one group; prefix is the path of its fields.
func (g NozzleGroup) check(prefix string) Invalid {
	var v Invalid
	switch {
	case g.Nozzles == 0:
		if prefix == "" {
			v.neededOr("Nozzles", "NozzleGroups")
		} else {
			v.add(prefix+"Nozzles", CodeRequired)
		}
	case g.Nozzles < 0:
		v.add(prefix+"Nozzles", CodeNotPositive)
	}
	if !g.Nozzle.given() {
		instead := prefix + "Nozzle"
		if prefix == "" {
			instead = "Nozzle,NozzleGroups"
		}
		v.positiveOr(float64(g.NozzleFlowRate), prefix+"NozzleFlowRate", instead)
		return append(v, g.Nozzle.PressureRange.check(prefix+"Nozzle.PressureRange")...)
	}
	v.optional(float64(g.NozzleFlowRate), prefix+"NozzleFlowRate")
	if g.NozzleFlowRate != 0 {
		v.conflict(prefix+"Nozzle", prefix+"NozzleFlowRate")
	}
	return append(v, g.Nozzle.check().under(prefix+"Nozzle")...)
}
