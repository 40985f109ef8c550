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

// WearForecastAnswer is the answer of POST /v1/wear-forecast.
type WearForecastAnswer struct {
	Nozzle            *NozzleAnswer     `json:"nozzle,omitzero"`
	SprayPressure     wire.Quantity     `json:"sprayPressure"`
	NewFlowRate       wire.Quantity     `json:"newFlowRate"`
	Limit             wire.Quantity     `json:"limit"`
	LimitFlowRate     wire.Quantity     `json:"limitFlowRate"`
	Catches           []WearCatchAnswer `json:"catches"`
	OverNew           wire.Quantity     `json:"overNew"`
	Scatter           wire.Quantity     `json:"scatter"`
	WearPerHour       wire.Quantity     `json:"wearPerHour,omitzero"`
	WearPerDay        wire.Quantity     `json:"wearPerDay,omitzero"`
	WearPerSeason     wire.Quantity     `json:"wearPerSeason,omitzero"`
	Verdict           calc.WearState    `json:"verdict"`
	VerdictDetail     string            `json:"verdictDetail"`
	HoursAtLimit      wire.Quantity     `json:"hoursAtLimit,omitzero"`
	HoursAtLimitRange wire.Range        `json:"hoursAtLimitRange,omitzero"`
	DateAtLimit       string            `json:"dateAtLimit,omitzero"`
	DateAtLimitRange  DateRange         `json:"dateAtLimitRange,omitzero"`
	Confidence        wire.Quantity     `json:"confidence,omitzero"`
	HoursLeft         wire.Quantity     `json:"hoursLeft,omitzero"`
	SeasonsLeft       wire.Number       `json:"seasonsLeft,omitzero"`
	Warnings          []Warning         `json:"warnings,omitzero"`
	NextSteps         []Notice          `json:"nextSteps"`
	Cautions          []Notice          `json:"cautions"`
	working.Explained
}

// WearCatchAnswer is one catch at the common pressure.
type WearCatchAnswer struct {
	Label          string        `json:"label,omitzero"`
	Hours          wire.Quantity `json:"hours,omitzero"`
	Date           string        `json:"date,omitzero"`
	NozzleFlowRate wire.Quantity `json:"nozzleFlowRate"`
	OverNew        wire.Quantity `json:"overNew"`
	OverLine       wire.Quantity `json:"overLine"`
}

// A DateRange is two days that bound a third.
type DateRange struct {
	Low  string `json:"low,omitzero"`
	High string `json:"high,omitzero"`
}

func (r *WearForecastRequest) answer(ctx context.Context, x calc.WearForecastResult) WearForecastAnswer {
	units := r.units()
	a := WearForecastAnswer{
		Nozzle:        r.Nozzle.answer(unit.Pressure(r.SprayPressure.SI())),
		SprayPressure: r.SprayPressure,
		NewFlowRate:   r.NewFlowRate.Or(wire.In(x.NewFlowRate, units.flow)),
		Limit:         percent(x.Limit),
		LimitFlowRate: wire.In(x.LimitFlowRate, units.flow),
		Catches:       make([]WearCatchAnswer, len(x.Catches)),
		OverNew:       percent(x.OverNew),
		Scatter:       percent(x.Scatter),
		Verdict:       x.State,
		VerdictDetail: text.Coded(text.From(ctx), "verdict", string(x.State)),
		SeasonsLeft:   wire.Number(x.SeasonsLeft),
		Warnings:      warnings(ctx, x.Warnings),
		NextSteps:     nextSteps(ctx, wearSteps(x)...),
		Cautions:      wearCautions.in(ctx),
	}
	for i, p := range x.Catches {
		c := &r.Catches[i]
		a.Catches[i] = WearCatchAnswer{
			c.Label, c.Hours, wire.FormatDate(c.Date), wire.In(p.NozzleFlowRate, units.flow), percent(p.OverNew), percent(p.OverLine),
		}
	}
	if x.Dated {
		a.WearPerDay = percent(x.WearPerDay)
	} else {
		a.WearPerHour = percent(x.WearPerHour)
	}
	if x.Dated || r.HoursPerSeason.Given() {
		a.WearPerSeason = percent(x.WearPerSeason)
	}
	if x.Bounded {
		a.Confidence = percent(calc.WearConfidence)
	}
	a.times(x)
	if named := a.HoursAtLimitRange.Low.Given() || a.DateAtLimitRange.Low != ""; x.State != calc.WornNow && !named {
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
		a.DateAtLimit = wire.FormatDate(x.AtLimit.Date)
		a.DateAtLimitRange = DateRange{wire.FormatDate(x.Earliest.Date), wire.FormatDate(x.Latest.Date)}
	default:
		a.HoursAtLimit = wire.In(x.AtLimit.Hours, unit.IDH)
		if x.Bounded {
			a.HoursAtLimitRange = wire.Range{Low: wire.In(x.Earliest.Hours, unit.IDH), High: wire.In(x.Latest.Hours, unit.IDH)}
		}
		if x.State == calc.WillReach {
			a.HoursLeft = wire.In(x.Left, unit.IDH)
		}
	}
}
