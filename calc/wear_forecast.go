package calc

import (
	"time"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// WearForecastInput is the record of one set of nozzles, caught again and again
// while it wore.
type WearForecastInput struct {
	// Catches holds at least three, at two times or more, in any order.
	Catches []WearCatch
	// SprayPressure is the pressure that all flows are brought to, and that of the
	// catches which have none of their own.
	SprayPressure unit.Pressure
	// Nozzle gives the new flow by its rating, NewFlowRate by what one new nozzle
	// gave at SprayPressure. One of the two.
	Nozzle      Nozzle
	NewFlowRate unit.FlowRate
	// Limit is how far above the new flow a nozzle is worn. Zero stands for
	// DefaultWearLimit.
	Limit unit.Ratio
	// HoursPerSeason asks for the wear of a season. Not with dates: there a season
	// is a year.
	HoursPerSeason unit.Time
}

// A WearCatch is a catch with the hours that the nozzles had run, zero when new,
// or with its date. Either all catches have a date or none.
type WearCatch struct {
	Catch
	Hours unit.Time
	Date  time.Time // midnight UTC; zero where hours are counted
}

// WearForecastResult tells how fast the set wears and when it is worn.
type WearForecastResult struct {
	Dated         bool
	NewFlowRate   unit.FlowRate // at SprayPressure
	Limit         unit.Ratio
	LimitFlowRate unit.FlowRate
	Catches       []WearPoint // in the order of the input

	OverNew unit.Ratio // the line at the last catch; below zero for less than new
	Scatter unit.Ratio // standard deviation about the line (n - 2), of the new flow
	// Wear is how much of the new flow is added, per hour and per season, or per
	// day and per year where catches have dates. WearPerSeason is zero without
	// HoursPerSeason.
	WearPerHour, WearPerDay, WearPerSeason unit.Ratio
	State                                  WearState

	// Reached tells whether AtLimit is known: when the line comes to the limit, not
	// before the first catch. Bounded tells the same of Earliest and Latest, which
	// hold it with WearConfidence. They may lie before the first catch.
	Reached, Bounded          bool
	AtLimit, Earliest, Latest WearTime
	Left                      unit.Time // from the last catch to AtLimit; zero unless WillReach
	StudentPoint              float64   // of Earliest and Latest: two-sided, n - 2 degrees of freedom
	SeasonsLeft               float64   // zero unless WillReach and seasons are known
	Warnings                  []finding.Warning
}

// WearPoint is one catch, brought to the common pressure.
type WearPoint struct {
	NozzleFlowRate    unit.FlowRate
	OverNew, OverLine unit.Ratio // as shares of the new flow
}

// WearTime is a time in the way that the catches give theirs. A date is whole
// days, rounded away from AtLimit for Latest and down otherwise; it is zero when
// it would lie after the year 9999.
type WearTime struct {
	Hours unit.Time
	Date  time.Time
}

// WearState is where the set stands.
type WearState string

const (
	NoWear    WearState = "no_wear"    // the line does not rise
	WillReach WearState = "will_reach" // it rises and is not above the limit yet
	WornNow   WearState = "worn_now"   // at the last catch it is above the limit
)

// Words lists every state.
func (WearState) Words() []string { return finding.WordsOf([]WearState{NoWear, WillReach, WornNow}) }

// WearConfidence is that of Earliest and Latest.
const WearConfidence = 95 * unit.Percent

// Codes of WearForecast, beside WarnShortCatch.
const (
	CodeNeedsTwoTimes = "needs_two_times" // all catches are of one time: no line goes through them

	WarnWearUncertain   = "wear_uncertain"    // the rise is not sure: nothing bounds the time
	WarnFarForecast     = "far_forecast"      // farther ahead than the catches reach back
	WarnLatestOverLimit = "latest_over_limit" // the last catch is above the limit, the line is not
	WarnBelowNew        = "below_new"         // a catch gives much less than new: dirt, not wear
	WarnBeyondWear      = "beyond_wear"       // a catch gives more than MostWear too much: no wear does
	WarnFarPressure     = "far_pressure"      // moved by more than a ratio of 2
	WarnFallingFlow     = "falling_flow"      // the line falls by more than FallingFlow: no wear does that
	WarnFirstOverLimit  = "first_over_limit"  // the first catch is above the limit already
)

// FallingFlow is how far, of the new flow, the line may fall from the first catch to the
// last before it is warned of: twice the error of a jug. Own judgement, no published
// source.
const FallingFlow = 2 * certainty.DefaultJugScale

const (
	day  = 24 * unit.Hour
	year = 365.25 * 24 * unit.Hour
)

// WearForecast draws a line through the flow of a set of nozzles over the hours
// that it ran, or over dates, and says when it comes to the limit:
//
//	q_i = V / (t x nozzles) x sqrt(p / p_i)      y_i = q_i / q_new
//	y = y_mean + b (x - x_mean), by least squares
//	wear per hour = b        x_limit = x_mean + (1 + limit - y_mean) / b
//
// and between which times a catch will read the limit, see wearLine.bounds.
//
// The set is worn when the line at the last catch is above the limit; exactly on
// it, it is not. A line that does not rise shows no wear. A rise of less than
// 1e-9 of the new flow over all catches is none. A line that falls by more than
// FallingFlow (falling_flow) speaks of plugging, or of another way to catch; a catch that
// gives more than MostWear too much (beyond_wear) of a slip, or of other nozzles; and a set
// that was above the limit when it was first caught (first_over_limit) of a new flow
// that is not its own.
//
// finding.Invalid: catches as in NozzleFlow, and
//
//	too_few          fewer than three catches: two always lie on a line
//	needs_two_times  all are of one time
//	required         SprayPressure, NewFlowRate without a Nozzle, or the date of a
//	                 catch when another has one
//	conflict         NewFlowRate beside a Nozzle, hours beside dates
//
// Source: the line is held against NIST Statistical Reference Datasets,
// testdata/published/wear-forecast. That nozzles more than 10 % above a new one are
// worn: USGA Green Section, The 10-Percent Rule, 2016, see Tolerances. That wear is
// a straight line over hours is an assumption.
func WearForecast(in WearForecastInput) (WearForecastResult, error) {
	if err := in.check(); err != nil {
		return WearForecastResult{}, err
	}
	r := WearForecastResult{Dated: in.dated(), NewFlowRate: in.NewFlowRate, Limit: in.Limit}
	if r.Limit == 0 {
		r.Limit = DefaultWearLimit
	}
	if in.Nozzle.given() {
		r.NewFlowRate = in.Nozzle.FlowAt(in.SprayPressure)
		if in.Nozzle.farFromRating(in.SprayPressure) {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("sprayPressure"), Code: WarnFarFromRating})
		}
	}
	r.LimitFlowRate = r.NewFlowRate * unit.FlowRate(1+r.Limit)
	times, ratios := make([]float64, len(in.Catches)), make([]float64, len(in.Catches))
	r.Catches = make([]WearPoint, len(in.Catches))
	for i := range in.Catches {
		c := &in.Catches[i]
		q := FlowAtPressure(c.NozzleFlowRate(), c.pressure(in.SprayPressure), in.SprayPressure, SquareRoot)
		times[i], ratios[i] = c.seconds(), float64(q/r.NewFlowRate)
		r.Catches[i] = WearPoint{NozzleFlowRate: q, OverNew: unit.Ratio(finding.Deviation(float64(q), float64(r.NewFlowRate)))}
		r.warnOfCatch(in, i)
	}
	line := fitWear(times, ratios)
	for i := range r.Catches {
		r.Catches[i].OverLine = unit.Ratio(finding.Difference(ratios[i], line.at(times[i])))
	}
	r.OverNew = unit.Ratio(finding.Deviation(line.at(line.last), 1))
	r.Scatter = unit.Ratio(line.scatter)
	r.judge(line)
	r.perSeason(in, line)
	r.forecast(line)
	if !finding.AtMost(-line.rise, float64(FallingFlow)) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("catches"), Code: WarnFallingFlow})
	}
	for i := range r.Catches {
		if times[i] == line.first && !finding.AtMost(float64(r.Catches[i].OverNew), float64(r.Limit)) {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("catches", i), Code: WarnFirstOverLimit})
		}
		if times[i] == line.last && r.State != WornNow && !finding.AtMost(float64(r.Catches[i].OverNew), float64(r.Limit)) {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("catches", i), Code: WarnLatestOverLimit})
		}
	}
	return r, nil
}

func (r *WearForecastResult) warnOfCatch(in WearForecastInput, i int) {
	c := &in.Catches[i]
	if c.short() {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("catches", i).Member("time"), Code: WarnShortCatch})
	}
	if farApart(c.pressure(in.SprayPressure), in.SprayPressure) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("catches", i).Member("sprayPressure"), Code: WarnFarPressure})
	}
	if !finding.AtMost(-float64(r.Catches[i].OverNew), float64(r.Limit)) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("catches", i), Code: WarnBelowNew})
	}
	if !finding.AtMost(float64(r.Catches[i].OverNew), float64(MostWear)) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("catches", i), Code: WarnBeyondWear})
	}
}

func (r *WearForecastResult) judge(line wearLine) {
	switch {
	case !finding.AtMost(float64(r.OverNew), float64(r.Limit)):
		r.State = WornNow
	case line.rise > 0:
		r.State = WillReach
	default:
		r.State = NoWear
	}
}

func (r *WearForecastResult) perSeason(in WearForecastInput, line wearLine) {
	perSecond := line.rise / line.span
	if r.Dated {
		r.WearPerDay = unit.Ratio(perSecond * float64(day))
		r.WearPerSeason = unit.Ratio(perSecond * float64(year))
		return
	}
	r.WearPerHour = unit.Ratio(perSecond * float64(unit.Hour))
	r.WearPerSeason = unit.Ratio(perSecond * float64(in.HoursPerSeason))
}

// forecast says when the line comes to the limit.
func (r *WearForecastResult) forecast(line wearLine) {
	if line.rise <= 0 {
		return
	}
	limit := 1 + float64(r.Limit)
	at := line.when(limit)
	if at < line.first {
		return // worn when it was first caught: the line says nothing of before
	}
	r.Reached, r.AtLimit = true, r.time(at, false)
	var low, high float64
	if low, high, r.Bounded = line.bounds(limit); r.Bounded {
		r.Earliest, r.Latest = r.time(low, false), r.time(high, true)
		r.StudentPoint = line.student()
	} else {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("catches"), Code: WarnWearUncertain})
	}
	if r.State != WillReach {
		return
	}
	r.Left = unit.Time(finding.Difference(at, line.last))
	if r.WearPerSeason > 0 {
		r.SeasonsLeft = float64((r.Limit - r.OverNew) / r.WearPerSeason)
	}
	if float64(r.Left) > line.span {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("catches"), Code: WarnFarForecast})
	}
}

// time words seconds as hours or as a date.
func (r *WearForecastResult) time(seconds float64, up bool) WearTime {
	if !r.Dated {
		return WearTime{Hours: unit.Time(seconds)}
	}
	return WearTime{Date: dateOf(seconds, up)}
}
