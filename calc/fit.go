package calc

import (
	"math"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// fit tells whether instruments that are listed are fine enough to judge by: half a mark, by
// which a reading may be off, is at most a quarter of what lies between the lowest and the
// highest reading in order. A longer catch or course makes the same mark a smaller share.
// Common practice is one to four, no published source.
func (r *FieldSheetResult) fit(in *FieldSheetInput) {
	if len(in.Measuring.Instruments) == 0 {
		return
	}
	if r.Output != nil {
		r.CatchLonger = r.Output.fit(in.Output.Catches, &in.Measuring)
	}
	if r.Speed != nil && len(in.Speed.Runs) > 1 {
		for i := range in.Speed.Runs {
			run := &in.Speed.Runs[i]
			mark := in.Measuring.Mark(certainty.Stopwatch, run.Stopwatch)
			if least := 2 * mark / float64(r.Speed.RunTolerance); least > float64(run.Time)*(1+finding.Slack) {
				r.RunLonger = max(r.RunLonger, unit.Length(float64(run.CourseLength)*least/float64(run.Time)))
			}
		}
	}
	if r.Pressure != nil && len(in.Pressure.Readings) > 1 {
		for i := range in.Pressure.Readings {
			mark := in.Measuring.Mark(certainty.Gauge, in.Pressure.gauge(i))
			r.GaugeTooCoarse = r.GaugeTooCoarse || !finding.AtMost(2*mark/float64(r.Pressure.MaxDifference), 1)
		}
	}
}

// fit is how long a catch has to be for the marks of jug and stopwatch, to the next five
// seconds; zero where they are fit.
func (r *NozzleAcceptanceResult) fit(catches []AcceptanceCatch, by *certainty.Measuring) (longer unit.Time) {
	for i := range catches {
		c, x := &catches[i], &r.Catches[i]
		between := float64(x.AcceptableVolume.High - x.AcceptableVolume.Low)
		if c.Volume == 0 || between <= 0 || x.AcceptableVolume.Low == 0 {
			continue
		}
		whole := float64(x.AcceptableVolume.High+x.AcceptableVolume.Low) / 2
		times := max(2*by.Mark(certainty.Jug, c.Jug)/between, 2*by.Mark(certainty.Stopwatch, c.Stopwatch)/float64(c.Time)*whole/between)
		if !finding.AtMost(times, 1) {
			longer = max(longer, unit.Time(5*math.Ceil(times*float64(c.Time)/5-finding.Slack)))
		}
	}
	return longer
}
