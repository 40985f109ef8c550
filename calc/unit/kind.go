package unit

// Kind is the quantity that a unit measures.
type Kind uint8

// The quantities of the wire, in the order of GET /v1/units.
const (
	KindNone Kind = iota
	KindLength
	KindTime
	KindSpeed
	KindVolume
	KindFlowRate
	KindPressure
	KindArea
	KindWorkRate
	KindApplicationRate
	KindMass
	KindMassRate
	KindDensity
	KindConcentration
	KindRatio
	KindRotationalSpeed
	kindCount
)

var kinds = [kindCount]struct{ name, si string }{
	KindNone:            {"none", ""},
	KindLength:          {"length", "m"},
	KindTime:            {"time", "s"},
	KindSpeed:           {"speed", "m/s"},
	KindVolume:          {"volume", "m3"},
	KindFlowRate:        {"flow_rate", "m3/s"},
	KindPressure:        {"pressure", "Pa"},
	KindArea:            {"area", "m2"},
	KindWorkRate:        {"work_rate", "m2/s"},
	KindApplicationRate: {"application_rate", "m3/m2"},
	KindMass:            {"mass", "kg"},
	KindMassRate:        {"mass_rate", "kg/m2"},
	KindDensity:         {"density", "kg/m3"},
	KindConcentration:   {"concentration", "m3/m3"},
	KindRatio:           {"ratio", "1"},
	KindRotationalSpeed: {"rotational_speed", "1/s"},
}

// String returns the quantity's name on the wire, such as flow_rate.
func (k Kind) String() string { return kinds[k].name }

// SI returns the symbol of the coherent SI unit that factors lead to.
func (k Kind) SI() string { return kinds[k].si }

// Symbols lists the symbols that measure k, in table order.
func (k Kind) Symbols() []string {
	var s []string
	for id := None + 1; id < count; id++ {
		if table[id].Quantity == k {
			s = append(s, table[id].Symbol)
		}
	}
	return s
}
