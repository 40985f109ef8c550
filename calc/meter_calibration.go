package calc

import (
	"math"

	"wetrun/calc/finding"
	"wetrun/calc/unit"
)

// MeterKind is what a meter adds up.
type MeterKind string

// The kinds of meters.
const (
	FlowMeter   MeterKind = "flow_meter"   // volumes
	SpeedSensor MeterKind = "speed_sensor" // lengths
)

// Words lists the kinds.
func (MeterKind) Words() []string { return finding.WordsOf([]MeterKind{FlowMeter, SpeedSensor}) }

// Metered is what a meter adds up: a flow meter volumes, a speed sensor lengths.
type Metered interface{ unit.Volume | unit.Length }

// A MeterReading is one amount, as the meter has it and as it was measured.
type MeterReading[T Metered] struct {
	Indicated T   // what the display showed, with the setting now in it
	Pulses    int // counted, in place of Indicated
	Measured  T   // in a jug or on a tape
}

// A PulseSetting is a display's setting of a meter: so many pulses stand for so
// much.
type PulseSetting[T Metered] struct {
	Pulses int
	Per    T
}

// MeterCalibrationInput is what was read and what the display is set to.
type MeterCalibrationInput[T Metered] struct {
	// Readings are all Indicated or all Pulses; at least one, and two to see
	// whether they repeat.
	Readings []MeterReading[T]
	// CurrentSetting is the display's setting as pulses for an amount.
	CurrentSetting PulseSetting[T]
	// CurrentFactor is its setting where the display multiplies by a factor
	// instead. It goes with Indicated only.
	CurrentFactor unit.Ratio
	// MeterTolerance is that of the error and of the spread. Nothing stands in for
	// it: no source was read that could be a default.
	MeterTolerance unit.Ratio
}

// A MeterCorrection is what one reading says of the meter, or all of them. What
// does not follow from them is zero.
type MeterCorrection[T Metered] struct {
	Factor         unit.Ratio // measured / indicated
	Error          unit.Ratio // (indicated - measured) / measured
	AmountPerPulse T          // that a pulse really stands for
}

// MeterCalibrationResult is the correction and how far it is to be trusted.
type MeterCalibrationResult[T Metered] struct {
	Readings   []MeterCorrection[T] // in the order of the input
	Correction MeterCorrection[T]   // of the sums
	NewFactor  unit.Ratio           // CurrentFactor x Factor; zero without one

	MeterTolerance unit.Ratio      // the one applied
	Spread         unit.Ratio      // (highest - lowest factor) / that of the sums; 0 for one reading
	Repeatable     finding.Verdict // NotJudged for one reading
	// Verdict is that of the meter: Within when the error is within the tolerance and the
	// readings repeat, or nothing says that they do not. NotJudged when the display's
	// setting is not known.
	Verdict  finding.Verdict
	Warnings []finding.Warning
}

// Warning codes of MeterCalibration, beside WarnSingleReading.
const (
	WarnFewPulses       = "few_pulses"       // under FewPulses: one more or less weighs too much
	WarnLargeCorrection = "large_correction" // the error is beyond LargeMeterError
	WarnErrorsCancel    = "errors_cancel"    // the error is within its tolerance, and the readings do not repeat
)

// FewPulses is the count below which one pulse more or less is over 1 %: 1 / 100.
const FewPulses = 100

// LargeMeterError is the error that speaks of a wrong setting or unit rather than of
// a meter. Common practice, no published source.
const LargeMeterError = 20 * unit.Percent

// MeterCalibration compares what a meter has with what was measured,
//
//	c = sum of measured / sum of indicated,   error = 1 / c - 1
//
// so that a long reading weighs more than a short one, and the spread of the
// readings, (c_max - c_min) / c. A meter whose readings spread more than the tolerance
// is not within it, whatever their mean: errors that cancel today do not tomorrow.
//
// The display's setting follows from c. A factor that the display multiplies by becomes
// factor x c; pulses for an amount become pulses / c, since a display that shows too
// little (c above 1) waits for too many pulses. Pulses counted give the amount of a pulse,
// sum of measured / sum of pulses, whatever the setting is; against a setting they are an
// indication of pulses x per / pulses.
//
// Measured must be given, and Indicated or Pulses, the same of the two in every
// reading. The error is finding.Invalid, with codes not_positive, not_finite, too_few,
// required (on Measured, on Indicated where there is neither, on the half that is
// missing of CurrentSetting), conflict (on Pulses beside Indicated, on the one that
// the first reading does not have, on CurrentFactor beside CurrentSetting or
// Pulses). Warnings are single_reading, few_pulses, large_correction and errors_cancel
// on Readings.
//
// Sources: the ratio of sums is common practice, no published source; 5 % of meter
// error is from memory of what inspections allow, no text was read.
func MeterCalibration[T Metered](in MeterCalibrationInput[T]) (MeterCalibrationResult[T], error) {
	if err := in.check(); err != nil {
		return MeterCalibrationResult[T]{}, err
	}
	r := MeterCalibrationResult[T]{
		Readings: make([]MeterCorrection[T], len(in.Readings)), MeterTolerance: in.MeterTolerance,
	}
	var measured, shown, high float64
	low := math.Inf(1)
	for i, x := range in.Readings {
		n := x.shown()
		ratio := float64(x.Measured) / n
		r.Readings[i] = in.correction(ratio)
		measured, shown = measured+float64(x.Measured), shown+n
		low, high = math.Min(low, ratio), math.Max(high, ratio)
		if x.Pulses != 0 && x.Pulses < FewPulses {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Item("readings", i).Member("pulses"), Code: WarnFewPulses})
		}
	}
	mean := measured / shown
	r.Correction = in.correction(mean)
	r.NewFactor = in.CurrentFactor * r.Correction.Factor
	if r.Correction.Factor != 0 {
		r.Verdict = finding.Judge(float64(r.Correction.Error), float64(r.MeterTolerance))
		if !finding.AtMost(math.Abs(float64(r.Correction.Error)), float64(LargeMeterError)) {
			r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("readings"), Code: WarnLargeCorrection})
		}
	}
	if len(in.Readings) == 1 {
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("readings"), Code: WarnSingleReading})
		return r, nil
	}
	r.Spread = unit.Ratio(finding.Difference(high, low) / mean)
	r.Repeatable = finding.Judge(float64(r.Spread), float64(r.MeterTolerance))
	if r.Repeatable == finding.Outside && r.Verdict == finding.Within {
		r.Verdict = finding.Outside
		r.Warnings = append(r.Warnings, finding.Warning{Place: finding.Member("readings"), Code: WarnErrorsCancel})
	}
	return r, nil
}

// shown is what the meter has, in its amount or in pulses.
func (x MeterReading[T]) shown() float64 {
	if x.Pulses != 0 {
		return float64(x.Pulses)
	}
	return float64(x.Indicated)
}

// correction is what follows from a ratio of measured to shown.
func (in MeterCalibrationInput[T]) correction(ratio float64) (c MeterCorrection[T]) {
	pulsed, set := in.Readings[0].Pulses != 0, in.CurrentSetting.Pulses != 0
	var perPulse float64
	if set {
		perPulse = float64(in.CurrentSetting.Per) / float64(in.CurrentSetting.Pulses)
	}
	switch {
	case pulsed:
		c.AmountPerPulse = T(ratio)
		if !set {
			return c
		}
		ratio /= perPulse
	case set:
		c.AmountPerPulse = T(ratio * perPulse)
	}
	c.Factor = unit.Ratio(ratio)
	c.Error = unit.Ratio(finding.Difference(1, ratio) / ratio)
	return c
}

func (in MeterCalibrationInput[T]) check() error {
	var v finding.Invalid
	if len(in.Readings) == 0 {
		v.Add(finding.Member("readings"), finding.CodeTooFew)
	}
	for i, x := range in.Readings {
		x.check(&v, i, in.Readings[0])
	}
	if s := in.CurrentSetting; s != (PulseSetting[T]{}) {
		v = append(v, s.check().Under(finding.Member("currentSetting"))...)
	}
	v.Optional(float64(in.CurrentFactor), finding.Member("currentFactor"))
	pulsed := len(in.Readings) > 0 && in.Readings[0].Pulses != 0
	if in.CurrentFactor != 0 && (pulsed || in.CurrentSetting != PulseSetting[T]{}) {
		other := finding.Member("currentSetting")
		if pulsed {
			other = finding.Item("readings", 0).Member("pulses")
		}
		v.Conflict(finding.Member("currentFactor"), other)
	}
	v.Positive(float64(in.MeterTolerance), finding.Member("meterTolerance"))
	return v.Err()
}

func (s PulseSetting[T]) check() (v finding.Invalid) {
	switch {
	case s.Pulses == 0:
		v.Add(finding.Member("pulses"), finding.CodeRequired)
	case s.Pulses < 0:
		v.Add(finding.Member("pulses"), finding.CodeNotPositive)
	}
	v.Positive(float64(s.Per), finding.Member("per"))
	return v
}

// check looks at one reading, which is to be of the kind of the first.
func (x MeterReading[T]) check(v *finding.Invalid, i int, first MeterReading[T]) {
	v.PositiveIn(float64(x.Measured), "readings", i, "measured")
	switch {
	case x.Pulses == 0 && x.Indicated == 0:
		v.RequiredUnless(finding.Item("readings", i).Member("indicated"), finding.Item("readings", i).Member("pulses"))
	case x.Pulses != 0 && (x.Indicated != 0 || first.Pulses == 0 && first.Indicated != 0):
		v.Conflict(finding.Item("readings", i).Member("pulses"), finding.Item("readings", i).Member("indicated"))
	case x.Pulses == 0 && first.Pulses != 0:
		v.Conflict(finding.Item("readings", i).Member("indicated"), finding.Item("readings", i).Member("pulses"))
	case x.Pulses < 0:
		v.Add(finding.Item("readings", i).Member("pulses"), finding.CodeNotPositive)
	case !finding.Valid(float64(x.Indicated)):
		v.Optional(float64(x.Indicated), finding.Item("readings", i).Member("indicated"))
	}
}
