package calc_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

func mustTankLoads(t rapid.TB, in calc.TankLoadsInput) calc.TankLoadsResult {
	t.Helper()
	r, err := calc.TankLoads(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

const (
	gal, gpa = unit.USGallon, unit.USGallonPerAcre
	lha      = unit.LitrePerHectare
)

// TestPublishedTankLoads: areas per tank, as printed.
func TestPublishedTankLoads(t *testing.T) {
	for _, c := range []struct {
		source   string
		tank     unit.Volume
		rate     unit.ApplicationRate
		printed  float64
		decimals int
	}{
		// One sixth of an acre, from 150 / 25 turned over.
		{"How to Calibrate a Handgun, Mesa County (CO) Weed and Pest, https://www.mesacounty.us/pest/controlling-weeds/sprayer-calibration-methods/how-to-calibrate-a-handgun/",
			25 * gal, 150 * gpa, 1.0 / 6, 9},
		{"Can you tell me about sprayer calibration?, Mississippi State University Extension, http://extension.msstate.edu/content/can-you-tell-me-about-sprayer-calibration",
			300 * gal, 10 * gpa, 30, 0},
		{"Sprayer Calibrations and Calculations, Montana State University Extension, MT 2000-14, seen in a copy only",
			300 * gal, 40 * gpa, 7.5, 1},
	} {
		r := mustTankLoads(t, calc.TankLoadsInput{TankVolume: c.tank, ApplicationRate: c.rate, TreatedArea: unit.Acre})
		printedAs(t, c.source, r.AreaPerLoad.In(unit.Acre), c.printed, c.decimals)
	}
}

// TestPublishedTankProducts: one product in each form, as printed.
func TestPublishedTankProducts(t *testing.T) {
	perFull := func(rate unit.ApplicationRate, tank unit.Volume, p calc.TankProduct) calc.TankProductResult {
		t.Helper()
		return mustTankLoads(t, calc.TankLoadsInput{
			TankVolume: tank, ApplicationRate: rate, TreatedArea: 20 * unit.Acre, Products: []calc.TankProduct{p},
		}).Products[0]
	}
	// Pesticide Mixing and Sprayer Calibration Equations, South Dakota State
	// University Extension, https://extension.sdstate.edu/pesticide-mixing-and-sprayer-calibration-equations :
	// 32 fl oz/acre at 15 gal/acre in 500 gal, 1067 fl oz.
	x := perFull(15*gpa, 500*gal, calc.TankProduct{ProductRate: calc.ProductRate{Volume: 32 * unit.USFluidOuncePerAcre}})
	printedAs(t, "by rate", x.PerFullLoad.Volume.In(unit.USFluidOunce), 1067, 0)
	// Serie Produtor Rural 61, ESALQ, University of Sao Paulo,
	// http://www.esalq.usp.br/cprural/flipbook/pb/pb61/assets/basic-html/page45.html :
	// 200 mL in 100 L, 600 L of spray, 1.2 L.
	x = perFull(100*lha, 600*unit.Litre, calc.TankProduct{Concentration: calc.Strength{Volume: 0.2 / 100}})
	printedAs(t, "by concentration", x.PerFullLoad.Volume.In(unit.Litre), 1.2, 1)
	// Pesticides Calculations for Homeowners, University of Kentucky,
	// seen in a copy only:
	// 1 lb in 100 gal, for 1 gal: 0.16 oz, 4.5 g.
	x = perFull(20*gpa, 1*gal, calc.TankProduct{Concentration: calc.Strength{Mass: unit.PoundPerUSGallon / 100}})
	printedAs(t, "by mass in a volume", x.PerFullLoad.Mass.In(unit.Ounce), 0.16, 2)
	printedAs(t, "by mass in a volume", x.PerFullLoad.Mass.In(unit.Gram), 4.5, 1)
	// Get the recipe right, University of Missouri,
	// http://cornandsoybeandigest.com/print/get-recipe-right : 1.5 lb of active
	// ingredient per acre at 4 lb/gal are 0.375 gal/acre, 3 pints.
	x = perFull(20*gpa, 300*gal, calc.TankProduct{ActiveIngredientRate: 1.5 * unit.PoundPerAcre, ActiveIngredientContent: calc.Content{PerVolume: 4 * unit.PoundPerUSGallon}})
	printedAs(t, "by active ingredient", x.RatePerArea.Volume.In(gpa), 0.375, 3)
	printedAs(t, "by active ingredient", x.RatePerArea.Volume.In(unit.USPintPerAcre), 3, 0)
	// Dry chemical applicator calibration, University of Florida, UF00067504 p. 2,
	// https://ufdcimages.uflib.ufl.edu/UF/00/06/75/04/00001/00002.txt : 200 lb/acre
	// at 20 % are 40 lb/acre of active ingredient; here the other way round.
	x = perFull(20*gpa, 300*gal, calc.TankProduct{ActiveIngredientRate: 40 * unit.PoundPerAcre, ActiveIngredientContent: calc.Content{Share: 20 * unit.Percent}})
	printedAs(t, "by share", x.RatePerArea.Mass.In(unit.PoundPerAcre), 200, 0)
}

// TestPublishedTreatedShare: 350 lb per treated acre are 175 per field acre where
// half is treated, 3 ft of every 6 (UF/IFAS Extension ENY-047, 2012,
// http://edis.ifas.ufl.edu/in404). 350 lb in the 100 gal of an acre, of which the
// tank takes 300: 1050 lb.
func TestPublishedTreatedShare(t *testing.T) {
	in := calc.TankLoadsInput{
		TankVolume: 300 * gal, ApplicationRate: 100 * gpa, FieldArea: 10 * unit.Acre, Width: 3 * unit.Foot, RowSpacing: 6 * unit.Foot,
		AreaBasis: calc.RateBasisTreated, Products: []calc.TankProduct{{ProductRate: calc.ProductRate{Mass: 350 * unit.PoundPerAcre}}},
	}
	r := mustTankLoads(t, in)
	printedAs(t, "per field acre", r.Products[0].RatePerFieldArea.Mass.In(unit.PoundPerAcre), 175, 0)
	printedAs(t, "per treated acre", r.Products[0].RatePerTreatedArea.Mass.In(unit.PoundPerAcre), 350, 0)
	agrees(t, "per full load", r.Products[0].PerFullLoad.Mass.In(unit.Pound), 1050, 1e-12)
	agrees(t, "treated", r.TreatedArea.In(unit.Acre), 5, 1e-12)
	// The same said per field acre.
	in.AreaBasis, in.Products[0].ProductRate.Mass = calc.RateBasisField, 175*unit.PoundPerAcre
	r = mustTankLoads(t, in)
	agrees(t, "per full load, field", r.Products[0].PerFullLoad.Mass.In(unit.Pound), 1050, 1e-12)
	agrees(t, "per area, field", r.Products[0].RatePerArea.Mass.In(unit.PoundPerAcre), 175, 1e-12)
}

// TestReferenceTankLoads: hand-checked reference, values from exact unit
// definitions. 25 x 40 = 1000 gal are 3 x 300 and 100; 24 fl oz x 12 acres are
// 2.25 gal; 0.25 % of 300 are 0.75; 1.5 / 4 x 12 = 4.5; water 300 - 7.5 = 292.5.
func TestReferenceTankLoads(t *testing.T) {
	r := mustTankLoads(t, calc.TankLoadsInput{
		TankVolume: 300 * gal, ApplicationRate: 25 * gpa, TreatedArea: 40 * unit.Acre,
		Products: []calc.TankProduct{
			{ProductRate: calc.ProductRate{Volume: 24 * unit.USFluidOuncePerAcre}},
			{Concentration: calc.Strength{Volume: 0.0025}},
			{ActiveIngredientRate: 1.5 * unit.PoundPerAcre, ActiveIngredientContent: calc.Content{PerVolume: 4 * unit.PoundPerUSGallon}},
		},
	})
	agrees(t, "spray", r.SprayVolume.In(gal), 1000, 1e-12)
	agrees(t, "tankfuls", r.Tankfuls, 10.0/3, 1e-12)
	agrees(t, "area per load", r.AreaPerLoad.In(unit.Acre), 12, 1e-12)
	agrees(t, "part", r.PartLoad.Volume.In(gal), 100, 1e-12)
	agrees(t, "part's area", r.PartLoad.Area.In(unit.Acre), 4, 1e-12)
	if r.Loads != 4 || r.FullLoads != 3 || r.EqualLoad != (calc.TankLoad{}) || r.FirstLoadArea != 0 || r.FieldAreaPerLoad != 0 || r.FieldArea != 0 {
		t.Errorf("%+v", r)
	}
	for i, want := range [][3]float64{{2.25, 0.75, 7.5}, {0.75, 0.25, 2.5}, {4.5, 1.5, 15}} {
		p := r.Products[i]
		agrees(t, "full", p.PerFullLoad.Volume.In(gal), want[0], 1e-12)
		agrees(t, "part", p.PerPartLoad.Volume.In(gal), want[1], 1e-12)
		agrees(t, "total", p.Total.Volume.In(gal), want[2], 1e-12)
		if p.PerEqualLoad != (calc.Amount{}) || p.DeliveredRate != (calc.ProductRate{}) || p.RatePerFieldArea != (calc.ProductRate{}) || p.LabelVerdict != finding.NotJudged {
			t.Errorf("not asked for: %+v", p)
		}
	}
	agrees(t, "water", r.CarrierWater.PerFullLoad.In(gal), 292.5, 1e-12)
	agrees(t, "water of the part", r.CarrierWater.PerPartLoad.In(gal), 97.5, 1e-12)
	agrees(t, "all water", r.CarrierWater.Total.In(gal), 975, 1e-12)
	if r.Verdict != finding.NotJudged || r.LabelVerdict != finding.NotJudged || r.RateTolerance != 0 || r.Warnings != nil {
		t.Errorf("verdict %v, label %v, warnings %v", r.Verdict, r.LabelVerdict, r.Warnings)
	}
}

// TestReferenceExactMultiple: 0.1 ha steps of 30 L each are no round numbers in a
// double, yet any whole number of them leaves no part load: 300 L/ha x n x 0.1 ha
// = n x 30 L. With equal loads they are as many, and full.
func TestReferenceExactMultiple(t *testing.T) {
	for n := 1; n <= 2000; n++ {
		in := calc.TankLoadsInput{TankVolume: 30 * unit.Litre, ApplicationRate: 300 * lha, TreatedArea: unit.Area(n) * 0.1 * unit.Hectare}
		r := mustTankLoads(t, in)
		in.EqualLoads = true
		e := mustTankLoads(t, in)
		if r.Loads != n || r.FullLoads != n || r.PartLoad != (calc.TankLoad{}) || e.Loads != n || e.FullLoads != n {
			t.Fatalf("%d: %d loads, %d full, part %v; equal %d, %d", n, r.Loads, r.FullLoads, r.PartLoad, e.Loads, e.FullLoads)
		}
		agrees(t, "equal", e.EqualLoad.Volume.In(unit.Litre), 30, 1e-12)
	}
}

// TestReferenceDelivered: 24 fl oz/acre mixed for 25 gal/acre and sprayed at 27
// are 24 x 27/25 = 25.92, 8 % over: within 10 % of the rate, over a label's
// maximum of 24 and of 25.9, not over one of 25.92. By concentration the dose
// follows the spray whatever was meant: 1 % of 27 gal/acre. The tolerance is
// common practice, no published source.
func TestReferenceDelivered(t *testing.T) {
	oz := unit.USFluidOuncePerAcre
	for _, c := range []struct {
		most           calc.ProductRate
		mix, delivered finding.Verdict
	}{
		{calc.ProductRate{Volume: 23.9 * oz}, finding.Outside, finding.Outside},
		{calc.ProductRate{Volume: 24 * oz}, finding.Within, finding.Outside},
		{calc.ProductRate{Volume: 25.9 * oz}, finding.Within, finding.Outside},
		{calc.ProductRate{Volume: 25.92 * oz}, finding.Within, finding.Within},
		{calc.ProductRate{}, finding.NotJudged, finding.NotJudged},
	} {
		r := mustTankLoads(t, calc.TankLoadsInput{
			TankVolume: 300 * gal, ApplicationRate: 27 * gpa, LabelRate: 25 * gpa, TreatedArea: 40 * unit.Acre,
			Products: []calc.TankProduct{{ProductRate: calc.ProductRate{Volume: 24 * oz}, LabelMaximum: c.most}, {Concentration: calc.Strength{Volume: 0.01}}},
		})
		p := r.Products[0]
		agrees(t, "mixed for", p.RatePerArea.Volume.In(oz), 24, 1e-12)
		agrees(t, "delivered", p.DeliveredRate.Volume.In(oz), 25.92, 1e-12)
		agrees(t, "by concentration", r.Products[1].DeliveredRate.Volume.In(gpa), 0.27, 1e-12)
		agrees(t, "deviation", r.Deviation.In(unit.Percent), 8, 1e-12)
		if p.MixVerdict != c.mix || p.DeliveredVerdict != c.delivered || r.LabelVerdict != max(c.mix, c.delivered) {
			t.Errorf("most %v: mix %v, delivered %v, label %v", c.most, p.MixVerdict, p.DeliveredVerdict, r.LabelVerdict)
		}
		if r.Verdict != finding.Within || r.RateTolerance != 10*unit.Percent {
			t.Errorf("verdict %v at %v", r.Verdict, r.RateTolerance)
		}
	}
}

// TestReferenceDeliveredOnFields: a label means 12 L of spray and 1 kg of product
// per field hectare, a quarter of which is treated: 48 L and 4 kg per treated
// hectare. At 60 L the rate is 25 % over and 1 kg becomes 1.25 per field hectare.
func TestReferenceDeliveredOnFields(t *testing.T) {
	kg := unit.KilogramPerHectare
	r := mustTankLoads(t, calc.TankLoadsInput{
		TankVolume: 100 * unit.Litre, ApplicationRate: 60 * lha, LabelRate: 12 * lha, RateTolerance: 20 * unit.Percent,
		FieldArea: 20 * unit.Hectare, Width: 0.5, RowSpacing: 2, AreaBasis: calc.RateBasisField,
		Products: []calc.TankProduct{
			{ProductRate: calc.ProductRate{Mass: 1 * kg}, LabelMaximum: calc.ProductRate{Mass: 1.2 * kg}},
			{Concentration: calc.Strength{Mass: 1}, LabelMaximum: calc.ProductRate{Mass: 1 * kg}},
		},
	})
	agrees(t, "deviation", float64(r.Deviation), 0.25, 1e-12)
	agrees(t, "mixed for", r.Products[0].RatePerArea.Mass.In(unit.KilogramPerHectare), 1, 1e-12)
	agrees(t, "delivered", r.Products[0].DeliveredRate.Mass.In(unit.KilogramPerHectare), 1.25, 1e-12)
	agrees(t, "per treated area", r.Products[0].RatePerTreatedArea.Mass.In(unit.KilogramPerHectare), 4, 1e-12)
	// 1 kg/m3 in 60 L/ha is 0.06 kg per treated and 0.015 per field hectare.
	agrees(t, "by concentration", r.Products[1].DeliveredRate.Mass.In(unit.KilogramPerHectare), 0.015, 1e-12)
	// 20 ha x 1/4 = 5 ha, 300 L, 3 tanks of 100 L, each 5/3 ha treated of 20/3 ha.
	agrees(t, "field per load", r.FieldAreaPerLoad.In(unit.Hectare), 20.0/3, 1e-12)
	if r.Verdict != finding.Outside || r.LabelVerdict != finding.Outside || r.Products[1].LabelVerdict != finding.Within || r.Loads != 3 {
		t.Errorf("verdict %v, label %v, %v, loads %d", r.Verdict, r.LabelVerdict, r.Products[1].LabelVerdict, r.Loads)
	}
}

// TestReferenceResidual: 600 L on 2 ha and 20 L that stay make 620 L. From a tank
// of 400: 400 and 220, of which the first covers (400 - 20) / 300 = 1.26667 ha and
// the second 220 / 300 = 0.73333. In equal loads 310 each: 290 / 300 and 310 / 300
// ha. From a tank of 1000 one load covers all. 1 L/ha of product is 1/300 of each.
func TestReferenceResidual(t *testing.T) {
	in := calc.TankLoadsInput{
		TankVolume: 450 * unit.Litre, UsableVolume: 400 * unit.Litre, ResidualVolume: 20 * unit.Litre, ApplicationRate: 300 * lha, TreatedArea: 2 * unit.Hectare,
		Products: []calc.TankProduct{{ProductRate: calc.ProductRate{Volume: 1 * lha}}},
	}
	r := mustTankLoads(t, in)
	agrees(t, "sprayed", r.SprayVolume.In(unit.Litre), 600, 1e-12)
	agrees(t, "mixed", r.MixedVolume.In(unit.Litre), 620, 1e-12)
	agrees(t, "part", r.PartLoad.Volume.In(unit.Litre), 220, 1e-12)
	agrees(t, "part's area", r.PartLoad.Area.In(unit.Hectare), 220.0/300, 1e-12)
	agrees(t, "first", r.FirstLoadArea.In(unit.Hectare), 380.0/300, 1e-12)
	agrees(t, "product", r.Products[0].Total.Volume.In(unit.Litre), 620.0/300, 1e-12)

	in.EqualLoads = true
	r = mustTankLoads(t, in)
	agrees(t, "equal", r.EqualLoad.Volume.In(unit.Litre), 310, 1e-12)
	agrees(t, "equal's area", r.EqualLoad.Area.In(unit.Hectare), 310.0/300, 1e-12)
	agrees(t, "first of equal", r.FirstLoadArea.In(unit.Hectare), 290.0/300, 1e-12)
	agrees(t, "product of equal", r.Products[0].PerEqualLoad.Volume.In(unit.Litre), 310.0/300, 1e-12)
	agrees(t, "water of equal", r.CarrierWater.PerEqualLoad.In(unit.Litre), 310-310.0/300, 1e-12)
	if r.Loads != 2 || r.FullLoads != 0 || r.PartLoad != (calc.TankLoad{}) {
		t.Errorf("%+v", r)
	}

	in.TankVolume, in.UsableVolume = 1000*unit.Litre, 0
	for _, in.EqualLoads = range []bool{true, false} {
		r = mustTankLoads(t, in)
		load := r.PartLoad
		if in.EqualLoads {
			load = r.EqualLoad
		}
		agrees(t, "only load", load.Volume.In(unit.Litre), 620, 1e-12)
		agrees(t, "only load's area", load.Area.In(unit.Hectare), 2, 1e-12)
		agrees(t, "only load is the first", r.FirstLoadArea.In(unit.Hectare), 2, 1e-12)
	}
}

// TestReferenceTankWarnings: on a hectare litres are L/ha. 1 of 10 tanks is not
// small, 9 of 100 litres is; half product is not little water, 51 % is.
func TestReferenceTankWarnings(t *testing.T) {
	in := func(tank unit.Volume, rate unit.ApplicationRate, share unit.Concentration) calc.TankLoadsInput {
		return calc.TankLoadsInput{
			TankVolume: tank * unit.Litre, ApplicationRate: rate * lha, TreatedArea: unit.Hectare,
			Products: []calc.TankProduct{{Concentration: calc.Strength{Volume: share}}},
		}
	}
	rows := in(100, 100, 0.01)
	rows.TreatedArea, rows.FieldArea, rows.Width, rows.RowSpacing, rows.AreaBasis = 0, unit.Hectare, 2, 1.9, calc.RateBasisTreated
	touching := rows
	touching.RowSpacing = 2
	for _, c := range []struct {
		in   calc.TankLoadsInput
		want string
	}{
		{in(100, 110, 0.5), ""},
		{in(100, 109, 0.01), "tankVolume: small_part_load"},
		{in(100, 9, 0.01), "tankVolume: small_load"},
		{in(2, 200, 0.01), ""},
		{in(2, 202, 0.01), "tankVolume: many_loads"},
		{in(100, 100, 0.51), "products: little_water"},
		{in(100, 100, 1), "products: little_water"},
		{in(1, 0.9, 0.01), "applicationRate: unusual_rate"},
		{in(2001, 2001, 0.01), "applicationRate: unusual_rate"},
		{rows, "width: width_exceeds_row_spacing; tankVolume: small_part_load"},
		{touching, ""},
	} {
		if got := warned(mustTankLoads(t, c.in).Warnings); got != c.want {
			t.Errorf("%v and %v: warned of %q, want %q", c.in.TankVolume, c.in.ApplicationRate, got, c.want)
		}
	}
}

// TestReferenceMuchDry, by hand: of 100 L, 100 kg are 1 kg per litre of water and 101 kg
// more; with 20 L of a liquid beside them 80 kg are, and 81 kg more. 5000 lb/acre in 10
// gal/acre are 500 lb in a gallon of about 8.3 lb.
func TestReferenceMuchDry(t *testing.T) {
	for _, c := range []struct {
		kilograms unit.Density
		liquid    unit.Concentration
		want      string
	}{
		{1, 0, ""}, {1.01, 0, "products: much_dry"}, {0.8, 0.2, ""}, {0.81, 0.2, "products: much_dry"},
	} {
		in := calc.TankLoadsInput{
			TankVolume: 100 * unit.Litre, ApplicationRate: 100 * lha, TreatedArea: unit.Hectare,
			Products: []calc.TankProduct{{Concentration: calc.Strength{Mass: c.kilograms * unit.KilogramPerLitre}}},
		}
		if c.liquid != 0 {
			in.Products = append(in.Products, calc.TankProduct{Concentration: calc.Strength{Volume: c.liquid}})
		}
		if got := warned(mustTankLoads(t, in).Warnings); got != c.want {
			t.Errorf("%v kg/l: warned of %q, want %q", c.kilograms, got, c.want)
		}
	}
	r := mustTankLoads(t, calc.TankLoadsInput{
		TankVolume: 100 * gal, ApplicationRate: 10 * gpa, TreatedArea: 10 * unit.Acre,
		Products: []calc.TankProduct{{ProductRate: calc.ProductRate{Mass: 5000 * unit.PoundPerAcre}}},
	})
	if got := warned(r.Warnings); got != "products: much_dry" {
		t.Errorf("5000 lb/acre: warned of %q", got)
	}
}

// South Dakota State University Extension,
// https://extension.sdstate.edu/pesticide-mixing-and-sprayer-calibration-equations :
// 32 fl oz/acre at 15 gal/acre in a tank of 500 gal, 1067 fl oz.
func ExampleTankLoads() {
	r, err := calc.TankLoads(calc.TankLoadsInput{
		TankVolume: 500 * unit.USGallon, ApplicationRate: 15 * unit.USGallonPerAcre, TreatedArea: 100 * unit.Acre,
		Products: []calc.TankProduct{{ProductRate: calc.ProductRate{Volume: 32 * unit.USFluidOuncePerAcre}}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d loads, %.0f fl oz in each\n", r.FullLoads, r.Products[0].PerFullLoad.Volume.In(unit.USFluidOunce))
	// Output: 3 loads, 1067 fl oz in each
}
