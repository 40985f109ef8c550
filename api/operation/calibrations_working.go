package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
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
	a, w := k.a, working.New(k.r.shows())
	ends := func(part *working.Explained) {
		part.Methods = w.TakeMethods()
		a.Methods.Join(part.Methods)
	}
	if part := a.Pressure.Result; part != nil {
		k.p.pressure.work(w.Part("/pressure/result"), part)
		ends(&part.Explained)
	}
	if part := a.Output.Result; part != nil {
		k.p.output.work(w.Part("/output/result"), k.x.Output, part)
		ends(&part.Explained)
	}
	if part := a.Speed.Result; part != nil {
		k.p.speed.work(w.Part("/speed/result"), part)
		ends(&part.Explained)
	}
	if part := a.Rate.Result; part != nil {
		k.rate(w.Part("/rate/result"))
		ends(&part.Explained)
	}
	if part := a.Correction.Result; part != nil {
		k.correction(w.Part("/correction/result"))
		ends(&part.Explained)
	}
	if part := a.AreaCheck.Result; part != nil {
		k.areaCheck(w.Part("/areaCheck/result"))
		ends(&part.Explained)
	}
	k.extras(w)
	a.Methods.Join(w.TakeMethods())
	a.Working = w.Written()
}

// rate is application-rate with what the sheet says of the machine; the flow is the
// mean of what was caught, of the liquid.
func (k *sheetWork) rate(w working.Working) {
	r, a := k.r, k.a.Rate.Result
	request := ApplicationRateRequest{
		NozzleFlowRate: a.NozzleFlowRate, GroundSpeed: a.GroundSpeed,
		SprayedWidthPerNozzle: r.Machine.SprayedWidthPerNozzle, Width: r.Machine.BedWidth, Nozzles: r.Machine.NozzlesPerBed,
		RowSpacing: r.Machine.RowSpacing, RelativeDensity: r.RelativeDensity,
		TargetApplicationRate: r.Target.ApplicationRate, RateBasis: r.Target.RateBasis, LabelMaximum: r.Target.LabelMaximum, LabelMinimum: r.Target.LabelMinimum,
	}
	var flows, nozzles []wire.Quantity
	if !w.MethodsOnly {
		n := acceptanceWork{r: &k.p.output}
		for i := range k.x.Output.Catches {
			flows = append(flows, wire.In(k.x.Output.Catches[i].NozzleFlowRateAtPressure, a.NozzleFlowRate.Unit))
			nozzles = append(nozzles, working.PlainNumber(n.nozzles(i)))
		}
	}
	caught, member := a.NozzleFlowRate, "/nozzleFlowRate"
	if r.RelativeDensity.Given() {
		caught, member = wire.In(calc.WaterEquivalent(unit.FlowRate(caught.SI()), unit.Ratio(r.RelativeDensity.SI())), caught.Unit), ""
	}
	w.Line(method.WeightedMeanFlow, member, caught).Each("q_i", flows).Each("n_i", nozzles)
	if member == "" {
		w.Line(method.LiquidFlow, "/nozzleFlowRate", a.NozzleFlowRate).With("q_w", caught).With("s", r.RelativeDensity)
	}
	if !r.Machine.BedWidth.Given() {
		w.Conversion("/sprayedWidthPerNozzle", a.SprayedWidthPerNozzle, r.Machine.SprayedWidthPerNozzle)
	} else {
		w.Conversion("/width", a.Width, r.Machine.BedWidth)
	}
	request.work(w, k.x.Rate, a)
}

// correction is corrections from what the other parts measured.
func (k *sheetWork) correction(w working.Working) {
	c := k.r.correctionsRequest().plannedWith(k.x.Output)
	c.Measured.ApplicationRate, c.Measured.GroundSpeed = k.a.Rate.Result.ApplicationRate, k.a.Rate.Result.GroundSpeed
	if k.r.Target.RateBasis == calc.RateBasisField {
		c.Measured.ApplicationRate = k.a.Rate.Result.FieldApplicationRate
	}
	if p := k.a.Output.Result.SprayPressure; p.Given() {
		c.Measured.SprayPressure = p
	}
	c.TargetApplicationRate, c.LabelMaximum, c.LabelMinimum, c.Limits = k.r.Target.ApplicationRate, k.r.Target.LabelMaximum, k.r.Target.LabelMinimum, k.r.Limits
	k.guard(w, c.Measured.ApplicationRate)
	c.work(w, k.x.Correction, k.a.Correction.Result)
}

// guard adds the line of how far within the label's limits the plans keep.
func (k *sheetWork) guard(w working.Working, rate wire.Quantity) {
	guard := k.a.Correction.Result.LabelGuard
	if !guard.Given() {
		return
	}
	u := &k.a.Rate.Result.Uncertainty.ApplicationRate
	if k.r.Target.RateBasis == calc.RateBasisField {
		u = &k.a.Rate.Result.Uncertainty.FieldApplicationRate
	}
	id := method.NormalGuard
	if u.Student() {
		id = method.StudentGuard
	}
	w.Line(id, "/labelGuard", guard).With("u", u.Standard).With("R", rate).Errs(u)
}

// areaCheck is area-check against the rate of the sheet.
func (k *sheetWork) areaCheck(w working.Working) {
	t, a := &k.r.AreaCheck, k.a.AreaCheck.Result
	request := AreaCheckRequest{
		VolumeUsed: t.VolumeUsed, Area: t.Area, CourseLength: t.CourseLength, Width: t.Width, Passes: t.Passes,
		ExpectedApplicationRate: a.ExpectedApplicationRate,
	}
	if t.Area.Given() {
		w.Conversion("/area", a.Area, t.Area)
	}
	if rd := k.r.RelativeDensity; rd.Given() && a.ExpectedApplicationRate.Given() {
		rate := k.a.Rate.Result.ApplicationRate
		if k.r.Target.RateBasis == calc.RateBasisField {
			rate = k.a.Rate.Result.FieldApplicationRate
		}
		w.Line(method.WaterEquivalentRate, "/expectedApplicationRate", a.ExpectedApplicationRate).With("R", rate).With("s", rd)
	}
	request.work(w, a)
}

// extras are the cost of the deviation and the use that is left.
func (k *sheetWork) extras(w working.Working) {
	if c := k.a.Cost; c != nil {
		w.Line(method.DeviationCost, "/cost/deviation", working.Dimensionless(c.Deviation.Amount)).
			Number("m", float64(k.r.Cost.Mix.Amount)).With("d", k.a.Rate.Result.Deviation)
		if c.Total != (wire.Money{}) {
			w.Line(method.CostForArea, "/cost/total", working.Dimensionless(c.Total.Amount)).
				Number("c", float64(c.Deviation.Amount)).With("A", k.r.Cost.PlannedArea).With("a", c.PerArea)
		}
	}
	if d := k.a.NextDue; d != nil && d.HoursLeft.Given() {
		s := &k.r.Schedule
		w.Line(method.HoursLeft, "/nextDue/hoursLeft", d.HoursLeft).
			With("e", s.CalibrateEvery).With("u", s.UsedSince.Or(wire.Quantity{Value: 0, Unit: unit.IDH}))
	}
}
