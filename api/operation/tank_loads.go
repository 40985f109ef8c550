package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/unit"
)

// TankLoadsRequest is the body of POST /v1/tank-loads.
type TankLoadsRequest struct {
	TankVolume      wire.Quantity        `json:"tankVolume" validate:"required" is:"volume"`
	UsableVolume    wire.Quantity        `json:"usableVolume,omitzero" is:"volume"`
	ResidualVolume  wire.Quantity        `json:"residualVolume,omitzero" is:"volume"`
	ApplicationRate wire.Quantity        `json:"applicationRate" validate:"required" is:"application_rate"`
	LabelRate       wire.Quantity        `json:"labelRate,omitzero" is:"application_rate"`
	RateTolerance   wire.Quantity        `json:"rateTolerance,omitzero" is:"ratio"`
	TreatedArea     wire.Quantity        `json:"treatedArea,omitzero" is:"area"`
	FieldArea       wire.Quantity        `json:"fieldArea,omitzero" is:"area"`
	Width           wire.Quantity        `json:"width,omitzero" is:"length"`
	RowSpacing      wire.Quantity        `json:"rowSpacing,omitzero" is:"length"`
	AreaBasis       calc.RateBasis       `json:"areaBasis,omitzero"`
	EqualLoads      *bool                `json:"equalLoads,omitzero"`
	Products        []TankProductRequest `json:"products,omitzero" len:"0..30"`
	Results
}

// TankProductRequest is something that goes into the water, in one of three forms.
type TankProductRequest struct {
	Name                    string           `json:"name,omitzero"`
	Role                    calc.ProductRole `json:"role,omitzero"`
	Formulation             calc.Formulation `json:"formulation,omitzero"`
	ProductRate             wire.Quantity    `json:"productRate,omitzero" is:"application_rate,mass_rate"`
	Concentration           wire.Quantity    `json:"concentration,omitzero" is:"ratio,concentration,density"`
	ActiveIngredientRate    wire.Quantity    `json:"activeIngredientRate,omitzero" is:"mass_rate"`
	ActiveIngredientContent wire.Quantity    `json:"activeIngredientContent,omitzero" is:"ratio,density"`
	LabelMaximum            wire.Quantity    `json:"labelMaximum,omitzero" is:"application_rate,mass_rate"`
}

func tankLoads(ctx context.Context, r *TankLoadsRequest) (TankLoadsAnswer, error) {
	result, err := calc.TankLoads(r.input())
	if err != nil {
		return TankLoadsAnswer{}, err
	}
	a := r.answer(ctx, &result)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *TankLoadsRequest) input() calc.TankLoadsInput {
	in := calc.TankLoadsInput{
		TankVolume:      unit.Volume(r.TankVolume.SI()),
		UsableVolume:    unit.Volume(r.UsableVolume.SI()),
		ResidualVolume:  unit.Volume(r.ResidualVolume.SI()),
		ApplicationRate: unit.ApplicationRate(r.ApplicationRate.SI()),
		LabelRate:       unit.ApplicationRate(r.LabelRate.SI()),
		RateTolerance:   unit.Ratio(r.RateTolerance.SI()),
		TreatedArea:     unit.Area(r.TreatedArea.SI()),
		FieldArea:       unit.Area(r.FieldArea.SI()),
		Width:           unit.Length(r.Width.SI()),
		RowSpacing:      unit.Length(r.RowSpacing.SI()),
		AreaBasis:       r.AreaBasis,
		EqualLoads:      r.EqualLoads != nil && *r.EqualLoads,
		Products:        make([]calc.TankProduct, len(r.Products)),
	}
	for i := range r.Products {
		p := &r.Products[i]
		in.Products[i] = calc.TankProduct{
			ProductRate:             productRate(p.ProductRate),
			Concentration:           strength(p.Concentration),
			ActiveIngredientRate:    unit.MassRate(p.ActiveIngredientRate.SI()),
			ActiveIngredientContent: ingredientContent(p.ActiveIngredientContent),
			LabelMaximum:            productRate(p.LabelMaximum),
		}
	}
	return in
}

func productRate(q wire.Quantity) calc.ProductRate {
	if q.Unit.Kind() == unit.KindMassRate {
		return calc.ProductRate{Mass: unit.MassRate(q.SI())}
	}
	return calc.ProductRate{Volume: unit.ApplicationRate(q.SI())}
}

// strength takes a plain ratio for one of volumes.
func strength(q wire.Quantity) calc.Strength {
	if q.Unit.Kind() == unit.KindDensity {
		return calc.Strength{Mass: unit.Density(q.SI())}
	}
	return calc.Strength{Volume: unit.Concentration(q.SI())}
}

func ingredientContent(q wire.Quantity) calc.Content {
	if q.Unit.Kind() == unit.KindDensity {
		return calc.Content{PerVolume: unit.Density(q.SI())}
	}
	return calc.Content{Share: unit.Ratio(q.SI())}
}
