package operation

import (
	"wetrun/api/wire"
	"wetrun/api/working"
	"wetrun/calc/method"
	"wetrun/calc/unit"
)

// meterWork is the working of one meter. per is the amount that pulses are set for.
type meterWork struct {
	r   *MeterCalibrationRequest
	per wire.Quantity
}

func (r *MeterCalibrationRequest) work(w working.Working, a *MeterCalibrationAnswer, base unit.ID) {
	k := &meterWork{r, r.CurrentSetting.Per.Or(wire.Quantity{Value: 1, Unit: base})}
	var compared []wire.Quantity
	for i := range r.Readings {
		x, w := &a.Readings[i], w.Item("/readings", i)
		perPulse := k.correction(w, r.Readings[i:i+1], false, x.CorrectionFactor, x.MeterError)
		if x.PulseSetting != nil {
			w.Line(method.PulsesForAmount, "/pulseSetting/pulses", working.Dimensionless(x.PulseSetting.Pulses)).With("s", k.per).With("u", perPulse)
		}
		switch {
		case w.MethodsOnly:
		case r.Readings[i].Pulses != 0:
			compared = append(compared, perPulse)
		default:
			compared = append(compared, x.CorrectionFactor)
		}
	}
	perPulse := k.correction(w, r.Readings, true, a.CorrectionFactor, a.MeterError)
	if a.NewPulses != nil {
		w.Line(method.PulsesForAmount, "/newPulses/pulses", working.Dimensionless(a.NewPulses.Pulses)).With("s", k.per).With("u", perPulse)
	}
	if a.NewAmount != nil {
		w.Line(method.AmountForPulses, "/newAmount/per", a.NewAmount.Per).Count("n", r.CurrentSetting.Pulses).With("u", perPulse)
	}
	if a.NewFactor.Given() {
		w.Line(method.NewFactor, "/newFactor", a.NewFactor).With("f_0", r.CurrentFactor).With("c", a.CorrectionFactor)
	}
	if a.Spread.Given() {
		mean := a.CorrectionFactor
		if r.Readings[0].Pulses != 0 {
			mean = perPulse
		}
		w.Line(method.MeterSpread, "/spread", a.Spread).Each("c_i", compared).With("c", mean)
	}
}

// correction adds what one reading or all of them say, and returns the amount of a pulse
// where there is one.
func (k *meterWork) correction(w working.Working, readings []MeterReadingRequest, all bool, factor, meterError wire.Quantity) (perPulse wire.Quantity) {
	var amount, shown float64
	pulsed, setting := readings[0].Pulses != 0, &k.r.CurrentSetting
	for i := range readings {
		amount += readings[i].Measured.SI()
		shown += float64(readings[i].Pulses)
	}
	measured := working.Listed(w, readings, func(x *MeterReadingRequest) wire.Quantity { return x.Measured })
	indicated := working.Listed(w, readings, func(x *MeterReadingRequest) wire.Quantity {
		if pulsed {
			return working.PlainNumber(x.Pulses)
		}
		return x.Indicated
	})
	switch {
	case pulsed:
		perPulse = wire.In(amount/shown, k.per.Unit)
		w.Line(method.AmountPerPulse, "", perPulse).Each("a_i", measured).Each("n_i", indicated)
		if setting.Pulses != 0 {
			w.Line(method.FactorOfPulses, "/correctionFactor", factor).With("u", perPulse).Count("n", setting.Pulses).With("s", k.per)
		}
	default:
		w.Line(method.CorrectionFactor, "/correctionFactor", factor).Each("a_i", measured).Each("s_i", indicated)
		if setting.Pulses != 0 && all {
			perPulse = wire.In(factor.Value*k.per.SI()/float64(setting.Pulses), k.per.Unit)
			w.Line(method.AmountPerPulseOfSetting, "", perPulse).With("c", factor).With("s", k.per).Count("n", setting.Pulses)
		}
	}
	if meterError.Given() {
		w.Line(method.MeterError, "/meterError", meterError).With("c", factor)
	}
	return perPulse
}
