package operation

import (
	"cmp"
	"math"
	"slices"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// wearWork is the working of one forecast. Times are hours run, or hours since the
// first date.
type wearWork struct {
	r     *WearForecastRequest
	x     *calc.WearForecastResult
	a     *WearForecastAnswer
	start float64 // seconds since 1970 of the first date

	times, flows, over                []wire.Quantity // of the catches
	meanTime, meanFlow, perHour, last wire.Quantity
}

// hour is the period that wear is counted for between lines.
var hour = wire.Quantity{Value: 1, Unit: unit.IDH}

func (r *WearForecastRequest) work(w working.Working, x *calc.WearForecastResult, a *WearForecastAnswer) {
	k := &wearWork{r: r, x: x, a: a}
	k.catches(w)
	if !r.NewFlowRate.Given() {
		r.Nozzle.workFlow(w, "/newFlowRate", a.NewFlowRate, r.SprayPressure)
	}
	w.Line(method.LimitFlow, "/limitFlowRate", a.LimitFlowRate).With("q_n", a.NewFlowRate).With("l", a.Limit)
	for i := range r.Catches {
		k.measured(w.Item("/catches", i), i)
	}
	k.fit(w)
	for i := range r.Catches {
		w.Item("/catches", i).Line(method.WearLineDeviation, "/overLine", a.Catches[i].OverLine).
			With("q", a.Catches[i].NozzleFlowRate).With("q_n", a.NewFlowRate).With("y", k.meanFlow).
			With("b", k.perHour).With("t", k.moment(i)).With("m", k.meanTime).With("s", hour)
	}
	w.Line(method.WearOnLine, "/overNew", a.OverNew).
		With("y", k.meanFlow).With("b", k.perHour).With("t", k.last).With("m", k.meanTime).With("s", hour)
	w.Line(method.WearScatter, "/scatter", a.Scatter).Each("d_i", k.over).Count("n", len(k.over))
	k.atLimit(w)
}

// catches collects what the lines go over, where they are wanted.
func (k *wearWork) catches(w working.Working) {
	if w.MethodsOnly {
		return
	}
	k.start = math.Inf(1)
	for i := range k.r.Catches {
		k.start = min(k.start, float64(k.r.Catches[i].Date.Unix()))
	}
	for i := range k.r.Catches {
		k.times, k.flows = append(k.times, k.moment(i)), append(k.flows, k.a.Catches[i].NozzleFlowRate)
		k.over = append(k.over, k.a.Catches[i].OverLine)
	}
	k.last = slices.MaxFunc(k.times, func(a, b wire.Quantity) int { return cmp.Compare(a.SI(), b.SI()) })
}

// moment is the time of a catch.
func (k *wearWork) moment(i int) wire.Quantity {
	c := &k.r.Catches[i]
	if k.x.Dated {
		return wire.In(float64(c.Date.Unix())-k.start, unit.IDH)
	}
	return c.Hours
}

// measured adds the flow of one catch at the common pressure.
func (k *wearWork) measured(w working.Working, i int) {
	c, q := &k.r.Catches[i], &k.a.Catches[i]
	n, u := max(c.Nozzles, 1), q.NozzleFlowRate.Unit
	all := wire.In(c.Volume.SI()/c.Time.SI(), u)
	w.Line(method.CatchFlow, "", all).With("V", c.Volume).With("t", c.Time)
	one := wire.Quantity{Value: all.Value / float64(n), Unit: u}
	if p := c.SprayPressure; p.Given() && p.SI() != k.r.SprayPressure.SI() {
		w.Line(method.CatchNozzleFlow, "", one).With("F", all).Count("n", n)
		w.Line(method.PressureLaw, "/nozzleFlowRate", q.NozzleFlowRate).
			With("q_0", one).With("p", k.r.SprayPressure).With("p_0", p).Number("n", calc.SquareRoot)
	} else {
		w.Line(method.CatchNozzleFlow, "/nozzleFlowRate", q.NozzleFlowRate).With("F", all).Count("n", n)
	}
	w.Line(method.OverNew, "/overNew", q.OverNew).With("q", q.NozzleFlowRate).With("q_n", k.a.NewFlowRate)
}

// fit adds the means and the rise of the line, per period of the answer.
func (k *wearWork) fit(w working.Working) {
	var times, flows float64
	for i := range k.times {
		times += k.times[i].SI()
		flows += k.flows[i].Value / wire.In(k.a.NewFlowRate.SI(), k.flows[i].Unit).Value
	}
	n := float64(len(k.times))
	k.meanTime, k.meanFlow = wire.In(times/n, unit.IDH), working.Dimensionless(flows/n)
	w.Line(method.WearMeanTime, "", k.meanTime).Each("t_i", k.times).Count("n", len(k.times))
	w.Line(method.WearMeanFlow, "", k.meanFlow).Each("q_i", k.flows).With("q_n", k.a.NewFlowRate).Count("n", len(k.times))
	rate := func(member string, result, period wire.Quantity) {
		w.Line(method.WearRate, member, result).
			With("s", period).Each("t_i", k.times).With("m", k.meanTime).Each("q_i", k.flows).With("q_n", k.a.NewFlowRate).With("y", k.meanFlow)
	}
	if k.x.Dated {
		rate("/wearPerDay", k.a.WearPerDay, wire.Quantity{Value: 24, Unit: unit.IDH})
		rate("/wearPerSeason", k.a.WearPerSeason, wire.Quantity{Value: 365.25 * 24, Unit: unit.IDH})
		k.perHour = wire.In(float64(k.x.WearPerDay)/24, unit.IDPct)
		rate("", k.perHour, hour)
		return
	}
	k.perHour = k.a.WearPerHour
	rate("/wearPerHour", k.perHour, hour)
	if k.a.WearPerSeason.Given() {
		rate("/wearPerSeason", k.a.WearPerSeason, k.r.HoursPerSeason)
	}
}

// atLimit adds when the limit is reached. Dates are words: they have no line.
func (k *wearWork) atLimit(w working.Working) {
	if k.a.HoursAtLimit.Given() {
		w.Line(method.TimeAtLimit, "/hoursAtLimit", k.a.HoursAtLimit).
			With("m", k.meanTime).With("s", hour).With("l", k.a.Limit).With("y", k.meanFlow).With("b", k.perHour)
	}
	if k.a.HoursLeft.Given() {
		w.Line(method.TimeLeft, "/hoursLeft", k.a.HoursLeft).With("x_l", k.a.HoursAtLimit).With("t", k.last)
	}
	if k.x.SeasonsLeft != 0 {
		w.Line(method.SeasonsLeft, "/seasonsLeft", working.Dimensionless(k.a.SeasonsLeft)).
			With("l", k.a.Limit).With("d", k.a.OverNew).With("b", k.a.WearPerSeason)
	}
	if !k.a.HoursAtLimitRange.Low.Given() {
		return
	}
	var squares float64
	for _, t := range k.times {
		squares += math.Pow((t.SI()-k.meanTime.SI())/hour.SI(), 2)
	}
	sum := working.Dimensionless(squares)
	w.Line(method.WearSquares, "", sum).Each("t_i", k.times).With("m", k.meanTime).With("s", hour)
	sure := working.Dimensionless(math.Pow(k.perHour.SI(), 2) - math.Pow(k.x.StudentPoint*k.a.Scatter.SI(), 2)/squares)
	w.Line(method.WearCertainty, "", sure).With("b", k.perHour).Number("T", k.x.StudentPoint).With("c", k.a.Scatter).With("S", sum)
	bound := func(id method.ID, member string, result wire.Quantity) {
		w.Line(id, member, result).With("m", k.meanTime).With("s", hour).With("b", k.perHour).With("l", k.a.Limit).With("y", k.meanFlow).
			Number("T", k.x.StudentPoint).With("c", k.a.Scatter).With("A", sure).Count("n", len(k.times)).With("S", sum)
	}
	bound(method.WearEarliest, "/hoursAtLimitRange/low", k.a.HoursAtLimitRange.Low)
	bound(method.WearLatest, "/hoursAtLimitRange/high", k.a.HoursAtLimitRange.High)
}
