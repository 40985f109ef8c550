package api

import (
	"context"
	"slices"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// WearForecastAnswer is the answer.
type WearForecastAnswer struct {
	Nozzle            *NozzleAnswer     `json:"nozzle,omitzero"`
	SprayPressure     Quantity          `json:"sprayPressure"`
	NewFlowRate       Quantity          `json:"newFlowRate"`
	Limit             Quantity          `json:"limit"`
	LimitFlowRate     Quantity          `json:"limitFlowRate"`
	Catches           []WearCatchAnswer `json:"catches"`
	OverNew           Quantity          `json:"overNew"`
	Scatter           Quantity          `json:"scatter"`
	WearPerHour       Quantity          `json:"wearPerHour,omitzero"`
	WearPerDay        Quantity          `json:"wearPerDay,omitzero"`
	WearPerSeason     Quantity          `json:"wearPerSeason,omitzero"`
	Verdict           calc.WearState    `json:"verdict"`
	VerdictDetail     string            `json:"verdictDetail"`
	HoursAtLimit      Quantity          `json:"hoursAtLimit,omitzero"`
	HoursAtLimitRange Range             `json:"hoursAtLimitRange,omitzero"`
	DateAtLimit       string            `json:"dateAtLimit,omitzero"`
	DateAtLimitRange  DateRange         `json:"dateAtLimitRange,omitzero"`
	Confidence        Quantity          `json:"confidence,omitzero"`
	HoursLeft         Quantity          `json:"hoursLeft,omitzero"`
	SeasonsLeft       Number            `json:"seasonsLeft,omitzero"`
	Warnings          []warning         `json:"warnings,omitzero"`
	NextSteps         []notice          `json:"nextSteps"`
	Cautions          []notice          `json:"cautions"`
	Explained
}

// WearCatchAnswer is one catch at the common pressure.
type WearCatchAnswer struct {
	Label          string   `json:"label,omitzero"`
	Hours          Quantity `json:"hours,omitzero"`
	Date           string   `json:"date,omitzero"`
	NozzleFlowRate Quantity `json:"nozzleFlowRate"`
	OverNew        Quantity `json:"overNew"`
	OverLine       Quantity `json:"overLine"`
}

// A DateRange is two days that bound a third.
type DateRange struct {
	Low  string `json:"low,omitzero"`
	High string `json:"high,omitzero"`
}

var wearCautions = cautionsOf("clean_water", "protective_equipment", "running_machine", "pressure_injects", "label_is_law", "local_rules")

func (r *WearForecastRequest) answer(ctx context.Context, x calc.WearForecastResult) WearForecastAnswer {
	units := r.units()
	a := WearForecastAnswer{
		Nozzle:        r.Nozzle.answer(unit.Pressure(r.SprayPressure.si())),
		SprayPressure: r.SprayPressure,
		NewFlowRate:   r.NewFlowRate.or(in(x.NewFlowRate, units.flow)),
		Limit:         percent(x.Limit),
		LimitFlowRate: in(x.LimitFlowRate, units.flow),
		Catches:       make([]WearCatchAnswer, len(x.Catches)),
		OverNew:       percent(x.OverNew),
		Scatter:       percent(x.Scatter),
		Verdict:       x.State,
		VerdictDetail: text.Coded(text.From(ctx), "verdict", string(x.State)),
		SeasonsLeft:   Number(x.SeasonsLeft),
		Warnings:      warnings(ctx, x.Warnings),
		NextSteps:     nextSteps(ctx, wearSteps(x)...),
		Cautions:      wearCautions.in(ctx),
	}
	for i, p := range x.Catches {
		c := &r.Catches[i]
		a.Catches[i] = WearCatchAnswer{
			c.Label, c.Hours, wireDate(c.Date), in(p.NozzleFlowRate, units.flow), percent(p.OverNew), percent(p.OverLine),
		}
	}
	if x.Dated {
		a.WearPerDay = percent(x.WearPerDay)
	} else {
		a.WearPerHour = percent(x.WearPerHour)
	}
	if x.Dated || r.HoursPerSeason.given() {
		a.WearPerSeason = percent(x.WearPerSeason)
	}
	if x.Bounded {
		a.Confidence = percent(calc.WearConfidence)
	}
	a.times(x)
	if named := a.HoursAtLimitRange.Low.given() || a.DateAtLimitRange.Low != ""; x.State != calc.WornNow && !named {
		a.NextSteps[len(a.NextSteps)-1].Text = text.Of(text.From(ctx), "wording.catch_again")
	}
	return a
}

// wearSteps are what to do: first about catches that tell of something else than wear.
func wearSteps(x calc.WearForecastResult) (codes []string) {
	for _, first := range [...]struct{ warning, step string }{
		{calc.WarnBelowNew, "clean_before_forecast"}, {calc.WarnBeyondWear, "check_before_forecast"},
	} {
		if slices.ContainsFunc(x.Warnings, func(w finding.Warning) bool { return w.Code == first.warning }) {
			codes = append(codes, first.step)
		}
	}
	if x.State == calc.WornNow {
		return append(codes, "replace_worn_set")
	}
	return append(codes, "catch_again")
}

// times adds when the limit is reached, in hours or as dates.
func (a *WearForecastAnswer) times(x calc.WearForecastResult) {
	switch {
	case !x.Reached:
	case x.Dated:
		a.DateAtLimit = wireDate(x.AtLimit.Date)
		a.DateAtLimitRange = DateRange{wireDate(x.Earliest.Date), wireDate(x.Latest.Date)}
	default:
		a.HoursAtLimit = in(x.AtLimit.Hours, unit.IDH)
		if x.Bounded {
			a.HoursAtLimitRange = Range{in(x.Earliest.Hours, unit.IDH), in(x.Latest.Hours, unit.IDH)}
		}
		if x.State == calc.WillReach {
			a.HoursLeft = in(x.Left, unit.IDH)
		}
	}
}
