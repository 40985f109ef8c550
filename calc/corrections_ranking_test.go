package calc_test

import (
	"testing"

	"wetrun/calc"
	"wetrun/calc/unit"
)

// TestReferenceRankingCountsWhatIsLeft, by hand: 120 of 100 at 1 m/s and 1800 rpm ask for
// 1.2 m/s. The engine may turn 2160 / 1.1 = 1963.6 rpm, where 110 are left: 1.2 in both
// ways, but the speed leaves nothing.
func TestReferenceRankingCountsWhatIsLeft(t *testing.T) {
	const lha = unit.LitrePerHectare
	r := mustCorrect(t, calc.CorrectionsInput{
		Measured:              calc.MeasuredState{ApplicationRate: 120 * lha, GroundSpeed: 1, EngineSpeed: 1800 * unit.RevolutionPerMinute},
		TargetApplicationRate: 100 * lha, BoomEven: calc.BoomEven,
		RatedShaft: calc.RatedShaft{EngineSpeed: 2160 / 1.1 * unit.RevolutionPerMinute},
		Pump:       calc.Pump{Type: calc.PositiveDisplacement, Drive: calc.ShaftDrive, Regulation: calc.ReliefValve},
	})
	if len(r.Plans) != 2 || r.Plans[0].Change != calc.ChangeSpeed || r.Plans[1].Change != calc.ChangeEngineSpeed {
		t.Errorf("%+v", r.Plans)
	}
}
