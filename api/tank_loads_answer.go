package api

import (
	"cmp"
	"context"
	"strconv"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// TankLoadsAnswer is the answer.
type TankLoadsAnswer struct {
	TreatedArea      Quantity            `json:"treatedArea"`
	FieldArea        Quantity            `json:"fieldArea,omitzero"`
	SprayVolume      Quantity            `json:"sprayVolume"`
	MixedVolume      Quantity            `json:"mixedVolume"`
	UsableVolume     Quantity            `json:"usableVolume"`
	AreaPerLoad      Quantity            `json:"areaPerLoad"`
	FieldAreaPerLoad Quantity            `json:"fieldAreaPerLoad,omitzero"`
	FirstLoadArea    Quantity            `json:"firstLoadArea,omitzero"`
	Tankfuls         Number              `json:"tankfuls"`
	Loads            int                 `json:"loads"`
	FullLoads        int                 `json:"fullLoads"`
	PartLoad         *TankLoadAnswer     `json:"partLoad,omitzero"`
	EqualLoad        *TankLoadAnswer     `json:"equalLoad,omitzero"`
	AreaBasis        calc.RateBasis      `json:"areaBasis,omitzero"`
	Products         []TankProductAnswer `json:"products"`
	CarrierWater     LoadSharesAnswer    `json:"carrierWater"`

	ApplicationRate    Quantity `json:"applicationRate"`
	LabelRate          Quantity `json:"labelRate,omitzero"`
	RateTolerance      Quantity `json:"rateTolerance,omitzero"`
	DeliveredDeviation Quantity `json:"deliveredDeviation,omitzero"`
	WithinTolerance    *bool    `json:"withinTolerance,omitzero"`
	OverLabelMaximum   *bool    `json:"overLabelMaximum,omitzero"`

	MixingOrder []MixingStepAnswer `json:"mixingOrder,omitzero"`
	NextSteps   []notice           `json:"nextSteps,omitzero"`
	Cautions    []notice           `json:"cautions"`
	Warnings    []warning          `json:"warnings,omitzero"`
	Explained
}

// TankLoadAnswer is one fill of the tank.
type TankLoadAnswer struct {
	Volume    Quantity `json:"volume"`
	Area      Quantity `json:"area"`
	FieldArea Quantity `json:"fieldArea,omitzero"`
}

// TankProductAnswer is what of a product goes where.
type TankProductAnswer struct {
	Name string `json:"name,omitzero"`
	LoadSharesAnswer
	Measure            LoadSharesAnswer `json:"measure"`
	RatePerArea        Quantity         `json:"ratePerArea"`
	RatePerTreatedArea Quantity         `json:"ratePerTreatedArea,omitzero"`
	RatePerFieldArea   Quantity         `json:"ratePerFieldArea,omitzero"`
	DeliveredRate      Quantity         `json:"deliveredRate,omitzero"`
	DeliveredDeviation Quantity         `json:"deliveredDeviation,omitzero"`
	LabelMaximum       Quantity         `json:"labelMaximum,omitzero"`
	OverLabelMaximum   *bool            `json:"overLabelMaximum,omitzero"`
}

// LoadSharesAnswer is an amount for each kind of load, and for all.
type LoadSharesAnswer struct {
	PerFullLoad  Quantity `json:"perFullLoad"`
	PerPartLoad  Quantity `json:"perPartLoad,omitzero"`
	PerEqualLoad Quantity `json:"perEqualLoad,omitzero"`
	Total        Quantity `json:"total"`
}

// tankCautions go with products in the tank, fillCautions with water alone.
var (
	tankCautions = cautionsOf(
		"label_is_law", "mixing_equipment", "jar_test", "do_not_overfill", "backflow", "rinse_containers", "residual_mix", "local_rules",
	)
	fillCautions = cautionsOf("label_is_law", "do_not_overfill", "backflow", "local_rules")
)

func (r *TankLoadsRequest) answer(ctx context.Context, x *calc.TankLoadsResult) TankLoadsAnswer {
	units := r.units()
	a := TankLoadsAnswer{
		TreatedArea:      r.TreatedArea.or(in(x.TreatedArea, units.area)),
		FieldArea:        r.FieldArea,
		SprayVolume:      in(x.SprayVolume, units.volume),
		MixedVolume:      in(x.MixedVolume, units.volume),
		UsableVolume:     r.UsableVolume.or(in(x.UsableVolume, units.volume)),
		AreaPerLoad:      in(x.AreaPerLoad, units.area),
		Tankfuls:         Number(x.Tankfuls),
		Loads:            x.Loads,
		FullLoads:        x.FullLoads,
		PartLoad:         loadAnswer(x.PartLoad, units),
		EqualLoad:        loadAnswer(x.EqualLoad, units),
		AreaBasis:        r.AreaBasis,
		Products:         make([]TankProductAnswer, len(x.Products)),
		CarrierWater:     waterAnswer(x.CarrierWater, units.volume),
		ApplicationRate:  r.ApplicationRate,
		LabelRate:        r.LabelRate,
		WithinTolerance:  within(x.Verdict),
		OverLabelMaximum: overLabel(x.LabelVerdict),
		MixingOrder:      mixingOrder(ctx, r.Products, x.Products),
		NextSteps:        r.nextSteps(ctx, x),
		Cautions:         tankCautions.in(ctx),
		Warnings:         warnings(ctx, x.Warnings),
	}
	if len(x.Products) == 0 {
		a.Cautions = fillCautions.in(ctx)
	}
	if x.FieldArea != 0 {
		a.FieldAreaPerLoad = in(x.FieldAreaPerLoad, units.area)
	}
	if x.FirstLoadArea != 0 {
		a.FirstLoadArea = in(x.FirstLoadArea, units.area)
	}
	if x.Verdict != finding.NotJudged {
		a.DeliveredDeviation = percent(x.Deviation)
		a.RateTolerance = r.RateTolerance.or(percent(x.RateTolerance))
	}
	for i := range x.Products {
		a.Products[i] = productAnswer(&r.Products[i], &x.Products[i], a.DeliveredDeviation, units)
	}
	return a
}

// nextSteps are what to do about a dose that is not the one that was meant. Products are
// named, those without a name by where they stand.
func (r *TankLoadsRequest) nextSteps(ctx context.Context, x *calc.TankLoadsResult) (steps []notice) {
	var mix, delivered []string
	for i, p := range x.Products {
		name := cmp.Or(r.Products[i].Name, "products/"+strconv.Itoa(i))
		switch {
		case p.MixVerdict == finding.Outside:
			mix = append(mix, name)
		case p.DeliveredVerdict == finding.Outside:
			delivered = append(delivered, name)
		}
	}
	lang := text.From(ctx)
	if mix != nil {
		steps = append(steps, notice{"over_label_maximum", text.Of(lang, "next.over_label_maximum", words(mix))})
	}
	if delivered != nil {
		steps = append(steps, notice{"delivered_over_label_maximum", text.Of(lang, "next.delivered_over_label_maximum", words(delivered))})
	}
	if x.Deviation != 0 {
		steps = append(steps, nextSteps(ctx, "mix_for_applied_rate")...)
	}
	return steps
}

func loadAnswer(l calc.TankLoad, units *resultUnits) *TankLoadAnswer {
	if l.Volume == 0 {
		return nil
	}
	a := &TankLoadAnswer{Volume: in(l.Volume, units.volume), Area: in(l.Area, units.area)}
	if l.FieldArea != 0 {
		a.FieldArea = in(l.FieldArea, units.area)
	}
	return a
}

func waterAnswer(w calc.LoadShares, volume unit.ID) LoadSharesAnswer {
	a := LoadSharesAnswer{PerFullLoad: in(w.PerFullLoad, volume), Total: in(w.Total, volume)}
	if w.PerPartLoad != 0 {
		a.PerPartLoad = in(w.PerPartLoad, volume)
	}
	if w.PerEqualLoad != 0 {
		a.PerEqualLoad = in(w.PerEqualLoad, volume)
	}
	return a
}

func productAnswer(p *TankProductRequest, x *calc.TankProductResult, deviation Quantity, units *resultUnits) TankProductAnswer {
	rate := func(r calc.ProductRate, like ...Quantity) Quantity { return rateIn(r, units, like...) }
	a := TankProductAnswer{
		Name: p.Name,
		LoadSharesAnswer: shares(x, func(m calc.Amount) Quantity {
			if m.Mass != 0 {
				return in(m.Mass, units.mass)
			}
			return in(m.Volume, units.volume)
		}),
		Measure:            shares(x, func(m calc.Amount) Quantity { return jugReading(m, units) }),
		RatePerArea:        rate(x.RatePerArea, p.ProductRate, p.LabelMaximum),
		RatePerTreatedArea: rate(x.RatePerTreatedArea, p.ProductRate, p.LabelMaximum),
		RatePerFieldArea:   rate(x.RatePerFieldArea, p.ProductRate, p.LabelMaximum),
		DeliveredRate:      rate(x.DeliveredRate, p.LabelMaximum, p.ProductRate),
		DeliveredDeviation: deviation,
		LabelMaximum:       p.LabelMaximum,
		OverLabelMaximum:   overLabel(x.LabelVerdict),
	}
	return a
}

// shares words every amount of a product that there is.
func shares(x *calc.TankProductResult, word func(calc.Amount) Quantity) LoadSharesAnswer {
	a := LoadSharesAnswer{PerFullLoad: word(x.PerFullLoad), Total: word(x.Total)}
	if none := (calc.Amount{}); x.PerPartLoad != none {
		a.PerPartLoad = word(x.PerPartLoad)
	}
	if none := (calc.Amount{}); x.PerEqualLoad != none {
		a.PerEqualLoad = word(x.PerEqualLoad)
	}
	return a
}

// rateIn writes a product's rate in the unit of the first of like that was given,
// so that it can be read beside it; nothing for no rate.
func rateIn(r calc.ProductRate, units *resultUnits, like ...Quantity) Quantity {
	if r == (calc.ProductRate{}) {
		return Quantity{}
	}
	u := units.rate
	if r.Mass != 0 {
		u = units.massRate
	}
	for _, q := range like {
		if q.given() {
			u = q.Unit
			break
		}
	}
	if r.Mass != 0 {
		return in(r.Mass, u)
	}
	return in(r.Volume, u)
}
