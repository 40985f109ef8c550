package calc_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// wearOf are catches of a minute by hours and mL/min, at 3 bar, of a set that gave
// 1000 mL/min when new.
func wearOf(hours, flows []float64) calc.WearForecastInput {
	in := calc.WearForecastInput{SprayPressure: 3 * unit.Bar, NewFlowRate: unit.LitrePerMinute}
	for i, h := range hours {
		in.Catches = append(in.Catches, calc.WearCatch{
			Catch: calc.Catch{Volume: unit.Volume(flows[i]) * unit.Millilitre, Time: unit.Minute},
			Hours: unit.Time(h) * unit.Hour,
		})
	}
	return in
}

func mustWearForecast(t rapid.TB, in calc.WearForecastInput) calc.WearForecastResult {
	t.Helper()
	r, err := calc.WearForecast(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// norris are y and x of 36 points. NIST Statistical Reference Datasets, linear
// regression: Norris, https://www.itl.nist.gov/div898/strd/lls/data/Norris.shtml .
// Points and certified values are from memory; each bears the other out, since the
// points give all certified digits in exact arithmetic.
var norris = [][2]float64{
	{0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3},
	{449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0},
	{448.9, 447.5}, {10.8, 11.6}, {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
	{0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3},
	{228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5},
}

// TestPublishedWearLine: x stands for hours and y for flows, as multiples of the
// new one. Certified are the intercept -0.262323073774029, the slope
// 1.00211681802045 and the standard deviation about the line 0.884796396144373. The
// line comes to 1.1 at (1.1 + 0.262323073774029) / 1.00211681802045 = 1.359445375.
func TestPublishedWearLine(t *testing.T) {
	var hours, flows []float64
	for _, p := range norris {
		hours, flows = append(hours, p[1]), append(flows, 1000*p[0])
	}
	r := mustWearForecast(t, wearOf(hours, flows))
	agrees(t, "slope", float64(r.WearPerHour), 1.00211681802045, 1e-12)
	agrees(t, "scatter", float64(r.Scatter), 0.884796396144373, 1e-11)
	agrees(t, "at 999 h", 1+float64(r.OverNew), -0.262323073774029+1.00211681802045*999, 1e-12)
	agrees(t, "at the limit", r.AtLimit.Hours.In(unit.Hour), 1.359445375, 1e-9)
	if r.State != calc.WornNow || !r.Reached || !r.Bounded || r.Left != 0 {
		t.Errorf("state %v, reached %v, bounded %v, left %v", r.State, r.Reached, r.Bounded, r.Left)
	}
}

// TestReferenceWearForecast is worked by hand.
//
// Four catches at 0, 100, 200, 300 h of 1.000, 1.021, 1.039, 1.060 of new: means 150
// and 1.03; S = 2 (150^2 + 50^2) = 50 000; sum of products 4.5 + 0.45 + 0.45 + 4.5 =
// 9.9, so b = 1.98e-4 per hour. About the line -0.0003, 0.0009, -0.0009, 0.0003:
// squares 1.8e-6, over 2 = 9e-7, root 9.486833e-4. At the limit: 150 + 0.07 / 1.98e-4
// = 503.535354 h, 203.535354 after the last. At 300 h 1.03 + 0.0297 = 1.0597.
// Student's t of 2 degrees at 0.975 is 0.95 / sqrt(0.04875), t^2 = 722/39 exactly
// (4.303 in tables). t^2 s^2 = 1.6661538e-5; A = 3.9204e-8 - 3.3323077e-10 =
// 3.8870769e-8; u = (1.386e-5 ± sqrt(1.6661538e-5 (1.25 A + 0.0049/50000))) / A.
//
// Three catches at 0, 100, 200 h of 1.000, 1.030, 1.063: means 100 and 1.031; S =
// 20 000, b = 6.3 / 20 000 = 3.15e-4; squares 1.5e-6, over 1. t of 1 degree is
// tan(0.475 pi) = 12.7062047 (12.706 in tables); t^2 s^2 = 2.42171458e-4; A =
// 9.9225e-8 - 1.21085729e-8 = 8.7116427e-8; u = (2.1735e-5 ± 9.26166284e-6) / A.
func TestReferenceWearForecast(t *testing.T) {
	for _, c := range []struct {
		what                       string
		in                         calc.WearForecastInput
		perHour, scatter           float64
		overNew                    float64
		at, earliest, latest, left float64 // h
		state                      calc.WearState
		reached, bounded           bool
		warned                     string
	}{
		{
			"four", wearOf([]float64{0, 100, 200, 300}, []float64{1000, 1021, 1039, 1060}),
			1.98e-4, 9.486833e-4, 0.0597, 503.535354, 466.360744, 546.771529, 203.535354, calc.WillReach, true, true, "",
		},
		{
			"four in another order", wearOf([]float64{300, 0, 200, 100}, []float64{1060, 1000, 1039, 1021}),
			1.98e-4, 9.486833e-4, 0.0597, 503.535354, 466.360744, 546.771529, 203.535354, calc.WillReach, true, true, "",
		},
		{
			"three", wearOf([]float64{0, 100, 200}, []float64{1000, 1030, 1063}),
			3.15e-4, 1.224744871e-3, 0.0625, 319.047619, 243.180082, 455.807324, 119.047619, calc.WillReach, true, true, "",
		},
		// b = 4 / 20 000; squares 6 / 90 000. t^2 s^2 / S = 5.4e-7 is above b^2 = 4e-8.
		{
			"uncertain", wearOf([]float64{0, 100, 200}, []float64{1000, 1030, 1040}),
			2e-4, 8.1649658e-3, 0.0433333333, 483.333333, 0, 0, 283.333333, calc.WillReach, true, false,
			"catches: wear_uncertain; catches: far_forecast",
		},
		// Exactly on a line of 4 % in 100 h: at 250 h, and nothing is uncertain. It
		// stands at 8 %; the limit lies 50 h on.
		{
			"on a line", wearOf([]float64{0, 100, 200}, []float64{1000, 1040, 1080}),
			4e-4, 0, 0.08, 250, 250, 250, 50, calc.WillReach, true, true, "",
		},
		{
			"on the limit", wearOf([]float64{0, 100, 200}, []float64{1000, 1050, 1100}),
			5e-4, 0, 0.1, 200, 200, 200, 0, calc.WillReach, true, true, "",
		},
		{
			"worn", wearOf([]float64{0, 100, 200}, []float64{1000, 1100, 1200}),
			1e-3, 0, 0.2, 100, 100, 100, 0, calc.WornNow, true, true, "",
		},
		// The line passes 1.1 at 100 h before the first catch.
		{
			"worn from the start", wearOf([]float64{200, 300, 400}, []float64{1130, 1140, 1150}),
			1e-4, 0, 0.15, 0, 0, 0, 0, calc.WornNow, false, false, "catches[0]: first_over_limit",
		},
		{
			"no wear", wearOf([]float64{0, 100, 200}, []float64{1010, 1010, 1010}),
			0, 0, 0.01, 0, 0, 0, 0, calc.NoWear, false, false, "",
		},
		{
			"worn and level", wearOf([]float64{0, 100, 200}, []float64{1110, 1110, 1110}),
			0, 0, 0.11, 0, 0, 0, 0, calc.WornNow, false, false, "catches[0]: first_over_limit",
		},
		{
			"less and less", wearOf([]float64{0, 100, 200}, []float64{1000, 940, 880}),
			-6e-4, 0, -0.12, 0, 0, 0, 0, calc.NoWear, false, false, "catches[2]: below_new; catches: falling_flow",
		},
		// Means 100 and 1.04; b = 12 / 20 000; line 0.98, 1.04, 1.10: on the limit,
		// the last catch 2 % above it. Squares 0.0004 + 0.0016 + 0.0004.
		{
			"latest", wearOf([]float64{0, 100, 200}, []float64{1000, 1000, 1120}),
			6e-4, 0.0489897949, 0.1, 200, 0, 0, 0, calc.WillReach, true, false,
			"catches: wear_uncertain; catches[2]: latest_over_limit",
		},
	} {
		r := mustWearForecast(t, c.in)
		for _, x := range []struct {
			what      string
			got, want float64
		}{
			{"per hour", float64(r.WearPerHour), c.perHour},
			{"scatter", float64(r.Scatter), c.scatter},
			{"over new", float64(r.OverNew), c.overNew},
			{"at the limit", r.AtLimit.Hours.In(unit.Hour), c.at},
			{"earliest", r.Earliest.Hours.In(unit.Hour), c.earliest},
			{"latest", r.Latest.Hours.In(unit.Hour), c.latest},
			{"left", r.Left.In(unit.Hour), c.left},
		} {
			agrees(t, c.what+": "+x.what, x.got, x.want, 2e-8)
		}
		if r.State != c.state || r.Reached != c.reached || r.Bounded != c.bounded || warned(r.Warnings) != c.warned {
			t.Errorf("%s: state %v, reached %v, bounded %v, warned of %q", c.what, r.State, r.Reached, r.Bounded, warned(r.Warnings))
		}
	}
}

// TestReferenceWearAtPressure is worked by hand: flows go with the root of
// pressure. A catch of 2060 mL/min at 12 bar is one of 1030 at 3 bar; one of two
// nozzles gives half to each. The new flow by a rating of 2 L/min at 12 bar is 1
// L/min at 3 bar. Hours 0, 100, 200 and 1000, 1030, 1060 mL/min are 3 % in 100 h,
// 0.03 in a season of 100 h; 4 % are left, which is 4/3 of a season.
func TestReferenceWearAtPressure(t *testing.T) {
	in := wearOf([]float64{0, 100, 200}, []float64{1000, 2060, 2120})
	in.Catches[1].SprayPressure = 12 * unit.Bar
	in.Catches[2].Nozzles = 2
	in.NewFlowRate, in.HoursPerSeason = 0, 100*unit.Hour
	in.Nozzle = calc.Nozzle{RatedFlowRate: 2 * unit.LitrePerMinute, RatedPressure: 12 * unit.Bar}
	in.Limit = 10 * unit.Percent
	r := mustWearForecast(t, in)
	agrees(t, "new", r.NewFlowRate.In(unit.LitrePerMinute), 1, 1e-12)
	agrees(t, "limit", r.LimitFlowRate.In(unit.LitrePerMinute), 1.1, 1e-12)
	agrees(t, "season", r.WearPerSeason.In(unit.Percent), 3, 1e-12)
	agrees(t, "seasons left", r.SeasonsLeft, 4.0/3, 1e-9)
	for i, want := range []float64{1000, 1030, 1060} {
		agrees(t, fmt.Sprint("catch ", i), r.Catches[i].NozzleFlowRate.In(unit.LitrePerMinute)*1000, want, 1e-12)
	}
	if w := warned(r.Warnings); w != "sprayPressure: far_from_rating; catches[1].sprayPressure: far_pressure" || r.Dated || r.WearPerDay != 0 {
		t.Errorf("warned of %q, dated %v, per day %v", w, r.Dated, r.WearPerDay)
	}
	in.Catches[0].Time = 10 * unit.Second
	in.Catches[0].Volume /= 6
	if w := warned(mustWearForecast(t, in).Warnings); w != "sprayPressure: far_from_rating; catches[0].time: short_catch; catches[1].sprayPressure: far_pressure" {
		t.Errorf("warned of %q", w)
	}
}

// TestReferenceWearByDate is worked by hand: 1 % in 100 days from the first day of
// 2021, so 10 % after 1000 days. 2021, 2022 and 2023 have 1095 days, so that is 95
// days before the first day of 2024, or 3 before 1 October 2023 (31 + 30 + 31 = 92):
// 28 September 2023. A year is 3.6525 %.
func TestReferenceWearByDate(t *testing.T) {
	start := time.Date(2021, time.January, 1, 0, 0, 0, 0, time.UTC)
	in := wearOf([]float64{0, 0, 0, 0}, []float64{1000, 1010, 1020, 1030})
	for i := range in.Catches {
		in.Catches[i].Date = start.AddDate(0, 0, 100*i)
	}
	r := mustWearForecast(t, in)
	want := time.Date(2023, time.September, 28, 0, 0, 0, 0, time.UTC)
	if !r.AtLimit.Date.Equal(want) || !r.Earliest.Date.Equal(want) || !r.Latest.Date.Equal(want) || !r.Dated || r.AtLimit.Hours != 0 {
		t.Errorf("reached %v, from %v to %v", r.AtLimit, r.Earliest, r.Latest)
	}
	agrees(t, "per day", r.WearPerDay.In(unit.Percent), 0.01, 1e-9)
	agrees(t, "per year", r.WearPerSeason.In(unit.Percent), 3.6525, 1e-9)
	agrees(t, "seasons left", r.SeasonsLeft, 7/3.6525, 1e-9)
	agrees(t, "days left", r.Left.In(24*unit.Hour), 700, 1e-9)

	// The four catches of TestReferenceWearForecast, a day for an hour, reach the
	// limit after 503.5 days, between 466.4 and 546.8: days 503, 466 and 547.
	for i, flow := range []float64{1000, 1021, 1039, 1060} {
		in.Catches[i].Volume = unit.Volume(flow) * unit.Millilitre
	}
	r = mustWearForecast(t, in)
	for what, pair := range map[string][2]time.Time{
		"at":       {r.AtLimit.Date, start.AddDate(0, 0, 503)},
		"earliest": {r.Earliest.Date, start.AddDate(0, 0, 466)},
		"latest":   {r.Latest.Date, start.AddDate(0, 0, 547)},
	} {
		if !pair[0].Equal(pair[1]) {
			t.Errorf("%s: %v, want %v", what, pair[0], pair[1])
		}
	}

	// 0.0001 % in 100 days is 10 % in 10 million days, past the year 9999.
	for i := range in.Catches {
		in.Catches[i].Volume = unit.Volume(1000+0.001*float64(i)) * unit.Millilitre
	}
	r = mustWearForecast(t, in)
	if !r.Reached || !r.AtLimit.Date.IsZero() {
		t.Errorf("reached %v on %v", r.Reached, r.AtLimit.Date)
	}
}

// TestPropertyWearForecast: neither the unit of volume, nor the hour from which
// hours are counted, changes the wear; the bounds hold the time between them, and
// at each of them the band of one further catch ends at the limit, with t of three
// degrees 3.182446 (3.182 in tables).
func TestPropertyWearForecast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.Float64Range(1e-4, 1e-3).Draw(t, "per hour")
		var hours, flows []float64
		for i := range 5 {
			h := 40*float64(i) + rapid.Float64Range(0, 30).Draw(t, "hours")
			hours, flows = append(hours, h), append(flows, 1000*(1+rate*h)+rapid.Float64Range(-1, 1).Draw(t, "noise"))
		}
		in := wearOf(hours, flows)
		in.Limit = 30 * unit.Percent
		r := mustWearForecast(t, in)
		if !r.Reached {
			t.Fatalf("no wear: %+v", r)
		}

		other, later := wearOf(hours, flows), rapid.Float64Range(0, 1000).Draw(t, "later")
		scale := rapid.Float64Range(1e-3, 1e3).Draw(t, "scale")
		other.Limit = in.Limit
		other.NewFlowRate *= unit.FlowRate(scale)
		for i := range other.Catches {
			other.Catches[i].Volume *= unit.Volume(scale)
			other.Catches[i].Hours += unit.Time(later) * unit.Hour
		}
		s := mustWearForecast(t, other)
		agrees(t, "per hour", float64(s.WearPerHour), float64(r.WearPerHour), 1e-8)
		agrees(t, "at the limit", s.AtLimit.Hours.In(unit.Hour), r.AtLimit.Hours.In(unit.Hour)+later, 1e-8)
		if s.State != r.State || s.Bounded != r.Bounded {
			t.Fatalf("states %v and %v, bounded %v and %v", r.State, s.State, r.Bounded, s.Bounded)
		}
		if !r.Bounded {
			return
		}
		if close := r.AtLimit.Hours * 1e-12; r.Earliest.Hours > r.AtLimit.Hours+close || r.Latest.Hours < r.AtLimit.Hours-close {
			t.Fatalf("%v is not between %v and %v", r.AtLimit, r.Earliest, r.Latest)
		}
		var mean, squares float64
		for _, h := range hours {
			mean += h / 5
		}
		for _, h := range hours {
			squares += (h - mean) * (h - mean)
		}
		for _, edge := range []calc.WearTime{r.Earliest, r.Latest} {
			h := edge.Hours.In(unit.Hour)
			line := 1.3 + float64(r.WearPerHour)*(h-r.AtLimit.Hours.In(unit.Hour))
			band := 3.182446 * float64(r.Scatter) * math.Sqrt(1+1.0/5+(h-mean)*(h-mean)/squares)
			if d := math.Abs(math.Abs(line-1.3) - band); d > 1e-6*band+1e-12 {
				t.Fatalf("at %v h the band ends %v from the limit", h, d)
			}
		}
	})
}

// The catches are invented: 2 % more in each 100 h.
func ExampleWearForecast() {
	in := calc.WearForecastInput{SprayPressure: 3 * unit.Bar, NewFlowRate: unit.LitrePerMinute, HoursPerSeason: 150 * unit.Hour}
	for i, flow := range []unit.FlowRate{1.00, 1.02, 1.04} {
		in.Catches = append(in.Catches, calc.WearCatch{
			Catch: calc.Catch{Volume: unit.Volume(flow * unit.LitrePerMinute * 60), Time: unit.Minute},
			Hours: unit.Time(i) * 100 * unit.Hour,
		})
	}
	r, err := calc.WearForecast(in)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f %% a season; worn at %.0f h\n", r.WearPerSeason.In(unit.Percent), r.AtLimit.Hours.In(unit.Hour))
	// Output:
	// 3 % a season; worn at 500 h
}

func TestWearForecastRefuses(t *testing.T) {
	start := time.Date(2024, time.May, 1, 0, 0, 0, 0, time.UTC)
	but := func(change func(*calc.WearForecastInput)) calc.WearForecastInput {
		in := wearOf([]float64{0, 100, 200}, []float64{1000, 1010, 1020})
		change(&in)
		return in
	}
	type input = calc.WearForecastInput
	rated := calc.Nozzle{RatedFlowRate: 1, RatedPressure: 1}
	for want, in := range map[string]input{
		"catches: too_few; sprayPressure: required; newFlowRate: required": {},
		"catches: too_few":               but(func(in *input) { in.Catches = in.Catches[:2] }),
		"catches: needs_two_times":       but(func(in *input) { in.Catches[0].Hours, in.Catches[1].Hours = 200*unit.Hour, 200*unit.Hour }),
		"catches[1].volume: required":    but(func(in *input) { in.Catches[1].Volume = 0 }),
		"catches[1].hours: not_positive": but(func(in *input) { in.Catches[1].Hours = -1 }),
		"catches[1].hours: not_finite":   but(func(in *input) { in.Catches[1].Hours = unit.Time(noNumber) }),
		"sprayPressure: required":        but(func(in *input) { in.SprayPressure = 0 }),
		"sprayPressure: not_positive":    but(func(in *input) { in.SprayPressure = -1 }),
		"limit: not_positive":            but(func(in *input) { in.Limit = -1 }),
		"hoursPerSeason: not_finite":     but(func(in *input) { in.HoursPerSeason = unit.Time(endless) }),
		"newFlowRate: required":          but(func(in *input) { in.NewFlowRate = 0 }),
		"newFlowRate: conflict":          but(func(in *input) { in.Nozzle = rated }),
		"nozzle.ratedPressure: required": but(func(in *input) { in.NewFlowRate, in.Nozzle.RatedFlowRate = 0, 1 }),
		"nozzle.pressureRange.low: range_inverted": but(func(in *input) {
			in.Nozzle.PressureRange = calc.PressureRange{Low: 2, High: 1}
		}),
		"catches[0].date: required; catches[1].hours: conflict; hoursPerSeason: conflict": but(func(in *input) {
			in.Catches[1].Date, in.Catches[2].Date, in.Catches[2].Hours = start, start, 0
			in.HoursPerSeason = 1
		}),
	} {
		if _, err := calc.WearForecast(in); refusal(err) != want {
			t.Errorf("refused with %q, want %q", refusal(err), want)
		}
	}
}

// TestReferenceWearFarPressure: a catch is warned of from twice the pressure on, or
// from half of it; the ratio is our own, no published source.
func TestReferenceWearFarPressure(t *testing.T) {
	for bar, want := range map[float64]bool{6: false, 6.1: true, 1.5: false, 1.48: true, 3: false} {
		in := wearOf([]float64{0, 100, 200}, []float64{1000, 1020, 1040})
		in.Catches[1].SprayPressure = unit.Pressure(bar) * unit.Bar
		got := strings.Contains(warned(mustWearForecast(t, in).Warnings), "catches[1].sprayPressure: far_pressure")
		if got != want {
			t.Errorf("%v of 3 bar: warned %v", bar, got)
		}
	}
}
