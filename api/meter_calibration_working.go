package api

import (
	"strconv"

	"wetrun/calc"
	"wetrun/calc/unit"
)

func (r *MeterCalibrationRequest) methods() methodSet {
	pulsed, set := r.Readings[0].Pulses != 0, r.CurrentSetting.Pulses != 0
	var s methodSet
	s.addIf(!pulsed, calc.MethodCorrectionFactor)
	s.addIf(pulsed, calc.MethodAmountPerPulse)
	s.addIf(pulsed && set, calc.MethodFactorOfPulses)
	s.addIf(!pulsed || set, calc.MethodMeterError)
	s.addIf(!pulsed && set, calc.MethodAmountPerPulseOfSetting)
	s.addIf(pulsed || set, calc.MethodPulsesForAmount)
	s.addIf(set, calc.MethodAmountForPulses)
	s.addIf(r.CurrentFactor.given(), calc.MethodNewFactor)
	s.addIf(len(r.Readings) > 1, calc.MethodMeterSpread)
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
			w.line(calc.MethodPulsesForAmount, at+"/pulseSetting/pulses", bare(x.PulseSetting.Pulses), put("s", k.per), put("u", perPulse))
		}
		if r.Readings[i].Pulses != 0 {
			compared = append(compared, perPulse)
		} else {
			compared = append(compared, x.CorrectionFactor)
		}
	}
	perPulse := k.correction("", r.Readings, a.CorrectionFactor, a.MeterError)
	if a.NewPulses != nil {
		w.line(calc.MethodPulsesForAmount, "/newPulses/pulses", bare(a.NewPulses.Pulses), put("s", k.per), put("u", perPulse))
	}
	if a.NewAmount != nil {
		w.line(calc.MethodAmountForPulses, "/newAmount/per", a.NewAmount.Per, putNumber("n", r.CurrentSetting.Pulses), put("u", perPulse))
	}
	if a.NewFactor.given() {
		w.line(calc.MethodNewFactor, "/newFactor", a.NewFactor, put("f_0", r.CurrentFactor), put("c", a.CorrectionFactor))
	}
	if a.Spread.given() {
		mean := a.CorrectionFactor
		if r.Readings[0].Pulses != 0 {
			mean = perPulse
		}
		w.line(calc.MethodMeterSpread, "/spread", a.Spread, putEach("c_i", compared), put("c", mean))
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
		k.line(calc.MethodAmountPerPulse, "", perPulse, putEach("a_i", measured), putEach("n_i", indicated))
		if setting.Pulses != 0 {
			k.line(calc.MethodFactorOfPulses, at+"/correctionFactor", factor, put("u", perPulse), putNumber("n", setting.Pulses), put("s", k.per))
		}
	default:
		k.line(calc.MethodCorrectionFactor, at+"/correctionFactor", factor, putEach("a_i", measured), putEach("s_i", indicated))
		if setting.Pulses != 0 && at == "" {
			perPulse = in(factor.Value*k.per.si()/float64(setting.Pulses), k.per.Unit)
			k.line(calc.MethodAmountPerPulseOfSetting, "", perPulse, put("c", factor), put("s", k.per), putNumber("n", setting.Pulses))
		}
	}
	if meterError.given() {
		k.line(calc.MethodMeterError, at+"/meterError", meterError, put("c", factor))
	}
	return perPulse
}
