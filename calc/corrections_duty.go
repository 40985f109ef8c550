package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A DutyCycleRange is the lowest and the highest duty cycle of pulsing nozzles; both
// zero when not known.
type DutyCycleRange struct{ Low, High unit.Ratio }

// checkDuty checks the duty cycle, which is never above 1.
func (in CorrectionsInput) checkDuty(v *finding.Invalid) {
	l := in.DutyCycleLimits
	v.PositiveFor(float64(in.Measured.DutyCycle), measuredDutyCycle, finding.Given(l != DutyCycleRange{}, "dutyCycleLimits"))
	*v = append(*v, PressureRange{unit.Pressure(l.Low), unit.Pressure(l.High)}.check().Under(finding.Member("dutyCycleLimits"))...)
	checkShare(v, in.Measured.DutyCycle, measuredDutyCycle)
	checkShare(v, l.High, finding.Member("dutyCycleLimits").Member("high"))
}
