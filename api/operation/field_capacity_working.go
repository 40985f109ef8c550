package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/method"
)

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
