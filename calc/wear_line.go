package calc

import (
	"math"
	"time"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"wetrun/calc/finding"
)

// A wearLine is the line of least squares through flows over times. Times run from
// 0 at the first to 1 at the last inside it, so that neither a date nor an hour
// makes numbers of an awkward size.
type wearLine struct {
	first, last, span float64 // s
	mean, level       float64 // of the times, within 0 to 1, and of the ratios
	rise              float64 // from first to last; exactly 0 below slack
	scatter           float64 // sqrt(sum of squares about the line / (n - 2))
	squares           float64 // sum of (x - mean)^2
	points            float64
}

func fitWear(times, ratios []float64) wearLine {
	l := wearLine{first: times[0], last: times[0], points: float64(len(times))}
	for _, s := range times {
		l.first, l.last = min(l.first, s), max(l.last, s)
	}
	l.span = l.last - l.first
	xs := make([]float64, len(times))
	for i, s := range times {
		xs[i] = (s - l.first) / l.span
	}
	l.mean, l.level = stat.Mean(xs, nil), stat.Mean(ratios, nil)
	_, l.rise = stat.LinearRegression(xs, ratios, nil, false)
	if math.Abs(l.rise) < finding.Slack*l.level {
		l.rise = 0
	}
	var about float64
	for i, x := range xs {
		l.squares += (x - l.mean) * (x - l.mean)
		d := ratios[i] - l.level - l.rise*(x-l.mean)
		about += d * d
	}
	l.scatter = math.Sqrt(about / (l.points - 2))
	if l.scatter < finding.Slack*l.level {
		l.scatter = 0
	}
	return l
}

// at is the ratio of the line at a time.
func (l wearLine) at(seconds float64) float64 {
	return l.level + l.rise*((seconds-l.first)/l.span-l.mean)
}

// when is the time at which the line comes to a ratio.
func (l wearLine) when(y float64) float64 {
	return l.first + l.span*(l.mean+(y-l.level)/l.rise)
}

// bounds are the times between which a catch will read y, with WearConfidence.
// They are the x at which y lies on an edge of the band in which one further catch
// is to be expected:
//
//	(y - y_mean - b u)^2 = t^2 s^2 (1 + 1/n + u^2 / S)     u = x - x_mean
//
// with S the sum of (x_i - x_mean)^2, s the scatter about the line and t the
// two-sided point of Student's distribution with n - 2 degrees of freedom. With
// A = b^2 - t^2 s^2 / S and d = y - y_mean:
//
//	u = (b d ± t s sqrt(A (1 + 1/n) + d^2 / S)) / A
//
// Unless A is above zero the rise is not sure and nothing bounds the time: not ok.
//
// Source: the inverse prediction of a straight calibration line (Fieller), from
// memory; worked by hand in the tests.
func (l wearLine) bounds(y float64) (low, high float64, ok bool) {
	ts := l.student() * l.scatter
	a := l.rise*l.rise - ts*ts/l.squares
	if a <= 0 {
		return 0, 0, false
	}
	d := y - l.level
	middle, half := l.rise*d/a, ts*math.Sqrt(a*(1+1/l.points)+d*d/l.squares)/a
	return l.first + l.span*(l.mean+middle-half), l.first + l.span*(l.mean+middle+half), true
}

// student is the two-sided point of Student's distribution for WearConfidence.
func (l wearLine) student() float64 {
	return distuv.StudentsT{Sigma: 1, Nu: l.points - 2}.Quantile(0.5 + float64(WearConfidence)/2)
}

// seconds is the time of a catch: of running, or since 1970 where it has a date.
func (c *WearCatch) seconds() float64 {
	if !c.Date.IsZero() {
		return float64(c.Date.Unix())
	}
	return float64(c.Hours)
}

// dateOf is the day of a time since 1970, or the next one; zero after 9999. The
// slack keeps a whole day whole.
func dateOf(seconds float64, up bool) time.Time {
	days := math.Floor(seconds/float64(day) + 1e-6)
	if up {
		days = math.Ceil(seconds/float64(day) - 1e-6)
	}
	const lastDay = 2932896 // 9999-12-31
	if math.Abs(days) > lastDay {
		return time.Time{}
	}
	return time.Unix(int64(days)*int64(day), 0).UTC()
}

func (in WearForecastInput) dated() bool {
	for i := range in.Catches {
		if !in.Catches[i].Date.IsZero() {
			return true
		}
	}
	return false
}

func (in WearForecastInput) check() error {
	var v finding.Invalid
	if len(in.Catches) < 3 {
		v.Add(finding.Member("catches"), finding.CodeTooFew)
	}
	dated := in.dated()
	low, high := math.Inf(1), math.Inf(-1)
	for i := range in.Catches {
		c := &in.Catches[i]
		c.check(&v, "catches", i)
		v.OptionalIn(float64(c.Hours), "catches", i, "hours")
		switch {
		case dated && c.Hours != 0:
			v.Conflict(finding.Item("catches", i).Member("hours"), finding.Item("catches", i).Member("date"))
		case dated && c.Date.IsZero():
			v.Add(finding.Item("catches", i).Member("date"), finding.CodeRequired)
		}
		low, high = min(low, c.seconds()), max(high, c.seconds())
	}
	if len(v) == 0 && finding.Difference(high, low) == 0 {
		v.Add(finding.Member("catches"), CodeNeedsTwoTimes)
	}
	v.Positive(float64(in.SprayPressure), finding.Member("sprayPressure"))
	v.Optional(float64(in.Limit), finding.Member("limit"))
	v.Optional(float64(in.HoursPerSeason), finding.Member("hoursPerSeason"))
	if dated && in.HoursPerSeason != 0 {
		v.Conflict(finding.Member("hoursPerSeason"), finding.Item("catches", 0).Member("date"))
	}
	switch given := in.Nozzle.given(); {
	case given && in.NewFlowRate != 0:
		v.Conflict(finding.Member("newFlowRate"), finding.Member("nozzle"))
	case given:
		v = append(v, in.Nozzle.check().Under(finding.Member("nozzle"))...)
	default:
		v.PositiveOr(float64(in.NewFlowRate), finding.Member("newFlowRate"), finding.Member("nozzle"))
		v = append(v, in.Nozzle.PressureRange.check().Under(nozzlePressureRange)...)
	}
	return v.Err()
}
