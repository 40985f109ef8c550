package api

import "wetrun/calc/method"

func (r *FieldCapacityRequest) work(w working, a *FieldCapacityAnswer) {
	w.line(method.TheoreticalWorkRate, "/theoreticalWorkRate", a.TheoreticalWorkRate).with("v", r.GroundSpeed).with("W", r.WorkingWidth)
	w.line(method.EffectiveWorkRate, "/effectiveWorkRate", a.EffectiveWorkRate).with("C", a.TheoreticalWorkRate).with("e", a.FieldEfficiency)
	if a.AreaPerLoad.given() {
		w.line(method.AreaPerLoad, "/areaPerLoad", a.AreaPerLoad).with("V", r.TankVolume).with("R", r.ApplicationRate)
		w.line(method.TimeForArea, "/timePerLoad", a.TimePerLoad).with("A", a.AreaPerLoad).with("C", a.EffectiveWorkRate)
	}
	if a.WorkRateWithRefills.given() {
		w.line(method.WorkRateWithRefills, "/workRateWithRefills", a.WorkRateWithRefills).
			with("A", a.AreaPerLoad).with("t", a.TimePerLoad).with("r", r.RefillTime)
	}
	if !r.FieldArea.given() {
		return
	}
	if a.SprayVolume.given() {
		w.line(method.VolumeForArea, "/sprayVolume", a.SprayVolume).with("A", r.FieldArea).with("R", r.ApplicationRate)
	}
	w.line(method.TimeForArea, "/fieldTime", a.FieldTime).with("A", r.FieldArea).with("C", a.EffectiveWorkRate)
	refilling := a.RefillingTime.or(Quantity{0, a.FieldTime.Unit})
	if a.RefillingTime.given() {
		w.line(method.RefillingTime, "/refillingTime", a.RefillingTime).count("n", *a.Refills).with("r", r.RefillTime)
	}
	w.line(method.TotalWorkTime, "/totalTime", a.TotalTime).with("t", a.FieldTime).with("r", refilling)
}
