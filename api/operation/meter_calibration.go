package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MeterCalibrationRequest is the body of POST /v1/meter-calibration.
type MeterCalibrationRequest struct {
	Kind           calc.MeterKind        `json:"kind" validate:"required"`
	Readings       []MeterReadingRequest `json:"readings" validate:"required" len:"1..100"`
	CurrentSetting PulseSettingRequest   `json:"currentSetting,omitzero"`
	CurrentFactor  wire.Quantity         `json:"currentFactor,omitzero" is:"ratio"`
	MeterTolerance wire.Quantity         `json:"meterTolerance" validate:"required" is:"ratio"`
	Results
}

// MeterReadingRequest is one amount, as the meter has it and as it was measured.
type MeterReadingRequest struct {
	Label     string        `json:"label,omitzero"`
	Indicated wire.Quantity `json:"indicated,omitzero" is:"volume,length"`
	Pulses    int           `json:"pulses,omitzero" range:"1..1000000000"`
	Measured  wire.Quantity `json:"measured" validate:"required" is:"volume,length"`
}

// PulseSettingRequest is so many pulses for an amount. The amount may be that of
// many units, so that whole pulses say any number of them per unit.
type PulseSettingRequest struct {
	Pulses int           `json:"pulses" validate:"required" range:"1..1000000000"`
	Per    wire.Quantity `json:"per" validate:"required" is:"volume,length"`
}

func meterCalibration(ctx context.Context, r *MeterCalibrationRequest) (MeterCalibrationAnswer, error) {
	if r.Kind == calc.FlowMeter {
		return calibrateMeter[unit.Volume](ctx, r, unit.KindVolume, r.units().volume)
	}
	return calibrateMeter[unit.Length](ctx, r, unit.KindLength, r.units().length)
}

// calibrateMeter calibrates a meter of amounts T, which are of the given kind; base
// is the unit that pulses are counted for when the request has no setting.
func calibrateMeter[T calc.Metered](ctx context.Context, r *MeterCalibrationRequest, kind unit.Kind, base unit.ID) (MeterCalibrationAnswer, error) {
	if wrong := r.wrongUnits(kind); wrong != nil {
		return MeterCalibrationAnswer{}, &wire.Refusal{Kind: wire.InvalidRequest, Fields: wrong}
	}
	in := calc.MeterCalibrationInput[T]{
		CurrentSetting: calc.PulseSetting[T]{Pulses: r.CurrentSetting.Pulses, Per: T(r.CurrentSetting.Per.SI())},
		CurrentFactor:  unit.Ratio(r.CurrentFactor.SI()),
		MeterTolerance: unit.Ratio(r.MeterTolerance.SI()),
	}
	for _, x := range r.Readings {
		in.Readings = append(in.Readings, calc.MeterReading[T]{
			Indicated: T(x.Indicated.SI()), Pulses: x.Pulses, Measured: T(x.Measured.SI()),
		})
	}
	result, err := calc.MeterCalibration(in)
	if err != nil {
		return MeterCalibrationAnswer{}, err
	}
	a := meterAnswer(ctx, r, result, base)
	w := working.New(r.shows())
	r.work(w, &a, base)
	a.Explained = w.Answer()
	return a, nil
}

// wrongUnits reports what is no volume where a flow meter is calibrated, no length
// where a speed sensor is.
func (r *MeterCalibrationRequest) wrongUnits(kind unit.Kind) (wrong []wire.FieldError) {
	check := func(q wire.Quantity, p finding.Place) {
		if q.Given() && q.Unit.Kind() != kind {
			wrong = append(wrong, wire.WrongUnit(p.Member("unit"), q.Unit, kind))
		}
	}
	for i, x := range r.Readings {
		check(x.Indicated, finding.Item("readings", i).Member("indicated"))
		check(x.Measured, finding.Item("readings", i).Member("measured"))
	}
	check(r.CurrentSetting.Per, finding.Member("currentSetting").Member("per"))
	return wrong
}
