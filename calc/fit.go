package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// Instruments that are listed are fit to judge by when half a mark, by which a reading may be
// off, is at most a quarter of what lies between the lowest and the highest reading in order. A
// longer catch or course makes the same mark a smaller share. Common practice is one to four, no
// published source.

// Warnings of instruments whose marks are too coarse for what they are to tell.
const (
	WarnCatchTooShort  = "catch_too_short" // for the marks of jug or stopwatch
	WarnRunTooShort    = "run_too_short"   // for those of the stopwatch
	WarnGaugeTooCoarse = "gauge_too_coarse"
)

// fit is how long a catch has to be for the marks of jug and stopwatch, to the next five
// seconds; zero where they are fit.
func (r *NozzleAcceptanceResult) fit(in *NozzleAcceptanceInput) (longer unit.Time) {
	if len(in.Measuring.Instruments) == 0 {
		return 0
	}
	for i := range in.Catches {
		c, x := &in.Catches[i], &r.Catches[i]
		between := float64(x.AcceptableVolume.High - x.AcceptableVolume.Low)
		if c.Volume == 0 || between <= 0 || x.AcceptableVolume.Low == 0 {
			continue
		}
		whole := float64(x.AcceptableVolume.High+x.AcceptableVolume.Low) / 2
		jug, stopwatch := in.Measuring.Mark(certainty.Jug, c.Jug), in.Measuring.Mark(certainty.Stopwatch, c.Stopwatch)
		times := 2 * max(jug, stopwatch/float64(c.Time)*whole) / between
		if !finding.AtMost(times, 1) {
			longer = max(longer, unit.Time(5*math.Ceil(times*float64(c.Time)/5-finding.Slack)))
		}
	}
	return longer
}

// fit is how long a course has to be for the marks of the stopwatch; zero where they are fit.
func (r *GroundSpeedResult) fit(in *GroundSpeedInput) (longer unit.Length) {
	if len(in.Measuring.Instruments) == 0 || len(in.Runs) < 2 {
		return 0
	}
	for i := range in.Runs {
		run := &in.Runs[i]
		if least := 2 * in.Measuring.Mark(certainty.Stopwatch, run.Stopwatch) / float64(r.RunTolerance); !finding.AtMost(least/float64(run.Time), 1) {
			longer = max(longer, unit.Length(float64(run.CourseLength)*least/float64(run.Time)))
		}
	}
	return longer
}

// coarse tells that the marks of a gauge are too coarse for what the boom may differ by.
func (r *PressureUniformityResult) coarse(in *PressureUniformityInput) bool {
	if len(in.Measuring.Instruments) == 0 || len(in.Readings) < 2 {
		return false
	}
	for i := range in.Readings {
		if !finding.AtMost(2*in.Measuring.Mark(certainty.Gauge, in.gauge(i))/float64(r.MaxDifference), 1) {
			return true
		}
	}
	return false
}
