package api

import (
	"context"
	"strconv"
	"strings"

	"wetrun/calc"
	"wetrun/internal/text"
)

// CalibrationsResponse is the answer to a field sheet.
type CalibrationsResponse struct {
	Label         string            `json:"label,omitzero"`
	Verdict       calc.SheetVerdict `json:"verdict"`
	VerdictDetail string            `json:"verdictDetail"`
	NextSteps     []StepResponse    `json:"nextSteps"`
	Machine       MachineRequest    `json:"machine,omitzero"`
	Pressure      PressurePart      `json:"pressure"`
	Output        OutputPart        `json:"output"`
	Speed         SpeedPart         `json:"speed"`
	Rate          RatePart          `json:"rate"`
	Correction    CorrectionPart    `json:"correction"`

	Maintenance MaintenancePart `json:"maintenance"`
	AreaCheck   AreaCheckPart   `json:"areaCheck"`
	Cost        *CostResponse   `json:"cost,omitzero"`

	NextDue  *NextDueResponse `json:"nextDue,omitzero"`
	Cautions []notice         `json:"cautions"`
	Explained
}

// StepResponse is one thing to do next.
type StepResponse struct {
	Code    calc.StepCode `json:"code"`
	Label   string        `json:"label,omitzero"`
	Pointer string        `json:"pointer,omitzero"`
	Text    string        `json:"text"`
}

// PressurePart is the boom's pressure.
type PressurePart struct {
	Status calc.PartStatus             `json:"status"`
	Result *PressureUniformityResponse `json:"result,omitzero"`
}

// OutputPart is the catches.
type OutputPart struct {
	Status calc.PartStatus           `json:"status"`
	Result *NozzleAcceptanceResponse `json:"result,omitzero"`
}

// SpeedPart is the timed runs.
type SpeedPart struct {
	Status calc.PartStatus      `json:"status"`
	Result *GroundSpeedResponse `json:"result,omitzero"`
}

// RatePart is the rate per area.
type RatePart struct {
	Status calc.PartStatus          `json:"status"`
	Result *ApplicationRateResponse `json:"result,omitzero"`
}

// CorrectionPart is what would bring the rate to its target. Its status is the decision
// of the correction, where one was looked for.
type CorrectionPart struct {
	Status string               `json:"status"`
	Result *CorrectionsResponse `json:"result,omitzero"`
}

// sheetCautions go with every sheet: the whole job is done beside the machine.
var sheetCautions = cautionsOf(
	"clean_water", "protective_equipment", "rinsate", "running_machine", "pressure_injects",
	"label_is_law", "shaft_speed", "reentry", "local_rules",
)

func (r *CalibrationsRequest) answer(ctx context.Context, p sheetParts, x calc.FieldSheetResult) CalibrationsResponse {
	lang := text.From(ctx)
	a := CalibrationsResponse{
		Label:         r.Label,
		Verdict:       x.Verdict,
		VerdictDetail: text.Of(lang, "verdict."+string(x.Verdict)+verdictShade(x)),
		NextSteps:     make([]StepResponse, len(x.Steps)),
		Machine:       r.Machine,
		Pressure:      PressurePart{Status: x.PressureStatus},
		Output:        OutputPart{Status: x.OutputStatus},
		Speed:         SpeedPart{Status: x.SpeedStatus},
		Rate:          RatePart{Status: x.RateStatus},
		Correction:    CorrectionPart{Status: correctionStatus(x)},
		Cautions:      sheetCautions.in(ctx),
	}
	a.NextDue = r.Schedule.answer()
	for i, s := range x.Steps {
		a.NextSteps[i] = r.step(lang, p, &x, s)
		if s.Code == calc.StepCalibrateAgain && a.NextDue.used() {
			a.NextSteps[i].Text = text.Of(lang, "step.calibrate_again_now")
		}
	}
	r.results(ctx, p, x, &a)
	r.extras(ctx, x, &a)
	(&sheetWork{r, &p, &x, &a}).explain()
	return a
}

// verdictShade is what the words of a verdict carry beside it: a rate over the label's
// maximum, or in order by the plain rule but too close to be sure.
func verdictShade(x calc.FieldSheetResult) string {
	shade := ""
	for _, s := range x.Steps {
		switch {
		case s.Code == calc.StepOverLabelMaximum:
			return "_over_label_maximum"
		case x.Verdict != calc.NotReady && (s.Code == calc.StepSettlePressure || s.Code == calc.StepSettleCatch || s.Code == calc.StepSettleRate):
			shade = "_close"
		}
	}
	return shade
}

// results fills in each part's own answer, with pointers into the sheet.
func (r *CalibrationsRequest) results(ctx context.Context, p sheetParts, x calc.FieldSheetResult, a *CalibrationsResponse) {
	all := new(struct { // one piece of memory
		pressure PressureUniformityResponse
		output   NozzleAcceptanceResponse
		speed    GroundSpeedResponse
		rate     ApplicationRateResponse
	})
	if x.Pressure != nil {
		part := &all.pressure
		*part = pressureUniformityAnswer(ctx, &p.pressure, *x.Pressure)
		under("pressure", part.Warnings)
		a.Pressure.Result = part
	}
	if x.Output != nil {
		part := &all.output
		*part = p.output.answer(ctx, *x.Output)
		p.placeCatches(part.Warnings)
		for i := range part.Actions {
			part.Actions[i].Pointer = "#/output" + part.Actions[i].Pointer[1:]
			if catch := x.Output.Actions[i].Catch; catch >= 0 {
				part.Actions[i].Pointer = p.catchPointer(catch)
			}
		}
		for i, x := range x.Output.Outliers {
			part.Outliers[i].Pointer = p.catchPointer(x.Value)
		}
		a.Output.Result = part
	}
	if x.Speed != nil {
		part := &all.speed
		*part = groundSpeedAnswer(ctx, &p.speed, *x.Speed)
		under("speed", part.Warnings)
		a.Speed.Result = part
	}
	if x.Rate != nil {
		request := ApplicationRateRequest{
			TargetApplicationRate: r.Target.ApplicationRate, RateBasis: r.Target.RateBasis,
			LabelMaximum: r.Target.LabelMaximum, Results: r.Results,
		}
		part := &all.rate
		*part = applicationRateAnswer(ctx, &request, *x.Rate)
		for i, w := range part.Warnings {
			part.Warnings[i].Pointer = "#/machine"
			if w.Code == calc.WarnUnusualSpeed {
				part.Warnings[i].Pointer = "#/speed"
			}
		}
		a.Rate.Result = part
	}
	if x.Correction != nil {
		part := correctionsAnswer(ctx, *x.Correction, r.correctionsRequest().plannedWith(x.Output))
		for i, plan := range part.Plans {
			if plan.Nozzle != nil {
				part.Plans[i].Nozzle.Pointer = "#/planning" + plan.Nozzle.Pointer[1:]
			}
		}
		for i, no := range part.Rejected {
			if no.Nozzle != nil {
				part.Rejected[i].Nozzle.Pointer = "#/planning" + no.Nozzle.Pointer[1:]
			}
		}
		r.fromPlanning(part.Warnings)
		for _, plan := range part.Plans {
			r.fromPlanning(plan.Warnings)
		}
		a.Correction.Result = &part
	}
}

// under moves the pointers of a part's warnings under its name in the sheet; the
// nozzle stands in the sheet itself.
func under(part string, all []warning) {
	for i := range all {
		if all[i].Pointer == "#/nozzle" || strings.HasPrefix(all[i].Pointer, "#/nozzle/") {
			continue
		}
		all[i].Pointer = "#/" + part + all[i].Pointer[1:]
	}
}

// fromPlanning moves the pointers of a correction's warnings to where a sheet has
// what corrections has: the most of it is under planning, and what was measured in the
// parts that measured it.
func (r *CalibrationsRequest) fromPlanning(all []warning) {
	for i, w := range all {
		at := strings.TrimPrefix(w.Pointer, "#/")
		member, rest, _ := strings.Cut(at, "/")
		switch member {
		case "nozzle", "limits", "rateController":
		case "boomEven":
			all[i].Pointer = "#/pressure"
		case "measured":
			switch {
			case rest == "groundSpeed":
				all[i].Pointer = "#/speed"
			case rest != "sprayPressure":
				all[i].Pointer = "#/machine/" + rest
			case r.Output.SprayPressure.given():
				all[i].Pointer = "#/output/sprayPressure"
			default:
				all[i].Pointer = "#/pressure"
			}
		default:
			all[i].Pointer = "#/planning/" + at
		}
	}
}

// placeCatches moves the pointers of a round's warnings to where the sheet has the
// catches, which follow-ups may have taken the place of.
func (p *sheetParts) placeCatches(all []warning) {
	under("output", all)
	for i := range all {
		rest, ofCatch := strings.CutPrefix(all[i].Pointer, "#/output/catches/")
		number, member, _ := strings.Cut(rest, "/")
		if n, err := strconv.Atoi(number); ofCatch && err == nil {
			all[i].Pointer = pointer(p.catchPath(n, strings.HasPrefix(member, "nozzlesOnDrop"))) + "/" + member
		}
	}
}

// correctionStatus says whether a correction was looked for, and how it came out.
func correctionStatus(x calc.FieldSheetResult) string {
	switch {
	case x.Correction != nil:
		return string(x.Correction.Decision)
	case x.RateStatus == calc.Passed:
		return string(calc.NoCorrectionNeeded)
	}
	return string(calc.NotDone)
}
