package api

import (
	"context"

	"wetrun/calc"
	"wetrun/internal/text"
)

// CorrectionsResponse is the answer.
type CorrectionsResponse struct {
	Deviation        Quantity            `json:"deviation"`
	RateTolerance    Quantity            `json:"rateTolerance"`
	WithinTolerance  bool                `json:"withinTolerance"`
	OverLabelMaximum bool                `json:"overLabelMaximum"`
	Decision         string              `json:"decision"`
	DecisionDetail   string              `json:"decisionDetail"`
	Plans            []PlanResponse      `json:"plans"`
	Rejected         []RejectionResponse `json:"rejected"`
	Warnings         []warning           `json:"warnings,omitzero"`
	Cautions         []notice            `json:"cautions"`
}

// PlanResponse is one change that leads to the target.
type PlanResponse struct {
	Change                   string   `json:"change"`
	GroundSpeed              Quantity `json:"groundSpeed,omitzero"`
	SprayPressure            Quantity `json:"sprayPressure,omitzero"`
	PredictedApplicationRate Quantity `json:"predictedApplicationRate"`
	Deviation                Quantity `json:"deviation"`
	AtLimit                  bool     `json:"atLimit"`
	RelativeChange           Quantity `json:"relativeChange"`
	Remeasure                []string `json:"remeasure"`
}

// RejectionResponse is a change that cannot be made, with the numbers.
type RejectionResponse struct {
	Change                 string   `json:"change"`
	Reason                 string   `json:"reason"`
	Detail                 string   `json:"detail"`
	NeededGroundSpeed      Quantity `json:"neededGroundSpeed,omitzero"`
	MinimumGroundSpeed     Quantity `json:"minimumGroundSpeed,omitzero"`
	MaximumGroundSpeed     Quantity `json:"maximumGroundSpeed,omitzero"`
	NeededPressure         Quantity `json:"neededPressure,omitzero"`
	MinimumPressure        Quantity `json:"minimumPressure,omitzero"`
	MaximumPressure        Quantity `json:"maximumPressure,omitzero"`
	ApplicationRateAtLimit Quantity `json:"applicationRateAtLimit,omitzero"`
	DeviationAtLimit       Quantity `json:"deviationAtLimit,omitzero"`
}

// The words of calc's results, in the order of their constants.
var (
	changeWords             = [...]string{"speed", "pressure"}
	correctionDecisionWords = [...]string{"none_needed", "choose_plan", "repair_first", "calibrate_controller", "out_of_reach"}
	reasonWords             = [...][2]string{ // by change
		calc.AboveMaximum:           {"above_maximum_speed", "above_maximum_pressure"},
		calc.BelowMinimum:           {"below_minimum_speed", "below_minimum_pressure"},
		calc.Uneven:                 {"boom_uneven", "boom_uneven"},
		calc.Controlled:             {"rate_controller", "rate_controller"},
		calc.PressureNotMeasured:    {"", "pressure_not_measured"},
		calc.PressureLimitsNotGiven: {"", "pressure_limits_not_given"},
		calc.AtLimitOverLabel:       {"over_label_maximum", "over_label_maximum"},
	}
	// remeasureWords: any change means measuring again what it moves.
	remeasureWords = [...][]string{{"ground-speed", "application-rate"}, {"pressure-uniformity", "nozzle-acceptance", "application-rate"}}
)

func correctionsAnswer(ctx context.Context, x calc.CorrectionsResult, units *resultUnits) CorrectionsResponse {
	lang := text.From(ctx)
	word := correctionDecisionWords[x.Decision]
	a := CorrectionsResponse{
		Deviation:        percent(x.Deviation),
		RateTolerance:    percent(x.RateTolerance),
		WithinTolerance:  x.Within == calc.Within,
		OverLabelMaximum: x.OverLabelMaximum,
		Decision:         word,
		DecisionDetail:   text.Of(lang, "correction."+word),
		Plans:            make([]PlanResponse, len(x.Plans)),
		Rejected:         make([]RejectionResponse, len(x.Rejected)),
		Warnings:         warnings(ctx, x.Warnings),
	}
	codes := []string{"label_is_law", "clean_water", "shaft_speed", "local_rules"}
	for i, p := range x.Plans {
		a.Plans[i] = planAnswer(p, units)
		if p.Change == calc.ChangePressure && p.RelativeChange > 0 {
			codes = append(codes, "drift")
		}
	}
	a.Cautions = cautions(ctx, codes...)
	for i, r := range x.Rejected {
		a.Rejected[i] = rejectionAnswer(lang, r, units)
	}
	return a
}

func planAnswer(p calc.Plan, units *resultUnits) PlanResponse {
	a := PlanResponse{
		Change:                   changeWords[p.Change],
		PredictedApplicationRate: in(p.PredictedApplicationRate, units.rate),
		Deviation:                percent(p.Deviation),
		AtLimit:                  p.AtLimit,
		RelativeChange:           percent(p.RelativeChange),
		Remeasure:                remeasureWords[p.Change],
	}
	if p.Change == calc.ChangeSpeed {
		a.GroundSpeed = in(p.GroundSpeed, units.speed)
	} else {
		a.SprayPressure = in(p.SprayPressure, units.pressure)
	}
	return a
}

func rejectionAnswer(lang text.Language, r calc.Rejection, units *resultUnits) RejectionResponse {
	reason := reasonWords[r.Reason][r.Change]
	a := RejectionResponse{Change: changeWords[r.Change], Reason: reason, Detail: text.Of(lang, "rejected."+reason)}
	if r.NeededGroundSpeed != 0 {
		a.NeededGroundSpeed = in(r.NeededGroundSpeed, units.speed)
		limit := in(r.SpeedLimit, units.speed)
		if r.NeededGroundSpeed < r.SpeedLimit {
			a.MinimumGroundSpeed = limit
		} else {
			a.MaximumGroundSpeed = limit
		}
	}
	if r.NeededPressure != 0 {
		a.NeededPressure = in(r.NeededPressure, units.pressure)
	}
	if r.PressureLimit != 0 {
		limit := in(r.PressureLimit, units.pressure)
		if r.NeededPressure < r.PressureLimit {
			a.MinimumPressure = limit
		} else {
			a.MaximumPressure = limit
		}
	}
	if r.ApplicationRateAtLimit != 0 {
		a.ApplicationRateAtLimit = in(r.ApplicationRateAtLimit, units.rate)
		a.DeviationAtLimit = percent(r.DeviationAtLimit)
	}
	return a
}
