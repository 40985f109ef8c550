package text

var meterCalibration = []entry{
	{"warning.few_pulses", "Fewer than 100 pulses: one more or less changes the result by over 1 %. Measure a larger volume or a longer course.", "Menos de 100 pulsos: uno más o menos cambia el resultado en más de 1 %. Mida un volumen mayor o un tramo más largo."},
	{"warning.large_correction", "The meter is off by more than 20 %. Before you correct it, check its setting, its unit, and that it belongs to this display.", "El medidor tiene un error de más de 20 %. Antes de corregirlo, revise su ajuste, su unidad y que sea el que corresponde a este monitor."},
	{"next.repeat_readings", "Do not change the setting yet. Take at least two readings that agree: the same throttle, pressure and speed as for spraying, a larger volume or a longer course.", "No cambie todavía el ajuste. Tome al menos dos lecturas que coincidan: con el mismo acelerador, la misma presión y la misma velocidad de la aplicación, y un volumen mayor o un tramo más largo."},
	{"next.meter_in_order", "The error is within its tolerance. The setting may stay; the new one is the closer.", "El error está dentro de su tolerancia. El ajuste puede quedarse; el nuevo es más exacto."},
	{"next.enter_factor", "Enter newFactor as the factor that the display multiplies by.", "Ingrese newFactor como el factor por el que multiplica el monitor."},
	{"next.enter_pulses", "Enter newPulses where the display asks for pulses for an amount, or newAmount, when it is there, where it asks for the amount for a number of pulses. They say the same: enter one.", "Ingrese newPulses donde el monitor pide los pulsos de una cantidad, o newAmount, cuando aparece, donde pide la cantidad de un número de pulsos. Dicen lo mismo: ingrese uno solo."},
	{"next.apply_correction", "Multiply by correctionFactor a setting that the display multiplies by. Divide by it a setting of pulses for an amount.", "Multiplique por correctionFactor un ajuste por el que el monitor multiplica. Divida entre él un ajuste de pulsos por cantidad."},
	{"next.read_meter_again", "With the new setting take a reading once more before you trust it. A rate controller needs both its flow meter and its speed sensor right.", "Con el ajuste nuevo, tome una lectura más antes de confiar en él. Un controlador de tasa necesita que estén bien tanto su caudalímetro como su sensor de velocidad."},
}
