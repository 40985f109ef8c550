package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// NozzleAcceptanceRequest is the body of POST /v1/nozzle-acceptance.
type NozzleAcceptanceRequest struct {
	MeasuringRequest
	Gauge             string                   `json:"gauge,omitzero"`
	Nozzle            NozzleRequest            `json:"nozzle,omitzero"`
	SprayPressure     wire.Quantity            `json:"sprayPressure,omitzero" is:"pressure"`
	Catches           []AcceptanceCatchRequest `json:"catches" validate:"required" len:"1..1000"`
	Tolerance         ToleranceRequest         `json:"tolerance,omitzero"`
	CatchPointsOnBoom int                      `json:"catchPointsOnBoom,omitzero" range:"1..10000"`
	ReplaceAllAbove   wire.Quantity            `json:"replaceAllAbove,omitzero" is:"ratio"`
	DutyCycle         wire.Quantity            `json:"dutyCycle,omitzero" is:"ratio"`
	ReplaceAllFrom    int                      `json:"replaceAllFrom,omitzero" range:"1..1000"`
	Results

	origins catchOrigins // of Catches
}

// AcceptanceCatchRequest is a catch with its place.
type AcceptanceCatchRequest struct {
	CatchRequest  `zero:"volume"`
	Position      certainty.Position  `json:"position,omitzero"`
	Bed           int                 `json:"bed,omitzero" range:"1..100"`
	NozzlesOnDrop []DropNozzleRequest `json:"nozzlesOnDrop,omitzero" len:"1..10"`

	samePoint bool                    // as the catch before it; set for follow-ups
	first     *AcceptanceCatchRequest // that a follow-up stands in for
}

// DropNozzleRequest is one kind of nozzle on a drop that carries different ones.
type DropNozzleRequest struct {
	Nozzle NozzleRequest `json:"nozzle" validate:"required"`
	Count  int           `json:"count" validate:"required" range:"1..1000"`
}

// ToleranceRequest is how far a nozzle may be from what: in short, or for each reference
// and each way.
type ToleranceRequest struct {
	Limit wire.Quantity        `json:"limit,omitzero" is:"ratio"`
	Basis calc.Basis           `json:"basis,omitzero"`
	Rated *OutputLimitsRequest `json:"rated,omitzero"`
	Mean  *OutputLimitsRequest `json:"mean,omitzero"`
}

// OutputLimitsRequest is how far below and above; at least one of them.
type OutputLimitsRequest struct {
	Below wire.Quantity `json:"below,omitzero" is:"ratio"`
	Above wire.Quantity `json:"above,omitzero" is:"ratio"`
}

func nozzleAcceptance(ctx context.Context, r *NozzleAcceptanceRequest) (NozzleAcceptanceAnswer, error) {
	if unused := append(r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle")), unusedSizeRatings(r.Catches)...); unused != nil {
		return NozzleAcceptanceAnswer{}, unused
	}
	if wrong := r.Tolerance.check(); wrong != nil {
		return NozzleAcceptanceAnswer{}, wrong
	}
	in := r.input()
	var err error
	if in.Measuring, err = r.MeasuringRequest.input(); err != nil {
		return NozzleAcceptanceAnswer{}, err
	}
	in.Measuring.Explain = r.shows()
	result, err := calc.NozzleAcceptance(in)
	if err != nil {
		return NozzleAcceptanceAnswer{}, err
	}
	a := r.answer(ctx, result)
	a.Warnings = append(a.Warnings, doubtful(ctx, "output", calc.FieldSheetInput{Nozzle: in.Nozzle, Output: sheetOutput(in)}, calc.FieldSheetResult{Output: &result}, func() *CalibrationsRequest {
		return &CalibrationsRequest{Nozzle: LabeledNozzleRequest{NozzleRequest: r.Nozzle}, Output: OutputRequest{Catches: r.Catches, SprayPressure: r.SprayPressure}}
	})...)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *NozzleAcceptanceRequest) input() calc.NozzleAcceptanceInput {
	in := calc.NozzleAcceptanceInput{
		Nozzle:            r.Nozzle.input(),
		SprayPressure:     unit.Pressure(r.SprayPressure.SI()),
		Catches:           make([]calc.AcceptanceCatch, len(r.Catches)),
		Tolerance:         r.Tolerance.input(),
		CatchPointsOnBoom: r.CatchPointsOnBoom,
		Gauge:             r.Gauge,
		ReplaceAllAbove:   unit.Ratio(r.ReplaceAllAbove.SI()),
		DutyCycle:         unit.Ratio(r.DutyCycle.SI()),
		ReplaceAllFrom:    r.ReplaceAllFrom,
	}
	for i := range r.Catches {
		c := &r.Catches[i]
		in.Catches[i] = c.input()
		if c.first != nil {
			first := c.first.input()
			in.Catches[i].First = &first
		}
	}
	return in
}

func (c *AcceptanceCatchRequest) input() calc.AcceptanceCatch {
	catch := calc.AcceptanceCatch{Catch: c.CatchRequest.input(), Position: c.Position, Bed: c.Bed, SamePoint: c.samePoint}
	for j := range c.NozzlesOnDrop {
		d := &c.NozzlesOnDrop[j]
		catch.NozzlesOnDrop = append(catch.NozzlesOnDrop, calc.DropNozzle{Nozzle: d.Nozzle.input(), Count: d.Count})
	}
	return catch
}

func (t *ToleranceRequest) input() calc.OutputTolerance {
	return calc.OutputTolerance{
		Limit: unit.Ratio(t.Limit.SI()), Basis: t.Basis, Rated: t.Rated.input(), Mean: t.Mean.input(),
	}
}

func (l *OutputLimitsRequest) input() calc.Limits {
	if l == nil {
		return calc.Limits{}
	}
	return calc.Limits{Below: unit.Ratio(l.Below.SI()), Above: unit.Ratio(l.Above.SI())}
}

// check reports a basis without its limit, and limits of which there is none. calc does not:
// there zero stands for a default or for no limit.
func (t *ToleranceRequest) check() (wrong finding.Invalid) {
	tolerance := finding.Member("tolerance")
	if t.Basis != calc.DefaultBasis && !t.Limit.Given() {
		wrong.RequiredBy(tolerance.Member("limit"), tolerance.Member("basis"))
	}
	if t.Rated != nil && *t.Rated == (OutputLimitsRequest{}) {
		wrong.RequiredUnless(tolerance.Member("rated").Member("below"), tolerance.Member("rated").Member("above"))
	}
	if t.Mean != nil && *t.Mean == (OutputLimitsRequest{}) {
		wrong.RequiredUnless(tolerance.Member("mean").Member("below"), tolerance.Member("mean").Member("above"))
	}
	return wrong
}

// unusedSizeRatings is unusedSizeRating for the nozzles of drops that carry different ones.
func unusedSizeRatings(catches []AcceptanceCatchRequest) (unused finding.Invalid) {
	for i := range catches {
		for j := range catches[i].NozzlesOnDrop {
			if wrong := catches[i].NozzlesOnDrop[j].Nozzle.unusedSizeRating(); wrong != nil {
				unused = append(unused, wrong.Under(finding.Item("catches", i).Item("nozzlesOnDrop", j).Member("nozzle"))...)
			}
		}
	}
	return unused
}
