package calc_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

var endless, noNumber = math.Inf(1), math.NaN()

func mustGroundSpeed(t rapid.TB, in calc.GroundSpeedInput) calc.GroundSpeedResult {
	t.Helper()
	r, err := calc.GroundSpeed(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPublishedGroundSpeed holds worked examples against what they print.
func TestPublishedGroundSpeed(t *testing.T) {
	for _, c := range []struct {
		course   unit.Length
		time     unit.Time
		printed  float64
		unit     unit.Speed
		decimals int
	}{
		// Sprayer calibration, turf fact sheet, Oklahoma State University,
		// http://www.turf.okstate.edu/FactSheets/sprayer.htm : whole mph.
		{200 * unit.Foot, 45, 3, unit.MilePerHour, 0},
		{200 * unit.Foot, 27, 5, unit.MilePerHour, 0},
		// Orchard sprayer calibration guide, Safe Use Initiative,
		// seen in a copy only
		{100 * unit.Metre, 72, 5.0, unit.KilometrePerHour, 1},
		// Paso por paso: como calibrar una pulverizadora, INTA, 2021,
		// https://saladillocampo.com.ar/blog/2021/10/13/paso-por-paso-como-calibrar-una-pulverizadora/2
		{100 * unit.Metre, 60, 6, unit.KilometrePerHour, 0},
	} {
		r := mustGroundSpeed(t, calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: c.course, Time: c.time}}})
		printedAs(t, "ground speed", r.GroundSpeed.In(c.unit), c.printed, c.decimals)
	}
}

// TestReferenceGroundSpeed: reference value computed from exact unit definitions,
// independently of this code.
func TestReferenceGroundSpeed(t *testing.T) {
	r := mustGroundSpeed(t, calc.GroundSpeedInput{
		Runs:         []calc.Run{{CourseLength: 100 * unit.Foot, Time: 22.8}, {CourseLength: 100 * unit.Foot, Time: 23.4}},
		RunTolerance: 5 * unit.Percent,
	})
	agrees(t, "ground speed", r.GroundSpeed.In(unit.MilePerHour), 2.95159, 1e-5)
	agrees(t, "first run", r.Runs[0].In(unit.MilePerHour), 2.99043, 1e-5)
	agrees(t, "second run", r.Runs[1].In(unit.MilePerHour), 2.91375, 1e-5)
	agrees(t, "spread", r.Spread.In(unit.Percent), 2.59784, 1e-5)
	if r.Repeatable != finding.Within || r.Warnings != nil || r.TargetTimes != nil {
		t.Errorf("repeatable %v, warnings %v, target times %v", r.Repeatable, r.Warnings, r.TargetTimes)
	}
}

// TestReferenceRunsWeighByLength: 100 m in 50 s (2 m/s) and 300 m in 100 s (3 m/s)
// are 400 m in 150 s, 2.6667 m/s, not the mean 2.5. The spread is 1/2.6667 =
// 37.5 %. At a target of 2 m/s the courses take 50 and 150 s.
func TestReferenceRunsWeighByLength(t *testing.T) {
	r := mustGroundSpeed(t, calc.GroundSpeedInput{
		Runs:              []calc.Run{{CourseLength: 100, Time: 50}, {CourseLength: 300, Time: 100}},
		TargetGroundSpeed: 2,
	})
	agrees(t, "speed", float64(r.GroundSpeed), 400.0/150, 1e-15)
	agrees(t, "length", float64(r.TotalLength), 400, 0)
	agrees(t, "time", float64(r.TotalTime), 150, 0)
	agrees(t, "spread", float64(r.Spread), 0.375, 1e-14)
	agrees(t, "first target", float64(r.TargetTimes[0]), 50, 0)
	agrees(t, "second target", float64(r.TargetTimes[1]), 150, 0)
	if r.Repeatable != finding.Outside || r.RunTolerance != calc.DefaultRunTolerance {
		t.Errorf("repeatable %v by %v", r.Repeatable, r.RunTolerance)
	}
}

// TestReferenceSpreadExactlyOnItsLimit: 100 m in 39 s and in 41 s are 200 m in 80 s,
// 2.5 m/s; the spread is (100/39 - 100/41) / 2.5 = 200/1599/2.5 = 80/1599. A limit
// of as much is kept, one that is a millionth lower is not.
func TestReferenceSpreadExactlyOnItsLimit(t *testing.T) {
	for _, c := range []struct {
		limit unit.Ratio
		want  finding.Verdict
	}{{80.0 / 1599, finding.Within}, {80.0 / 1599 * (1 - 1e-6), finding.Outside}} {
		for _, metre := range []unit.Length{unit.Metre, unit.Foot, unit.Yard} {
			r := mustGroundSpeed(t, calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: 100 * metre, Time: 39}, {CourseLength: 100 * metre, Time: 41}}, RunTolerance: c.limit})
			if r.Repeatable != c.want {
				t.Errorf("spread %v against %v: %v", r.Spread, c.limit, r.Repeatable)
			}
		}
	}
}

// TestReferenceGroundSpeedWarnings: one run; 19.9 s; 0.9 and 21 mph, which is 88 ft
// a minute for each mph.
func TestReferenceGroundSpeedWarnings(t *testing.T) {
	for _, c := range []struct {
		runs []calc.Run
		want string
	}{
		{[]calc.Run{{CourseLength: 100 * unit.Foot, Time: 25}}, "runs: single_run"},
		{[]calc.Run{{CourseLength: 100 * unit.Foot, Time: 20}, {CourseLength: 100 * unit.Foot, Time: 19.9}}, "runs[1].time: short_run"},
		{[]calc.Run{{CourseLength: 0.9 * 88 * unit.Foot, Time: 60}, {CourseLength: 3 * 88 * unit.Foot, Time: 60}}, "runs[0].courseLength: unusual_speed"},
		{[]calc.Run{{CourseLength: 3 * 88 * unit.Foot, Time: 60}, {CourseLength: 21 * 88 * unit.Foot, Time: 60}}, "runs[1].courseLength: unusual_speed"},
	} {
		r := mustGroundSpeed(t, calc.GroundSpeedInput{Runs: c.runs})
		if got := warned(r.Warnings); got != c.want {
			t.Errorf("%v: warned of %q, want %q", c.runs, got, c.want)
		}
		if len(c.runs) == 1 && (r.Repeatable != finding.NotJudged || r.Spread != 0) {
			t.Errorf("one run was judged: %v, %v", r.Repeatable, r.Spread)
		}
	}
}

// TestPropertyGroundSpeed: order does not matter, the speed lies between the runs,
// double the time is half the speed and the same spread.
func TestPropertyGroundSpeed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(t, "n")
		in, back, slow := calc.GroundSpeedInput{}, calc.GroundSpeedInput{}, calc.GroundSpeedInput{}
		for range n {
			run := calc.Run{
				CourseLength: unit.Length(rapid.Float64Range(5, 500).Draw(t, "length")),
				Time:         unit.Time(rapid.Float64Range(5, 500).Draw(t, "time")),
			}
			in.Runs = append(in.Runs, run)
			back.Runs = append([]calc.Run{run}, back.Runs...)
			slow.Runs = append(slow.Runs, calc.Run{CourseLength: run.CourseLength, Time: 2 * run.Time})
		}
		r, b, s := mustGroundSpeed(t, in), mustGroundSpeed(t, back), mustGroundSpeed(t, slow)
		agrees(t, "backwards", float64(b.GroundSpeed), float64(r.GroundSpeed), 1e-12)
		agrees(t, "half", float64(s.GroundSpeed), float64(r.GroundSpeed)/2, 1e-12)
		if d := math.Abs(float64(b.Spread - r.Spread)); d > 1e-9 {
			t.Errorf("the spread changed by %v with the order", d)
		}
		if d := math.Abs(float64(s.Spread - r.Spread)); d > 1e-9 {
			t.Errorf("the spread changed by %v with the time", d)
		}
		low, high := r.Runs[0], r.Runs[0]
		for _, v := range r.Runs {
			low, high = min(low, v), max(high, v)
		}
		if r.GroundSpeed < low*(1-1e-12) || r.GroundSpeed > high*(1+1e-12) {
			t.Errorf("%v is not between %v and %v", r.GroundSpeed, low, high)
		}
	})
}

func TestGroundSpeedRefuses(t *testing.T) {
	good := calc.Run{CourseLength: 30, Time: 25}
	for want, in := range map[string]calc.GroundSpeedInput{
		"runs: too_few":                             {},
		"runs[1].courseLength: required":            {Runs: []calc.Run{good, {Time: 25}}},
		"runs[1].courseLength: not_positive":        {Runs: []calc.Run{good, {CourseLength: -1, Time: 25}}},
		"runs[1].courseLength: not_finite":          {Runs: []calc.Run{good, {CourseLength: unit.Length(noNumber), Time: 25}}},
		"runs[1].time: required":                    {Runs: []calc.Run{good, {CourseLength: 30}}},
		"runs[0].time: not_positive":                {Runs: []calc.Run{{CourseLength: 30, Time: -1}, good}},
		"runs[0].time: not_finite":                  {Runs: []calc.Run{{CourseLength: 30, Time: unit.Time(endless)}, good}},
		"runTolerance: not_positive":                {Runs: []calc.Run{good}, RunTolerance: -1},
		"runTolerance: not_finite":                  {Runs: []calc.Run{good}, RunTolerance: unit.Ratio(noNumber)},
		"targetGroundSpeed: not_positive":           {Runs: []calc.Run{good}, TargetGroundSpeed: -1},
		"targetGroundSpeed: not_finite":             {Runs: []calc.Run{good}, TargetGroundSpeed: unit.Speed(endless)},
		"runs: too_few; runTolerance: not_positive": {RunTolerance: -1},
	} {
		if _, err := calc.GroundSpeed(in); refusal(err) != want {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
}

// 200 ft in 45 s is printed as 3 mph. Sprayer calibration, turf fact sheet,
// Oklahoma State University, http://www.turf.okstate.edu/FactSheets/sprayer.htm
func ExampleGroundSpeed() {
	r, err := calc.GroundSpeed(calc.GroundSpeedInput{
		Runs: []calc.Run{{CourseLength: 200 * unit.Foot, Time: 45 * unit.Second}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mph\n", r.GroundSpeed.In(unit.MilePerHour))
	// Output: 3 mph
}

// TestReferenceGroundSpeedOneWay: runs that are all known to go one way are warned
// of; common practice is one in each direction, no published source.
func TestReferenceGroundSpeedOneWay(t *testing.T) {
	run := func(d calc.Direction) calc.Run {
		return calc.Run{CourseLength: 100 * unit.Foot, Time: 25 * unit.Second, Direction: d}
	}
	for name, c := range map[string]struct {
		runs []calc.Run
		want int
	}{
		"both ways":   {[]calc.Run{run(calc.Out), run(calc.Back)}, 0},
		"one way":     {[]calc.Run{run(calc.Back), run(calc.Back)}, 1},
		"one unknown": {[]calc.Run{run(calc.Out), run(calc.DirectionUnknown)}, 0},
		"all unknown": {[]calc.Run{run(calc.DirectionUnknown), run(calc.DirectionUnknown)}, 0},
	} {
		r, err := calc.GroundSpeed(calc.GroundSpeedInput{Runs: c.runs})
		if err != nil || len(r.Warnings) != c.want || c.want == 1 && r.Warnings[0].Code != calc.WarnOneDirection {
			t.Errorf("%s: %v %v", name, r.Warnings, err)
		}
	}
}

// TestGroundSpeedOfTheFastestRun: 264 ft in 9 s are 20 mph exactly, since 88 ft/min are 1 mph.
func TestGroundSpeedOfTheFastestRun(t *testing.T) {
	r := mustGroundSpeed(t, calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: 264 * unit.Foot, Time: 9}}})
	if got := warned(r.Warnings); got != "runs[0].time: short_run; runs: single_run" {
		t.Errorf("warned of %q", got)
	}
}

// TestGroundSpeedAtTheEdges: exactly 1 and 20 mph are usual, just beyond is not.
func TestGroundSpeedAtTheEdges(t *testing.T) {
	at := func(v unit.Speed) calc.Run { return calc.Run{CourseLength: unit.Length(v) * 32, Time: 32} }
	for mph, want := range map[float64]string{
		1: "runs: single_run", 20: "runs: single_run",
		0.999: "runs[0].courseLength: unusual_speed; runs: single_run", 20.01: "runs[0].courseLength: unusual_speed; runs: single_run",
	} {
		r := mustGroundSpeed(t, calc.GroundSpeedInput{Runs: []calc.Run{at(unit.Speed(mph) * unit.MilePerHour)}})
		if got := warned(r.Warnings); got != want {
			t.Errorf("%v mph: warned of %q, want %q", mph, got, want)
		}
	}
	out := at(3)
	out.Direction = calc.Out
	if got := warned(mustGroundSpeed(t, calc.GroundSpeedInput{Runs: []calc.Run{out}}).Warnings); got != "runs: single_run" {
		t.Errorf("one run with a direction: %q", got)
	}
}
