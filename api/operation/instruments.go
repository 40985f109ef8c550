package operation

import (
	"wetrun/api/wire"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MeasuringRequest is what was measured with and how far it repeats; every operation
// on readings has these members.
type MeasuringRequest struct {
	Instruments   []InstrumentRequest  `json:"instruments,omitzero" len:"0..20"`
	Repeatability RepeatabilityRequest `json:"repeatability,omitzero"`
	Uncertainty   *bool                `json:"uncertainty,omitzero"`
}

// InstrumentRequest is one instrument.
type InstrumentRequest struct {
	ID           string                   `json:"id" validate:"required"`
	Kind         certainty.InstrumentKind `json:"kind" validate:"required"`
	Resolution   wire.Quantity            `json:"resolution" validate:"required" is:"time,length,volume,pressure"`
	ScaleError   wire.Quantity            `json:"scaleError" validate:"required" is:"ratio"`
	ReactionTime wire.Quantity            `json:"reactionTime,omitzero" is:"time"`
}

// RepeatabilityRequest is what is known beforehand of runs and of catches.
type RepeatabilityRequest struct {
	Runs    PriorRequest `json:"runs,omitzero"`
	Catches PriorRequest `json:"catches,omitzero"`
}

// PriorRequest is a standard deviation and what it is worth.
type PriorRequest struct {
	StandardDeviation wire.Quantity `json:"standardDeviation" validate:"required" is:"ratio"`
	DegreesOfFreedom  int           `json:"degreesOfFreedom" validate:"required" range:"1..1000"`
}

// measured are what each kind of instrument measures.
var measured = [...]unit.Kind{certainty.Stopwatch: unit.KindTime, certainty.Tape: unit.KindLength, certainty.Jug: unit.KindVolume, certainty.Gauge: unit.KindPressure}

// input is what calc takes of it. refused tells of resolutions that are not of what
// the instrument measures.
func (m *MeasuringRequest) input() (in certainty.Measuring, refused error) {
	in.Uncertainty = m.Uncertainty == nil || *m.Uncertainty
	in.Repeatability = certainty.Repeatability{Runs: m.Repeatability.Runs.input(), Catches: m.Repeatability.Catches.input()}
	if len(m.Instruments) == 0 {
		return in, nil
	}
	var wrong []wire.FieldError
	in.Instruments = make([]certainty.Instrument, len(m.Instruments))
	for i := range m.Instruments {
		x := &m.Instruments[i]
		if q := x.Resolution; q.Unit.Kind() != measured[x.Kind] {
			wrong = append(wrong, wire.WrongUnit(finding.Item("instruments", i).Member("resolution").Member("unit"), q.Unit, measured[x.Kind]))
		}
		in.Instruments[i] = certainty.Instrument{
			ID: x.ID, Kind: x.Kind, Resolution: x.Resolution.SI(), ScaleError: unit.Ratio(x.ScaleError.SI()),
			ReactionTime: certainty.DefaultInstrument(x.Kind).ReactionTime,
		}
		if x.ReactionTime.Given() {
			in.Instruments[i].ReactionTime = unit.Time(x.ReactionTime.SI())
		}
	}
	if wrong != nil {
		return in, &wire.Refusal{Kind: wire.InvalidRequest, Fields: wrong}
	}
	return in, nil
}

func (p *PriorRequest) input() certainty.Prior {
	return certainty.Prior{StandardDeviation: unit.Ratio(p.StandardDeviation.SI()), DegreesOfFreedom: p.DegreesOfFreedom}
}
