package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// CalibrationsRequest is the body of POST /v1/calibrations: a whole field sheet.
type CalibrationsRequest struct {
	Label           string          `json:"label,omitzero"`
	Machine         MachineRequest  `json:"machine,omitzero"`
	Nozzle          NozzleRequest   `json:"nozzle,omitzero"`
	Pressure        PressureRequest `json:"pressure,omitzero"`
	Output          OutputRequest   `json:"output,omitzero"`
	Speed           SpeedRequest    `json:"speed,omitzero"`
	Target          TargetRequest   `json:"target,omitzero"`
	Limits          LimitsRequest   `json:"limits,omitzero"`
	RelativeDensity Quantity        `json:"relativeDensity,omitzero"`
	RateController  *bool           `json:"rateController,omitzero"`

	Maintenance MaintenanceRequest `json:"maintenance,omitzero"`
	AreaCheck   TankRequest        `json:"areaCheck,omitzero"`
	Cost        CostRequest        `json:"cost,omitzero"`
	Schedule    ScheduleRequest    `json:"schedule,omitzero"`
	Planning    *PlanningRequest   `json:"planning,omitzero"`
	MeasuringRequest
	Results
}

// MachineRequest is the sprayer, repeated in the answer.
type MachineRequest struct {
	Label                 string   `json:"label,omitzero"`
	TankVolume            Quantity `json:"tankVolume,omitzero"`
	BedsCovered           int      `json:"bedsCovered,omitzero"`
	BedWidth              Quantity `json:"bedWidth,omitzero"`
	NozzlesPerBed         int      `json:"nozzlesPerBed,omitzero"`
	SprayedWidthPerNozzle Quantity `json:"sprayedWidthPerNozzle,omitzero"`
	RowSpacing            Quantity `json:"rowSpacing,omitzero"`
	EngineSpeed           Quantity `json:"engineSpeed,omitzero"`
	Gear                  string   `json:"gear,omitzero"`
	Tape                  string   `json:"tape,omitzero"`
}

// PressureRequest is the pressures along the boom and in the cab.
type PressureRequest struct {
	Readings       []ReadingRequest `json:"readings"`
	CabPressure    Quantity         `json:"cabPressure,omitzero"`
	TargetPressure Quantity         `json:"targetPressure,omitzero"`
	MaxDifference  Quantity         `json:"maxDifference,omitzero"`
}

// OutputRequest is the round of catches.
type OutputRequest struct {
	SprayPressure     Quantity                 `json:"sprayPressure,omitzero"`
	Gauge             string                   `json:"gauge,omitzero"`
	Catches           []AcceptanceCatchRequest `json:"catches"`
	FollowUps         []FollowUpRequest        `json:"followUps,omitzero"`
	Tolerance         ToleranceRequest         `json:"tolerance,omitzero"`
	CatchPointsOnBoom int                      `json:"catchPointsOnBoom,omitzero"`
	ReplaceAllAbove   Quantity                 `json:"replaceAllAbove,omitzero"`
}

// SpeedRequest is the timed runs.
type SpeedRequest struct {
	Runs         []RunRequest `json:"runs"`
	RunTolerance Quantity     `json:"runTolerance,omitzero"`
}

// TargetRequest is the rate that is wanted.
type TargetRequest struct {
	ApplicationRate Quantity `json:"applicationRate"`
	RateTolerance   Quantity `json:"rateTolerance,omitzero"`
	RateBasis       string   `json:"rateBasis,omitzero"`
	LabelMaximum    Quantity `json:"labelMaximum,omitzero"`
}

var machineTable = objectOf(
	label("label", func(m *MachineRequest) *string { return &m.Label }, longestLabel),
	quantity("tankVolume", func(m *MachineRequest) *Quantity { return &m.TankVolume }, unit.KindVolume),
	count("bedsCovered", func(m *MachineRequest) *int { return &m.BedsCovered }, 1, mostBeds),
	quantity("bedWidth", func(m *MachineRequest) *Quantity { return &m.BedWidth }, unit.KindLength),
	count("nozzlesPerBed", func(m *MachineRequest) *int { return &m.NozzlesPerBed }, 1, mostNozzles),
	quantity("sprayedWidthPerNozzle", func(m *MachineRequest) *Quantity { return &m.SprayedWidthPerNozzle }, unit.KindLength),
	quantity("rowSpacing", func(m *MachineRequest) *Quantity { return &m.RowSpacing }, unit.KindLength),
	quantity("engineSpeed", func(m *MachineRequest) *Quantity { return &m.EngineSpeed }, unit.KindRotationalSpeed),
	label("gear", func(m *MachineRequest) *string { return &m.Gear }, longestLabel),
	instrumentID("tape", func(m *MachineRequest) *string { return &m.Tape }),
)

var pressureTable = objectOf(
	require(list("readings", func(p *PressureRequest) *[]ReadingRequest { return &p.Readings }, 1, mostReadings, readingTable)),
	quantity("cabPressure", func(p *PressureRequest) *Quantity { return &p.CabPressure }, unit.KindPressure),
	quantity("targetPressure", func(p *PressureRequest) *Quantity { return &p.TargetPressure }, unit.KindPressure),
	quantity("maxDifference", func(p *PressureRequest) *Quantity { return &p.MaxDifference }, unit.KindPressure),
)

var outputTable = objectOf(
	quantity("sprayPressure", func(o *OutputRequest) *Quantity { return &o.SprayPressure }, unit.KindPressure),
	instrumentID("gauge", func(o *OutputRequest) *string { return &o.Gauge }),
	require(list("catches", func(o *OutputRequest) *[]AcceptanceCatchRequest { return &o.Catches }, 1, mostCatches, acceptanceCatchTable)),
	list("followUps", func(o *OutputRequest) *[]FollowUpRequest { return &o.FollowUps }, 1, mostCatches, followUpTable),
	nested("tolerance", func(o *OutputRequest) *ToleranceRequest { return &o.Tolerance }, toleranceTable),
	count("catchPointsOnBoom", func(o *OutputRequest) *int { return &o.CatchPointsOnBoom }, 1, mostCatchPoints),
	quantity("replaceAllAbove", func(o *OutputRequest) *Quantity { return &o.ReplaceAllAbove }, unit.KindRatio),
)

var speedTable = objectOf(
	require(list("runs", func(s *SpeedRequest) *[]RunRequest { return &s.Runs }, 1, mostRuns, runTable)),
	quantity("runTolerance", func(s *SpeedRequest) *Quantity { return &s.RunTolerance }, unit.KindRatio),
)

var targetTable = objectOf(
	require(quantity("applicationRate", func(t *TargetRequest) *Quantity { return &t.ApplicationRate }, unit.KindApplicationRate)),
	quantity("rateTolerance", func(t *TargetRequest) *Quantity { return &t.RateTolerance }, unit.KindRatio),
	oneOf("rateBasis", func(t *TargetRequest) *string { return &t.RateBasis }, basisTreated, basisField),
	quantity("labelMaximum", func(t *TargetRequest) *Quantity { return &t.LabelMaximum }, unit.KindApplicationRate),
)

var calibrationsTable = objectOf(measuring(func(r *CalibrationsRequest) *MeasuringRequest { return &r.MeasuringRequest },
	label("label", func(r *CalibrationsRequest) *string { return &r.Label }, longestLabel),
	nested("machine", func(r *CalibrationsRequest) *MachineRequest { return &r.Machine }, machineTable),
	nested("nozzle", func(r *CalibrationsRequest) *NozzleRequest { return &r.Nozzle }, nozzleTable),
	nested("pressure", func(r *CalibrationsRequest) *PressureRequest { return &r.Pressure }, pressureTable),
	nested("output", func(r *CalibrationsRequest) *OutputRequest { return &r.Output }, outputTable),
	nested("speed", func(r *CalibrationsRequest) *SpeedRequest { return &r.Speed }, speedTable),
	nested("target", func(r *CalibrationsRequest) *TargetRequest { return &r.Target }, targetTable),
	nested("limits", func(r *CalibrationsRequest) *LimitsRequest { return &r.Limits }, limitsTable),
	quantity("relativeDensity", func(r *CalibrationsRequest) *Quantity { return &r.RelativeDensity }, unit.KindRatio),
	flag("rateController", func(r *CalibrationsRequest) **bool { return &r.RateController }),
	nested("maintenance", func(r *CalibrationsRequest) *MaintenanceRequest { return &r.Maintenance }, maintenanceTable),
	nested("areaCheck", func(r *CalibrationsRequest) *TankRequest { return &r.AreaCheck }, tankTable),
	optional("planning", func(r *CalibrationsRequest) **PlanningRequest { return &r.Planning }, planningTable),
	nested("schedule", func(r *CalibrationsRequest) *ScheduleRequest { return &r.Schedule }, scheduleTable),
	nested("cost", func(r *CalibrationsRequest) *CostRequest { return &r.Cost }, costTable),
	results(func(r *CalibrationsRequest) *Results { return &r.Results }),
	showing(func(r *CalibrationsRequest) *Showing { return &r.Showing }),
)...)

func calibrations(ctx context.Context, r *CalibrationsRequest) (CalibrationsResponse, error) {
	if unread := append(r.Nozzle.unread().Under(finding.Member("nozzle")), unreadDrops(r.Output.Catches).Under(output)...); unread != nil {
		return CalibrationsResponse{}, unread
	}
	if wrong := r.Schedule.check(); wrong != nil {
		return CalibrationsResponse{}, wrong
	}
	if refused := r.bedsBeyond(); refused != nil {
		return CalibrationsResponse{}, refused
	}
	p, refused := r.parts(text.From(ctx))
	if refused != nil {
		return CalibrationsResponse{}, refused
	}
	planning, err := r.planning()
	if err != nil {
		return CalibrationsResponse{}, err
	}
	with, err := r.MeasuringRequest.input()
	if err != nil {
		return CalibrationsResponse{}, err
	}
	with.Explain = r.shows()
	result, err := calc.FieldSheet(calc.FieldSheetInput{
		Machine: calc.Machine{
			SprayedWidthPerNozzle: unit.Length(r.Machine.SprayedWidthPerNozzle.si()),
			BedWidth:              unit.Length(r.Machine.BedWidth.si()),
			NozzlesPerBed:         r.Machine.NozzlesPerBed,
			RowSpacing:            unit.Length(r.Machine.RowSpacing.si()),
			Tape:                  r.Machine.Tape,
		},
		Nozzle:   r.Nozzle.input(),
		Pressure: p.pressure.input(),
		Output:   sheetOutput(p.output.input()),
		Speed:    p.speed.input(),
		Target: calc.SheetTarget{
			ApplicationRate: unit.ApplicationRate(r.Target.ApplicationRate.si()),
			RateTolerance:   unit.Ratio(r.Target.RateTolerance.si()),
			RateBasis:       rateBases[r.Target.RateBasis],
			LabelMaximum:    unit.ApplicationRate(r.Target.LabelMaximum.si()),
		},
		Limits:          r.Limits.input(),
		RelativeDensity: unit.Ratio(r.RelativeDensity.si()),
		RateController:  r.RateController != nil && *r.RateController,
		Planning:        planning,
		Maintenance:     r.Maintenance.input(),
		AreaCheck:       r.AreaCheck.input(),
		Cost:            r.Cost.input(),
		Measuring:       with,
		Overdue:         r.Schedule.answer().used(),
	})
	if err != nil {
		return CalibrationsResponse{}, p.output.round.moveViolations(err)
	}
	return r.answer(ctx, p, result), nil
}

// bedsBeyond refuses catches from beds that the sprayer does not cover.
func (r *CalibrationsRequest) bedsBeyond() *refusal {
	var wrong []FieldError
	for i := range r.Output.Catches {
		if covered := r.Machine.BedsCovered; covered != 0 && r.Output.Catches[i].Bed > covered && len(wrong) < mostErrors {
			limit := float64(covered)
			wrong = append(wrong, FieldError{
				Pointer: pointer(outputCatch(i).Member("bed")), Code: "too_large", Limit: &limit, wording: "too_large_bed", args: []any{covered},
			})
		}
	}
	if len(wrong) == 0 {
		return nil
	}
	return &refusal{kind: invalidRequest, fields: wrong}
}

func sheetOutput(in calc.NozzleAcceptanceInput) calc.SheetOutput {
	return calc.SheetOutput{
		SprayPressure: in.SprayPressure, Gauge: in.Gauge, Catches: in.Catches, Tolerance: in.Tolerance,
		CatchPointsOnBoom: in.CatchPointsOnBoom, ReplaceAllAbove: in.ReplaceAllAbove,
	}
}

// sheetParts are the parts of a sheet as requests of their own operations, which
// read and word them.
type sheetParts struct {
	pressure PressureUniformityRequest
	output   NozzleAcceptanceRequest
	speed    GroundSpeedRequest
}

func (r *CalibrationsRequest) parts(lang text.Language) (sheetParts, *refusal) {
	catches, sources, refused := r.Output.withFollowUps(lang)
	if refused != nil {
		return sheetParts{}, refused
	}
	return sheetParts{
		pressure: PressureUniformityRequest{
			Readings: r.Pressure.Readings, CabPressure: r.Pressure.CabPressure, TargetPressure: r.Pressure.TargetPressure,
			MaxDifference: r.Pressure.MaxDifference, PressureRange: r.Nozzle.PressureRange, Results: r.Results,
		},
		output: NozzleAcceptanceRequest{
			Nozzle: r.Nozzle, SprayPressure: r.Output.SprayPressure, Gauge: r.Output.Gauge, Catches: catches, Tolerance: r.Output.Tolerance,
			CatchPointsOnBoom: r.Output.CatchPointsOnBoom, ReplaceAllAbove: r.Output.ReplaceAllAbove, Results: r.Results,
			round: round{inSheet: true, sources: sources},
		},
		speed: GroundSpeedRequest{Runs: r.Speed.Runs, RunTolerance: r.Speed.RunTolerance, Results: r.Results},
	}, nil
}
