package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
	"wetrun/internal/text"
)

// MixingStepAnswer is one step of filling the tank.
type MixingStepAnswer struct {
	Code     string   `json:"code"`
	Text     string   `json:"text"`
	Products []string `json:"products,omitzero"`
}

// The steps of filling a tank that no role or formulation names.
const (
	stepHalfWater = "half_water"
	stepDry       = "dry"
	stepLiquid    = "liquid"
	stepFillUp    = "fill_up"
)

// mixingStepCodes are the steps in their order. The order of the label goes before it. Liquids
// of a formulation that is not given come after those of one that is.
//
// Source: South Dakota State University Extension, Preparing spray solutions: mixing order;
// Virginia Cooperative Extension BSE-351P, Understanding spray tank mixing practices. Both for
// the order only, read as excerpts.
var mixingStepCodes = []string{
	stepHalfWater, string(calc.WaterConditioner), string(calc.CompatibilityAgent), stepDry,
	string(calc.Suspension), string(calc.EmulsifiableConcentrate), string(calc.Solution), stepLiquid,
	string(calc.Adjuvant), stepFillUp,
}

// mixingOrder lists the steps that there is something for, each with pointers to
// its products; nothing for water alone.
func mixingOrder(ctx context.Context, requests []TankProductRequest, results []calc.TankProductResult) []MixingStepAnswer {
	if len(requests) == 0 {
		return nil
	}
	lang := text.From(ctx)
	var steps []MixingStepAnswer
	for _, word := range mixingStepCodes {
		step := MixingStepAnswer{Code: word, Text: text.Of(lang, "mixing."+word)}
		for i := range requests {
			if mixingStep(&requests[i], &results[i]) == word {
				step.Products = append(step.Products, wire.Pointer(finding.Item("products", i)))
			}
		}
		if step.Products != nil || word == stepHalfWater || word == stepFillUp {
			steps = append(steps, step)
		}
	}
	return steps
}

// mixingStep is the step that a product belongs to: that of its role, or else of its
// formulation. Without either a weighed product is taken for dry, a poured one for liquid.
func mixingStep(p *TankProductRequest, x *calc.TankProductResult) string {
	switch {
	case p.Role != "" && p.Role != calc.PlainProduct:
		return string(p.Role)
	case p.Formulation == calc.WettablePowder, p.Formulation == calc.DispersibleGranule:
		return stepDry
	case p.Formulation != "":
		return string(p.Formulation)
	case x.Total.Mass != 0:
		return stepDry
	}
	return stepLiquid
}

// jugReading writes an amount as a jug or a scale shows it: in the largest of its
// units of which it is at least one, or else in the smallest.
func jugReading(m calc.Amount, units *resultUnits) wire.Quantity {
	si, ladder := float64(m.Volume), units.jug
	if m.Mass != 0 {
		si, ladder = float64(m.Mass), units.scale
	}
	u := ladder[0]
	for _, larger := range ladder[1:] {
		if si/larger.Factor() >= 1-1e-9 { // exactly one, whatever conversion left of it
			u = larger
		}
	}
	return wire.In(si, u)
}

// The units of jugs and scales, smallest first.
var (
	usJug, metricJug     = []unit.ID{unit.IDFlOzUs, unit.IDQtUs, unit.IDGalUs}, []unit.ID{unit.IDML, unit.IDL}
	usScale, metricScale = []unit.ID{unit.IDOz, unit.IDLb}, []unit.ID{unit.IDG, unit.IDKg}
)
