package calc

import (
	"math"

	"wetrun/calc/certainty"
)

// GroundSpeedUncertainty is how well the speeds are known.
type GroundSpeedUncertainty struct {
	GroundSpeed certainty.Uncertainty
	// Runs are of the speed of each run, by its instruments alone.
	Runs   []certainty.Uncertainty
	Spread certainty.Uncertainty // zero for one run
	// Repeatable is the probability that the spread truly is within RunTolerance.
	Repeatable certainty.Conformity

	scatter certainty.Scatter     // of one run
	errors  certainty.Propagation // of the mean by the scales of the instruments
	weights float64               // sum of squared shares of the time
}

// uncertainty works out how well the speeds are known. The speed is total length over
// total time, so scale errors weigh by the shares of length and time. The scatter of
// the runs, pooled with the prior, has the readings of tape and stopwatch in it:
//
//	u^2 = s_p^2 x sum of (t_i / t)^2 + scale of tape and of stopwatch
//
// The spread follows the readings of the fastest and the slowest run alone, and of the
// scales only where the two were measured with different instruments.
//
// Source: GUM 4.2 (scatter), 4.3.7 (scales and readings), 5.1.2 and 5.2.2; the prior is
// own judgement.
func (r *GroundSpeedResult) uncertainty(in GroundSpeedInput) *GroundSpeedUncertainty {
	x := in.Measuring.Errors()
	u := &GroundSpeedUncertainty{Runs: make([]certainty.Uncertainty, len(in.Runs))}
	n := float64(len(in.Runs))
	fastest, slowest := 0, 0
	var readings, sum float64
	for i := range in.Runs {
		run := &in.Runs[i]
		own := run.errors(x, 1)
		u.Runs[i] = own.Uncertainty(x, float64(r.Runs[i]))
		length, time := float64(run.CourseLength/r.TotalLength), float64(run.Time/r.TotalTime)
		u.errors.Scale[x.Slot(certainty.Tape, run.Tape)] += length
		u.errors.Scale[x.Slot(certainty.Stopwatch, run.Stopwatch)] -= time
		u.weights += time * time
		readings += (own.Reading[certainty.Tape] + own.Reading[certainty.Stopwatch]) / n
		sum += float64(r.Runs[i]) / n
		if r.Runs[i] > r.Runs[fastest] {
			fastest = i
		}
		if r.Runs[i] < r.Runs[slowest] {
			slowest = i
		}
	}
	if fastest == slowest { // equal: any other
		slowest = (fastest + 1) % len(in.Runs)
	}
	var seen float64
	for _, v := range r.Runs {
		d := (float64(v) - sum) / float64(r.GroundSpeed)
		seen += d * d / math.Max(n-1, 1)
	}
	u.scatter = in.Measuring.Repeatability.Runs.Or(certainty.DefaultRunsPrior).Pooled(readings, seen, len(in.Runs))
	var b certainty.Budget
	u.into(&b)
	u.errors.Into(&b, x)
	u.GroundSpeed = certainty.Combine(&b, float64(r.GroundSpeed)).Explained(&u.errors, x, u.runs(x), nil)
	if len(in.Runs) > 1 {
		r.spreadUncertainty(in, u, x, fastest, slowest)
	}
	return u
}

// into adds the scatter of the runs to a budget.
func (u *GroundSpeedUncertainty) into(b *certainty.Budget) {
	b[certainty.SourceRuns] = certainty.Component{Standard: math.Sqrt(u.scatter.Variance * u.weights), DegreesOfFreedom: u.scatter.Freedom}
}

// runs are the parts of the scatter of the runs.
func (u *GroundSpeedUncertainty) runs(x *certainty.Errors) *certainty.ScatterPart {
	if !x.Explain {
		return nil
	}
	return u.scatter.Part(u.weights, 0)
}

// errors is how the speed of one run follows its tape and its stopwatch, times c.
func (run *Run) errors(x *certainty.Errors, c float64) (p certainty.Propagation) {
	p.Add(x, c, x.Slot(certainty.Tape, run.Tape), float64(run.CourseLength))
	p.Add(x, -c, x.Slot(certainty.Stopwatch, run.Stopwatch), float64(run.Time))
	return p
}

// spreadUncertainty judges the spread, (v_max - v_min) / v, of which the mean in the
// denominator carries scale errors only.
func (r *GroundSpeedResult) spreadUncertainty(in GroundSpeedInput, u *GroundSpeedUncertainty, x *certainty.Errors, fastest, slowest int) {
	p := in.Runs[fastest].errors(x, float64(r.Runs[fastest]/r.GroundSpeed))
	low := in.Runs[slowest].errors(x, -float64(r.Runs[slowest]/r.GroundSpeed))
	p.Plus(1, &low)
	scales := u.errors
	scales.Reading, scales.Parts = [certainty.InstrumentKinds]float64{}, nil
	p.Plus(-float64(r.Spread), &scales)
	p.Settle()
	u.Spread = p.Uncertainty(x, 1)
	u.Repeatable.Judge(float64(r.Spread), &u.Spread, certainty.Unlimited, float64(r.RunTolerance), certainty.Repeats{Readings: certainty.MeasureRuns, Lengths: certainty.MeasureRuns, Spread: true})
}
