package calc_test

import (
	"errors"
	"testing"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

func TestTankLoadsRefuses(t *testing.T) {
	good := calc.TankLoadsInput{TankVolume: 1, ApplicationRate: 1e-5, TreatedArea: 1e4}
	field := calc.TankLoadsInput{TankVolume: 1, ApplicationRate: 1e-5, FieldArea: 1e4, Width: 1, RowSpacing: 2, AreaBasis: calc.RateBasisField}
	for _, c := range []struct {
		want   string
		from   calc.TankLoadsInput
		change func(*calc.TankLoadsInput)
	}{
		{"tankVolume: required; applicationRate: required; treatedArea: required", calc.TankLoadsInput{}, func(*calc.TankLoadsInput) {}},
		{"tankVolume: not_positive", good, func(in *calc.TankLoadsInput) { in.TankVolume = -1 }},
		{"usableVolume: not_positive", good, func(in *calc.TankLoadsInput) { in.UsableVolume = -1 }},
		{"usableVolume: usable_above_tank", good, func(in *calc.TankLoadsInput) { in.UsableVolume = 1.01 }},
		{"residualVolume: not_positive", good, func(in *calc.TankLoadsInput) { in.ResidualVolume = -1 }},
		{"residualVolume: residual_too_large", good, func(in *calc.TankLoadsInput) { in.ResidualVolume = 0.51 }},
		{"residualVolume: residual_too_large", good, func(in *calc.TankLoadsInput) { in.UsableVolume, in.ResidualVolume = 0.5, 0.3 }},
		{"applicationRate: not_finite", good, func(in *calc.TankLoadsInput) { in.ApplicationRate = unit.ApplicationRate(endless) }},
		{"labelRate: not_positive", good, func(in *calc.TankLoadsInput) { in.LabelRate = -1 }},
		{"rateTolerance: not_finite", good, func(in *calc.TankLoadsInput) { in.RateTolerance = unit.Ratio(noNumber) }},
		{"treatedArea: not_positive", good, func(in *calc.TankLoadsInput) { in.TreatedArea = -1 }},
		{"treatedArea: conflict", good, func(in *calc.TankLoadsInput) { in.FieldArea = 1 }},
		{"treatedArea: conflict; width: not_positive", good, func(in *calc.TankLoadsInput) { in.Width = -1 }},
		{"treatedArea: conflict; rowSpacing: not_positive", good, func(in *calc.TankLoadsInput) { in.RowSpacing = -1 }},
		{"treatedArea: conflict", good, func(in *calc.TankLoadsInput) { in.AreaBasis = calc.RateBasisField }},
		{"fieldArea: required", field, func(in *calc.TankLoadsInput) { in.FieldArea = 0 }},
		{"width: required", field, func(in *calc.TankLoadsInput) { in.Width = 0 }},
		{"rowSpacing: required", field, func(in *calc.TankLoadsInput) { in.RowSpacing = 0 }},
		{"areaBasis: area_basis_required", field, func(in *calc.TankLoadsInput) { in.AreaBasis = calc.RateBasisNone }},
		{"areaBasis: not_allowed", field, func(in *calc.TankLoadsInput) { in.AreaBasis = "other" }},
		{"tankVolume: too_many_loads", good, func(in *calc.TankLoadsInput) { in.TankVolume = 1e-8 }},
	} {
		in := c.from
		c.change(&in)
		if r, err := calc.TankLoads(in); refusal(err) != c.want || r.Loads != 0 {
			t.Errorf("got %q and %d loads, want %q", refusal(err), r.Loads, c.want)
		}
	}
	for _, in := range []calc.TankLoadsInput{good, field} {
		in.UsableVolume, in.ResidualVolume = 1, 0.5
		mustTankLoads(t, in)
	}
	good.AreaBasis = calc.RateBasisTreated
	mustTankLoads(t, good)
}

func TestTankProductRefuses(t *testing.T) {
	liquid, dry := calc.ProductRate{Volume: 1e-7}, calc.ProductRate{Mass: 1e-4}
	share, poured := calc.Content{Share: 0.5}, calc.Content{PerVolume: 400}
	for _, c := range []struct {
		want    string
		product calc.TankProduct
	}{
		{"products[1]: product_form_required", calc.TankProduct{}},
		{"products[1]: product_form_required", calc.TankProduct{LabelMaximum: liquid}},
		{"products[1].concentration: conflict", calc.TankProduct{ProductRate: liquid, Concentration: calc.Strength{Volume: 0.01}}},
		{"products[1].activeIngredientRate: conflict; products[1].activeIngredientContent: conflict",
			calc.TankProduct{ProductRate: liquid, ActiveIngredientRate: 1e-4, ActiveIngredientContent: share}},
		{"products[1].activeIngredientContent: conflict", calc.TankProduct{Concentration: calc.Strength{Mass: 1}, ActiveIngredientContent: share}},
		{"products[1].activeIngredientContent: required", calc.TankProduct{ActiveIngredientRate: 1e-4}},
		{"products[1].activeIngredientRate: required", calc.TankProduct{ActiveIngredientContent: share}},
		{"products[1].activeIngredientContent: content_above_whole", calc.TankProduct{ActiveIngredientRate: 1e-4, ActiveIngredientContent: calc.Content{Share: 1.01}}},
		{"products[1].productRate: conflict", calc.TankProduct{ProductRate: calc.ProductRate{Volume: 1e-7, Mass: 1e-4}}},
		{"products[1].concentration: not_positive", calc.TankProduct{Concentration: calc.Strength{Mass: -1}}},
		{"products[1].labelMaximum: not_finite", calc.TankProduct{ProductRate: dry, LabelMaximum: calc.ProductRate{Mass: unit.MassRate(endless)}}},
		{"products[1].labelMaximum: measure_mismatch", calc.TankProduct{ProductRate: liquid, LabelMaximum: dry}},
		{"products[1].labelMaximum: measure_mismatch", calc.TankProduct{ProductRate: dry, LabelMaximum: liquid}},
		{"products[1].labelMaximum: measure_mismatch", calc.TankProduct{Concentration: calc.Strength{Mass: 1}, LabelMaximum: liquid}},
		{"products[1].labelMaximum: measure_mismatch", calc.TankProduct{Concentration: calc.Strength{Volume: 0.01}, LabelMaximum: dry}},
		{"products[1].labelMaximum: measure_mismatch", calc.TankProduct{ActiveIngredientRate: 1e-4, ActiveIngredientContent: share, LabelMaximum: liquid}},
		{"products[1].labelMaximum: measure_mismatch", calc.TankProduct{ActiveIngredientRate: 1e-4, ActiveIngredientContent: poured, LabelMaximum: dry}},
		{"products: products_exceed_load", calc.TankProduct{ProductRate: calc.ProductRate{Volume: 1.01e-5}}},
		// 0.99 and the 1 % of the first product fill the load, and no more.
		{"", calc.TankProduct{Concentration: calc.Strength{Volume: 0.99}}},
		{"", calc.TankProduct{ActiveIngredientRate: 1e-4, ActiveIngredientContent: calc.Content{Share: 1}, LabelMaximum: dry}},
		{"", calc.TankProduct{ActiveIngredientRate: 1e-4, ActiveIngredientContent: poured, LabelMaximum: liquid}},
	} {
		in := calc.TankLoadsInput{
			TankVolume: 1, ApplicationRate: 1e-5, TreatedArea: 1e4,
			Products: []calc.TankProduct{{ProductRate: liquid}, c.product},
		}
		if r, err := calc.TankLoads(in); refusal(err) != c.want {
			t.Errorf("%+v: got %q and %d loads, want %q", c.product, refusal(err), r.Loads, c.want)
		}
	}
}

// TestTankLoadsMost: a million loads are shared out, more are not.
func TestTankLoadsMost(t *testing.T) {
	in := calc.TankLoadsInput{TankVolume: 1, ApplicationRate: 1e-3, TreatedArea: 1e9}
	if r := mustTankLoads(t, in); r.Loads != 1e6 {
		t.Errorf("%d loads", r.Loads)
	}
	in.TreatedArea *= 1.1
	if _, err := calc.TankLoads(in); refusal(err) != "tankVolume: too_many_loads" {
		t.Errorf("refused with %q", refusal(err))
	}
}

// TestTankProductRefusesBesideTheFirstForm: a second form is refused beside the first, the
// rate of the product, or without one its concentration.
func TestTankProductRefusesBesideTheFirstForm(t *testing.T) {
	strength := calc.Strength{Volume: 0.01}
	for want, product := range map[string]calc.TankProduct{
		"products[0].productRate":   {ProductRate: calc.ProductRate{Volume: 1e-7}, Concentration: strength},
		"products[0].concentration": {Concentration: strength, ActiveIngredientRate: 1e-4},
	} {
		_, err := calc.TankLoads(calc.TankLoadsInput{TankVolume: 1, ApplicationRate: 1e-5, TreatedArea: 1e4, Products: []calc.TankProduct{product}})
		var v finding.Invalid
		if !errors.As(err, &v) || len(v) != 1 || v[0].Code != finding.CodeConflict || v[0].Because.String() != want {
			t.Errorf("beside %s: %+v", want, err)
		}
	}
}
