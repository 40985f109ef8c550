package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// FieldCapacityRequest is the body of POST /v1/field-capacity.
type FieldCapacityRequest struct {
	GroundSpeed     Quantity `json:"groundSpeed" validate:"required" is:"speed"`
	WorkingWidth    Quantity `json:"workingWidth" validate:"required" is:"length"`
	FieldEfficiency Quantity `json:"fieldEfficiency,omitzero" is:"ratio"`
	TankVolume      Quantity `json:"tankVolume,omitzero" is:"volume"`
	ApplicationRate Quantity `json:"applicationRate,omitzero" is:"application_rate"`
	RefillTime      Quantity `json:"refillTime,omitzero" is:"time"`
	FieldArea       Quantity `json:"fieldArea,omitzero" is:"area"`
	Results
}

// FieldCapacityAnswer is the answer. Loads and refills are pointers, since no
// refill is an answer too.
type FieldCapacityAnswer struct {
	FieldEfficiency     Quantity  `json:"fieldEfficiency"`
	TheoreticalWorkRate Quantity  `json:"theoreticalWorkRate"`
	EffectiveWorkRate   Quantity  `json:"effectiveWorkRate"`
	AreaPerLoad         Quantity  `json:"areaPerLoad,omitzero"`
	TimePerLoad         Quantity  `json:"timePerLoad,omitzero"`
	WorkRateWithRefills Quantity  `json:"workRateWithRefills,omitzero"`
	FieldArea           Quantity  `json:"fieldArea,omitzero"`
	SprayVolume         Quantity  `json:"sprayVolume,omitzero"`
	Loads               *int      `json:"loads,omitzero"`
	Refills             *int      `json:"refills,omitzero"`
	FieldTime           Quantity  `json:"fieldTime,omitzero"`
	RefillingTime       Quantity  `json:"refillingTime,omitzero"`
	TotalTime           Quantity  `json:"totalTime,omitzero"`
	RefillTimeIncluded  *bool     `json:"refillTimeIncluded,omitzero"`
	Cautions            []notice  `json:"cautions"`
	Warnings            []warning `json:"warnings,omitzero"`
	Explained
}

// capacityCautions go with a plan of work: it is no leave to spray.
var capacityCautions = cautionsOf("label_is_law", "local_rules")

func fieldCapacity(ctx context.Context, r *FieldCapacityRequest) (FieldCapacityAnswer, error) {
	result, err := calc.FieldCapacity(calc.FieldCapacityInput{
		GroundSpeed:     unit.Speed(r.GroundSpeed.si()),
		WorkingWidth:    unit.Length(r.WorkingWidth.si()),
		FieldEfficiency: unit.Ratio(r.FieldEfficiency.si()),
		TankVolume:      unit.Volume(r.TankVolume.si()),
		ApplicationRate: unit.ApplicationRate(r.ApplicationRate.si()),
		RefillTime:      unit.Time(r.RefillTime.si()),
		FieldArea:       unit.Area(r.FieldArea.si()),
	})
	if err != nil {
		return FieldCapacityAnswer{}, err
	}
	units := r.units()
	a := FieldCapacityAnswer{
		FieldEfficiency:     r.FieldEfficiency.or(percent(result.FieldEfficiency)),
		TheoreticalWorkRate: in(result.TheoreticalWorkRate, units.workRate),
		EffectiveWorkRate:   in(result.EffectiveWorkRate, units.workRate),
		FieldArea:           r.FieldArea,
		Cautions:            capacityCautions.in(ctx),
		Warnings:            warnings(ctx, result.Warnings),
	}
	if r.TankVolume.given() {
		a.AreaPerLoad = in(result.AreaPerLoad, units.area)
		a.TimePerLoad = in(result.TimePerLoad, unit.IDH)
	}
	if r.RefillTime.given() {
		a.WorkRateWithRefills = in(result.WorkRateWithRefills, units.workRate)
	}
	if r.FieldArea.given() {
		r.field(&a, &result)
	}
	w := explaining(r.shows())
	r.work(w, &a)
	a.Explained = w.answer()
	return a, nil
}

// field adds what a field takes.
func (r *FieldCapacityRequest) field(a *FieldCapacityAnswer, result *calc.FieldCapacityResult) {
	refilled := r.RefillTime.given()
	if r.ApplicationRate.given() {
		a.SprayVolume = in(result.SprayVolume, r.units().volume)
	}
	if r.TankVolume.given() {
		a.Loads, a.Refills = &result.Loads, &result.Refills
	}
	if refilled {
		a.RefillingTime = in(result.RefillingTime, unit.IDH)
	}
	a.FieldTime = in(result.FieldTime, unit.IDH)
	a.TotalTime = in(result.TotalTime, unit.IDH)
	a.RefillTimeIncluded = &refilled
}
