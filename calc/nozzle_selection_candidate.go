package calc

import (
	"cmp"
	"math"
	"slices"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A Candidate is one nozzle and what it would do.
type Candidate struct {
	Size          SizeName // ISO 10625; empty for one of the shelf
	Shelf         int      // in Shelf; -1 for a size
	RatedFlowRate unit.FlowRate
	RatedPressure unit.Pressure
	// PressureRange is the common range, narrowed by the nozzle's own. Zero when
	// the two do not meet.
	PressureRange  PressureRange
	SprayPressure  unit.Pressure // that the rate needs at GroundSpeed
	SprayPressures PressureRange // that it needs at the ends of SpeedRange; both SprayPressure without it
	WithinRange    bool          // SprayPressures lie in PressureRange
	// SpeedWindow is the speeds at which the pressure stays inside PressureRange at
	// the target rate. Zero when there is no such pressure.
	SpeedWindow  SpeedRange
	DropletClass DropletClass    // over SprayPressures
	Droplets     finding.Verdict // NotJudged when no classes were asked for
	Fits         bool            // within range, and droplets not Outside
	Notes        []string        // Note constants

	gap    float64 // how far SprayPressures reach outside the range, as a logarithm
	offset float64 // of SprayPressure from the middle of the range, as a logarithm
}

// Notes on a candidate.
const (
	NoteSourceNotRead     = "source_not_read"           // the rating of the size was read in no source
	NotePressureAbove     = "pressure_above_range"      // at the highest speed
	NotePressureBelow     = "pressure_below_range"      // at the lowest speed
	NoteRangesDoNotMeet   = "ranges_do_not_meet"        // its own range and the common one
	NoteDropletUnknown    = "droplet_class_unknown"     // classes were asked for, and the chart is silent
	NoteDropletNotAllowed = "droplet_class_not_allowed" // the chart names one that was not
)

// candidates are the nozzles to choose from, in the order given.
func (in NozzleSelectionInput) candidates() []Candidate {
	var all []Candidate
	for i, s := range in.Shelf {
		all = append(all, Candidate{
			Shelf: i, RatedFlowRate: s.RatedFlowRate, RatedPressure: s.RatedPressure,
			PressureRange: in.PressureRange.narrowed(s.PressureRange),
		})
	}
	if len(in.Shelf) > 0 {
		return all
	}
	for _, s := range nozzleSizes {
		if len(in.Sizes) == 0 || slices.Contains(in.Sizes, s.Size) {
			c := Candidate{Size: s.Size, Shelf: -1, PressureRange: in.PressureRange}
			c.RatedFlowRate, c.RatedPressure = Nozzle{Size: s.Size, SizeRating: in.SizeRating}.rating()
			if s.SourceNotRead {
				c.Notes = append(c.Notes, NoteSourceNotRead)
			}
			all = append(all, c)
		}
	}
	return all
}

// narrowed is what two ranges share; a zero one leaves the other as it is. Two
// that only touch share the point where they do. Zero when they do not meet.
func (r PressureRange) narrowed(own PressureRange) PressureRange {
	if own == (PressureRange{}) {
		return r
	}
	both := PressureRange{max(r.Low, own.Low), min(r.High, own.High)}
	if !finding.AtMost(float64(both.Low/both.High), 1) {
		return PressureRange{}
	}
	both.High = max(both.High, both.Low)
	return both
}

// work fills in what the candidate would do.
func (c *Candidate) work(in NozzleSelectionInput, r *NozzleSelectionResult, speeds SpeedRange) {
	rd := oneDensity(in.RelativeDensity, in.LiquidDensity)
	needs := func(v unit.Speed) unit.Pressure {
		q := r.flowAt(in, v)
		if rd != 0 {
			q = WaterEquivalent(q, rd)
		}
		return PressureForFlow(c.RatedFlowRate, c.RatedPressure, q, SquareRoot)
	}
	c.SprayPressure = needs(r.GroundSpeed)
	c.SprayPressures = PressureRange{needs(speeds.Low), needs(speeds.High)}
	c.DropletClass, c.Droplets = in.droplets(c, c.SprayPressures)
	if c.PressureRange == (PressureRange{}) {
		c.gap = math.Inf(1)
		c.Notes = append(c.Notes, NoteRangesDoNotMeet)
	} else {
		c.place(in, r)
	}
	c.Fits = c.WithinRange && c.Droplets != finding.Outside
	switch {
	case c.Droplets != finding.Outside:
	case c.DropletClass == DropletClassUnknown:
		c.Notes = append(c.Notes, NoteDropletUnknown)
	default:
		c.Notes = append(c.Notes, NoteDropletNotAllowed)
	}
}

// place holds the candidate against its range.
func (c *Candidate) place(in NozzleSelectionInput, r *NozzleSelectionResult) {
	limits := c.PressureRange
	// The speed is as the root of the pressure.
	reached := func(p unit.Pressure) unit.Speed {
		return r.GroundSpeed * unit.Speed(math.Sqrt(float64(p/c.SprayPressure)))
	}
	c.SpeedWindow = SpeedRange{reached(limits.Low), reached(limits.High)}
	c.offset = math.Abs(math.Log(float64(c.SprayPressure/limits.Low)) - math.Log(float64(limits.High/limits.Low))/2)
	above := limits.holds(c.SprayPressures.High) == finding.Outside && c.SprayPressures.High > limits.High
	below := limits.holds(c.SprayPressures.Low) == finding.Outside && c.SprayPressures.Low < limits.Low
	if above {
		c.gap = math.Log(float64(c.SprayPressures.High / limits.High))
		c.Notes = append(c.Notes, NotePressureAbove)
	}
	if below {
		c.gap = max(c.gap, math.Log(float64(limits.Low/c.SprayPressures.Low)))
		c.Notes = append(c.Notes, NotePressureBelow)
	}
	c.WithinRange = !above && !below
}

// tooLow tells whether the pressure is rather below the range than above it.
func (c *Candidate) tooLow() bool {
	return c.PressureRange.Low/c.SprayPressures.Low > c.SprayPressures.High/c.PressureRange.High
}

// rank puts the best first.
func rank(candidates []Candidate) {
	slices.SortStableFunc(candidates, func(a, b Candidate) int {
		return cmp.Or(
			cmp.Compare(behind(!a.Fits), behind(!b.Fits)),
			cmp.Compare(behind(!a.WithinRange), behind(!b.WithinRange)),
			cmp.Compare(a.gap, b.gap),
			cmp.Compare(a.offset, b.offset),
		)
	})
}
