package api

import "wetrun/calc"

func (r *FieldCapacityRequest) methods() methodSet {
	s := methodsOf(calc.MethodTheoreticalWorkRate, calc.MethodEffectiveWorkRate)
	refilled, field := r.RefillTime.given(), r.FieldArea.given()
	s.addIf(r.TankVolume.given(), calc.MethodAreaPerLoad, calc.MethodTimeForArea)
	s.addIf(refilled, calc.MethodWorkRateWithRefills)
	s.addIf(field, calc.MethodTimeForArea, calc.MethodTotalWorkTime)
	s.addIf(field && r.ApplicationRate.given(), calc.MethodVolumeForArea)
	s.addIf(field && refilled, calc.MethodRefillingTime)
	return s
}

func (r *FieldCapacityRequest) work(w *working, a *FieldCapacityResponse) {
	w.line(calc.MethodTheoreticalWorkRate, "/theoreticalWorkRate", a.TheoreticalWorkRate, put("v", r.GroundSpeed), put("W", r.WorkingWidth))
	w.line(calc.MethodEffectiveWorkRate, "/effectiveWorkRate", a.EffectiveWorkRate, put("C", a.TheoreticalWorkRate), put("e", a.FieldEfficiency))
	rate := put("C", a.EffectiveWorkRate)
	if a.AreaPerLoad.given() {
		w.line(calc.MethodAreaPerLoad, "/areaPerLoad", a.AreaPerLoad, put("V", r.TankVolume), put("R", r.ApplicationRate))
		w.line(calc.MethodTimeForArea, "/timePerLoad", a.TimePerLoad, put("A", a.AreaPerLoad), rate)
	}
	if a.WorkRateWithRefills.given() {
		w.line(calc.MethodWorkRateWithRefills, "/workRateWithRefills", a.WorkRateWithRefills,
			put("A", a.AreaPerLoad), put("t", a.TimePerLoad), put("r", r.RefillTime))
	}
	if !r.FieldArea.given() {
		return
	}
	area := put("A", r.FieldArea)
	if a.SprayVolume.given() {
		w.line(calc.MethodVolumeForArea, "/sprayVolume", a.SprayVolume, area, put("R", r.ApplicationRate))
	}
	w.line(calc.MethodTimeForArea, "/fieldTime", a.FieldTime, area, rate)
	refilling := a.RefillingTime.or(Quantity{0, a.FieldTime.Unit})
	if a.RefillingTime.given() {
		w.line(calc.MethodRefillingTime, "/refillingTime", a.RefillingTime, putNumber("n", *a.Refills), put("r", r.RefillTime))
	}
	w.line(calc.MethodTotalWorkTime, "/totalTime", a.TotalTime, put("t", a.FieldTime), put("r", refilling))
}
