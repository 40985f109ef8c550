package calc_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// wearAt are catches at times of so many times the new flow, of 1 m3/s, so that halves and
// quarters of it are exact.
func wearAt(limit unit.Ratio, ratios ...float64) calc.WearForecastInput {
	in := calc.WearForecastInput{SprayPressure: 3 * unit.Bar, NewFlowRate: 1, Limit: limit}
	for i, r := range ratios {
		in.Catches = append(in.Catches, calc.WearCatch{
			Catch: calc.Catch{Volume: unit.Volume(64 * r), Time: 64}, Hours: unit.Time(i) * 100 * unit.Hour,
		})
	}
	return in
}

// onDays gives each catch a day, counted from 1970-01-01, instead of its hours.
func onDays(in calc.WearForecastInput, days ...int) calc.WearForecastInput {
	for i, d := range days {
		in.Catches[i].Hours, in.Catches[i].Date = 0, time.Unix(int64(d)*24*3600, 0).UTC()
	}
	return in
}

// TestReferenceWearAtTheFirstCatch, by hand: 1.25, 1.5 and 1.75 of new after 0, 100 and 200 h
// come to a limit of 25 % at 0 h, which is still told; to 24 % they came before.
func TestReferenceWearAtTheFirstCatch(t *testing.T) {
	r := mustWearForecast(t, wearAt(0.25, 1.25, 1.5, 1.75))
	if !r.Reached || r.AtLimit.Hours != 0 || r.State != calc.WornNow {
		t.Errorf("got %+v", r)
	}
	if r = mustWearForecast(t, wearAt(0.24, 1.25, 1.5, 1.75)); r.Reached {
		t.Errorf("before the first: %+v", r)
	}
}

// TestReferenceWearAsFarAhead, by hand: 1, 1.125 and 1.25 of new after 0, 100 and 200 h come to
// a limit of 50 % at 400 h, 200 h ahead of 200 that they reach back: no farther. To 51 % it is
// 208 h. How many seasons that is nobody knows without the hours of one; of 100 h it is 2.
func TestReferenceWearAsFarAhead(t *testing.T) {
	in := wearAt(0.5, 1, 1.125, 1.25)
	r := mustWearForecast(t, in)
	agrees(t, "left", r.Left.In(unit.Hour), 200, 1e-12)
	if r.Warnings != nil || r.SeasonsLeft != 0 {
		t.Errorf("warned of %q, %v seasons", warned(r.Warnings), r.SeasonsLeft)
	}
	in.HoursPerSeason = 100 * unit.Hour
	agrees(t, "seasons", mustWearForecast(t, in).SeasonsLeft, 2, 1e-12)
	in.Limit = 0.51
	r = mustWearForecast(t, in)
	agrees(t, "left", r.Left.In(unit.Hour), 208, 1e-12)
	if warned(r.Warnings) != "catches: far_forecast" {
		t.Errorf("warned of %q", warned(r.Warnings))
	}
	// So it is with days, however long ago 1970 is.
	r = mustWearForecast(t, onDays(wearAt(0.51, 1, 1.125, 1.25), 20000, 20100, 20200))
	if warned(r.Warnings) != "catches: far_forecast" {
		t.Errorf("of days: warned of %q", warned(r.Warnings))
	}
}

// TestReferenceWearFallsALittle: 1 % less over 100 days is no more than a jug is off by.
func TestReferenceWearFallsALittle(t *testing.T) {
	for fall, want := range map[float64]bool{0.01: false, 0.03: true} {
		r := mustWearForecast(t, onDays(wearAt(0.1, 1, 1-fall/2, 1-fall), 20000, 20050, 20100))
		if got := strings.Contains(warned(r.Warnings), calc.WarnFallingFlow); got != want {
			t.Errorf("by %v: warned of %q", fall, warned(r.Warnings))
		}
	}
}

// TestReferenceWearToTheLastDay, by hand: 9999-12-31 is day 2 932 896 since 1970-01-01. A rise
// from 1 to 1.25 in half of them comes to 1.5 on the last day; a day later there is no date.
func TestReferenceWearToTheLastDay(t *testing.T) {
	const last = 2932896
	r := mustWearForecast(t, onDays(wearAt(0.5, 1, 1.125, 1.25), 0, last/4, last/2))
	if want := time.Date(9999, 12, 31, 0, 0, 0, 0, time.UTC); !r.Reached || !r.AtLimit.Date.Equal(want) {
		t.Errorf("at the limit on %v", r.AtLimit.Date)
	}
	r = mustWearForecast(t, onDays(wearAt(0.5, 1, 1.125, 1.25), 1, last/4+1, last/2+1))
	if !r.Reached || !r.AtLimit.Date.IsZero() {
		t.Errorf("at the limit on %v", r.AtLimit.Date)
	}
}

// TestWearSeasonBesideDates: the hours of a season are refused beside the date of the first.
func TestWearSeasonBesideDates(t *testing.T) {
	in := onDays(wearAt(0.5, 1, 1.125, 1.25), 1, 2, 3)
	in.HoursPerSeason = 100 * unit.Hour
	_, err := calc.WearForecast(in)
	var v finding.Invalid
	if !errors.As(err, &v) || refusal(err) != "hoursPerSeason: conflict" || v[0].Because.String() != "catches[0].date" {
		t.Errorf("%+v", err)
	}
}
