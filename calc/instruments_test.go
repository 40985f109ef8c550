package calc_test

import (
	"errors"
	"slices"
	"strconv"
	"testing"

	"wetrun/calc"
	"wetrun/calc/certainty"
	"wetrun/calc/finding"
)

// TestInstrumentList: as many as are allowed are taken and no more, each of a kind that
// there is; where one has to be named, those of its kind are listed and no others.
func TestInstrumentList(t *testing.T) {
	with := func(list ...certainty.Instrument) error {
		_, err := calc.GroundSpeed(calc.GroundSpeedInput{Runs: []calc.Run{{CourseLength: 50, Time: 20}}, Measuring: certainty.Measuring{Uncertainty: true, Instruments: list}})
		return err
	}
	var many []certainty.Instrument
	for i := range certainty.MostInstruments + 1 {
		many = append(many, exact(strconv.Itoa(i), certainty.Gauge, 0.01))
	}
	if err := with(many[:certainty.MostInstruments]...); err != nil {
		t.Error(err)
	}
	if got := refusal(with(many...)); got != "instruments: too_many" {
		t.Errorf("one too many: %q", got)
	}
	if got := refusal(with(exact("x", certainty.Gauge+1, 0.01))); got != "instruments[0].kind: not_allowed" {
		t.Errorf("no kind: %q", got)
	}
	// Two tapes, of which neither is named, and one stopwatch, which need not be.
	err := with(exact("a", certainty.Tape, 0.01), exact("w", certainty.Stopwatch, 0.01), exact("b", certainty.Tape, 0.01))
	var all finding.Invalid
	if !errors.As(err, &all) || len(all) != 1 || all[0].Place.String() != "runs[0].tape" || all[0].Code != certainty.CodeInstrumentNotNamed || !slices.Equal(all[0].Allowed, []string{"a", "b"}) {
		t.Errorf("%+v", err)
	}
}
