package api

import (
	"context"

	"wetrun/calc"
	"wetrun/internal/text"
)

// CalibrationsResponse is the answer to a field sheet.
type CalibrationsResponse struct {
	Label         string         `json:"label,omitzero"`
	Verdict       string         `json:"verdict"`
	VerdictDetail string         `json:"verdictDetail"`
	NextSteps     []StepResponse `json:"nextSteps"`
	Machine       MachineRequest `json:"machine,omitzero"`
	Pressure      PressurePart   `json:"pressure"`
	Output        OutputPart     `json:"output"`
	Speed         SpeedPart      `json:"speed"`
	Rate          RatePart       `json:"rate"`
	Correction    CorrectionPart `json:"correction"`

	Maintenance MaintenancePart `json:"maintenance"`
	AreaCheck   AreaCheckPart   `json:"areaCheck"`
	Cost        *CostResponse   `json:"cost,omitzero"`

	NextDue  *NextDueResponse `json:"nextDue,omitzero"`
	Cautions []notice         `json:"cautions"`
	Explained
}

// StepResponse is one thing to do next.
type StepResponse struct {
	Code    string `json:"code"`
	Label   string `json:"label,omitzero"`
	Pointer string `json:"pointer,omitzero"`
	Text    string `json:"text"`
}

// PressurePart is the boom's pressure.
type PressurePart struct {
	Status string                      `json:"status"`
	Result *PressureUniformityResponse `json:"result,omitzero"`
}

// OutputPart is the catches.
type OutputPart struct {
	Status string                    `json:"status"`
	Result *NozzleAcceptanceResponse `json:"result,omitzero"`
}

// SpeedPart is the timed runs.
type SpeedPart struct {
	Status string               `json:"status"`
	Result *GroundSpeedResponse `json:"result,omitzero"`
}

// RatePart is the rate per area.
type RatePart struct {
	Status string                   `json:"status"`
	Result *ApplicationRateResponse `json:"result,omitzero"`
}

// CorrectionPart is what would bring the rate to its target.
type CorrectionPart struct {
	Status string               `json:"status"`
	Result *CorrectionsResponse `json:"result,omitzero"`
}

// The words of calc's results, in the order of their constants.
var (
	partWords    = [...]string{"not_done", "passed", "failed"}
	verdictWords = [...]string{"incomplete", "ready", "not_ready"}
	stepWords    = [...]string{
		"clean_by_eye", "replace_by_eye", "replace_all_by_eye", "read_pressure", "repair_boom", "set_pressure_in_range",
		"set_pressure_within_limits", "settle_pressure", "check_cab_gauge", "catch_output", "catch_after_repair", "match_pressures",
		"check_reference", "settle_catch", "clean_and_recatch", "check_and_recatch", "replace", "catch_each_nozzle", "catch_again", "catch_more",
		"replace_all_and_recatch", "time_runs", "repeat_runs", "drive_within_limits", "tank_over_label_maximum", "find_disagreement",
		"over_label_maximum", "give_width", "set_target", "settle_rate", "repair_before_rate", "choose_plan", "calibrate_controller",
		"change_nozzle_or_gear", "measure_again", "file_record", "calibrate_again",
	}
)

// sheetCautions go with every sheet: the whole job is done beside the machine.
var sheetCautions = cautionsOf(
	"clean_water", "protective_equipment", "rinsate", "running_machine", "pressure_injects",
	"label_is_law", "shaft_speed", "reentry", "local_rules",
)

func (r *CalibrationsRequest) answer(ctx context.Context, p sheetParts, x calc.FieldSheetResult) CalibrationsResponse {
	lang, verdict := text.From(ctx), verdictWords[x.Verdict]
	a := CalibrationsResponse{
		Label:         r.Label,
		Verdict:       verdict,
		VerdictDetail: text.Of(lang, "verdict."+verdict+verdictShade(x)),
		NextSteps:     make([]StepResponse, len(x.Steps)),
		Machine:       r.Machine,
		Pressure:      PressurePart{Status: partWords[x.PressureStatus]},
		Output:        OutputPart{Status: partWords[x.OutputStatus]},
		Speed:         SpeedPart{Status: partWords[x.SpeedStatus]},
		Rate:          RatePart{Status: partWords[x.RateStatus]},
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

// results fills in each part's own answer. Places are of the sheet already.
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
		a.Pressure.Result = part
	}
	if x.Output != nil {
		part := &all.output
		p.output.round.moveWarnings(x.Output.Warnings)
		*part = p.output.answer(ctx, *x.Output)
		a.Output.Result = part
	}
	if x.Speed != nil {
		part := &all.speed
		*part = groundSpeedAnswer(ctx, &p.speed, *x.Speed)
		a.Speed.Result = part
	}
	if x.Rate != nil {
		request := ApplicationRateRequest{
			TargetApplicationRate: r.Target.ApplicationRate, RateBasis: r.Target.RateBasis,
			LabelMaximum: r.Target.LabelMaximum, Results: r.Results,
		}
		part := &all.rate
		*part = applicationRateAnswer(ctx, &request, *x.Rate)
		a.Rate.Result = part
	}
	if x.Correction != nil {
		part := correctionsAnswer(ctx, *x.Correction, r.correctionsRequest().plannedWith(x.Output))
		a.Correction.Result = &part
	}
}

// correctionStatus says whether a correction was looked for, and how it came out.
func correctionStatus(x calc.FieldSheetResult) string {
	switch {
	case x.Correction != nil:
		return correctionDecisionWords[x.Correction.Decision]
	case x.RateStatus == calc.Passed:
		return correctionDecisionWords[calc.NoCorrection]
	}
	return partWords[calc.NotDone]
}
