package calc

import (
	"cmp"

	"wetrun/calc/unit"
)

func (in CorrectionsInput) check() error {
	var v Invalid
	v.positive(float64(in.Measured.ApplicationRate), "Measured.ApplicationRate")
	v.positive(float64(in.Measured.GroundSpeed), "Measured.GroundSpeed")
	v.optional(float64(in.Measured.SprayPressure), "Measured.SprayPressure")
	v.positive(float64(in.TargetApplicationRate), "TargetApplicationRate")
	v.optional(float64(in.RateTolerance), "RateTolerance")
	v.optional(float64(in.LabelMaximum), "LabelMaximum")
	if sound(float64(in.TargetApplicationRate)) && sound(float64(in.LabelMaximum)) && in.overLabel(in.TargetApplicationRate) {
		v.add("TargetApplicationRate", CodeAboveLabelMaximum)
	}
	if in.BoomEven > BoomUneven {
		v.add("BoomEven", CodeNotAllowed)
	}
	if n := in.PressureExponent; n != 0 && !(n >= plausibleLow && n <= plausibleHigh) {
		v.add("PressureExponent", CodeOutOfRange)
	}
	v = append(v, in.Limits.GroundSpeed.check("Limits.GroundSpeed")...)
	v = append(v, in.Limits.SprayPressure.check("Limits.SprayPressure")...)
	in.checkMachine(&v)
	in.checkNozzles(&v)
	in.checkDuty(&v)
	in.checkLabel(&v)
	return v.err()
}

// check holds a range of speeds to the rules of a range of pressures.
func (s SpeedRange) check(field string) Invalid {
	return PressureRange{unit.Pressure(s.Low), unit.Pressure(s.High)}.check(field)
}

// checkMachine checks engine, gears and pump.
func (in CorrectionsInput) checkMachine(v *Invalid) {
	v.positiveFor(float64(in.Measured.EngineSpeed), "Measured.EngineSpeed", cmp.Or(
		given(len(in.Gears) > 0, "Gears"),
		given(in.EngineSpeedLimits != EngineSpeedRange{}, "EngineSpeedLimits"),
		given(in.RatedShaft.EngineSpeed != 0, "RatedShaft.EngineSpeed"),
	))
	v.optional(float64(in.RatedShaft.EngineSpeed), "RatedShaft.EngineSpeed")
	e := in.EngineSpeedLimits
	*v = append(*v, PressureRange{unit.Pressure(e.Low), unit.Pressure(e.High)}.check("EngineSpeedLimits")...)
	known := in.Measured.Gear == ""
	for i, g := range in.Gears {
		v.positive(float64(g.GroundSpeed), at("Gears", i, "GroundSpeed"))
		v.positive(float64(g.EngineSpeed), at("Gears", i, "EngineSpeed"))
		if g.Label == "" {
			v.add(at("Gears", i, "Label"), CodeRequired)
			continue
		}
		known = known || g.Label == in.Measured.Gear
		for j := range i {
			if in.Gears[j].Label == g.Label {
				v.add(at("Gears", i, "Label"), CodeDuplicateLabel)
				break
			}
		}
	}
	if !known {
		v.add("Measured.Gear", CodeUnknownLabel)
	}
	if p := in.Pump; p != (Pump{}) {
		checkWord(v, p.Type, pumpTypes, "Pump.Type")
		checkWord(v, p.Drive, pumpDrives, "Pump.Drive")
		checkWord(v, p.Regulation, pumpRegulations, "Pump.Regulation")
	}
}

// checkWord checks a word that must be given and is one of a list.
func checkWord[W ~string](v *Invalid, word W, list []W, field string) {
	switch {
	case word == "":
		v.add(field, CodeRequired)
	case notAmong(word, list):
		v.add(field, CodeNotAllowed)
	}
}
