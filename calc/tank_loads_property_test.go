package calc_test

import (
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// anyTank draws a job of up to some hundred loads, with a product of each form.
func anyTank(t *rapid.T) calc.TankLoadsInput {
	f := func(low, high float64, label string) float64 { return rapid.Float64Range(low, high).Draw(t, label) }
	in := calc.TankLoadsInput{
		TankVolume:      unit.Volume(f(0.1, 5, "tank")),
		ApplicationRate: unit.ApplicationRate(f(1e-6, 1e-4, "rate")),
		TreatedArea:     unit.Area(f(1e3, 1e6, "area")),
		EqualLoads:      rapid.Bool().Draw(t, "equal"),
		Products: []calc.TankProduct{
			{ProductRate: calc.ProductRate{Volume: unit.ApplicationRate(f(1e-8, 1e-7, "product"))}},
			{Concentration: calc.Strength{Mass: unit.Density(f(0.01, 10, "strength"))}},
			{ActiveIngredientRate: unit.MassRate(f(1e-6, 1e-5, "ingredient")), ActiveIngredientContent: calc.Content{Share: unit.Ratio(f(0.01, 1, "share"))}},
		},
	}
	if rapid.Bool().Draw(t, "residual") {
		in.ResidualVolume = in.TankVolume * unit.Volume(f(0.001, 0.5, "stays"))
	}
	return in
}

// TestPropertyLoadsAddUp: the loads together are what is mixed, cover the area, and
// hold all of the products and the water; none is more than the tank.
func TestPropertyLoadsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyTank(t)
		r := mustTankLoads(t, in)
		// one takes a full, a part and an equal amount of anything.
		sum := func(full, part, equal float64) float64 {
			if in.EqualLoads {
				return float64(r.Loads) * equal
			}
			return float64(r.FullLoads)*full + part
		}
		agrees(t, "volume", sum(float64(r.UsableVolume), float64(r.PartLoad.Volume), float64(r.EqualLoad.Volume)), float64(r.MixedVolume), 2e-9)
		w := r.CarrierWater
		agrees(t, "water", sum(float64(w.PerFullLoad), float64(w.PerPartLoad), float64(w.PerEqualLoad)), float64(w.Total), 2e-9)
		for _, p := range r.Products {
			agrees(t, "volume of product", sum(float64(p.PerFullLoad.Volume), float64(p.PerPartLoad.Volume), float64(p.PerEqualLoad.Volume)), float64(p.Total.Volume), 2e-9)
			agrees(t, "mass of product", sum(float64(p.PerFullLoad.Mass), float64(p.PerPartLoad.Mass), float64(p.PerEqualLoad.Mass)), float64(p.Total.Mass), 2e-9)
		}
		area := sum(float64(r.AreaPerLoad), float64(r.PartLoad.Area), float64(r.EqualLoad.Area))
		if in.ResidualVolume != 0 {
			if r.FirstLoadArea < 0 {
				t.Fatalf("the first load covers %v", r.FirstLoadArea)
			}
			first := r.AreaPerLoad
			switch {
			case in.EqualLoads:
				first = r.EqualLoad.Area
			case r.FullLoads == 0:
				first = r.PartLoad.Area
			}
			area += float64(r.FirstLoadArea - first)
		}
		agrees(t, "area", area, float64(in.TreatedArea), 1e-8)
		if most := in.TankVolume * (1 + 1e-9); r.PartLoad.Volume > most || r.EqualLoad.Volume > most {
			t.Fatalf("%v or %v does not fit into %v", r.PartLoad.Volume, r.EqualLoad.Volume, in.TankVolume)
		}
	})
}

// TestPropertyDose: what is applied to an area is the dose that was asked for,
// whatever the tank, and what was mixed for another rate differs from it as the
// rates do.
func TestPropertyDose(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := anyTank(t)
		in.ResidualVolume = 0
		in.LabelRate = in.ApplicationRate * unit.ApplicationRate(rapid.Float64Range(0.5, 2).Draw(t, "meant"))
		r := mustTankLoads(t, in)
		area := float64(in.TreatedArea)
		agrees(t, "liquid", float64(r.Products[0].Total.Volume)/area, float64(in.Products[0].ProductRate.Volume), 1e-12)
		ingredient := r.Products[2].Total.Mass * unit.Mass(in.Products[2].ActiveIngredientContent.Share)
		agrees(t, "ingredient", float64(ingredient)/area, float64(in.Products[2].ActiveIngredientRate), 1e-12)
		ratio := float64(in.ApplicationRate / in.LabelRate)
		agrees(t, "delivered", float64(r.Products[0].DeliveredRate.Volume/r.Products[0].RatePerArea.Volume), ratio, 1e-12)
		agrees(t, "delivered dry", float64(r.Products[2].DeliveredRate.Mass/r.Products[2].RatePerArea.Mass), ratio, 1e-12)
		agrees(t, "by concentration", float64(r.Products[1].DeliveredRate.Mass), float64(r.Products[1].RatePerArea.Mass), 1e-12)
	})
}
