package api

import (
	"context"
	"strconv"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// MeterCalibrationRequest is the body of POST /v1/meter-calibration.
type MeterCalibrationRequest struct {
	Kind           calc.MeterKind        `json:"kind" validate:"required"`
	Readings       []MeterReadingRequest `json:"readings" validate:"required" len:"1..100"`
	CurrentSetting PulseSettingRequest   `json:"currentSetting,omitzero"`
	CurrentFactor  Quantity              `json:"currentFactor,omitzero" is:"ratio"`
	MeterTolerance Quantity              `json:"meterTolerance" validate:"required" is:"ratio"`
	Results
}

// MeterReadingRequest is one amount, as the meter has it and as it was measured.
type MeterReadingRequest struct {
	Label     string   `json:"label,omitzero"`
	Indicated Quantity `json:"indicated,omitzero" is:"volume,length"`
	Pulses    int      `json:"pulses,omitzero" range:"1..1000000000"`
	Measured  Quantity `json:"measured" validate:"required" is:"volume,length"`
}

// PulseSettingRequest is so many pulses for an amount. The amount may be that of
// many units, so that whole pulses say any number of them per unit.
type PulseSettingRequest struct {
	Pulses int      `json:"pulses" validate:"required" range:"1..1000000000"`
	Per    Quantity `json:"per" validate:"required" is:"volume,length"`
}

func meterCalibration(ctx context.Context, r *MeterCalibrationRequest) (MeterCalibrationResponse, error) {
	if r.Kind == calc.FlowMeter {
		return calibrateMeter[unit.Volume](ctx, r, unit.KindVolume, r.units().volume)
	}
	return calibrateMeter[unit.Length](ctx, r, unit.KindLength, r.units().length)
}

// calibrateMeter calibrates a meter of amounts T, which are of the given kind; base
// is the unit that pulses are counted for when the request has no setting.
func calibrateMeter[T calc.Metered](ctx context.Context, r *MeterCalibrationRequest, kind unit.Kind, base unit.ID) (MeterCalibrationResponse, error) {
	if wrong := r.wrongUnits(kind); wrong != nil {
		return MeterCalibrationResponse{}, &refusal{kind: invalidRequest, fields: wrong}
	}
	in := calc.MeterCalibrationInput[T]{
		CurrentSetting: calc.PulseSetting[T]{Pulses: r.CurrentSetting.Pulses, Per: T(r.CurrentSetting.Per.si())},
		CurrentFactor:  unit.Ratio(r.CurrentFactor.si()),
		MeterTolerance: unit.Ratio(r.MeterTolerance.si()),
	}
	for _, x := range r.Readings {
		in.Readings = append(in.Readings, calc.MeterReading[T]{
			Indicated: T(x.Indicated.si()), Pulses: x.Pulses, Measured: T(x.Measured.si()),
		})
	}
	result, err := calc.MeterCalibration(in)
	if err != nil {
		return MeterCalibrationResponse{}, err
	}
	a := meterAnswer(ctx, r, result, base)
	a.Methods = r.methods()
	if r.shows() {
		a.Working = worked(func(w *working) { r.work(w, &a, base) })
	}
	return a, nil
}

// wrongUnits reports what is no volume where a flow meter is calibrated, no length
// where a speed sensor is.
func (r *MeterCalibrationRequest) wrongUnits(kind unit.Kind) (wrong []FieldError) {
	look := func(q Quantity, pointer string) {
		if q.given() && q.Unit.Kind() != kind {
			e := unitError(q.Unit.Symbol(), q.Unit, kindsOf(kind))
			e.Pointer = pointer + "/unit"
			wrong = append(wrong, e)
		}
	}
	for i, x := range r.Readings {
		at := "#/readings/" + strconv.Itoa(i)
		look(x.Indicated, at+"/indicated")
		look(x.Measured, at+"/measured")
	}
	look(r.CurrentSetting.Per, "#/currentSetting/per")
	return wrong
}
