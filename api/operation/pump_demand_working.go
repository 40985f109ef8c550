package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
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

func (r *PumpDemandRequest) work(w working.Working, a *PumpDemandAnswer) {
	groups := r.groups()
	for i := range groups {
		g, x, w := &groups[i], &a.NozzleGroups[i], w.Item("/nozzleGroups", i)
		if !g.NozzleFlowRate.Given() {
			g.Nozzle.workFlow(w, "/nozzleFlowRate", x.NozzleFlowRate, r.SprayPressure)
		}
		w.Line(method.GroupFlow, "/sprayFlowRate", x.SprayFlowRate).Count("n", x.Nozzles).With("q", x.NozzleFlowRate)
	}
	flows := working.Listed(w, a.NozzleGroups, func(x *NozzleGroupAnswer) wire.Quantity { return x.SprayFlowRate })
	w.Line(method.SprayFlow, "/sprayFlowRate", a.SprayFlowRate).Each("Q_i", flows)
	switch {
	case !r.TankVolume.Given():
	case r.AgitationFlowRate.Given():
		w.Line(method.AgitationShare, "/agitationShare", a.AgitationShare).
			With("a", r.AgitationFlowRate).With("t", wire.Quantity{Value: 1, Unit: unit.IDMin}).With("V", r.TankVolume)
	default:
		w.Line(method.AgitationFlow, "/agitationFlowRate", a.AgitationFlowRate).
			With("s", a.AgitationShare).With("V", r.TankVolume).With("t", wire.Quantity{Value: 1, Unit: unit.IDMin})
	}
	agitation := a.AgitationFlowRate.Or(wire.Quantity{Value: 0, Unit: a.SprayFlowRate.Unit})
	w.Line(method.ReserveFlow, "/reserveFlowRate", a.ReserveFlowRate).With("Q", a.SprayFlowRate).With("a", agitation).With("e", a.Reserve)
	w.Line(method.PumpDemand, "/totalFlowRate", a.TotalFlowRate).With("Q", a.SprayFlowRate).With("a", agitation).With("r", a.ReserveFlowRate)
	if r.RatedPumpFlowRate.Given() {
		w.Line(method.SpareFlow, "/spareFlowRate", a.SpareFlowRate).With("P", r.RatedPumpFlowRate).With("T", a.TotalFlowRate)
		w.Line(method.WornPumpFlow, "/wornPumpFlowRate", a.WornPumpFlowRate).With("P", r.RatedPumpFlowRate).With("u", percent(calc.WornPump))
		w.Line(method.LargestSprayFlow, "/largestSprayFlowRate", a.LargestSprayFlowRate).
			With("P", r.RatedPumpFlowRate).With("e", a.Reserve).With("a", agitation)
	}
	if !r.GroundSpeed.Given() {
		return
	}
	w.Line(method.BoomRate, "/applicationRate", a.ApplicationRate).With("Q", a.SprayFlowRate).With("v", r.GroundSpeed).With("W", r.Width)
	if a.LargestApplicationRate.Given() {
		w.Line(method.BoomRate, "/largestApplicationRate", a.LargestApplicationRate).
			With("Q", a.LargestSprayFlowRate).With("v", r.GroundSpeed).With("W", r.Width)
	}
}
