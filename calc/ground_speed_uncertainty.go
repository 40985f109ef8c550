package calc

import "math"

// GroundSpeedUncertainty is how well the speeds are known.
type GroundSpeedUncertainty struct {
	GroundSpeed Uncertainty
	// Runs are of the speed of each run, by its instruments alone.
	Runs   []Uncertainty
	Spread Uncertainty // zero for one run
	// Repeatable is the probability that the spread truly is within RunTolerance.
	Repeatable Conformity

	scatter scatter     // of one run
	errors  propagation // of the mean by the scales of the instruments
	weights float64     // sum of squared shares of the time
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
	x := in.Measuring.set()
	u := &GroundSpeedUncertainty{Runs: make([]Uncertainty, len(in.Runs))}
	n := float64(len(in.Runs))
	fastest, slowest := 0, 0
	var readings, sum float64
	for i := range in.Runs {
		run := &in.Runs[i]
		own := run.errors(x, 1)
		u.Runs[i] = own.uncertainty(x, float64(r.Runs[i]))
		length, time := float64(run.CourseLength/r.TotalLength), float64(run.Time/r.TotalTime)
		u.errors.scale[x.slot(Tape, run.Tape)] += length
		u.errors.scale[x.slot(Stopwatch, run.Stopwatch)] -= time
		u.weights += time * time
		readings += (own.reading[Tape] + own.reading[Stopwatch]) / n
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
	u.scatter = in.Measuring.Repeatability.Runs.or(DefaultRunsPrior).pooled(readings, seen, len(in.Runs))
	var b Budget
	u.into(&b)
	u.errors.into(&b, x)
	u.GroundSpeed = combine(&b, float64(r.GroundSpeed)).explained(&u.errors, x, u.runs(x), nil)
	if len(in.Runs) > 1 {
		r.spreadUncertainty(in, u, x, fastest, slowest)
	}
	return u
}

// into adds the scatter of the runs to a budget.
func (u *GroundSpeedUncertainty) into(b *Budget) {
	b[SourceRuns] = Component{math.Sqrt(u.scatter.variance * u.weights), u.scatter.freedom}
}

// runs are the parts of the scatter of the runs.
func (u *GroundSpeedUncertainty) runs(x *instruments) *ScatterPart {
	if !x.explain {
		return nil
	}
	return u.scatter.part(u.weights, 0)
}

// errors is how the speed of one run follows its tape and its stopwatch, times c.
func (run *Run) errors(x *instruments, c float64) (p propagation) {
	p.add(x, c, x.slot(Tape, run.Tape), float64(run.CourseLength))
	p.add(x, -c, x.slot(Stopwatch, run.Stopwatch), float64(run.Time))
	return p
}

// spreadUncertainty judges the spread, (v_max - v_min) / v, of which the mean in the
// denominator carries scale errors only.
func (r *GroundSpeedResult) spreadUncertainty(in GroundSpeedInput, u *GroundSpeedUncertainty, x *instruments, fastest, slowest int) {
	p := in.Runs[fastest].errors(x, float64(r.Runs[fastest]/r.GroundSpeed))
	low := in.Runs[slowest].errors(x, -float64(r.Runs[slowest]/r.GroundSpeed))
	p.plus(1, &low)
	scales := u.errors
	scales.reading, scales.parts = [instrumentKinds]float64{}, nil
	p.plus(-float64(r.Spread), &scales)
	p.settle()
	u.Spread = p.uncertainty(x, 1)
	u.Repeatable.judge(float64(r.Spread), &u.Spread, unlimited, float64(r.RunTolerance), repeats{readings: MeasureRuns, lengths: MeasureRuns, spread: true})
}
