package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// TankRinseRequest is the body of POST /v1/tank-rinse.
type TankRinseRequest struct {
	ResidualVolume  wire.Quantity  `json:"residualVolume" validate:"required" is:"volume"`
	Rinses          []RinseRequest `json:"rinses,omitzero" len:"1..20"`
	RinseWater      wire.Quantity  `json:"rinseWater,omitzero" is:"volume"`
	NumberOfRinses  int            `json:"numberOfRinses,omitzero" range:"1..20"`
	WantedShareLeft wire.Quantity  `json:"wantedShareLeft,omitzero" is:"ratio"`
	Results
}

// RinseRequest is the water of one rinse.
type RinseRequest struct {
	Volume wire.Quantity `json:"volume" validate:"required" is:"volume"`
}

// TankRinseAnswer is what of the mix is left, as shares of its strength.
type TankRinseAnswer struct {
	Rinses              []RinseAnswer      `json:"rinses"`
	RinseWater          wire.Quantity      `json:"rinseWater"`
	ShareLeft           wire.Quantity      `json:"shareLeft"`
	OneRinse            wire.Quantity      `json:"oneRinse"`
	ThreeRinses         wire.Quantity      `json:"threeRinses"`
	WithinTolerance     *bool              `json:"withinTolerance,omitzero"`
	EqualRinsesNeeded   *EqualRinsesAnswer `json:"equalRinsesNeeded,omitzero"`
	WaterForThreeRinses wire.Quantity      `json:"waterForThreeRinses,omitzero"`
	NextSteps           []Notice           `json:"nextSteps,omitzero"`
	Cautions            []Notice           `json:"cautions"`
	Warnings            []Warning          `json:"warnings,omitzero"`
	working.Explained
}

// RinseAnswer is what one rinse leaves.
type RinseAnswer struct {
	Volume    wire.Quantity `json:"volume"`
	ShareLeft wire.Quantity `json:"shareLeft"`
}

// EqualRinsesAnswer is so many rinses of so much water each.
type EqualRinsesAnswer struct {
	Number int           `json:"number"`
	Volume wire.Quantity `json:"volume"`
}

func tankRinse(ctx context.Context, r *TankRinseRequest) (TankRinseAnswer, error) {
	in := calc.TankRinseInput{
		ResidualVolume: unit.Volume(r.ResidualVolume.SI()), RinseWater: unit.Volume(r.RinseWater.SI()), NumberOfRinses: r.NumberOfRinses,
		WantedShareLeft: unit.Ratio(r.WantedShareLeft.SI()),
	}
	for _, x := range r.Rinses {
		in.Rinses = append(in.Rinses, unit.Volume(x.Volume.SI()))
	}
	result, err := calc.TankRinse(in)
	if err != nil {
		return TankRinseAnswer{}, err
	}
	volume := r.units().volume
	a := TankRinseAnswer{
		Rinses: make([]RinseAnswer, len(result.Rinses)), RinseWater: r.RinseWater.Or(wire.In(result.RinseWater, volume)),
		OneRinse: percent(result.OneRinse), ThreeRinses: percent(result.ThreeRinses), WithinTolerance: within(result.Verdict),
		Cautions: rinseCautions.in(ctx), Warnings: warnings(ctx, result.Warnings),
	}
	for i, share := range result.SharesLeft {
		a.ShareLeft = percent(share)
		a.Rinses[i] = RinseAnswer{wire.In(result.Rinses[i], volume), a.ShareLeft}
		if len(r.Rinses) > 0 {
			a.Rinses[i].Volume = r.Rinses[i].Volume
		}
	}
	if n := result.RinsesNeeded; n > 0 {
		a.EqualRinsesNeeded = &EqualRinsesAnswer{n, wire.In(result.RinseWater/unit.Volume(n), volume)}
	}
	if result.WaterForThreeRinses > 0 {
		a.WaterForThreeRinses = wire.In(result.WaterForThreeRinses, volume)
	}
	switch {
	case result.Verdict != finding.Outside:
	case result.RinsesNeeded > 0:
		a.NextSteps = nextSteps(ctx, "split_rinse_water")
	default:
		a.NextSteps = nextSteps(ctx, "more_rinse_water")
	}
	w := working.New(r.shows())
	r.work(w, &a)
	a.Explained = w.Answer()
	return a, nil
}

func (r *TankRinseRequest) work(w working.Working, a *TankRinseAnswer) {
	before := wire.Quantity{Value: 1, Unit: unit.IDOne}
	for i, x := range a.Rinses {
		w := w.Item("/rinses", i)
		if len(r.Rinses) == 0 {
			w.Line(method.EqualRinseVolume, "/volume", x.Volume).With("W", r.RinseWater).Count("n", r.NumberOfRinses)
		}
		w.Line(method.RinseDilution, "/shareLeft", x.ShareLeft).With("c_0", before).With("V_r", r.ResidualVolume).With("V", x.Volume)
		before = x.ShareLeft.To(unit.IDOne)
	}
	if !r.RinseWater.Given() {
		w.Line(method.TotalRinseWater, "/rinseWater", a.RinseWater).
			Each("V_i", working.Listed(w, a.Rinses, func(x *RinseAnswer) wire.Quantity { return x.Volume }))
	}
	w.Line(method.EqualRinses, "/oneRinse", a.OneRinse).With("V_r", r.ResidualVolume).With("W", a.RinseWater).Count("n", 1)
	w.Line(method.EqualRinses, "/threeRinses", a.ThreeRinses).With("V_r", r.ResidualVolume).With("W", a.RinseWater).Count("n", 3)
	if n := a.EqualRinsesNeeded; n != nil {
		w.Line(method.EqualRinseVolume, "/equalRinsesNeeded/volume", n.Volume).With("W", a.RinseWater).Count("n", n.Number)
	}
	if a.WaterForThreeRinses.Given() {
		w.Line(method.WaterForRinses, "/waterForThreeRinses", a.WaterForThreeRinses).
			Count("n", 3).With("V_r", r.ResidualVolume).With("c", r.WantedShareLeft)
	}
}
