package method

import "wetrun/calc/unit"

// meterCalibrationMethods are those of meter calibration.
var meterCalibrationMethods = group{[]string{"meter-calibration"}, []row{
	{CorrectionFactor, Method{
		ID: "correction_factor", Formula: "c = sum(a_i) / sum(s_i)", Domain: "positive",
		Symbols: []Symbol{
			{"c", "correction_factor", unit.KindNone}, {"a_i", "measured_amount", unit.KindNone}, {"s_i", "indicated_amount", unit.KindNone},
		},
	}},
	{MeterError, Method{
		ID: "meter_error", Formula: "e = 1 / c - 1", Domain: "positive",
		Symbols: []Symbol{{"e", "meter_error", unit.KindRatio}, {"c", "correction_factor", unit.KindNone}},
	}},
	{AmountPerPulse, Method{
		ID: "amount_per_pulse", Formula: "u = sum(a_i) / sum(n_i)", Domain: "positive",
		Symbols: []Symbol{{"u", "amount_per_pulse", unit.KindNone}, {"a_i", "measured_amount", unit.KindNone}, {"n_i", "pulses", unit.KindNone}},
	}},
	{AmountPerPulseOfSetting, Method{
		ID: "amount_per_pulse_of_setting", Formula: "u = c * s / n", Domain: "positive",
		Symbols: []Symbol{
			{"u", "amount_per_pulse", unit.KindNone}, {"c", "correction_factor", unit.KindNone}, {"s", "set_amount", unit.KindNone},
			{"n", "set_pulses", unit.KindNone},
		},
	}},
	{FactorOfPulses, Method{
		ID: "factor_of_pulses", Formula: "c = u * n / s", Domain: "positive",
		Symbols: []Symbol{
			{"c", "correction_factor", unit.KindNone}, {"u", "amount_per_pulse", unit.KindNone}, {"n", "set_pulses", unit.KindNone},
			{"s", "set_amount", unit.KindNone},
		},
	}},
	{PulsesForAmount, Method{
		ID: "pulses_for_amount", Formula: "n = s / u", Domain: "positive",
		Symbols: []Symbol{{"n", "pulses", unit.KindNone}, {"s", "set_amount", unit.KindNone}, {"u", "amount_per_pulse", unit.KindNone}},
	}},
	{AmountForPulses, Method{
		ID: "amount_for_pulses", Formula: "s = n * u", Domain: "positive",
		Symbols: []Symbol{{"s", "set_amount", unit.KindNone}, {"n", "set_pulses", unit.KindNone}, {"u", "amount_per_pulse", unit.KindNone}},
	}},
	{NewFactor, Method{
		ID: "new_factor", Formula: "f = f_0 * c", Domain: "positive",
		Symbols: []Symbol{{"f", "new_factor", unit.KindRatio}, {"f_0", "current_factor", unit.KindRatio}, {"c", "correction_factor", unit.KindNone}},
	}},
	{MeterSpread, Method{
		ID: "meter_spread", Formula: "s = (max(c_i) - min(c_i)) / c", Domain: "two_values",
		Symbols: []Symbol{
			{"s", "meter_spread", unit.KindRatio}, {"c_i", "correction_of_reading", unit.KindNone}, {"c", "correction_factor", unit.KindNone},
		},
	}},
}}
