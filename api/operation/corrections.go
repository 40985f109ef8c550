package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// CorrectionsRequest is the body of POST /v1/corrections.
type CorrectionsRequest struct {
	Measured              MeasuredRequest        `json:"measured" validate:"required"`
	TargetApplicationRate wire.Quantity          `json:"targetApplicationRate" validate:"required" is:"application_rate"`
	RateTolerance         wire.Quantity          `json:"rateTolerance,omitzero" is:"ratio"`
	LabelMaximum          wire.Quantity          `json:"labelMaximum,omitzero" is:"application_rate"`
	LabelMinimum          wire.Quantity          `json:"labelMinimum,omitzero" is:"application_rate"`
	BoomEven              *bool                  `json:"boomEven,omitzero"`
	Limits                LimitsRequest          `json:"limits,omitzero"`
	PressureExponent      wire.Quantity          `json:"pressureExponent,omitzero" is:"ratio"`
	RateController        *bool                  `json:"rateController,omitzero"`
	Nozzle                LabeledNozzleRequest   `json:"nozzle,omitzero"`
	Nozzles               []LabeledNozzleRequest `json:"nozzles,omitzero" len:"0..20"`
	Gears                 []GearRequest          `json:"gears,omitzero" len:"0..12"`
	EngineSpeedLimits     wire.Range             `json:"engineSpeedLimits,omitzero" is:"rotational_speed"`
	RatedShaft            RatedShaftRequest      `json:"ratedShaft,omitzero"`
	Pump                  PumpRequest            `json:"pump,omitzero"`
	DutyCycleLimits       wire.Range             `json:"dutyCycleLimits,omitzero" is:"ratio"`
	DropletChart          []DropletRowRequest    `json:"dropletChart,omitzero" len:"0..168"`
	AllowedDropletClasses []calc.DropletClass    `json:"allowedDropletClasses,omitzero"`
	SprayVolumeRange      wire.Range             `json:"sprayVolumeRange,omitzero" is:"application_rate"`
	Results

	part finding.Place // of a sheet that has what there is to plan with
}

// MeasuredRequest is the state in which the rate was measured.
type MeasuredRequest struct {
	ApplicationRate wire.Quantity `json:"applicationRate" validate:"required" is:"application_rate"`
	GroundSpeed     wire.Quantity `json:"groundSpeed" validate:"required" is:"speed"`
	SprayPressure   wire.Quantity `json:"sprayPressure,omitzero" is:"pressure"`
	EngineSpeed     wire.Quantity `json:"engineSpeed,omitzero" is:"rotational_speed"`
	DutyCycle       wire.Quantity `json:"dutyCycle,omitzero" is:"ratio"`
	Gear            string        `json:"gear,omitzero"`
}

// LimitsRequest is what tractor, ground, nozzle and label allow.
type LimitsRequest struct {
	GroundSpeed   wire.Range `json:"groundSpeed,omitzero" is:"speed"`
	SprayPressure wire.Range `json:"sprayPressure,omitzero" is:"pressure"`
}

func corrections(ctx context.Context, r *CorrectionsRequest) (CorrectionsAnswer, error) {
	result, err := calc.Corrections(r.input())
	if err := wire.Combined(r.conflicts(), err); err != nil {
		return CorrectionsAnswer{}, r.nameGears(err)
	}
	a := correctionsAnswer(ctx, result, r)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

var measuredGear = wire.Pointer(finding.Member("measured").Member("gear"))

// nameGears says which gears there are where the present one is not among them.
func (r *CorrectionsRequest) nameGears(err error) error {
	refusal := RefusalOf(err)
	for i, e := range refusal.Fields {
		if e.Code == calc.CodeUnknownLabel && e.Pointer == measuredGear {
			listLabels(&refusal.Fields[i], "unknown_label_gear", r.Gears, func(g *GearRequest) string { return g.Label })
		}
	}
	return refusal
}

func (r *CorrectionsRequest) input() calc.CorrectionsInput {
	in := calc.CorrectionsInput{
		Measured: calc.MeasuredState{
			ApplicationRate: unit.ApplicationRate(r.Measured.ApplicationRate.SI()),
			GroundSpeed:     unit.Speed(r.Measured.GroundSpeed.SI()),
			SprayPressure:   unit.Pressure(r.Measured.SprayPressure.SI()),
			EngineSpeed:     unit.RotationalSpeed(r.Measured.EngineSpeed.SI()),
			DutyCycle:       unit.Ratio(r.Measured.DutyCycle.SI()),
			Gear:            r.Measured.Gear,
		},
		TargetApplicationRate: unit.ApplicationRate(r.TargetApplicationRate.SI()),
		RateTolerance:         unit.Ratio(r.RateTolerance.SI()),
		LabelMaximum:          unit.ApplicationRate(r.LabelMaximum.SI()),
		LabelMinimum:          unit.ApplicationRate(r.LabelMinimum.SI()),
		Limits:                r.Limits.input(),
		PressureExponent:      r.PressureExponent.SI(),
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
		GroundSpeed:   calc.SpeedRange{Low: unit.Speed(l.GroundSpeed.Low.SI()), High: unit.Speed(l.GroundSpeed.High.SI())},
		SprayPressure: pressureRange(l.SprayPressure),
	}
}
