package calc

import (
	"slices"

	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// FieldSheetInput is everything that was measured on a wet run. Any part may be
// missing; it is then reported as not done.
type FieldSheetInput struct {
	Machine Machine
	Nozzle  Nozzle
	// Maintenance is what was seen by eye, bed by bed. It and AreaCheck are extras:
	// a sheet without them can be ready, one on which they fail cannot.
	Maintenance SheetMaintenance
	Pressure    PressureUniformityInput // its PressureRange is taken from Nozzle
	Output      SheetOutput
	Speed       GroundSpeedInput
	Target      SheetTarget
	Limits      CorrectionLimits
	// RelativeDensity is that of the spray liquid; the catches are of water. Zero
	// stands for a liquid as dense as water.
	RelativeDensity unit.Ratio
	RateController  bool
	// DutyCycle is the share of the time that pulsing nozzles were open for the catches, as
	// they will be when they spray. Zero when they do not pulse.
	DutyCycle unit.Ratio
	// Planning is what could be changed beside speed and pressure, as Corrections
	// takes it; what was measured, the target and the limits are filled in. Nil for
	// speed and pressure alone.
	Planning *CorrectionsInput
	// AreaCheck is what the tank lost, held against the rate that flow and speed
	// give, on the basis of the target. Its expected rate is filled in.
	AreaCheck AreaCheckInput
	Cost      SheetCost
	// Overdue tells that the sprayer has been used since for as long as it may be: what
	// was measured holds no longer.
	Overdue bool
	// Measuring is what all of it was measured with; the parts have none of their own.
	Measuring certainty.Measuring
	// Sides are those that the boom has; nil stands for all three.
	Sides []certainty.Position
	// Confirmed are entries, or lists of them, that were asked about and are right.
	Confirmed []finding.Place
	// Typed tells the unit that an entry was typed in, for slips of the unit. It may be nil.
	Typed interface{ TypedIn(finding.Place) unit.ID }
}

// FewestReadings is what a sheet needs of a boom: left, center and right. Common practice, no
// published source. How many catches it needs tells certainty.CatchesNeeded.
const FewestReadings = 3

// WarnOtherPressure: the catches are said to be at a pressure that the boom, as read,
// is further from than its readings may be from each other.
const WarnOtherPressure = "other_pressure"

// SheetMaintenance is what was seen by eye.
type SheetMaintenance struct{ Beds []BedInspection }

// SheetCost is what the mix costs, in any currency per square metre, and the area
// that is planned. Zero when not given.
type SheetCost struct {
	PerArea float64
	Area    unit.Area
}

// Machine is what the rate needs to know of the sprayer: the width per nozzle, or
// beds of a width with so many nozzles each.
type Machine struct {
	SprayedWidthPerNozzle unit.Length
	BedWidth              unit.Length
	NozzlesPerBed         int
	Beds                  int         // that one pass covers; zero when not known
	RowSpacing            unit.Length // of beds, centre to centre; zero when the whole width is treated
	Tape                  string      // that measured them; see Measuring
}

// SheetOutput is the round of catches.
type SheetOutput struct {
	// SprayPressure at the catches. Zero stands for the mean of the readings.
	SprayPressure     unit.Pressure
	Gauge             string // that SprayPressure was read from
	Catches           []AcceptanceCatch
	Tolerance         OutputTolerance
	CatchPointsOnBoom int
	ReplaceAllAbove   unit.Ratio
	ReplaceAllFrom    int
}

// SheetTarget is the rate that is wanted.
type SheetTarget struct {
	ApplicationRate unit.ApplicationRate
	RateTolerance   unit.Ratio
	RateBasis       RateBasis
	LabelMaximum    unit.ApplicationRate
	LabelMinimum    unit.ApplicationRate
}

// PartStatus tells how one part of the sheet came out.
type PartStatus string

const (
	NotDone PartStatus = "not_done" // nothing to judge, or not enough
	Passed  PartStatus = "passed"
	Failed  PartStatus = "failed"
)

// Words lists every status.
func (PartStatus) Words() []string { return finding.WordsOf([]PartStatus{NotDone, Passed, Failed}) }

// FieldSheetResult is every part's result, the overall verdict and what to do.
// A part's result is nil when the part was not done.
type FieldSheetResult struct {
	MaintenanceStatus, PressureStatus, OutputStatus, SpeedStatus, RateStatus, AreaCheckStatus PartStatus

	Maintenance []InspectionDecision // per bed
	Pressure    *PressureUniformityResult
	Output      *NozzleAcceptanceResult
	Speed       *GroundSpeedResult
	Rate        *ApplicationRateResult
	Correction  *CorrectionsResult // nil unless the rate failed or was made outside some limit
	AreaCheck   *AreaCheckResult
	// SpeedInLimits and PressureInLimits hold what was measured to Limits; NotJudged
	// without them. TankOverLabel tells that the tank says a rate over the label's maximum.
	SpeedInLimits, PressureInLimits finding.Verdict
	TankOverLabel                   bool
	// CaughtInRange holds the pressures of the catches to the range of the nozzle, and
	// OtherPressure tells that one is further from that of the boom, as read, than its
	// readings may be from each other.
	CaughtInRange finding.Verdict
	OtherPressure bool
	// CostPerArea and CostTotal are what the deviation costs; see DeviationCost.
	HasCost                bool
	CostPerArea, CostTotal float64

	// MoreToSettle is how many more catches, all in order, would settle what those of a sheet
	// that passes leave open; see certainty.SamplingInput.
	MoreToSettle int

	Doubts  []Doubt // entries to be asked about first
	Verdict SheetVerdict
	Steps   []Step

	doubted                    part // what rests on them
	unreadSides, uncaughtSides []certainty.Position
	unevenFlow                 bool // the pressures make nozzles differ by more than they may
	moreCatches                int  // all in order, until they speak for the boom
	labelOpen                  bool // whether the rate keeps the label's maximum is not sure
}

// SheetVerdict is the overall verdict. A sheet with a part not done is never ready.
type SheetVerdict string

const (
	Incomplete SheetVerdict = "incomplete"
	Ready      SheetVerdict = "ready"
	NotReady   SheetVerdict = "not_ready"
)

// Words lists every verdict.
func (SheetVerdict) Words() []string {
	return finding.WordsOf([]SheetVerdict{Incomplete, Ready, NotReady})
}

// FieldSheet runs the whole job in its order: pressure along the boom, the output
// of each catch at the working pressure, the ground speed, the rate per area, and
// where the rate is out, what to change. What follows from it stands in order, the one list
// of the rules of judgement.
//
// The working pressure is Output.SprayPressure or else the mean of the readings.
// The rate comes from the mean flow of one nozzle that was caught, brought to the
// liquid by q / sqrt(rd), the ground speed and the width per nozzle. When no
// pressure is known the catches are compared with their own mean.
//
// A verdict that could go either way is taken with uncertainties, whether or not they were
// asked for, and the result then has them.
//
// The error is finding.Invalid. Its places, and those of the warnings of all parts, are
// where a sheet has what its parts speak of; see placesOfPressure and the others.
//
// Source: the order of the job and the rules of the steps are common practice, no
// published source; the arithmetic is that of the functions named.
func FieldSheet(in FieldSheetInput) (FieldSheetResult, error) {
	r, err := fieldSheet(&in)
	if err != nil || in.Measuring.Uncertainty || !r.couldGoEitherWay(&in) {
		return r, err
	}
	in.Measuring.Uncertainty = true
	sure, err := fieldSheet(&in)
	if err != nil { // instruments that have to be named for it
		return r, nil
	}
	return sure, nil
}

func fieldSheet(in *FieldSheetInput) (FieldSheetResult, error) {
	r := FieldSheetResult{
		MaintenanceStatus: NotDone, PressureStatus: NotDone, OutputStatus: NotDone,
		SpeedStatus: NotDone, RateStatus: NotDone, AreaCheckStatus: NotDone,
	}
	if v := r.measure(in); len(v) > 0 {
		return FieldSheetResult{}, v
	}
	if err := r.rate(in); err != nil {
		return FieldSheetResult{}, err
	}
	r.doubts(in)
	if err := r.judge(in); err != nil {
		return FieldSheetResult{}, err
	}
	if err := r.correct(in); err != nil {
		return FieldSheetResult{}, err
	}
	r.conclude(in)
	r.placeWarnings(in)
	return r, nil
}

// measure works out each part from what was measured.
func (r *FieldSheetResult) measure(in *FieldSheetInput) (v finding.Invalid) {
	in.Pressure.PressureRange = in.Nozzle.PressureRange
	in.Pressure.Measuring, in.Speed.Measuring = in.Measuring, in.Measuring
	if len(in.Maintenance.Beds) > 0 {
		decisions, open, err := VisualInspection(in.Maintenance.Beds)
		addPart(&v, err, placesOfMaintenance)
		r.Maintenance, r.MaintenanceStatus = decisions, passedIf(!open)
	}
	all := new(struct { // one piece of memory
		pressure PressureUniformityResult
		output   NozzleAcceptanceResult
		speed    GroundSpeedResult
	})
	var err error
	if len(in.Pressure.Readings) > 0 {
		all.pressure, err = PressureUniformity(in.Pressure)
		addPart(&v, err, placesOfPressure)
		r.Pressure = &all.pressure
	}
	if len(in.Output.Catches) > 0 {
		all.output, err = NozzleAcceptance(in.acceptance(r.Pressure))
		addPart(&v, err, placesOfOutput)
		r.Output = &all.output
	}
	if len(in.Speed.Runs) > 0 {
		all.speed, err = GroundSpeed(in.Speed)
		addPart(&v, err, placesOfSpeed)
		r.Speed = &all.speed
	}
	for _, x := range in.check() {
		addNew(&v, x)
	}
	return v
}

// acceptance is the round of catches as NozzleAcceptance takes it.
func (in *FieldSheetInput) acceptance(pressure *PressureUniformityResult) NozzleAcceptanceInput {
	a := NozzleAcceptanceInput{
		Nozzle: in.Nozzle, SprayPressure: in.Output.SprayPressure, Catches: in.Output.Catches,
		Tolerance: in.Output.Tolerance, CatchPointsOnBoom: in.Output.CatchPointsOnBoom, ReplaceAllAbove: in.Output.ReplaceAllAbove,
		ReplaceAllFrom:   in.Output.ReplaceAllFrom,
		ReferenceChecked: slices.ContainsFunc(in.Confirmed, func(p finding.Place) bool { return p.Part() == "nozzle" }),
		Gauge:            in.Output.Gauge, Measuring: in.Measuring, DutyCycle: in.DutyCycle,
	}
	if a.SprayPressure == 0 && pressure != nil {
		a.SprayPressure = pressure.Mean
		if pressure.Mean == 0 { // refused: any stands in for it, or the catches would be said to have none
			a.SprayPressure = unit.Bar
		}
		if pressure.Uncertainty != nil {
			a.pressureErrors = &pressure.Uncertainty.mean
		}
	}
	if _, highest, _ := a.pressures(); highest == 0 && a.Tolerance.Basis == DefaultBasis && !a.Tolerance.own() && len(a.Catches) > 1 {
		a.Nozzle = Nozzle{} // nothing to move its rating to: the mean has to do
	}
	return a
}
