package calc

import (
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A Run is one timed pass over a measured course.
type Run struct {
	CourseLength unit.Length
	Time         unit.Time
	Direction    Direction
	// Tape and Stopwatch name the instruments; see Measuring.
	Tape, Stopwatch string
}

// Direction is which way along the course a run went.
type Direction string

// The directions of a course.
const (
	DirectionUnknown Direction = ""
	Out              Direction = "out"
	Back             Direction = "back"
)

// Words lists the directions.
func (Direction) Words() []string { return finding.WordsOf([]Direction{Out, Back}) }

// GroundSpeedInput is what a crew times.
type GroundSpeedInput struct {
	// Runs holds at least one run. Two, one in each direction, even out slope
	// and wind.
	Runs []Run
	// RunTolerance is the spread that still counts as repeatable. Zero stands
	// for DefaultRunTolerance.
	RunTolerance unit.Ratio
	// TargetGroundSpeed, when given, asks for the time each course should take.
	TargetGroundSpeed unit.Speed
	Measuring         certainty.Measuring
}

// GroundSpeedResult is the speed and how well the runs agree.
type GroundSpeedResult struct {
	GroundSpeed  unit.Speed      // total length over total time
	TotalLength  unit.Length     // of all runs
	TotalTime    unit.Time       // of all runs
	Runs         []unit.Speed    // in the order of the input
	TargetTimes  []unit.Time     // per run, empty without a target speed
	Spread       unit.Ratio      // (fastest - slowest) / GroundSpeed; 0 for one run
	RunTolerance unit.Ratio      // the one applied
	Repeatable   finding.Verdict // NotJudged for one run
	Warnings     []finding.Warning

	// RunLonger is how long a course to time for the marks of the stopwatch; zero where they are
	// fit.
	RunLonger unit.Length

	Uncertainty *GroundSpeedUncertainty // nil unless asked for
}

// Warning codes of GroundSpeed.
const (
	WarnSingleRun    = "single_run"    // one run cannot show whether it was repeatable
	WarnOneDirection = "one_direction" // all runs went the same way: slope and wind stay in
	WarnShortRun     = "short_run"     // under ShortRun: reaction time weighs too much
	WarnUnusualSpeed = "unusual_speed" // outside 1 to 20 mph
)

// ShortRun is the time below which a run is warned of: a reaction time of 0.2 s
// at each end is then over 1 %. From memory.
const ShortRun = 20 * unit.Second

// Speeds outside which a field sprayer hardly works. Common practice, no
// published source.
const (
	leastSpeed = 1 * unit.MilePerHour
	mostSpeed  = 20 * unit.MilePerHour
)

// GroundSpeed returns the mean ground speed over timed runs,
//
//	v = sum of lengths / sum of times
//
// and the spread of the runs, (v_max - v_min) / v, as a fraction. Lengths are in
// metres and times in seconds inside; both must be finite and above zero, and
// there must be at least one run: finding.Invalid otherwise, with codes required,
// not_positive, not_finite, too_few.
//
// Source: mph = ft x 60 / (s x 88), Oklahoma State University turf fact sheet;
// km/h = m x 3.6 / s, see testdata/published/ground-speed. The mean over total
// length and total time, and the spread, are common practice.
func GroundSpeed(in GroundSpeedInput) (GroundSpeedResult, error) {
	if err := in.check(); err != nil {
		return GroundSpeedResult{}, err
	}
	r := GroundSpeedResult{RunTolerance: in.RunTolerance, Runs: make([]unit.Speed, len(in.Runs))}
	if r.RunTolerance == 0 {
		r.RunTolerance = DefaultRunTolerance
	}
	if in.TargetGroundSpeed != 0 {
		r.TargetTimes = make([]unit.Time, len(in.Runs))
	}
	var low, high unit.Speed
	for i, run := range in.Runs {
		v := unit.Speed(float64(run.CourseLength) / float64(run.Time))
		r.Runs[i] = v
		r.TotalLength += run.CourseLength
		r.TotalTime += run.Time
		if i == 0 || v < low {
			low = v
		}
		if v > high {
			high = v
		}
		if in.TargetGroundSpeed != 0 {
			r.TargetTimes[i] = unit.Time(float64(run.CourseLength) / float64(in.TargetGroundSpeed))
		}
		if run.Time < ShortRun {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("runs", i).Member("time"), Code: WarnShortRun})
		}
		if unusualSpeed(v) {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("runs", i).Member("courseLength"), Code: WarnUnusualSpeed})
		}
	}
	r.GroundSpeed = unit.Speed(float64(r.TotalLength) / float64(r.TotalTime))
	switch {
	case len(in.Runs) == 1:
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("runs"), Code: WarnSingleRun})
	default:
		if in.oneWay() {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("runs"), Code: WarnOneDirection})
		}
		r.Spread = unit.Ratio(finding.Difference(float64(high), float64(low)) / float64(r.GroundSpeed))
		r.Repeatable = finding.Judge(float64(r.Spread), float64(r.RunTolerance))
	}
	if r.RunLonger = r.fit(&in); r.RunLonger != 0 {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("runs"), Code: WarnRunTooShort})
	}
	if in.Measuring.Uncertainty {
		r.Uncertainty = r.uncertainty(in)
	}
	return r, nil
}

// unusualSpeed tells whether a speed lies outside leastSpeed to mostSpeed. One that was
// solved to be exactly on an end is usual.
func unusualSpeed(v unit.Speed) bool {
	return !between(float64(v/leastSpeed), 1, float64(mostSpeed/leastSpeed))
}

// oneWay tells whether every run is known to have gone the same way.
func (in GroundSpeedInput) oneWay() bool {
	for _, run := range in.Runs {
		if run.Direction == DirectionUnknown || run.Direction != in.Runs[0].Direction {
			return false
		}
	}
	return true
}

func (in GroundSpeedInput) check() error {
	var v finding.Invalid
	in.Measuring.Check(&v)
	if len(in.Runs) == 0 {
		v.Add(finding.Member("runs"), finding.CodeTooFew)
	}
	for i, run := range in.Runs {
		v.PositiveIn(float64(run.CourseLength), "runs", i, "courseLength")
		v.PositiveIn(float64(run.Time), "runs", i, "time")
		in.Measuring.CheckInstrument(&v, certainty.Tape, run.Tape, func() finding.Place { return finding.Item("runs", i).Member("tape") })
		in.Measuring.CheckInstrument(&v, certainty.Stopwatch, run.Stopwatch, func() finding.Place { return finding.Item("runs", i).Member("stopwatch") })
	}
	v.Optional(float64(in.RunTolerance), finding.Member("runTolerance"))
	v.Optional(float64(in.TargetGroundSpeed), finding.Member("targetGroundSpeed"))
	return v.Err()
}
