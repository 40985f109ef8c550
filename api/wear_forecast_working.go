package api

import (
	"math"
	"strconv"

	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// wearWork is the working of one forecast. Times are hours run, or hours since the
// first date.
type wearWork struct {
	*working
	r     *WearForecastRequest
	x     *calc.WearForecastResult
	a     *WearForecastResponse
	times []Quantity
	flows []Quantity
	first float64 // seconds since 1970 of the first date

	meanTime, meanFlow, perHour Quantity
}

// hour is the period that wear is counted for between lines.
var hour = Quantity{1, unit.IDH}

func (r *WearForecastRequest) work(w *working, x *calc.WearForecastResult, a *WearForecastResponse) {
	k := &wearWork{working: w, r: r, x: x, a: a, first: math.Inf(1)}
	for i := range r.Catches {
		k.first = min(k.first, float64(r.Catches[i].Date.Unix()))
	}
	if !r.NewFlowRate.given() {
		r.Nozzle.workFlow(w, "/newFlowRate", a.NewFlowRate, r.SprayPressure)
	}
	w.line(method.LimitFlow, "/limitFlowRate", a.LimitFlowRate, put("q_n", a.NewFlowRate), put("l", a.Limit))
	for i := range r.Catches {
		k.measured(i)
	}
	k.fit()
	last := k.times[0]
	for i, t := range k.times {
		if t.si() > last.si() {
			last = t
		}
		w.line(method.WearLineDeviation, "/catches/"+strconv.Itoa(i)+"/overLine", a.Catches[i].OverLine,
			put("q", k.flows[i]), put("q_n", a.NewFlowRate), put("y", k.meanFlow), put("b", k.perHour), put("t", t), put("m", k.meanTime), put("s", hour))
	}
	w.line(method.WearOnLine, "/overNew", a.OverNew, put("y", k.meanFlow), put("b", k.perHour), put("t", last), put("m", k.meanTime), put("s", hour))
	var over []Quantity
	for i := range a.Catches {
		over = append(over, a.Catches[i].OverLine)
	}
	w.line(method.WearScatter, "/scatter", a.Scatter, putEach("d_i", over), putNumber("n", len(over)))
	k.atLimit(last)
}

// moment is the time of a catch.
func (k *wearWork) moment(i int) Quantity {
	c := &k.r.Catches[i]
	if k.x.Dated {
		return in(float64(c.Date.Unix())-k.first, unit.IDH)
	}
	return c.Hours
}

// measured adds the flow of one catch at the common pressure.
func (k *wearWork) measured(i int) {
	c, q, at := &k.r.Catches[i], &k.a.Catches[i], "/catches/"+strconv.Itoa(i)
	n, u := max(c.Nozzles, 1), q.NozzleFlowRate.Unit
	all := in(c.Volume.si()/c.Time.si(), u)
	k.line(method.CatchFlow, "", all, put("V", c.Volume), put("t", c.Time))
	one := Quantity{all.Value / float64(n), u}
	if p := c.SprayPressure; p.given() && p.si() != k.r.SprayPressure.si() {
		k.line(method.CatchNozzleFlow, "", one, put("F", all), putNumber("n", n))
		k.line(method.PressureLaw, at+"/nozzleFlowRate", q.NozzleFlowRate, put("q_0", one), put("p", k.r.SprayPressure), put("p_0", p), putNumber("n", calc.SquareRoot))
	} else {
		k.line(method.CatchNozzleFlow, at+"/nozzleFlowRate", q.NozzleFlowRate, put("F", all), putNumber("n", n))
	}
	k.line(method.OverNew, at+"/overNew", q.OverNew, put("q", q.NozzleFlowRate), put("q_n", k.a.NewFlowRate))
	k.times, k.flows = append(k.times, k.moment(i)), append(k.flows, q.NozzleFlowRate)
}

// fit adds the means and the rise of the line, per period of the answer.
func (k *wearWork) fit() {
	var times, flows float64
	for i := range k.times {
		times += k.times[i].si()
		flows += k.flows[i].Value / in(k.a.NewFlowRate.si(), k.flows[i].Unit).Value
	}
	n := float64(len(k.times))
	k.meanTime, k.meanFlow = in(times/n, unit.IDH), bare(flows/n)
	count, newFlow := putNumber("n", len(k.times)), put("q_n", k.a.NewFlowRate)
	k.line(method.WearMeanTime, "", k.meanTime, putEach("t_i", k.times), count)
	k.line(method.WearMeanFlow, "", k.meanFlow, putEach("q_i", k.flows), newFlow, count)
	rate := func(member string, result, period Quantity) {
		k.line(method.WearRate, member, result, put("s", period), putEach("t_i", k.times), put("m", k.meanTime), putEach("q_i", k.flows), newFlow, put("y", k.meanFlow))
	}
	if k.x.Dated {
		rate("/wearPerDay", k.a.WearPerDay, Quantity{24, unit.IDH})
		rate("/wearPerSeason", k.a.WearPerSeason, Quantity{365.25 * 24, unit.IDH})
		k.perHour = in(float64(k.x.WearPerDay)/24, unit.IDPct)
		rate("", k.perHour, hour)
		return
	}
	k.perHour = k.a.WearPerHour
	rate("/wearPerHour", k.perHour, hour)
	if k.a.WearPerSeason.given() {
		rate("/wearPerSeason", k.a.WearPerSeason, k.r.HoursPerSeason)
	}
}

// atLimit adds when the limit is reached. Dates are words: they have no line.
func (k *wearWork) atLimit(last Quantity) {
	m, b, s := put("m", k.meanTime), put("b", k.perHour), put("s", hour)
	limit, y := put("l", k.a.Limit), put("y", k.meanFlow)
	if k.a.HoursAtLimit.given() {
		k.line(method.TimeAtLimit, "/hoursAtLimit", k.a.HoursAtLimit, m, s, limit, y, b)
	}
	if k.a.HoursLeft.given() {
		k.line(method.TimeLeft, "/hoursLeft", k.a.HoursLeft, put("x_l", k.a.HoursAtLimit), put("t", last))
	}
	if k.x.SeasonsLeft != 0 {
		k.line(method.SeasonsLeft, "/seasonsLeft", bare(k.a.SeasonsLeft), limit, put("d", k.a.OverNew), put("b", k.a.WearPerSeason))
	}
	if !k.a.HoursAtLimitRange.Low.given() {
		return
	}
	var squares float64
	for _, t := range k.times {
		squares += math.Pow((t.si()-k.meanTime.si())/hour.si(), 2)
	}
	sum, student, scatter := bare(squares), putNumber("T", k.x.StudentPoint), put("c", k.a.Scatter)
	k.line(method.WearSquares, "", sum, putEach("t_i", k.times), m, s)
	sure := bare(math.Pow(k.perHour.si(), 2) - math.Pow(k.x.StudentPoint*k.a.Scatter.si(), 2)/squares)
	k.line(method.WearCertainty, "", sure, b, student, scatter, put("S", sum))
	bound := func(id method.ID, member string, result Quantity) {
		k.line(id, member, result, m, s, b, limit, y, student, scatter, put("A", sure), putNumber("n", len(k.times)), put("S", sum))
	}
	bound(method.WearEarliest, "/hoursAtLimitRange/low", k.a.HoursAtLimitRange.Low)
	bound(method.WearLatest, "/hoursAtLimitRange/high", k.a.HoursAtLimitRange.High)
}
