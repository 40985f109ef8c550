package text

var meterCalibration = []entry{
	{"warning.few_pulses", "Fewer than 100 pulses: one more or less changes the result by over 1 %. Measure a larger volume or a longer course.", ""},
	{"warning.large_correction", "The meter is off by more than 20 %. Before you correct it, check its setting, its unit, and that it belongs to this display.", ""},
	{"next.repeat_readings", "Do not change the setting yet. Take at least two readings that agree: the same throttle, pressure and speed as for spraying, a larger volume or a longer course.", ""},
	{"next.meter_in_order", "The error is within its tolerance. The setting may stay; the new one is the closer.", ""},
	{"next.enter_factor", "Enter newFactor as the factor that the display multiplies by.", ""},
	{"next.enter_pulses", "Enter newPulses where the display asks for pulses for an amount, or newAmount, when it is there, where it asks for the amount for a number of pulses. They say the same: enter one.", ""},
	{"next.apply_correction", "Multiply by correctionFactor a setting that the display multiplies by. Divide by it a setting of pulses for an amount.", ""},
	{"next.read_meter_again", "With the new setting take a reading once more before you trust it. A rate controller needs both its flow meter and its speed sensor right.", ""},
}
