package api

import (
	"cmp"
	"math"
	"slices"

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

	times, flows, over                []Quantity // of the catches
	meanTime, meanFlow, perHour, last Quantity
}

// hour is the period that wear is counted for between lines.
var hour = Quantity{1, unit.IDH}

func (r *WearForecastRequest) work(w working, x *calc.WearForecastResult, a *WearForecastAnswer) {
	k := &wearWork{r: r, x: x, a: a}
	k.catches(w)
	if !r.NewFlowRate.given() {
		r.Nozzle.workFlow(w, "/newFlowRate", a.NewFlowRate, r.SprayPressure)
	}
	w.line(method.LimitFlow, "/limitFlowRate", a.LimitFlowRate).with("q_n", a.NewFlowRate).with("l", a.Limit)
	for i := range r.Catches {
		k.measured(w.item("/catches", i), i)
	}
	k.fit(w)
	for i := range r.Catches {
		w.item("/catches", i).line(method.WearLineDeviation, "/overLine", a.Catches[i].OverLine).
			with("q", a.Catches[i].NozzleFlowRate).with("q_n", a.NewFlowRate).with("y", k.meanFlow).
			with("b", k.perHour).with("t", k.moment(i)).with("m", k.meanTime).with("s", hour)
	}
	w.line(method.WearOnLine, "/overNew", a.OverNew).
		with("y", k.meanFlow).with("b", k.perHour).with("t", k.last).with("m", k.meanTime).with("s", hour)
	w.line(method.WearScatter, "/scatter", a.Scatter).each("d_i", k.over).count("n", len(k.over))
	k.atLimit(w)
}

// catches collects what the lines go over, where they are wanted.
func (k *wearWork) catches(w working) {
	if w.methodsOnly {
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
	k.last = slices.MaxFunc(k.times, func(a, b Quantity) int { return cmp.Compare(a.si(), b.si()) })
}

// moment is the time of a catch.
func (k *wearWork) moment(i int) Quantity {
	c := &k.r.Catches[i]
	if k.x.Dated {
		return in(float64(c.Date.Unix())-k.start, unit.IDH)
	}
	return c.Hours
}

// measured adds the flow of one catch at the common pressure.
func (k *wearWork) measured(w working, i int) {
	c, q := &k.r.Catches[i], &k.a.Catches[i]
	n, u := max(c.Nozzles, 1), q.NozzleFlowRate.Unit
	all := in(c.Volume.si()/c.Time.si(), u)
	w.line(method.CatchFlow, "", all).with("V", c.Volume).with("t", c.Time)
	one := Quantity{all.Value / float64(n), u}
	if p := c.SprayPressure; p.given() && p.si() != k.r.SprayPressure.si() {
		w.line(method.CatchNozzleFlow, "", one).with("F", all).count("n", n)
		w.line(method.PressureLaw, "/nozzleFlowRate", q.NozzleFlowRate).
			with("q_0", one).with("p", k.r.SprayPressure).with("p_0", p).number("n", calc.SquareRoot)
	} else {
		w.line(method.CatchNozzleFlow, "/nozzleFlowRate", q.NozzleFlowRate).with("F", all).count("n", n)
	}
	w.line(method.OverNew, "/overNew", q.OverNew).with("q", q.NozzleFlowRate).with("q_n", k.a.NewFlowRate)
}

// fit adds the means and the rise of the line, per period of the answer.
func (k *wearWork) fit(w working) {
	var times, flows float64
	for i := range k.times {
		times += k.times[i].si()
		flows += k.flows[i].Value / in(k.a.NewFlowRate.si(), k.flows[i].Unit).Value
	}
	n := float64(len(k.times))
	k.meanTime, k.meanFlow = in(times/n, unit.IDH), dimensionless(flows/n)
	w.line(method.WearMeanTime, "", k.meanTime).each("t_i", k.times).count("n", len(k.times))
	w.line(method.WearMeanFlow, "", k.meanFlow).each("q_i", k.flows).with("q_n", k.a.NewFlowRate).count("n", len(k.times))
	rate := func(member string, result, period Quantity) {
		w.line(method.WearRate, member, result).
			with("s", period).each("t_i", k.times).with("m", k.meanTime).each("q_i", k.flows).with("q_n", k.a.NewFlowRate).with("y", k.meanFlow)
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
func (k *wearWork) atLimit(w working) {
	if k.a.HoursAtLimit.given() {
		w.line(method.TimeAtLimit, "/hoursAtLimit", k.a.HoursAtLimit).
			with("m", k.meanTime).with("s", hour).with("l", k.a.Limit).with("y", k.meanFlow).with("b", k.perHour)
	}
	if k.a.HoursLeft.given() {
		w.line(method.TimeLeft, "/hoursLeft", k.a.HoursLeft).with("x_l", k.a.HoursAtLimit).with("t", k.last)
	}
	if k.x.SeasonsLeft != 0 {
		w.line(method.SeasonsLeft, "/seasonsLeft", dimensionless(k.a.SeasonsLeft)).
			with("l", k.a.Limit).with("d", k.a.OverNew).with("b", k.a.WearPerSeason)
	}
	if !k.a.HoursAtLimitRange.Low.given() {
		return
	}
	var squares float64
	for _, t := range k.times {
		squares += math.Pow((t.si()-k.meanTime.si())/hour.si(), 2)
	}
	sum := dimensionless(squares)
	w.line(method.WearSquares, "", sum).each("t_i", k.times).with("m", k.meanTime).with("s", hour)
	sure := dimensionless(math.Pow(k.perHour.si(), 2) - math.Pow(k.x.StudentPoint*k.a.Scatter.si(), 2)/squares)
	w.line(method.WearCertainty, "", sure).with("b", k.perHour).number("T", k.x.StudentPoint).with("c", k.a.Scatter).with("S", sum)
	bound := func(id method.ID, member string, result Quantity) {
		w.line(id, member, result).with("m", k.meanTime).with("s", hour).with("b", k.perHour).with("l", k.a.Limit).with("y", k.meanFlow).
			number("T", k.x.StudentPoint).with("c", k.a.Scatter).with("A", sure).count("n", len(k.times)).with("S", sum)
	}
	bound(method.WearEarliest, "/hoursAtLimitRange/low", k.a.HoursAtLimitRange.Low)
	bound(method.WearLatest, "/hoursAtLimitRange/high", k.a.HoursAtLimitRange.High)
}
