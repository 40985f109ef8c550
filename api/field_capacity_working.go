package api

import "wetrun/calc/method"

func (r *FieldCapacityRequest) methods() methodSet {
	s := methodsOf(method.TheoreticalWorkRate, method.EffectiveWorkRate)
	refilled, field := r.RefillTime.given(), r.FieldArea.given()
	s.addIf(r.TankVolume.given(), method.AreaPerLoad, method.TimeForArea)
	s.addIf(refilled, method.WorkRateWithRefills)
	s.addIf(field, method.TimeForArea, method.TotalWorkTime)
	s.addIf(field && r.ApplicationRate.given(), method.VolumeForArea)
	s.addIf(field && refilled, method.RefillingTime)
	return s
}

func (r *FieldCapacityRequest) work(w *working, a *FieldCapacityResponse) {
	w.line(method.TheoreticalWorkRate, "/theoreticalWorkRate", a.TheoreticalWorkRate, put("v", r.GroundSpeed), put("W", r.WorkingWidth))
	w.line(method.EffectiveWorkRate, "/effectiveWorkRate", a.EffectiveWorkRate, put("C", a.TheoreticalWorkRate), put("e", a.FieldEfficiency))
	rate := put("C", a.EffectiveWorkRate)
	if a.AreaPerLoad.given() {
		w.line(method.AreaPerLoad, "/areaPerLoad", a.AreaPerLoad, put("V", r.TankVolume), put("R", r.ApplicationRate))
		w.line(method.TimeForArea, "/timePerLoad", a.TimePerLoad, put("A", a.AreaPerLoad), rate)
	}
	if a.WorkRateWithRefills.given() {
		w.line(method.WorkRateWithRefills, "/workRateWithRefills", a.WorkRateWithRefills,
			put("A", a.AreaPerLoad), put("t", a.TimePerLoad), put("r", r.RefillTime))
	}
	if !r.FieldArea.given() {
		return
	}
	area := put("A", r.FieldArea)
	if a.SprayVolume.given() {
		w.line(method.VolumeForArea, "/sprayVolume", a.SprayVolume, area, put("R", r.ApplicationRate))
	}
	w.line(method.TimeForArea, "/fieldTime", a.FieldTime, area, rate)
	refilling := a.RefillingTime.or(Quantity{0, a.FieldTime.Unit})
	if a.RefillingTime.given() {
		w.line(method.RefillingTime, "/refillingTime", a.RefillingTime, putNumber("n", *a.Refills), put("r", r.RefillTime))
	}
	w.line(method.TotalWorkTime, "/totalTime", a.TotalTime, put("t", a.FieldTime), put("r", refilling))
}
