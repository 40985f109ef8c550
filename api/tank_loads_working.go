package api

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func (r *TankLoadsRequest) methods(x *calc.TankLoadsResult) methodSet {
	s := methodsOf(calc.MethodVolumeForArea, calc.MethodMixedVolume, calc.MethodTankfuls, calc.MethodAreaPerLoad, calc.MethodCarrierWater)
	field := r.FieldArea.given()
	s.addIf(field, calc.MethodTreatedAreaOfField, calc.MethodFieldAreaOfTreated)
	s.addIf(!r.UsableVolume.given() && r.TankVolume.Unit != r.units().volume, calc.MethodUnitConversion)
	s.addIf(x.FirstLoadArea != 0, calc.MethodAreaAfterLines)
	s.addIf(x.PartLoad.Volume != 0, calc.MethodPartLoad)
	s.addIf(x.EqualLoad.Volume != 0, calc.MethodEqualLoad)
	s.addIf(x.Verdict != calc.NotJudged, calc.MethodRateDeviation)
	s.addIf(field && (r.AreaBasis == calc.RateBasisField || len(r.Products) > 0), calc.MethodRateOnBasis)
	for i := range r.Products {
		p := &r.Products[i]
		if p.Concentration.given() {
			s.add(calc.MethodConcentrateInVolume, calc.MethodConcentrateRate)
			continue
		}
		s.add(calc.MethodProductInVolume, calc.MethodProductRateApplied)
		s.addIf(p.ActiveIngredientRate.given(), calc.MethodProductOfIngredient)
	}
	return s
}

// tankWork is the working of one job.
type tankWork struct {
	*working
	r     *TankLoadsRequest
	a     *TankLoadsResponse
	units *resultUnits

	treated, field, basis Quantity // spray per treated area, per field area, and on the area of the label
}

func (r *TankLoadsRequest) work(w *working, x *calc.TankLoadsResult, a *TankLoadsResponse) {
	k := &tankWork{working: w, r: r, a: a, units: r.units(), treated: r.ApplicationRate, basis: r.ApplicationRate}
	rate := put("R", r.ApplicationRate)
	if r.FieldArea.given() {
		w.line(calc.MethodTreatedAreaOfField, "/treatedArea", a.TreatedArea, put("F", r.FieldArea), put("W", r.Width), put("b", r.RowSpacing))
		if r.AreaBasis == calc.RateBasisField || len(r.Products) > 0 {
			k.field = in(r.ApplicationRate.si()*r.Width.si()/r.RowSpacing.si(), k.units.rate)
			w.line(calc.MethodRateOnBasis, "", k.field, rate, put("W", r.Width), put("b", r.RowSpacing))
		}
		if r.AreaBasis == calc.RateBasisField {
			k.basis = k.field
		}
	}
	w.line(calc.MethodVolumeForArea, "/sprayVolume", a.SprayVolume, put("A", a.TreatedArea), rate)
	w.line(calc.MethodMixedVolume, "/mixedVolume", a.MixedVolume, put("V", a.SprayVolume), put("r", k.residual()))
	if !r.UsableVolume.given() {
		w.workConversion("/usableVolume", a.UsableVolume, r.TankVolume)
	}
	w.line(calc.MethodTankfuls, "/tankfuls", bare(a.Tankfuls), put("M", a.MixedVolume), put("U", a.UsableVolume))
	w.line(calc.MethodAreaPerLoad, "/areaPerLoad", a.AreaPerLoad, put("V", a.UsableVolume), rate)
	k.fieldArea("/fieldAreaPerLoad", a.FieldAreaPerLoad, a.AreaPerLoad)
	first := a.UsableVolume
	if l := a.PartLoad; l != nil {
		w.line(calc.MethodPartLoad, "/partLoad/volume", l.Volume, put("M", a.MixedVolume), putNumber("n", a.FullLoads), put("U", a.UsableVolume))
		k.load("/partLoad", l)
		if a.Loads == 1 {
			first = l.Volume
		}
	}
	if l := a.EqualLoad; l != nil {
		w.line(calc.MethodEqualLoad, "/equalLoad/volume", l.Volume, put("M", a.MixedVolume), putNumber("n", a.Loads))
		k.load("/equalLoad", l)
		first = l.Volume
	}
	if a.FirstLoadArea.given() {
		w.line(calc.MethodAreaAfterLines, "/firstLoadArea", a.FirstLoadArea, put("V", first), put("r", k.residual()), rate)
	}
	if a.DeliveredDeviation.given() {
		w.line(calc.MethodRateDeviation, "/deliveredDeviation", a.DeliveredDeviation, put("R", k.basis), put("R_t", r.LabelRate))
	}
	liquid := [4][]Quantity{}
	for i := range r.Products {
		k.product(i, x, &liquid)
	}
	for i, share := range k.shares(&a.CarrierWater) {
		if share.amount.given() {
			all := liquid[i]
			if len(all) == 0 {
				all = []Quantity{{0, k.units.volume}}
			}
			w.line(calc.MethodCarrierWater, "/carrierWater"+share.member, share.amount, put("V", share.volume), putEach("m_i", all))
		}
	}
}

func (k *tankWork) residual() Quantity { return k.r.ResidualVolume.or(Quantity{0, k.units.volume}) }

func (k *tankWork) fieldArea(member string, field, treated Quantity) {
	if field.given() {
		k.line(calc.MethodFieldAreaOfTreated, member, field, put("A", treated), put("b", k.r.RowSpacing), put("W", k.r.Width))
	}
}

// load adds the areas of one load; the only one fills the lines as well.
func (k *tankWork) load(member string, l *TankLoadResponse) {
	if k.a.Loads == 1 && k.r.ResidualVolume.given() {
		k.line(calc.MethodAreaAfterLines, member+"/area", l.Area, put("V", l.Volume), put("r", k.residual()), put("R", k.treated))
	} else {
		k.line(calc.MethodAreaPerLoad, member+"/area", l.Area, put("V", l.Volume), put("R", k.treated))
	}
	k.fieldArea(member+"/fieldArea", l.FieldArea, l.Area)
}

// A loadShare is one member of LoadSharesResponse, with the spray that it is in.
type loadShare struct {
	member         string
	amount, volume Quantity
}

func (k *tankWork) shares(s *LoadSharesResponse) [4]loadShare {
	part, equal := Quantity{}, Quantity{}
	if k.a.PartLoad != nil {
		part = k.a.PartLoad.Volume
	}
	if k.a.EqualLoad != nil {
		equal = k.a.EqualLoad.Volume
	}
	return [4]loadShare{
		{"/perFullLoad", s.PerFullLoad, k.a.UsableVolume}, {"/perPartLoad", s.PerPartLoad, part},
		{"/perEqualLoad", s.PerEqualLoad, equal}, {"/total", s.Total, k.a.MixedVolume},
	}
}

// product adds the lines of one product, and its amounts to what is poured.
func (k *tankWork) product(i int, x *calc.TankLoadsResult, liquid *[4][]Quantity) {
	p, a, at := &k.r.Products[i], &k.a.Products[i], "/products/"+strconv.Itoa(i)
	rate := p.ProductRate
	if p.ActiveIngredientRate.given() {
		rate = in(p.ActiveIngredientRate.si()/p.ActiveIngredientContent.si(), k.units.rate)
		if p.ActiveIngredientContent.Unit.Kind() == unit.KindRatio {
			rate = in(rate.si(), k.units.massRate)
		}
		k.line(calc.MethodProductOfIngredient, "", rate, put("a", p.ActiveIngredientRate), put("c", p.ActiveIngredientContent))
	}
	amount := func(member string, result, volume Quantity) {
		switch {
		case !result.given():
		case p.Concentration.given():
			k.line(calc.MethodConcentrateInVolume, member, result, put("c", p.Concentration), put("V", volume))
		default:
			k.line(calc.MethodProductInVolume, member, result, put("P", rate), put("V", volume), put("R", k.basis))
		}
	}
	for j, share := range k.shares(&a.LoadSharesResponse) {
		amount(at+share.member, share.amount, share.volume)
		if share.amount.given() && x.Products[i].Total.Mass == 0 {
			liquid[j] = append(liquid[j], share.amount)
		}
	}
	for _, share := range k.shares(&a.Measure) {
		amount(at+"/measure"+share.member, share.amount, share.volume)
	}
	applied := func(member string, result, at, mixedFor Quantity) {
		switch {
		case !result.given():
		case p.Concentration.given():
			k.line(calc.MethodConcentrateRate, member, result, put("c", p.Concentration), put("R_a", at))
		default:
			k.line(calc.MethodProductRateApplied, member, result, put("P", rate), put("R_a", at), put("R", mixedFor))
		}
	}
	applied(at+"/ratePerArea", a.RatePerArea, k.basis, k.basis)
	applied(at+"/ratePerTreatedArea", a.RatePerTreatedArea, k.treated, k.basis)
	applied(at+"/ratePerFieldArea", a.RatePerFieldArea, k.field, k.basis)
	applied(at+"/deliveredRate", a.DeliveredRate, k.basis, k.r.LabelRate)
}
