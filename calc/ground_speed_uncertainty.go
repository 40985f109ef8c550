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

	scatter certainty.Scatter     // of the runs
	errors  certainty.Propagation // of the mean by the scales of the instruments
}

// uncertainty works out how well the speeds are known. The speed is total length over
// total time, so scale errors weigh by the shares of length and time. The scatter of
// the runs, pooled with the prior, has the readings of tape and stopwatch in it, by what they
// add to the total length and time:
//
//	u^2 = s_p^2 x sum of (t_i / t)^2 + scale of tape and of stopwatch
//
// The spread follows the readings of the fastest and the slowest run alone, and of the
// scales only where the two were measured with different instruments.
//
// Source: GUM 4.2 (scatter), 4.3.7 (scales and readings), 5.1.2 and 5.2.2; the prior is
// own judgement.
func (r *GroundSpeedResult) uncertainty(in GroundSpeedInput) *GroundSpeedUncertainty {
	e := in.Measuring.Evaluate()
	u := &GroundSpeedUncertainty{Runs: make([]certainty.Uncertainty, len(in.Runs))}
	n := float64(len(in.Runs))
	fastest, slowest := 0, 0
	var read certainty.Propagation // of the mean by the readings of the instruments
	var sum, squares float64
	for i := range in.Runs {
		run := &in.Runs[i]
		own := run.errors(e, 1)
		u.Runs[i] = own.Uncertainty(e, float64(r.Runs[i]))
		length, time := float64(run.CourseLength/r.TotalLength), float64(run.Time/r.TotalTime)
		u.errors.AddScale(e.Instrument(certainty.Tape, run.Tape), length)
		u.errors.AddScale(e.Instrument(certainty.Stopwatch, run.Stopwatch), -time)
		squares += time * time
		read.AddReading(e.Instrument(certainty.Tape, run.Tape), length, float64(run.CourseLength))
		read.AddReading(e.Instrument(certainty.Stopwatch, run.Stopwatch), time, float64(run.Time))
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
	var observed float64
	for _, v := range r.Runs {
		d := (float64(v) - sum) / float64(r.GroundSpeed)
		observed += d * d / math.Max(n-1, 1)
	}
	u.scatter = in.Measuring.Repeatability.Runs.OrDefault(certainty.DefaultRunsPrior).Pool(read.ReadingVariance()/squares, observed, len(in.Runs), squares, 0, 0)
	b := certainty.Budget{certainty.SourceRuns: u.scatter.Component()}
	u.GroundSpeed = b.Combine(float64(r.GroundSpeed), u.errors.AddTo(&b, e)).WithParts(e, &u.errors, &u.scatter, nil)
	if len(in.Runs) > 1 {
		r.spreadUncertainty(in, u, e, fastest, slowest)
	}
	return u
}

// errors is how the speed of one run, times c, follows its tape and its stopwatch. A course
// that several runs share counts as read anew each time: nobody says whether it was, and
// its reading is a tenth of the stopwatch's.
func (run *Run) errors(e *certainty.Evaluation, c float64) (p certainty.Propagation) {
	p.AddMeasured(e.Instrument(certainty.Tape, run.Tape), c, float64(run.CourseLength))
	p.AddMeasured(e.Instrument(certainty.Stopwatch, run.Stopwatch), -c, float64(run.Time))
	return p
}

// spreadUncertainty judges the spread, (v_max - v_min) / v, of which the mean in the
// denominator carries scale errors only.
func (r *GroundSpeedResult) spreadUncertainty(in GroundSpeedInput, u *GroundSpeedUncertainty, e *certainty.Evaluation, fastest, slowest int) {
	p := in.Runs[fastest].errors(e, float64(r.Runs[fastest]/r.GroundSpeed))
	low := in.Runs[slowest].errors(e, -float64(r.Runs[slowest]/r.GroundSpeed))
	p.Add(1, &low)
	p.Add(-float64(r.Spread), &u.errors)
	p.DropCancelled()
	u.Spread = p.Uncertainty(e, 1)
	u.Repeatable.Judge(float64(r.Spread), &u.Spread, certainty.Unlimited, float64(r.RunTolerance), certainty.Repeats{Readings: certainty.MeasureRuns, Lengths: certainty.MeasureRuns, Spread: true})
}
