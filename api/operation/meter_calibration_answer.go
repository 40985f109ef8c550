package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MeterCalibrationAnswer is the answer of POST /v1/meter-calibration: the correction, and the
// setting that it makes.
type MeterCalibrationAnswer struct {
	Readings         []MeterReadingAnswer `json:"readings"`
	CorrectionFactor wire.Quantity        `json:"correctionFactor,omitzero"`
	MeterError       wire.Quantity        `json:"meterError,omitzero"`
	WithinTolerance  *bool                `json:"withinTolerance,omitzero"`
	MeterTolerance   wire.Quantity        `json:"meterTolerance"`
	Spread           wire.Quantity        `json:"spread,omitzero"`
	Repeatable       *bool                `json:"repeatable,omitzero"`
	NewFactor        wire.Quantity        `json:"newFactor,omitzero"`
	NewPulses        *PulseSettingAnswer  `json:"newPulses,omitzero"`
	NewAmount        *PulseSettingAnswer  `json:"newAmount,omitzero"`
	NextSteps        []Notice             `json:"nextSteps"`
	Cautions         []Notice             `json:"cautions"`
	Warnings         []Warning            `json:"warnings,omitzero"`
	working.Explained
}

// MeterReadingAnswer is what one reading says of the meter.
type MeterReadingAnswer struct {
	Label            string              `json:"label,omitzero"`
	CorrectionFactor wire.Quantity       `json:"correctionFactor,omitzero"`
	MeterError       wire.Quantity       `json:"meterError,omitzero"`
	PulseSetting     *PulseSettingAnswer `json:"pulseSetting,omitzero"`
}

// PulseSettingAnswer is so many pulses for an amount. Pulses need not be whole.
type PulseSettingAnswer struct {
	Pulses wire.Number   `json:"pulses"`
	Per    wire.Quantity `json:"per"`
}

func meterAnswer[T calc.Metered](ctx context.Context, r *MeterCalibrationRequest, result calc.MeterCalibrationResult[T], base unit.ID) MeterCalibrationAnswer {
	per := r.CurrentSetting.Per.Or(wire.Quantity{Value: 1, Unit: base})
	a := MeterCalibrationAnswer{
		Readings:        make([]MeterReadingAnswer, len(result.Readings)),
		WithinTolerance: within(result.Verdict),
		MeterTolerance:  r.MeterTolerance.Or(percent(result.MeterTolerance)),
		Repeatable:      within(result.Repeatable),
		NewPulses:       pulsesFor(per, result.Correction.AmountPerPulse),
		NextSteps:       nextSteps(ctx, meterSteps(result.Verdict, result.Repeatable, r)...),
		Cautions:        meterCautions.in(ctx),
		Warnings:        warnings(ctx, result.Warnings),
	}
	if r.Kind == calc.FlowMeter {
		a.Cautions = catchCautions.in(ctx)
	}
	a.CorrectionFactor, a.MeterError = factorAndError(result.Correction)
	for i, c := range result.Readings {
		x := &a.Readings[i]
		x.Label = r.Readings[i].Label
		x.CorrectionFactor, x.MeterError = factorAndError(c)
		if r.Readings[i].Pulses != 0 {
			x.PulseSetting = pulsesFor(per, c.AmountPerPulse)
		}
	}
	if result.Repeatable != finding.NotJudged {
		a.Spread = percent(result.Spread)
	}
	if r.CurrentFactor.Given() {
		a.NewFactor = wire.In(result.NewFactor, r.CurrentFactor.Unit)
	}
	if n := r.CurrentSetting.Pulses; n != 0 {
		a.NewAmount = &PulseSettingAnswer{wire.Number(n), wire.In(result.Correction.AmountPerPulse*T(n), per.Unit)}
	}
	return a
}

// pulsesFor is how many pulses an amount takes; nil when nothing says so.
func pulsesFor[T calc.Metered](per wire.Quantity, amountPerPulse T) *PulseSettingAnswer {
	if amountPerPulse == 0 {
		return nil
	}
	return &PulseSettingAnswer{wire.Number(per.SI() / float64(amountPerPulse)), per}
}

// factorAndError writes a correction; a factor is one to type in, so it is no %.
func factorAndError[T calc.Metered](c calc.MeterCorrection[T]) (factor, meterError wire.Quantity) {
	if c.Factor == 0 {
		return wire.Quantity{}, wire.Quantity{}
	}
	return wire.In(c.Factor, unit.IDOne), percent(c.Error)
}

// meterSteps says what to do with the setting. Readings that do not repeat, or that
// nobody has repeated, change none.
func meterSteps(verdict, repeatable finding.Verdict, r *MeterCalibrationRequest) []string {
	enter := "apply_correction"
	switch {
	case repeatable != finding.Within:
		return []string{"repeat_readings"}
	case r.CurrentFactor.Given():
		enter = "enter_factor"
	case r.CurrentSetting.Pulses != 0 || r.Readings[0].Pulses != 0:
		enter = "enter_pulses"
	}
	if verdict == finding.Within {
		return []string{"meter_in_order", enter, "read_meter_again"}
	}
	return []string{enter, "read_meter_again"}
}
