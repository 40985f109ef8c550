package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// CalibrationsRequest is the body of POST /v1/calibrations: a whole field sheet.
type CalibrationsRequest struct {
	MeasuringRequest
	Label           string               `json:"label,omitzero"`
	People          PeopleRequest        `json:"people,omitzero"`
	Products        []ProductRequest     `json:"products,omitzero" len:"1..20"`
	Conditions      ConditionsRequest    `json:"conditions,omitzero"`
	Machine         MachineRequest       `json:"machine,omitzero"`
	Nozzle          LabeledNozzleRequest `json:"nozzle,omitzero"`
	Pressure        PressureRequest      `json:"pressure,omitzero"`
	Output          OutputRequest        `json:"output,omitzero"`
	Speed           SpeedRequest         `json:"speed,omitzero"`
	Target          TargetRequest        `json:"target,omitzero"`
	Limits          LimitsRequest        `json:"limits,omitzero"`
	RelativeDensity wire.Quantity        `json:"relativeDensity,omitzero" is:"ratio"`
	RateController  *bool                `json:"rateController,omitzero"`
	DutyCycle       wire.Quantity        `json:"dutyCycle,omitzero" is:"ratio"`
	Maintenance     MaintenanceRequest   `json:"maintenance,omitzero"`
	AreaCheck       TankRequest          `json:"areaCheck,omitzero"`
	Planning        *PlanningRequest     `json:"planning,omitzero"`
	Schedule        ScheduleRequest      `json:"schedule,omitzero"`
	Cost            CostRequest          `json:"cost,omitzero"`
	Confirmed       []string             `json:"confirmed,omitzero" is:"pointer" len:"1..20"`
	Results
}

// MachineRequest is the sprayer, repeated in the answer.
type MachineRequest struct {
	Label                 string               `json:"label,omitzero"`
	TankVolume            wire.Quantity        `json:"tankVolume,omitzero" is:"volume"`
	BedsCovered           int                  `json:"bedsCovered,omitzero" range:"1..100"`
	BedWidth              wire.Quantity        `json:"bedWidth,omitzero" is:"length"`
	NozzlesPerBed         int                  `json:"nozzlesPerBed,omitzero" range:"1..1000"`
	SprayedWidthPerNozzle wire.Quantity        `json:"sprayedWidthPerNozzle,omitzero" is:"length"`
	RowSpacing            wire.Quantity        `json:"rowSpacing,omitzero" is:"length"`
	EngineSpeed           wire.Quantity        `json:"engineSpeed,omitzero" is:"rotational_speed"`
	Gear                  string               `json:"gear,omitzero"`
	Tape                  string               `json:"tape,omitzero"`
	Sides                 []certainty.Position `json:"sides,omitzero"`
}

// PressureRequest is the pressures along the boom and in the cab.
type PressureRequest struct {
	Readings       []ReadingRequest `json:"readings" validate:"required" len:"1..100"`
	CabPressure    wire.Quantity    `json:"cabPressure,omitzero" is:"pressure"`
	TargetPressure wire.Quantity    `json:"targetPressure,omitzero" is:"pressure"`
	MaxDifference  wire.Quantity    `json:"maxDifference,omitzero" is:"pressure,ratio"`
}

// OutputRequest is the round of catches.
type OutputRequest struct {
	SprayPressure     wire.Quantity            `json:"sprayPressure,omitzero" is:"pressure"`
	Gauge             string                   `json:"gauge,omitzero"`
	Catches           []AcceptanceCatchRequest `json:"catches" validate:"required" len:"1..1000"`
	FollowUps         []FollowUpRequest        `json:"followUps,omitzero" len:"1..1000"`
	Tolerance         ToleranceRequest         `json:"tolerance,omitzero"`
	CatchPointsOnBoom int                      `json:"catchPointsOnBoom,omitzero" range:"1..10000"`
	ReplaceAllAbove   wire.Quantity            `json:"replaceAllAbove,omitzero" is:"ratio"`
	ReplaceAllFrom    int                      `json:"replaceAllFrom,omitzero" range:"1..1000"`
}

// SpeedRequest is the timed runs.
type SpeedRequest struct {
	Runs         []RunRequest  `json:"runs" validate:"required" len:"1..100"`
	RunTolerance wire.Quantity `json:"runTolerance,omitzero" is:"ratio"`
}

// TargetRequest is the rate that is wanted.
type TargetRequest struct {
	ApplicationRate wire.Quantity  `json:"applicationRate" validate:"required" is:"application_rate"`
	RateTolerance   wire.Quantity  `json:"rateTolerance,omitzero" is:"ratio"`
	RateBasis       calc.RateBasis `json:"rateBasis,omitzero"`
	LabelMaximum    wire.Quantity  `json:"labelMaximum,omitzero" is:"application_rate"`
	LabelMinimum    wire.Quantity  `json:"labelMinimum,omitzero" is:"application_rate"`
}

var calibrationsTable = wire.RequestTable[CalibrationsRequest]()

func calibrations(ctx context.Context, r *CalibrationsRequest) (CalibrationsAnswer, error) {
	if unused := append(r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle")), unusedSizeRatings(r.Output.Catches).Under(output)...); unused != nil {
		return CalibrationsAnswer{}, unused
	}
	if wrong := r.Output.Tolerance.check(); wrong != nil {
		return CalibrationsAnswer{}, wrong.Under(output)
	}
	if wrong := r.Schedule.check(); wrong != nil {
		return CalibrationsAnswer{}, wrong
	}
	if refused := r.uncoveredBeds(); refused != nil {
		return CalibrationsAnswer{}, refused
	}
	p, refused := r.parts(text.From(ctx))
	if refused != nil {
		return CalibrationsAnswer{}, refused
	}
	planning, err := r.planning()
	if err != nil {
		return CalibrationsAnswer{}, err
	}
	with, err := r.MeasuringRequest.input()
	if err != nil {
		return CalibrationsAnswer{}, err
	}
	with.Explain = r.shows()
	result, err := calc.FieldSheet(calc.FieldSheetInput{
		Machine: calc.Machine{
			SprayedWidthPerNozzle: unit.Length(r.Machine.SprayedWidthPerNozzle.SI()),
			BedWidth:              unit.Length(r.Machine.BedWidth.SI()),
			NozzlesPerBed:         r.Machine.NozzlesPerBed,
			Beds:                  r.Machine.BedsCovered,
			RowSpacing:            unit.Length(r.Machine.RowSpacing.SI()),
			Tape:                  r.Machine.Tape,
		},
		Nozzle:   r.Nozzle.input(),
		Pressure: p.pressure.input(),
		Output:   sheetOutput(p.output.input()),
		Speed:    p.speed.input(),
		Target: calc.SheetTarget{
			ApplicationRate: unit.ApplicationRate(r.Target.ApplicationRate.SI()),
			RateTolerance:   unit.Ratio(r.Target.RateTolerance.SI()),
			RateBasis:       r.Target.RateBasis,
			LabelMaximum:    unit.ApplicationRate(r.Target.LabelMaximum.SI()),
			LabelMinimum:    unit.ApplicationRate(r.Target.LabelMinimum.SI()),
		},
		Limits:          r.Limits.input(),
		RelativeDensity: unit.Ratio(r.RelativeDensity.SI()),
		RateController:  r.RateController != nil && *r.RateController,
		DutyCycle:       unit.Ratio(r.DutyCycle.SI()),
		Planning:        planning,
		Maintenance:     r.Maintenance.input(),
		AreaCheck:       r.AreaCheck.input(),
		Cost:            r.Cost.input(),
		Measuring:       with,
		Overdue:         r.Schedule.answer().hoursUsedUp(),
		Sides:           r.Machine.Sides,
		Confirmed:       r.confirmed(&p),
		Typed:           r,
	})
	if err != nil {
		return CalibrationsAnswer{}, p.output.origins.moveViolations(err)
	}
	return r.answer(ctx, p, result), nil
}

// uncoveredBeds refuses catches from beds that the sprayer does not cover.
func (r *CalibrationsRequest) uncoveredBeds() *wire.Refusal {
	var wrong []wire.FieldError
	for i := range r.Output.Catches {
		if covered := r.Machine.BedsCovered; covered != 0 && r.Output.Catches[i].Bed > covered && len(wrong) < wire.MostErrors {
			limit := float64(covered)
			wrong = append(wrong, wire.FieldError{
				Pointer: wire.Pointer(outputCatch(i).Member("bed")), Code: "too_large", Limit: &limit, Wording: "too_large_bed", Args: []any{covered},
			})
		}
	}
	if len(wrong) == 0 {
		return nil
	}
	return &wire.Refusal{Kind: wire.InvalidRequest, Fields: wrong}
}

func sheetOutput(in calc.NozzleAcceptanceInput) calc.SheetOutput {
	return calc.SheetOutput{
		SprayPressure: in.SprayPressure, Gauge: in.Gauge, Catches: in.Catches, Tolerance: in.Tolerance,
		CatchPointsOnBoom: in.CatchPointsOnBoom, ReplaceAllAbove: in.ReplaceAllAbove, ReplaceAllFrom: in.ReplaceAllFrom,
	}
}

// sheetParts are the parts of a sheet as requests of their own operations, which
// read and word them.
type sheetParts struct {
	pressure PressureUniformityRequest
	output   NozzleAcceptanceRequest
	speed    GroundSpeedRequest
}

func (r *CalibrationsRequest) parts(lang text.Language) (sheetParts, *wire.Refusal) {
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
			Nozzle: r.Nozzle.NozzleRequest, SprayPressure: r.Output.SprayPressure, Gauge: r.Output.Gauge, Catches: catches, Tolerance: r.Output.Tolerance,
			CatchPointsOnBoom: r.Output.CatchPointsOnBoom, ReplaceAllAbove: r.Output.ReplaceAllAbove, ReplaceAllFrom: r.Output.ReplaceAllFrom, DutyCycle: r.DutyCycle, Results: r.Results,
			origins: catchOrigins{inSheet: true, sources: sources},
		},
		speed: GroundSpeedRequest{Runs: r.Speed.Runs, RunTolerance: r.Speed.RunTolerance, Results: r.Results},
	}, nil
}
