package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// A TankProduct is something that is put into the water, in exactly one of three
// forms: ProductRate, Concentration, or ActiveIngredientRate with
// ActiveIngredientContent. Each comes to an amount s per volume of spray,
//
//	s = rate / R,   s = concentration,   s = active ingredient / content / R
//
// R being the spray rate on the same area as the rate of the product.
//
// Its violations are product_form_required on the product; conflict on a second
// form, or on a form that is a volume and a mass at once; required on the half of
// the third form that is missing; content_above_whole on a content above one;
// measure_mismatch on a LabelMaximum that is a mass where the product is a volume,
// or the other way round.
type TankProduct struct {
	// ProductRate is product per area, on the AreaBasis.
	ProductRate ProductRate
	// Concentration is product per volume of spray, not per volume of water.
	Concentration Strength
	// ActiveIngredientRate is active ingredient per area, on the AreaBasis, and
	// ActiveIngredientContent how much of it the product has.
	ActiveIngredientRate    unit.MassRate
	ActiveIngredientContent Content
	// LabelMaximum is the most product per area, on the AreaBasis. It has no
	// tolerance.
	LabelMaximum ProductRate
}

// ProductRole is what a product is for, which decides when it goes into the tank. What is
// not told is a product like any other.
type ProductRole string

// The roles of products.
const (
	WaterConditioner   ProductRole = "water_conditioner"
	CompatibilityAgent ProductRole = "compatibility_agent"
	PlainProduct       ProductRole = "product"
	Adjuvant           ProductRole = "adjuvant"
)

// Words lists the roles.
func (ProductRole) Words() []string {
	return finding.WordsOf([]ProductRole{WaterConditioner, CompatibilityAgent, PlainProduct, Adjuvant})
}

// Formulation is how a product is made, which decides when it goes into the tank. The label
// names it.
type Formulation string

// The formulations of products.
const (
	WettablePowder          Formulation = "wettable_powder"
	DispersibleGranule      Formulation = "water_dispersible_granule"
	Suspension              Formulation = "suspension"
	EmulsifiableConcentrate Formulation = "emulsifiable_concentrate"
	Solution                Formulation = "solution"
)

// Words lists the formulations.
func (Formulation) Words() []string {
	return finding.WordsOf([]Formulation{WettablePowder, DispersibleGranule, Suspension, EmulsifiableConcentrate, Solution})
}

// A ProductRate is product per area: of a liquid by volume, or of a dry product
// by mass. One of the two is zero.
type ProductRate struct {
	Volume unit.ApplicationRate
	Mass   unit.MassRate
}

// A Strength is product per volume of spray, by volume or by mass. One of the two
// is zero.
type Strength struct {
	Volume unit.Concentration
	Mass   unit.Density
}

// A Content is active ingredient in a product: its share by mass, for a product
// that is weighed, or its mass per volume, for one that is poured. One of the two
// is zero.
type Content struct {
	Share     unit.Ratio
	PerVolume unit.Density
}

// An Amount of a product is a volume or a mass; the other is zero.
type Amount struct {
	Volume unit.Volume
	Mass   unit.Mass
}

// TankProductResult is what of a product goes where.
type TankProductResult struct {
	PerFullLoad  Amount
	PerPartLoad  Amount // zero without a part load
	PerEqualLoad Amount // zero without equal loads
	Total        Amount // of all loads, with what stays in the lines

	RatePerArea        ProductRate // of this mix at the rate really applied, on the AreaBasis
	RatePerTreatedArea ProductRate // zero without FieldArea
	RatePerFieldArea   ProductRate // zero without FieldArea

	// DeliveredRate is that of a mix made for LabelRate, on the AreaBasis; zero
	// without one. A product by concentration is mixed alike for any rate, so for
	// it this is RatePerArea.
	DeliveredRate ProductRate
	// MixVerdict is Outside when RatePerArea is over LabelMaximum, by however
	// little, and DeliveredVerdict when DeliveredRate is. They are NotJudged where
	// there is nothing to compare. LabelVerdict is the worse of the two.
	MixVerdict       finding.Verdict
	DeliveredVerdict finding.Verdict
	LabelVerdict     finding.Verdict
}

func (r ProductRate) given() bool { return r.Volume != 0 || r.Mass != 0 }
func (s Strength) given() bool    { return s.Volume != 0 || s.Mass != 0 }
func (c Content) given() bool     { return c.Share != 0 || c.PerVolume != 0 }

// per is the strength that makes the rate r out of a rate of spray.
func (r ProductRate) per(spray unit.ApplicationRate) Strength {
	return Strength{
		Volume: unit.Concentration(r.Volume / spray),
		Mass:   unit.Density(float64(r.Mass) / float64(spray)),
	}
}

// at is the rate that a strength makes at a rate of spray.
func (s Strength) at(spray unit.ApplicationRate) ProductRate {
	return ProductRate{
		Volume: unit.ApplicationRate(s.Volume) * spray,
		Mass:   unit.MassRate(float64(s.Mass) * float64(spray)),
	}
}

// in is the amount in a volume of spray.
func (s Strength) in(v unit.Volume) Amount {
	return Amount{Volume: unit.Volume(s.Volume) * v, Mass: unit.Mass(float64(s.Mass) * float64(v))}
}

// against holds a rate against the most that is allowed, of the same measure.
func (r ProductRate) against(most ProductRate) finding.Verdict {
	if !r.given() || !most.given() {
		return finding.NotJudged
	}
	share := float64(r.Volume / most.Volume)
	if most.Mass != 0 {
		share = float64(r.Mass / most.Mass)
	}
	if finding.AtMost(share, 1) {
		return finding.Within
	}
	return finding.Outside
}

// rate is the product per area that was asked for; zero for a concentration.
func (p *TankProduct) rate() ProductRate {
	switch c := p.ActiveIngredientContent; {
	case p.ActiveIngredientRate == 0:
		return p.ProductRate
	case c.Share != 0:
		return ProductRate{Mass: p.ActiveIngredientRate / unit.MassRate(c.Share)}
	default:
		return ProductRate{Volume: unit.ApplicationRate(float64(p.ActiveIngredientRate) / float64(c.PerVolume))}
	}
}

// mix fills Products and CarrierWater.
func (r *TankLoadsResult) mix(in TankLoadsInput) error {
	onBasis := in.ApplicationRate * unit.ApplicationRate(in.basisShare())
	r.Products = make([]TankProductResult, len(in.Products))
	var liquid unit.Concentration
	for i := range in.Products {
		p, out := &in.Products[i], &r.Products[i]
		s := p.Concentration
		if !s.given() {
			s = p.rate().per(onBasis)
		}
		liquid += s.Volume
		out.PerFullLoad = s.in(r.UsableVolume)
		out.PerPartLoad = s.in(r.PartLoad.Volume)
		out.PerEqualLoad = s.in(r.EqualLoad.Volume)
		out.Total = s.in(r.MixedVolume)
		out.RatePerArea = s.at(onBasis)
		if in.FieldArea != 0 {
			out.RatePerTreatedArea = s.at(in.ApplicationRate)
			out.RatePerFieldArea = s.at(in.ApplicationRate * unit.ApplicationRate(in.treatedShare()))
		}
		if in.LabelRate != 0 {
			mixed := s
			if !p.Concentration.given() {
				mixed = p.rate().per(in.LabelRate)
			}
			out.DeliveredRate = mixed.at(onBasis)
		}
		out.MixVerdict = out.RatePerArea.against(p.LabelMaximum)
		out.DeliveredVerdict = out.DeliveredRate.against(p.LabelMaximum)
		out.LabelVerdict = max(out.MixVerdict, out.DeliveredVerdict)
	}
	if !finding.AtMost(float64(liquid), 1) {
		return finding.Invalid{{Place: finding.Member("products"), Code: CodeProductsExceedLoad}}
	}
	water := unit.Volume(finding.Difference(1, float64(liquid)))
	r.CarrierWater = LoadShares{
		PerFullLoad: water * r.UsableVolume, PerPartLoad: water * r.PartLoad.Volume,
		PerEqualLoad: water * r.EqualLoad.Volume, Total: water * r.MixedVolume,
	}
	return nil
}
