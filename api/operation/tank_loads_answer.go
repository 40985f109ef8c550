package operation

import (
	"cmp"
	"context"
	"strconv"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// TankLoadsAnswer is the answer of POST /v1/tank-loads.
type TankLoadsAnswer struct {
	TreatedArea      wire.Quantity       `json:"treatedArea"`
	FieldArea        wire.Quantity       `json:"fieldArea,omitzero"`
	SprayVolume      wire.Quantity       `json:"sprayVolume"`
	MixedVolume      wire.Quantity       `json:"mixedVolume"`
	UsableVolume     wire.Quantity       `json:"usableVolume"`
	AreaPerLoad      wire.Quantity       `json:"areaPerLoad"`
	FieldAreaPerLoad wire.Quantity       `json:"fieldAreaPerLoad,omitzero"`
	FirstLoadArea    wire.Quantity       `json:"firstLoadArea,omitzero"`
	Tankfuls         wire.Number         `json:"tankfuls"`
	Loads            int                 `json:"loads"`
	FullLoads        int                 `json:"fullLoads"`
	PartLoad         *TankLoadAnswer     `json:"partLoad,omitzero"`
	EqualLoad        *TankLoadAnswer     `json:"equalLoad,omitzero"`
	AreaBasis        calc.RateBasis      `json:"areaBasis,omitzero"`
	Products         []TankProductAnswer `json:"products"`
	CarrierWater     LoadSharesAnswer    `json:"carrierWater"`

	ApplicationRate    wire.Quantity `json:"applicationRate"`
	LabelRate          wire.Quantity `json:"labelRate,omitzero"`
	RateTolerance      wire.Quantity `json:"rateTolerance,omitzero"`
	DeliveredDeviation wire.Quantity `json:"deliveredDeviation,omitzero"`
	WithinTolerance    *bool         `json:"withinTolerance,omitzero"`
	OverLabelMaximum   *bool         `json:"overLabelMaximum,omitzero"`

	MixingOrder []MixingStepAnswer `json:"mixingOrder,omitzero"`
	NextSteps   []Notice           `json:"nextSteps,omitzero"`
	Cautions    []Notice           `json:"cautions"`
	Warnings    []Warning          `json:"warnings,omitzero"`
	working.Explained
}

// TankLoadAnswer is one fill of the tank.
type TankLoadAnswer struct {
	Volume    wire.Quantity `json:"volume"`
	Area      wire.Quantity `json:"area"`
	FieldArea wire.Quantity `json:"fieldArea,omitzero"`
}

// TankProductAnswer is what of a product goes where.
type TankProductAnswer struct {
	Name string `json:"name,omitzero"`
	LoadSharesAnswer
	Measure            LoadSharesAnswer `json:"measure"`
	RatePerArea        wire.Quantity    `json:"ratePerArea"`
	RatePerTreatedArea wire.Quantity    `json:"ratePerTreatedArea,omitzero"`
	RatePerFieldArea   wire.Quantity    `json:"ratePerFieldArea,omitzero"`
	DeliveredRate      wire.Quantity    `json:"deliveredRate,omitzero"`
	DeliveredDeviation wire.Quantity    `json:"deliveredDeviation,omitzero"`
	LabelMaximum       wire.Quantity    `json:"labelMaximum,omitzero"`
	OverLabelMaximum   *bool            `json:"overLabelMaximum,omitzero"`
}

// LoadSharesAnswer is an amount for each kind of load, and for all.
type LoadSharesAnswer struct {
	PerFullLoad  wire.Quantity `json:"perFullLoad"`
	PerPartLoad  wire.Quantity `json:"perPartLoad,omitzero"`
	PerEqualLoad wire.Quantity `json:"perEqualLoad,omitzero"`
	Total        wire.Quantity `json:"total"`
}

func (r *TankLoadsRequest) answer(ctx context.Context, x *calc.TankLoadsResult) TankLoadsAnswer {
	units := r.units()
	a := TankLoadsAnswer{
		TreatedArea:      r.TreatedArea.Or(wire.In(x.TreatedArea, units.area)),
		FieldArea:        r.FieldArea,
		SprayVolume:      wire.In(x.SprayVolume, units.volume),
		MixedVolume:      wire.In(x.MixedVolume, units.volume),
		UsableVolume:     r.UsableVolume.Or(wire.In(x.UsableVolume, units.volume)),
		AreaPerLoad:      wire.In(x.AreaPerLoad, units.area),
		Tankfuls:         wire.Number(x.Tankfuls),
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
		OverLabelMaximum: breaksLabel(x.LabelVerdict),
		MixingOrder:      mixingOrder(ctx, r.Products, x.Products),
		NextSteps:        r.nextSteps(ctx, x),
		Cautions:         tankCautions.in(ctx),
		Warnings:         warnings(ctx, x.Warnings),
	}
	if len(x.Products) == 0 {
		a.Cautions = fillCautions.in(ctx)
	}
	if x.FieldArea != 0 {
		a.FieldAreaPerLoad = wire.In(x.FieldAreaPerLoad, units.area)
	}
	if x.FirstLoadArea != 0 {
		a.FirstLoadArea = wire.In(x.FirstLoadArea, units.area)
	}
	if x.Verdict != finding.NotJudged {
		a.DeliveredDeviation = percent(x.Deviation)
		a.RateTolerance = r.RateTolerance.Or(percent(x.RateTolerance))
	}
	for i := range x.Products {
		a.Products[i] = productAnswer(&r.Products[i], &x.Products[i], a.DeliveredDeviation, units)
	}
	return a
}

// nextSteps are what to do about a dose that is not the one that was meant. Products are
// named, those without a name by where they stand.
func (r *TankLoadsRequest) nextSteps(ctx context.Context, x *calc.TankLoadsResult) (steps []Notice) {
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
		steps = append(steps, Notice{"over_label_maximum", text.Of(lang, "next.over_label_maximum", wire.Enumeration(mix))})
	}
	if delivered != nil {
		steps = append(steps, Notice{"delivered_over_label_maximum", text.Of(lang, "next.delivered_over_label_maximum", wire.Enumeration(delivered))})
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
	a := &TankLoadAnswer{Volume: wire.In(l.Volume, units.volume), Area: wire.In(l.Area, units.area)}
	if l.FieldArea != 0 {
		a.FieldArea = wire.In(l.FieldArea, units.area)
	}
	return a
}

func waterAnswer(w calc.LoadShares, volume unit.ID) LoadSharesAnswer {
	a := LoadSharesAnswer{PerFullLoad: wire.In(w.PerFullLoad, volume), Total: wire.In(w.Total, volume)}
	if w.PerPartLoad != 0 {
		a.PerPartLoad = wire.In(w.PerPartLoad, volume)
	}
	if w.PerEqualLoad != 0 {
		a.PerEqualLoad = wire.In(w.PerEqualLoad, volume)
	}
	return a
}

func productAnswer(p *TankProductRequest, x *calc.TankProductResult, deviation wire.Quantity, units *resultUnits) TankProductAnswer {
	rate := func(r calc.ProductRate, like ...wire.Quantity) wire.Quantity { return rateIn(r, units, like...) }
	a := TankProductAnswer{
		Name: p.Name,
		LoadSharesAnswer: shares(x, func(m calc.Amount) wire.Quantity {
			if m.Mass != 0 {
				return wire.In(m.Mass, units.mass)
			}
			return wire.In(m.Volume, units.volume)
		}),
		Measure:            shares(x, func(m calc.Amount) wire.Quantity { return jugReading(m, units) }),
		RatePerArea:        rate(x.RatePerArea, p.ProductRate, p.LabelMaximum),
		RatePerTreatedArea: rate(x.RatePerTreatedArea, p.ProductRate, p.LabelMaximum),
		RatePerFieldArea:   rate(x.RatePerFieldArea, p.ProductRate, p.LabelMaximum),
		DeliveredRate:      rate(x.DeliveredRate, p.LabelMaximum, p.ProductRate),
		DeliveredDeviation: deviation,
		LabelMaximum:       p.LabelMaximum,
		OverLabelMaximum:   breaksLabel(x.LabelVerdict),
	}
	return a
}

// shares words every amount of a product that there is.
func shares(x *calc.TankProductResult, word func(calc.Amount) wire.Quantity) LoadSharesAnswer {
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
func rateIn(r calc.ProductRate, units *resultUnits, like ...wire.Quantity) wire.Quantity {
	if r == (calc.ProductRate{}) {
		return wire.Quantity{}
	}
	u := units.rate
	if r.Mass != 0 {
		u = units.massRate
	}
	for _, q := range like {
		if q.Given() {
			u = q.Unit
			break
		}
	}
	if r.Mass != 0 {
		return wire.In(r.Mass, u)
	}
	return wire.In(r.Volume, u)
}
