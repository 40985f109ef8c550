package api

import (
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

func (r *PumpDemandRequest) work(w working, a *PumpDemandAnswer) {
	groups := r.groups()
	for i := range groups {
		g, x, w := &groups[i], &a.NozzleGroups[i], w.item("/nozzleGroups", i)
		if !g.NozzleFlowRate.given() {
			g.Nozzle.workFlow(w, "/nozzleFlowRate", x.NozzleFlowRate, r.SprayPressure)
		}
		w.line(method.GroupFlow, "/sprayFlowRate", x.SprayFlowRate).count("n", x.Nozzles).with("q", x.NozzleFlowRate)
	}
	flows := listed(w, a.NozzleGroups, func(x *NozzleGroupAnswer) Quantity { return x.SprayFlowRate })
	w.line(method.SprayFlow, "/sprayFlowRate", a.SprayFlowRate).each("Q_i", flows)
	switch {
	case !r.TankVolume.given():
	case r.AgitationFlowRate.given():
		w.line(method.AgitationShare, "/agitationShare", a.AgitationShare).
			with("a", r.AgitationFlowRate).with("t", Quantity{1, unit.IDMin}).with("V", r.TankVolume)
	default:
		w.line(method.AgitationFlow, "/agitationFlowRate", a.AgitationFlowRate).
			with("s", a.AgitationShare).with("V", r.TankVolume).with("t", Quantity{1, unit.IDMin})
	}
	agitation := a.AgitationFlowRate.or(Quantity{0, a.SprayFlowRate.Unit})
	w.line(method.ReserveFlow, "/reserveFlowRate", a.ReserveFlowRate).with("Q", a.SprayFlowRate).with("a", agitation).with("e", a.Reserve)
	w.line(method.PumpDemand, "/totalFlowRate", a.TotalFlowRate).with("Q", a.SprayFlowRate).with("a", agitation).with("r", a.ReserveFlowRate)
	if r.RatedPumpFlowRate.given() {
		w.line(method.SpareFlow, "/spareFlowRate", a.SpareFlowRate).with("P", r.RatedPumpFlowRate).with("T", a.TotalFlowRate)
		w.line(method.WornPumpFlow, "/wornPumpFlowRate", a.WornPumpFlowRate).with("P", r.RatedPumpFlowRate).with("u", percent(calc.WornPump))
		w.line(method.LargestSprayFlow, "/largestSprayFlowRate", a.LargestSprayFlowRate).
			with("P", r.RatedPumpFlowRate).with("e", a.Reserve).with("a", agitation)
	}
	if !r.GroundSpeed.given() {
		return
	}
	w.line(method.BoomRate, "/applicationRate", a.ApplicationRate).with("Q", a.SprayFlowRate).with("v", r.GroundSpeed).with("W", r.Width)
	if a.LargestApplicationRate.given() {
		w.line(method.BoomRate, "/largestApplicationRate", a.LargestApplicationRate).
			with("Q", a.LargestSprayFlowRate).with("v", r.GroundSpeed).with("W", r.Width)
	}
}
