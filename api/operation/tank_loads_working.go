package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// tankWork is the working of one job.
type tankWork struct {
	working.Working
	r     *TankLoadsRequest
	a     *TankLoadsAnswer
	units *resultUnits

	treated, field, basis wire.Quantity // spray per treated area, per field area, and on the area of the label
}

func (r *TankLoadsRequest) work(w working.Working, x *calc.TankLoadsResult, a *TankLoadsAnswer) {
	k := &tankWork{Working: w, r: r, a: a, units: r.units(), treated: r.ApplicationRate, basis: r.ApplicationRate}
	if r.FieldArea.Given() {
		w.Line(method.TreatedAreaOfField, "/treatedArea", a.TreatedArea).With("F", r.FieldArea).With("W", r.Width).With("b", r.RowSpacing)
		if r.AreaBasis == calc.RateBasisField || len(r.Products) > 0 {
			k.field = wire.In(r.ApplicationRate.SI()*r.Width.SI()/r.RowSpacing.SI(), k.units.rate)
			w.Line(method.RateOnBasis, "", k.field).With("R", r.ApplicationRate).With("W", r.Width).With("b", r.RowSpacing)
		}
		if r.AreaBasis == calc.RateBasisField {
			k.basis = k.field
		}
	}
	w.Line(method.VolumeForArea, "/sprayVolume", a.SprayVolume).With("A", a.TreatedArea).With("R", r.ApplicationRate)
	w.Line(method.MixedVolume, "/mixedVolume", a.MixedVolume).With("V", a.SprayVolume).With("r", k.residual())
	if !r.UsableVolume.Given() {
		w.Conversion("/usableVolume", a.UsableVolume, r.TankVolume)
	}
	w.Line(method.Tankfuls, "/tankfuls", working.Dimensionless(a.Tankfuls)).With("M", a.MixedVolume).With("U", a.UsableVolume)
	w.Line(method.AreaPerLoad, "/areaPerLoad", a.AreaPerLoad).With("V", a.UsableVolume).With("R", r.ApplicationRate)
	k.fieldArea(w, "/fieldAreaPerLoad", a.FieldAreaPerLoad, a.AreaPerLoad)
	first := a.UsableVolume
	if l := a.PartLoad; l != nil {
		w.Line(method.PartLoad, "/partLoad/volume", l.Volume).With("M", a.MixedVolume).Count("n", a.FullLoads).With("U", a.UsableVolume)
		k.load(w.Part("/partLoad"), l)
		if a.Loads == 1 {
			first = l.Volume
		}
	}
	if l := a.EqualLoad; l != nil {
		w.Line(method.EqualLoad, "/equalLoad/volume", l.Volume).With("M", a.MixedVolume).Count("n", a.Loads)
		k.load(w.Part("/equalLoad"), l)
		first = l.Volume
	}
	if a.FirstLoadArea.Given() {
		w.Line(method.AreaAfterLines, "/firstLoadArea", a.FirstLoadArea).With("V", first).With("r", k.residual()).With("R", r.ApplicationRate)
	}
	if a.DeliveredDeviation.Given() {
		w.Line(method.RateDeviation, "/deliveredDeviation", a.DeliveredDeviation).With("R", k.basis).With("R_t", r.LabelRate)
	}
	liquid := [4][]wire.Quantity{}
	for i := range r.Products {
		k.product(i, x, &liquid)
	}
	for i, share := range k.shares(&a.CarrierWater) {
		if share.amount.Given() {
			all := liquid[i]
			if len(all) == 0 && !w.MethodsOnly {
				all = []wire.Quantity{{Value: 0, Unit: k.units.volume}}
			}
			w.Part("/carrierWater").Line(method.CarrierWater, share.member, share.amount).With("V", share.volume).Each("m_i", all)
		}
	}
}

func (k *tankWork) residual() wire.Quantity {
	return k.r.ResidualVolume.Or(wire.Quantity{Value: 0, Unit: k.units.volume})
}

func (k *tankWork) fieldArea(w working.Working, member string, field, treated wire.Quantity) {
	if field.Given() {
		w.Line(method.FieldAreaOfTreated, member, field).With("A", treated).With("b", k.r.RowSpacing).With("W", k.r.Width)
	}
}

// load adds the areas of one load; the only one fills the lines as well.
func (k *tankWork) load(w working.Working, l *TankLoadAnswer) {
	if k.a.Loads == 1 && k.r.ResidualVolume.Given() {
		w.Line(method.AreaAfterLines, "/area", l.Area).With("V", l.Volume).With("r", k.residual()).With("R", k.treated)
	} else {
		w.Line(method.AreaPerLoad, "/area", l.Area).With("V", l.Volume).With("R", k.treated)
	}
	k.fieldArea(w, "/fieldArea", l.FieldArea, l.Area)
}

// A loadShare is one member of LoadSharesAnswer, with the spray that it is in.
type loadShare struct {
	member         string
	amount, volume wire.Quantity
}

func (k *tankWork) shares(s *LoadSharesAnswer) [4]loadShare {
	part, equal := wire.Quantity{}, wire.Quantity{}
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
func (k *tankWork) product(i int, x *calc.TankLoadsResult, liquid *[4][]wire.Quantity) {
	p, a, w := &k.r.Products[i], &k.a.Products[i], k.Item("/products", i)
	rate := p.ProductRate
	if p.ActiveIngredientRate.Given() {
		rate = wire.In(p.ActiveIngredientRate.SI()/p.ActiveIngredientContent.SI(), k.units.rate)
		if p.ActiveIngredientContent.Unit.Kind() == unit.KindRatio {
			rate = wire.In(rate.SI(), k.units.massRate)
		}
		w.Line(method.ProductOfIngredient, "", rate).With("a", p.ActiveIngredientRate).With("c", p.ActiveIngredientContent)
	}
	amount := func(w working.Working, member string, result, volume wire.Quantity) {
		switch {
		case !result.Given():
		case p.Concentration.Given():
			w.Line(method.ConcentrateInVolume, member, result).With("c", p.Concentration).With("V", volume)
		default:
			w.Line(method.ProductInVolume, member, result).With("P", rate).With("V", volume).With("R", k.basis)
		}
	}
	for j, share := range k.shares(&a.LoadSharesAnswer) {
		amount(w, share.member, share.amount, share.volume)
		if share.amount.Given() && !w.MethodsOnly && x.Products[i].Total.Mass == 0 {
			liquid[j] = append(liquid[j], share.amount)
		}
	}
	for _, share := range k.shares(&a.Measure) {
		amount(w.Part("/measure"), share.member, share.amount, share.volume)
	}
	applied := func(member string, result, rateApplied, mixedFor wire.Quantity) {
		switch {
		case !result.Given():
		case p.Concentration.Given():
			w.Line(method.ConcentrateRate, member, result).With("c", p.Concentration).With("R_a", rateApplied)
		default:
			w.Line(method.ProductRateApplied, member, result).With("P", rate).With("R_a", rateApplied).With("R", mixedFor)
		}
	}
	applied("/ratePerArea", a.RatePerArea, k.basis, k.basis)
	applied("/ratePerTreatedArea", a.RatePerTreatedArea, k.treated, k.basis)
	applied("/ratePerFieldArea", a.RatePerFieldArea, k.field, k.basis)
	applied("/deliveredRate", a.DeliveredRate, k.basis, k.r.LabelRate)
}
