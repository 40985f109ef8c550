package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// TankRinseInput is what stays in a sprayer after spraying, and how it is rinsed: by
// Rinses one after the other, or by RinseWater in so many EqualRinses.
type TankRinseInput struct {
	ResidualVolume unit.Volume // in tank, pump and lines, before each rinse and after it
	Rinses         []unit.Volume
	RinseWater     unit.Volume
	EqualRinses    int
	WantedShare    unit.Ratio // of the mix, that may be left; zero when not asked for
}

// TankRinseResult is what of the mix is left, as shares of its strength.
type TankRinseResult struct {
	Rinses                []unit.Volume
	SharesLeft            []unit.Ratio // after each rinse
	OneRinse, ThreeRinses unit.Ratio   // left by the same water at once, and in three equal rinses
	RinsesNeeded          int          // equal ones of the same water that leave no more than wanted; 0 for none
	Verdict               finding.Verdict
}

// MostRinses is how many rinses are tried: nobody makes more.
const MostRinses = 20

// TankRinse returns what each rinse leaves of the mix, where the water mixes through with
// all that stays, and as much stays as before,
//
//	c = c0 x Vr / (Vr + V)
//
// so that n equal rinses of the water W leave (Vr / (Vr + W / n))^n: several small ones
// more than one large one. What no water reaches, as in a dead end of a line, is not in it.
//
// Volumes and the wanted share are above zero: finding.Invalid otherwise (required,
// not_positive, not_finite, conflict).
//
// Source: common practice, no published source of the formula; worked examples are.
func TankRinse(in TankRinseInput) (r TankRinseResult, err error) {
	if err := in.check(); err != nil {
		return r, err
	}
	r.Rinses = in.Rinses
	for range in.EqualRinses {
		r.Rinses = append(r.Rinses, in.RinseWater/unit.Volume(in.EqualRinses))
	}
	left, water := unit.Ratio(1), unit.Volume(0)
	for _, v := range r.Rinses {
		left *= unit.Ratio(in.ResidualVolume / (in.ResidualVolume + v))
		water += v
		r.SharesLeft = append(r.SharesLeft, left)
	}
	equal := func(n int) unit.Ratio {
		return unit.Ratio(math.Pow(float64(in.ResidualVolume/(in.ResidualVolume+water/unit.Volume(n))), float64(n)))
	}
	r.OneRinse, r.ThreeRinses = equal(1), equal(3)
	if in.WantedShare == 0 {
		return r, nil
	}
	r.Verdict = finding.Judge(float64(left/in.WantedShare), 1)
	for n := 1; n <= MostRinses && r.RinsesNeeded == 0; n++ {
		if finding.AtMost(float64(equal(n)/in.WantedShare), 1) {
			r.RinsesNeeded = n
		}
	}
	return r, nil
}

func (in TankRinseInput) check() error {
	var v finding.Invalid
	each, water, equal := finding.Member("rinses"), finding.Member("rinseWater"), finding.Member("equalRinses")
	v.Positive(float64(in.ResidualVolume), finding.Member("residualVolume"))
	v.Optional(float64(in.WantedShare), finding.Member("wantedShare"))
	for i, x := range in.Rinses {
		v.PositiveIn(float64(x), "rinses", i, "volume")
	}
	switch {
	case len(in.Rinses) == 0 && in.RinseWater == 0 && in.EqualRinses == 0:
		v.RequiredUnless(each, water)
	case len(in.Rinses) == 0:
		v.PositiveFor(float64(in.RinseWater), water, equal)
		v.PositiveFor(float64(in.EqualRinses), equal, water)
	case in.RinseWater != 0:
		v.Conflict(water, each)
	case in.EqualRinses != 0:
		v.Conflict(equal, each)
	}
	return v.Err()
}
