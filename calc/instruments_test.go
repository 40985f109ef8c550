package calc_test

import (
	"errors"
	"strconv"
	"testing"

	"wetrun/calc"
)

// TestInstrumentList: as many as are allowed are taken and no more, each of a kind that
// there is; where one has to be named, those of its kind are listed and no others.
func TestInstrumentList(t *testing.T) {
	with := func(list ...calc.Instrument) error {
		_, err := calc.GroundSpeed(calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: 50, Time: 20}}, Measuring: calc.Measuring{Uncertainty: true, Instruments: list}})
		return err
	}
	var many []calc.Instrument
	for i := range calc.MostInstruments + 1 {
		many = append(many, exact(strconv.Itoa(i), calc.Gauge, 0.01))
	}
	if err := with(many[:calc.MostInstruments]...); err != nil {
		t.Error(err)
	}
	if got := refusal(with(many...)); got != "Instruments: too_many" {
		t.Errorf("one too many: %q", got)
	}
	if got := refusal(with(exact("x", calc.Gauge+1, 0.01))); got != "Instruments[0].Kind: not_allowed" {
		t.Errorf("no kind: %q", got)
	}
	// Two tapes, of which neither is named, and one stopwatch, which need not be.
	err := with(exact("a", calc.Tape, 0.01), exact("w", calc.Stopwatch, 0.01), exact("b", calc.Tape, 0.01))
	var all calc.Invalid
	if !errors.As(err, &all) || len(all) != 1 || all[0].Field != "Runs[0].Tape" || all[0].Code != calc.CodeInstrumentNotNamed || all[0].Allowed != "a\nb" {
		t.Errorf("%+v", err)
	}
}
