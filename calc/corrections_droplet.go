package calc

import (
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// droplets returns the class of a state and whether the label allows it; not judged
// when nothing says which are allowed. Where rows meet or overlap, the finest is the
// class, and all of them have to be allowed.
func (x *planner) droplets(s machineState) (class DropletClass, allowed finding.Verdict) {
	if len(x.in.AllowedDropletClasses) > 0 {
		allowed = finding.Within
	}
	label := x.in.nozzle(s.nozzle).Label
	for _, row := range x.in.DropletChart {
		mine := row.Label == "" && s.nozzle == 0 || row.Label != "" && row.Label == label
		if !mine || row.PressureRange.holds(unit.Pressure(s.pressure)) != finding.Within {
			continue
		}
		class = class.orFiner(row.DropletClass)
		if allowed == finding.Within && !x.in.allows(row.DropletClass) {
			allowed = finding.Outside
		}
	}
	if class == DropletClassUnknown && allowed == finding.Within {
		allowed = finding.Outside
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
func (r RateRange) holds(rate unit.ApplicationRate) finding.Verdict {
	return PressureRange{unit.Pressure(r.Low), unit.Pressure(r.High)}.holds(unit.Pressure(rate))
}

// checkLabel checks what the label says of droplets and rate.
func (in CorrectionsInput) checkLabel(v *finding.Invalid) {
	for i := range in.DropletChart {
		row := &in.DropletChart[i]
		row.checkClass(v, i)
		known := row.Label == "" || row.Label == in.Nozzle.Label
		for _, n := range in.Nozzles {
			known = known || n.Label == row.Label
		}
		if !known {
			v.Add(finding.Item("dropletChart", i).Member("label"), CodeUnknownLabel)
		}
	}
	for _, c := range in.AllowedDropletClasses {
		if c == DropletClassUnknown || finding.NotAmong(c, dropletClasses) {
			v.Add(finding.Member("allowedDropletClasses"), finding.CodeNotAllowed)
		}
	}
	r := in.SprayVolumeRange
	wrong := PressureRange{unit.Pressure(r.Low), unit.Pressure(r.High)}.check().Under(finding.Member("sprayVolumeRange"))
	*v = append(*v, wrong...)
	if len(wrong) == 0 && in.TargetApplicationRate > 0 && r.holds(in.TargetApplicationRate) == finding.Outside {
		v.Add(finding.Member("targetApplicationRate"), CodeOutsideSprayVolume)
	}
}
