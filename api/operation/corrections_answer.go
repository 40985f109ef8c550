package operation

import (
	"context"
	"slices"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// CorrectionsAnswer is the answer of POST /v1/corrections.
type CorrectionsAnswer struct {
	Deviation              wire.Quantity           `json:"deviation"`
	RateTolerance          wire.Quantity           `json:"rateTolerance"`
	WithinTolerance        bool                    `json:"withinTolerance"`
	OverLabelMaximum       bool                    `json:"overLabelMaximum"`
	UnderLabelMinimum      bool                    `json:"underLabelMinimum"`
	LabelGuard             wire.Quantity           `json:"labelGuard,omitzero"`
	WithinSprayVolumeRange *bool                   `json:"withinSprayVolumeRange,omitzero"`
	Decision               calc.CorrectionDecision `json:"decision"`
	DecisionDetail         string                  `json:"decisionDetail"`
	Plans                  []PlanAnswer            `json:"plans"`
	PlansLeftOut           int                     `json:"plansLeftOut,omitzero"`
	Rejected               []RejectionAnswer       `json:"rejected"`
	RejectedLeftOut        int                     `json:"rejectedLeftOut,omitzero"`
	Warnings               []Warning               `json:"warnings,omitzero"`
	Cautions               []Notice                `json:"cautions"`
	working.Explained

	moreDrift bool // a plan raises the pressure
}

// PlanAnswer is one change, or some together, that lead to the target.
type PlanAnswer struct {
	Change                   calc.Change    `json:"change"`
	Changes                  []calc.Change  `json:"changes"`
	Gear                     string         `json:"gear,omitzero"`
	EngineSpeed              wire.Quantity  `json:"engineSpeed,omitzero"`
	Nozzle                   *PlannedNozzle `json:"nozzle,omitzero"`
	GroundSpeed              wire.Quantity  `json:"groundSpeed,omitzero"`
	SprayPressure            wire.Quantity  `json:"sprayPressure,omitzero"`
	DutyCycle                wire.Quantity  `json:"dutyCycle,omitzero"`
	DropletClass             string         `json:"dropletClass"`
	DropletClassAllowed      *bool          `json:"dropletClassAllowed,omitzero"`
	PredictedApplicationRate wire.Quantity  `json:"predictedApplicationRate"`
	Deviation                wire.Quantity  `json:"deviation"`
	Aim                      wire.Quantity  `json:"aim,omitzero"`
	AtLimit                  bool           `json:"atLimit"`
	RelativeChange           wire.Quantity  `json:"relativeChange,omitzero"`
	ChangeSize               wire.Number    `json:"changeSize"`
	Remeasure                []string       `json:"remeasure"`
	Warnings                 []Warning      `json:"warnings,omitzero"`
	Cautions                 []string       `json:"cautions,omitzero"`
	CautionTexts             []string       `json:"cautionTexts,omitzero"`
}

var (
	// remeasuredAfter: any change means measuring again what it moves.
	remeasuredAfter = map[calc.Change][]string{
		calc.ChangeSpeed:       {"ground-speed", "application-rate"},
		calc.ChangePressure:    {"pressure-uniformity", "nozzle-acceptance", "application-rate"},
		calc.ChangeEngineSpeed: {"pressure-uniformity", "ground-speed", "application-rate"},
		calc.ChangeGear:        {"ground-speed", "application-rate"},
		calc.ChangeNozzle:      {"pressure-uniformity", "nozzle-acceptance", "application-rate"},
		calc.ChangeDutyCycle:   {"nozzle-acceptance", "application-rate"},
	}
	// remeasureOrder is that of the job.
	remeasureOrder = [...]string{"pressure-uniformity", "nozzle-acceptance", "ground-speed", "application-rate"}
)

func correctionsAnswer(ctx context.Context, x calc.CorrectionsResult, r *CorrectionsRequest) CorrectionsAnswer {
	lang := text.From(ctx)
	a := CorrectionsAnswer{
		Deviation:              percent(x.Deviation),
		RateTolerance:          percent(x.RateTolerance),
		WithinTolerance:        x.Within == finding.Within,
		OverLabelMaximum:       x.OverLabelMaximum,
		UnderLabelMinimum:      x.UnderLabelMinimum,
		WithinSprayVolumeRange: within(x.SprayVolume),
		Decision:               x.Decision,
		DecisionDetail:         text.Coded(lang, "correction", string(x.Decision)),
		Plans:                  make([]PlanAnswer, len(x.Plans)),
		PlansLeftOut:           x.PlansLeftOut,
		Rejected:               make([]RejectionAnswer, len(x.Rejected)),
		RejectedLeftOut:        x.RejectedLeftOut,
		Warnings:               warnings(ctx, x.Warnings),
	}
	if x.Guard != 0 {
		a.LabelGuard = percent(x.Guard)
	}
	for i, p := range x.Plans {
		a.Plans[i] = r.planAnswer(ctx, p)
		a.moreDrift = a.moreDrift || r.raisesPressure(p)
	}
	a.Cautions = correctionCautions.in(ctx)
	if a.moreDrift {
		a.Cautions = driftCautions.in(ctx)
	}
	for i, rejection := range x.Rejected {
		a.Rejected[i] = r.rejectionAnswer(lang, rejection)
	}
	return a
}

// raisesPressure tells whether a plan raises the pressure.
func (r *CorrectionsRequest) raisesPressure(p calc.Plan) bool {
	if p.Change == calc.ChangePressure {
		return p.RelativeChange > 0
	}
	return p.Changes.Has(calc.ChangePressure) && float64(p.SprayPressure) > r.Measured.SprayPressure.SI()
}

func (r *CorrectionsRequest) planAnswer(ctx context.Context, p calc.Plan) PlanAnswer {
	units := r.units()
	a := PlanAnswer{
		Change:                   p.Change,
		Changes:                  p.Changes.All(),
		Gear:                     r.gearLabel(p.Gear),
		Nozzle:                   r.plannedNozzle(p.Nozzle),
		DropletClass:             dropletClassWord(p.DropletClass),
		DropletClassAllowed:      within(p.DropletsAllowed),
		ChangeSize:               wire.Number(p.Size),
		PredictedApplicationRate: wire.In(p.PredictedApplicationRate, units.rate),
		Deviation:                percent(p.Deviation),
		AtLimit:                  p.AtLimit,
		Remeasure:                remeasure(p.Changes),
		Warnings:                 warnings(ctx, p.Warnings),
	}
	if p.Change != calc.ChangeCombined {
		a.RelativeChange = percent(p.RelativeChange)
	}
	if p.GroundSpeed != 0 {
		a.GroundSpeed = wire.In(p.GroundSpeed, units.speed)
	}
	if p.SprayPressure != 0 {
		a.SprayPressure = wire.In(p.SprayPressure, units.pressure)
	}
	if p.Aim != 0 {
		a.Aim = wire.In(p.Aim, units.rate)
	}
	if p.DutyCycle != 0 {
		a.DutyCycle = percent(p.DutyCycle)
	}
	if p.EngineSpeed != 0 {
		a.EngineSpeed = wire.In(p.EngineSpeed, unit.IDRpm)
	}
	if p.Changes.Has(calc.ChangeNozzle) { // somebody opens the boom
		a.Cautions = append(a.Cautions, "machine_off", "pressure_injects")
	}
	if p.Changes.Has(calc.ChangeEngineSpeed) || p.Changes.Has(calc.ChangeGear) {
		a.Cautions = append(a.Cautions, "shaft_speed")
	}
	if r.raisesPressure(p) {
		a.Cautions = append(a.Cautions, "drift")
	}
	a.CautionTexts = cautionTexts(text.From(ctx), a.Cautions)
	return a
}

// gearLabel is the label of a gear counted from one; none for the present one.
func (r *CorrectionsRequest) gearLabel(n int) string {
	if n == 0 {
		return ""
	}
	return r.Gears[n-1].Label
}

// remeasure lists what has to be measured again after a set of changes.
func remeasure(set calc.Changes) (all []string) {
	changes := set.All()
	for _, operation := range remeasureOrder {
		moves := func(c calc.Change) bool { return slices.Contains(remeasuredAfter[c], operation) }
		if slices.ContainsFunc(changes, moves) {
			all = append(all, operation)
		}
	}
	return all
}
