package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// CorrectionsRequest is the body of POST /v1/corrections.
type CorrectionsRequest struct {
	Measured              MeasuredRequest        `json:"measured" validate:"required"`
	TargetApplicationRate Quantity               `json:"targetApplicationRate" validate:"required"`
	RateTolerance         Quantity               `json:"rateTolerance,omitzero"`
	LabelMaximum          Quantity               `json:"labelMaximum,omitzero"`
	BoomEven              *bool                  `json:"boomEven,omitzero"`
	Limits                LimitsRequest          `json:"limits,omitzero"`
	PressureExponent      Quantity               `json:"pressureExponent,omitzero"`
	RateController        *bool                  `json:"rateController,omitzero"`
	Nozzle                LabeledNozzleRequest   `json:"nozzle,omitzero"`
	Nozzles               []LabeledNozzleRequest `json:"nozzles,omitzero"`
	Gears                 []GearRequest          `json:"gears,omitzero"`
	EngineSpeedLimits     Range                  `json:"engineSpeedLimits,omitzero"`
	RatedShaft            RatedShaftRequest      `json:"ratedShaft,omitzero"`
	Pump                  PumpRequest            `json:"pump,omitzero"`
	DutyCycleLimits       Range                  `json:"dutyCycleLimits,omitzero"`
	DropletChart          []DropletRowRequest    `json:"dropletChart,omitzero"`
	AllowedDropletClasses []string               `json:"allowedDropletClasses,omitzero"`
	SprayVolumeRange      Range                  `json:"sprayVolumeRange,omitzero"`
	Results

	sheet bool          // part of a field sheet, which has none of the members from changes on
	part  finding.Place // of the sheet that has what there is to plan with
}

// MeasuredRequest is the state in which the rate was measured.
type MeasuredRequest struct {
	ApplicationRate Quantity `json:"applicationRate"`
	GroundSpeed     Quantity `json:"groundSpeed"`
	SprayPressure   Quantity `json:"sprayPressure,omitzero"`
	EngineSpeed     Quantity `json:"engineSpeed,omitzero"`
	DutyCycle       Quantity `json:"dutyCycle,omitzero"`
	Gear            string   `json:"gear,omitzero"`
}

// LimitsRequest is what tractor, ground, nozzle and label allow.
type LimitsRequest struct {
	GroundSpeed   Range `json:"groundSpeed,omitzero"`
	SprayPressure Range `json:"sprayPressure,omitzero"`
}

var measuredTable = objectOf(
	require(quantity("applicationRate", func(m *MeasuredRequest) *Quantity { return &m.ApplicationRate }, unit.KindApplicationRate)),
	require(quantity("groundSpeed", func(m *MeasuredRequest) *Quantity { return &m.GroundSpeed }, unit.KindSpeed)),
	quantity("sprayPressure", func(m *MeasuredRequest) *Quantity { return &m.SprayPressure }, unit.KindPressure),
	quantity("engineSpeed", func(m *MeasuredRequest) *Quantity { return &m.EngineSpeed }, unit.KindRotationalSpeed),
	quantity("dutyCycle", func(m *MeasuredRequest) *Quantity { return &m.DutyCycle }, unit.KindRatio),
	label("gear", func(m *MeasuredRequest) *string { return &m.Gear }, longestLabel),
)

var limitsTable = objectOf(
	nested("groundSpeed", func(l *LimitsRequest) *Range { return &l.GroundSpeed }, speedRangeTable),
	nested("sprayPressure", func(l *LimitsRequest) *Range { return &l.SprayPressure }, pressureRangeTable),
)

var correctionsTable = objectOf(
	nested("measured", func(r *CorrectionsRequest) *MeasuredRequest { return &r.Measured }, measuredTable),
	quantity("targetApplicationRate", func(r *CorrectionsRequest) *Quantity { return &r.TargetApplicationRate }, unit.KindApplicationRate),
	quantity("rateTolerance", func(r *CorrectionsRequest) *Quantity { return &r.RateTolerance }, unit.KindRatio),
	quantity("labelMaximum", func(r *CorrectionsRequest) *Quantity { return &r.LabelMaximum }, unit.KindApplicationRate),
	flag("boomEven", func(r *CorrectionsRequest) **bool { return &r.BoomEven }),
	nested("limits", func(r *CorrectionsRequest) *LimitsRequest { return &r.Limits }, limitsTable),
	quantity("pressureExponent", func(r *CorrectionsRequest) *Quantity { return &r.PressureExponent }, unit.KindRatio),
	flag("rateController", func(r *CorrectionsRequest) **bool { return &r.RateController }),
	nested("nozzle", func(r *CorrectionsRequest) *LabeledNozzleRequest { return &r.Nozzle }, shelfNozzleTable),
	list("nozzles", func(r *CorrectionsRequest) *[]LabeledNozzleRequest { return &r.Nozzles }, 0, mostShelfNozzles, shelfNozzleTable),
	list("gears", func(r *CorrectionsRequest) *[]GearRequest { return &r.Gears }, 0, mostGears, gearTable),
	nested("engineSpeedLimits", func(r *CorrectionsRequest) *Range { return &r.EngineSpeedLimits }, engineSpeedRangeTable),
	nested("ratedShaft", func(r *CorrectionsRequest) *RatedShaftRequest { return &r.RatedShaft }, ratedShaftTable),
	nested("pump", func(r *CorrectionsRequest) *PumpRequest { return &r.Pump }, pumpTable),
	nested("dutyCycleLimits", func(r *CorrectionsRequest) *Range { return &r.DutyCycleLimits }, dutyCycleRangeTable),
	list("dropletChart", func(r *CorrectionsRequest) *[]DropletRowRequest { return &r.DropletChart }, 0, mostDropletRows, dropletRowTable),
	wordList("allowedDropletClasses", func(r *CorrectionsRequest) *[]string { return &r.AllowedDropletClasses }, 1, len(dropletWords)-1, dropletWords[1:]...),
	nested("sprayVolumeRange", func(r *CorrectionsRequest) *Range { return &r.SprayVolumeRange }, rateRangeTable),
	results(func(r *CorrectionsRequest) *Results { return &r.Results }),
	showing(func(r *CorrectionsRequest) *Showing { return &r.Showing }),
)

func corrections(ctx context.Context, r *CorrectionsRequest) (CorrectionsResponse, error) {
	result, err := calc.Corrections(r.input())
	if err := combined(r.conflicts(), err); err != nil {
		return CorrectionsResponse{}, r.nameGears(err)
	}
	a := correctionsAnswer(ctx, result, r)
	lines := func(w *working) { r.work(w, &result, &a) }
	a.Methods = methodsBy(lines)
	if r.shows() {
		a.Working = worked(lines)
	}
	return a, nil
}

var measuredGear = pointer(finding.Member("measured").Member("gear"))

// nameGears says which gears there are where the present one is not among them.
func (r *CorrectionsRequest) nameGears(err error) error {
	refusal := refusalOf(err)
	labels := make([]string, len(r.Gears))
	for i := range r.Gears {
		labels[i] = r.Gears[i].Label
	}
	for i, e := range refusal.fields {
		if e.Code == calc.CodeUnknownLabel && e.Pointer == measuredGear {
			refusal.fields[i].wording, refusal.fields[i].args = "unknown_label_gear", []any{fewLabels(labels)}
		}
	}
	return refusal
}

func (r *CorrectionsRequest) input() calc.CorrectionsInput {
	in := calc.CorrectionsInput{
		Measured: calc.MeasuredState{
			ApplicationRate: unit.ApplicationRate(r.Measured.ApplicationRate.si()),
			GroundSpeed:     unit.Speed(r.Measured.GroundSpeed.si()),
			SprayPressure:   unit.Pressure(r.Measured.SprayPressure.si()),
			EngineSpeed:     unit.RotationalSpeed(r.Measured.EngineSpeed.si()),
			DutyCycle:       unit.Ratio(r.Measured.DutyCycle.si()),
			Gear:            r.Measured.Gear,
		},
		TargetApplicationRate: unit.ApplicationRate(r.TargetApplicationRate.si()),
		RateTolerance:         unit.Ratio(r.RateTolerance.si()),
		LabelMaximum:          unit.ApplicationRate(r.LabelMaximum.si()),
		Limits:                r.Limits.input(),
		PressureExponent:      r.PressureExponent.si(),
		RateController:        r.RateController != nil && *r.RateController,
	}
	r.machineInput(&in)
	r.nozzlesInput(&in)
	r.labelInput(&in)
	if r.BoomEven != nil {
		in.BoomEven = calc.BoomUneven
		if *r.BoomEven {
			in.BoomEven = calc.BoomEven
		}
	}
	return in
}

func (l *LimitsRequest) input() calc.CorrectionLimits {
	return calc.CorrectionLimits{
		GroundSpeed:   calc.SpeedRange{Low: unit.Speed(l.GroundSpeed.Low.si()), High: unit.Speed(l.GroundSpeed.High.si())},
		SprayPressure: pressureRange(l.SprayPressure),
	}
}
