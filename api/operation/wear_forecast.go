package operation

import (
	"context"
	"errors"
	"slices"
	"time"

	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// WearForecastRequest is the body of POST /v1/wear-forecast.
type WearForecastRequest struct {
	Catches        []WearCatchRequest `json:"catches" validate:"required" len:"3..1000"`
	SprayPressure  wire.Quantity      `json:"sprayPressure" validate:"required" is:"pressure"`
	Nozzle         NozzleRequest      `json:"nozzle,omitzero"`
	NewFlowRate    wire.Quantity      `json:"newFlowRate,omitzero" is:"flow_rate"`
	Limit          wire.Quantity      `json:"limit,omitzero" is:"ratio"`
	HoursPerSeason wire.Quantity      `json:"hoursPerSeason,omitzero" is:"time"`
	Results
}

// WearCatchRequest is a catch with the hours that the nozzles had run, or its date.
type WearCatchRequest struct {
	Label         string        `json:"label,omitzero"`
	Hours         wire.Quantity `json:"hours,omitzero" is:"time" zero:"true"`
	Date          time.Time     `json:"date,omitzero"`
	Volume        wire.Quantity `json:"volume" validate:"required" is:"volume"`
	Time          wire.Quantity `json:"time" validate:"required" is:"time"`
	Nozzles       int           `json:"nozzles,omitzero" range:"1..1000"`
	SprayPressure wire.Quantity `json:"sprayPressure,omitzero" is:"pressure"`
}

func wearForecast(ctx context.Context, r *WearForecastRequest) (WearForecastAnswer, error) {
	result, err := calc.WearForecast(r.input())
	wrong := r.timeViolations()
	if wrong != nil {
		err = withoutTimeViolations(err)
	}
	if err := wire.Combined(append(r.Nozzle.unusedSizeRating().Under(finding.Member("nozzle")), wrong...), err); err != nil {
		return WearForecastAnswer{}, err
	}
	a := r.answer(ctx, result)
	w := working.New(r.shows())
	r.work(w, &result, &a)
	a.Explained = w.Answer()
	return a, nil
}

// timeViolations reports the catches without their time, or with two. calc cannot tell
// hours that are zero from hours that were not given.
func (r *WearForecastRequest) timeViolations() (v finding.Invalid) {
	dated := false
	for i := range r.Catches {
		dated = dated || !r.Catches[i].Date.IsZero()
	}
	for i := range r.Catches {
		c, place := &r.Catches[i], finding.Item("catches", i)
		switch {
		case dated && c.Hours.Given():
			v = append(v, finding.Violation{Place: place.Member("hours"), Code: finding.CodeConflict, Because: place.Member("date")})
		case dated && c.Date.IsZero():
			v = append(v, finding.Violation{Place: place.Member("date"), Code: finding.CodeRequired})
		case !dated && !c.Hours.Given():
			v = append(v, finding.Violation{Place: place.Member("hours"), Code: finding.CodeRequired, Instead: []finding.Place{place.Member("date")}})
		}
	}
	return v
}

// withoutTimeViolations leaves out what calc says of the times of single catches, of which
// timeViolations knows more.
func withoutTimeViolations(err error) error {
	var v finding.Invalid
	if !errors.As(err, &v) {
		return err
	}
	v = slices.DeleteFunc(v, func(x finding.Violation) bool {
		_, member, _ := x.Place.ItemOf(finding.Member("catches"))
		return member.Part() == "hours" || member.Part() == "date"
	})
	if len(v) == 0 {
		return nil
	}
	return v
}

func (r *WearForecastRequest) input() calc.WearForecastInput {
	in := calc.WearForecastInput{
		Catches:        make([]calc.WearCatch, len(r.Catches)),
		SprayPressure:  unit.Pressure(r.SprayPressure.SI()),
		Nozzle:         r.Nozzle.input(),
		NewFlowRate:    unit.FlowRate(r.NewFlowRate.SI()),
		Limit:          unit.Ratio(r.Limit.SI()),
		HoursPerSeason: unit.Time(r.HoursPerSeason.SI()),
	}
	for i := range r.Catches {
		c := &r.Catches[i]
		in.Catches[i] = calc.WearCatch{
			Catch: calc.Catch{
				Volume: unit.Volume(c.Volume.SI()), Time: unit.Time(c.Time.SI()),
				Nozzles: c.Nozzles, SprayPressure: unit.Pressure(c.SprayPressure.SI()),
			},
			Hours: unit.Time(c.Hours.SI()),
			Date:  c.Date,
		}
	}
	return in
}
