package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// Places of two steps that every input is asked about.
var (
	measuredEngineSpeed = finding.Member("measured").Member("engineSpeed")
	measuredDutyCycle   = finding.Member("measured").Member("dutyCycle")
	ratedEngineSpeed    = finding.Member("ratedShaft").Member("engineSpeed")
	limitsGroundSpeed   = finding.Member("limits").Member("groundSpeed")
	limitsSprayPressure = finding.Member("limits").Member("sprayPressure")
)

func (in CorrectionsInput) check() error {
	var v finding.Invalid
	v = append(v, in.Measured.check().Under(finding.Member("measured"))...)
	v.Positive(float64(in.TargetApplicationRate), finding.Member("targetApplicationRate"))
	v.Optional(float64(in.RateTolerance), finding.Member("rateTolerance"))
	v.Optional(float64(in.LabelMaximum), finding.Member("labelMaximum"))
	v.Optional(float64(in.LabelMinimum), finding.Member("labelMinimum"))
	v.Optional(float64(in.Guard), finding.Member("guard"))
	if finding.Valid(float64(in.TargetApplicationRate)) && finding.Valid(float64(in.LabelMaximum)) && in.overLabel(in.TargetApplicationRate) {
		v.Add(finding.Member("targetApplicationRate"), CodeAboveLabelMaximum)
	}
	if in.TargetApplicationRate > 0 && finding.Valid(float64(in.LabelMinimum)) && in.underLabel(in.TargetApplicationRate) {
		v.Add(finding.Member("targetApplicationRate"), CodeBelowLabelMinimum)
	}
	if in.BoomEven > BoomUneven {
		v.Add(finding.Member("boomEven"), finding.CodeNotAllowed)
	}
	if n := in.PressureExponent; n != 0 && !(n >= leastExponent && n <= mostExponent) {
		v.Add(finding.Member("pressureExponent"), CodeOutOfRange)
	}
	v = append(v, in.Limits.GroundSpeed.check().Under(limitsGroundSpeed)...)
	v = append(v, in.Limits.SprayPressure.check().Under(limitsSprayPressure)...)
	in.checkMachine(&v)
	in.checkNozzles(&v)
	in.checkDuty(&v)
	in.checkLabel(&v)
	return v.Err()
}

func (m MeasuredState) check() (v finding.Invalid) {
	v.Positive(float64(m.ApplicationRate), finding.Member("applicationRate"))
	v.Positive(float64(m.GroundSpeed), finding.Member("groundSpeed"))
	v.Optional(float64(m.SprayPressure), finding.Member("sprayPressure"))
	return v
}

// check holds a range of speeds to the rules of a range of pressures.
func (s SpeedRange) check() finding.Invalid {
	return PressureRange{unit.Pressure(s.Low), unit.Pressure(s.High)}.check()
}

// checkMachine checks engine, gears and pump.
func (in CorrectionsInput) checkMachine(v *finding.Invalid) {
	var shaft finding.Place
	if in.RatedShaft.EngineSpeed != 0 {
		shaft = ratedEngineSpeed
	}
	v.PositiveFor(float64(in.Measured.EngineSpeed), measuredEngineSpeed, finding.First(
		finding.Given(len(in.Gears) > 0, "gears"),
		finding.Given(in.EngineSpeedLimits != EngineSpeedRange{}, "engineSpeedLimits"),
		shaft,
	))
	v.Optional(float64(in.RatedShaft.EngineSpeed), ratedEngineSpeed)
	e := in.EngineSpeedLimits
	*v = append(*v, PressureRange{unit.Pressure(e.Low), unit.Pressure(e.High)}.check().Under(finding.Member("engineSpeedLimits"))...)
	known := in.Measured.Gear == ""
	for i, g := range in.Gears {
		*v = append(*v, g.check().Under(finding.Item("gears", i))...)
		if g.Label == "" {
			continue
		}
		known = known || g.Label == in.Measured.Gear
		for j := range i {
			if in.Gears[j].Label == g.Label {
				v.Add(finding.Item("gears", i).Member("label"), CodeDuplicateLabel)
				break
			}
		}
	}
	if !known {
		v.Add(finding.Member("measured").Member("gear"), CodeUnknownLabel)
	}
	if p := in.Pump; p != (Pump{}) {
		*v = append(*v, p.check().Under(finding.Member("pump"))...)
	}
}

func (g Gear) check() (v finding.Invalid) {
	v.Positive(float64(g.GroundSpeed), finding.Member("groundSpeed"))
	v.Positive(float64(g.EngineSpeed), finding.Member("engineSpeed"))
	if g.Label == "" {
		v.Add(finding.Member("label"), finding.CodeRequired)
	}
	return v
}

func (p Pump) check() (v finding.Invalid) {
	checkWord(&v, p.Type, pumpTypes, finding.Member("type"))
	checkWord(&v, p.Drive, pumpDrives, finding.Member("drive"))
	checkWord(&v, p.Regulation, pumpRegulations, finding.Member("regulation"))
	return v
}

// checkWord checks a word that must be given and is one of a list.
func checkWord[W ~string](v *finding.Invalid, word W, list []W, place finding.Place) {
	switch {
	case word == "":
		v.Add(place, finding.CodeRequired)
	case finding.NotAmong(word, list):
		v.Add(place, finding.CodeNotAllowed)
	}
}
