package calc

import (
	"cmp"
	"strconv"
)

// check reports what keeps TankLoads from computing, before anything is computed.
func (in TankLoadsInput) check() error {
	var v Invalid
	in.checkTank(&v)
	in.checkArea(&v)
	for i := range in.Products {
		if bad := in.Products[i].check(); bad != nil {
			at := "Products[" + strconv.Itoa(i) + "]"
			for _, x := range bad {
				if x.Because != "" {
					x.Because = at + x.Because
				}
				x.Field = at + x.Field
				v = append(v, x)
			}
		}
	}
	return v.err()
}

func (in TankLoadsInput) checkTank(v *Invalid) {
	v.positive(float64(in.TankVolume), "TankVolume")
	v.optional(float64(in.UsableVolume), "UsableVolume")
	usable := in.UsableVolume
	if usable == 0 {
		usable = in.TankVolume
	}
	if in.TankVolume > 0 && !atMost(float64(usable/in.TankVolume), 1) {
		v.add("UsableVolume", CodeUsableAboveTank)
	}
	v.optional(float64(in.ResidualVolume), "ResidualVolume")
	if usable > 0 && !atMost(float64(in.ResidualVolume/usable), 0.5) {
		v.add("ResidualVolume", CodeResidualTooLarge)
	}
	v.positive(float64(in.ApplicationRate), "ApplicationRate")
	v.optional(float64(in.LabelRate), "LabelRate")
	v.optional(float64(in.RateTolerance), "RateTolerance")
}

func (in TankLoadsInput) checkArea(v *Invalid) {
	if notAmong(in.AreaBasis, rateBases) {
		v.add("AreaBasis", CodeNotAllowed)
	}
	byField := in.byField()
	switch {
	case in.TreatedArea != 0 && byField != "":
		v.conflict("TreatedArea", byField)
		fallthrough
	case in.TreatedArea != 0:
		v.optional(float64(in.TreatedArea), "TreatedArea")
		v.optional(float64(in.FieldArea), "FieldArea")
		v.optional(float64(in.Width), "Width")
		v.optional(float64(in.RowSpacing), "RowSpacing")
	case byField != "":
		v.positiveFor(float64(in.FieldArea), "FieldArea", byField)
		v.positiveFor(float64(in.Width), "Width", byField)
		v.positiveFor(float64(in.RowSpacing), "RowSpacing", byField)
		if in.AreaBasis == RateBasisNone {
			v.add("AreaBasis", CodeAreaBasisRequired)
		}
	default:
		v.neededOr("TreatedArea", "FieldArea")
	}
}

// byField is the first field that speaks of a field with rows; empty when none does.
func (in TankLoadsInput) byField() string {
	return cmp.Or(
		given(in.FieldArea != 0, "FieldArea"), given(in.Width != 0, "Width"),
		given(in.RowSpacing != 0, "RowSpacing"), given(in.AreaBasis == RateBasisField, "AreaBasis"),
	)
}

// check reports fields as they stand behind the product's own path.
func (p *TankProduct) check() (v Invalid) {
	pair := func(a, b float64, field string) {
		v.optional(a, field)
		v.optional(b, field)
		if a != 0 && b != 0 {
			v.add(field, CodeConflict)
		}
	}
	pair(float64(p.ProductRate.Volume), float64(p.ProductRate.Mass), ".ProductRate")
	pair(float64(p.Concentration.Volume), float64(p.Concentration.Mass), ".Concentration")
	pair(float64(p.ActiveIngredientContent.Share), float64(p.ActiveIngredientContent.PerVolume), ".ActiveIngredientContent")
	pair(float64(p.LabelMaximum.Volume), float64(p.LabelMaximum.Mass), ".LabelMaximum")
	v.optional(float64(p.ActiveIngredientRate), ".ActiveIngredientRate")
	if !atMost(float64(p.ActiveIngredientContent.Share), 1) {
		v.add(".ActiveIngredientContent", CodeContentAboveWhole)
	}
	p.checkForms(&v)
	if v == nil && p.LabelMaximum.given() && (p.LabelMaximum.Mass == 0) != (p.mass() == 0) {
		v.add(".LabelMaximum", CodeMeasureMismatch)
	}
	return v
}

// checkForms looks for exactly one of the three.
func (p *TankProduct) checkForms(v *Invalid) {
	rate, strength := p.ProductRate.given(), p.Concentration.given()
	ingredient, content := p.ActiveIngredientRate != 0, p.ActiveIngredientContent.given()
	first := ".ProductRate"
	if !rate {
		first = ".Concentration"
	}
	switch {
	case !rate && !strength && !ingredient && !content:
		v.add("", CodeProductForm)
	case rate || strength:
		if rate && strength {
			v.conflict(".Concentration", first)
		}
		if ingredient {
			v.conflict(".ActiveIngredientRate", first)
		}
		if content {
			v.conflict(".ActiveIngredientContent", first)
		}
	case !content:
		v.needed(".ActiveIngredientContent", ".ActiveIngredientRate")
	case !ingredient:
		v.needed(".ActiveIngredientRate", ".ActiveIngredientContent")
	}
}

// mass is above zero for a product that is weighed.
func (p *TankProduct) mass() float64 {
	return float64(p.Concentration.Mass) + float64(p.rate().Mass)
}
