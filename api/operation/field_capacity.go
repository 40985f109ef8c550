package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// FieldCapacityRequest is the body of POST /v1/field-capacity.
type FieldCapacityRequest struct {
	GroundSpeed     wire.Quantity `json:"groundSpeed" validate:"required" is:"speed"`
	WorkingWidth    wire.Quantity `json:"workingWidth" validate:"required" is:"length"`
	FieldEfficiency wire.Quantity `json:"fieldEfficiency,omitzero" is:"ratio"`
	TankVolume      wire.Quantity `json:"tankVolume,omitzero" is:"volume"`
	ApplicationRate wire.Quantity `json:"applicationRate,omitzero" is:"application_rate"`
	RefillTime      wire.Quantity `json:"refillTime,omitzero" is:"time"`
	FieldArea       wire.Quantity `json:"fieldArea,omitzero" is:"area"`
	Results
}

// FieldCapacityAnswer is the answer of POST /v1/field-capacity. Loads and refills are
// pointers, since no refill is an answer too.
type FieldCapacityAnswer struct {
	FieldEfficiency     wire.Quantity `json:"fieldEfficiency"`
	TheoreticalWorkRate wire.Quantity `json:"theoreticalWorkRate"`
	EffectiveWorkRate   wire.Quantity `json:"effectiveWorkRate"`
	AreaPerLoad         wire.Quantity `json:"areaPerLoad,omitzero"`
	TimePerLoad         wire.Quantity `json:"timePerLoad,omitzero"`
	WorkRateWithRefills wire.Quantity `json:"workRateWithRefills,omitzero"`
	FieldArea           wire.Quantity `json:"fieldArea,omitzero"`
	SprayVolume         wire.Quantity `json:"sprayVolume,omitzero"`
	Loads               *int          `json:"loads,omitzero"`
	Refills             *int          `json:"refills,omitzero"`
	FieldTime           wire.Quantity `json:"fieldTime,omitzero"`
	RefillingTime       wire.Quantity `json:"refillingTime,omitzero"`
	TotalTime           wire.Quantity `json:"totalTime,omitzero"`
	RefillTimeIncluded  *bool         `json:"refillTimeIncluded,omitzero"`
	Cautions            []Notice      `json:"cautions"`
	Warnings            []Warning     `json:"warnings,omitzero"`
	working.Explained
}

func fieldCapacity(ctx context.Context, r *FieldCapacityRequest) (FieldCapacityAnswer, error) {
	result, err := calc.FieldCapacity(calc.FieldCapacityInput{
		GroundSpeed:     unit.Speed(r.GroundSpeed.SI()),
		WorkingWidth:    unit.Length(r.WorkingWidth.SI()),
		FieldEfficiency: unit.Ratio(r.FieldEfficiency.SI()),
		TankVolume:      unit.Volume(r.TankVolume.SI()),
		ApplicationRate: unit.ApplicationRate(r.ApplicationRate.SI()),
		RefillTime:      unit.Time(r.RefillTime.SI()),
		FieldArea:       unit.Area(r.FieldArea.SI()),
	})
	if err != nil {
		return FieldCapacityAnswer{}, err
	}
	units := r.units()
	a := FieldCapacityAnswer{
		FieldEfficiency:     r.FieldEfficiency.Or(percent(result.FieldEfficiency)),
		TheoreticalWorkRate: wire.In(result.TheoreticalWorkRate, units.workRate),
		EffectiveWorkRate:   wire.In(result.EffectiveWorkRate, units.workRate),
		FieldArea:           r.FieldArea,
		Cautions:            capacityCautions.in(ctx),
		Warnings:            warnings(ctx, result.Warnings),
	}
	if r.TankVolume.Given() {
		a.AreaPerLoad = wire.In(result.AreaPerLoad, units.area)
		a.TimePerLoad = wire.In(result.TimePerLoad, unit.IDH)
	}
	if r.RefillTime.Given() {
		a.WorkRateWithRefills = wire.In(result.WorkRateWithRefills, units.workRate)
	}
	if r.FieldArea.Given() {
		r.field(&a, &result)
	}
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

// field adds what a field takes.
func (r *FieldCapacityRequest) field(a *FieldCapacityAnswer, result *calc.FieldCapacityResult) {
	refilled := r.RefillTime.Given()
	if r.ApplicationRate.Given() {
		a.SprayVolume = wire.In(result.SprayVolume, r.units().volume)
	}
	if r.TankVolume.Given() {
		a.Loads, a.Refills = &result.Loads, &result.Refills
	}
	if refilled {
		a.RefillingTime = wire.In(result.RefillingTime, unit.IDH)
	}
	a.FieldTime = wire.In(result.FieldTime, unit.IDH)
	a.TotalTime = wire.In(result.TotalTime, unit.IDH)
	a.RefillTimeIncluded = &refilled
}

func (r *FieldCapacityRequest) work(w working.Working, a *FieldCapacityAnswer) {
	w.Line(method.TheoreticalWorkRate, "/theoreticalWorkRate", a.TheoreticalWorkRate).With("v", r.GroundSpeed).With("W", r.WorkingWidth)
	w.Line(method.EffectiveWorkRate, "/effectiveWorkRate", a.EffectiveWorkRate).With("C", a.TheoreticalWorkRate).With("e", a.FieldEfficiency)
	if a.AreaPerLoad.Given() {
		w.Line(method.AreaPerLoad, "/areaPerLoad", a.AreaPerLoad).With("V", r.TankVolume).With("R", r.ApplicationRate)
		w.Line(method.TimeForArea, "/timePerLoad", a.TimePerLoad).With("A", a.AreaPerLoad).With("C", a.EffectiveWorkRate)
	}
	if a.WorkRateWithRefills.Given() {
		w.Line(method.WorkRateWithRefills, "/workRateWithRefills", a.WorkRateWithRefills).
			With("A", a.AreaPerLoad).With("t", a.TimePerLoad).With("r", r.RefillTime)
	}
	if !r.FieldArea.Given() {
		return
	}
	if a.SprayVolume.Given() {
		w.Line(method.VolumeForArea, "/sprayVolume", a.SprayVolume).With("A", r.FieldArea).With("R", r.ApplicationRate)
	}
	w.Line(method.TimeForArea, "/fieldTime", a.FieldTime).With("A", r.FieldArea).With("C", a.EffectiveWorkRate)
	refilling := a.RefillingTime.Or(wire.Quantity{Value: 0, Unit: a.FieldTime.Unit})
	if a.RefillingTime.Given() {
		w.Line(method.RefillingTime, "/refillingTime", a.RefillingTime).Count("n", *a.Refills).With("r", r.RefillTime)
	}
	w.Line(method.TotalWorkTime, "/totalTime", a.TotalTime).With("t", a.FieldTime).With("r", refilling)
}
