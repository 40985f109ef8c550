package calc_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"wetrun/calc"
	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

type (
	flowMeter   = calc.MeterCalibrationInput[unit.Volume]
	flowReading = calc.MeterReading[unit.Volume]
	speedSensor = calc.MeterCalibrationInput[unit.Length]
	speedRun    = calc.MeterReading[unit.Length]
)

func mustMeterCalibration[T calc.Metered](t rapid.TB, in calc.MeterCalibrationInput[T]) calc.MeterCalibrationResult[T] {
	t.Helper()
	if in.MeterTolerance == 0 {
		in.MeterTolerance = 5 * unit.Percent // where a test asks for none; invented
	}
	r, err := calc.MeterCalibration(in)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestReferenceFlowMeterByItsDisplay, by hand: it showed 52 and 50 gal where 50 and
// 50 were caught. c = 100 / 102, the error is 2 / 100 = 2 %; the readings alone give
// 50 / 52 and 1, apart by (1 - 50/52) / (100/102) = 102 / 2600 = 3.923 %. A factor of
// 1.02 that the display multiplies by becomes 1.02 x 100 / 102 = 1.
func TestReferenceFlowMeterByItsDisplay(t *testing.T) {
	gal := unit.USGallon
	r := mustMeterCalibration(t, flowMeter{
		Readings:      []flowReading{{Indicated: 52 * gal, Measured: 50 * gal}, {Indicated: 50 * gal, Measured: 50 * gal}},
		CurrentFactor: 1.02,
	})
	agrees(t, "factor", float64(r.Correction.Factor), 100.0/102, 1e-14)
	agrees(t, "error", float64(r.Correction.Error), 0.02, 1e-12)
	agrees(t, "first", float64(r.Readings[0].Factor), 50.0/52, 1e-14)
	agrees(t, "its error", float64(r.Readings[0].Error), 0.04, 1e-12)
	agrees(t, "second", float64(r.Readings[1].Factor), 1, 1e-14)
	agrees(t, "spread", float64(r.Spread), 102.0/2600, 1e-12)
	agrees(t, "new factor", float64(r.NewFactor), 1, 1e-14)
	agrees(t, "tolerance as asked for", float64(r.MeterTolerance), 0.05, 1e-14)
	if r.Verdict != finding.Within || r.Repeatable != finding.Within || r.Warnings != nil || r.Correction.AmountPerPulse != 0 {
		t.Errorf("%+v", r)
	}
}

// TestReferencePulsesForAnAmount, by hand: the same readings at 510 pulses for 10
// gal. 510 / (100/102) = 520.2 pulses are 10 gal, and 510 pulses are 10 x 100 / 102 =
// 9.80392 gal: the display showed too much, so it takes more pulses.
func TestReferencePulsesForAnAmount(t *testing.T) {
	gal := unit.USGallon
	r := mustMeterCalibration(t, flowMeter{
		Readings:       []flowReading{{Indicated: 52 * gal, Measured: 50 * gal}, {Indicated: 50 * gal, Measured: 50 * gal}},
		CurrentSetting: calc.PulseSetting[unit.Volume]{Pulses: 510, Per: 10 * gal},
	})
	agrees(t, "pulses for 10 gal", float64(10*gal/r.Correction.AmountPerPulse), 520.2, 1e-12)
	agrees(t, "gal for 510 pulses", (510 * r.Correction.AmountPerPulse).In(gal), 1000.0/102, 1e-12)
	if r.NewFactor != 0 {
		t.Errorf("a new factor %v without an old one", r.NewFactor)
	}
}

// TestReferenceSpeedSensorByPulses, by hand: 1000 and 1020 pulses over 100 m each are
// 10.1 a metre. Set to 1000 pulses for 100 m the display has 100 and 102 m: c = 200 /
// 202, error 1 %, and 100 m are to be 1010 pulses. The spread is (0.1 - 100/1020) /
// (200/2020) = 0.0198039. Without a setting nothing can be said of an error.
func TestReferenceSpeedSensorByPulses(t *testing.T) {
	in := speedSensor{Readings: []speedRun{{Pulses: 1000, Measured: 100}, {Pulses: 1020, Measured: 100}}}
	bare := mustMeterCalibration(t, in)
	in.CurrentSetting = calc.PulseSetting[unit.Length]{Pulses: 1000, Per: 100}
	set := mustMeterCalibration(t, in)
	for _, r := range []calc.MeterCalibrationResult[unit.Length]{bare, set} {
		agrees(t, "pulses a metre", 1/float64(r.Correction.AmountPerPulse), 10.1, 1e-14)
		agrees(t, "of the second", 1/float64(r.Readings[1].AmountPerPulse), 10.2, 1e-14)
		agrees(t, "spread", float64(r.Spread), (0.1-100.0/1020)/(200.0/2020), 1e-12)
		if r.Repeatable != finding.Within {
			t.Errorf("repeatable: %v", r.Repeatable)
		}
	}
	agrees(t, "factor", float64(set.Correction.Factor), 200.0/202, 1e-14)
	agrees(t, "error", float64(set.Correction.Error), 0.01, 1e-12)
	if bare.Verdict != finding.NotJudged || bare.Correction.Factor != 0 || bare.Correction.Error != 0 || set.Verdict != finding.Within {
		t.Errorf("without a setting %+v, with it %v", bare.Correction, set.Verdict)
	}
}

// TestReferenceMeterExactlyOnItsTolerance: 105 shown for 100 is 5 % too much, 95 is 5
// % too little; both are inside, and outside of a tolerance that is a millionth lower.
// Readings of factors 1 and 100 / 105 are apart by (1 - 100/105) / (200/205) = 4.881 %.
func TestReferenceMeterExactlyOnItsTolerance(t *testing.T) {
	for _, c := range []struct {
		shown, tolerance float64
		want             finding.Verdict
	}{{105, 0.05, finding.Within}, {95, 0.05, finding.Within}, {105, 0.05 * (1 - 1e-6), finding.Outside}, {95, 0.05 * (1 - 1e-6), finding.Outside}} {
		for _, of := range []unit.Length{unit.Metre, unit.Foot, unit.Yard} {
			x := speedRun{Indicated: unit.Length(c.shown) * of, Measured: 100 * of}
			r := mustMeterCalibration(t, speedSensor{Readings: []speedRun{x, x}, MeterTolerance: unit.Ratio(c.tolerance)})
			if r.Verdict != c.want || r.Spread != 0 || r.Repeatable != finding.Within {
				t.Errorf("%v against %v: %v, spread %v", c.shown, c.tolerance, r.Verdict, r.Spread)
			}
		}
	}
	for tolerance, want := range map[unit.Ratio]finding.Verdict{0.0489: finding.Within, 0.0488: finding.Outside} {
		r := mustMeterCalibration(t, speedSensor{
			Readings: []speedRun{{Indicated: 100, Measured: 100}, {Indicated: 105, Measured: 100}}, MeterTolerance: tolerance,
		})
		if r.Repeatable != want {
			t.Errorf("spread %v against %v: %v", r.Spread, tolerance, r.Repeatable)
		}
	}
}

// TestReferenceMeterThatDoesNotRepeat: 125 shown for 100 and for 150 are errors of 25 % and
// -16.7 %, and 250 for 250 in all: an error of 0, of a meter that nobody can rely on. The
// factors are 0.8 and 1.2, apart by 40 %.
func TestReferenceMeterThatDoesNotRepeat(t *testing.T) {
	in := calc.MeterCalibrationInput[unit.Volume]{
		Readings:       []calc.MeterReading[unit.Volume]{{Indicated: 125, Measured: 100}, {Indicated: 125, Measured: 150}},
		MeterTolerance: 5 * unit.Percent,
	}
	r, err := calc.MeterCalibration(in)
	if err != nil || r.Correction.Error != 0 || r.Repeatable != finding.Outside || r.Verdict != finding.Outside || warned(r.Warnings) != "readings: errors_cancel" {
		t.Errorf("%+v, %v", r, err)
	}
	in.MeterTolerance = 40 * unit.Percent // exactly on it repeats
	if r, err = calc.MeterCalibration(in); err != nil || r.Repeatable != finding.Within || r.Verdict != finding.Within || r.Warnings != nil {
		t.Errorf("%+v, %v", r, err)
	}
	in.Readings[1] = in.Readings[0] // it repeats, and is wrong
	in.MeterTolerance = 5 * unit.Percent
	if r, err = calc.MeterCalibration(in); err != nil || r.Repeatable != finding.Within || r.Verdict != finding.Outside {
		t.Errorf("%+v, %v", r, err)
	}
	in.Readings = []calc.MeterReading[unit.Volume]{{Indicated: 101, Measured: 100}} // nothing says that it does not repeat
	if r, err = calc.MeterCalibration(in); err != nil || r.Repeatable != finding.NotJudged || r.Verdict != finding.Within {
		t.Errorf("%+v, %v", r, err)
	}
}

// TestReferenceMeterWarnings: one reading; 99 pulses, of which one is over 1 %; 20 %
// too much is no warning yet, 21 % is.
func TestReferenceMeterWarnings(t *testing.T) {
	for want, in := range map[string]flowMeter{
		"readings: single_reading":                             {Readings: []flowReading{{Indicated: 1.2, Measured: 1}}},
		"readings[1].pulses: few_pulses":                       {Readings: []flowReading{{Pulses: 100, Measured: 1}, {Pulses: 99, Measured: 1}}},
		"readings: large_correction; readings: single_reading": {Readings: []flowReading{{Indicated: 1.21, Measured: 1}}},
	} {
		if r := mustMeterCalibration(t, in); warned(r.Warnings) != want {
			t.Errorf("warned of %q, want %q", warned(r.Warnings), want)
		} else if len(in.Readings) == 1 && (r.Repeatable != finding.NotJudged || r.Spread != 0) {
			t.Errorf("one reading was judged: %v, %v", r.Repeatable, r.Spread)
		}
	}
}

// TestPropertyMeterCalibration: with the new setting in the display the same pulses
// read what was measured; order does not matter; the factor of all lies between those
// of the readings.
func TestPropertyMeterCalibration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := flowMeter{CurrentSetting: calc.PulseSetting[unit.Volume]{
			Pulses: rapid.IntRange(1, 1e6).Draw(t, "setting"), Per: unit.Volume(rapid.Float64Range(1e-3, 10).Draw(t, "per")),
		}}
		for range rapid.IntRange(2, 6).Draw(t, "n") {
			in.Readings = append(in.Readings, flowReading{
				Pulses:   rapid.IntRange(100, 1e6).Draw(t, "pulses"),
				Measured: unit.Volume(rapid.Float64Range(1e-3, 10).Draw(t, "measured")),
			})
		}
		r := mustMeterCalibration(t, in)
		// The display by the old setting, and then by the new one.
		shown, corrected := flowMeter{}, flowMeter{}
		perPulse := in.CurrentSetting.Per / unit.Volume(in.CurrentSetting.Pulses)
		low, high := r.Readings[0].Factor, r.Readings[0].Factor
		for i, x := range in.Readings {
			shown.Readings = append(shown.Readings, flowReading{Indicated: perPulse * unit.Volume(x.Pulses), Measured: x.Measured})
			corrected.Readings = append(corrected.Readings, flowReading{Indicated: r.Correction.AmountPerPulse * unit.Volume(x.Pulses), Measured: x.Measured})
			low, high = min(low, r.Readings[i].Factor), max(high, r.Readings[i].Factor)
		}
		agrees(t, "by the display", float64(mustMeterCalibration(t, shown).Correction.Factor), float64(r.Correction.Factor), 1e-12)
		agrees(t, "corrected", float64(mustMeterCalibration(t, corrected).Correction.Factor), 1, 1e-12)
		if f := r.Correction.Factor; f < low*(1-1e-12) || f > high*(1+1e-12) {
			t.Errorf("%v is not between %v and %v", f, low, high)
		}
		slices.Reverse(in.Readings)
		back := mustMeterCalibration(t, in)
		agrees(t, "backwards", float64(back.Correction.Factor), float64(r.Correction.Factor), 1e-12)
		if back.Repeatable != r.Repeatable {
			t.Errorf("the verdict changed with the order: %v, %v", back.Repeatable, r.Repeatable)
		}
	})
}

func TestMeterCalibrationRefuses(t *testing.T) {
	good, pulsed := flowReading{Indicated: 1, Measured: 1}, flowReading{Pulses: 200, Measured: 1}
	for want, in := range map[string]flowMeter{
		"readings: too_few":                                               {},
		"readings[0].indicated: required":                                 {Readings: []flowReading{{Measured: 1}}},
		"readings[1].measured: required":                                  {Readings: []flowReading{good, {Indicated: 1}}},
		"readings[0].measured: not_positive":                              {Readings: []flowReading{{Indicated: 1, Measured: -1}}},
		"readings[0].indicated: not_positive":                             {Readings: []flowReading{{Indicated: -1, Measured: 1}}},
		"readings[0].indicated: not_finite":                               {Readings: []flowReading{{Indicated: unit.Volume(endless), Measured: 1}}},
		"readings[0].pulses: not_positive":                                {Readings: []flowReading{{Pulses: -1, Measured: 1}}},
		"readings[0].pulses: conflict":                                    {Readings: []flowReading{{Pulses: 200, Indicated: 1, Measured: 1}}},
		"readings[1].pulses: conflict":                                    {Readings: []flowReading{good, pulsed}},
		"readings[1].indicated: conflict":                                 {Readings: []flowReading{pulsed, good}},
		"currentSetting.pulses: required":                                 {Readings: []flowReading{good}, CurrentSetting: calc.PulseSetting[unit.Volume]{Per: 1}},
		"currentSetting.pulses: not_positive":                             {Readings: []flowReading{good}, CurrentSetting: calc.PulseSetting[unit.Volume]{Pulses: -1, Per: 1}},
		"currentSetting.per: required":                                    {Readings: []flowReading{good}, CurrentSetting: calc.PulseSetting[unit.Volume]{Pulses: 1}},
		"currentFactor: not_positive":                                     {Readings: []flowReading{good}, CurrentFactor: -1},
		"currentFactor: conflict":                                         {Readings: []flowReading{pulsed}, CurrentFactor: 1},
		"readings[0].measured: required; readings[0].indicated: required": {Readings: []flowReading{{}, pulsed}},
		"meterTolerance: not_finite":                                      {Readings: []flowReading{good}, MeterTolerance: unit.Ratio(noNumber)},
		"readings: too_few; currentFactor: conflict":                      {CurrentFactor: 1, CurrentSetting: calc.PulseSetting[unit.Volume]{Pulses: 1, Per: 1}},
	} {
		if in.MeterTolerance == 0 && want != "meterTolerance: required" {
			in.MeterTolerance = 5 * unit.Percent
		}
		if r, err := calc.MeterCalibration(in); refusal(err) != want || r.Readings != nil {
			t.Errorf("got %q, want %q", refusal(err), want)
		}
	}
	_, err := calc.MeterCalibration(flowMeter{Readings: []flowReading{pulsed, pulsed}, CurrentFactor: 1, MeterTolerance: 0.05})
	var v finding.Invalid
	if !errors.As(err, &v) || v[0].Because.String() != "readings[0].pulses" {
		t.Errorf("beside the pulses: %+v", err)
	}
}

// Invented: 1000 and 1020 pulses over 100 m each are 1010 for 100 m.
func ExampleMeterCalibration() {
	r, err := calc.MeterCalibration(calc.MeterCalibrationInput[unit.Length]{
		MeterTolerance: 5 * unit.Percent,
		Readings:       []calc.MeterReading[unit.Length]{{Pulses: 1000, Measured: 100}, {Pulses: 1020, Measured: 100}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f pulses for 100 m\n", 100*unit.Metre/r.Correction.AmountPerPulse)
	// Output: 1010 pulses for 100 m
}
