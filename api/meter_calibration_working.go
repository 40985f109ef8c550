package api

import (
	"strconv"

	"wetrun/calc/method"
	"wetrun/calc/unit"
)

func (r *MeterCalibrationRequest) methods() methodSet {
	pulsed, set := r.Readings[0].Pulses != 0, r.CurrentSetting.Pulses != 0
	var s methodSet
	s.addIf(!pulsed, method.CorrectionFactor)
	s.addIf(pulsed, method.AmountPerPulse)
	s.addIf(pulsed && set, method.FactorOfPulses)
	s.addIf(!pulsed || set, method.MeterError)
	s.addIf(!pulsed && set, method.AmountPerPulseOfSetting)
	s.addIf(pulsed || set, method.PulsesForAmount)
	s.addIf(set, method.AmountForPulses)
	s.addIf(r.CurrentFactor.given(), method.NewFactor)
	s.addIf(len(r.Readings) > 1, method.MeterSpread)
	return s
}

// meterWork is the working of one meter. per is the amount that pulses are set for.
type meterWork struct {
	*working
	r   *MeterCalibrationRequest
	per Quantity
}

func (r *MeterCalibrationRequest) work(w *working, a *MeterCalibrationResponse, base unit.ID) {
	k := &meterWork{w, r, r.CurrentSetting.Per.or(Quantity{1, base})}
	var compared []Quantity
	for i := range r.Readings {
		x, at := &a.Readings[i], "/readings/"+strconv.Itoa(i)
		perPulse := k.correction(at, r.Readings[i:i+1], x.CorrectionFactor, x.MeterError)
		if x.PulseSetting != nil {
			w.line(method.PulsesForAmount, at+"/pulseSetting/pulses", bare(x.PulseSetting.Pulses), put("s", k.per), put("u", perPulse))
		}
		if r.Readings[i].Pulses != 0 {
			compared = append(compared, perPulse)
		} else {
			compared = append(compared, x.CorrectionFactor)
		}
	}
	perPulse := k.correction("", r.Readings, a.CorrectionFactor, a.MeterError)
	if a.NewPulses != nil {
		w.line(method.PulsesForAmount, "/newPulses/pulses", bare(a.NewPulses.Pulses), put("s", k.per), put("u", perPulse))
	}
	if a.NewAmount != nil {
		w.line(method.AmountForPulses, "/newAmount/per", a.NewAmount.Per, putNumber("n", r.CurrentSetting.Pulses), put("u", perPulse))
	}
	if a.NewFactor.given() {
		w.line(method.NewFactor, "/newFactor", a.NewFactor, put("f_0", r.CurrentFactor), put("c", a.CorrectionFactor))
	}
	if a.Spread.given() {
		mean := a.CorrectionFactor
		if r.Readings[0].Pulses != 0 {
			mean = perPulse
		}
		w.line(method.MeterSpread, "/spread", a.Spread, putEach("c_i", compared), put("c", mean))
	}
}

// correction adds what some readings say together, and returns the amount of a pulse
// where there is one.
func (k *meterWork) correction(at string, readings []MeterReadingRequest, factor, meterError Quantity) (perPulse Quantity) {
	var measured, indicated []Quantity
	var amount, shown float64
	pulsed, setting := readings[0].Pulses != 0, k.r.CurrentSetting
	for _, x := range readings {
		measured = append(measured, x.Measured)
		amount += x.Measured.si()
		if pulsed {
			indicated = append(indicated, plainNumber(x.Pulses))
			shown += float64(x.Pulses)
		} else {
			indicated = append(indicated, x.Indicated)
		}
	}
	switch {
	case pulsed:
		perPulse = in(amount/shown, k.per.Unit)
		k.line(method.AmountPerPulse, "", perPulse, putEach("a_i", measured), putEach("n_i", indicated))
		if setting.Pulses != 0 {
			k.line(method.FactorOfPulses, at+"/correctionFactor", factor, put("u", perPulse), putNumber("n", setting.Pulses), put("s", k.per))
		}
	default:
		k.line(method.CorrectionFactor, at+"/correctionFactor", factor, putEach("a_i", measured), putEach("s_i", indicated))
		if setting.Pulses != 0 && at == "" {
			perPulse = in(factor.Value*k.per.si()/float64(setting.Pulses), k.per.Unit)
			k.line(method.AmountPerPulseOfSetting, "", perPulse, put("c", factor), put("s", k.per), putNumber("n", setting.Pulses))
		}
	}
	if meterError.given() {
		k.line(method.MeterError, at+"/meterError", meterError, put("c", factor))
	}
	return perPulse
}
