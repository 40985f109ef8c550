package api

import (
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// tankWork is the working of one job.
type tankWork struct {
	working
	r     *TankLoadsRequest
	a     *TankLoadsAnswer
	units *resultUnits

	treated, field, basis Quantity // spray per treated area, per field area, and on the area of the label
}

func (r *TankLoadsRequest) work(w working, x *calc.TankLoadsResult, a *TankLoadsAnswer) {
	k := &tankWork{working: w, r: r, a: a, units: r.units(), treated: r.ApplicationRate, basis: r.ApplicationRate}
	if r.FieldArea.given() {
		w.line(method.TreatedAreaOfField, "/treatedArea", a.TreatedArea).with("F", r.FieldArea).with("W", r.Width).with("b", r.RowSpacing)
		if r.AreaBasis == calc.RateBasisField || len(r.Products) > 0 {
			k.field = in(r.ApplicationRate.si()*r.Width.si()/r.RowSpacing.si(), k.units.rate)
			w.line(method.RateOnBasis, "", k.field).with("R", r.ApplicationRate).with("W", r.Width).with("b", r.RowSpacing)
		}
		if r.AreaBasis == calc.RateBasisField {
			k.basis = k.field
		}
	}
	w.line(method.VolumeForArea, "/sprayVolume", a.SprayVolume).with("A", a.TreatedArea).with("R", r.ApplicationRate)
	w.line(method.MixedVolume, "/mixedVolume", a.MixedVolume).with("V", a.SprayVolume).with("r", k.residual())
	if !r.UsableVolume.given() {
		w.conversion("/usableVolume", a.UsableVolume, r.TankVolume)
	}
	w.line(method.Tankfuls, "/tankfuls", dimensionless(a.Tankfuls)).with("M", a.MixedVolume).with("U", a.UsableVolume)
	w.line(method.AreaPerLoad, "/areaPerLoad", a.AreaPerLoad).with("V", a.UsableVolume).with("R", r.ApplicationRate)
	k.fieldArea(w, "/fieldAreaPerLoad", a.FieldAreaPerLoad, a.AreaPerLoad)
	first := a.UsableVolume
	if l := a.PartLoad; l != nil {
		w.line(method.PartLoad, "/partLoad/volume", l.Volume).with("M", a.MixedVolume).count("n", a.FullLoads).with("U", a.UsableVolume)
		k.load(w.part("/partLoad"), l)
		if a.Loads == 1 {
			first = l.Volume
		}
	}
	if l := a.EqualLoad; l != nil {
		w.line(method.EqualLoad, "/equalLoad/volume", l.Volume).with("M", a.MixedVolume).count("n", a.Loads)
		k.load(w.part("/equalLoad"), l)
		first = l.Volume
	}
	if a.FirstLoadArea.given() {
		w.line(method.AreaAfterLines, "/firstLoadArea", a.FirstLoadArea).with("V", first).with("r", k.residual()).with("R", r.ApplicationRate)
	}
	if a.DeliveredDeviation.given() {
		w.line(method.RateDeviation, "/deliveredDeviation", a.DeliveredDeviation).with("R", k.basis).with("R_t", r.LabelRate)
	}
	liquid := [4][]Quantity{}
	for i := range r.Products {
		k.product(i, x, &liquid)
	}
	for i, share := range k.shares(&a.CarrierWater) {
		if share.amount.given() {
			all := liquid[i]
			if len(all) == 0 && !w.methodsOnly {
				all = []Quantity{{0, k.units.volume}}
			}
			w.part("/carrierWater").line(method.CarrierWater, share.member, share.amount).with("V", share.volume).each("m_i", all)
		}
	}
}

func (k *tankWork) residual() Quantity { return k.r.ResidualVolume.or(Quantity{0, k.units.volume}) }

func (k *tankWork) fieldArea(w working, member string, field, treated Quantity) {
	if field.given() {
		w.line(method.FieldAreaOfTreated, member, field).with("A", treated).with("b", k.r.RowSpacing).with("W", k.r.Width)
	}
}

// load adds the areas of one load; the only one fills the lines as well.
func (k *tankWork) load(w working, l *TankLoadAnswer) {
	if k.a.Loads == 1 && k.r.ResidualVolume.given() {
		w.line(method.AreaAfterLines, "/area", l.Area).with("V", l.Volume).with("r", k.residual()).with("R", k.treated)
	} else {
		w.line(method.AreaPerLoad, "/area", l.Area).with("V", l.Volume).with("R", k.treated)
	}
	k.fieldArea(w, "/fieldArea", l.FieldArea, l.Area)
}

// A loadShare is one member of LoadSharesAnswer, with the spray that it is in.
type loadShare struct {
	member         string
	amount, volume Quantity
}

func (k *tankWork) shares(s *LoadSharesAnswer) [4]loadShare {
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
	p, a, w := &k.r.Products[i], &k.a.Products[i], k.item("/products", i)
	rate := p.ProductRate
	if p.ActiveIngredientRate.given() {
		rate = in(p.ActiveIngredientRate.si()/p.ActiveIngredientContent.si(), k.units.rate)
		if p.ActiveIngredientContent.Unit.Kind() == unit.KindRatio {
			rate = in(rate.si(), k.units.massRate)
		}
		w.line(method.ProductOfIngredient, "", rate).with("a", p.ActiveIngredientRate).with("c", p.ActiveIngredientContent)
	}
	amount := func(w working, member string, result, volume Quantity) {
		switch {
		case !result.given():
		case p.Concentration.given():
			w.line(method.ConcentrateInVolume, member, result).with("c", p.Concentration).with("V", volume)
		default:
			w.line(method.ProductInVolume, member, result).with("P", rate).with("V", volume).with("R", k.basis)
		}
	}
	for j, share := range k.shares(&a.LoadSharesAnswer) {
		amount(w, share.member, share.amount, share.volume)
		if share.amount.given() && !w.methodsOnly && x.Products[i].Total.Mass == 0 {
			liquid[j] = append(liquid[j], share.amount)
		}
	}
	for _, share := range k.shares(&a.Measure) {
		amount(w.part("/measure"), share.member, share.amount, share.volume)
	}
	applied := func(member string, result, at, mixedFor Quantity) {
		switch {
		case !result.given():
		case p.Concentration.given():
			w.line(method.ConcentrateRate, member, result).with("c", p.Concentration).with("R_a", at)
		default:
			w.line(method.ProductRateApplied, member, result).with("P", rate).with("R_a", at).with("R", mixedFor)
		}
	}
	applied("/ratePerArea", a.RatePerArea, k.basis, k.basis)
	applied("/ratePerTreatedArea", a.RatePerTreatedArea, k.treated, k.basis)
	applied("/ratePerFieldArea", a.RatePerFieldArea, k.field, k.basis)
	applied("/deliveredRate", a.DeliveredRate, k.basis, k.r.LabelRate)
}
