package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TankLoadsRequest is the body of POST /v1/tank-loads.
type TankLoadsRequest struct {
	TankVolume      Quantity             `json:"tankVolume" validate:"required"`
	UsableVolume    Quantity             `json:"usableVolume,omitzero"`
	ResidualVolume  Quantity             `json:"residualVolume,omitzero"`
	ApplicationRate Quantity             `json:"applicationRate" validate:"required"`
	LabelRate       Quantity             `json:"labelRate,omitzero"`
	RateTolerance   Quantity             `json:"rateTolerance,omitzero"`
	TreatedArea     Quantity             `json:"treatedArea,omitzero"`
	FieldArea       Quantity             `json:"fieldArea,omitzero"`
	Width           Quantity             `json:"width,omitzero"`
	RowSpacing      Quantity             `json:"rowSpacing,omitzero"`
	AreaBasis       string               `json:"areaBasis,omitzero"`
	EqualLoads      *bool                `json:"equalLoads,omitzero"`
	Products        []TankProductRequest `json:"products,omitzero"`
	Results
}

// TankProductRequest is something that goes into the water, in one of three forms.
type TankProductRequest struct {
	Name                    string   `json:"name,omitzero"`
	Role                    string   `json:"role,omitzero"`
	ProductRate             Quantity `json:"productRate,omitzero"`
	Concentration           Quantity `json:"concentration,omitzero"`
	ActiveIngredientRate    Quantity `json:"activeIngredientRate,omitzero"`
	ActiveIngredientContent Quantity `json:"activeIngredientContent,omitzero"`
	LabelMaximum            Quantity `json:"labelMaximum,omitzero"`
}

// The roles of a product, which decide when it goes into the tank.
const (
	roleWaterConditioner = "water_conditioner"
	roleProduct          = "product"
	roleAdjuvant         = "adjuvant"
)

var tankProductTable = objectOf(
	label("name", func(p *TankProductRequest) *string { return &p.Name }, longestLabel),
	oneOf("role", func(p *TankProductRequest) *string { return &p.Role }, roleWaterConditioner, roleProduct, roleAdjuvant),
	quantity("productRate", func(p *TankProductRequest) *Quantity { return &p.ProductRate }, unit.KindApplicationRate, unit.KindMassRate),
	quantity("concentration", func(p *TankProductRequest) *Quantity { return &p.Concentration }, unit.KindRatio, unit.KindConcentration, unit.KindDensity),
	quantity("activeIngredientRate", func(p *TankProductRequest) *Quantity { return &p.ActiveIngredientRate }, unit.KindMassRate),
	quantity("activeIngredientContent", func(p *TankProductRequest) *Quantity { return &p.ActiveIngredientContent }, unit.KindRatio, unit.KindDensity),
	quantity("labelMaximum", func(p *TankProductRequest) *Quantity { return &p.LabelMaximum }, unit.KindApplicationRate, unit.KindMassRate),
)

var tankLoadsTable = objectOf(
	quantity("tankVolume", func(r *TankLoadsRequest) *Quantity { return &r.TankVolume }, unit.KindVolume),
	quantity("usableVolume", func(r *TankLoadsRequest) *Quantity { return &r.UsableVolume }, unit.KindVolume),
	quantity("residualVolume", func(r *TankLoadsRequest) *Quantity { return &r.ResidualVolume }, unit.KindVolume),
	quantity("applicationRate", func(r *TankLoadsRequest) *Quantity { return &r.ApplicationRate }, unit.KindApplicationRate),
	quantity("labelRate", func(r *TankLoadsRequest) *Quantity { return &r.LabelRate }, unit.KindApplicationRate),
	quantity("rateTolerance", func(r *TankLoadsRequest) *Quantity { return &r.RateTolerance }, unit.KindRatio),
	quantity("treatedArea", func(r *TankLoadsRequest) *Quantity { return &r.TreatedArea }, unit.KindArea),
	quantity("fieldArea", func(r *TankLoadsRequest) *Quantity { return &r.FieldArea }, unit.KindArea),
	quantity("width", func(r *TankLoadsRequest) *Quantity { return &r.Width }, unit.KindLength),
	quantity("rowSpacing", func(r *TankLoadsRequest) *Quantity { return &r.RowSpacing }, unit.KindLength),
	oneOf("areaBasis", func(r *TankLoadsRequest) *string { return &r.AreaBasis }, basisTreated, basisField),
	flag("equalLoads", func(r *TankLoadsRequest) **bool { return &r.EqualLoads }),
	list("products", func(r *TankLoadsRequest) *[]TankProductRequest { return &r.Products }, 0, mostProducts, tankProductTable),
	results(func(r *TankLoadsRequest) *Results { return &r.Results }),
	showing(func(r *TankLoadsRequest) *Showing { return &r.Showing }),
)

func tankLoads(ctx context.Context, r *TankLoadsRequest) (TankLoadsResponse, error) {
	result, err := calc.TankLoads(r.input())
	if err != nil {
		return TankLoadsResponse{}, err
	}
	a := r.answer(ctx, &result)
	w := explaining(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.answer()
	return a, nil
}

func (r *TankLoadsRequest) input() calc.TankLoadsInput {
	in := calc.TankLoadsInput{
		TankVolume:      unit.Volume(r.TankVolume.si()),
		UsableVolume:    unit.Volume(r.UsableVolume.si()),
		ResidualVolume:  unit.Volume(r.ResidualVolume.si()),
		ApplicationRate: unit.ApplicationRate(r.ApplicationRate.si()),
		LabelRate:       unit.ApplicationRate(r.LabelRate.si()),
		RateTolerance:   unit.Ratio(r.RateTolerance.si()),
		TreatedArea:     unit.Area(r.TreatedArea.si()),
		FieldArea:       unit.Area(r.FieldArea.si()),
		Width:           unit.Length(r.Width.si()),
		RowSpacing:      unit.Length(r.RowSpacing.si()),
		AreaBasis:       rateBases[r.AreaBasis],
		EqualLoads:      r.EqualLoads != nil && *r.EqualLoads,
		Products:        make([]calc.TankProduct, len(r.Products)),
	}
	for i := range r.Products {
		p := &r.Products[i]
		in.Products[i] = calc.TankProduct{
			ProductRate:             productRate(p.ProductRate),
			Concentration:           strength(p.Concentration),
			ActiveIngredientRate:    unit.MassRate(p.ActiveIngredientRate.si()),
			ActiveIngredientContent: ingredientContent(p.ActiveIngredientContent),
			LabelMaximum:            productRate(p.LabelMaximum),
		}
	}
	return in
}

func productRate(q Quantity) calc.ProductRate {
	if q.Unit.Kind() == unit.KindMassRate {
		return calc.ProductRate{Mass: unit.MassRate(q.si())}
	}
	return calc.ProductRate{Volume: unit.ApplicationRate(q.si())}
}

// strength takes a plain ratio for one of volumes.
func strength(q Quantity) calc.Strength {
	if q.Unit.Kind() == unit.KindDensity {
		return calc.Strength{Mass: unit.Density(q.si())}
	}
	return calc.Strength{Volume: unit.Concentration(q.si())}
}

func ingredientContent(q Quantity) calc.Content {
	if q.Unit.Kind() == unit.KindDensity {
		return calc.Content{PerVolume: unit.Density(q.si())}
	}
	return calc.Content{Share: unit.Ratio(q.si())}
}
