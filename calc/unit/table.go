package unit

// ID names one unit symbol of the wire; the zero ID is no unit at all.
type ID uint8

// The units of the table. Their order is the order of GET /v1/units.
const (
	None ID = iota
	IDFt
	IDIn
	IDYd
	IDMi
	IDM
	IDCm
	IDMm
	IDKm
	IDS
	IDMin
	IDH
	IDMph
	IDFtMin
	IDKmH
	IDMS
	IDMMin
	IDFlOzUs
	IDPtUs
	IDQtUs
	IDGalUs
	IDGalImp
	IDFlOzImp
	IDML
	IDL
	IDGalUsMin
	IDFlOzUsMin
	IDGalImpMin
	IDLMin
	IDMLMin
	IDPsi
	IDBar
	IDKPa
	IDAcre
	IDFt2
	IDHa
	IDM2
	IDAcreH
	IDHaH
	IDGalUsAcre
	IDFlOzUsAcre
	IDPtUsAcre
	IDQtUsAcre
	IDGalImpAcre
	IDLAcre
	IDLHa
	IDMLHa
	IDGalUsThousandFt2
	IDFlOzUsThousandFt2
	IDLb
	IDOz
	IDG
	IDKg
	IDLbAcre
	IDOzAcre
	IDKgHa
	IDGHa
	IDLbGalUs
	IDOzGalUs
	IDGL
	IDKgL
	IDKgM3
	IDFlOzUsGalUs
	IDMLL
	IDPct
	IDOne
	IDRpm
	count
)

// Info is one row of the conversion table.
type Info struct {
	Symbol   string
	Quantity Kind
	// Factor is the SI value of one unit, rounded once; Numerator over
	// Denominator is the same factor exactly, both being finite decimals.
	Factor      float64
	Numerator   float64
	Denominator float64
	// UCUM, Rec20 and ADAPT are the codes other systems use, empty where the
	// system has none that we have read. None of them has the international
	// acre: UCUM's [acr_us] and Rec 20's ACR are the US survey acre, larger by
	// 4 parts in a million.
	UCUM, Rec20, ADAPT string
}

// table is the only place in which a unit meets a factor.
var table = [count]Info{
	IDFt:                {"ft", KindLength, foot, foot, 1, "[ft_i]", "FOT", "ft"},
	IDIn:                {"in", KindLength, inch, inch, 1, "[in_i]", "INH", "in"},
	IDYd:                {"yd", KindLength, yard, yard, 1, "[yd_i]", "", ""},
	IDMi:                {"mi", KindLength, mile, mile, 1, "[mi_i]", "SMI", "mi"},
	IDM:                 {"m", KindLength, 1, 1, 1, "m", "MTR", "m"},
	IDCm:                {"cm", KindLength, 1.0 / 100, 1, 100, "cm", "CMT", "cm"},
	IDMm:                {"mm", KindLength, 1.0 / 1000, 1, 1000, "mm", "MMT", "mm"},
	IDKm:                {"km", KindLength, 1000, 1000, 1, "km", "KMT", "km"},
	IDS:                 {"s", KindTime, 1, 1, 1, "s", "SEC", "sec"},
	IDMin:               {"min", KindTime, minute, minute, 1, "min", "MIN", "min"},
	IDH:                 {"h", KindTime, hour, hour, 1, "h", "HUR", "hr"},
	IDMph:               {"mph", KindSpeed, mile / hour, mile, hour, "[mi_i]/h", "HM", "mi1hr-1"},
	IDFtMin:             {"ft/min", KindSpeed, foot / minute, foot, minute, "[ft_i]/min", "FR", "ft1min-1"},
	IDKmH:               {"km/h", KindSpeed, 1000 / hour, 1000, hour, "km/h", "KMH", "km1hr-1"},
	IDMS:                {"m/s", KindSpeed, 1, 1, 1, "m/s", "MTS", "m1sec-1"},
	IDMMin:              {"m/min", KindSpeed, 1 / minute, 1, minute, "m/min", "2X", "m1min-1"},
	IDFlOzUs:            {"fl_oz_us", KindVolume, flOzUS, flOzUS, 1, "[foz_us]", "OZA", "floz"},
	IDPtUs:              {"pt_us", KindVolume, pintUS, pintUS, 1, "[pt_us]", "PTL", "pt"},
	IDQtUs:              {"qt_us", KindVolume, quartUS, quartUS, 1, "[qt_us]", "QTL", "qt"},
	IDGalUs:             {"gal_us", KindVolume, gallonUS, gallonUS, 1, "[gal_us]", "GLL", "gal"},
	IDGalImp:            {"gal_imp", KindVolume, gallonIm, gallonIm, 1, "[gal_br]", "GLI", "igal"},
	IDFlOzImp:           {"fl_oz_imp", KindVolume, flOzIm, flOzIm, 1, "[foz_br]", "OZI", ""},
	IDML:                {"mL", KindVolume, litre / 1000, litre, 1000, "mL", "MLT", "ml"},
	IDL:                 {"L", KindVolume, litre, litre, 1, "L", "LTR", "l"},
	IDGalUsMin:          {"gal_us/min", KindFlowRate, gallonUS / minute, gallonUS, minute, "[gal_us]/min", "G2", "gal1min-1"},
	IDFlOzUsMin:         {"fl_oz_us/min", KindFlowRate, flOzUS / minute, flOzUS, minute, "[foz_us]/min", "K11", "floz1min-1"},
	IDGalImpMin:         {"gal_imp/min", KindFlowRate, gallonIm / minute, gallonIm, minute, "[gal_br]/min", "G3", "igal1min-1"},
	IDLMin:              {"L/min", KindFlowRate, litre / minute, litre, minute, "L/min", "L2", "l1min-1"},
	IDMLMin:             {"mL/min", KindFlowRate, litre / (1000 * minute), litre, 1000 * minute, "mL/min", "41", "ml1min-1"},
	IDPsi:               {"psi", KindPressure, pound * gravity / (inch * inch), pound * gravity, inch * inch, "[psi]", "PS", "PSI"},
	IDBar:               {"bar", KindPressure, 100_000, 100_000, 1, "bar", "BAR", "bar"},
	IDKPa:               {"kPa", KindPressure, 1000, 1000, 1, "kPa", "KPA", "kPa"},
	IDAcre:              {"acre", KindArea, acre, acre, 1, "[acr_us]", "ACR", "ac"},
	IDFt2:               {"ft2", KindArea, sqFoot, sqFoot, 1, "[sft_i]", "FTK", ""},
	IDHa:                {"ha", KindArea, hectare, hectare, 1, "har", "HAR", "ha"},
	IDM2:                {"m2", KindArea, 1, 1, 1, "m2", "MTK", ""},
	IDAcreH:             {"acre/h", KindWorkRate, acre / hour, acre, hour, "[acr_us]/h", "", "ac1hr-1"},
	IDHaH:               {"ha/h", KindWorkRate, hectare / hour, hectare, hour, "har/h", "", "ha1hr-1"},
	IDGalUsAcre:         {"gal_us/acre", KindApplicationRate, gallonUS / acre, gallonUS, acre, "[gal_us]/[acr_us]", "", "gal1ac-1"},
	IDFlOzUsAcre:        {"fl_oz_us/acre", KindApplicationRate, flOzUS / acre, flOzUS, acre, "[foz_us]/[acr_us]", "", "floz1ac-1"},
	IDPtUsAcre:          {"pt_us/acre", KindApplicationRate, pintUS / acre, pintUS, acre, "[pt_us]/[acr_us]", "", "pt1ac-1"},
	IDQtUsAcre:          {"qt_us/acre", KindApplicationRate, quartUS / acre, quartUS, acre, "[qt_us]/[acr_us]", "", "qt1ac-1"},
	IDGalImpAcre:        {"gal_imp/acre", KindApplicationRate, gallonIm / acre, gallonIm, acre, "[gal_br]/[acr_us]", "", "igal1ac-1"},
	IDLAcre:             {"L/acre", KindApplicationRate, litre / acre, litre, acre, "L/[acr_us]", "", "l1ac-1"},
	IDLHa:               {"L/ha", KindApplicationRate, litre / hectare, litre, hectare, "L/har", "", "l1ha-1"},
	IDMLHa:              {"mL/ha", KindApplicationRate, litre / (1000 * hectare), litre, 1000 * hectare, "mL/har", "", "ml1ha-1"},
	IDGalUsThousandFt2:  {"gal_us/1000ft2", KindApplicationRate, gallonUS / (1000 * sqFoot), gallonUS, 1000 * sqFoot, "[gal_us]/(1000.[sft_i])", "", ""},
	IDFlOzUsThousandFt2: {"fl_oz_us/1000ft2", KindApplicationRate, flOzUS / (1000 * sqFoot), flOzUS, 1000 * sqFoot, "[foz_us]/(1000.[sft_i])", "", ""},
	IDLb:                {"lb", KindMass, pound, pound, 1, "[lb_av]", "LBR", "lb"},
	IDOz:                {"oz", KindMass, ounce, ounce, 1, "[oz_av]", "ONZ", "ozm"},
	IDG:                 {"g", KindMass, gram, gram, 1, "g", "GRM", "g"},
	IDKg:                {"kg", KindMass, 1, 1, 1, "kg", "KGM", "kg"},
	IDLbAcre:            {"lb/acre", KindMassRate, pound / acre, pound, acre, "[lb_av]/[acr_us]", "", "lb1ac-1"},
	IDOzAcre:            {"oz/acre", KindMassRate, ounce / acre, ounce, acre, "[oz_av]/[acr_us]", "", "ozm1ac-1"},
	IDKgHa:              {"kg/ha", KindMassRate, 1 / hectare, 1, hectare, "kg/har", "", "kg1ha-1"},
	IDGHa:               {"g/ha", KindMassRate, gram / hectare, gram, hectare, "g/har", "", "g1ha-1"},
	IDLbGalUs:           {"lb/gal_us", KindDensity, pound / gallonUS, pound, gallonUS, "[lb_av]/[gal_us]", "", "lb1gal-1"},
	IDOzGalUs:           {"oz/gal_us", KindDensity, ounce / gallonUS, ounce, gallonUS, "[oz_av]/[gal_us]", "", "ozm1gal-1"},
	IDGL:                {"g/L", KindDensity, gram / litre, gram, litre, "g/L", "", "g1l-1"},
	IDKgL:               {"kg/L", KindDensity, 1.0 / litre, 1, litre, "kg/L", "", "kg1l-1"},
	IDKgM3:              {"kg/m3", KindDensity, 1, 1, 1, "kg/m3", "", ""},
	IDFlOzUsGalUs:       {"fl_oz_us/gal_us", KindConcentration, flOzUS / gallonUS, flOzUS, gallonUS, "[foz_us]/[gal_us]", "", "floz1gal-1"},
	IDMLL:               {"mL/L", KindConcentration, 1.0 / 1000, 1, 1000, "mL/L", "", "ml1l-1"},
	IDPct:               {"%", KindRatio, 1.0 / 100, 1, 100, "%", "P1", "prcnt"},
	IDOne:               {"1", KindRatio, 1, 1, 1, "1", "", ""},
	IDRpm:               {"rpm", KindRotationalSpeed, 1 / minute, 1, minute, "{rev}/min", "RPM", ""},
}

// All lists every unit in table order.
func All() []Info { return append([]Info(nil), table[1:]...) }

// Info returns the unit's row of the table.
func (id ID) Info() Info { return table[id] }

// Symbol returns the unit's symbol, empty for None.
func (id ID) Symbol() string { return table[id].Symbol }

// Kind returns the quantity that the unit measures.
func (id ID) Kind() Kind { return table[id].Quantity }

// Factor returns the SI value of one unit.
func (id ID) Factor() float64 { return table[id].Factor }
