package api

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// groups are the nozzles as groups, however they were given.
func (r *PumpDemandRequest) groups() []NozzleGroupRequest {
	if len(r.NozzleGroups) > 0 {
		return r.NozzleGroups
	}
	return []NozzleGroupRequest{{Nozzles: r.Nozzles, NozzleFlowRate: r.NozzleFlowRate, Nozzle: r.Nozzle}}
}

func (r *PumpDemandRequest) methods(x *calc.PumpDemandResult) methodSet {
	s := methodsOf(method.GroupFlow, method.SprayFlow, method.ReserveFlow, method.PumpDemand)
	for _, g := range r.groups() {
		if !g.NozzleFlowRate.given() {
			s.join(g.Nozzle.flowMethods(unit.Pressure(r.SprayPressure.si())))
		}
	}
	tank := r.TankVolume.given()
	s.addIf(tank && !r.AgitationFlowRate.given(), method.AgitationFlow)
	s.addIf(tank && r.AgitationFlowRate.given(), method.AgitationShare)
	s.addIf(x.Sufficient != calc.NotJudged, method.SpareFlow, method.WornPumpFlow, method.LargestSprayFlow)
	s.addIf(r.GroundSpeed.given(), method.BoomRate)
	return s
}

func (r *PumpDemandRequest) work(w *working, a *PumpDemandResponse) {
	var flows []Quantity
	for i, g := range r.groups() {
		at, x := "/nozzleGroups/"+strconv.Itoa(i), &a.NozzleGroups[i]
		if !g.NozzleFlowRate.given() {
			g.Nozzle.workFlow(w, at+"/nozzleFlowRate", x.NozzleFlowRate, r.SprayPressure)
		}
		w.line(method.GroupFlow, at+"/sprayFlowRate", x.SprayFlowRate, putNumber("n", x.Nozzles), put("q", x.NozzleFlowRate))
		flows = append(flows, x.SprayFlowRate)
	}
	w.line(method.SprayFlow, "/sprayFlowRate", a.SprayFlowRate, putEach("Q_i", flows))
	minute := put("t", Quantity{1, unit.IDMin})
	switch {
	case !r.TankVolume.given():
	case r.AgitationFlowRate.given():
		w.line(method.AgitationShare, "/agitationShare", a.AgitationShare, put("a", r.AgitationFlowRate), minute, put("V", r.TankVolume))
	default:
		w.line(method.AgitationFlow, "/agitationFlowRate", a.AgitationFlowRate, put("s", a.AgitationShare), put("V", r.TankVolume), minute)
	}
	agitation := a.AgitationFlowRate.or(Quantity{0, a.SprayFlowRate.Unit})
	spray, stirring, reserve := put("Q", a.SprayFlowRate), put("a", agitation), put("e", a.Reserve)
	w.line(method.ReserveFlow, "/reserveFlowRate", a.ReserveFlowRate, spray, stirring, reserve)
	w.line(method.PumpDemand, "/totalFlowRate", a.TotalFlowRate, spray, stirring, put("r", a.ReserveFlowRate))
	pump := put("P", r.RatedPumpFlowRate)
	if r.RatedPumpFlowRate.given() {
		w.line(method.SpareFlow, "/spareFlowRate", a.SpareFlowRate, pump, put("T", a.TotalFlowRate))
		w.line(method.WornPumpFlow, "/wornPumpFlowRate", a.WornPumpFlowRate, pump, put("u", percent(calc.WornPump)))
		w.line(method.LargestSprayFlow, "/largestSprayFlowRate", a.LargestSprayFlowRate, pump, reserve, stirring)
	}
	if !r.GroundSpeed.given() {
		return
	}
	speed, width := put("v", r.GroundSpeed), put("W", r.Width)
	w.line(method.BoomRate, "/applicationRate", a.ApplicationRate, spray, speed, width)
	if a.LargestApplicationRate.given() {
		w.line(method.BoomRate, "/largestApplicationRate", a.LargestApplicationRate, put("Q", a.LargestSprayFlowRate), speed, width)
	}
}
