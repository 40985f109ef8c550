package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MeterCalibrationRequest is the body of POST /v1/meter-calibration.
type MeterCalibrationRequest struct {
	Kind           string                `json:"kind" validate:"required"`
	Readings       []MeterReadingRequest `json:"readings" validate:"required"`
	CurrentSetting PulseSettingRequest   `json:"currentSetting,omitzero"`
	CurrentFactor  Quantity              `json:"currentFactor,omitzero"`
	MeterTolerance Quantity              `json:"meterTolerance" validate:"required"`
	Results
}

// MeterReadingRequest is one amount, as the meter has it and as it was measured.
type MeterReadingRequest struct {
	Label     string   `json:"label,omitzero"`
	Indicated Quantity `json:"indicated,omitzero"`
	Pulses    int      `json:"pulses,omitzero"`
	Measured  Quantity `json:"measured"`
}

// PulseSettingRequest is so many pulses for an amount. The amount may be that of
// many units, so that whole pulses say any number of them per unit.
type PulseSettingRequest struct {
	Pulses int      `json:"pulses"`
	Per    Quantity `json:"per"`
}

// The kinds of meters, as on the wire.
const (
	meterFlow  = "flow_meter"
	meterSpeed = "speed_sensor"
)

// mostPulses is how many pulses may be counted or set.
const mostPulses = 1_000_000_000

var meterReadingTable = objectOf(
	label("label", func(m *MeterReadingRequest) *string { return &m.Label }, longestLabel),
	quantity("indicated", func(m *MeterReadingRequest) *Quantity { return &m.Indicated }, unit.KindVolume, unit.KindLength),
	count("pulses", func(m *MeterReadingRequest) *int { return &m.Pulses }, 1, mostPulses),
	require(quantity("measured", func(m *MeterReadingRequest) *Quantity { return &m.Measured }, unit.KindVolume, unit.KindLength)),
)

var pulseSettingTable = objectOf(
	require(count("pulses", func(s *PulseSettingRequest) *int { return &s.Pulses }, 1, mostPulses)),
	require(quantity("per", func(s *PulseSettingRequest) *Quantity { return &s.Per }, unit.KindVolume, unit.KindLength)),
)

var meterCalibrationTable = objectOf(
	oneOf("kind", func(r *MeterCalibrationRequest) *string { return &r.Kind }, meterFlow, meterSpeed),
	list("readings", func(r *MeterCalibrationRequest) *[]MeterReadingRequest { return &r.Readings }, 1, mostReadings, meterReadingTable),
	nested("currentSetting", func(r *MeterCalibrationRequest) *PulseSettingRequest { return &r.CurrentSetting }, pulseSettingTable),
	quantity("currentFactor", func(r *MeterCalibrationRequest) *Quantity { return &r.CurrentFactor }, unit.KindRatio),
	quantity("meterTolerance", func(r *MeterCalibrationRequest) *Quantity { return &r.MeterTolerance }, unit.KindRatio),
	results(func(r *MeterCalibrationRequest) *Results { return &r.Results }),
	showing(func(r *MeterCalibrationRequest) *Showing { return &r.Showing }),
)

func meterCalibration(ctx context.Context, r *MeterCalibrationRequest) (MeterCalibrationResponse, error) {
	if r.Kind == meterFlow {
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
	w := explaining(r.shows())
	r.work(w, &a, base)
	a.Explained = w.answer()
	return a, nil
}

// wrongUnits reports what is no volume where a flow meter is calibrated, no length
// where a speed sensor is.
func (r *MeterCalibrationRequest) wrongUnits(kind unit.Kind) (wrong []FieldError) {
	other := func(q Quantity) bool { return q.given() && q.Unit.Kind() != kind }
	add := func(q Quantity, place finding.Place) {
		e := unitError(q.Unit.Symbol(), q.Unit, kindsOf(kind))
		e.Pointer = pointer(place.Member("unit"))
		wrong = append(wrong, e)
	}
	for i, x := range r.Readings {
		if other(x.Indicated) {
			add(x.Indicated, finding.Item("readings", i).Member("indicated"))
		}
		if other(x.Measured) {
			add(x.Measured, finding.Item("readings", i).Member("measured"))
		}
	}
	if per := r.CurrentSetting.Per; other(per) {
		add(per, finding.Member("currentSetting").Member("per"))
	}
	return wrong
}
