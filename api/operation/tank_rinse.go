package operation

import (
	"context"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// TankRinseRequest is the body of POST /v1/tank-rinse.
type TankRinseRequest struct {
	ResidualVolume wire.Quantity  `json:"residualVolume" validate:"required" is:"volume"`
	Rinses         []RinseRequest `json:"rinses,omitzero" len:"1..20"`
	RinseWater     wire.Quantity  `json:"rinseWater,omitzero" is:"volume"`
	EqualRinses    int            `json:"equalRinses,omitzero" range:"1..20"`
	WantedShare    wire.Quantity  `json:"wantedShare,omitzero" is:"ratio"`
	Results
}

// RinseRequest is the water of one rinse.
type RinseRequest struct {
	Volume wire.Quantity `json:"volume" validate:"required" is:"volume"`
}

// TankRinseAnswer is what of the mix is left, as shares of its strength.
type TankRinseAnswer struct {
	Rinses          []RinseAnswer `json:"rinses"`
	ShareLeft       wire.Quantity `json:"shareLeft"`
	OneRinse        wire.Quantity `json:"oneRinse"`
	ThreeRinses     wire.Quantity `json:"threeRinses"`
	WithinTolerance *bool         `json:"withinTolerance,omitzero"`
	RinsesNeeded    int           `json:"rinsesNeeded,omitzero"`
	Cautions        []Notice      `json:"cautions"`
	working.Explained
}

// RinseAnswer is what one rinse leaves.
type RinseAnswer struct {
	Volume    wire.Quantity `json:"volume"`
	ShareLeft wire.Quantity `json:"shareLeft"`
}

var rinseCautions = cautionsOf("label_is_law", "protective_equipment", "spray_out_rinsate", "pressure_injects", "local_rules")

func tankRinse(ctx context.Context, r *TankRinseRequest) (TankRinseAnswer, error) {
	in := calc.TankRinseInput{
		ResidualVolume: unit.Volume(r.ResidualVolume.SI()), RinseWater: unit.Volume(r.RinseWater.SI()), EqualRinses: r.EqualRinses,
		WantedShare: unit.Ratio(r.WantedShare.SI()),
	}
	for _, x := range r.Rinses {
		in.Rinses = append(in.Rinses, unit.Volume(x.Volume.SI()))
	}
	result, err := calc.TankRinse(in)
	if err != nil {
		return TankRinseAnswer{}, err
	}
	a := TankRinseAnswer{
		OneRinse: percent(result.OneRinse), ThreeRinses: percent(result.ThreeRinses),
		WithinTolerance: within(result.Verdict), RinsesNeeded: result.RinsesNeeded, Cautions: rinseCautions.in(ctx),
	}
	w, before, water := working.New(r.shows()), 1.0, wire.Quantity{Unit: r.units().volume}
	for i, share := range result.SharesLeft {
		x, w := RinseAnswer{wire.In(result.Rinses[i], water.Unit), percent(share)}, w.Item("/rinses", i)
		if r.Rinses != nil {
			x.Volume = r.Rinses[i].Volume
		} else {
			w.Line(method.EqualRinseVolume, "/volume", x.Volume).With("W", r.RinseWater).Count("n", r.EqualRinses)
		}
		w.Line(method.RinseDilution, "/shareLeft", x.ShareLeft).Number("c_0", before).With("V_r", r.ResidualVolume).With("V", x.Volume)
		a.Rinses, a.ShareLeft, before = append(a.Rinses, x), x.ShareLeft, float64(share)
		water.Value += x.Volume.As(water.Unit)
	}
	w.Line(method.EqualRinses, "/oneRinse", a.OneRinse).With("V_r", r.ResidualVolume).With("W", water).Count("n", 1)
	w.Line(method.EqualRinses, "/threeRinses", a.ThreeRinses).With("V_r", r.ResidualVolume).With("W", water).Count("n", 3)
	a.Explained = w.Answer()
	return a, nil
}
