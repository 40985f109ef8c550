package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TankLoadsInput is a tank, a rate, an area and what goes into the water.
type TankLoadsInput struct {
	// TankVolume is what the tank holds. UsableVolume is how much of that is filled
	// and sprayed out again, when it is less; zero stands for TankVolume.
	TankVolume   unit.Volume
	UsableVolume unit.Volume
	// ResidualVolume is what stays in lines, pump and sump after the last load. It
	// is mixed once, on top of what is sprayed, and is not applied: the first load
	// fills it and covers that much less.
	ResidualVolume unit.Volume

	// ApplicationRate is what the sprayer really applies per treated area. The mix
	// is made for it.
	ApplicationRate unit.ApplicationRate
	// LabelRate, when given, is the spray rate that the label or the plan meant, on
	// AreaBasis: it asks what a mix made for it delivers at ApplicationRate.
	LabelRate unit.ApplicationRate
	// RateTolerance is how far ApplicationRate may be from LabelRate; zero stands
	// for DefaultRateTolerance. A product's LabelMaximum has none.
	RateTolerance unit.Ratio

	// TreatedArea is the area under the spray. FieldArea stands in for it, with
	// Width treated of every RowSpacing, and AreaBasis.
	TreatedArea unit.Area
	FieldArea   unit.Area
	Width       unit.Length
	RowSpacing  unit.Length
	// AreaBasis is the area that the rates of the label mean: LabelRate and those
	// of the products. Without a FieldArea it is the treated one.
	AreaBasis RateBasis

	// EqualLoads asks for the same load every time, as few as fit, instead of full
	// loads and a part load.
	EqualLoads bool
	// Products may be empty: then there is water alone.
	Products []TankProduct
}

// TankLoadsResult is how often to fill the tank, and with what.
type TankLoadsResult struct {
	TreatedArea  unit.Area
	FieldArea    unit.Area   // zero when it was not given
	SprayVolume  unit.Volume // applied: rate x treated area
	MixedVolume  unit.Volume // the same and the residual volume
	UsableVolume unit.Volume // of a full load
	Tankfuls     float64     // MixedVolume / UsableVolume

	AreaPerLoad      unit.Area // treated with a full load
	FieldAreaPerLoad unit.Area // zero without FieldArea
	FirstLoadArea    unit.Area // treated with the first load; zero without a residual

	Loads     int      // all of them
	FullLoads int      // those that fill UsableVolume
	PartLoad  TankLoad // the last one, zero when the full ones are enough or all are equal
	EqualLoad TankLoad // each of Loads; zero unless asked for

	// Products are in the order of the input. CarrierWater is what fills the loads
	// up around the liquid ones; dry ones are taken to need no room.
	Products     []TankProductResult
	CarrierWater LoadShares

	Deviation     unit.Ratio      // ApplicationRate from LabelRate
	RateTolerance unit.Ratio      // the one applied; zero without LabelRate
	Verdict       finding.Verdict // NotJudged without LabelRate
	// LabelVerdict is Outside when any product is over its LabelMaximum.
	LabelVerdict finding.Verdict
	Warnings     []finding.Warning
}

// A TankLoad is one fill of the tank.
type TankLoad struct {
	Volume    unit.Volume
	Area      unit.Area // treated with it; with a residual, by any but the first of several
	FieldArea unit.Area // zero without FieldArea
}

// LoadShares is how much water goes into each kind of load, and into all.
type LoadShares struct {
	PerFullLoad, PerPartLoad, PerEqualLoad, Total unit.Volume
}

// Codes of violations of TankLoads.
const (
	CodeUsableAboveTank    = "usable_above_tank"     // more than the tank holds
	CodeResidualTooLarge   = "residual_too_large"    // more than half of a load
	CodeAreaBasisRequired  = "area_basis_required"   // treated or field: they differ
	CodeTooManyLoads       = "too_many_loads"        // more than MostLoads
	CodeProductForm        = "product_form_required" // none of the three forms
	CodeContentAboveWhole  = "content_above_whole"   // more active ingredient than product
	CodeMeasureMismatch    = "measure_mismatch"      // a volume against a mass
	CodeProductsExceedLoad = "products_exceed_load"  // more liquid product than spray
)

// Warning codes of TankLoads, beside WarnUnusualRate and WarnWidthOverRowSpacing.
const (
	WarnSmallPartLoad = "small_part_load" // under smallPart of a load
	WarnSmallLoad     = "small_load"      // the only load is under smallPart of one
	WarnMuchDry       = "much_dry"        // more mass of dry products than muchDry of the water
	WarnManyLoads     = "many_loads"      // more than manyLoads
	WarnLittleWater   = "little_water"    // liquid products are more than half of the load
)

// MostLoads is how many loads are computed: beyond it a load would no longer be
// told from the slack of the comparison.
const MostLoads = 1_000_000

// What is unusual. Common practice, no published source: a tenth of a tank is
// hardly agitated or measured well, a hundred loads are weeks of work, and water takes
// about its own mass of the most soluble fertilizers and less of all else.
const (
	smallPart   = 0.1
	manyLoads   = 100
	littleWater = 0.5
	muchDry     = 1 * unit.KilogramPerLitre
)

// TankLoads shares the spray for an area out into loads,
//
//	V = R x A,   M = V + residual,   n = M / usable
//
// and says what each product gives to a load: with s the product per volume of
// spray (see TankProduct), s x load. n is taken for whole within 1e-9, so an exact
// multiple of the tank leaves no part load. Equal loads are M / ceil(n). The
// treated area is FieldArea x Width / RowSpacing.
//
// With LabelRate, a product that was mixed for it is delivered at
//
//	dose x ApplicationRate / LabelRate
//
// which may be over the label's maximum although the rate is within tolerance.
//
// All quantities must be finite and not below zero. The error is finding.Invalid, with
//   - required, not_positive, not_finite, not_allowed; conflict on TreatedArea
//     beside any of FieldArea, Width, RowSpacing, or a field AreaBasis;
//   - usable_above_tank, residual_too_large (above half of a load: the first load
//     of equal ones would then not even fill the lines), area_basis_required;
//   - too_many_loads, on TankVolume; products_exceed_load, on Products;
//   - the codes of TankProduct under Products[i].
//
// Sources: acres per tank = tank / rate, product per tank = that x dose, Montana
// State University Extension, MT 2000-14, seen in a copy only;
// treated fraction = bed width / row spacing, UF/IFAS Extension ENY-047, 2012,
// http://edis.ifas.ufl.edu/in404 ; product by active ingredient = rate / content,
// University of Missouri, http://cornandsoybeandigest.com/print/get-recipe-right .
// Residual and equal loads are common practice.
func TankLoads(in TankLoadsInput) (TankLoadsResult, error) {
	if err := in.check(); err != nil {
		return TankLoadsResult{}, err
	}
	r := in.volumes()
	if r.Tankfuls > MostLoads {
		return TankLoadsResult{}, finding.Invalid{{Place: finding.Member("tankVolume"), Code: CodeTooManyLoads}}
	}
	r.share(in)
	if err := r.mix(in); err != nil {
		return TankLoadsResult{}, err
	}
	r.judge(in)
	r.warn(in)
	return r, nil
}

// volumes fills what does not depend on whole loads.
func (in TankLoadsInput) volumes() TankLoadsResult {
	r := TankLoadsResult{TreatedArea: in.TreatedArea, FieldArea: in.FieldArea, UsableVolume: in.UsableVolume}
	if in.FieldArea != 0 {
		r.TreatedArea = in.FieldArea * unit.Area(in.treatedShare())
	}
	if r.UsableVolume == 0 {
		r.UsableVolume = in.TankVolume
	}
	r.SprayVolume = unit.Volume(float64(in.ApplicationRate) * float64(r.TreatedArea))
	r.MixedVolume = r.SprayVolume + in.ResidualVolume
	r.Tankfuls = float64(r.MixedVolume / r.UsableVolume)
	r.AreaPerLoad = in.covers(r.UsableVolume)
	r.FieldAreaPerLoad = in.field(r.AreaPerLoad)
	return r
}

// share makes whole loads.
func (r *TankLoadsResult) share(in TankLoadsInput) {
	first := r.UsableVolume
	whole := math.Round(r.Tankfuls)
	exact := whole >= 1 && finding.Deviation(r.Tankfuls, whole) == 0
	if !exact {
		whole = math.Floor(r.Tankfuls)
	}
	r.FullLoads, r.Loads = int(whole), int(whole)
	if !exact {
		r.Loads++
	}
	switch {
	case in.EqualLoads:
		if !exact {
			r.FullLoads = 0
		}
		first = r.MixedVolume / unit.Volume(r.Loads)
		r.EqualLoad = in.load(first, r.Loads == 1)
	case !exact:
		r.PartLoad = in.load(r.MixedVolume-r.UsableVolume*unit.Volume(whole), r.Loads == 1)
		if r.Loads == 1 {
			first = r.PartLoad.Volume
		}
	}
	if in.ResidualVolume != 0 {
		r.FirstLoadArea = in.covers(first - in.ResidualVolume)
	}
}

// load is a load of a volume. The only load of a job fills the lines as well.
func (in TankLoadsInput) load(v unit.Volume, only bool) TankLoad {
	sprayed := v
	if only {
		sprayed -= in.ResidualVolume
	}
	area := in.covers(sprayed)
	return TankLoad{Volume: v, Area: area, FieldArea: in.field(area)}
}

// covers is the treated area that a volume of spray is enough for.
func (in TankLoadsInput) covers(v unit.Volume) unit.Area {
	return unit.Area(float64(v) / float64(in.ApplicationRate))
}

// field is the field area in which an area is treated; zero without a FieldArea.
func (in TankLoadsInput) field(treated unit.Area) unit.Area {
	if in.FieldArea == 0 {
		return 0
	}
	return treated / unit.Area(in.treatedShare())
}

// treatedShare is how much of the field is treated.
func (in TankLoadsInput) treatedShare() unit.Ratio {
	if in.FieldArea == 0 {
		return 1
	}
	return unit.Ratio(in.Width / in.RowSpacing)
}

// basisShare is the treated area in one unit of the area that the label's rates
// mean.
func (in TankLoadsInput) basisShare() unit.Ratio {
	if in.AreaBasis == RateBasisField {
		return in.treatedShare()
	}
	return 1
}

// judge holds the rate against the one that was meant. The products have been
// held against their labels.
func (r *TankLoadsResult) judge(in TankLoadsInput) {
	if in.LabelRate != 0 {
		meant := in.LabelRate / unit.ApplicationRate(in.basisShare())
		r.Deviation, r.RateTolerance, r.Verdict = rateVerdict(float64(in.ApplicationRate), meant, in.RateTolerance)
	}
	for _, p := range r.Products {
		r.LabelVerdict = max(r.LabelVerdict, p.LabelVerdict)
	}
}

func (r *TankLoadsResult) warn(in TankLoadsInput) {
	add := func(place finding.Place, code string) {
		r.Warnings = append(r.Warnings, finding.Warning{Place: place, Code: code})
	}
	if unusualRate(in.ApplicationRate) {
		add(finding.Member("applicationRate"), WarnUnusualRate)
	}
	if !finding.AtMost(float64(in.treatedShare()), 1) {
		add(finding.Member("width"), WarnWidthOverRowSpacing)
	}
	if in.RateTolerance != 0 && in.LabelRate == 0 {
		add(finding.Member("rateTolerance"), WarnToleranceUnused)
	}
	if r.Loads > manyLoads {
		add(finding.Member("tankVolume"), WarnManyLoads)
	}
	if r.PartLoad.Volume != 0 && !finding.AtMost(smallPart, float64(r.PartLoad.Volume/r.UsableVolume)) {
		code := WarnSmallPartLoad
		if r.Loads == 1 {
			code = WarnSmallLoad
		}
		add(finding.Member("tankVolume"), code)
	}
	if !finding.AtMost(littleWater, float64(r.CarrierWater.PerFullLoad/r.UsableVolume)) {
		add(finding.Member("products"), WarnLittleWater)
	}
	var dry unit.Mass
	for i := range r.Products {
		dry += r.Products[i].PerFullLoad.Mass
	}
	if !finding.AtMost(float64(dry)/float64(muchDry), float64(r.CarrierWater.PerFullLoad)) {
		add(finding.Member("products"), WarnMuchDry)
	}
}
