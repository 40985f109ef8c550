package calc_test

import (
	"math"
	"strings"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/unit"
)

// TestReferenceCatchLonger, by hand: within 5 % of V the readings in order lie a tenth of V
// apart, of which a quarter is V / 40. Half a mark of the stopwatch, m / 2 of t, is V m / 2t:
// it takes 20 m, to the next five seconds. Where no two ends of the readings are given, or
// both are one, there is nothing to fit, and a dry catch asks for nothing.
func TestReferenceCatchLonger(t *testing.T) {
	stopwatch := func(mark float64) certainty.Instrument {
		return certainty.Instrument{ID: "s", Kind: certainty.Stopwatch, Resolution: mark}
	}
	jug := func(id string, litres float64) certainty.Instrument {
		return certainty.Instrument{ID: id, Kind: certainty.Jug, Resolution: litres * float64(unit.Litre)}
	}
	both := calc.OutputTolerance{Limit: 0.05}
	for name, c := range map[string]struct {
		seconds     unit.Time
		shares      []unit.Volume // of what the rating gives
		tolerance   calc.OutputTolerance
		instruments []certainty.Instrument
		want        unit.Time
	}{
		"marks of 2 s in 30":     {30, []unit.Volume{1, 1}, both, []certainty.Instrument{stopwatch(2)}, 40},
		"marks of 2 s in 36":     {36, []unit.Volume{1, 1}, both, []certainty.Instrument{stopwatch(2)}, 40},
		"marks of 2 s in 40":     {40, []unit.Volume{1, 1}, both, []certainty.Instrument{stopwatch(2)}, 0},
		"marks of 1.6 s in 30":   {30, []unit.Volume{1, 1}, both, []certainty.Instrument{stopwatch(1.6)}, 35},
		"a dry one":              {30, []unit.Volume{1, 0}, both, []certainty.Instrument{jug("fine", 0.001), jug("coarse", 0.5)}, 0},
		"only too much counts":   {60, []unit.Volume{1, 1}, calc.OutputTolerance{Rated: calc.Limits{Above: 0.1}}, []certainty.Instrument{jug("", 1)}, 0},
		"only too little counts": {60, []unit.Volume{1, 1}, calc.OutputTolerance{Rated: calc.Limits{Below: 0.1}}, []certainty.Instrument{jug("", 1)}, 0},
		// Rated 1 and a mean of 11/9: only 1.1 is within 10 % of both.
		"bases that touch": {60, []unit.Volume{11.0 / 9, 11.0 / 9}, calc.OutputTolerance{Limit: 0.1, Basis: calc.BothBases}, []certainty.Instrument{jug("", 0.1)}, 0},
	} {
		in := litreRated(0, c.shares...)
		in.Tolerance, in.Measuring.Instruments = c.tolerance, c.instruments
		for i := range in.Catches {
			in.Catches[i].Volume *= unit.Volume(c.seconds / unit.Minute)
			in.Catches[i].Time = c.seconds
			if len(c.instruments) == 2 {
				in.Catches[i].Jug = c.instruments[i].ID
			}
			if c.instruments[0].Kind == certainty.Jug && len(c.instruments) == 1 {
				in.Measuring.Instruments[0].ID = "j"
			}
		}
		if got := mustAccept(t, in).CatchLonger; math.Abs(float64(got-c.want)) > 1e-9 {
			t.Errorf("%s: %v s, want %v", name, got, c.want)
		}
	}
}

// TestReferenceRunLonger, by hand: runs within 5 % may differ by a twentieth, and marks of 1 s
// take 2 x 1 / 0.05 = 40 s. A course of 100 m in 35 s has to be 100 x 40 / 35 m. One run differs
// from no other, and one reading of a gauge neither.
func TestReferenceRunLonger(t *testing.T) {
	speed := func(seconds unit.Time, runs int) float64 {
		in := calc.GroundSpeedInput{RunTolerance: 0.05}
		for range runs {
			in.Runs = append(in.Runs, calc.Run{CourseLength: 100 * unit.Metre, Time: seconds})
		}
		in.Measuring.Instruments = []certainty.Instrument{{ID: "s", Kind: certainty.Stopwatch, Resolution: 1}}
		return must(calc.GroundSpeed(in)).RunLonger.In(unit.Metre)
	}
	agrees(t, "two of 35 s", speed(35, 2), 100*40.0/35, 1e-12)
	agrees(t, "two of 40 s", speed(40, 2), 0, 0)
	agrees(t, "one of 35 s", speed(35, 1), 0, 0)
	for readings, want := range map[int]bool{1: false, 2: true, 3: true} {
		in := calc.PressureUniformityInput{MaxDifference: 0.1}
		for range readings {
			in.Readings = append(in.Readings, 3*unit.Bar)
		}
		in.Measuring.Instruments = []certainty.Instrument{{ID: "g", Kind: certainty.Gauge, Resolution: float64(unit.Bar)}}
		r, err := calc.PressureUniformity(in)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(warned(r.Warnings), calc.WarnGaugeTooCoarse); got != want {
			t.Errorf("%d readings: warned of %q", readings, warned(r.Warnings))
		}
	}
}
