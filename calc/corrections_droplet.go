package calc

import "wetrun/calc/unit"

// A DropletRow is one line of a maker's chart: the class of a nozzle between two
// pressures, both included.
type DropletRow struct {
	Nozzle       string // its label; empty for the present nozzle
	Low, High    unit.Pressure
	DropletClass DropletClass
}

// droplets returns the class of a state and whether the label allows it; not judged
// when nothing says which are allowed. Where rows meet or overlap, the finest is the
// class, and all of them have to be allowed.
func (x *planner) droplets(s machineState) (class DropletClass, allowed Verdict) {
	if len(x.in.AllowedDropletClasses) > 0 {
		allowed = Within
	}
	label := x.in.nozzle(s.nozzle).Label
	for _, row := range x.in.DropletChart {
		mine := row.Nozzle == "" && s.nozzle == 0 || row.Nozzle != "" && row.Nozzle == label
		if !mine || s.pressure == 0 || (PressureRange{row.Low, row.High}).holds(unit.Pressure(s.pressure)) != Within {
			continue
		}
		if class == DropletClassUnknown || row.DropletClass < class {
			class = row.DropletClass
		}
		if allowed == Within && !x.in.allows(row.DropletClass) {
			allowed = Outside
		}
	}
	if class == DropletClassUnknown && allowed == Within {
		allowed = Outside
	}
	return class, allowed
}

func (in CorrectionsInput) allows(class DropletClass) bool {
	for _, a := range in.AllowedDropletClasses {
		if a == class {
			return true
		}
	}
	return false
}

// A RateRange is the lowest and the highest rate that a label asks for; both zero
// when not known. It has no tolerance.
type RateRange struct{ Low, High unit.ApplicationRate }

// holds judges whether a rate lies in the range; not judged when it is not known.
func (r RateRange) holds(rate unit.ApplicationRate) Verdict {
	return PressureRange{unit.Pressure(r.Low), unit.Pressure(r.High)}.holds(unit.Pressure(rate))
}

// checkLabel checks what the label says of droplets and rate.
func (in CorrectionsInput) checkLabel(v *Invalid) {
	for i, row := range in.DropletChart {
		v.positive(float64(row.Low), at("DropletChart", i, "Low"))
		v.positive(float64(row.High), at("DropletChart", i, "High"))
		if row.High > 0 && row.Low > row.High {
			v.add(at("DropletChart", i, "Low"), CodeRangeInverted)
		}
		checkWord(v, uint8(row.DropletClass), uint8(UltraCoarse), at("DropletChart", i, "DropletClass"))
		known := row.Nozzle == "" || row.Nozzle == in.Nozzle.Label
		for _, n := range in.Nozzles {
			known = known || n.Label == row.Nozzle
		}
		if !known {
			v.add(at("DropletChart", i, "Nozzle"), CodeUnknownLabel)
		}
	}
	for _, c := range in.AllowedDropletClasses {
		if c == DropletClassUnknown || c > UltraCoarse {
			v.add("AllowedDropletClasses", CodeNotAllowed)
		}
	}
	r := in.SprayVolumeRange
	wrong := PressureRange{unit.Pressure(r.Low), unit.Pressure(r.High)}.check("SprayVolumeRange")
	*v = append(*v, wrong...)
	if len(wrong) == 0 && in.TargetApplicationRate > 0 && r.holds(in.TargetApplicationRate) == Outside {
		v.add("TargetApplicationRate", CodeOutsideSprayVolume)
	}
}
