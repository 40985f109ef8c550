package api

import (
	"wetrun/calc"
	"wetrun/calc/unit"
)

// sheetWork is the working of a whole sheet. Each part has the lines of its own
// operation; they all stand together, with pointers into the whole answer.
type sheetWork struct {
	r *CalibrationsRequest
	p *sheetParts
	x *calc.FieldSheetResult
	a *CalibrationsResponse
}

// explain fills in the methods of the parts and of the sheet, and the working.
func (k *sheetWork) explain() {
	a, w := k.a, working{quiet: true}
	if a.Rate.Result != nil {
		k.rate(&w)
		a.Rate.Result.Methods = w.taken()
		a.Methods.join(a.Rate.Result.Methods)
	}
	if a.Correction.Result != nil {
		k.correction(&w)
		a.Correction.Result.Methods = w.taken()
		a.Methods.join(a.Correction.Result.Methods)
	}
	if a.AreaCheck.Result != nil {
		k.areaCheck(&w)
		a.AreaCheck.Result.Methods = w.taken()
		a.Methods.join(a.AreaCheck.Result.Methods)
	}
	if a.Pressure.Result != nil {
		a.Methods.join(a.Pressure.Result.Methods)
	}
	if a.Output.Result != nil {
		a.Methods.join(a.Output.Result.Methods)
	}
	if a.Speed.Result != nil {
		a.Methods.join(a.Speed.Result.Methods)
	}
	k.extras(&w)
	a.Methods.join(w.taken())
	if k.r.shows() {
		a.Working = worked(k.all)
	}
}

func (k *sheetWork) all(w *working) {
	under := func(at string) *working {
		w.at = "#" + at
		return w
	}
	a := k.a
	if a.Pressure.Result != nil {
		k.p.pressure.work(under("/pressure/result"), a.Pressure.Result)
	}
	if a.Output.Result != nil {
		k.p.output.work(under("/output/result"), k.x.Output, a.Output.Result)
	}
	if a.Speed.Result != nil {
		k.p.speed.work(under("/speed/result"), a.Speed.Result)
	}
	if a.Rate.Result != nil {
		k.rate(under("/rate/result"))
	}
	if a.Correction.Result != nil {
		k.correction(under("/correction/result"))
	}
	if a.AreaCheck.Result != nil {
		k.areaCheck(under("/areaCheck/result"))
	}
	k.extras(under(""))
}

// rate is application-rate with what the sheet says of the machine; the flow is the
// mean of what was caught, of the liquid.
func (k *sheetWork) rate(w *working) {
	r, a := k.r, k.a.Rate.Result
	request := ApplicationRateRequest{
		NozzleFlowRate: a.NozzleFlowRate, GroundSpeed: a.GroundSpeed,
		SprayedWidthPerNozzle: r.Machine.SprayedWidthPerNozzle, Width: r.Machine.BedWidth, Nozzles: r.Machine.NozzlesPerBed,
		RowSpacing: r.Machine.RowSpacing, RelativeDensity: r.RelativeDensity,
		TargetApplicationRate: r.Target.ApplicationRate, RateBasis: r.Target.RateBasis, LabelMaximum: r.Target.LabelMaximum,
	}
	var flows, nozzles []Quantity
	if !w.quiet {
		n := acceptanceWork{r: &k.p.output}
		for i := range k.x.Output.Catches {
			flows = append(flows, in(k.x.Output.Catches[i].NozzleFlowRateAtPressure, a.NozzleFlowRate.Unit))
			nozzles = append(nozzles, plainNumber(n.nozzles(i)))
		}
	}
	caught, member := a.NozzleFlowRate, "/nozzleFlowRate"
	if r.RelativeDensity.given() {
		caught, member = in(calc.WaterEquivalent(unit.FlowRate(caught.si()), unit.Ratio(r.RelativeDensity.si())), caught.Unit), ""
	}
	w.line(calc.MethodWeightedMeanFlow, member, caught, putEach("q_i", flows), putEach("n_i", nozzles))
	if member == "" {
		w.line(calc.MethodLiquidFlow, "/nozzleFlowRate", a.NozzleFlowRate, put("q_w", caught), put("s", r.RelativeDensity))
	}
	if !r.Machine.BedWidth.given() {
		w.workConversion("/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle, r.Machine.SprayedWidthPerNozzle)
	} else {
		w.workConversion("/width", a.Width, r.Machine.BedWidth)
	}
	request.work(w, k.x.Rate, a)
}

// correction is corrections from what the other parts measured.
func (k *sheetWork) correction(w *working) {
	c := k.r.correctionsRequest().plannedWith(k.x.Output)
	c.Measured.ApplicationRate, c.Measured.GroundSpeed = k.a.Rate.Result.ApplicationRate, k.a.Rate.Result.GroundSpeed
	if k.r.Target.RateBasis == calc.RateBasisField {
		c.Measured.ApplicationRate = k.a.Rate.Result.FieldApplicationRate
	}
	if p := k.a.Output.Result.SprayPressure; p.given() {
		c.Measured.SprayPressure = p
	}
	c.TargetApplicationRate, c.Limits = k.r.Target.ApplicationRate, k.r.Limits
	c.Nozzle = LabeledNozzleRequest{NozzleRequest: k.r.Nozzle}
	c.work(w, k.x.Correction, k.a.Correction.Result)
}

// areaCheck is area-check against the rate of the sheet.
func (k *sheetWork) areaCheck(w *working) {
	t, a := &k.r.AreaCheck, k.a.AreaCheck.Result
	request := AreaCheckRequest{
		VolumeUsed: t.VolumeUsed, Area: t.Area, CourseLength: t.CourseLength, Width: t.Width, Passes: t.Passes,
		ExpectedApplicationRate: a.ExpectedApplicationRate,
	}
	if t.Area.given() {
		w.workConversion("/area", a.Area, t.Area)
	}
	if rd := k.r.RelativeDensity; rd.given() && a.ExpectedApplicationRate.given() {
		rate := k.a.Rate.Result.ApplicationRate
		if k.r.Target.RateBasis == calc.RateBasisField {
			rate = k.a.Rate.Result.FieldApplicationRate
		}
		w.line(calc.MethodWaterEquivalentRate, "/expectedApplicationRate", a.ExpectedApplicationRate, put("R", rate), put("s", rd))
	}
	request.work(w, a)
}

// extras are the cost of the deviation and the use that is left.
func (k *sheetWork) extras(w *working) {
	if c := k.a.Cost; c != nil {
		w.line(calc.MethodDeviationCost, "/cost/deviation", bare(c.Deviation.Amount),
			putNumber("m", float64(k.r.Cost.Mix.Amount)), put("d", k.a.Rate.Result.Deviation))
		if c.Total != (Money{}) {
			w.line(calc.MethodCostForArea, "/cost/total", bare(c.Total.Amount),
				putNumber("c", float64(c.Deviation.Amount)), put("A", k.r.Cost.PlannedArea), put("a", c.PerArea))
		}
	}
	if d := k.a.NextDue; d != nil && d.HoursLeft.given() {
		s := &k.r.Schedule
		w.line(calc.MethodHoursLeft, "/nextDue/hoursLeft", d.HoursLeft, put("e", s.CalibrateEvery), put("u", s.UsedSince.or(Quantity{0, unit.IDH})))
	}
}
