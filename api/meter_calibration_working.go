package api

import (
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// meterWork is the working of one meter. per is the amount that pulses are set for.
type meterWork struct {
	r   *MeterCalibrationRequest
	per Quantity
}

func (r *MeterCalibrationRequest) work(w working, a *MeterCalibrationAnswer, base unit.ID) {
	k := &meterWork{r, r.CurrentSetting.Per.or(Quantity{1, base})}
	var compared []Quantity
	for i := range r.Readings {
		x, w := &a.Readings[i], w.item("/readings", i)
		perPulse := k.correction(w, r.Readings[i:i+1], false, x.CorrectionFactor, x.MeterError)
		if x.PulseSetting != nil {
			w.line(method.PulsesForAmount, "/pulseSetting/pulses", dimensionless(x.PulseSetting.Pulses)).with("s", k.per).with("u", perPulse)
		}
		switch {
		case w.methodsOnly:
		case r.Readings[i].Pulses != 0:
			compared = append(compared, perPulse)
		default:
			compared = append(compared, x.CorrectionFactor)
		}
	}
	perPulse := k.correction(w, r.Readings, true, a.CorrectionFactor, a.MeterError)
	if a.NewPulses != nil {
		w.line(method.PulsesForAmount, "/newPulses/pulses", dimensionless(a.NewPulses.Pulses)).with("s", k.per).with("u", perPulse)
	}
	if a.NewAmount != nil {
		w.line(method.AmountForPulses, "/newAmount/per", a.NewAmount.Per).count("n", r.CurrentSetting.Pulses).with("u", perPulse)
	}
	if a.NewFactor.given() {
		w.line(method.NewFactor, "/newFactor", a.NewFactor).with("f_0", r.CurrentFactor).with("c", a.CorrectionFactor)
	}
	if a.Spread.given() {
		mean := a.CorrectionFactor
		if r.Readings[0].Pulses != 0 {
			mean = perPulse
		}
		w.line(method.MeterSpread, "/spread", a.Spread).each("c_i", compared).with("c", mean)
	}
}

// correction adds what one reading or all of them say, and returns the amount of a pulse
// where there is one.
func (k *meterWork) correction(w working, readings []MeterReadingRequest, all bool, factor, meterError Quantity) (perPulse Quantity) {
	var amount, shown float64
	pulsed, setting := readings[0].Pulses != 0, &k.r.CurrentSetting
	for i := range readings {
		amount += readings[i].Measured.si()
		shown += float64(readings[i].Pulses)
	}
	measured := listed(w, readings, func(x *MeterReadingRequest) Quantity { return x.Measured })
	indicated := listed(w, readings, func(x *MeterReadingRequest) Quantity {
		if pulsed {
			return plainNumber(x.Pulses)
		}
		return x.Indicated
	})
	switch {
	case pulsed:
		perPulse = in(amount/shown, k.per.Unit)
		w.line(method.AmountPerPulse, "", perPulse).each("a_i", measured).each("n_i", indicated)
		if setting.Pulses != 0 {
			w.line(method.FactorOfPulses, "/correctionFactor", factor).with("u", perPulse).count("n", setting.Pulses).with("s", k.per)
		}
	default:
		w.line(method.CorrectionFactor, "/correctionFactor", factor).each("a_i", measured).each("s_i", indicated)
		if setting.Pulses != 0 && all {
			perPulse = in(factor.Value*k.per.si()/float64(setting.Pulses), k.per.Unit)
			w.line(method.AmountPerPulseOfSetting, "", perPulse).with("c", factor).with("s", k.per).count("n", setting.Pulses)
		}
	}
	if meterError.given() {
		w.line(method.MeterError, "/meterError", meterError).with("c", factor)
	}
	return perPulse
}
