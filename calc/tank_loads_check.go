package calc

import "wetrun/calc/finding"

// check reports what keeps TankLoads from computing, before anything is computed.
func (in TankLoadsInput) check() error {
	var v finding.Invalid
	in.checkTank(&v)
	in.checkArea(&v)
	for i := range in.Products {
		v = append(v, in.Products[i].check().Under(finding.Item("products", i))...)
	}
	return v.Err()
}

func (in TankLoadsInput) checkTank(v *finding.Invalid) {
	v.Positive(float64(in.TankVolume), finding.Member("tankVolume"))
	v.Optional(float64(in.UsableVolume), finding.Member("usableVolume"))
	usable := in.UsableVolume
	if usable == 0 {
		usable = in.TankVolume
	}
	if in.TankVolume > 0 && !finding.AtMost(float64(usable/in.TankVolume), 1) {
		v.Add(finding.Member("usableVolume"), CodeUsableAboveTank)
	}
	v.Optional(float64(in.ResidualVolume), finding.Member("residualVolume"))
	if usable > 0 && !finding.AtMost(float64(in.ResidualVolume/usable), 0.5) {
		v.Add(finding.Member("residualVolume"), CodeResidualTooLarge)
	}
	v.Positive(float64(in.ApplicationRate), finding.Member("applicationRate"))
	v.Optional(float64(in.LabelRate), finding.Member("labelRate"))
	v.Optional(float64(in.RateTolerance), finding.Member("rateTolerance"))
}

func (in TankLoadsInput) checkArea(v *finding.Invalid) {
	if finding.NotAmong(in.AreaBasis, rateBases) {
		v.Add(finding.Member("areaBasis"), finding.CodeNotAllowed)
	}
	byField := in.byField()
	switch {
	case in.TreatedArea != 0 && !byField.IsZero():
		v.Conflict(finding.Member("treatedArea"), byField)
		fallthrough
	case in.TreatedArea != 0:
		v.Optional(float64(in.TreatedArea), finding.Member("treatedArea"))
		v.Optional(float64(in.FieldArea), finding.Member("fieldArea"))
		v.Optional(float64(in.Width), finding.Member("width"))
		v.Optional(float64(in.RowSpacing), finding.Member("rowSpacing"))
	case !byField.IsZero():
		v.PositiveFor(float64(in.FieldArea), finding.Member("fieldArea"), byField)
		v.PositiveFor(float64(in.Width), finding.Member("width"), byField)
		v.PositiveFor(float64(in.RowSpacing), finding.Member("rowSpacing"), byField)
		if in.AreaBasis == RateBasisNone {
			v.Add(finding.Member("areaBasis"), CodeAreaBasisRequired)
		}
	default:
		v.RequiredUnless(finding.Member("treatedArea"), finding.Member("fieldArea"))
	}
}

// byField is the first member that speaks of a field with rows; zero when none does.
func (in TankLoadsInput) byField() finding.Place {
	return finding.First(
		finding.Given(in.FieldArea != 0, "fieldArea"), finding.Given(in.Width != 0, "width"),
		finding.Given(in.RowSpacing != 0, "rowSpacing"), finding.Given(in.AreaBasis == RateBasisField, "areaBasis"),
	)
}

// check reports members of the product, or the whole of it.
func (p *TankProduct) check() (v finding.Invalid) {
	pair := func(a, b float64, place finding.Place) {
		v.Optional(a, place)
		v.Optional(b, place)
		if a != 0 && b != 0 {
			v.Add(place, finding.CodeConflict)
		}
	}
	pair(float64(p.ProductRate.Volume), float64(p.ProductRate.Mass), finding.Member("productRate"))
	pair(float64(p.Concentration.Volume), float64(p.Concentration.Mass), finding.Member("concentration"))
	pair(float64(p.ActiveIngredientContent.Share), float64(p.ActiveIngredientContent.PerVolume), finding.Member("activeIngredientContent"))
	pair(float64(p.LabelMaximum.Volume), float64(p.LabelMaximum.Mass), finding.Member("labelMaximum"))
	v.Optional(float64(p.ActiveIngredientRate), finding.Member("activeIngredientRate"))
	if !finding.AtMost(float64(p.ActiveIngredientContent.Share), 1) {
		v.Add(finding.Member("activeIngredientContent"), CodeContentAboveWhole)
	}
	p.checkForms(&v)
	if v == nil && p.LabelMaximum.given() && (p.LabelMaximum.Mass != 0) != p.weighed() {
		v.Add(finding.Member("labelMaximum"), CodeMeasureMismatch)
	}
	return v
}

// checkForms looks for exactly one of the three.
func (p *TankProduct) checkForms(v *finding.Invalid) {
	rate, strength := p.ProductRate.given(), p.Concentration.given()
	ingredient, content := p.ActiveIngredientRate != 0, p.ActiveIngredientContent.given()
	first := finding.Member("productRate")
	if !rate {
		first = finding.Member("concentration")
	}
	switch {
	case !rate && !strength && !ingredient && !content:
		v.Add(finding.Place{}, CodeProductForm)
	case rate || strength:
		if rate && strength {
			v.Conflict(finding.Member("concentration"), first)
		}
		if ingredient {
			v.Conflict(finding.Member("activeIngredientRate"), first)
		}
		if content {
			v.Conflict(finding.Member("activeIngredientContent"), first)
		}
	case !content:
		v.RequiredBy(finding.Member("activeIngredientContent"), finding.Member("activeIngredientRate"))
	case !ingredient:
		v.RequiredBy(finding.Member("activeIngredientRate"), finding.Member("activeIngredientContent"))
	}
}

// weighed tells a product by mass from one by volume.
func (p *TankProduct) weighed() bool { return p.Concentration.Mass != 0 || p.rate().Mass != 0 }
