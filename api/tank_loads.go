package api

import (
	"context"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TankLoadsRequest is the body of POST /v1/tank-loads.
type TankLoadsRequest struct {
	TankVolume      Quantity             `json:"tankVolume" validate:"required" is:"volume"`
	UsableVolume    Quantity             `json:"usableVolume,omitzero" is:"volume"`
	ResidualVolume  Quantity             `json:"residualVolume,omitzero" is:"volume"`
	ApplicationRate Quantity             `json:"applicationRate" validate:"required" is:"application_rate"`
	LabelRate       Quantity             `json:"labelRate,omitzero" is:"application_rate"`
	RateTolerance   Quantity             `json:"rateTolerance,omitzero" is:"ratio"`
	TreatedArea     Quantity             `json:"treatedArea,omitzero" is:"area"`
	FieldArea       Quantity             `json:"fieldArea,omitzero" is:"area"`
	Width           Quantity             `json:"width,omitzero" is:"length"`
	RowSpacing      Quantity             `json:"rowSpacing,omitzero" is:"length"`
	AreaBasis       calc.RateBasis       `json:"areaBasis,omitzero"`
	EqualLoads      *bool                `json:"equalLoads,omitzero"`
	Products        []TankProductRequest `json:"products,omitzero" len:"0..30"`
	Results
}

// TankProductRequest is something that goes into the water, in one of three forms.
type TankProductRequest struct {
	Name                    string           `json:"name,omitzero"`
	Role                    calc.ProductRole `json:"role,omitzero"`
	ProductRate             Quantity         `json:"productRate,omitzero" is:"application_rate,mass_rate"`
	Concentration           Quantity         `json:"concentration,omitzero" is:"ratio,concentration,density"`
	ActiveIngredientRate    Quantity         `json:"activeIngredientRate,omitzero" is:"mass_rate"`
	ActiveIngredientContent Quantity         `json:"activeIngredientContent,omitzero" is:"ratio,density"`
	LabelMaximum            Quantity         `json:"labelMaximum,omitzero" is:"application_rate,mass_rate"`
}

func tankLoads(ctx context.Context, r *TankLoadsRequest) (TankLoadsAnswer, error) {
	result, err := calc.TankLoads(r.input())
	if err != nil {
		return TankLoadsAnswer{}, err
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
		AreaBasis:       r.AreaBasis,
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
