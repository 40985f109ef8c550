package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// sheetWork is the working of a whole sheet. Each part has the lines of its own
// operation; they all stand together, with pointers into the whole answer.
type sheetWork struct {
	r *CalibrationsRequest
	p *sheetParts
	x *calc.FieldSheetResult
	a *CalibrationsAnswer
}

// explain fills in the methods of the parts and of the sheet, and the working.
func (k *sheetWork) explain() {
	a, w := k.a, explaining(k.r.shows())
	ends := func(part *Explained) {
		part.Methods = w.takeMethods()
		a.Methods.join(part.Methods)
	}
	if part := a.Pressure.Result; part != nil {
		k.p.pressure.work(w.part("/pressure/result"), part)
		ends(&part.Explained)
	}
	if part := a.Output.Result; part != nil {
		k.p.output.work(w.part("/output/result"), k.x.Output, part)
		ends(&part.Explained)
	}
	if part := a.Speed.Result; part != nil {
		k.p.speed.work(w.part("/speed/result"), part)
		ends(&part.Explained)
	}
	if part := a.Rate.Result; part != nil {
		k.rate(w.part("/rate/result"))
		ends(&part.Explained)
	}
	if part := a.Correction.Result; part != nil {
		k.correction(w.part("/correction/result"))
		ends(&part.Explained)
	}
	if part := a.AreaCheck.Result; part != nil {
		k.areaCheck(w.part("/areaCheck/result"))
		ends(&part.Explained)
	}
	k.extras(w)
	a.Methods.join(w.takeMethods())
	a.Working = w.written()
}

// rate is application-rate with what the sheet says of the machine; the flow is the
// mean of what was caught, of the liquid.
func (k *sheetWork) rate(w working) {
	r, a := k.r, k.a.Rate.Result
	request := ApplicationRateRequest{
		NozzleFlowRate: a.NozzleFlowRate, GroundSpeed: a.GroundSpeed,
		SprayedWidthPerNozzle: r.Machine.SprayedWidthPerNozzle, Width: r.Machine.BedWidth, Nozzles: r.Machine.NozzlesPerBed,
		RowSpacing: r.Machine.RowSpacing, RelativeDensity: r.RelativeDensity,
		TargetApplicationRate: r.Target.ApplicationRate, RateBasis: r.Target.RateBasis, LabelMaximum: r.Target.LabelMaximum,
	}
	var flows, nozzles []Quantity
	if !w.methodsOnly {
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
	w.line(method.WeightedMeanFlow, member, caught).each("q_i", flows).each("n_i", nozzles)
	if member == "" {
		w.line(method.LiquidFlow, "/nozzleFlowRate", a.NozzleFlowRate).with("q_w", caught).with("s", r.RelativeDensity)
	}
	if !r.Machine.BedWidth.given() {
		w.conversion("/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle, r.Machine.SprayedWidthPerNozzle)
	} else {
		w.conversion("/width", a.Width, r.Machine.BedWidth)
	}
	request.work(w, k.x.Rate, a)
}

// correction is corrections from what the other parts measured.
func (k *sheetWork) correction(w working) {
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
func (k *sheetWork) areaCheck(w working) {
	t, a := &k.r.AreaCheck, k.a.AreaCheck.Result
	request := AreaCheckRequest{
		VolumeUsed: t.VolumeUsed, Area: t.Area, CourseLength: t.CourseLength, Width: t.Width, Passes: t.Passes,
		ExpectedApplicationRate: a.ExpectedApplicationRate,
	}
	if t.Area.given() {
		w.conversion("/area", a.Area, t.Area)
	}
	if rd := k.r.RelativeDensity; rd.given() && a.ExpectedApplicationRate.given() {
		rate := k.a.Rate.Result.ApplicationRate
		if k.r.Target.RateBasis == calc.RateBasisField {
			rate = k.a.Rate.Result.FieldApplicationRate
		}
		w.line(method.WaterEquivalentRate, "/expectedApplicationRate", a.ExpectedApplicationRate).with("R", rate).with("s", rd)
	}
	request.work(w, a)
}

// extras are the cost of the deviation and the use that is left.
func (k *sheetWork) extras(w working) {
	if c := k.a.Cost; c != nil {
		w.line(method.DeviationCost, "/cost/deviation", dimensionless(c.Deviation.Amount)).
			number("m", float64(k.r.Cost.Mix.Amount)).with("d", k.a.Rate.Result.Deviation)
		if c.Total != (Money{}) {
			w.line(method.CostForArea, "/cost/total", dimensionless(c.Total.Amount)).
				number("c", float64(c.Deviation.Amount)).with("A", k.r.Cost.PlannedArea).with("a", c.PerArea)
		}
	}
	if d := k.a.NextDue; d != nil && d.HoursLeft.given() {
		s := &k.r.Schedule
		w.line(method.HoursLeft, "/nextDue/hoursLeft", d.HoursLeft).
			with("e", s.CalibrateEvery).with("u", s.UsedSince.or(Quantity{0, unit.IDH}))
	}
}
